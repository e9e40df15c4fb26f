//! The header of a table of requests: which column is which field, in which unit, and which columns
//! only go along.

use crate::asking::describing::{Described, Field, RESERVED, Separator};
use crate::fields::{Fields, likeness, nearest};
use crate::quantity::{Unit, shown};
use crate::refusal::{Code, Refusal, Wrong};
use csv::ByteRecord;

/// Most columns of a table.
const MOST_COLUMNS: usize = 200;

/// One column.
#[derive(Debug)]
pub enum Column {
    /// A field of the calculator.
    Field {
        /// The field.
        name: String,
        /// The unit of the column's bare numbers.
        unit: Option<Unit>,
        /// Whether its numbers have decimal commas.
        comma: bool,
    },
    /// No field; it goes along as it is.
    Kept(String),
}

impl Column {
    /// The name, without its unit.
    pub fn name(&self) -> &str {
        match self {
            Self::Field { name, .. } => name,
            Self::Kept(heading) => heading,
        }
    }

    /// The heading.
    pub fn heading(&self) -> String {
        match self {
            Self::Field { name, unit: Some(unit), .. } => format!("{name} [{}]", unit.spelling()),
            other => other.name().to_owned(),
        }
    }

    /// Writes a cell as its field reads it, with unit and decimal point; nothing where it can be read
    /// as it stands.
    pub fn write(&self, cell: &str, out: &mut String) -> Result<(), Refusal> {
        let Self::Field { name, unit, comma } = self else { return Ok(()) };
        let cell = cell.trim_ascii();
        let unit = unit.filter(|_| is_bare(cell, *comma));
        let has_mark = *comma && cell.bytes().any(|byte| matches!(byte, b',' | b'.'));
        if unit.is_none() && !has_mark {
            return Ok(());
        }
        if has_mark {
            out.push_str(&with_point(name, cell)?);
        } else {
            out.push_str(cell);
        }
        if let Some(unit) = unit {
            out.push(' ');
            out.push_str(unit.row().ascii);
        }
        Ok(())
    }
}

/// Something wrong with the table or the row as a whole.
pub fn whole(code: Code, says: impl Into<String>, try_this: &str) -> Refusal {
    let try_this = (!try_this.is_empty()).then(|| try_this.to_owned());
    Refusal::one(Wrong { field: String::new(), code, says: says.into(), try_this })
}

/// Whether a cell is a number without a unit, such as `0.5`, `1-1/2`, `½` or `0.5 ±0.01`.
fn is_bare(cell: &str, comma: bool) -> bool {
    // Most are plain decimals, which a look at the bytes tells.
    if !cell.is_empty() && cell.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        return true;
    }
    let fraction = |c: char| matches!(c, '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' | '⅓' | '⅔');
    let begins = |c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.' | '−') || fraction(c);
    let goes_on = |c: char| begins(c) || matches!(c, '/' | ' ' | 'e' | 'E' | '±') || (comma && c == ',');
    cell.starts_with(begins) && cell.chars().all(goes_on)
}

/// A decimal comma as the point that is read.
fn with_point(name: &str, cell: &str) -> Result<String, Refusal> {
    let thousands = |at: usize| {
        let digits = cell[at + 1..].bytes().take_while(u8::is_ascii_digit).count();
        let before = cell[..at].bytes().rev().take_while(u8::is_ascii_digit).count();
        let leading = cell.as_bytes().get(at - before);
        digits == 3 && before > 0 && before <= 3 && leading != Some(&b'0')
    };
    let points: Vec<usize> = cell.match_indices('.').map(|(at, _)| at).collect();
    // The point of a unit's spelling, lbf.ft, stands between letters.
    let of_number = |at: &usize| cell[..*at].ends_with(|c: char| c.is_ascii_digit()) || *at == 0;
    let suspect = points.iter().filter(|at| of_number(at)).any(|at| cell.contains(',') || thousands(*at));
    if suspect {
        let says = format!(
            "\"{}\": is the point a decimal point or a thousands mark? A table separated by semicolons has decimal commas.",
            shown(cell)
        );
        return Err(Refusal::one(Wrong::new(name, Code::ValueAmbiguous, says, cell.replace('.', ""))));
    }
    Ok(cell.replace(',', "."))
}

/// Refuses a header of one column that holds what parts the columns of other tables.
pub fn not_comma(header: &ByteRecord) -> Result<(), Refusal> {
    let single = header.get(0).filter(|_| header.len() == 1).unwrap_or_default();
    if single.contains(&b';') {
        let says = "The header is separated by semicolons: add separator=semicolon to the address, which also reads and \
                    writes decimal commas.";
        return Err(Refusal::one(Wrong::new("separator", Code::Conflict, says, "semicolon")));
    }
    if single.contains(&b'\t') {
        return Err(whole(Code::RequestUnreadable, "The header is separated by tabs. Separate columns by commas.", ""));
    }
    Ok(())
}

/// Reads the header.
pub fn columns(
    described: &Described,
    header: &ByteRecord,
    constants: &Fields,
    separator: Separator,
) -> Result<Vec<Column>, Refusal> {
    constants.check_count()?;
    if header.len() > MOST_COLUMNS {
        let says = format!("The table has {} columns; at most {MOST_COLUMNS} are read.", header.len());
        return Err(whole(Code::ValueOutOfRange, says, ""));
    }
    let (mut columns, mut wrongs) = (Vec::new(), Vec::new());
    for cell in header {
        let Ok(heading) = std::str::from_utf8(cell) else {
            return Err(whole(Code::RequestUnreadable, "The header is not UTF-8 text.", ""));
        };
        match column(described, heading.trim(), separator) {
            Ok(column) => columns.push(column),
            Err(wrong) => wrongs.push(wrong),
        }
    }
    for (at, column) in columns.iter().enumerate() {
        let name = column.name();
        if name.is_empty() || matches!(column, Column::Kept(_)) {
            continue;
        }
        let twice = columns[..at].iter().any(|before| before.name() == name);
        if twice || constants.0.iter().any(|(stated, _)| stated == name) {
            let elsewhere = if twice { "is there twice" } else { "is in the address too, for every row" };
            let says = format!("The column {name} {elsewhere}.");
            wrongs.push(Wrong::new(name, Code::FieldRepeated, says, "leave out"));
        }
    }
    for (name, _) in &constants.0 {
        if name != "machine" && !described.fields.iter().any(|field| field.name == *name) {
            let names: Vec<&str> = described.fields.iter().map(|field| field.name.as_str()).collect();
            let says = format!("There is no field {}; the fields are {}.", shown(name), names.join(", "));
            let near = nearest(name, names.into_iter()).unwrap_or("leave out");
            wrongs.push(Wrong::new(name, Code::FieldUnknown, says, near));
        }
    }
    let required = described.fields.iter().filter(|field| field.required).filter(|field| {
        !columns.iter().any(|column| matches!(column, Column::Field { name, .. } if *name == field.name))
            && !constants.0.iter().any(|(name, _)| *name == field.name)
            && !may_stand_in(&field.name, constants)
    });
    for field in required {
        let says = format!("Needed, as a column or in the address: {}.", field.name);
        wrongs.push(Wrong::new(&field.name, Code::FieldMissing, says, field.example.clone()));
    }
    if wrongs.is_empty() { Ok(columns) } else { Err(Refusal::of_many(wrongs)) }
}

/// One column of the header.
fn column(described: &Described, heading: &str, separator: Separator) -> Result<Column, Wrong> {
    let (name, unit) = match heading.strip_suffix(']').and_then(|rest| rest.rsplit_once('[')) {
        Some((name, unit)) => (name.trim(), Some(unit.trim())),
        None => (heading, None),
    };
    if let Some(field) = described.fields.iter().find(|field| field.name == name) {
        let unit = unit.map(|unit| unit_of(field, unit)).transpose()?;
        let comma = separator == Separator::Semicolon
            && (field.is_quantity() || matches!(field.form, "quantity" | "number" | "count"));
        return Ok(Column::Field { name: name.to_owned(), unit, comma });
    }
    if RESERVED.contains(&name) {
        let says = format!("{name} belongs in the address, where it holds for every row.");
        return Err(Wrong::new(name, Code::NotOffered, says, "leave the column out"));
    }
    if heading.starts_with('_') || heading.is_empty() {
        return Ok(Column::Kept(heading.to_owned()));
    }
    let names: Vec<&str> = described.fields.iter().map(|field| field.name.as_str()).collect();
    let meant = if unit.is_some_and(|unit| Unit::named(unit).is_some()) {
        Some(nearest(name, names.iter().copied()).unwrap_or(names.first().copied().unwrap_or_default()))
    } else {
        meant(name, &names)
    };
    match meant {
        Some(meant) => {
            let says = format!(
                "There is no field {}; the fields are {}. A column that only goes along has a name that is not like a \
                 field's, without a unit, or one that begins with _.",
                shown(heading),
                names.join(", ")
            );
            Err(Wrong::new(name, Code::FieldUnknown, says, format!("{meant} or _{}", shown(name))))
        }
        None => Ok(Column::Kept(heading.to_owned())),
    }
}

/// The field that a heading could be meant for: one spelled nearly so, or one it shares a word with.
fn meant<'n>(heading: &str, names: &[&'n str]) -> Option<&'n str> {
    let lower = heading.to_lowercase();
    let words = |text: &str| -> Vec<String> {
        text.split(|c: char| !c.is_alphanumeric()).filter(|word| word.len() > 1).map(str::to_owned).collect()
    };
    let own = words(&lower);
    let shares = |name: &&&str| words(name).iter().any(|word| own.contains(word));
    let near = |name: &str| likeness(&lower, name) > 0.85;
    names.iter().find(shares).copied().or_else(|| nearest(&lower, names.iter().copied()).filter(|name| near(name)))
}

fn unit_of(field: &Field, text: &str) -> Result<Unit, Wrong> {
    let units = if field.units.is_empty() { "in, mm".to_owned() } else { field.units.join(", ") };
    if !field.is_quantity() {
        let says = format!("The header gives no unit for the cells of {}.", field.name);
        return Err(Wrong::new(&field.name, Code::UnitWrong, says, field.name.clone()));
    }
    let Some(unit) = Unit::named(text) else {
        let says = format!("\"{}\" is not a unit known here; this column takes {units}.", shown(text));
        return Err(Wrong::new(&field.name, Code::UnitUnknown, says, format!("{} [in]", field.name)));
    };
    if !field.units.is_empty() && !field.units.contains(&unit.spelling()) {
        let says = format!("{} does not fit this column; it takes {units}.", unit.spelling());
        let good = format!("{} [{}]", field.name, field.units[0]);
        return Err(Wrong::new(&field.name, Code::UnitWrong, says, good));
    }
    Ok(unit)
}

/// Whether a machine that the address names may have the field.
fn may_stand_in(field: &str, constants: &Fields) -> bool {
    let named = constants.0.iter().any(|(name, _)| name == "machine");
    named && crate::shop::MACHINE_FIELDS.iter().any(|known| known.name == field)
}
