//! Gates on the register and on the published description: nothing unnamed, undocumented, doubled or
//! without an example; and whatever is sent, an answer of sound numbers or a refusal.

mod common;

use common::{asked, golden, query};
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::asking::{RESERVED, described, targets};
use shop_reckoner::calculators::{Entry, Example, REGISTER};
use shop_reckoner::service::openapi;
use shop_reckoner::shop::MACHINE_FIELDS;
use std::collections::{HashMap, HashSet};

#[test]
fn every_example_states_what_is_described_as_needed() {
    for entry in REGISTER {
        let described = shop_reckoner::asking::describe_entry(entry).expect("a description");
        for field in described.fields.iter().filter(|field| field.required) {
            for example in entry.examples {
                let states = example.fields.iter().any(|(name, _)| *name == field.name);
                assert!(
                    states,
                    "{}: {} is described as needed, but \"{}\" does without",
                    entry.id, field.name, example.says
                );
            }
        }
    }
}

/// What a default is described as is what is taken: the sentence names it, and an answer that takes it has it with the
/// declared reason.
#[test]
fn a_default_is_what_its_sentence_says() {
    let (mut all, mut taken) = (0, 0);
    for entry in REGISTER {
        for member in entry.input.members {
            let Some(absent) = member.absent else { continue };
            assert!(member.about.contains("if absent"), "{}: {}", entry.id, member.name);
            // Read here, every default of a text is one that its field can read.
            all += usize::from((absent.taken)().is_some());
            let named = absent.shown.split_whitespace().all(|word| member.about.contains(word));
            assert!(named, "{}: {} does not name {}", entry.id, member.about, absent.shown);
            for example in entry.examples {
                let answer = asked(entry, &query(example.fields)).expect("an answer");
                let assumed = answer["assumed"].as_array().expect("a list").iter();
                for one in assumed.filter(|one| one["field"] == member.name) {
                    assert_eq!(one["says"], absent.reason, "{}: {}", entry.id, member.name);
                    let value = &one["value"];
                    let said = match value["value"].as_f64() {
                        // A zero is written with or without a unit.
                        Some(0.0) if absent.shown.starts_with('0') => absent.shown.to_owned(),
                        Some(number) => format!("{number} {}", value["unit"].as_str().expect("a unit")),
                        None if ["x", "y"].iter().all(|axis| value[axis]["value"] == 0.0) => "0,0".to_owned(),
                        None => value.as_str().map_or_else(|| value.to_string(), str::to_owned),
                    };
                    let said = said.replace('°', "deg").replace('%', "percent");
                    // A list, or a choice between values, is described in words.
                    let words: Vec<&str> = absent.shown.split(' ').collect();
                    let is_number = words[0].starts_with(|c: char| c.is_ascii_digit());
                    let is_value = !value.is_array() && (words.len() == 1 || (words.len() == 2 && is_number));
                    assert!(!is_value || said == absent.shown, "{}: {} is {said}", entry.id, absent.shown);
                    taken += 1;
                }
            }
        }
    }
    assert!(all > 60 && taken > 60, "only {all} defaults were read and {taken} taken");
}

#[test]
fn the_published_description_is_the_committed_one() {
    golden("openapi/openapi.json", &openapi::text());
    golden("openapi/operations.txt", &openapi::operations());
}

#[test]
fn ids_and_titles_are_unique_and_well_formed() {
    let (mut ids, mut titles, mut names) = (HashSet::new(), HashSet::new(), HashSet::new());
    for entry in REGISTER {
        let (topic, name) = entry.address();
        let plain = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_lowercase() || c == '-');
        assert!(plain(topic) && plain(name), "{}", entry.id);
        assert!(
            ids.insert(entry.id) && titles.insert(entry.title) && names.insert(entry.operation()),
            "{} is there twice",
            entry.id
        );
        assert!(entry.about.ends_with('.') && entry.about.len() > 30, "{}: about", entry.id);
        assert!(entry.each_word().count() >= 3, "{}: search words", entry.id);
        assert!(!entry.examples.is_empty(), "{}: examples", entry.id);
        assert!(entry.another_check.is_empty() || entry.another_check.ends_with('.'), "{}: another check", entry.id);
    }
}

#[test]
fn every_field_and_result_says_what_it_is_and_none_is_reserved() {
    for described in described() {
        for field in &described.fields {
            let id = described.entry.id;
            assert!(field.about.ends_with('.') && field.about.len() > 10, "{id} {}: \"{}\"", field.name, field.about);
            assert!(!field.example.is_empty(), "{id}: no example has {}", field.name);
            assert!(!RESERVED.contains(&field.name.as_str()), "{id}: {} is a reserved name", field.name);
        }
        for result in &described.results {
            assert!(result.about.ends_with('.'), "{} {}: \"{}\"", described.entry.id, result.name, result.about);
        }
    }
}

#[test]
fn every_answer_has_sources() {
    for entry in REGISTER {
        for example in entry.examples {
            let answer = asked(entry, &query(example.fields)).unwrap_or_else(|r| panic!("{}: {r:?}", entry.id));
            assert!(!answer["sources"].as_array().expect("sources").is_empty(), "{}", entry.id);
        }
    }
}

#[test]
fn what_is_asked_for_first_is_among_the_results() {
    for entry in REGISTER {
        // Of several separated by | the first that is there counts; each is there in some example.
        for lead in entry.leads.iter().flat_map(|paths| paths.split('|')) {
            let shows = |example: &Example| {
                let answer = asked(entry, &query(example.fields)).expect("an answer");
                let at = answer["result"].pointer(&format!("/{lead}"));
                at.is_some_and(|at| if at.is_object() { at.get("value").is_some() } else { !at.is_null() })
            };
            assert!(entry.examples.iter().any(shows), "{}: {lead} is a single result of no example", entry.id);
        }
    }
}

fn walk<'v>(value: &'v Value, path: &str, see: &mut impl FnMut(&str, &'v Value)) {
    see(path, value);
    match value {
        Value::Object(map) => map.iter().for_each(|(name, value)| walk(value, &format!("{path}/{name}"), see)),
        Value::Array(list) => list.iter().enumerate().for_each(|(at, v)| walk(v, &format!("{path}/{at}"), see)),
        _ => {}
    }
}

/// What `value` refers to, or itself.
fn resolved<'d>(document: &'d Value, value: &'d Value) -> &'d Value {
    let to = value.get("$ref").and_then(Value::as_str);
    to.map_or(value, |to| document.pointer(to.trim_start_matches('#')).unwrap_or_else(|| panic!("no {to}")))
}

#[test]
fn the_description_leaves_nothing_unsaid() {
    let document = openapi::document();
    assert_eq!(document["openapi"], "3.1.0");
    let mut ids = HashSet::new();
    for (path, item) in document["paths"].as_object().expect("paths") {
        for (method, operation) in item.as_object().expect("operations") {
            let name = format!("{method} {path}");
            let id = operation["operationId"].as_str().unwrap_or_default();
            assert!(ids.insert(id.to_owned()) && !id.is_empty(), "{name}: operation id {id}");
            for part in ["summary", "description"] {
                assert!(operation[part].as_str().is_some_and(|text| text.len() > 3), "{name}: no {part}");
            }
            for parameter in operation["parameters"].as_array().into_iter().flatten() {
                let parameter = resolved(&document, parameter);
                assert!(parameter["description"].as_str().is_some_and(|text| text.len() > 10), "{name}: {parameter}");
                let is_needed = parameter["required"] == true;
                assert!(!is_needed || !parameter["example"].is_null(), "{name}: {parameter}");
            }
            for (status, response) in operation["responses"].as_object().expect("responses") {
                let response = resolved(&document, response);
                for (media, content) in response["content"].as_object().into_iter().flatten() {
                    assert!(!content["schema"].is_null(), "{name} {status} {media}: no schema");
                    // What a text is like only an example shows. JSON is described by its schema, and an answer as
                    // an example would be long: the operation's own example gives one.
                    let is_text = content["schema"]["type"] == "string" && media != "application/x-ndjson";
                    let is_shown = !is_text || !content["example"].is_null();
                    assert!(!status.starts_with('2') || is_shown, "{name} {status}: no example");
                }
            }
        }
    }
    let schemas = document["components"]["schemas"].as_object().expect("schemas");
    let mut unused: HashSet<String> = HashSet::new();
    for (kind, all) in document["components"].as_object().expect("components") {
        unused.extend(all.as_object().expect("components").keys().map(|name| format!("#/components/{kind}/{name}")));
    }
    walk(&document, "", &mut |path, value| {
        if let Some(to) = value.get("$ref").and_then(Value::as_str) {
            assert!(
                document.pointer(to.trim_start_matches('#')).is_some(),
                "{path} refers to {to}, which is not there"
            );
            unused.remove(to);
        }
    });
    assert!(unused.is_empty(), "nothing refers to {unused:?}");
    for (name, schema) in schemas {
        walk(schema, name, &mut |path, value| {
            let is_property = path.rsplit('/').nth(1) == Some("properties");
            let is_part = is_property || path == name.as_str() || path.ends_with("/items");
            if is_part {
                assert!(value.as_object().is_some_and(|map| !map.is_empty()), "{path} is an empty schema");
            }
            if is_property {
                let reference =
                    value.get("$ref").and_then(Value::as_str).and_then(|r| schemas.get(r.rsplit('/').next()?));
                let about = value.get("description").or_else(|| reference.and_then(|schema| schema.get("description")));
                assert!(about.and_then(Value::as_str).is_some_and(|text| text.len() > 3), "{path} is not described");
            }
            assert_ne!(value.get("type").and_then(Value::as_str), Some("null"), "{path} can be null");
        });
    }
}

#[test]
fn what_solve_for_or_a_machine_stands_in_for_is_not_called_required() {
    let document = openapi::document();
    let mut said = 0;
    for described in described() {
        let entry = described.entry;
        let operations = &document["paths"][format!("/v1/{}", entry.id)];
        let stem = entry.input.name.trim_end_matches("Input");
        // Beside the reserved fields that all share stand its own.
        let request = &document["components"]["schemas"][format!("{stem}Request")]["allOf"][1];
        let required = |name: &str| request["required"].as_array().into_iter().flatten().any(|one| one == name);
        for field in described.fields.iter().filter(|field| field.required) {
            let stands_in = targets(entry).any(|name| name == field.name)
                || MACHINE_FIELDS.iter().any(|known| known.name == field.name);
            let parameters = operations["get"]["parameters"].as_array().expect("parameters").iter();
            let parameter = parameters.map(|one| resolved(&document, one)).find(|one| one["name"] == field.name);
            let parameter = parameter.expect("a parameter");
            assert_eq!(parameter["required"] == true, !stands_in, "{}: {}", entry.id, field.name);
            assert_eq!(required(&field.name), !stands_in, "{}: {}", entry.id, field.name);
            // The whole sentence stands with the parameter; a request says of the field what it is.
            let about = parameter["description"].as_str().expect("words");
            assert_eq!(about.contains("Needed, unless "), stands_in, "{about}");
            let in_short = request["properties"][&field.name]["description"].as_str().expect("words");
            assert!(about.starts_with(in_short.trim_end_matches('.')), "{in_short} {about}");
            said += usize::from(stands_in);
        }
    }
    assert!(said > 30, "only {said} fields");
}

#[test]
fn every_page_of_the_guide_that_the_description_names_is_there() {
    let text = openapi::text();
    let pages: HashSet<&str> = text
        .split("/guide/")
        .skip(1)
        .map(|after| &after[..after.find(|c: char| !c.is_ascii_lowercase()).unwrap_or(after.len())])
        .filter(|page| !page.is_empty())
        .collect();
    assert!(pages.len() > 1, "{pages:?}");
    for page in pages {
        assert!(common::root().join(format!("src/page/guide/{page}.md")).exists(), "{page}");
    }
}

#[test]
fn the_description_stays_small_whatever_is_added() {
    // What a generator, an editor or a person reads in one go: 600 kB with 49 calculators in six topics, 8 kB for each
    // further calculator, and 5 kB for each further topic, whose cells, tables and drawings are described once.
    let text = openapi::text();
    let topics: HashSet<&str> = REGISTER.iter().map(|entry| entry.address().0).collect();
    let most = 600_000 + 8_000 * (REGISTER.len() - 49) + 5_000 * (topics.len() - 6);
    assert!(text.len() < most, "{} bytes of {most}", text.len());
    assert!(text.lines().count() < 250 * REGISTER.len(), "{} lines", text.lines().count());
    // A calculator of the usual size adds 8 kB: its address, and what nothing but it refers to.
    let document = openapi::document();
    let mut sizes: Vec<(usize, &str)> = REGISTER.iter().map(|entry| (added_by(&document, entry), entry.id)).collect();
    sizes.sort_unstable();
    assert!(sizes[sizes.len() / 2].0 < 8_000, "{sizes:?}");
}

/// The bytes of `document` that are there for one calculator alone, whose line ends are few.
fn added_by(document: &Value, entry: &Entry) -> usize {
    let path = format!("/v1/{}", entry.id);
    let own = &document["paths"][&path];
    // Batches name the requests of all.
    let others = document["paths"].as_object().expect("paths").iter().filter(|(name, _)| **name != path);
    let others = reached(document, others.filter(|(name, _)| *name != "/v1/batch").map(|(_, item)| item));
    let alone = reached(document, [own]).into_iter().filter(|to| !others.contains(to));
    let component =
        |to: &str| to.len() + document.pointer(to.trim_start_matches('#')).map_or(0, |of| of.to_string().len());
    own.to_string().len() + alone.map(component).sum::<usize>()
}

/// All that `values` refer to, whatever that refers to too.
fn reached<'d>(document: &'d Value, values: impl IntoIterator<Item = &'d Value>) -> HashSet<&'d str> {
    let mut unread: Vec<&Value> = values.into_iter().collect();
    let mut all = HashSet::new();
    while let Some(value) = unread.pop() {
        walk(value, "", &mut |_, value| {
            if let Some(to) = value.get("$ref").and_then(Value::as_str)
                && all.insert(to)
            {
                unread.extend(document.pointer(to.trim_start_matches('#')));
            }
        });
    }
    all
}

#[test]
fn one_schema_name_is_one_schema() {
    let mut seen: HashMap<String, (Value, &str)> = HashMap::new();
    for entry in REGISTER {
        let mut parts = Vec::new();
        for declaration in [entry.input, entry.output] {
            parts.push((declaration.name.to_owned(), declaration.schema()));
            declaration.collect(&mut parts);
        }
        for (name, schema) in parts {
            let schema = serde_json::to_value(schema).expect("JSON");
            if let Some((before, id)) = seen.insert(name.clone(), (schema.clone(), entry.id)) {
                assert_eq!(before, schema, "{name} is one thing in {id} and another in {}", entry.id);
            }
        }
    }
}

/// Every number of an answer is finite and none is a negative zero.
fn sound(answer: &Value) -> Result<(), String> {
    let mut wrong = None;
    walk(answer, "", &mut |path, value| {
        if value.is_null() {
            wrong = Some(format!("{path} is null"));
        }
        if let Some(number) = value.as_f64()
            && (!number.is_finite() || (number == 0.0 && number.is_sign_negative()))
        {
            wrong = Some(format!("{path} is {number}"));
        }
        if value.as_str().is_some_and(|text| text.contains("NaN") || text.contains("inf ")) {
            wrong = Some(format!("{path} is {value}"));
        }
    });
    wrong.map_or(Ok(()), Err)
}

fn any_entry() -> impl Strategy<Value = &'static Entry> {
    (0..REGISTER.len()).prop_map(|at| &REGISTER[at])
}

/// A value that is likely to be read, or nearly.
fn any_value() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        Just("0".to_owned()),
        (-1000.0..1000.0f64).prop_map(|n| format!("{n}")),
        (0.0..10.0f64).prop_map(|n| format!("{n:.3}")),
        (-30i32..30).prop_map(|n| format!("1e{n}")),
        (1u32..64).prop_map(|n| format!("{n}/64")),
        (0u32..400).prop_map(|n| n.to_string()),
    ];
    let unit = prop_oneof![
        Just(" in"),
        Just(" mm"),
        Just(" deg"),
        Just(" rad"),
        Just(" rpm"),
        Just(" ft/min"),
        Just(" m/min"),
        Just(" in/tooth"),
        Just(" mm/min"),
        Just(" percent"),
        Just(" in2"),
        Just(" um"),
        Just("")
    ];
    prop_oneof![
        8 => (number, unit).prop_map(|(number, unit)| format!("{number}{unit}")),
        1 => "\\PC{0,12}",
        1 => prop_oneof![
            Just("tip"), Just("lips"), Just("none"), Just("greatest"), Just("climb"), Just("forming"), Just("under"),
            Just("y_axis"), Just("clockwise"), Just("M8"), Just("1/4-20 UNC"), Just("#10-32"), Just("M3x0.5-6H"),
            Just("#7"), Just("F"), Just("1,2,3"), Just("112 rpm,450 rpm"), Just("1 in,0 in")
        ].prop_map(str::to_owned),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, ..ProptestConfig::default() })]

    #[test]
    fn whatever_the_fields_hold_there_is_a_sound_answer_or_a_refusal(
        entry in any_entry(),
        example in 0usize..8,
        changes in proptest::collection::vec((0usize..16, any_value()), 0..4),
        drop in proptest::option::of(0usize..16),
    ) {
        let example = &entry.examples[example % entry.examples.len()];
        let fields = &described().iter().find(|d| d.entry.id == entry.id).expect("described").fields;
        let mut asked_for: Vec<(String, String)> =
            example.fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        for (at, value) in changes {
            let name = fields[at % fields.len()].name.clone();
            asked_for.retain(|(known, _)| *known != name);
            asked_for.push((name, value));
        }
        if let Some(at) = drop {
            let name = &fields[at % fields.len()].name;
            asked_for.retain(|(known, _)| known != name);
        }
        // An ampersand or an equals sign in a value would be another field here.
        let text: Vec<String> =
            asked_for.iter().map(|(name, value)| format!("{name}={}", value.replace(['&', '='], "?"))).collect();
        match asked(entry, &text.join("&")) {
            Ok(answer) => prop_assert_eq!(sound(&answer), Ok(()), "{}?{}", entry.id, text.join("&")),
            Err(refusal) => prop_assert!(
                !refusal.0.is_empty() && refusal.0.iter().all(|wrong| !wrong.says.is_empty()),
                "{}?{}: {:?}", entry.id, text.join("&"), refusal
            ),
        }
    }

    #[test]
    fn inch_and_metric_inputs_give_the_same_result(entry in any_entry(), scale in 0.2..5.0f64) {
        let example = &entry.examples[0];
        let in_system = |to_mm: bool| {
            let fields = example.fields.iter().map(|(name, value)| {
                let Ok(written) = shop_reckoner::quantity::read(value, "1 in") else { return format!("{name}={value}") };
                match written.unit {
                    Some(unit) if unit.row().dimension == shop_reckoner::quantity::Dimension::Length => {
                        let si = unit.to_si(written.value * scale);
                        if to_mm { format!("{name}={} mm", si / 0.001) } else { format!("{name}={} in", si / 0.0254) }
                    }
                    _ => format!("{name}={value}"),
                }
            });
            fields.collect::<Vec<_>>().join("&") + "&units=metric"
        };
        match (asked(entry, &in_system(true)), asked(entry, &in_system(false))) {
            (Ok(a), Ok(b)) => {
                let (mut left, mut right) = (Vec::new(), Vec::new());
                walk(&a["result"], "", &mut |path, value| if let Some(n) = value.as_f64() { left.push((path.to_owned(), n)) });
                walk(&b["result"], "", &mut |path, value| if let Some(n) = value.as_f64() { right.push((path.to_owned(), n)) });
                prop_assert_eq!(left.len(), right.len());
                for ((path, a), (_, b)) in left.iter().zip(&right) {
                    prop_assert!((a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-3), "{} {}: {} and {}", entry.id, path, a, b);
                }
            }
            (Err(_), Err(_)) => {}
            (a, b) => prop_assert!(false, "{}: {:?} but {:?}", entry.id, a.map(|_| ()), b.map(|_| ())),
        }
    }
}
