//! The drawings: each is parsed, and what can be measured in it is compared with the answer.

mod common;
#[path = "drawings/cutting.rs"]
mod cutting;
#[path = "drawings/datum.rs"]
mod datum;
#[path = "drawings/fits.rs"]
mod fits;
#[path = "drawings/flanks.rs"]
mod flanks;
#[path = "drawings/geometry.rs"]
mod geometry;
#[path = "drawings/holes.rs"]
mod holes;
#[path = "drawings/measuring.rs"]
mod measuring;
#[path = "drawings/patterns.rs"]
mod patterns;
#[path = "drawings/screw_holes.rs"]
mod screw_holes;
#[path = "drawings/slopes.rs"]
mod slopes;
#[path = "drawings/stock.rs"]
mod stock;
#[path = "drawings/threads.rs"]
mod threads;

use common::{asked, fields, query};
use proptest::prelude::*;
use roxmltree::{Document, Node};
use serde_json::Value;
use shop_reckoner::asking::{Form, drawing};
use shop_reckoner::calculators::{Entry, REGISTER, find};
use shop_reckoner::drawing::Stands;
use shop_reckoner::quantity::{Dimension, Unit};

/// Sheet units that rounding to four decimals and the printed digits of an answer can make.
const SEEN: f64 = 2e-3;

fn drawn() -> impl Iterator<Item = &'static Entry> {
    REGISTER.iter().filter(|entry| entry.draw.is_some())
}

fn svg(entry: &'static Entry, query: &str, stands: Stands) -> String {
    let drawing = drawing(entry, fields(query), Form::Drawing, stands).expect("it has a drawing");
    drawing.unwrap_or_else(|refusal| panic!("{}?{query}: {refusal:?}", entry.id))
}

fn number(node: Node, name: &str) -> f64 {
    let words = node.attribute(name).unwrap_or_else(|| panic!("{node:?} has no {name}"));
    words.parse().unwrap_or_else(|_| panic!("{name} of {node:?} is {words}"))
}

/// A parsed drawing.
struct Sheet<'a> {
    document: Document<'a>,
    scale: f64,
}

impl<'a> Sheet<'a> {
    fn of(text: &'a str) -> Self {
        let document = Document::parse(text).unwrap_or_else(|error| panic!("{error}: {text}"));
        let scale = number(document.root_element(), "data-scale");
        assert!(scale.is_finite() && scale > 0.0);
        Self { document, scale }
    }

    /// A point of the sheet in the model, in meters.
    fn model(&self, x: f64, y: f64) -> (f64, f64) {
        let root = self.document.root_element();
        ((x - number(root, "data-zero-x")) / self.scale, (number(root, "data-zero-y") - y) / self.scale)
    }

    fn of_field(&self, tag: &str, field: &str) -> Vec<Node<'_, 'a>> {
        let is = |node: &Node| node.has_tag_name(svg_name(tag)) && node.attribute("data-field") == Some(field);
        self.document.descendants().filter(is).collect()
    }

    /// Asserts that two lengths in meters cannot be told apart on the sheet.
    fn same(&self, measured: f64, expected: f64, what: &str) -> Result<(), TestCaseError> {
        let off = (measured - expected).abs() * self.scale;
        prop_assert!(off <= SEEN, "{what}: {measured} m in the drawing, {expected} m in the answer");
        Ok(())
    }
}

fn svg_name(tag: &str) -> (&'static str, &str) {
    ("http://www.w3.org/2000/svg", tag)
}

/// Value in SI units and dimension of an answer's quantity.
fn si(quantity: &Value) -> Option<(f64, Dimension)> {
    let unit = Unit::named(quantity["unit"].as_str()?)?;
    Some((unit.to_si(quantity["value"].as_f64()?), unit.row().dimension))
}

/// The row of a list that carries that number, else the one so far down the list.
fn row<'v>(list: &'v Value, count: Option<&str>) -> Option<&'v Value> {
    let count: usize = count?.parse().ok()?;
    let rows = list.as_array()?;
    rows.iter().find(|row| row["number"] == count).or_else(|| rows.get(count - 1))
}

/// What stands at a path such as `stops.finish` below `root`, through lists by a number.
fn at_path<'v>(root: &'v Value, path: &str, count: Option<&str>) -> Option<&'v Value> {
    let through = |value: &'v Value| if value.is_array() { row(value, count) } else { Some(value) };
    path.split('.').try_fold(root, |at, part| through(at)?.get(part)).and_then(through)
}

/// The quantity or the point that a mark of that field and number shows.
fn shown<'v>(answer: &'v Value, field: &str, count: Option<&str>) -> Option<&'v Value> {
    let result = &answer["result"];
    let solution = result.get("solutions").and_then(|all| row(all, count.or(Some("1")))).unwrap_or(&Value::Null);
    let places = [result, solution, &answer["inputs"]].into_iter().filter_map(|root| at_path(root, field, count));
    let assumed = answer["assumed"].as_array().and_then(|all| all.iter().find(|one| one["field"] == field));
    let steps = answer["working"].as_array().into_iter().flatten().map(|step| &step["gives"]);
    let between = steps.filter(|gives| gives["field"] == field);
    let others = assumed.map(|one| &one["value"]).into_iter().chain(between);
    places.chain(others).find(|value| value.is_object())
}

/// Measures every dimension of a drawing and compares it with the answer; how many there were.
fn measure(sheet: &Sheet, answer: &Value) -> Result<usize, TestCaseError> {
    let mut measured = 0;
    for group in sheet.document.descendants().filter(|node| node.attribute("data-dimension").is_some()) {
        let field = group.attribute("data-dimension").unwrap_or_default();
        let standard = serde_json::json!({"value": answer["result"]["flank_angle"]["value"], "unit": "deg"});
        let quantity = match shown(answer, field, group.attribute("data-number")) {
            Some(quantity) => quantity,
            None if field == "flanks" => &standard,
            None => return Err(TestCaseError::fail(format!("{field} is in no answer: {answer}"))),
        };
        let (value, dimension) = si(quantity).expect("a quantity");
        let at = |name: &str| number(group, name);
        match dimension {
            Dimension::Length | Dimension::FeedPerRev => {
                let length = (at("data-x2") - at("data-x1")).hypot(at("data-y2") - at("data-y1"));
                sheet.same(length / sheet.scale, value.abs(), field)?;
            }
            Dimension::Angle => {
                let sides: Vec<Node> = group.children().filter(|node| node.has_tag_name(svg_name("line"))).collect();
                let direction = |side: Node| {
                    let (x, y) = (number(side, "x2") - number(side, "x1"), number(side, "y2") - number(side, "y1"));
                    (-y).atan2(x)
                };
                let between = (direction(sides[0]) - direction(sides[1])).abs();
                let turn = std::f64::consts::TAU;
                let expected = value.abs() % turn;
                let off = (between - expected).abs().min((turn - between - expected).abs());
                prop_assert!(off < 1e-4, "{field}: {between} rad in the drawing, {expected} rad in the answer");
            }
            other => return Err(TestCaseError::fail(format!("{field} is {other:?}"))),
        }
        written_as_answered(group, quantity, answer, field)?;
        measured += 1;
    }
    Ok(measured + read_off(sheet, answer)? + place(sheet, answer)?)
}

/// The words of a mark end with the quantity's text.
fn written_as_answered(group: Node, quantity: &Value, answer: &Value, field: &str) -> Result<(), TestCaseError> {
    let Some(text) = quantity["text"].as_str() else { return Ok(()) };
    let written: String = group.descendants().filter(|node| node.is_text()).filter_map(|node| node.text()).collect();
    let units = answer["result"].to_string();
    // What was asked in the other system is written in the answer's.
    if quantity["unit"].as_str().is_some_and(|unit| unit == "deg" || units.contains(&format!("\"{unit}\""))) {
        prop_assert!(written.ends_with(text), "{field}: {written:?} on the drawing, {text:?} in the answer");
    }
    Ok(())
}

/// Compares the place of every reading with the reading; how many there were.
fn read_off(sheet: &Sheet, answer: &Value) -> Result<usize, TestCaseError> {
    let groups = sheet.document.descendants().filter(|node| node.has_attribute("data-reading"));
    let mut read = 0;
    for group in groups {
        let field = group.attribute("data-reading").unwrap_or_default();
        let quantity = shown(answer, field, group.attribute("data-number"));
        let quantity = quantity.ok_or_else(|| TestCaseError::fail(format!("{field} is in no answer: {answer}")))?;
        let (x, y) = sheet.model(number(group, "data-x"), number(group, "data-y"));
        let on = if group.attribute("data-axis") == Some("x") { x } else { y };
        sheet.same(on, length(quantity), field)?;
        written_as_answered(group, quantity, answer, field)?;
        read += 1;
    }
    Ok(read)
}

/// Compares the middle of every circle or dot that shows a point with the point, and the size of every
/// circle that shows a length with the length; how many there were.
fn place(sheet: &Sheet, answer: &Value) -> Result<usize, TestCaseError> {
    let mut placed = 0;
    for circle in sheet.document.descendants().filter(|node| node.has_tag_name(svg_name("circle"))) {
        let Some(field) = circle.attribute("data-field") else { continue };
        // Zero is where it is by being drawn at zero.
        if field == "datum" {
            let (x, y) = sheet.model(number(circle, "cx"), number(circle, "cy"));
            sheet.same(x.hypot(y), 0.0, field)?;
            continue;
        }
        let value = shown(answer, field, circle.attribute("data-number"));
        let value = value.ok_or_else(|| TestCaseError::fail(format!("{field} is in no answer: {answer}")))?;
        if value["x"].is_object() {
            let (x, y) = sheet.model(number(circle, "cx"), number(circle, "cy"));
            sheet.same(x, length(&value["x"]), &format!("x of {field}"))?;
            sheet.same(y, length(&value["y"]), &format!("y of {field}"))?;
        } else {
            sheet.same(2.0 * number(circle, "r") / sheet.scale, length(value), field)?;
        }
        placed += 1;
    }
    Ok(placed)
}

/// What must hold for every drawing, whatever it shows.
fn sound(text: &str) -> Result<(), TestCaseError> {
    let sheet = Sheet::of(text);
    let root = sheet.document.root_element();
    prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{}", text);
    for name in ["title", "desc"] {
        let words = root.children().find(|node| node.has_tag_name(svg_name(name))).and_then(|node| node.text());
        prop_assert!(words.is_some_and(|words| words.len() > 5), "no {}", name);
    }
    prop_assert_eq!(root.attribute("role"), Some("img"));
    let view: Vec<f64> =
        root.attribute("viewBox").unwrap_or_default().split(' ').map(|n| n.parse().expect("a number")).collect();
    prop_assert!((340.0..=460.0).contains(&view[2]) && view[3] > 0.0 && view[3] < 700.0, "viewBox {:?}", view);
    for node in sheet.document.descendants().filter(|node| node.has_tag_name(svg_name("text"))) {
        let (x, y) = (number(node, "x"), number(node, "y"));
        prop_assert!(
            (0.0..=view[2]).contains(&x) && (0.0..=view[3]).contains(&y),
            "words outside the sheet: {:?}",
            node
        );
        prop_assert!(number(node, "font-size") >= 11.0);
    }
    Ok(())
}

/// The boxes of the words of a drawing, by a narrow letter's width, so that only real overlaps count.
fn boxes(sheet: &Sheet) -> Vec<(f64, f64, f64, f64, String)> {
    let mut boxes = Vec::new();
    for node in sheet.document.descendants().filter(|node| node.has_tag_name(svg_name("text"))) {
        let lines: Vec<String> = node
            .descendants()
            .filter(|node| node.is_text())
            .filter_map(|node| node.text())
            .map(str::to_owned)
            .collect();
        let wide =
            lines.iter().map(|line| line.chars().count()).max().unwrap_or(0) as f64 * 0.4 * number(node, "font-size");
        let (x, y, high) = (number(node, "x"), number(node, "y"), 16.0 * (lines.len() as f64 - 1.0) + 9.0);
        let top = y - 9.0;
        boxes.push(match node.attribute("transform") {
            None => (x - wide / 2.0, top, x + wide / 2.0, top + high, lines.join(" ")),
            Some(_) => (x - high / 2.0, y - wide / 2.0, x + high / 2.0, y + wide / 2.0, lines.join(" ")),
        });
    }
    boxes
}

#[test]
fn the_calculators_that_a_person_would_rather_look_at_are_drawn() {
    let ids: Vec<&str> = drawn().map(|entry| entry.id).collect();
    for id in [
        "patterns/bolt-circle", "geometry/arc", "holes/drill-point", "threads/thread", "threads/milling",
        "speeds/milling", "holes/tap-drill", "threads/single-point", "datum/touch-off", "datum/between-faces",
        "datum/bore-or-boss", "datum/corner", "datum/edge-angle", "datum/turn-and-shift", "datum/tram",
        "datum/move-list", "datum/visit-order", "datum/wall-stops", "datum/stepped-profile", "threads/wires",
        "speeds/ball-nose", "speeds/entry", "speeds/surface-finish", "datum/indicate", "threads/tap-limit",
        "threads/rescue", "datum/lathe-touch-off", "stock/mass", "stock/cut-list", "geometry/triangle",
        "geometry/polygon", "geometry/flat-on-round", "geometry/taper", "geometry/sine-bar", "fits/limits",
        "fits/running", "measure/position-error", "measure/gauge-makers", "holes/clearance", "holes/counterbore",
        "holes/countersink", "holes/tapped-blind", "holes/spot-drill", "holes/centre-drill", "patterns/pitch-arc",
        "patterns/in-line", "patterns/rectangular", "patterns/triangular-pitch", "patterns/around-rectangle",
        "geometry/rotary-table", "geometry/v-block", "geometry/dovetail", "geometry/rolls-and-balls",
        "geometry/gauge-blocks", "geometry/compound-angle", "geometry/compound-feed", "geometry/dividing-head",
        "geometry/keyseat", "geometry/circle-through", "geometry/fillet", "geometry/tangents", "geometry/spur-gear",
    ] {
        assert!(ids.contains(&id), "{id} has no drawing");
    }
}

#[test]
fn every_example_is_drawn_and_measures_what_its_answer_says() {
    for entry in drawn() {
        for example in entry.examples {
            for units in ["inch", "metric"] {
                let query = format!("{}&units={units}", query(example.fields));
                let text = svg(entry, &query, Stands::Alone);
                sound(&text).unwrap_or_else(|error| panic!("{}?{query}: {error}", entry.id));
                let sheet = Sheet::of(&text);
                let answer = asked(entry, &query).expect("an answer");
                let measured = measure(&sheet, &answer).unwrap_or_else(|error| panic!("{}?{query}: {error}", entry.id));
                assert!(measured >= 1, "{}?{query} has no dimension", entry.id);
                let other = if units == "inch" { " mm" } else { " in" };
                // A metric drill's name is its size, whatever the units of the answer.
                let words = sheet.document.descendants().filter_map(|node| node.text());
                let strange: Vec<&str> = words.filter(|w| w.ends_with(other) && !w.starts_with("drill ")).collect();
                assert!(strange.is_empty(), "{}?{query} writes {strange:?}", entry.id);
            }
        }
    }
}

#[test]
fn words_of_the_examples_lie_side_by_side() {
    for entry in drawn() {
        for example in entry.examples {
            let text = svg(entry, &query(example.fields), Stands::Alone);
            let sheet = Sheet::of(&text);
            let boxes = boxes(&sheet);
            for (at, one) in boxes.iter().enumerate() {
                for other in &boxes[at + 1..] {
                    let apart = one.2 <= other.0 || other.2 <= one.0 || one.3 <= other.1 || other.3 <= one.1;
                    assert!(apart, "{}: \"{}\" lies on \"{}\" in {:?}", entry.id, one.4, other.4, example.says);
                }
            }
        }
    }
}

#[test]
fn in_a_page_a_drawing_brings_no_style_of_its_own() {
    for entry in drawn() {
        let example = query(entry.examples[0].fields);
        let alone = svg(entry, &example, Stands::Alone);
        assert!(alone.contains("prefers-color-scheme:dark") && alone.contains("@media print"));
        let in_page = svg(entry, &example, Stands::InPage);
        assert!(!in_page.contains("<style") && !in_page.contains("style="), "{}", entry.id);
        assert!(in_page.contains("currentColor") && !in_page.contains("\"#"), "{}", entry.id);
    }
}

#[test]
fn what_a_drawing_cannot_show_is_refused_like_anything_else() {
    let entry = find("holes/drill-point").expect("the drill point");
    let refused = |query: &str| {
        let refusal = drawing(entry, fields(query), Form::Drawing, Stands::Alone).expect("drawn").expect_err(query);
        refusal.0.into_iter().map(|wrong| wrong.field).collect::<Vec<_>>()
    };
    assert_eq!(refused("diameter=0.5"), ["/diameter"]);
    assert_eq!(refused("diameter=1/2 in&resolution=0.01 mm"), ["/resolution"]);
    assert_eq!(refused("diameter=0.5&units=feet"), ["/units", "/diameter"]);
    assert_eq!(refused("diameter=1/4 in|1/2 in"), ["/diameter"]);
    let plain = find("holes/drill-size").expect("drill sizes");
    assert!(drawing(plain, fields("diameter=1/4 in"), Form::Drawing, Stands::Alone).is_none());
}

/// Draws and answers, measures every dimension, and gives both to `check`.
fn compare(
    id: &str,
    query: &str,
    check: impl FnOnce(&Sheet, &Value) -> Result<(), TestCaseError>,
) -> Result<(), TestCaseError> {
    let entry = find(id).expect("the calculator");
    let Ok(answer) = asked(entry, query) else { return Err(TestCaseError::reject("refused")) };
    let text = svg(entry, query, Stands::Alone);
    sound(&text)?;
    let sheet = Sheet::of(&text);
    measure(&sheet, &answer)?;
    check(&sheet, &answer)
}

fn length(quantity: &Value) -> f64 {
    si(quantity).expect("a quantity").0
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn the_holes_of_a_bolt_circle_are_where_the_answer_puts_them(
        diameter in 1.0..2000.0f64,
        holes in 2u32..70,
        center in (-3.0..3.0f64, -3.0..3.0f64),
        start in -400.0..400.0f64,
        sweep in prop_oneof![Just(360.0), 20.0..350.0f64, -350.0..-20.0f64],
        part in 0.02..0.9f64,
        clockwise in any::<bool>(),
    ) {
        let chord = diameter * (std::f64::consts::PI * sweep.abs() / 360.0 / f64::from(holes)).sin();
        let sense = if clockwise { "clockwise" } else { "counterclockwise" };
        let query = format!(
            "diameter={diameter} mm&holes={holes}&center_x={} mm&center_y={} mm&start_angle={start} deg&sweep={sweep} deg\
             &hole_diameter={} mm&hole_order={sense}&angle_sense={sense}",
            center.0 * diameter, center.1 * diameter, chord * part
        );
        compare("patterns/bolt-circle", &query, |sheet, answer| {
            let positions = answer["result"]["positions"].as_array().expect("positions");
            let circles = sheet.of_field("circle", "positions");
            prop_assert_eq!(circles.len(), positions.len());
            for (circle, place) in circles.iter().zip(positions) {
                prop_assert_eq!(number(*circle, "data-number"), place["number"].as_f64().expect("a number"));
                let (x, y) = sheet.model(number(*circle, "cx"), number(*circle, "cy"));
                sheet.same(x, length(&place["x"]), "x")?;
                sheet.same(y, length(&place["y"]), "y")?;
                sheet.same(number(*circle, "r") / sheet.scale, length(&answer["inputs"]["hole_diameter"]) / 2.0, "hole")?;
            }
            let pitch_circle = sheet.of_field("circle", "diameter")[0];
            sheet.same(2.0 * number(pitch_circle, "r") / sheet.scale, diameter / 1000.0, "diameter")
        })?;
    }

    #[test]
    fn arcs_and_chords_are_drawn_as_answered(radius in 0.5..5000.0f64, angle in 1.0..359.0f64, by_chord in any::<bool>()) {
        let chord = 2.0 * radius * (angle.to_radians() / 2.0).sin();
        let query = if by_chord { format!("radius={radius} mm&chord={chord} mm") } else { format!("radius={radius} mm&angle={angle} deg") };
        compare("geometry/arc", &query, |sheet, answer| {
            let solutions = answer["result"]["solutions"].as_array().expect("solutions");
            let arcs = sheet.of_field("path", "arc_length");
            prop_assert_eq!(arcs.len(), solutions.len());
            for arc in arcs {
                let solution = &solutions[number(arc, "data-number") as usize - 1];
                let d = arc.attribute("d").expect("a path").replace(['M', 'A'], " ");
                let n: Vec<f64> = d.split_whitespace().map(|n| n.parse().expect("a number")).collect();
                sheet.same(n[2] / sheet.scale, length(&solution["radius"]), "radius")?;
                sheet.same((n[7] - n[0]).hypot(n[8] - n[1]) / sheet.scale, length(&solution["chord"]), "chord")?;
                prop_assert_eq!(n[5] == 1.0, solution["angle"]["value"].as_f64().expect("degrees") > 180.0);
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_drill_is_drawn_as_deep_as_answered(
        diameter in 0.2..80.0f64,
        point in 20.0..180.0f64,
        depth in 0.1..6.0f64,
        through in any::<bool>(),
        out in 0.0..2.0f64,
        lips in any::<bool>(),
        height in prop_oneof![Just(0.0), -1.0..1.0f64],
        flat in 0.0..0.5f64,
    ) {
        let depth = depth * diameter;
        let kind = if through { format!("thickness={depth} mm&breakthrough={} mm", out * diameter) } else { format!("full_depth={depth} mm") };
        let query = format!(
            "diameter={diameter} mm&point_angle={point} deg&{kind}&zeroed_at={}&face_height={} mm&tip_flat={} mm",
            if lips { "lips" } else { "tip" }, height * diameter, flat * diameter
        );
        compare("holes/drill-point", &query, |sheet, answer| {
            let outline = sheet.of_field("path", "drill")[0].attribute("d").expect("a path").replace(['M', 'L'], " ");
            let n: Vec<f64> = outline.split_whitespace().map(|n| n.parse().expect("a number")).collect();
            let tip = sheet.model(n[4], n[5]);
            sheet.same(-tip.1, length(&answer["result"]["tip_depth"]), "tip_depth")?;
            sheet.same((n[10] - n[0]).abs() / sheet.scale, diameter / 1000.0, "diameter")
        })?;
    }

    #[test]
    fn the_cutter_meets_the_work_as_answered(diameter in 0.5..300.0f64, part in 0.001..1.0f64, teeth in 1u32..12, climb in any::<bool>()) {
        let query = format!(
            "diameter={diameter} mm&teeth={teeth}&cutting_speed=90 m/min&feed_per_tooth=0.05 mm&radial_depth={} mm\
             &axial_depth=3 mm&way={}",
            part * diameter, if climb { "climb" } else { "conventional" }
        );
        compare("speeds/milling", &query, |sheet, answer| {
            let cutter = sheet.of_field("circle", "diameter")[0];
            sheet.same(2.0 * number(cutter, "r") / sheet.scale, diameter / 1000.0, "diameter")?;
            let (uncut, cut) = (sheet.of_field("line", "uncut")[0], sheet.of_field("line", "cut")[0]);
            let depth = (number(cut, "y1") - number(uncut, "y1")) / sheet.scale;
            sheet.same(depth, length(&answer["inputs"]["radial_depth"]), "radial_depth")?;
            let away = (number(uncut, "x1") - number(cutter, "cx")).hypot(number(uncut, "y1") - number(cutter, "cy"));
            sheet.same(away / sheet.scale, diameter / 2000.0, "the work's corner lies on the cutter's rim")
        })?;
    }

    #[test]
    fn the_lines_of_a_thread_lie_at_its_diameters(at in 0usize..14) {
        let thread = [
            "#0-80", "#10-32", "1/4-20", "1/4-28", "1/2-13", "1-8", "1-12", "2-4.5 UNC", "M1", "M3", "M8", "M8x1", "M64", "M100x2",
        ][at];
        compare("threads/thread", &format!("designation={thread}"), |sheet, answer| {
            for field in ["major_diameter", "pitch_diameter", "minor_diameter"] {
                let line = sheet.of_field("line", field)[0];
                let (_, y) = sheet.model(number(line, "x1"), number(line, "y1"));
                sheet.same(2.0 * y, length(&answer["result"][field]), field)?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_passes_of_a_groove_lie_at_their_depths_and_as_wide_as_the_tool(
        at in 0usize..6, flat in 0.0..0.2f64, passes in 1u32..25, internal in any::<bool>(),
    ) {
        let (thread, pitch, half) =
            [("M8", 1.25, 30.0), ("M64", 6.0, 30.0), ("M3", 0.5, 30.0), ("1/2-13", 25.4 / 13.0, 30.0),
             ("1-5 Acme", 5.08, 14.5), ("Tr20x4", 4.0, 15.0)][at];
        let side = if internal { "internal" } else { "external" };
        let query = format!("thread={thread}&side={side}&tip_flat={} mm&passes={passes}", flat * pitch);
        compare("threads/single-point", &query, |sheet, answer| {
            let rows = answer["result"]["passes"].as_array().expect("passes");
            let lines = sheet.of_field("line", "passes");
            prop_assert_eq!(lines.len(), passes as usize);
            let slope = f64::to_radians(half).tan();
            for (line, row) in lines.iter().zip(rows) {
                let (x, y) = sheet.model(number(*line, "x1"), number(*line, "y1"));
                sheet.same(y.abs(), length(&row["depth"]), "depth")?;
                prop_assert!(y == 0.0 || (y > 0.0) == internal);
                // Below the tip's flat the groove widens with the flanks.
                let rise = length(&answer["result"]["depth"]) - length(&row["depth"]);
                sheet.same(x.abs(), flat * pitch / 2000.0 + rise * slope, "half width")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_hole_lies_in_the_thread_as_answered(at in 0usize..8, percent in 5.0..100.0f64, forming in any::<bool>()) {
        let thread = ["#0-80", "1/4-20", "1/2-13", "1-8", "M1.6", "M8", "M8x1", "M64"][at];
        let tap = if forming { "forming" } else { "cutting" };
        compare("holes/tap-drill", &format!("thread={thread}&thread_percent={percent} percent&tap={tap}"), |sheet, answer| {
            let hole = sheet.of_field("circle", "hole_diameter")[0];
            sheet.same(2.0 * number(hole, "r") / sheet.scale, length(&answer["result"]["hole_diameter"]), "hole_diameter")?;
            let d = sheet.of_field("path", "size")[0].attribute("d").expect("a path").replace(['M', 'A'], " ");
            let radius: f64 = d.split_whitespace().nth(2).expect("a radius").parse().expect("a number");
            let size = shown(answer, "size", None).expect("the size");
            sheet.same(2.0 * radius / sheet.scale, length(size), "size")
        })?;
    }

    #[test]
    fn however_large_or_small_there_is_a_sound_drawing_or_a_refusal(
        at in 0usize..400, example in 0usize..8, scales in proptest::collection::vec(-4.0..4.0f64, 20),
    ) {
        let entries: Vec<&'static Entry> = drawn().collect();
        let entry = entries[at % entries.len()];
        let example = &entry.examples[example % entry.examples.len()];
        let scaled: Vec<String> = example.fields.iter().zip(scales).map(|((name, value), scale)| {
            match shop_reckoner::quantity::read(value, "1 in") {
                Ok(written) if written.unit.is_some_and(|unit| unit.row().dimension == Dimension::Length) => {
                    format!("{name}={} {}", written.value * 10f64.powf(scale), written.unit.expect("a unit").row().ascii)
                }
                _ => format!("{name}={value}"),
            }
        }).collect();
        if let Ok(text) = drawing(entry, fields(&scaled.join("&")), Form::Drawing, Stands::Alone).expect("it has a drawing") {
            sound(&text)?;
        }
    }
}
