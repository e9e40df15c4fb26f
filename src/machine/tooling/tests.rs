//! Which row is taken, which point of its range, and what is said where there is none.

use super::*;
use crate::quantity::Unit;

fn tooling(material: &str, tool: ToolMaterial, operation: Operation) -> Tooling {
    let material = Some(WorkMaterial::read(material).expect("a material"));
    Tooling { material, tool: Some(tool), point: None, cutting_speed: None, turns: None, operation }
}

#[test]
fn the_low_end_is_taken_unless_another_point_is_asked_for() {
    let steel = tooling("4140-annealed", ToolMaterial::Hss, Operation::Milling);
    for (point, expected) in
        [(None, 60.0), (Some(RangePoint::Middle), 70.0), (Some(RangePoint::High), 80.0), (Some(RangePoint::Low), 60.0)]
    {
        let mut record = Record::new(true);
        let wanted = Tooling { point, ..steel }.speed(&mut record).expect("a speed");
        let Wanted::Cutting(wanted) = wanted else { panic!("{wanted:?}") };
        assert_eq!(wanted.speed.quantity().in_unit(Unit::FootPerMinute), expected);
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
    assert_eq!(fields, ["/cutting_speed", "/material"]);
    let drill = tooling("nylon", ToolMaterial::Carbide, Operation::Drilling);
    let refusal = drill.speed(&mut Record::new(true)).unwrap_err();
    assert!(refusal.0.iter().any(|wrong| wrong.try_this.as_deref() == Some("hss")));
}
