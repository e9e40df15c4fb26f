//! Readings: the place of a feature on one axis, written at the end of a line that leaves it square to
//! that axis, as coordinate dimensions are. Words that would meet stand aside with a bend in the line.

use super::On;
use super::sheet::{Sheet, Tag, least};
use super::spot::{CLEAR, GAP, LEADING, PUSH, Spot, Text, along};
use super::straight::Way;

/// How far a line runs on after its bend.
const BEND: f64 = 10.0;

/// Puts a reading on the sheet: from a feature to a foot beyond which its words stand.
pub fn reading(sheet: &mut Sheet, on: On, feature: Spot, foot: Spot, text: &Text, tag: Tag) {
    let (width, height) = text.size;
    let (outwards, aside, wide) = match on {
        On::X => ((0.0, if foot.1 < feature.1 { -1.0 } else { 1.0 }), (1.0, 0.0), width),
        On::Y => ((if foot.0 < feature.0 { -1.0 } else { 1.0 }, 0.0), (0.0, 1.0), height),
    };
    let start = along(feature, outwards, GAP);
    let way = |lines: &[(Spot, Spot)], middle, turned, odd| Way {
        lines: lines.to_vec(),
        heads: Vec::new(),
        middle,
        turned,
        odd,
        ends: (feature, feature),
        on: Some(on),
    };
    let mut ways = Vec::new();
    let rows = if on == On::X { 4 } else { 2 };
    for row in 0..rows {
        let push = f64::from(row) * LEADING;
        let knee = along(foot, outwards, push);
        ways.push(way(&[(start, knee)], along(knee, outwards, CLEAR + text.half(outwards)), false, PUSH * push));
        for part in [0.3, -0.3, 0.55, -0.55, 0.8, -0.8, 1.1, -1.1] {
            let end = along(along(knee, outwards, BEND), aside, part * wide);
            let middle = along(end, outwards, CLEAR + text.half(outwards));
            let odd = PUSH * push + 1.0 + 2.0 * f64::abs(part);
            ways.push(way(&[(start, knee), (knee, end)], middle, false, odd));
        }
    }
    if on == On::X {
        let odd = if sheet.turned { 0.0 } else { 5.0 };
        ways.push(way(&[(start, foot)], along(foot, outwards, CLEAR + width / 2.0), true, odd));
    }
    // Words past the sides of what is drawn make the sheet wider, and so the drawing smaller.
    let past = |way: &Way| {
        let half = if way.turned { height / 2.0 } else { width / 2.0 };
        let over = (sheet.bounds.left - way.middle.0 + half).max(way.middle.0 + half - sheet.bounds.right);
        if on == On::X { 0.05 * over.max(0.0) } else { 0.0 }
    };
    let at_least = |at: usize| ways[at].odd + past(&ways[at]);
    let cost = |at: usize| ways[at].cost(sheet, text) + ways[at].odd + past(&ways[at]);
    let Some(best) = least(0..ways.len(), at_least, cost) else { return };
    ways.swap_remove(best).draw(sheet, text, tag);
}
