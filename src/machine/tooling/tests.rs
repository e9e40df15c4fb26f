//! Which row is taken, which point of its range, and what is said where there is none.

use super::*;
use crate::machine::Wanted;
use crate::quantity::{Unit, kind};

fn tooling(material: &str, tool: ToolMaterial, operation: Operation) -> Tooling {
    let material = Some(WorkMaterial::read(material).expect("a material"));
    Tooling { material, tool: Some(tool), point: None, cutting_speed: None, turns: None, operation }
}

/// The cutting speed wanted, in feet a minute.
fn feet(tooling: Tooling, record: &mut Record) -> f64 {
    let wanted = tooling.speed(record).expect("a speed");
    let Wanted::Cutting(wanted) = wanted else { panic!("{wanted:?}") };
    wanted.speed.quantity().in_unit(Unit::FootPerMinute)
}

#[test]
fn the_low_end_is_taken_unless_another_point_is_asked_for() {
    let steel = tooling("4140-annealed", ToolMaterial::Hss, Operation::Milling);
    for (point, expected) in
        [(None, 60.0), (Some(RangePoint::Middle), 70.0), (Some(RangePoint::High), 80.0), (Some(RangePoint::Low), 60.0)]
    {
        let mut record = Record::new(true);
        assert_eq!(feet(Tooling { point, ..steel }, &mut record), expected);
        assert_eq!(record.assumed.len(), usize::from(point.is_none()));
        assert_eq!(record.sources[0].source.key, "course_sheet");
    }
}

#[test]
fn a_feed_comes_from_the_table_and_is_assumed() {
    let steel = tooling("4140-annealed", ToolMaterial::Hss, Operation::Milling);
    let mut record = Record::new(true);
    let feed: WantedFeed<kind::FeedPerTooth> =
        steel.feed(None, "feed_per_tooth", Operation::Milling, Some(0.0127), &mut record).expect("a feed");
    assert_eq!(feed.feed.quantity().value, 0.000924);
    let fields: Vec<&str> = record.assumed.iter().map(|assumed| assumed.field).collect();
    assert_eq!(fields, ["range_point", "feed_per_tooth"]);
    assert!(record.trust() == crate::sources::Trust::CommonPractice);
}

#[test]
fn where_the_tables_have_nothing_the_way_out_is_named() {
    let iron = tooling("n06625", ToolMaterial::Hss, Operation::Milling);
    let refusal = iron.speed(&mut Record::new(true)).unwrap_err();
    let fields: Vec<&str> = refusal.0.iter().map(|wrong| wrong.field.as_str()).collect();
    assert_eq!(fields, ["/cutting_speed"], "never another material");
    let drill = tooling("nylon", ToolMaterial::Carbide, Operation::Drilling);
    let refusal = drill.speed(&mut Record::new(true)).unwrap_err();
    assert!(refusal.0.iter().any(|wrong| wrong.try_this.as_deref() == Some("hss")));
}

#[test]
fn a_difference_of_more_than_a_third_is_said_with_both_sources_and_both_values() {
    let mut record = Record::new(true);
    let drill = tooling("6061", ToolMaterial::Hss, Operation::Drilling);
    assert_eq!(feet(drill, &mut record), 200.0);
    let note = record.notes.iter().find(|note| note.code == "sources_differ").expect("a note");
    for part in ["200 ft/min to 300 ft/min by US Navy", "350 ft/min by Machinery's Handbook", "the slower is used"] {
        assert!(note.says.contains(part), "{}", note.says);
    }
    let mut record = Record::new(true);
    let lathe = tooling("ti-6al-4v", ToolMaterial::Hss, Operation::TurningRough);
    assert_eq!(feet(lathe, &mut record), 40.0);
    assert!(record.notes.iter().all(|note| note.code != "sources_differ"));
}
