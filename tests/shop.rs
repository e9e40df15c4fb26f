//! The shop's file: a gallery of wrong ones with their golden messages, and the real executable
//! started with the example.

mod common;

use common::{Service, golden, root};
use reqwest::blocking::{Client, Response};
use serde_json::{Value, json};
use shop_reckoner::shop::Shop;

const EXAMPLE: &str = "data/shop/tern-point-works.toml";

#[test]
fn every_wrong_file_gets_its_golden_message() {
    let gallery = std::fs::read_to_string(root().join("tests/shop/bad.txt")).expect("the gallery");
    let mut out = String::new();
    let mut seen = 0;
    for case in gallery.split("\n## ").skip(1) {
        let (name, file) = case.split_once('\n').unwrap_or((case, ""));
        let faults = Shop::read(file).err().unwrap_or_else(|| panic!("{name}: it was taken"));
        assert!(!faults.0.is_empty(), "{name}: refused without a reason");
        for fault in &faults.0 {
            let lines = file.lines().count().max(1);
            assert!((1..=lines).contains(&fault.line), "{name}: line {} of {lines}", fault.line);
            assert!(!fault.says.is_empty() && !fault.try_this.is_empty(), "{name}: {fault:?}");
        }
        out.push_str(&format!("## {name}\n{faults}\n\n"));
        seen += 1;
    }
    assert!(seen > 40, "only {seen} files were tried");
    golden("tests/shop/messages.txt", &out);
}

#[test]
fn a_wrong_file_stops_the_start_with_the_line_and_the_reason() {
    let file = std::env::temp_dir().join(format!("shop-reckoner-wrong-{}.toml", std::process::id()));
    std::fs::write(&file, "name = \"Tern Point Works\"\n[machines.mill]\nspindle_power = \"1.5\"\n").expect("a file");
    let run = |path: &str| {
        let run = std::process::Command::new(env!("CARGO_BIN_EXE_shop-reckoner"))
            .args(["--listen", "127.0.0.1:0", "--shop", path])
            .output()
            .expect("it runs");
        (
            run.status.success(),
            String::from_utf8_lossy(&run.stdout).into_owned(),
            String::from_utf8_lossy(&run.stderr).into_owned(),
        )
    };
    let (ok, said, error) = run(file.to_str().expect("a path"));
    let _ = std::fs::remove_file(&file);
    assert!(!ok && said.is_empty(), "{said}");
    assert!(error.contains("line 3: machines.mill.spindle_power: \"1.5\" has no unit"), "{error}");
    let (ok, _, error) = run("no-such-file.toml");
    assert!(!ok && error.contains("--shop no-such-file.toml"), "{error}");
}

struct Caller {
    service: Service,
    client: Client,
}

impl Caller {
    fn with_shop() -> Self {
        let file = root().join(EXAMPLE);
        Self::with(&["--shop", file.to_str().expect("a path")])
    }

    fn with(arguments: &[&str]) -> Self {
        Self { service: Service::start(arguments), client: Client::new() }
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) -> Response {
        self.client.get(format!("{}{path}", self.service.base)).query(fields).send().expect("an answer")
    }

    fn ask(&self, path: &str, fields: &[(&str, &str)]) -> Value {
        let response = self.send(path, fields);
        assert_eq!(response.status(), 200, "{path} {fields:?}: {:?}", response.text());
        response.json().expect("JSON")
    }

    fn refused(&self, path: &str, fields: &[(&str, &str)]) -> Value {
        let response = self.send(path, fields);
        assert_eq!(response.status(), 422, "{path} {fields:?}");
        response.json().expect("JSON")
    }
}

fn assumed<'a>(answer: &'a Value, field: &str) -> Option<&'a Value> {
    answer["assumed"].as_array()?.iter().find(|assumed| assumed["field"] == field)
}

const WINCH: [(&str, &str); 3] = [("cutting_speed", "70 ft/min"), ("diameter", "1/2 in"), ("machine", "mill")];
const SPEED: &str = "/v1/speeds/spindle-speed";

#[test]
fn the_mill_stands_for_its_steps_and_the_answer_says_so() {
    let caller = Caller::with_shop();
    let answer = caller.ask(SPEED, &WINCH);
    // 70 ft/min at 1/2 in is 534.8 rpm; of the mill's steps 450 rpm is the next below.
    assert_eq!(answer["result"]["spindle_speed"]["value"], 450.0);
    let steps = assumed(&answer, "available").expect("the steps are on record");
    assert_eq!(steps["says"], "From the machine mill of Tern Point Works.");
    assert_eq!(steps["value"].as_array().map(Vec::len), Some(8));
    assert_eq!(steps["value"][4]["value"], 450.0);
    // The system is that of what was stated, not of the mill.
    assert_eq!(assumed(&answer, "units").expect("units")["value"], "inch");
    assert_eq!(answer["inputs"].as_object().map(|inputs| inputs.contains_key("machine")), Some(false));

    let posted = caller.client.post(format!("{}{SPEED}", caller.service.base)).json(&json!({
        "cutting_speed": "70 ft/min", "diameter": "1/2 in", "machine": "mill"
    }));
    assert_eq!(posted.send().expect("an answer").json::<Value>().expect("JSON"), answer);
}

#[test]
fn what_the_request_states_goes_before_what_the_machine_has() {
    let caller = Caller::with_shop();
    let stated = [&WINCH[..], &[("available", "500 rpm,600 rpm")]].concat();
    let answer = caller.ask(SPEED, &stated);
    assert_eq!(answer["result"]["spindle_speed"]["value"], 500.0);
    assert!(assumed(&answer, "available").is_none(), "{answer}");
    let lathe = caller.ask(SPEED, &[("cutting_speed", "100 m/min"), ("diameter", "10 mm"), ("machine", "lathe")]);
    assert_eq!(lathe["result"]["spindle_speed"]["value"], 710.0);
    assert_eq!(assumed(&lathe, "fastest").expect("fastest")["value"]["value"], 900.0);
}

#[test]
fn the_machine_serves_cells_tables_and_pages_too() {
    let caller = Caller::with_shop();
    let cell = [&WINCH[..], &[("pick", "spindle_speed"), ("units", "inch")]].concat();
    assert_eq!(caller.send(&format!("{SPEED}.txt"), &cell).text().expect("text"), "450");
    let table = caller.send(&format!("{SPEED}.csv"), &WINCH);
    assert_eq!(table.status(), 200);
    assert!(table.text().expect("text").lines().nth(1).is_some_and(|row| row.starts_with("450,")));
    let page = caller.send("/speeds/spindle-speed", &WINCH);
    assert_eq!(page.status(), 200);
    let page = page.text().expect("a page");
    assert!(page.contains("<option value=\"mill\" selected>") && page.contains("<option value=\"lathe\">"), "{page}");
    assert!(page.contains("From the machine mill of Tern Point Works."));
}

#[test]
fn the_readout_of_the_machine_is_the_resolution() {
    let caller = Caller::with_shop();
    let hole = [("diameter", "8.5 mm"), ("full_depth", "20 mm"), ("machine", "mill")];
    let answer = caller.ask("/v1/holes/drill-point", &hole);
    assert_eq!(assumed(&answer, "resolution").expect("resolution")["value"]["value"], 0.005);
    assert_eq!(assumed(&answer, "z_plus").expect("z_plus")["value"], "up");
    let travel = &answer["result"]["travel"];
    // 20 mm and the point's 4.25 mm over tan 59°, 2.5537 mm, to the next 0.005 mm, down where up counts up.
    assert_eq!(travel["set_to"]["value"], -22.555);
    let own = [&hole[..], &[("resolution", "0.01 mm"), ("z_plus", "down")]].concat();
    let answer = caller.ask("/v1/holes/drill-point", &own);
    assert_eq!(answer["result"]["travel"]["set_to"]["value"], 22.55);
    assert!(assumed(&answer, "resolution").is_none() && assumed(&answer, "z_plus").is_none());
    // With the machine's resolution the direction may be stated alone.
    let way = [&hole[..], &[("z_plus", "down")]].concat();
    assert_eq!(caller.ask("/v1/holes/drill-point", &way)["result"]["travel"]["set_to"]["value"], 22.555);
}

#[test]
fn a_pattern_is_held_against_the_travel_of_the_mill() {
    let caller = Caller::with_shop();
    let note = |answer: &Value, code: &str| -> String {
        let notes = answer["notes"].as_array().expect("notes");
        notes.iter().find(|note| note["code"] == code).map_or_else(String::new, |note| note["says"].to_string())
    };
    let line = "/v1/patterns/in-line";
    let row = |more: &[(&str, &str)]| {
        caller.ask(line, &[&[("holes", "6"), ("pitch", "100 mm"), ("machine", "mill")], more].concat())
    };
    // 500 mm of holes on 600 mm of travel.
    let answer = row(&[]);
    let reach = &answer["result"]["reach"];
    assert_eq!(reach["in_one_setting"], "if zero is placed for it");
    assert_eq!((&reach["x"]["zero_least"]["value"], &reach["x"]["zero_most"]["value"]), (&json!(0.0), &json!(100.0)));
    assert_eq!(assumed(&answer, "travel_x").expect("the travel")["says"], "From the machine mill of Tern Point Works.");
    let placed = row(&[("travel_left", "50 mm"), ("travel_front", "120 mm")]);
    assert_eq!(placed["result"]["reach"]["in_one_setting"], "yes");
    assert_eq!(placed["result"]["reach"]["x"]["zero_move"]["value"], 0.0);
    // 480 mm are left to the right of zero, and the last hole lies at 500 mm.
    let answer = row(&[("travel_left", "120 mm"), ("travel_front", "0 mm")]);
    let reach = &answer["result"]["reach"];
    assert_eq!(reach["in_one_setting"], "after moving the part");
    assert_eq!(reach["x"]["zero_move"]["value"], -20.0);
    assert_eq!(reach["out_of_reach"].as_array().map(Vec::len), Some(1));
    assert_eq!((&reach["out_of_reach"][0]["number"], &reach["out_of_reach"][0]["side"]), (&json!(6), &json!("right")));
    assert_eq!(reach["out_of_reach"][0]["beyond"]["value"], 20.0);
    assert!(note(&answer, "out_of_reach").contains("hole 6."), "{answer}");
    // Along Y they need 500 mm of 240 mm; turned a quarter turn they fit.
    let answer = row(&[("rotation", "90 deg")]);
    assert_eq!(answer["result"]["reach"]["in_one_setting"], "no");
    assert_eq!(answer["result"]["reach"]["y"]["spare"]["value"], -260.0);
    assert!(note(&answer, "travel_short").contains("on Y") && note(&answer, "travel_short").contains("quarter turn"));
    assert_eq!(answer["result"]["positions"][5]["y"]["value"], 500.0);
    // Holes that begin 650 mm from zero.
    assert!(!note(&row(&[("start_x", "650 mm")]), "zero_off_travel").is_empty());
    // The lathe's entry has no travel, and a request without a machine has none either.
    let lathe = caller.ask(line, &[("holes", "6"), ("pitch", "100 mm"), ("machine", "lathe")]);
    let bare = caller.ask(line, &[("holes", "6"), ("pitch", "100 mm")]);
    assert!(lathe["result"].get("reach").is_none() && bare["result"].get("reach").is_none());
    // What the lathe brings beside is the resolution of its readout.
    let values = |answer: &Value| answer["result"]["positions"][5]["x"]["value"].clone();
    assert_eq!((values(&lathe), values(&bare)), (json!(500.0), json!(500.0)));
}

#[test]
fn a_machine_that_changes_nothing_is_noted() {
    let caller = Caller::with_shop();
    let answer = caller.ask("/v1/holes/drill-size", &[("diameter", "0.4 in"), ("machine", "mill")]);
    assert_eq!(answer["notes"].as_array().map(|notes| notes.iter().any(|n| n["code"] == "machine_unused")), Some(true));
}

#[test]
fn the_hash_of_the_file_is_in_every_answer_and_in_the_catalogue() {
    let caller = Caller::with_shop();
    let text = std::fs::read_to_string(root().join(EXAMPLE)).expect("the example");
    let shop = Shop::read(&text).expect("the example is sound");
    let answer = caller.ask("/v1/holes/drill-point", &[("diameter", "1/2 in")]);
    assert_eq!(answer["shop"], json!({ "name": "Tern Point Works", "hash": shop.hash }));
    let catalogue = caller.ask("/v1/calculators", &[]);
    assert_eq!(catalogue["shop"]["hash"], json!(shop.hash));
    let machines: Vec<&str> =
        catalogue["shop"]["machines"].as_array().expect("machines").iter().filter_map(|m| m["name"].as_str()).collect();
    assert_eq!(machines, ["lathe", "mill"]);
}

#[test]
fn an_answer_kept_for_one_shop_does_not_pass_for_another() {
    let (with, without) = (Caller::with_shop(), Caller::with(&[]));
    let path = "/v1/holes/drill-point";
    let tag = |caller: &Caller| {
        let response = caller.send(path, &[("diameter", "1/2 in")]);
        response.headers()["etag"].to_str().expect("a tag").to_owned()
    };
    assert_eq!(tag(&with), tag(&with));
    assert_ne!(tag(&with), tag(&without));
}

#[test]
fn drills_come_from_the_drawer_unless_the_request_says_otherwise() {
    let caller = Caller::with_shop();
    let path = "/v1/holes/drill-size";
    let names = |answer: &Value| -> Vec<String> {
        let drills = answer["result"]["drills"].as_array().expect("drills").iter();
        drills.filter_map(|drill| drill["name"].as_str().map(str::to_owned)).collect()
    };
    let wanted = [("diameter", "6.9 mm"), ("systems", "metric"), ("count", "2")];
    let answer = caller.ask(path, &wanted);
    // The drawer goes by half millimeters, and has 6.8 mm for the M8 tap.
    assert_eq!(names(&answer), ["6.8 mm", "7 mm"]);
    assert_eq!(
        assumed(&answer, "from").expect("from")["says"],
        "Drills are chosen from the drawer of Tern Point Works."
    );
    let answer = caller.ask(path, &[&wanted[..], &[("from", "tables")]].concat());
    assert_eq!(names(&answer), ["6.9 mm", "6.8 mm"]);
    let refused = caller.refused(path, &[("diameter", "60 mm"), ("side", "over")]);
    let ways: Vec<&str> =
        refused["errors"].as_array().expect("errors").iter().filter_map(|e| e["field"].as_str()).collect();
    assert_eq!(ways, ["/diameter", "/side", "/from"]);
}

#[test]
fn the_tap_drill_is_one_that_the_shop_has() {
    let caller = Caller::with_shop();
    let path = "/v1/holes/tap-drill";
    // The trade's drill for 1/4-20 is the number 7, and the drawer has it.
    let answer = caller.ask(path, &[("thread", "1/4-20 UNC")]);
    assert_eq!(answer["result"]["drill"]["name"], "#7");
    assert_eq!(assumed(&answer, "from").expect("from")["value"], "shop");
    let owned =
        |answer: &Value, name: &str| answer["result"]["candidates"].to_string().contains(&format!("\"{name}\""));
    // The drawer goes by half millimeters, and has 4.2 mm for the M5 tap, but not 4.3 mm.
    let metric = [("thread", "M5"), ("systems", "metric")];
    let (shop, tables) = (caller.ask(path, &metric), caller.ask(path, &[&metric[..], &[("from", "tables")]].concat()));
    assert!(owned(&shop, "4.2 mm") && !owned(&shop, "4.3 mm"), "{shop}");
    assert!(owned(&tables, "4.2 mm") && owned(&tables, "4.3 mm"), "{tables}");
}

#[test]
fn the_change_gears_of_the_shop_are_taken_where_the_request_names_none() {
    let caller = Caller::with_shop();
    let path = "/v1/threads/change-gears";
    let wanted = [("thread", "M10"), ("leadscrew_lead", "1/8 in")];
    let answer = caller.ask(path, &wanted);
    let gears = assumed(&answer, "gears").expect("gears are on record");
    assert_eq!(gears["says"], "The change gears of Tern Point Works.");
    assert_eq!(gears["value"].as_array().map(Vec::len), Some(16));
    // 1.5 mm over 3.175 mm is 60 over 127, and the shop has both wheels.
    assert_eq!(answer["result"]["trains"][0]["error"]["value"], 0.0);
    assert!(answer["result"]["trains"][0]["train"].as_str().is_some_and(|train| train.contains("127")), "{answer}");
    // Named wheels go first, and say nothing of the shop's.
    let named = caller.ask(path, &[&wanted[..], &[("gears", "20,40,50,60")]].concat());
    assert!(assumed(&named, "gears").is_none());
    assert_ne!(named["result"]["trains"][0]["error"]["value"], 0.0);
    let problem = Caller::with(&[]).refused(path, &wanted);
    assert_eq!(
        (&problem["errors"][0]["field"], &problem["errors"][0]["code"]),
        (&json!("/gears"), &json!("field_missing"))
    );
}

#[test]
fn taps_and_reamers_of_the_shop_are_told_of() {
    let caller = Caller::with_shop();
    let note = |answer: &Value, code: &str| -> Option<String> {
        let notes = answer["notes"].as_array()?;
        notes.iter().find(|note| note["code"] == code)?["says"].as_str().map(str::to_owned)
    };
    for path in ["/v1/threads/tap-limit", "/v1/holes/tap-drill"] {
        let owned = caller.ask(path, &[("thread", "M8")]);
        assert_eq!(note(&owned, "shop_tap").as_deref(), Some("Tern Point Works has a tap for M8."), "{path}");
        let other = caller.ask(path, &[("thread", "M9")]);
        assert_eq!(note(&other, "shop_tap").as_deref(), Some("Tern Point Works lists no tap for M9."), "{path}");
    }
    let ream = |diameter| {
        let fields = [("diameter", diameter), ("cutting_speed", "10 m/min"), ("feed_per_rev", "0.2 mm/rev")];
        note(&caller.ask("/v1/speeds/reaming", &fields), "shop_reamer")
    };
    assert_eq!(ream("0.5 in").as_deref(), Some("Tern Point Works has a reamer of 0.5 in."));
    assert_eq!(ream("9 mm").as_deref(), Some("Tern Point Works lists no reamer of 9 mm; its nearest is 0.375 in."));
    assert_eq!(note(&Caller::with(&[]).ask("/v1/threads/tap-limit", &[("thread", "M8")]), "shop_tap"), None);
}

#[test]
fn ranges_and_solving_backwards_take_the_machine_along() {
    let caller = Caller::with_shop();
    let rows = caller.ask(SPEED, &[WINCH[0], ("diameter", "1/4 in|1/2 in|1 in"), WINCH[2]]);
    // 1069.5, 534.8 and 267.4 rpm, each to the step below.
    let speeds: Vec<&Value> =
        rows["rows"].as_array().expect("rows").iter().map(|row| &row["result"]["spindle_speed"]["value"]).collect();
    assert_eq!(speeds, [900.0, 450.0, 224.0]);
    let count = rows["assumed"].as_array().expect("assumed").iter().filter(|a| a["field"] == "available").count();
    assert_eq!(count, 1, "{rows}");
    // What is to be found is not filled in by the machine: only the wrong unit is left to refuse.
    let sought = [("machine", "lathe"), ("solve_for", "fastest"), ("wanted", "cutting_speed:5 mm")];
    let problem = caller.refused(SPEED, &[&WINCH[..2], &sought].concat());
    let errors = problem["errors"].as_array().expect("errors");
    assert_eq!((errors.len(), &errors[0]["code"]), (1, &json!("unit_wrong")), "{problem}");
}

#[test]
fn an_unknown_machine_is_refused_with_the_nearest_names() {
    let caller = Caller::with_shop();
    let problem = caller.refused(SPEED, &[("cutting_speed", "70 ft/min"), ("machine", "Mil")]);
    let errors = problem["errors"].as_array().expect("errors");
    assert_eq!(errors.len(), 2, "{problem}");
    assert_eq!(
        (&errors[0]["field"], &errors[0]["code"], &errors[0]["try"]),
        (&json!("/machine"), &json!("not_found"), &json!("mill"))
    );
    assert!(errors[0]["says"].as_str().is_some_and(|says| says.contains("lathe, mill")), "{problem}");
    assert_eq!(errors[1]["field"], "/diameter");
}

#[test]
fn a_refusal_of_the_machines_own_field_says_whose_it_is() {
    let caller = Caller::with_shop();
    // The lathe's own fastest is 900 rpm.
    let lathe = [WINCH[0], WINCH[1], ("machine", "lathe"), ("slowest", "1000 rpm")];
    let problem = caller.refused(SPEED, &lathe);
    let errors = problem["errors"].as_array().expect("errors");
    let of_machine = errors.iter().find(|error| error["field"] == "/fastest").expect("fastest is named");
    assert!(of_machine["says"].as_str().is_some_and(|says| says.contains("From the machine lathe")), "{problem}");
}

#[test]
fn a_quill_is_not_fed_by_the_feeds_of_the_table() {
    let caller = Caller::with_shop();
    let codes = |answer: &Value, list: &str| -> Vec<String> {
        answer[list].as_array().expect("a list").iter().map(|one| one["code"].to_string()).collect()
    };
    let fields = [("diameter", "1/8 in"), ("material", "304"), ("tool_material", "hss"), ("machine", "mill")];
    let drilled = caller.ask("/v1/speeds/drilling", &fields);
    // 20 mm/min of the table at 900 rpm would be less than half of the least published.
    assert!(assumed(&drilled, "available_feeds").is_none() && assumed(&drilled, "available").is_some());
    assert!(codes(&drilled, "notes").contains(&"\"fed_by_hand\"".to_owned()), "{drilled}");
    let published = assumed(&drilled, "feed_per_rev").expect("a feed")["value"]["value"].as_f64().expect("a number");
    let set = drilled["result"]["feed_per_rev"]["value"].as_f64().expect("a number");
    assert!((set / published - 1.0).abs() < 1e-9, "{set} {published}");
    // The table's feeds still stand in where the table feeds.
    let milled = [
        ("diameter", "1/2 in"),
        ("teeth", "4"),
        ("cutting_speed", "70 ft/min"),
        ("feed_per_tooth", "0.002 in/tooth"),
        ("machine", "mill"),
    ];
    let milled = caller.ask("/v1/speeds/milling", &milled);
    assert!(assumed(&milled, "available_feeds").is_some());
    // The mill's screws have play, whatever way is meant.
    assert!(codes(&milled, "cautions").contains(&"\"climb_milling\"".to_owned()), "{milled}");
}

#[test]
fn a_tap_that_forms_is_said_to_form() {
    let caller = Caller::with_shop();
    let answer = caller.ask("/v1/holes/tap-drill", &[("thread", "M5")]);
    let notes = answer["notes"].to_string();
    assert!(notes.contains("a cutting and a forming tap for M5"), "{notes}");
}

#[test]
fn without_a_shop_a_machine_is_refused_with_the_way_to_set_one() {
    let caller = Caller::with(&[]);
    let problem = caller.refused(SPEED, &WINCH);
    let error = &problem["errors"][0];
    assert_eq!((&error["field"], &error["code"]), (&json!("/machine"), &json!("not_offered")));
    assert!(error["says"].as_str().is_some_and(|says| says.contains("--shop")), "{problem}");
    let problem = caller.refused("/v1/holes/drill-size", &[("diameter", "0.4 in"), ("from", "shop")]);
    assert_eq!(problem["errors"][0]["code"], "not_offered");
    let answer = caller.ask("/v1/holes/drill-point", &[("diameter", "1/2 in")]);
    assert!(answer.get("shop").is_none());
    assert!(caller.ask("/v1/calculators", &[]).get("shop").is_none());
    assert!(!caller.send("/speeds/spindle-speed", &[]).text().expect("a page").contains("name=\"machine\""));
}
