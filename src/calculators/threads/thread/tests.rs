//! What the thread calculator must hold beyond the outside checks.

use crate::calculators::prelude::*;
use crate::calculators::{Solved, find};
use crate::fields::Fields;
use crate::tree::{Leaf, Node};
use proptest::prelude::*;

fn solve(query: &str) -> Result<(Solved, Record), Refusal> {
    let mut record = Record::new(true);
    let entry = find("threads/thread").expect("the calculator");
    let fields = Fields::of_query(query).expect("a query");
    (entry.solve)(&fields, &mut record).map(|solved| (solved, record))
}

fn at<'n>(solved: &'n Solved, path: &str) -> Option<&'n Node> {
    path.split('.').try_fold(&solved.result, |node, name| node.member(name))
}

fn number(solved: &Solved, path: &str) -> f64 {
    match at(solved, path) {
        Some(Node::Quantity(leaf)) => leaf.quantity.value,
        other => panic!("{path} is {other:?}"),
    }
}

fn word(solved: &Solved, path: &str) -> String {
    match at(solved, path) {
        Some(Node::Text(text, _)) => text.to_string(),
        other => panic!("{path} is {other:?}"),
    }
}

fn wrongs(query: &str) -> Vec<(String, &'static str)> {
    let refusal = solve(query).map(|(solved, _)| solved).expect_err(query);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

fn codes(record: &Record) -> Vec<&'static str> {
    record.notes.iter().map(|note| note.code).collect()
}

#[test]
fn classes_come_from_field_designation_or_use() {
    let (solved, record) = solve("designation=M8-6h&internal_class=5H").unwrap();
    assert_eq!(word(&solved, "limits.external.class"), "6h");
    assert_eq!(word(&solved, "limits.internal.class"), "5H");
    assert!(record.assumed.is_empty());
    let (solved, record) = solve("designation=M1.4").unwrap();
    assert_eq!(word(&solved, "limits.external.class"), "6h");
    assert_eq!(word(&solved, "limits.internal.class"), "5H");
    let assumed: Vec<_> = record.assumed.iter().map(|assumed| assumed.field).collect();
    assert_eq!(assumed, ["external_class", "internal_class"]);
}

#[test]
fn a_class_that_contradicts_the_designation_is_refused_on_both_fields() {
    let both = |class: &str| vec![("/designation".to_owned(), "conflict"), (format!("/{class}"), "conflict")];
    assert_eq!(wrongs("designation=1/4-20 UNC-2A&external_class=3A"), both("external_class"));
    assert_eq!(wrongs("designation=M8-6g&external_class=4g"), both("external_class"));
    let all = wrongs("designation=M8-6g&internal_class=2B&external_class=4g");
    assert_eq!(all.len(), 3, "{all:?}");
}

#[test]
fn a_class_of_the_other_side_is_refused_as_it_is_read() {
    assert_eq!(wrongs("designation=M8&external_class=6H"), [("/external_class".to_owned(), "not_found")]);
}

#[test]
fn a_class_asked_for_without_limits_is_refused_and_a_usual_one_noted() {
    assert_eq!(wrongs("designation=M3&external_class=8g"), [("/external_class".to_owned(), "not_found")]);
    assert_eq!(wrongs("designation=M3-8g"), [("/designation".to_owned(), "not_found")]);
    assert_eq!(wrongs("designation=M400x6&external_class=6g"), [("/designation".to_owned(), "not_found")]);
    let (solved, record) = solve("designation=M400x6").unwrap();
    assert!(at(&solved, "limits").is_none());
    assert!(codes(&record).contains(&"no_limits") && codes(&record).contains(&"unlisted"));
    // ISO 724: 400 - 0.649519 * 6.
    assert_eq!(number(&solved, "pitch_diameter"), 396.103);
}

#[test]
fn hand_and_starts_change_the_lead_and_nothing_else() {
    let (one, _) = solve("designation=M16x2").unwrap();
    let (two, _) = solve("designation=M16xPh4P2-LH").unwrap();
    assert_eq!((number(&one, "lead"), number(&two, "lead")), (2.0, 4.0));
    assert!(matches!(at(&two, "left_hand"), Some(Node::Truth(true))));
    assert!(matches!(at(&two, "starts"), Some(Node::Count(2))));
    for path in ["pitch", "pitch_diameter", "stress_area", "limits.external.pitch_min"] {
        assert_eq!(number(&one, path), number(&two, path), "{path}");
    }
    // At one and the same diameter the tangent of the lead angle goes with the lead.
    let tangent = |solved: &Solved| number(solved, "lead_angle").to_radians().tan();
    assert!((tangent(&two) / tangent(&one) - 2.0).abs() < 1e-12);
}

#[test]
fn depths_are_those_printed_for_the_form() {
    // Machinery's Handbook, 27th ed., p. 1734: external depth 0.54127 P for UN, 0.59539 P for UNR.
    let depth = |query: &str| number(&solve(query).unwrap().0, "external_depth");
    assert!((depth("designation=1-8 UNC") * 8.0 - 0.54127).abs() < 5e-6);
    assert!((depth("designation=1-8 UNRC") * 8.0 - 0.59539).abs() < 5e-6);
    // Half of 1.226869 P, which a tap maker's guide prints for the difference of major and root diameter.
    assert!((2.0 * depth("designation=M8") / 1.25 - 1.226_869).abs() < 5e-7);
}

#[test]
fn a_thread_in_no_list_names_its_neighbours() {
    let (solved, record) = solve("designation=1/4-24").unwrap();
    assert!(matches!(at(&solved, "standard"), Some(Node::Truth(false))));
    let note = record.notes.iter().find(|note| note.code == "unlisted").unwrap();
    assert!(note.says.contains("1/4-20 UNC") || note.says.contains("1/4-28 UNF"), "{}", note.says);
}

#[test]
fn a_missing_or_foreign_designation_is_refused() {
    assert_eq!(wrongs(""), [("/designation".to_owned(), "field_missing")]);
    assert_eq!(wrongs("designation=MJ8x1"), [("/designation".to_owned(), "not_offered")]);
    let all = wrongs("designation=1/4&external_class=x&internal_class=2A&size=1");
    assert_eq!(all.len(), 4, "{all:?}");
}

fn pairs_are_in_order(solved: &Solved) {
    let mut tree = solved.result.clone();
    tree.each_quantity(&mut |leaf: &mut Leaf| {
        assert!(leaf.quantity.value.is_finite() && leaf.quantity.value >= 0.0, "{leaf:?}");
    });
    for (least, greatest) in [
        ("limits.external.major_min", "limits.external.major_max"),
        ("limits.external.pitch_min", "limits.external.pitch_max"),
        ("limits.internal.minor_min", "limits.internal.minor_max"),
        ("limits.internal.pitch_min", "limits.internal.pitch_max"),
    ] {
        if at(solved, least).is_some() {
            assert!(number(solved, least) < number(solved, greatest), "{least}: {solved:?}");
        }
    }
}

#[test]
fn a_class_of_another_system_is_a_conflict_and_one_side_may_have_none() {
    // Of the field alone: a thread of another system is no way out.
    let class = |class: &str| [(format!("/{class}"), "conflict")];
    assert_eq!(wrongs("designation=G 1/2&external_class=2A"), class("external_class"));
    assert_eq!(wrongs("designation=G 1/2&internal_class=2B"), class("internal_class"));
    assert_eq!(wrongs("designation=1/4-20 BSW&external_class=2A"), class("external_class"));
    assert_eq!(wrongs("designation=M8&internal_class=2B"), class("internal_class"));
    let (solved, record) = solve("designation=G 1/2").unwrap();
    assert!(at(&solved, "limits.internal.class").is_none());
    let assumed: Vec<_> = record.assumed.iter().map(|assumed| assumed.field).collect();
    assert_eq!(assumed, ["external_class"]);
}

#[test]
fn whitworth_npt_and_taper_threads_have_no_limits_and_say_why() {
    for (thread, word) in
        [("1/4-20 BSW", "BS 84"), ("1/4-18 NPT", "gauged"), ("R 1/2", "gauged"), ("Rp 1/2", "ISO 7-1")]
    {
        let (solved, record) = solve(&format!("designation={thread}")).unwrap();
        assert!(at(&solved, "limits").is_none(), "{thread}");
        let note = record.notes.iter().find(|note| note.code == "no_limits").unwrap();
        assert!(note.says.contains(word), "{thread}: {}", note.says);
    }
}

#[test]
fn trapezoidal_tolerances_say_that_they_are_recalled() {
    let (_, record) = solve("designation=Tr28x5").unwrap();
    assert!(codes(&record).contains(&"not_compared"));
    assert_eq!(record.trust(), crate::sources::Trust::FromMemory);
}

proptest! {
    #[test]
    fn any_request_is_answered_or_refused_with_its_fields(
        designation in "(M[0-9]{1,3}(\\.[0-9])?(x[0-9](\\.[0-9]{1,2})?)?|[0-9]{1,2}(/[0-9]{1,2})?-[0-9]{1,2}|#[0-9]{1,2}-[0-9]{2}|(G|R|Rp|Rc) [1-6]( 1/2)?|[1-6]( 1/2)? (NPT|BSW|BSF|Acme)|Tr[1-9][0-9]x[1-9]|.{0,12})",
        external in "(|[1-3]A|[AB]|[2-4]G|[78]e|[3-9][e-h]|[3-9][A-Za-z]{1,3})",
        internal in "(|[1-3]B|[4-8][GH]|.{0,4})",
    ) {
        let mut query = format!("designation={}", designation.replace(['&', '%', '+'], ""));
        for (name, class) in [("external_class", external), ("internal_class", internal)] {
            if !class.is_empty() {
                query.push_str(&format!("&{name}={}", class.replace(['&', '%', '+'], "")));
            }
        }
        match solve(&query) {
            Ok((solved, _)) => pairs_are_in_order(&solved),
            Err(refusal) => prop_assert!(
                !refusal.0.is_empty() && refusal.0.iter().all(|w| w.field.len() > 1 && w.try_this.is_some()),
                "{query}: {refusal:?}"
            ),
        }
    }
}
