//! Indexing by whole numbers: each way, turned back into an angle, gives the step, and all steps one whole turn.

mod common;

use common::asked;
use serde_json::Value;
use shop_reckoner::arithmetic::fraction::Fraction;
use shop_reckoner::calculators::find;

const GEARS: [u32; 12] = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100];
const THREE_PLATES: [[u32; 6]; 3] = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]];

fn answer(query: &str) -> Result<Value, String> {
    let entry = find("geometry/dividing-head").expect("the calculator");
    asked(entry, query).map_err(|refusal| refusal.words())
}

fn ways(answer: &Value) -> &[Value] {
    answer["result"]["ways"].as_array().expect("ways")
}

fn count(way: &Value, name: &str) -> Option<i128> {
    way[name].as_f64().map(|number| number as i128)
}

/// The gears of a train as drivers and driven ones.
fn train(text: &str) -> (Vec<u32>, Vec<u32>) {
    let pair = |pair: &str| {
        let (driver, driven) = pair.split_once('/').expect("a pair");
        (driver.trim().parse::<u32>().expect("teeth"), driven.trim().parse::<u32>().expect("teeth"))
    };
    text.split('×').map(pair).unzip()
}

/// Turns of the worm that a way makes in one step, from what is set on the machine alone.
fn turned(way: &Value, ratio: i128, divisions: i128) -> Fraction {
    let (whole, holes) = (count(way, "turns").expect("turns"), count(way, "holes").expect("holes"));
    let circle = count(way, "circle").unwrap_or(1);
    if way["method"] == "direct" {
        return Fraction::of(holes * ratio, circle);
    }
    let mut turns = Fraction::of(whole * circle + holes, circle);
    if let (Some(second), Some(of)) = (count(way, "second_holes"), count(way, "second_circle")) {
        turns = turns.plus(Fraction::of(second, of));
    }
    if let Some(text) = way["gears"].as_str() {
        let (drivers, driven) = train(text);
        let all = |gears: &[u32]| gears.iter().map(|teeth| i128::from(*teeth)).product::<i128>();
        let simple = drivers.len() == 1;
        // Each idler turns the plate round: one in a simple train, none in a compound one, leaves it with the crank.
        let with_the_crank = count(way, "idlers") == Some(i128::from(simple));
        assert!(with_the_crank || count(way, "idlers") == Some(i128::from(simple) + 1), "{way}");
        let sign = if with_the_crank { 1 } else { -1 };
        turns = turns.plus(Fraction::of(sign * all(&drivers), all(&driven) * divisions));
    }
    turns
}

fn verify(answer: &Value, ratio: i128, divisions: i128) {
    for way in ways(answer) {
        let turns = turned(way, ratio, divisions);
        let off = turns.times(divisions).less(Fraction::of(ratio, 1)).get() * 1_296_000.0 / ratio as f64;
        let said = way["off_in_all"].as_f64().expect("an error");
        assert!((off - said).abs() <= 1e-9 * off.abs().max(1e-3), "{divisions}: {off} is said to be {said}: {way}");
        assert_eq!(off == 0.0, turns == Fraction::of(ratio, divisions));
    }
}

#[test]
fn every_number_of_divisions_comes_to_a_whole_turn_or_says_by_how_much_it_does_not() {
    let mut none = Vec::new();
    for divisions in 2..=400 {
        let found = answer(&format!("divisions={divisions}&worm_ratio=40&working=false")).expect("a way");
        verify(&found, 40, divisions);
        for way in ways(&found) {
            if way["method"] == "simple" {
                assert!(way["circle"].is_null() || THREE_PLATES.iter().flatten().any(|holes| way["circle"] == *holes));
            }
            if way["method"] == "compound" {
                let is_on = |side: &[u32; 6], name: &str| side.iter().any(|holes| way[name] == *holes);
                assert!(THREE_PLATES.iter().any(|side| is_on(side, "circle") && is_on(side, "second_circle")), "{way}");
            }
        }
        if ways(&found)[0]["off_seconds"] != 0.0 {
            none.push(divisions);
        }
    }
    // The handbook's table goes through every number up to 382 with these plates and gears.
    assert_eq!(none, [383]);
}

#[test]
fn every_exact_circle_is_found_and_no_other() {
    for divisions in 2..=400i128 {
        let by_trying =
            THREE_PLATES.iter().flatten().filter(|circle| 40 * i128::from(**circle) % divisions == 0).count();
        let found = answer(&format!("divisions={divisions}&methods=simple&working=false")).expect("a way");
        let exact = ways(&found).iter().filter(|way| way["off_seconds"] == 0.0 && !way["circle"].is_null()).count();
        let wanted = if 40 % divisions == 0 { 0 } else { by_trying };
        assert_eq!(exact, wanted, "{divisions}");
    }
}

#[test]
fn gears_are_owned_as_often_as_they_are_used() {
    for divisions in [51, 53, 57, 59, 61, 63, 67, 97, 99, 127, 227, 271, 319] {
        let found = answer(&format!("divisions={divisions}&worm_ratio=40&methods=differential")).expect("a way");
        verify(&found, 40, divisions);
        assert!(ways(&found).iter().all(|way| way["off_seconds"] == 0.0));
        for way in ways(&found) {
            let (drivers, driven) = train(way["gears"].as_str().expect("gears"));
            let used: Vec<u32> = drivers.into_iter().chain(driven).collect();
            for teeth in &used {
                let number = |gears: &[u32]| gears.iter().filter(|one| *one == teeth).count();
                assert!(number(&used) <= number(&GEARS), "{way}");
            }
        }
    }
}

#[test]
fn heads_of_other_ratios_and_plates_come_round_too() {
    for ratio in [5, 30, 60, 90, 120] {
        for (plates, divisions) in [("two_sides", 57), ("wide_range", 125), ("high_numbers", 127), ("three_plates", 61)]
        {
            for methods in ["", "&methods=compound", "&methods=differential", "&methods=simple"] {
                let query = format!("divisions={divisions}&worm_ratio={ratio}&plates={plates}{methods}");
                if let Ok(found) = answer(&query) {
                    verify(&found, ratio, divisions);
                }
            }
        }
    }
}

#[test]
fn places_set_from_zero_are_never_off_by_more_than_half_a_hole() {
    let found = answer("divisions=127&worm_ratio=40&methods=simple&plates=49").expect("a way");
    let table = found["result"]["table"].as_array().expect("places");
    assert_eq!(table.len(), 127);
    let half = 1_296_000.0 / (40.0 * 49.0) / 2.0;
    for (at, place) in table.iter().enumerate() {
        let stands = count(place, "turns").expect("turns") * 49 + count(place, "divisions").expect("a hole");
        let exact = 40.0 * 49.0 * at as f64 / 127.0;
        let off = (stands as f64 - exact) * 2.0 * half;
        let said = place["off_seconds"].as_f64().expect("seconds");
        assert!((off - said).abs() < 1e-6 && said.abs() <= half * (1.0 + 1e-9), "{place}");
    }
    assert!(found["cautions"].to_string().contains("adds up"));
}

#[test]
fn words_say_what_is_assumed_and_from_memory() {
    let found = answer("divisions=51").expect("a way");
    let text = found.to_string();
    assert_eq!(found["trust"], "from memory", "the usual gears are");
    assert!(text.contains("withdraw the stop pin") && text.contains("40 turns of the crank"));
    let own = answer("divisions=51&methods=differential&gears=24,48&plates=17&worm_ratio=40").expect("a way");
    assert_ne!(own["trust"], "from memory");
    let plain = answer("divisions=28").expect("a way");
    assert_eq!(plain["trust"], "handbook");
    assert!(ways(&plain).iter().all(|way| way["method"] == "simple"));
}

#[test]
fn a_spent_budget_ends_the_search() {
    use shop_reckoner::budget::Budget;
    let spent = Budget::of(std::time::Duration::ZERO);
    spent.give_up();
    for methods in ["compound", "differential"] {
        assert!(spent.spend(|| answer(&format!("divisions=51&methods={methods}"))).is_err());
    }
}
