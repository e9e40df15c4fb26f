//! Ways of indexing as rows of an answer, with the steps of each column.

use super::moves::{IndexMethod, Move, Wanted};
use crate::calculators::prelude::*;

/// A way to make one step.
#[derive(Clone, Debug, Gives)]
pub struct IndexingWay {
    /// The way in words.
    pub setting: String,
    /// How it is indexed.
    pub method: IndexMethod,
    /// The plate or its side.
    pub plate: Option<String>,
    /// Holes of the circle.
    #[label("Circle")]
    pub circle: Option<u32>,
    /// Whole turns.
    pub turns: u32,
    /// Holes beyond them.
    #[label("Holes beyond the turns")]
    pub holes: u32,
    /// Holes that the sector arms stand over, with the pin's.
    #[label("Holes between the sector arms, both counted")]
    pub sector_holes: Option<u32>,
    /// Compound: circle of the stop pin.
    #[label("Second circle")]
    pub second_circle: Option<u32>,
    /// Holes crank and plate move together; negative is back.
    #[label("Second movement, holes")]
    pub second_holes: Option<f64>,
    /// Differential: turns of the plate for one of the spindle; negative is against the crank.
    #[label("Turns of the plate for one of the spindle")]
    pub gear_ratio: Option<f64>,
    /// Drivers over driven gears, from the spindle on.
    pub gears: Option<String>,
    /// Idlers of the usual head.
    pub idlers: Option<u32>,
    /// Seconds of arc that a step is too far.
    #[label("One step too far, seconds of arc")]
    pub off_seconds: f64,
    /// The same after all divisions.
    #[label("Too far after all, seconds of arc")]
    pub off_in_all: Option<f64>,
}

/// Every row with its steps.
pub fn rows(moves: &[Move], wanted: &Wanted, record: &mut Record) -> Vec<IndexingWay> {
    let ways: Vec<IndexingWay> = moves.iter().map(|way| row(way, wanted)).collect();
    let with = "every circle, pair of circles and train that the methods allow, by whole numbers; the simplest first";
    tell!(record.look_up("Ways", with) => ways.setting);
    record.look_up("Methods", "of the ways").gives("ways.method", column(&ways, |way| way.method.as_str()));
    tell!(record.look_up("Whole turns of the crank", "of the ways") => ways.turns);
    tell!(record.look_up("Holes beyond them", "of the ways") => ways.holes);
    if ways.iter().any(|way| way.circle.is_some()) {
        tell!(record.look_up("Plates", "whose circle it is") => ways.plate);
        tell!(record.look_up("Circles", "of the ways") => ways.circle);
    }
    let arms: Vec<IndexingWay> = ways.iter().filter(|way| way.sector_holes.is_some()).cloned().collect();
    if !arms.is_empty() {
        record
            .look_up("Holes to move by the arms", "of these ways")
            .gives("arms.holes", column(&arms, |way| way.holes));
        record
            .step("Holes between the sector arms, with the pin's", "S = h + 1")
            .with("h", "arms.holes", column(&arms, |way| way.holes))
            .gives("ways.sector_holes", column(&arms, |way| way.sector_holes));
    }
    if let Some(first) = arms.first().filter(|_| ways[0].sector_holes.is_some()) {
        let (circle, holes) = (first.circle.unwrap_or(1), first.holes);
        record.look_up("First way, its circle", "of the ways").gives("first.circle", circle);
        record.look_up("First way, its holes", "of the ways").gives("first.holes", holes);
        let step = record.step("Angle between its arms", "σ = 2 × π × h / c").with("h", "first.holes", holes);
        step.with("c", "first.circle", circle).gives("sector_angle", sector_angle(circle, holes));
    }
    tell_worm(&ways, moves, wanted, record);
    tell_off(&ways, moves, wanted, record);
    ways
}

/// The angle from one sector arm to the other.
pub fn sector_angle(circle: u32, holes: u32) -> FoundAngle {
    FoundAngle::stated(text::tidy(360.0 * f64::from(holes) / f64::from(circle)), Unit::Degree)
}

fn counted(count: i128, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

fn row(way: &Move, wanted: &Wanted) -> IndexingWay {
    let is_direct = way.method == IndexMethod::Direct;
    let around = way.first.as_ref().map_or(1, |first| i128::from(first.circle));
    let in_all = way.first.as_ref().map_or(way.worm.floor(), |first| first.holes);
    let (turns, holes) = if is_direct { (0, in_all) } else { (in_all / around, in_all % around) };
    let circle = way.first.as_ref().map(|first| first.circle);
    let off = way.worm.less(wanted.turns());
    let off_seconds = seconds(off.top as f64, off.bottom as f64, wanted.ratio);
    let mut setting = match (circle, turns) {
        _ if is_direct => format!("{} of the direct plate of {around}", counted(holes, "hole")),
        (None, turns) => counted(turns, "turn"),
        (Some(circle), 0) => format!("{} in the {circle} circle", counted(holes, "hole")),
        (Some(circle), turns) if holes == 0 => format!("{} in the {circle} circle", counted(turns, "turn")),
        (Some(circle), turns) => {
            format!("{} and {} in the {circle} circle", counted(turns, "turn"), counted(holes, "hole"))
        }
    };
    if let Some(second) = &way.second {
        let towards = if second.holes < 0 { "back" } else { "on" };
        setting += &format!(", then {} {towards} in the {} circle", counted(second.holes.abs(), "hole"), second.circle);
    }
    let idlers = way.gears.map(|(train, lacking)| match (train.second.is_some(), lacking.top > 0) {
        (false, true) => 1,
        (false, false) => 2,
        (true, true) => 0,
        (true, false) => 1,
    });
    if let (Some((train, lacking)), Some(idlers)) = (way.gears, idlers) {
        let towards = if lacking.top > 0 { "with" } else { "against" };
        let idlers = if idlers == 0 { "no idler".to_owned() } else { counted(idlers.into(), "idler") };
        setting += &format!(", gears {} and {idlers}: the plate turns {towards} the crank", train.text());
    }
    IndexingWay {
        setting,
        method: way.method,
        plate: way.first.as_ref().map(|first| first.plate.clone()),
        circle,
        turns: turns as u32,
        holes: holes as u32,
        sector_holes: circle.filter(|_| !is_direct && holes > 0).map(|_| holes as u32 + 1),
        second_circle: way.second.as_ref().map(|second| second.circle),
        second_holes: way.second.as_ref().map(|second| second.holes as f64),
        gear_ratio: way.gears.map(|(_, lacking)| text::tidy(lacking.get())),
        gears: way.gears.map(|(train, _)| train.text()),
        idlers,
        off_seconds,
        off_in_all: wanted.divisions.map(|divisions| text::tidy(f64::from(divisions) * off_seconds)),
    }
}

fn seconds(top: f64, bottom: f64, ratio: u32) -> f64 {
    text::tidy(top / bottom * 360.0 * 60.0 * 60.0 / f64::from(ratio))
}

/// Turns of the worm, method by method.
fn tell_worm(ways: &[IndexingWay], moves: &[Move], wanted: &Wanted, record: &mut Record) {
    let of = |method| ways.iter().filter(|way| way.method == method && way.circle.is_some()).collect::<Vec<_>>();
    let worm = |method| {
        let some = moves.iter().filter(|way| way.method == method && way.first.is_some());
        some.map(|way| text::tidy(way.worm.get())).collect::<Vec<f64>>()
    };
    let direct = of(IndexMethod::Direct);
    if !direct.is_empty() {
        let (holes, circle) = (direct[0].holes, direct[0].circle.unwrap_or(1));
        record.look_up("Direct plate, holes to move", "of the ways").gives("direct.holes", holes);
        let step = record.step("Direct: turns of the worm it stands for", "t = W × h / D");
        let step = step.with("W", "worm_ratio", wanted.ratio).with("h", "direct.holes", holes);
        step.with("D", "direct_holes", circle).gives("direct.worm_turns", worm(IndexMethod::Direct));
    }
    let names: [(IndexMethod, [&'static str; 4], &'static str); 3] = [
        (IndexMethod::Simple, ["simple.turns", "simple.holes", "simple.circle", "simple.worm_turns"], "t = w + h / c"),
        (
            IndexMethod::Compound,
            ["compound.turns", "compound.holes", "compound.circle", "compound.worm_turns"],
            "t = w + h / c + j / b",
        ),
        (
            IndexMethod::Differential,
            ["differential.turns", "differential.holes", "differential.circle", "differential.worm_turns"],
            "t = w + h / c + g / N",
        ),
    ];
    for (method, [turns_of, holes_of, circle_of, worm_of], formula) in names {
        let some = of(method);
        if some.is_empty() {
            continue;
        }
        let number = |get: fn(&IndexingWay) -> f64| some.iter().map(|way| get(way)).collect::<Vec<f64>>();
        let turns = number(|way| way.turns.into());
        let holes = number(|way| way.holes.into());
        let circle = number(|way| way.circle.map_or(1.0, f64::from));
        record.look_up("Whole turns of these ways", method.as_str()).gives(turns_of, turns.clone());
        record.look_up("Holes of these ways", method.as_str()).gives(holes_of, holes.clone());
        record.look_up("Circles of these ways", method.as_str()).gives(circle_of, circle.clone());
        if method == IndexMethod::Compound {
            let circles = number(|way| way.second_circle.map_or(1.0, f64::from));
            record.look_up("Second circles", "of the ways").gives("ways.second_circle", circles);
            let moved = number(|way| way.second_holes.unwrap_or_default());
            record.look_up("Second movements", "back where negative").gives("ways.second_holes", moved);
        }
        if method == IndexMethod::Differential {
            let gears: Vec<String> = some.iter().filter_map(|way| way.gears.clone()).collect();
            let step = record.step("Turns of the plate for one of the spindle", "g = W - N × (w + h / c)");
            let step = step.with("W", "worm_ratio", wanted.ratio).with("N", "divisions", wanted.divisions.unwrap_or(1));
            let step = step.with("w", turns_of, turns.clone()).with("h", holes_of, holes.clone());
            let ratios = number(|way| way.gear_ratio.unwrap_or_default());
            step.with("c", circle_of, circle.clone()).gives("ways.gear_ratio", ratios);
            record.look_up("Gears", "a train of those you have with that ratio").gives("ways.gears", gears);
            let says = "with the crank: one for a simple train, none for a compound one; against it: one more";
            record.look_up("Idlers", says).gives("ways.idlers", number(|way| way.idlers.map_or(0.0, f64::from)));
        }
        let step = record.step("Turns of the worm in one step", formula).with("w", turns_of, turns);
        let mut step = step.with("h", holes_of, holes).with("c", circle_of, circle);
        if method == IndexMethod::Compound {
            step = step.with("j", "ways.second_holes", number(|way| way.second_holes.unwrap_or_default()));
            step = step.with("b", "ways.second_circle", number(|way| way.second_circle.map_or(1.0, f64::from)));
        }
        if method == IndexMethod::Differential {
            step = step.with("g", "ways.gear_ratio", number(|way| way.gear_ratio.unwrap_or_default()));
            step = step.with("N", "divisions", wanted.divisions.unwrap_or(1));
        }
        step.gives(worm_of, worm(method));
    }
}

/// What each step is off, and all of them.
fn tell_off(ways: &[IndexingWay], moves: &[Move], wanted: &Wanted, record: &mut Record) {
    let off = moves.iter().map(|way| way.worm.less(wanted.turns()));
    let (above, below): (Vec<f64>, Vec<f64>) = off.map(|off| (off.top as f64, off.bottom as f64)).unzip();
    let fraction = "turns of the worm less those of the step, as a fraction of whole numbers";
    record.look_up("Off, above the line", fraction).gives("off.above", above.clone());
    record.look_up("Off, below the line", fraction).gives("off.below", below.clone());
    let off: Vec<f64> = ways.iter().map(|way| way.off_seconds).collect();
    let step = record.step("Seconds of arc that one step is too far", "e = A / B × 360 × 60 × 60 / W");
    let step = step.with("A", "off.above", above).with("B", "off.below", below);
    step.with("W", "worm_ratio", wanted.ratio).gives("ways.off_seconds", off.clone());
    if let Some(divisions) = wanted.divisions {
        let step = record.step("Seconds of arc too far after all", "E = N × e").with("N", "divisions", divisions);
        step.with("e", "ways.off_seconds", off).gives("ways.off_in_all", column(ways, |way| way.off_in_all));
    }
}
