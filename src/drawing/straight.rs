//! Straight dimensions: of the ways to draw one, that which is least in the way of what is there.

use super::sheet::{Item, Sheet, Tag};
use super::spot::{BEYOND, CLEAR, GAP, HEAD, LEADING, PUSH, Spot, Text, along, back, unit};
use super::{Measured, On};

/// One way to draw a straight dimension or a reading.
pub struct Way {
    pub lines: Vec<(Spot, Spot)>,
    pub heads: Vec<(Spot, Spot)>,
    pub middle: Spot,
    pub turned: bool,
    /// What it counts against it that there are better places to write in.
    pub odd: f64,
    pub ends: (Spot, Spot),
    /// The axis of a reading.
    pub on: Option<On>,
}

impl Way {
    /// How much it is in the way of what is there, and of itself.
    pub fn cost(&self, sheet: &Sheet, text: &Text) -> f64 {
        let area = text.area(self.middle, self.turned);
        let crossed: f64 = self.lines.iter().map(|(a, b)| sheet.words_crossed(*a, *b)).sum();
        let own = self.lines.iter().filter(|(a, b)| area.is_crossed(*a, *b)).count();
        sheet.crowding(&area) + 25.0 * crossed + 12.0 * own as f64
    }

    /// Puts it on the sheet.
    pub fn draw(self, sheet: &mut Sheet, text: &Text, tag: Tag) {
        let (a, b) = self.ends;
        sheet.items.push(Item::Begin { a, b, tag, on: self.on });
        self.lines.iter().for_each(|(a, b)| sheet.thin(*a, *b));
        self.heads.iter().for_each(|(tip, towards)| sheet.head(*tip, *towards));
        sheet.write_turned(self.middle, text, self.turned);
        sheet.items.push(Item::End);
    }
}

/// Puts a straight dimension on the sheet.
pub fn straight(sheet: &mut Sheet, a: Spot, b: Spot, measured: Measured, text: &Text, tag: Tag) {
    let mut best: Option<(f64, Way)> = None;
    // Further out than asked for where the words would be in the way.
    for push in 0..20 {
        let push = f64::from(push) * 5.0;
        for way in ways(sheet, a, b, measured, push, text) {
            // What it costs at least is looked at first: the whole takes time.
            if best.as_ref().is_some_and(|(least, _)| PUSH * push + way.odd >= *least) {
                continue;
            }
            let cost = way.cost(sheet, text) + PUSH * push + way.odd;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, way));
            }
        }
        if best.as_ref().is_some_and(|(least, _)| *least <= PUSH * push) {
            break;
        }
    }
    if let Some((_, way)) = best {
        way.draw(sheet, text, tag);
    }
}

/// The ways to draw a straight dimension at one distance, best first.
fn ways(sheet: &Sheet, a: Spot, b: Spot, measured: Measured, push: f64, text: &Text) -> Vec<Way> {
    let out = |by: f64| by + push * by.signum();
    let (along_line, start, end) = match measured {
        Measured::Across(line) => {
            let y = -line.from * sheet.scale - out(line.by);
            ((1.0, 0.0), (a.0.min(b.0), y), (a.0.max(b.0), y))
        }
        Measured::Upright(line) => {
            let x = line.from * sheet.scale + out(line.by);
            ((0.0, 1.0), (x, a.1.min(b.1)), (x, a.1.max(b.1)))
        }
        Measured::Along(by) => {
            let unit = unit(a, b).unwrap_or((1.0, 0.0));
            // To the left of the way on paper, where y counts downwards.
            let aside = (unit.1 * out(by), -unit.0 * out(by));
            (unit, along(a, aside, 1.0), along(b, aside, 1.0))
        }
    };
    let against = (-along_line.0, -along_line.1);
    let mut away = (-along_line.1, along_line.0);
    let mut leads = Vec::new();
    for feature in [a, b] {
        let on = (feature.0 - start.0) * along_line.0 + (feature.1 - start.1) * along_line.1;
        let foot = along(start, along_line, on);
        if let Some(out) = unit(feature, foot)
            && (foot.0 - feature.0).hypot(foot.1 - feature.1) > GAP + 1.0
        {
            away = out;
            leads.push((along(feature, out, GAP), along(foot, out, BEYOND)));
        }
    }
    let length = (end.0 - start.0).hypot(end.1 - start.1);
    let middle = ((start.0 + end.0) / 2.0, (start.1 + end.1) / 2.0);
    let need = text.half(along_line);
    let way = |lines: &[(Spot, Spot)], heads, middle, turned, odd| Way {
        lines: [leads.as_slice(), lines].concat(),
        heads,
        middle,
        turned,
        odd,
        ends: (start, end),
        on: None,
    };
    let inner = |tip: Spot, towards: Spot| back(tip, towards, HEAD / 2.0);
    let outwards = vec![(start, against), (end, along_line)];
    let in_gap = |need: f64, turned: bool| {
        let lines = [
            (inner(start, against), along(middle, against, need + GAP)),
            (inner(end, along_line), along(middle, along_line, need + GAP)),
        ];
        way(&lines, outwards.clone(), middle, turned, 0.0)
    };
    let room = (length - 2.0 * HEAD - 8.0) / 2.0;
    let lying = text.size.0 / 2.0;
    let upright = matches!(measured, Measured::Upright(_));
    let mut ways = Vec::new();
    if sheet.turned && upright && room >= lying {
        ways.push(in_gap(lying, true));
    } else if room >= need {
        ways.push(in_gap(need, false));
    }
    let roomy = length >= 2.0 * HEAD + 4.0;
    let tail = if roomy { 0.0 } else { 2.0 * HEAD };
    let (before, after) = (along(start, against, tail), along(end, along_line, tail));
    let (lines, heads) = if roomy {
        (vec![(inner(start, against), inner(end, along_line))], outwards)
    } else {
        let lines = vec![(before, inner(start, along_line)), (inner(end, against), after), (start, end)];
        (lines, vec![(start, along_line), (end, against)])
    };
    let aside = |from: Spot, way: Spot| along(from, way, CLEAR + text.half(way));
    let mut middles = [
        aside(middle, away),
        aside(after, along_line),
        aside(before, against),
        aside(along(after, along_line, HEAD), away),
        aside(along(before, against, HEAD), away),
        aside(middle, (-away.0, -away.1)),
    ];
    if sheet.turned && upright {
        // Above or below the line there is more room on a crowded sheet than beside it.
        middles[..3].rotate_left(1);
    }
    let odd = if ways.is_empty() { 0.0 } else { 4.0 };
    let middles = middles.into_iter().zip(0u8..);
    ways.extend(middles.map(|(middle, at)| way(&lines, heads.clone(), middle, false, odd + 0.5 * f64::from(at))));
    if sheet.turned && upright {
        // With a longer tail, so that the words of lines close together stand one below the other.
        for (rows, odd) in [(1.0, odd + 2.0), (2.0, odd + 3.0), (3.0, odd + 4.0)] {
            for (from, towards) in [(after, along_line), (before, against)] {
                let end = along(from, towards, rows * LEADING);
                let longer = [lines.as_slice(), &[(from, end)]].concat();
                ways.push(way(&longer, heads.clone(), aside(end, towards), false, odd));
            }
        }
    }
    ways
}
