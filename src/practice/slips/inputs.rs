//! Slips of what goes in: the calculator is asked again with an input misunderstood, forgotten or chosen otherwise.

use super::case::Case;
use crate::declared::said_word;
use crate::quantity::{Quantity, Setting, System, Unit};
use crate::shop::MACHINE_FIELDS;

/// Words for sides and directions, each with its other.
const SIDES: [(&str, &str); 16] = [
    ("inside", "outside"),
    ("plus", "minus"),
    ("growing", "shrinking"),
    ("growing", "falling"),
    ("left", "right"),
    ("up", "down"),
    ("internal", "external"),
    ("under", "over"),
    ("bore", "boss"),
    ("lips", "tip"),
    ("climb", "conventional"),
    ("chuck", "tailstock"),
    ("clockwise", "counterclockwise"),
    ("x_axis", "y_axis"),
    ("rising", "falling"),
    ("toward", "away"),
];

/// Most choices of one field that are gone through.
const MOST_CHOICES: usize = 6;

/// A feed a tooth taken for a feed a turn.
pub fn feed(case: &mut Case) {
    const CODE: &str = "feed_per_tooth";
    let Some(teeth) = case.count("teeth").filter(|teeth| *teeth >= 2.0) else { return };
    let turn = format!("A feed a tooth was taken for a feed a turn: in one turn all {teeth} teeth advance.");
    let tooth = format!("A feed a turn was taken for a feed a tooth: each of the {teeth} teeth takes its share of it.");
    let Some(wanted) = case.wanted.amount.quantity().copied() else { return };
    // A feed that is left out the teeth of is too small; a feed a tooth that has all in it too large.
    match wanted.kind.name {
        "FeedRate" | "FeedPerRev" => {
            case.note(CODE, Some(wanted.si() / teeth), &turn);
            case.note(CODE, Some(wanted.si() * teeth), &tooth);
        }
        "FeedPerTooth" => {
            case.note(CODE, Some(wanted.si() * teeth), &tooth);
            case.note(CODE, Some(wanted.si() / teeth), &turn);
        }
        _ => {
            let feeds = case.inputs();
            for (name, quantity) in feeds.iter().filter(|(_, quantity)| quantity.kind.name == "FeedPerTooth") {
                case.note(CODE, case.again_with(name, quantity, quantity.value / teeth), &turn);
                case.note(CODE, case.again_with(name, quantity, quantity.value * teeth), &tooth);
            }
        }
    }
}

/// Fields that are told of elsewhere.
fn told_elsewhere(name: &str, word: &str) -> bool {
    ["angle_from", "angle_sense", "from", "systems"].contains(&name) || ["radius", "diameter"].contains(&word)
}

/// The other side taken.
pub fn sides(case: &mut Case) {
    for (name, word, other) in other_choices(case) {
        let is_side = |(one, two): &(&str, &str)| (*one == word && *two == other) || (*two == word && *one == other);
        if SIDES.iter().any(is_side) {
            other_choice(case, "wrong_side", name, &word, other);
        }
    }
}

/// Another way of working than was asked for; what the question does not speak of is not misread.
pub fn choices(case: &mut Case) {
    let is_stated = |name: &str| case.fields.iter().any(|(stated, _)| stated == name);
    let stated: Vec<_> = other_choices(case).into_iter().filter(|(name, ..)| is_stated(name)).collect();
    for (name, word, other) in stated {
        let is_side = |(one, two): &(&str, &str)| [*one, *two].contains(&other);
        if !SIDES.iter().any(|side| is_side(side) && (side.0 == word || side.1 == word)) {
            other_choice(case, "other_choice", name, &word, other);
        }
    }
}

/// Every field with words to choose from, the word that went in, and each other.
fn other_choices(case: &Case) -> Vec<(&'static str, String, &'static str)> {
    let fields = case.described().iter().filter(|field| (2..=MOST_CHOICES).contains(&field.choices.len()));
    fields
        .filter_map(|field| Some((field, case.word(&field.name).filter(|word| !told_elsewhere(&field.name, word))?)))
        .flat_map(|(field, word)| {
            let others: Vec<&'static str> =
                field.choices.iter().map(String::as_str).filter(|other| *other != word).collect();
            others.into_iter().map(move |other| (field.name.as_str(), word.clone(), other))
        })
        .collect()
}

fn other_choice(case: &mut Case, code: &'static str, name: &str, word: &str, other: &str) {
    let (words, said, other_said) = (case.label(name), said_word(word), said_word(other));
    let says = format!("This would be right with {words} \"{other_said}\"; here it is \"{said}\".");
    case.note(code, case.again(name, other.into()), says);
}

/// Spaces counted for holes: a full circle has as many of both, any other row one space less.
pub fn holes(case: &mut Case) {
    const CODE: &str = "spaces_for_holes";
    let says =
        "Spaces were counted for holes, or holes for spaces: a row that does not close has one space less than holes.";
    for name in ["holes", "count", "pins", "places"] {
        let Some(count) = case.count(name).filter(|count| *count > 2.0) else { continue };
        case.note(CODE, case.again(name, format!("{}", count - 1.0)), says);
        case.note(CODE, case.again(name, format!("{}", count + 1.0)), says);
    }
    if case.wanted.amount.quantity().is_none() {
        let right = case.wanted.amount.si();
        for value in [right - 1.0, right + 1.0] {
            case.note(CODE, Some(value), "This is one off: count what is asked for, not the spaces between.");
        }
    }
}

/// The percentage of full thread taken for what is left of it, or passed over.
pub fn thread_percent(case: &mut Case) {
    const CODE: &str = "thread_percent";
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| quantity.kind.name == "ThreadPercent") {
        let share = case.label(name);
        let says = format!("The {share} was passed over: this is right for a full thread.");
        case.note(CODE, case.again_with(name, quantity, 100.0), says);
        let says = format!("The {share} was taken for what is left away of the thread.");
        case.note(CODE, case.again_with(name, quantity, 100.0 - quantity.value), says);
    }
}

/// Where inches and millimeters stand side by side, one taken for the other.
pub fn systems(case: &mut Case) {
    let inputs = case.inputs();
    let has = |system| inputs.iter().any(|(_, quantity)| quantity.unit.system() == Some(system));
    if !(has(System::Inch) && has(System::Metric)) {
        return;
    }
    for (name, quantity) in &inputs {
        let (inch, metric) = (quantity.kind.inch.0, quantity.kind.metric.0);
        let other: Unit = match quantity.unit {
            unit if unit == inch && inch != metric => metric,
            unit if unit == metric && inch != metric => inch,
            _ => continue,
        };
        let (stated, taken) = (quantity.unit.spelling(), other.spelling());
        let says = format!("The {} is in {stated}; it was taken as if it were in {taken}.", case.label(name));
        let moved = Quantity { unit: other, ..*quantity };
        case.note("wrong_unit", case.again_with(name, &moved, quantity.value), says);
    }
}

/// A stated size that only adds or takes off, left out; and one that counts either way, taken the other way.
pub fn left_out(case: &mut Case) {
    let right = case.wanted.amount.si();
    for (name, quantity) in case.inputs() {
        let is_machines = MACHINE_FIELDS.iter().any(|field| field.name == name);
        if quantity.value == 0.0 || is_machines || case.stated(name).is_none() {
            continue;
        }
        let words = case.label(name);
        if quantity.kind.least == crate::quantity::Least::Any {
            let says = format!("The {words} was taken with the other sign.");
            case.note("sign", case.again_with(name, &quantity, -quantity.value), says);
        }
        let none = case.again_with(name, &quantity, 0.0).or_else(|| {
            let is_place = quantity.kind.setting != Setting::Never;
            // A size must be more than nothing.
            if is_place { None } else { case.again_with(name, &quantity, quantity.value * 1e-7) }
        });
        // What everything else hangs on cannot be left out: it would give nothing, or no end.
        let is_sum = |value: &f64| (right / 100.0).abs() < value.abs() && value.abs() < (right * 100.0).abs();
        case.note("left_out", none.filter(is_sum), format!("The {words} was left out."));
    }
}
