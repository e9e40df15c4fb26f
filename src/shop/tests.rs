//! The example file as the service understands it, and what the file's forms mean.

use super::drills_to_choose::choose_from;
use super::*;
use crate::reference::drills::Drill;
use crate::refusal::Code;
use crate::working::Record;

const EXAMPLE: &str = include_str!("../../data/shop/tern-point-works.toml");

fn example() -> Shop {
    Shop::read(EXAMPLE).unwrap_or_else(|faults| panic!("{faults}"))
}

fn with(more: &str) -> Shop {
    Shop::read(&format!("name = \"Tern Point Works\"\n{more}")).unwrap_or_else(|faults| panic!("{faults}"))
}

fn names(shop: &Shop) -> Vec<&'static str> {
    shop.drills.iter().map(|drill| drill.name).collect()
}

#[test]
fn the_example_says_what_the_shop_owns() {
    let shop = example();
    assert_eq!(shop.name, "Tern Point Works");
    let mill = shop.machine("mill").expect("a mill");
    assert_eq!(
        mill.field("available"),
        Some("112 rpm, 160 rpm, 224 rpm, 315 rpm, 450 rpm, 630 rpm, 900 rpm, 1250 rpm")
    );
    assert_eq!((mill.field("spindle_power"), mill.field("divisions")), (Some("1.5 kW"), Some("250")));
    assert_eq!(mill.field("fastest"), None);
    // 29 fractions from 1/16 to 1/2 by 64ths and 3 more, 60 numbers, 26 letters, 25 half millimeters and 4 more.
    assert_eq!(shop.drills.len(), 29 + 3 + 60 + 26 + 25 + 4);
    assert!(shop.drills.windows(2).all(|pair| pair[0].millimetres() <= pair[1].millimetres()));
    assert_eq!((shop.taps.len(), shop.reamers.len(), shop.change_gears.len()), (16, 8, 16));
    assert_eq!(shop.taps[9].designation, "M4");
    // 1 and 49 hundredths, 19 halves, 10 tens of millimeters.
    assert_eq!(shop.gauge_blocks.len(), 1 + 49 + 19 + 10);
    assert_eq!(shop.gauge_blocks[49].quantity().value, 1.49);
}

#[test]
fn one_file_has_one_hash_and_another_file_another() {
    assert_eq!(example().hash, example().hash);
    assert_eq!(example().hash.len(), 12);
    assert_ne!(example().hash, Shop::read(&format!("{EXAMPLE}\n")).expect("a shop").hash);
}

#[test]
fn a_name_alone_is_a_shop() {
    let shop = with("");
    assert!(shop.machines.is_empty() && shop.drills.is_empty() && shop.taps.is_empty());
}

#[test]
fn drills_are_named_singly_or_in_runs_and_in_either_direction() {
    assert_eq!(names(&with("[drills]\nnumber = [\"#3 to No.1\"]")), ["#3", "#2", "#1"]);
    assert_eq!(names(&with("[drills]\nletter = [\"A to C\"]\nnumber = [\"#7\"]")), ["#7", "A", "B", "C"]);
    assert_eq!(names(&with("[drills]\nfraction = [\"1/4 to 1/2 by 1/8\"]")), ["1/4", "3/8", "1/2"]);
    assert_eq!(names(&with("[drills]\nmetric = [\"3 mm to 4 mm by 0.5 mm\"]")), ["3 mm", "3.5 mm", "4 mm"]);
    // By size, whatever the unit or the writing of it.
    assert_eq!(
        names(&with("[drills]\nmetric = [\"6.80 mm\", \"0.7 cm\"]\nfraction = [\"0.5 in\"]")),
        ["6.8 mm", "7 mm", "1/2"]
    );
}

#[test]
fn a_list_may_be_one_text_with_commas() {
    let shop = with("[machines.mill]\navailable = \"112 rpm, 160 rpm\"\n");
    assert_eq!(shop.machine("mill").and_then(|mill| mill.field("available")), Some("112 rpm, 160 rpm"));
}

#[test]
fn what_the_file_says_of_a_machine_does_not_hang_on_the_order_of_its_lines() {
    let one = with("[machines.a]\nslowest = \"112 rpm\"\nfastest = \"900 rpm\"\n");
    let other = with("[machines.a]\nfastest = \"900 rpm\"\nslowest = \"112 rpm\"\n");
    assert_eq!(one.machines[0].fields, other.machines[0].fields);
}

#[test]
fn the_drawer_is_taken_where_there_is_one_and_nothing_else_is_said() {
    let shop = with("[drills]\nnumber = [\"#7\"]");
    let drawer = Some((shop.name.as_str(), shop.drills.as_slice()));
    let mut record = Record::default();
    let chosen = choose_from(None, drawer, &mut record).expect("drills");
    assert_eq!((chosen.from, chosen.drills.len()), (DrillsFrom::Shop, 1));
    assert_eq!(record.assumed[0].field, "from");
    assert_eq!(record.assumed[0].says, "Drills are chosen from the drawer of Tern Point Works.");
    let mut record = Record::default();
    let chosen = choose_from(Some(DrillsFrom::Tables), drawer, &mut record).expect("drills");
    assert!(chosen.from == DrillsFrom::Tables && chosen.drills.len() > 500 && record.assumed.is_empty());
}

#[test]
fn without_a_drawer_the_tables_are_taken_and_the_shop_is_refused() {
    let empty: &[&'static Drill] = &[];
    for shop in [None, Some(("Tern Point Works", empty))] {
        let mut record = Record::default();
        let chosen = choose_from(None, shop, &mut record).expect("drills");
        assert_eq!((chosen.from, record.assumed.len()), (DrillsFrom::Tables, 1));
        let refusal = choose_from(Some(DrillsFrom::Shop), shop, &mut Record::default()).expect_err("refused");
        assert_eq!((refusal.0[0].field.as_str(), refusal.0[0].code), ("/from", Code::NotOffered));
    }
}

#[test]
fn every_field_of_a_machine_is_read() {
    let shop = with(
        "[machines.all]\navailable = [\"112 rpm\"]\nslowest = \"100 rpm\"\nfastest = \"200 rpm\"\n\
         spindle_power = \"2 hp\"\nefficiency = \"80 percent\"\nbase_speed = \"450 rpm\"\n\
         fastest_feed = \"400 mm/min\"\navailable_feeds = [\"0.1 mm/rev\"]\nquill_feeds = [\"0.1 mm/rev\"]\ntravel_x = \"24 in\"\ntravel_y = \"10 in\"\n\
         travel_per_turn = \"0.1 in\"\n\
         divisions = 100\nbacklash = \"0 in\"\nresolution = \"0.0005 in\"\nz_plus = \"down\"\n",
    );
    let read: Vec<&str> = shop.machines[0].fields.iter().map(|(name, _)| *name).collect();
    let known: Vec<&str> = MACHINE_FIELDS.iter().map(|field| field.name).collect();
    assert_eq!(read, known);
}

#[test]
fn every_good_value_that_a_fault_shows_is_good() {
    for (name, good) in machines::good_values() {
        let shop = with(&format!("[machines.mill]\n{name} = {good}\n"));
        assert!(shop.machines[0].field(name).is_some(), "{name} = {good}");
    }
    for (system, good) in drawer::good_values() {
        assert!(!with(&format!("[drills]\n{system} = [\"{good}\"]\n")).drills.is_empty(), "{system}: {good}");
    }
}

#[test]
fn a_byte_order_mark_and_the_line_ends_of_windows_are_read() {
    let shop = Shop::read(&format!("\u{feff}{}", EXAMPLE.replace('\n', "\r\n"))).expect("a shop");
    assert_eq!(shop.drills.len(), example().drills.len());
}

proptest::proptest! {
    #[test]
    fn a_spoilt_file_is_read_or_refused_with_a_line_of_its_own(
        at in 0..EXAMPLE.len(),
        cut in 0usize..40,
        put in "[\\[\\]\"={}.,#0-9a-z \n-]{0,6}",
    ) {
        // The example is plain ASCII, so that it can be cut anywhere.
        let spoilt = format!("{}{put}{}", &EXAMPLE[..at], &EXAMPLE[(at + cut).min(EXAMPLE.len())..]);
        if let Err(faults) = Shop::read(&spoilt) {
            proptest::prop_assert!(!faults.0.is_empty());
            let lines = spoilt.lines().count() + 1;
            proptest::prop_assert!(faults.0.iter().all(|fault| (1..=lines).contains(&fault.line)), "{}", faults);
        }
    }
}
