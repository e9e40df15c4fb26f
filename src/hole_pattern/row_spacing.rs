//! What checks the spacing of a pattern of rows: pairs of holes to measure over, and the least metal between two holes.
//! Holes that would run into each other are refused with the pair named.

use super::chosen::as_numbers;
use super::circle_spacing::gap as gap_of;
use super::hole::PatternCheck;
use super::rows::{RowPattern, with_columns};
use crate::budget::go_on;
use crate::quantity::{Found, FoundExtent, SiValue, Size};
use crate::refusal::{Code, Refusal, Wrong};
use crate::suggestion::{Way, value};
use crate::working::Record;

/// What checks the spacing.
pub struct Spacing {
    pub gap: Option<FoundExtent>,
    pub checks: Vec<PatternCheck>,
}

/// The checks of the spacing, with their steps.
pub fn find_spacing_checks(pattern: &RowPattern, hole: Option<Size>, record: &mut Record) -> Result<Spacing, Refusal> {
    let Some((from, to, least)) = nearest(pattern)? else {
        if hole.is_some() {
            record.note("one_hole", "A single hole has no neighbor, so there is no spacing to check.");
        }
        return Ok(Spacing { gap: None, checks: Vec::new() });
    };
    let gap = match hole {
        Some(hole) => Some(find_gap(pattern, hole, (from, to, least), record)?),
        None => None,
    };
    Ok(Spacing { gap, checks: find_checks(pattern, hole, (from, to), record) })
}

/// The two holes nearest to each other and the distance of their centers in meters, of equal ones the first.
fn nearest(pattern: &RowPattern) -> Result<Option<(u32, u32, f64)>, Refusal> {
    let at: Vec<(f64, f64)> = pattern.along.iter().zip(&pattern.across).map(|(u, v)| (u.si(), v.si())).collect();
    let mut best: Option<(u32, u32, f64)> = None;
    for (one, (u, v)) in at.iter().enumerate() {
        go_on()?;
        for (other, (p, q)) in at.iter().enumerate().skip(one + 1) {
            let apart = (p - u).hypot(q - v);
            if best.is_none_or(|(.., least)| apart < least * (1.0 - 1e-12)) {
                best = Some((pattern.numbers[one], pattern.numbers[other], apart));
            }
        }
    }
    Ok(best)
}

fn find_gap(
    pattern: &RowPattern,
    hole: Size,
    (from, to, least): (u32, u32, f64),
    record: &mut Record,
) -> Result<FoundExtent, Refusal> {
    let centers = FoundExtent::of_si(least);
    let gap = gap_of(centers.get(), hole.get());
    if gap.si() < 0.0 {
        let says = format!(
            "Holes {from} and {to} would run into each other: they are larger than the distance between \
            their centers."
        );
        let smaller = value(0.8 * least, hole.quantity().unit, Way::Down);
        let mut wrongs = vec![Wrong::new("hole_diameter", Code::Conflict, says.clone(), smaller)];
        for (field, size) in &pattern.spaced_by {
            let larger = value(1.25 * size.si() * hole.si() / least, size.quantity().unit, Way::Up);
            wrongs.push(Wrong::new(field, Code::Conflict, says.clone(), larger));
        }
        return Err(Refusal(wrongs));
    }
    let step = record.look_up("Centers of the two holes nearest to each other", "the least of all pairs");
    with_columns(step, pattern).gives("nearest", centers);
    let gap = FoundExtent::of(gap);
    let step = record.step("Least metal between holes", "g = c - d").with("c", "nearest", centers);
    step.with("d", "hole_diameter", hole).gives("gap", gap);
    Ok(gap)
}

fn find_checks(
    pattern: &RowPattern,
    hole: Option<Size>,
    nearest: (u32, u32),
    record: &mut Record,
) -> Vec<PatternCheck> {
    let listed = |number: &u32| pattern.numbers.iter().position(|one| one == number);
    let mut pairs: Vec<(u32, u32)> = Vec::new();
    for kind in &pattern.pairs {
        let found = kind.iter().find(|(from, to)| listed(from).is_some() && listed(to).is_some());
        if let Some(pair) = found.filter(|pair| !pairs.contains(pair)) {
            pairs.push(*pair);
        }
    }
    if pairs.is_empty() {
        pairs.push(nearest);
    }
    let ends = [0, 1].map(|end| pairs.iter().map(|pair| [pair.0, pair.1][end]).collect::<Vec<u32>>());
    for (end, (of, what)) in
        [("checks.from", "Holes to measure from"), ("checks.to", "Holes to measure to")].into_iter().enumerate()
    {
        let step = record.choose(what, "neighbors, then the ends or the corners, of the holes listed");
        step.with("i", "positions.number", as_numbers(&pattern.numbers)).gives(of, as_numbers(&ends[end]));
    }
    // How far apart the two are along the rows and across them.
    let apart = [(&pattern.along, "along"), (&pattern.across, "across")].map(|(places, way)| {
        let at = |number: u32| listed(&number).map_or(0.0, |row| places[row].si());
        let parts: Vec<FoundExtent> =
            pairs.iter().map(|(from, to)| Found::of_si((at(*to) - at(*from)).abs())).collect();
        let of = if way == "along" { "apart.along" } else { "apart.across" };
        with_columns(record.look_up(format!("How far apart they lie {way} the rows"), "their rows"), pattern)
            .gives(of, parts.clone());
        parts
    });
    let both = apart[0].iter().zip(&apart[1]);
    let centers: Vec<FoundExtent> = both.map(|(a, b)| Found::of_si(a.si().hypot(b.si()))).collect();
    let [along, across] = apart;
    let step = record.step("Center to center", "c = √(a^2 + b^2)").with("a", "apart.along", along);
    step.with("b", "apart.across", across).gives("checks.centers", centers.clone());
    let mut over = |what, formula, field, sense: f64| {
        let hole = hole?;
        let read = |c: &FoundExtent| FoundExtent::of_si((c.si() + sense * hole.si()).max(0.0));
        let found: Vec<FoundExtent> = centers.iter().map(read).collect();
        let step = record.step(what, formula).with("c", "checks.centers", centers.clone());
        step.with("d", "hole_diameter", hole).gives(field, found.clone());
        Some(found)
    };
    let over_pins = over("Caliper outside the pins", "o = c + d", "checks.over_pins", 1.0);
    let between_pins = over("Caliper between the pins", "b = c - d", "checks.between_pins", -1.0);
    if hole.is_some() {
        record.note("pins_fit", "Check over pins that fill the holes; loose pins lean, and the check shows nothing.");
    }
    let row = |column: &Option<Vec<FoundExtent>>, at: usize| column.as_ref().map(|column| column[at]);
    let rows = pairs.iter().zip(&centers).enumerate().map(|(at, ((from, to), centers))| PatternCheck {
        from: *from,
        to: *to,
        centers: *centers,
        over_pins: row(&over_pins, at),
        between_pins: row(&between_pins, at),
    });
    rows.collect()
}
