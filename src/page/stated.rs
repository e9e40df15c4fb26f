//! What a page's address states. Beside the fields of the service's own addresses it may hold what only
//! a form needs: `diameter.unit=mm` for the unit chosen beside a field, `wanted.of` for the result chosen
//! beside a value, `range.of`, `range.from`, `range.to`, `range.step` for a chart. They are joined here
//! into the fields they stand for, so that an address without them says the same.

use crate::asking::{Described, Field, Form, RESERVED, reserved_fields};
use crate::fields::{Fields, Given};
use crate::quantity::{KindRow, Unit, Written, read};

/// The parts of a range, in the order they are joined.
pub const RANGE: [&str; 4] = ["range.of", "range.from", "range.to", "range.step"];

/// A page's address, read.
#[derive(Debug, Default)]
pub struct Stated {
    /// The request as the service's own addresses take it.
    pub fields: Fields<'static>,
    /// True where the address cannot be read.
    pub broken: bool,
    /// Units chosen beside fields, by the field's name.
    chosen: Vec<(String, Unit)>,
}

impl Stated {
    /// Reads the query of a page's address. What is empty counts as not given: a form sends it all the same.
    pub fn of_query(described: &Described, query: &str) -> Self {
        let Some(given) = Fields::of_query(query) else { return Self { broken: true, ..Self::default() } };
        let mut pairs: Vec<(String, String)> = given
            .0
            .iter()
            .map(|(name, value)| (name.to_string(), value.said().trim().to_owned()))
            .filter(|(_, value)| !value.is_empty())
            .collect();
        let mut take = |wanted: &str| {
            let at = pairs.iter().position(|(name, _)| name == wanted)?;
            Some(pairs.remove(at).1)
        };
        let mut chosen = Vec::new();
        for field in described.fields.iter().chain(reserved_fields()) {
            if let Some(unit) = take(&format!("{}.unit", field.name)).and_then(|unit| Unit::named(&unit)) {
                chosen.push((field.name.clone(), unit));
            }
        }
        let [of, from, to, step] = RANGE.map(&mut take);
        if let (Some(of), Some(from), Some(to), Some(step)) = (of, from, to, step) {
            pairs.retain(|(name, _)| *name != of);
            pairs.push((of, format!("{from}..{to} step {step}")));
        }
        for name in ["wanted", "measured"] {
            let of = pairs.iter().position(|(known, _)| *known == format!("{name}.of"));
            let of = of.map(|at| pairs.remove(at).1);
            if let (Some(of), Some((_, value))) = (of, pairs.iter_mut().find(|(known, _)| known == name))
                && !value.contains(':')
            {
                *value = format!("{of}:{value}");
            }
        }
        let mut stated = Self { chosen, ..Self::default() };
        for (name, value) in pairs {
            let field = described.fields.iter().chain(reserved_fields()).find(|field| field.name == name);
            let value = field.map_or_else(|| value.clone(), |field| stated.joined(field, &value));
            stated.fields.0.push((name.into(), Given::Text(value.into())));
        }
        // An address says the fields in declared order, however a form was filled.
        let order = |name: &str| described.fields.iter().position(|field| field.name == name);
        stated.fields.0.sort_by_key(|(name, _)| order(name).unwrap_or(usize::MAX));
        stated
    }

    /// What is stated of `name`.
    pub fn said(&self, name: &str) -> Option<String> {
        self.fields.0.iter().find(|(known, _)| known == name).map(|(_, value)| value.said())
    }

    /// Whether nothing is asked: no field of the calculator's own is stated.
    pub fn is_empty(&self) -> bool {
        self.fields.0.iter().all(|(name, _)| ["units", "machine"].contains(&name.as_ref()))
    }

    /// A value of `field` with the chosen unit behind each number that stands without one.
    fn joined(&self, field: &Field, value: &str) -> String {
        let value = one_line(field, value);
        let only = match units(field) {
            [unit] => Some(*unit),
            _ => None,
        };
        let Some(unit) = self.chosen(&field.name).or(only) else { return value };
        with_unit(field, &value, unit)
    }

    fn chosen(&self, name: &str) -> Option<Unit> {
        self.chosen.iter().find(|(known, _)| known == name).map(|(_, unit)| *unit)
    }

    /// The text that stands in the field of a form and the unit chosen beside it.
    pub fn shown(&self, field: &Field) -> (String, Option<Unit>) {
        let said = self.said(&field.name).unwrap_or_default();
        let (number, unit) = parted(field, &said);
        let preset = || {
            let system = self.said("units")?;
            let row = kind(field)?;
            match system.as_str() {
                "inch" => Some(row.inch.0),
                "metric" => Some(row.metric.0),
                _ => None,
            }
        };
        let alike = kind(field).filter(|row| row.inch.0 == row.metric.0).map(|row| row.inch.0);
        let empty = said.is_empty();
        (
            number,
            unit.or_else(|| self.chosen(&field.name).filter(|_| empty)).or_else(|| preset().filter(|_| empty)).or(
                // Where both systems write the same unit there is nothing to choose.
                alike.filter(|_| empty),
            ),
        )
    }

    /// The fields as the query of a link, without those in `but`.
    pub fn query(&self, but: &[&str]) -> String {
        let given = self.fields.0.iter().filter(|(name, _)| !but.contains(&name.as_ref()));
        query(given.map(|(name, value)| (name.to_string(), value.said())))
    }

    /// The query with `name` set to `value`, or without it.
    pub fn query_with(&self, name: &str, value: Option<&str>) -> String {
        let mut given: Vec<(String, String)> =
            self.fields.0.iter().map(|(name, value)| (name.to_string(), value.said())).collect();
        match (given.iter_mut().find(|(known, _)| known == name), value) {
            (Some(pair), Some(value)) => pair.1 = value.to_owned(),
            (None, Some(value)) => given.push((name.to_owned(), value.to_owned())),
            (_, None) => given.retain(|(known, _)| known != name),
        }
        query(given.into_iter())
    }

    /// The query as an address of the service that answers in `form` takes it.
    pub fn query_for(&self, form: Form) -> String {
        let other: Vec<&str> = RESERVED.iter().filter(|name| !form.names().contains(name)).copied().collect();
        self.query(&other)
    }
}

/// Pairs as a query, spaces as `%20`: what is copied from an address bar is read by all.
pub fn query(pairs: impl Iterator<Item = (String, String)>) -> String {
    form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish().replace('+', "%20")
}

/// The kind of the quantities that a field takes, one or several.
pub fn kind(field: &Field) -> Option<&'static KindRow> {
    field.member.of.shape.kind_within()
}

/// The units to choose from beside a field.
pub fn units(field: &Field) -> &'static [Unit] {
    kind(field).map_or(&[], |row| row.units)
}

/// Whether a field is filled line by line.
pub fn is_lines(field: &Field) -> bool {
    field.form == "objects"
}

/// The lines of a form as the one line of a request.
fn one_line(field: &Field, value: &str) -> String {
    if !value.contains('\n') {
        return value.to_owned();
    }
    let separator = if is_lines(field) { ";" } else { "," };
    value.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>().join(separator)
}

/// Whether a field holds several numbers.
fn is_several(field: &Field) -> bool {
    is_lines(field) || field.form == "list" || field.is_point()
}

/// `text` with `unit` behind each bare number.
fn with_unit(field: &Field, text: &str, unit: Unit) -> String {
    if text.trim_start().starts_with(['[', '{']) {
        return text.to_owned();
    }
    let several = is_several(field);
    let is_mark = |c: char| c == '|' || (several && matches!(c, ',' | ';'));
    let mut out = String::with_capacity(text.len() + 8);
    let mut rest = text;
    loop {
        let end = rest.find(is_mark).unwrap_or(rest.len());
        out.push_str(&piece_with(rest[..end].trim(), unit));
        let Some(mark) = rest[end..].chars().next() else { return out };
        out.push(mark);
        rest = &rest[end + mark.len_utf8()..];
    }
}

fn piece_with(piece: &str, unit: Unit) -> String {
    let bare = |text: &str| read(text.trim(), "").is_ok_and(|written| written.unit.is_none());
    let is_bare = match piece.split_once("..") {
        Some((from, rest)) => bare(from) && rest.split_once("step").is_some_and(|(to, step)| bare(to) && bare(step)),
        None => bare(piece),
    };
    if is_bare { format!("{piece} {}", unit.row().ascii) } else { piece.to_owned() }
}

/// A list parted into its bare numbers and the unit that all of them have; words among them stay.
fn parted_list(said: &str, units: &[Unit]) -> Option<(String, Unit)> {
    let mut found = None;
    let mut out = String::with_capacity(said.len());
    for piece in said.split_inclusive([',', ';']) {
        let text = piece.trim_end_matches([',', ';']);
        let mark = &piece[text.len()..];
        let text = text.trim();
        let bare = match read(text, "") {
            Err(_) if !text.contains(|c: char| c.is_ascii_digit()) => text,
            Err(_) => return None,
            Ok(written) => {
                let unit = written.unit.filter(|unit| units.contains(unit))?;
                if *found.get_or_insert(unit) != unit {
                    return None;
                }
                number_of(text, &written)?
            }
        };
        out.push_str(bare);
        out.push_str(mark);
    }
    found.map(|unit| (out, unit))
}

/// The number of a text that has a unit.
fn number_of<'t>(said: &'t str, written: &Written) -> Option<&'t str> {
    said.char_indices().skip(1).map(|(at, _)| said.split_at(at)).find_map(|(number, name)| {
        let number = number.trim_end();
        let same = read(number, "").is_ok_and(|part| {
            part.unit.is_none() && part.value == written.value && part.tolerance == written.tolerance
        });
        (Unit::named(name) == written.unit && same).then_some(number)
    })
}

/// A stated value parted into what stands in the field and the unit beside it; whole, with the unit it is
/// in, where it has no number of its own to part.
fn parted(field: &Field, said: &str) -> (String, Option<Unit>) {
    let units = units(field);
    if units.is_empty() {
        return (said.to_owned(), None);
    }
    if is_several(field) && said.contains([',', ';']) && !said.trim_start().starts_with(['[', '{']) {
        return match parted_list(said, units) {
            Some((numbers, unit)) => (numbers, Some(unit)),
            None => (said.to_owned(), None),
        };
    }
    let Ok(written) = read(said, "") else { return (said.to_owned(), None) };
    let Some(unit) = written.unit.filter(|unit| units.contains(unit)) else { return (said.to_owned(), None) };
    let number = number_of(said, &written).unwrap_or(said);
    (number.to_owned(), Some(unit))
}

#[cfg(test)]
mod tests;
