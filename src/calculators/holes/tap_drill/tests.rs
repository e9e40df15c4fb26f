//! What the tap drill calculator must hold beyond the outside checks.

use crate::calculators::prelude::*;
use crate::calculators::{Solved, find};
use crate::fields::{Fields, Given};
use crate::tree::Node;
use proptest::prelude::*;

fn solve(query: &str) -> Result<(Solved, Record), Refusal> {
    solve_fields(&Fields::of_query(query).expect("a query"))
}

fn solve_fields(fields: &Fields) -> Result<(Solved, Record), Refusal> {
    let mut record = Record::new(true);
    let entry = find("holes/tap-drill").expect("the calculator");
    (entry.solve)(fields, &mut record).map(|solved| (solved, record))
}

/// The fields refused, with the codes.
fn refused(query: &str) -> Vec<(String, &'static str)> {
    codes(solve(query).map(|(solved, _)| solved).expect_err(query))
}

fn codes(refusal: Refusal) -> Vec<(String, &'static str)> {
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

fn at<'n>(node: &'n Node, path: &str) -> Option<&'n Node> {
    node.at(&path.replace('.', "/"))
}

fn number(node: &Node, path: &str) -> f64 {
    match at(node, path) {
        Some(Node::Quantity(leaf)) => leaf.quantity.value,
        other => panic!("{path} is {other:?}"),
    }
}

fn rows(solved: &Solved) -> &[Node] {
    match solved.result.member("candidates") {
        Some(Node::List(rows)) => rows,
        other => panic!("candidates are {other:?}"),
    }
}

fn name(node: &Node) -> String {
    match node.member("name") {
        Some(Node::Text(text, _)) => text.to_string(),
        other => panic!("a name is {other:?}"),
    }
}

fn taken(query: &str) -> String {
    let (solved, _) = solve(query).unwrap();
    name(solved.result.member("drill").unwrap())
}

fn notes(record: &Record) -> Vec<&'static str> {
    record.notes.iter().map(|note| note.code).collect()
}

#[test]
fn the_drill_of_the_charts_is_taken() {
    // Chart sizes for 75 percent, recalled.
    assert_eq!(taken("thread=1/4-20&thread_percent=75 percent"), "#7");
    assert_eq!(taken("thread=M8"), "6.8 mm");
    assert_eq!(taken("thread=M3"), "2.5 mm");
    assert_eq!(taken("thread=3/8-16&systems=fraction"), "5/16");
}

#[test]
fn the_drill_leaves_room_for_what_drills_cut_large() {
    // The greatest minor diameter of M8 6H is 6.912 mm: 6.9 mm and letter I, 6.9088 mm, are nearest to 70 percent and
    // leave 0.012 and 0.003 mm, which any drill cuts large.
    let (solved, record) = solve("thread=M8&thread_percent=70 percent&systems=metric,letter").unwrap();
    let drill = solved.result.member("drill").unwrap();
    assert_eq!(name(drill), "6.8 mm");
    assert!((number(drill, "room") - 0.112).abs() < 1e-12 && (number(drill, "usual_oversize") - 0.068).abs() < 1e-12);
    assert!(record.sources.iter().any(|source| source.source.key == "common_practice"));
    // Who knows what the drill cuts is taken at his word.
    let (solved, _) = solve("thread=M8&thread_percent=70 percent&systems=metric,letter&expected_oversize=0").unwrap();
    let drill = solved.result.member("drill").unwrap();
    assert_eq!(name(drill), "6.9 mm");
    assert!(at(drill, "usual_oversize").is_none() && (number(drill, "room") - 0.012).abs() < 1e-12);
    // Of 7/8-14 2B, 0.798 to 0.814 in, 13/16 is the one fraction within, and leaves 0.0015 in.
    let (_, record) = solve("thread=7/8-14&systems=fraction").unwrap();
    assert!(notes(&record).contains(&"no_room_for_oversize"));
}

#[test]
fn the_class_comes_before_the_percentage() {
    let (solved, record) = solve("thread=1/4-20&thread_percent=50 percent").unwrap();
    assert!(notes(&record).contains(&"percentage_outside_class"));
    let drill = solved.result.member("drill").unwrap();
    assert!(number(drill, "diameter") <= number(&solved.result, "minor_limits.minor_max"));
    assert!(number(&solved.result, "drill_diameter") > number(&solved.result, "minor_limits.minor_max"));
    assert!(rows(&solved).iter().any(|row| matches!(row.member("within_class"), Some(Node::Truth(false)))));
}

#[test]
fn the_expected_oversize_comes_off_the_drill_and_onto_every_hole() {
    let (solved, _) = solve("thread=M8&expected_oversize=0.1 mm").unwrap();
    let less = number(&solved.result, "hole_diameter") - number(&solved.result, "drill_diameter");
    assert!((less - 0.1).abs() < 1e-12);
    for row in rows(&solved) {
        assert!((number(row, "hole_diameter") - number(row, "diameter") - 0.1).abs() < 1e-12);
    }
    assert_eq!(taken("thread=M8&expected_oversize=0.1 mm"), "6.7 mm");
    // E0 less 0.8 of the pitch.
    let (solved, _) = solve("thread=1/2-14 NPT&expected_oversize=0.002 in").unwrap();
    assert!((number(&solved.result, "hole_diameter") - 0.70129).abs() < 1e-9);
    assert!((number(&solved.result, "drill_diameter") - 0.69929).abs() < 1e-9);
    assert_eq!(refused("thread=M8&expected_oversize=7 mm")[0], ("/expected_oversize".into(), "no_answer"));
}

#[test]
fn a_forming_tap_is_not_held_to_the_class_before_tapping() {
    let (solved, record) = solve("thread=M6&tap=forming").unwrap();
    assert!(notes(&record).contains(&"class_after_forming"));
    assert!(rows(&solved).iter().all(|row| row.member("within_class").is_none()));
    assert!(solved.result.member("minor_limits").is_some());
    let usual = record.assumed.iter().find(|assumed| assumed.field == "thread_percent").unwrap();
    assert!(matches!(&usual.value, Node::Quantity(leaf) if leaf.quantity.value == 65.0));
}

#[test]
fn where_no_drill_will_do_none_is_named_and_a_note_says_so() {
    let (solved, record) = solve("thread=5-3/4-16 UN").unwrap();
    assert!(rows(&solved).is_empty() && solved.result.member("drill").is_none());
    assert!(notes(&record).contains(&"no_stock_drill"));
    // The letters end at 0.413 in, below the least minor diameter of 1/2-13.
    let (solved, record) = solve("thread=1/2-13&systems=letter").unwrap();
    assert!(!rows(&solved).is_empty() && solved.result.member("drill").is_none());
    assert!(notes(&record).contains(&"no_drill_within_class"));
}

#[test]
fn a_thread_without_tolerances_is_drilled_by_the_percentage_alone() {
    let (solved, record) = solve("thread=M0.8x0.2").unwrap();
    assert!(notes(&record).contains(&"no_limits") && solved.result.member("minor_limits").is_none());
    assert!(solved.result.member("drill").is_some());
    assert!(rows(&solved).iter().all(|row| row.member("within_class").is_none()));
    assert_eq!(refused("thread=M0.8x0.2&internal_class=6H")[0], ("/thread".into(), "not_found"));
}

#[test]
fn contradictions_and_empty_lists_are_refused() {
    let found = refused("thread=1/4-20 UNC-2B&internal_class=3B");
    assert_eq!(found, [("/internal_class".into(), "conflict"), ("/thread".into(), "conflict")]);
    let fields = Fields(vec![("thread".into(), Given::Text("M8".into())), ("systems".into(), Given::List(Vec::new()))]);
    let refusal = solve_fields(&fields).map(|(solved, _)| solved).unwrap_err();
    assert_eq!(codes(refusal), [("/systems".into(), "value_empty")]);
    let found = refused("thread=M8&thread_percent=101 percent&systems=inch");
    assert!(found.contains(&("/thread_percent".into(), "value_out_of_range")), "{found:?}");
    assert!(found.contains(&("/systems/0".into(), "value_unreadable")), "{found:?}");
}

#[test]
fn the_printed_drill_of_a_pipe_thread_keeps_within_the_class() {
    for thread in ["G 1/8", "G 1/4", "G 3/8", "G 1/2", "G 3/4", "G 1", "G 2"] {
        let (solved, _) = solve(&format!("thread={thread}")).unwrap();
        let within = at(&solved.result, "published.within_class");
        assert!(matches!(within, Some(Node::Truth(true))), "{thread}: {within:?}");
        // The class comes first and then the percentage: the printed lists do the same.
        assert_eq!(
            name(solved.result.member("drill").unwrap()),
            name(solved.result.member("published").unwrap()),
            "{thread}"
        );
    }
}

#[test]
fn a_taper_thread_takes_the_printed_drill_and_has_no_percentage() {
    // A tap maker's catalogue: 1/8 Q, 1/2 45/64 without reaming.
    assert_eq!((taken("thread=1/8 NPT"), taken("thread=1/2 NPT")), ("Q".into(), "45/64".into()));
    let (solved, record) = solve("thread=1/2 NPT").unwrap();
    assert!(at(&solved.result, "drill.thread_percent").is_none());
    assert!(notes(&record).contains(&"taper_without_reaming"));
    // K0 = E0 - 0.8 P with the E0 of ASME B1.20.1, table 2.
    assert!((number(&solved.result, "hole_diameter") - (0.75843 - 0.05714)).abs() < 1.5e-5);
    let (large, record) = solve("thread=6 NPT").unwrap();
    assert!(large.result.member("drill").is_none() && notes(&record).contains(&"no_stock_drill"));
    assert_eq!(refused("thread=1/2 NPT&thread_percent=75 percent").len(), 2);
    assert_eq!(refused("thread=R 1/2"), [("/thread".into(), "conflict")]);
    assert_eq!(refused("thread=Rc 6"), [("/thread".into(), "no_answer")]);
    assert_eq!(refused("thread=G 1/2&tap=forming").len(), 2);
}

#[test]
fn an_acme_nut_is_bored_to_its_minor_diameter() {
    let (solved, record) = solve("thread=1-5 Acme").unwrap();
    assert_eq!(number(&solved.result, "hole_diameter"), 0.8);
    assert_eq!(number(&solved.result, "minor_limits.minor_max"), 0.81);
    assert!(record.assumed.iter().any(|assumed| assumed.field == "internal_class"));
}

/// Every quantity is a number above zero; what a hole leaves up to a limit may be less.
fn all_sizes_are_above_zero(node: &Node) {
    match node {
        Node::Quantity(leaf) => assert!(leaf.quantity.value.is_finite() && leaf.quantity.value > 0.0, "{leaf:?}"),
        Node::List(rows) => rows.iter().for_each(all_sizes_are_above_zero),
        Node::Record(members) => {
            let sizes = members.iter().filter(|(name, _)| *name != "room");
            sizes.for_each(|(_, member)| all_sizes_are_above_zero(member));
        }
        _ => {}
    }
}

proptest! {
    #[test]
    fn every_answer_keeps_its_order_and_its_bounds(
        thread in "(G 1/[248]|1/[248] (BSW|BSF)|1-[3-8] Acme|Tr[1-9][0-9]x[1-9]|M[1-9][0-9]?(x[0-3](\\.[0-9]{1,2})?)?|[1-3](/[48])?-[0-9]{1,2}|#[0-9]{1,2}-[2-8][0-9])",
        percent in 0.001..=100.0_f64,
        oversize in 0.0..0.2_f64,
        tap in "(cutting|forming)",
        systems in "(fraction|number|letter|metric)(,metric|,number)?",
    ) {
        let query = format!(
            "thread={thread}&thread_percent={percent} percent&expected_oversize={oversize} mm&tap={tap}&systems={systems}"
        );
        if let Ok((solved, _)) = solve(&query) {
            all_sizes_are_above_zero(&solved.result);
            let si = |row: &Node, path: &str| match at(row, path) {
                Some(Node::Quantity(leaf)) => leaf.quantity.si(),
                other => panic!("{path} is {other:?}"),
            };
            let rows = rows(&solved);
            prop_assert!(rows.windows(2).all(|pair| si(&pair[0], "diameter") <= si(&pair[1], "diameter") + 1e-12));
            prop_assert!(rows.iter().all(|row| si(row, "thread_percent") > 0.0 && si(row, "thread_percent") <= 1.0 + 1e-8));
            if let Some(drill) = solved.result.member("drill") {
                let row = rows.iter().find(|row| name(row) == name(drill)).expect("a candidate");
                let within = !matches!(row.member("within_class"), Some(Node::Truth(false)));
                prop_assert!(within, "{}", query);
                let off = |row: &Node| (si(row, "thread_percent") - percent / 100.0).abs();
                let others = rows.iter().filter(|row| !matches!(row.member("within_class"), Some(Node::Truth(false))));
                prop_assert!(others.into_iter().all(|other| off(row) <= off(other) + 1e-8), "{}", query);
            }
        }
    }
}
