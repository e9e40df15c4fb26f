//! Machines: each a set of fields, as a request would state them.

use super::reader::{Reader, Text, Value, quoted};
use crate::machine::{Feeds, SpindleLimits};
use crate::quantity::{
    Extent, FeedPerRev, FeedRate, Kind, Measure, Percentage, Power, Resolution, Size, SpindleSpeed, shown,
};
use crate::refusal::{Code, Unread};
use std::ops::Range;
use toml::de::{DeTable, DeValue};
use validator::ValidationError;

/// A machine of the shop.
#[derive(Debug)]
pub struct Machine {
    /// Its name, as `machine` in a request states it.
    pub name: String,
    /// Its fields, with their values as a request would state them.
    pub fields: Vec<(&'static str, String)>,
}

impl Machine {
    /// The value of a field.
    pub fn field(&self, name: &str) -> Option<&str> {
        self.fields.iter().find(|(known, _)| *known == name).map(|(_, value)| value.as_str())
    }
}

/// A field that a machine can have.
pub struct MachineField {
    /// Its name, the same as that of the field it stands for.
    pub name: &'static str,
    /// A good value, as the file would have it.
    good: &'static str,
    form: Form,
}

/// How a field is written.
#[derive(Clone, Copy)]
enum Form {
    One(fn(&str) -> Result<(), Unread>),
    List(fn(&str) -> Result<(), Unread>),
    /// A whole number from 1 up.
    Count(u32),
    Word(&'static [&'static str]),
}

const fn row(name: &'static str, good: &'static str, form: Form) -> MachineField {
    MachineField { name, good, form }
}

/// Every field that a machine can have: those of calculators, and `resolution` and `z_plus`, which
/// every request has.
pub static MACHINE_FIELDS: &[MachineField] = &[
    row("available", "[\"112 rpm\", \"160 rpm\"]", Form::List(read_as::<SpindleSpeed>)),
    row("slowest", "\"112 rpm\"", Form::One(read_as::<SpindleSpeed>)),
    row("fastest", "\"1250 rpm\"", Form::One(read_as::<SpindleSpeed>)),
    row("spindle_power", "\"1.5 kW\"", Form::One(read_as::<Power>)),
    row("efficiency", "\"80 percent\"", Form::One(efficiency)),
    row("base_speed", "\"450 rpm\"", Form::One(read_as::<SpindleSpeed>)),
    row("fastest_feed", "\"400 mm/min\"", Form::One(read_as::<FeedRate>)),
    row("available_feeds", "[\"40 mm/min\", \"80 mm/min\"]", Form::List(feed)),
    row("quill_feeds", "[\"0.05 mm/rev\", \"0.1 mm/rev\"]", Form::List(feed)),
    row("travel_x", "\"600 mm\"", Form::One(read_as::<Size>)),
    row("travel_y", "\"250 mm\"", Form::One(read_as::<Size>)),
    row("travel_per_turn", "\"5 mm\"", Form::One(read_as::<Size>)),
    row("divisions", "250", Form::Count(10_000)),
    row("backlash", "\"0.2 mm\"", Form::One(read_as::<Extent>)),
    row("resolution", "\"0.005 mm\"", Form::One(read_as::<Resolution>)),
    row("z_plus", "\"up\"", Form::Word(&["up", "down"])),
];

/// Fields of a machine that are its table's: they do not stand in where a quill feeds.
pub const FEEDS_OF_THE_TABLE: &[&str] = &["available_feeds", "fastest_feed"];

/// Any quantity that can be read from a text.
trait Readable: Sized {
    fn of(text: &str) -> Result<Self, Unread>;
}

impl<K: Kind> Readable for Measure<K> {
    fn of(text: &str) -> Result<Self, Unread> {
        Self::read(text)
    }
}

fn read_as<T: Readable>(text: &str) -> Result<(), Unread> {
    T::of(text).map(|_| ())
}

fn efficiency(text: &str) -> Result<(), Unread> {
    let share = Percentage::read(text)?.quantity().si();
    if share > 0.0 && share <= 1.0 {
        return Ok(());
    }
    let says = format!("\"{}\" is not between 0 and 100 percent; it must be above 0.", shown(text));
    Err(Unread { code: Code::ValueOutOfRange, says, try_this: "80 percent".into() })
}

/// A step of the feed gears: a mill's by the minute, a lathe's or a quill's by the turn.
fn feed(text: &str) -> Result<(), Unread> {
    if FeedPerRev::read(text).is_ok_and(|feed| feed.quantity().unit.spelling().ends_with("/rev")) {
        return Ok(());
    }
    read_as::<FeedRate>(text)
}

const GOOD: &str = "[machines.mill]";

/// Reads `machines`.
pub fn read(reader: &mut Reader, value: &Value) -> Vec<Machine> {
    let Some(table) = reader.table("machines", value, GOOD) else { return Vec::new() };
    let mut machines = Vec::new();
    for (key, value) in table {
        let name = key.get_ref().as_ref();
        let full = format!("machines.{}", shown(name));
        let is_plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        if name.is_empty() || name.len() > 40 || !name.chars().all(is_plain) {
            let says = "A machine's name is part of web addresses: use up to 40 letters, digits, - and _.";
            reader.fault(key.span(), &full, says, GOOD);
        }
        let Some(table) = reader.table(&full, value, GOOD) else { continue };
        machines.push(machine(reader, name, &full, (key.span(), table)));
    }
    machines
}

fn machine(reader: &mut Reader, name: &str, full: &str, (span, table): (Range<usize>, &DeTable)) -> Machine {
    let mut machine = Machine { name: name.to_owned(), fields: Vec::new() };
    if table.is_empty() {
        reader.fault(span.clone(), full, "This machine has no fields.", "available = [\"112 rpm\", \"160 rpm\"]");
    }
    let names: Vec<&str> = MACHINE_FIELDS.iter().map(|field| field.name).collect();
    let mut sound = true;
    // In the order of the list, so that one file gives one answer however its lines are ordered.
    for field in MACHINE_FIELDS {
        let Some((_, value)) = table.iter().find(|(key, _)| key.get_ref() == field.name) else { continue };
        match read_field(reader, field, &format!("{full}.{}", field.name), value) {
            Some(value) => machine.fields.push((field.name, value)),
            None => sound = false,
        }
    }
    for (key, _) in table {
        if !names.contains(&key.get_ref().as_ref()) {
            let key_full = format!("{full}.{}", key.get_ref());
            reader.unknown(key.span(), &key_full, key.get_ref(), &names);
        }
    }
    if sound {
        check(reader, &machine, full, &|field| place(table, field).unwrap_or(span.clone()));
    }
    machine
}

fn place(table: &DeTable, field: &str) -> Option<Range<usize>> {
    table.iter().find(|(key, _)| key.get_ref() == field).map(|(key, _)| key.span())
}

/// The value as a request would state it; `None` if it cannot be read.
fn read_field(reader: &mut Reader, field: &MachineField, full: &str, value: &Value) -> Option<String> {
    let number = match value.get_ref() {
        DeValue::Integer(number) => Some(number.as_str()),
        DeValue::Float(number) => Some(number.as_str()),
        _ => None,
    };
    match field.form {
        Form::One(read) => {
            let text = match number {
                Some(text) => Text { text, span: value.span() },
                None => reader.text(full, value, field.good)?,
            };
            check_one(reader, read, full, &text, Some(field.good)).then(|| text.text.trim().to_owned())
        }
        Form::List(read) => {
            let texts = match value.get_ref() {
                DeValue::String(all) => {
                    all.split(',').map(|text| Text { text: text.trim(), span: value.span() }).collect()
                }
                _ => reader.texts(full, value, field.good),
            };
            let mut sound = !texts.is_empty();
            for (at, text) in texts.iter().enumerate() {
                sound &= check_one(reader, read, full, text, None);
                if texts[..at].iter().any(|before| before.text == text.text) {
                    let says = format!("\"{}\" is listed twice.", shown(text.text));
                    reader.fault(text.span.clone(), full, says, "leaving one of them out");
                }
            }
            sound.then(|| texts.iter().map(|text| text.text.trim()).collect::<Vec<_>>().join(", "))
        }
        Form::Count(most) => {
            let text = number.map(str::to_owned).unwrap_or_default();
            if (1..=most).contains(&text.replace('_', "").parse().unwrap_or(0)) {
                return Some(text.replace('_', ""));
            }
            reader.fault(value.span(), full, format!("Give a whole number from 1 to {most}."), field.good);
            None
        }
        Form::Word(words) => {
            let text = reader.text(full, value, field.good)?;
            if words.contains(&text.text) {
                return Some(text.text.to_owned());
            }
            let says = format!("\"{}\" is not one of {}.", shown(text.text), words.join(", "));
            reader.fault(text.span, full, says, field.good);
            None
        }
    }
}

/// `good` is what to try where the reader's own value would only be any value of the kind.
fn check_one(
    reader: &mut Reader,
    read: fn(&str) -> Result<(), Unread>,
    full: &str,
    text: &Text,
    good: Option<&str>,
) -> bool {
    let Err(unread) = read(text.text) else { return true };
    let corrected = matches!(unread.code, Code::UnitMissing | Code::ValueAmbiguous);
    let try_this = good.filter(|_| !corrected).map_or_else(|| quoted(&unread.try_this), str::to_owned);
    reader.fault(text.span.clone(), full, unread.says, try_this);
    false
}

/// Rules between a machine's fields; `place` finds where a field stands.
fn check(reader: &mut Reader, machine: &Machine, full: &str, place: &dyn Fn(&str) -> Range<usize>) {
    let one = |name: &str| machine.field(name).and_then(|text| SpindleSpeed::read(text).ok());
    let speeds = many::<SpindleSpeed>(machine.field("available"));
    let spindle =
        SpindleLimits { slowest: one("slowest"), fastest: one("fastest"), available: speeds, may_exceed: None };
    let by_minute = many::<FeedRate>(machine.field("available_feeds"));
    for list in ["available_feeds", "quill_feeds"] {
        let Some(listed) = machine.field(list) else { continue };
        if many::<FeedRate>(Some(listed)).is_none() && many::<FeedPerRev>(Some(listed)).is_none() {
            let says = format!("\"{}\" mixes feeds per minute and feeds per revolution.", shown(listed));
            reader.fault(place(list), &format!("{full}.{list}"), says, "feeds of one kind only");
        }
    }
    let fastest_feed = machine.field("fastest_feed").and_then(|text| FeedRate::read(text).ok());
    let feeds = Feeds::of(fastest_feed, by_minute.as_deref());
    for broken in [spindle.check_machine(), feeds.check_machine()].into_iter().filter_map(Result::err) {
        tell(reader, full, &broken, place);
    }
}

fn many<T: Readable>(texts: Option<&str>) -> Option<Vec<T>> {
    texts?.split(',').map(|text| T::of(text.trim()).ok()).collect()
}

/// Notes a broken rule at the first field it binds.
fn tell(reader: &mut Reader, full: &str, broken: &ValidationError, place: &dyn Fn(&str) -> Range<usize>) {
    let fields = broken.params.iter().min_by_key(|(field, _)| place(field).start);
    if let Some((field, value)) = fields {
        let says = broken.message.clone().unwrap_or_default();
        reader.fault(place(field), &format!("{full}.{field}"), says, quoted(value.as_str().unwrap_or_default()));
    }
}

/// The good value of every field, for the tests.
#[cfg(test)]
pub fn good_values() -> impl Iterator<Item = (&'static str, &'static str)> {
    MACHINE_FIELDS.iter().map(|field| (field.name, field.good))
}
