//! Shapes, dimensions, leaders and labels put on the sheet. Of several places words take the one
//! where they are least in the way. They are level, but on a crowded sheet those of upright dimensions
//! stand along their lines.

use super::area::Area;
use super::reading::reading;
use super::sheet::{Item, Sheet, Tag};
use super::spot::{BEYOND, CLEAR, GAP, HEAD, Spot, Text, along, back, on_circle, unit};
use super::straight::straight;
use super::{Ink, Mark, On, Shape};

/// How far a center line goes beyond its feature.
const OVER: f64 = 5.0;

fn tag(mark: &Mark) -> Tag {
    Tag { field: mark.field, number: mark.number }
}

/// Puts a shape without words on the sheet.
pub fn shape(sheet: &mut Sheet, mark: &Mark) {
    let tag = tag(mark);
    match &mark.shape {
        Shape::Path { points, closed, ink } => {
            let mut spots: Vec<Spot> = points.iter().map(|point| sheet.spot(*point)).collect();
            if let ([a, b], Ink::Centre) = (spots.as_mut_slice(), ink)
                && let Some(way) = unit(*a, *b)
            {
                (*a, *b) = (back(*a, way, OVER), along(*b, way, OVER));
            }
            sheet.path(*ink, spots, *closed, tag);
        }
        Shape::Leg { from, to, ink, .. } => {
            let (from, to) = (sheet.spot(*from), sheet.spot(*to));
            sheet.path(*ink, vec![from, to], false, tag);
            if let Some(way) = unit(from, to)
                && (to.0 - from.0).hypot(to.1 - from.1) > 3.0 * HEAD
            {
                sheet.head(along(((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0), way, HEAD / 2.0), way);
            }
        }
        Shape::Circle { centre, radius, ink } => {
            sheet.arc(*ink, sheet.spot(*centre), radius * sheet.scale, 0.0, 360.0, tag);
        }
        Shape::Arc { centre, radius, from, sweep, ink } => {
            sheet.arc(*ink, sheet.spot(*centre), radius * sheet.scale, *from, *sweep, tag);
        }
        Shape::Dot { at } => {
            let at = sheet.spot(*at);
            sheet.items.push(Item::Dot { at, tag });
        }
        Shape::Cross { at, radius } => {
            let ((x, y), arm) = (sheet.spot(*at), radius * sheet.scale + OVER);
            sheet.path(Ink::Centre, vec![(x - arm, y), (x + arm, y)], false, Tag::default());
            sheet.path(Ink::Centre, vec![(x, y - arm), (x, y + arm)], false, Tag::default());
        }
        Shape::Turning { centre, from, sweep, reach } => {
            let (centre, radius) = (sheet.spot(*centre), sheet.reach(*reach));
            sheet.arc(Ink::Thin, centre, radius, *from, *sweep, tag);
            arc_head(sheet, centre, radius, from + sweep, *sweep);
        }
        _ => {}
    }
}

/// Puts what has words on the sheet.
pub fn words(sheet: &mut Sheet, mark: &Mark, text: &Text) {
    let tag = tag(mark);
    match &mark.shape {
        Shape::Dimension { a, b, measured } => {
            let (a, b) = (sheet.spot(*a), sheet.spot(*b));
            straight(sheet, a, b, *measured, text, tag);
        }
        Shape::Reading { at, on, line } => {
            let feature = sheet.spot(*at);
            let foot = match on {
                On::X => (feature.0, -line.from * sheet.scale - line.by),
                On::Y => (line.from * sheet.scale + line.by, feature.1),
            };
            reading(sheet, *on, feature, foot, text, tag);
        }
        Shape::Angle { centre, from, sweep, reach } => {
            let (centre, radius) = (sheet.spot(*centre), sheet.reach(*reach));
            angle(sheet, centre, radius, (*from, *sweep), text, tag);
        }
        Shape::Radius { centre, radius: length, directions } => {
            let (centre, length) = (sheet.spot(*centre), length * sheet.scale);
            radius(sheet, centre, length, directions, text, tag);
        }
        Shape::Leg { from, to, .. } => {
            let (a, b) = (sheet.spot(*from), sheet.spot(*to));
            leg_words(sheet, a, b, text, tag);
        }
        Shape::Leader { at, towards } => leader(sheet, sheet.spot(*at), *towards, text),
        Shape::Label { at, clear, towards, freely, may_be_left_out } => {
            let at = sheet.spot(*at);
            let (width, height) = text.size;
            let place = |towards: f64, more: f64| beside(at, clear * sheet.scale + CLEAR + more, towards, text);
            let middle = match towards {
                Some(towards) if *freely => {
                    let near = TURNS.map(|turn| place(towards + turn, 0.0));
                    let spots = [near, TURNS.map(|turn| place(towards + turn, 14.0))].concat();
                    // With some air round it, so that no line ends in a letter.
                    spots[sheet.choose(width + 6.0, height, &spots)]
                }
                Some(towards) => place(*towards, 0.0),
                None => at,
            };
            if !(*may_be_left_out && sheet.is_taken(&Area::round(middle, width, height))) {
                sheet.write(middle, text);
            }
        }
        Shape::Direction { at, towards } => {
            let at = sheet.spot(*at);
            let end = on_circle(at, 34.0, *towards);
            let unit = unit(at, end).unwrap_or((1.0, 0.0));
            sheet.thin(at, back(end, unit, HEAD / 2.0));
            sheet.head(end, unit);
            let middle = ((at.0 + end.0) / 2.0, (at.1 + end.1) / 2.0);
            let mut spots: Vec<Spot> =
                [90.0, -90.0].iter().map(|turn| beside(middle, CLEAR, towards + turn, text)).collect();
            spots.push(beside(end, CLEAR, *towards, text));
            let (width, height) = text.size;
            sheet.write(spots[sheet.choose(width, height, &spots)], text);
        }
        _ => {}
    }
}

/// How far a label may turn from the direction it was asked for in, nearest first.
const TURNS: [f64; 12] = [0.0, 20.0, -20.0, 40.0, -40.0, 60.0, -60.0, 90.0, -90.0, 120.0, -120.0, 180.0];

/// Words beside a leg, clear of the arrow's head in its middle.
fn leg_words(sheet: &mut Sheet, a: Spot, b: Spot, text: &Text, tag: Tag) {
    let Some(way) = unit(a, b) else { return };
    let length = (b.0 - a.0).hypot(b.1 - a.1);
    let left = (way.1, -way.0);
    let right = (-left.0, -left.1);
    let (width, height) = text.size;
    // No corner of the words reaches the leg.
    let off = CLEAR + (width * left.0.abs() + height * left.1.abs()) / 2.0;
    let spots: Vec<Spot> = [0.5, 0.35, 0.65, 0.2, 0.8]
        .iter()
        .flat_map(|part| [left, right].map(|side| along(along(a, way, part * length), side, off)))
        .collect();
    sheet.items.push(Item::Begin { a, b, tag, on: None });
    sheet.write(spots[sheet.choose(width, height, &spots)], text);
    sheet.items.push(Item::End);
}

/// The middle of words that begin `clear` from `at` in a direction in degrees.
fn beside(at: Spot, clear: f64, towards: f64, text: &Text) -> Spot {
    let far = on_circle((0.0, 0.0), 1.0, towards);
    along(at, far, clear + text.half(far))
}

/// An arrow's head that lies on an arc and points along it at `degrees`.
fn arc_head(sheet: &mut Sheet, centre: Spot, radius: f64, degrees: f64, sense: f64) {
    let tip = on_circle(centre, radius, degrees);
    // The chord of the head, so that a small arc's head does not stand off it.
    let bend = (HEAD / radius.max(1.0)).min(1.0).to_degrees() * sense.signum();
    let tail = on_circle(centre, radius, degrees - bend);
    if let Some(towards) = unit(tail, tip) {
        sheet.head(tip, towards);
    }
}

fn angle(sheet: &mut Sheet, centre: Spot, radius: f64, (from, sweep): (f64, f64), text: &Text, tag: Tag) {
    let to = from + sweep;
    let (a, b) = (on_circle(centre, radius, from), on_circle(centre, radius, to));
    sheet.items.push(Item::Begin { a, b, tag, on: None });
    for side in [from, to] {
        sheet.thin(centre, on_circle(centre, radius + BEYOND, side));
    }
    let length = radius * sweep.abs().to_radians();
    let mut tail = None;
    if length > 2.0 * HEAD + 4.0 {
        sheet.arc(Ink::Thin, centre, radius, from, sweep, Tag::default());
        arc_head(sheet, centre, radius, from, -sweep);
        arc_head(sheet, centre, radius, to, sweep);
    } else {
        let more = (2.0 * HEAD / radius.max(1.0)).to_degrees() * sweep.signum();
        sheet.arc(Ink::Thin, centre, radius, from - more, sweep + 2.0 * more, Tag::default());
        arc_head(sheet, centre, radius, from, sweep);
        arc_head(sheet, centre, radius, to, -sweep);
        tail = Some(more);
    }
    let middle = from + sweep / 2.0;
    let (width, height) = text.size;
    let clear_of = |spot: Spot| {
        let area = Area::round(spot, width, height);
        (centre.0.clamp(area.left, area.right) - centre.0).hypot(centre.1.clamp(area.top, area.bottom) - centre.1)
    };
    let outside = |degrees: f64, more: f64| {
        let steps = (0..40).map(|step| on_circle(centre, radius + more + 2.0 * f64::from(step), degrees));
        steps.into_iter().find(|spot| clear_of(*spot) >= radius + more).unwrap_or(centre)
    };
    let turns = [0.0, 0.25, -0.25, 0.5, -0.5].map(|part| middle + part * sweep);
    let mut spots: Vec<Spot> = Vec::new();
    if let Some(tail) = tail {
        // At the ends of the arrows' tails, since between the sides there is no room.
        for (end, sense) in [(to + tail, tail.signum()), (from - tail, -tail.signum())] {
            let on = on_circle((0.0, 0.0), 1.0, end + 90.0 * sense);
            spots.push(along(on_circle(centre, radius, end), on, CLEAR + text.half(on)));
        }
    }
    spots.extend([CLEAR, 4.0 * CLEAR, 8.0 * CLEAR].iter().flat_map(|more| turns.map(|turn| outside(turn, *more))));
    sheet.write(spots[sheet.choose(width, height, &spots)], text);
    sheet.items.push(Item::End);
}

/// A radius in one of several directions, its words in its line or beyond the arc.
fn radius(sheet: &mut Sheet, centre: Spot, length: f64, directions: &[f64], text: &Text, tag: Tag) {
    let mut places = Vec::new();
    for direction in directions {
        let way = on_circle((0.0, 0.0), 1.0, *direction);
        let need = text.half(way) + GAP;
        for part in [0.6, 0.7, 0.5, 0.4, 0.8] {
            let at = part * length;
            if at > need + 4.0 && at < length - need - HEAD - 2.0 {
                places.push((way, at, need));
            }
        }
    }
    for direction in directions {
        let way = on_circle((0.0, 0.0), 1.0, *direction);
        places.push((way, length + 2.0 * HEAD + CLEAR + text.half(way), 0.0));
    }
    let spots: Vec<Spot> = places.iter().map(|(way, at, _)| along(centre, *way, *at)).collect();
    let (width, height) = text.size;
    let Some((way, at, need)) = places.get(sheet.choose(width, height, &spots)).copied() else { return };
    let (end, tip) = (along(centre, way, length), along(centre, way, length - HEAD / 2.0));
    sheet.items.push(Item::Begin { a: centre, b: end, tag, on: None });
    if at < length {
        sheet.thin(centre, along(centre, way, at - need));
        sheet.thin(along(centre, way, at + need), tip);
    } else {
        sheet.thin(centre, tip);
        sheet.thin(end, along(end, way, 2.0 * HEAD));
    }
    sheet.write(along(centre, way, at), text);
    sheet.head(end, way);
    sheet.items.push(Item::End);
}

fn leader(sheet: &mut Sheet, at: Spot, towards: f64, text: &Text) {
    const SHELF: f64 = 6.0;
    let (width, height) = text.size;
    let mut ways = Vec::new();
    for length in [22.0, 34.0, 48.0, 66.0] {
        for turn in [0.0, 15.0, -15.0, 30.0, -30.0, 45.0, -45.0] {
            let knee = on_circle(at, length, towards + turn);
            let side = if knee.0 >= at.0 { 1.0 } else { -1.0 };
            ways.push((knee, side, (knee.0 + side * (SHELF + 3.0 + width / 2.0), knee.1)));
        }
    }
    let spots: Vec<Spot> = ways.iter().map(|way| way.2).collect();
    let (knee, side, middle) = ways[sheet.choose(width, height, &spots)];
    if let Some(way) = unit(knee, at) {
        sheet.path(
            Ink::Thin,
            vec![back(at, way, HEAD / 2.0), knee, (knee.0 + side * SHELF, knee.1)],
            false,
            Tag::default(),
        );
        sheet.head(at, way);
    }
    sheet.write(middle, text);
}
