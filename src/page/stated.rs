//! What a page's address states. Beside the fields of the service's own addresses it may hold what only
//! a form needs: `diameter.unit=mm` for the unit chosen beside a field, `wanted.of` for the result chosen
//! beside a value, `range.of`, `range.from`, `range.to`, `range.step` for a chart. They are joined here
//! into the fields they stand for, so that an address without them says the same.

use crate::asking::{Described, Field, Form, RESERVED, reserved_fields};
use crate::fields::{Fields, Given};
use crate::quantity::{KINDS, KindRow, Unit, read};

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
    let items = field.body_schema["items"]["$ref"].as_str().and_then(|path| path.rsplit('/').next());
    let name = match field.schema_name.as_deref().or(items)? {
        "DrillDiameter" => "Size",
        "Point" | "Points" => "Place",
        name => name,
    };
    KINDS.iter().copied().find(|row| row.name == name)
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

/// `text` with `unit` behind each bare number.
fn with_unit(field: &Field, text: &str, unit: Unit) -> String {
    if text.trim_start().starts_with(['[', '{']) {
        return text.to_owned();
    }
    let several = is_lines(field) || field.form == "list" || field.schema_name.as_deref() == Some("Point");
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

/// A stated value parted into what stands in the field and the unit beside it; whole, with the unit it is
/// in, where it has no number of its own to part.
fn parted(field: &Field, said: &str) -> (String, Option<Unit>) {
    let units = units(field);
    if units.is_empty() {
        return (said.to_owned(), None);
    }
    let Ok(written) = read(said, "") else { return (said.to_owned(), None) };
    let Some(unit) = written.unit.filter(|unit| units.contains(unit)) else { return (said.to_owned(), None) };
    let ends = said.char_indices().map(|(at, _)| at).skip(1);
    for at in ends {
        let (number, name) = said.split_at(at);
        let same = |text: &str| {
            read(text, "").is_ok_and(|part| {
                part.unit.is_none() && part.value == written.value && part.tolerance == written.tolerance
            })
        };
        if Unit::named(name) == Some(unit) && same(number.trim_end()) {
            return (number.trim_end().to_owned(), Some(unit));
        }
    }
    (said.to_owned(), Some(unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::asking::describe_entry;
    use crate::calculators::find;

    fn stated(id: &str, query: &str) -> Stated {
        Stated::of_query(describe_entry(find(id).expect("a calculator")).expect("described"), query)
    }

    fn query_of(id: &str, query: &str) -> String {
        stated(id, query).query(&[])
    }

    #[test]
    fn a_bare_number_takes_the_unit_chosen_beside_it() {
        let id = "holes/drill-point";
        assert_eq!(query_of(id, "full_depth=20&full_depth.unit=mm"), "full_depth=20%20mm");
        assert_eq!(query_of(id, "full_depth=3/4&full_depth.unit=in"), "full_depth=3%2F4%20in");
        assert_eq!(query_of(id, "point_angle=118&point_angle.unit=deg"), "point_angle=118%20deg");
        assert_eq!(
            query_of(id, "full_depth=1/4..1+step+1/4&full_depth.unit=in"),
            "full_depth=1%2F4..1%20step%201%2F4%20in"
        );
        assert_eq!(query_of(id, "point_angle=118|135&point_angle.unit=deg"), "point_angle=118%20deg%7C135%20deg");
        assert_eq!(
            query_of(id, "full_depth=2.000+%2B0.002/-0.000&full_depth.unit=in"),
            "full_depth=2.000%20%2B0.002%2F-0.000%20in"
        );
    }

    #[test]
    fn a_unit_typed_in_the_field_wins() {
        let stated = stated("holes/drill-point", "full_depth=12.7mm&full_depth.unit=in");
        assert_eq!(stated.said("full_depth").as_deref(), Some("12.7mm"));
        let described = describe_entry(find("holes/drill-point").expect("a calculator")).expect("described");
        let field = described.fields.iter().find(|field| field.name == "full_depth").expect("a field");
        assert_eq!(stated.shown(field), ("12.7".to_owned(), Some(Unit::Millimetre)));
    }

    #[test]
    fn without_a_unit_chosen_a_bare_number_stays_bare() {
        assert_eq!(query_of("holes/drill-point", "full_depth=20&full_depth.unit="), "full_depth=20");
        assert_eq!(query_of("holes/drill-point", "full_depth=20&full_depth.unit=furlong"), "full_depth=20");
    }

    #[test]
    fn a_drill_s_name_stays_a_name() {
        for name in ["%237", "F", "No.7"] {
            let query = format!("diameter={name}&diameter.unit=mm");
            assert!(!query_of("holes/drill-point", &query).contains("mm"), "{query}");
        }
        // A fraction alone names a drill; with a unit chosen beside it, it is a number like any other.
        assert_eq!(query_of("holes/drill-point", "diameter=27/64&diameter.unit="), "diameter=27%2F64");
        assert_eq!(query_of("holes/drill-point", "diameter=27/64&diameter.unit=in"), "diameter=27%2F64%20in");
        assert_eq!(query_of("holes/drill-point", "diameter=8.5&diameter.unit=mm"), "diameter=8.5%20mm");
    }

    #[test]
    fn each_number_of_a_list_and_of_lines_takes_the_unit() {
        assert_eq!(
            query_of("speeds/spindle-speed", "available=112,+160+rpm,224&available.unit=rpm"),
            "available=112%20rpm%2C160%20rpm%2C224%20rpm"
        );
        assert_eq!(
            query_of("datum/visit-order", "points=0,0%0D%0A1,2.5%0D%0A&points.unit=in"),
            "points=0%20in%2C0%20in%3B1%20in%2C2.5%20in"
        );
    }

    #[test]
    fn parts_of_a_range_and_of_a_wanted_result_are_joined() {
        let id = "holes/drill-point";
        assert_eq!(
            query_of(id, "range.of=diameter&range.from=1/4&range.to=1&range.step=1/16&diameter.unit=in"),
            "diameter=1%2F4..1%20step%201%2F16%20in"
        );
        assert_eq!(
            query_of(id, "wanted.of=point_length&wanted=0.152+in&solve_for=diameter"),
            "wanted=point_length%3A0.152%20in&solve_for=diameter"
        );
    }
}
