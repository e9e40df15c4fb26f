//! A table of requests, many rows in and many out: its header read once, then each row answered by
//! itself and given back with the results beside it, or with the words of its refusal.

use super::cells::Cells;
use super::layout::{Layout, Writing};
use super::separator::records;
use super::sheet_header::{Column, columns, not_comma, whole};
use crate::asking::describing::{Form, RESERVED, Reserved, Separator, describe_entry};
use crate::asking::solving::{
    Answer, Body, FilledByMachine, is_toleranced, machine_named, on_record, ranges_of, take_reserved,
};
use crate::budget::{ONE_OF_MANY, begin_next, spend_part};
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::{System, Unit, shown};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::Node;
use crate::working::Record;
use csv::ByteRecord;
use std::borrow::Cow;
use std::time::Instant;

/// The name of the column that says why a row is refused.
const REFUSED: &str = "refused";
/// The name of the column that says which row of the table asked, where one can have several lines.
const ROW: &str = "row";

/// About how many bytes a cell has, and how many all lines of one row may have together.
const A_CELL: usize = 16;
const MOST_OF_A_ROW: usize = 1 << 20;

/// A table whose header has been read.
#[derive(Debug)]
pub struct Sheet {
    entry: &'static Entry,
    reserved: Reserved,
    /// What the address states, for every row.
    constants: Fields<'static>,
    has_machine: bool,
    separator: Separator,
    columns: Vec<Column>,
    layout: Layout,
    width: usize,
    ranges: bool,
}

/// Room for the cells of a row that are written anew, used again for the next.
#[derive(Default)]
struct Scratch {
    written: String,
    spans: Vec<(usize, usize)>,
}

/// What became of some rows.
#[derive(Debug, Default)]
pub struct Answered {
    /// The lines.
    pub lines: Vec<u8>,
    /// How many bytes of the rows were read.
    pub taken: usize,
    /// How many rows were answered.
    pub answered: u64,
    /// What was wrong with the others: the codes, row by row.
    pub refused: Vec<Vec<Code>>,
}

impl Sheet {
    /// Reads the header and, for what only a row can tell, the first row: `head` begins with them.
    pub fn open(entry: &'static Entry, mut query: Fields<'static>, head: &[u8]) -> Result<Self, Refusal> {
        let Some(described) = describe_entry(entry) else {
            return Err(whole(Code::NotFound, "This calculator has no description.", ""));
        };
        let results = entry.output.members;
        let reserved = take_reserved(entry, &mut query, Form::Sheet)?;
        let separator = reserved.separator.unwrap_or(Separator::Comma);
        let mut reader = records(head, separator);
        let (mut header, mut first) = (ByteRecord::new(), ByteRecord::new());
        let has_header = reader.read_byte_record(&mut header).unwrap_or(false);
        let has_first = reader.read_byte_record(&mut first).unwrap_or(false);
        if !has_header {
            let says = "The table is empty. Its first line names the fields; each line after it is one request.";
            return Err(whole(
                Code::ValueEmpty,
                says,
                described.fields.first().map_or("", |field| field.name.as_str()),
            ));
        }
        if separator == Separator::Comma {
            not_comma(&header)?;
        }
        let machine = reserved.machine.clone();
        if let Some(machine) = &machine {
            query.0.push(("machine".into(), Given::Text(machine.clone().into())));
        }
        let columns = columns(described, &header, &query, separator)?;
        let units = reserved.units;
        let wanted: Vec<String> = reserved
            .pick
            .iter()
            .flat_map(|pick| pick.split(','))
            .map(|name| name.trim().to_owned())
            .filter(|name| !name.is_empty())
            .collect();
        let resolution = reserved.resolution.as_ref().map(|resolution| resolution.quantity().unit);
        let writing = Writing { system: System::Metric, resolution, ranges: false };
        let mut sheet = Self {
            entry,
            reserved,
            constants: query,
            has_machine: machine.is_some(),
            separator,
            columns,
            layout: Layout::of(results, writing, &[]).map_err(|says| whole(Code::NotFound, says, ""))?,
            width: 0,
            ranges: true,
        };
        let system = match units.or_else(|| sheet.system_of_header()) {
            Some(system) => system,
            None if has_first => sheet.system_of_row(&first)?,
            None => System::Metric,
        };
        let is_toleranced = |text: &str| text.contains('±') || text.contains("+/-") || text.contains("/-");
        let of_constants = sheet.constants.0.iter().any(|(_, value)| is_toleranced(&value.said()));
        let of_first = first.iter().zip(&sheet.columns).any(|(cell, column)| {
            matches!(column, Column::Field { .. }) && std::str::from_utf8(cell).is_ok_and(is_toleranced)
        });
        sheet.ranges = of_constants || (has_first && of_first);
        let resolution = resolution.or_else(|| sheet.machine_resolution());
        let wanted: Vec<&str> = wanted.iter().map(String::as_str).collect();
        sheet.layout = Layout::of(results, Writing { system, resolution, ranges: sheet.ranges }, &wanted)
            .map_err(|says| Refusal::one(Wrong::new("pick", Code::NotFound, says, "leave out")))?;
        sheet.width = sheet.layout.width();
        sheet.reserved.units = Some(system);
        Ok(sheet)
    }

    /// The system of the first input, in declared order, whose column or constant has a unit of one.
    fn system_of_header(&self) -> Option<System> {
        let described = describe_entry(self.entry)?;
        described.fields.iter().find_map(|field| {
            self.columns.iter().find_map(|column| match column {
                Column::Field { name, unit: Some(unit), .. } if *name == field.name => unit.system(),
                _ => None,
            })
        })
    }

    /// The system that the first row's own answer has.
    fn system_of_row(&self, row: &ByteRecord) -> Result<System, Refusal> {
        let answered = self.with_fields(row, &mut Scratch::default(), |fields| {
            self.ask(fields, Record::new(false), |answer| answer.system)
        });
        answered.map_err(|refusal| {
            let says = format!(
                "No column's header has a unit, and the first row, which would decide between inch and metric, is \
                 refused: {}",
                refusal.words()
            );
            Refusal::one(Wrong::new("units", Code::FieldMissing, says, "inch"))
        })
    }

    fn machine_resolution(&self) -> Option<Unit> {
        let text = machine_named(self.reserved.machine.as_deref()?).ok()?.field("resolution")?;
        crate::quantity::Resolution::read(text).ok().map(|resolution| resolution.quantity().unit)
    }

    /// The calculator.
    pub fn entry(&self) -> &'static Entry {
        self.entry
    }

    /// The header of the answer.
    pub fn head(&self) -> Vec<u8> {
        let mut cells = Cells::new(self.separator, 256);
        let mut taken: Vec<&str> = Vec::new();
        for column in &self.columns {
            cells.words(column.heading().as_bytes());
            taken.push(column.name());
        }
        // A result of an input's own name would make two columns of one name.
        let add = |cells: &mut Cells, name: &str| {
            let bare = name.split(" [").next().unwrap_or(name);
            if taken.contains(&bare) || taken.contains(&name) {
                cells.words(format!("result {name}").as_bytes());
            } else {
                cells.words(name.as_bytes());
            }
        };
        if self.layout.is_long() {
            add(&mut cells, ROW);
        }
        self.layout.header().iter().for_each(|name| add(&mut cells, name));
        add(&mut cells, REFUSED);
        cells.end();
        cells.done()
    }

    /// Answers the rows in `bytes`, whole records, the first of which is row `number`, until so many
    /// bytes of lines are enough.
    pub fn rows(&self, bytes: &[u8], number: u64, is_enough: impl Fn(usize, Instant) -> bool) -> Answered {
        spend_part(ONE_OF_MANY, || self.rows_one_by_one(bytes, number, is_enough))
    }

    fn rows_one_by_one(&self, bytes: &[u8], first: u64, is_enough: impl Fn(usize, Instant) -> bool) -> Answered {
        let mut reader = records(bytes, self.separator);
        let mut cells = Cells::new(self.separator, bytes.len() * 4);
        let mut outcome = Answered { taken: bytes.len(), ..Answered::default() };
        let (mut row, mut scratch) = (ByteRecord::new(), Scratch::default());
        for number in first.. {
            let now = begin_next(ONE_OF_MANY);
            if number > first && is_enough(cells.len(), now) {
                // What ends a line may be left; it is no row.
                outcome.taken = reader.position().byte() as usize;
                break;
            }
            if !reader.read_byte_record(&mut row).unwrap_or(false) {
                break;
            }
            let answered = self.with_fields(&row, &mut scratch, |fields| {
                self.ask(fields, Record::of_result_alone(), |answer| match answer.body {
                    Body::Result(result) => result,
                    _ => Node::Record(Vec::new()),
                })
            });
            let begin = |cells: &mut Cells| {
                self.echo(&row, cells);
                if self.layout.is_long() {
                    cells.count(number);
                }
            };
            match answered {
                Ok(result)
                    if self.layout.lines(&result) * (row.as_slice().len() + self.width * A_CELL) > MOST_OF_A_ROW =>
                {
                    let says = "The answer of this row is too long for a table. Ask for this row by itself.";
                    begin(&mut cells);
                    self.refuse(says, &mut cells);
                    outcome.refused.push(vec![Code::TooMuchWork]);
                }
                Ok(result) => {
                    outcome.answered += 1;
                    self.layout.write(&result, &mut cells, begin, |cells| {
                        cells.empty();
                        cells.end();
                    });
                }
                Err(refusal) => {
                    begin(&mut cells);
                    self.refuse(&refusal.words(), &mut cells);
                    outcome.refused.push(refusal.0.iter().map(|wrong| wrong.code).collect());
                }
            }
        }
        outcome.lines = cells.done();
        outcome
    }

    /// A row that could not even be read, in words.
    pub fn broken(&self, says: &str, number: u64) -> Vec<u8> {
        let mut cells = Cells::new(self.separator, 128);
        cells.empties(self.columns.len());
        if self.layout.is_long() {
            cells.count(number);
        }
        self.refuse(says, &mut cells);
        cells.done()
    }

    fn refuse(&self, says: &str, cells: &mut Cells) {
        cells.empties(self.width);
        cells.words(says.as_bytes());
        cells.end();
    }

    fn echo(&self, row: &ByteRecord, cells: &mut Cells) {
        (0..self.columns.len()).for_each(|at| cells.words(row.get(at).unwrap_or_default()));
    }

    /// Calls `act` with the fields of a row.
    fn with_fields<T>(
        &self,
        row: &ByteRecord,
        scratch: &mut Scratch,
        act: impl FnOnce(Fields) -> Result<T, Refusal>,
    ) -> Result<T, Refusal> {
        if row.len() != self.columns.len() {
            let says = format!("This row has {} cells; the header has {}.", row.len(), self.columns.len());
            return Err(whole(Code::RequestUnreadable, says, "a cell for each column, empty where there is nothing"));
        }
        // Cells that need a unit or a point are written here, one after the other, before any is lent out.
        let Scratch { written, spans } = scratch;
        written.clear();
        spans.clear();
        for (column, cell) in self.columns.iter().zip(row) {
            let from = written.len();
            if let Column::Field { name, .. } = column {
                let text = std::str::from_utf8(cell).map_err(|_| {
                    Refusal::one(Wrong::new(name, Code::ValueUnreadable, "The cell is not UTF-8 text.", "0.5 in"))
                })?;
                column.write(text, written)?;
            }
            spans.push((from, written.len()));
        }
        let mut fields = Vec::with_capacity(row.len() + self.constants.0.len());
        for (name, value) in &self.constants.0 {
            fields.push((name.clone(), value.clone()));
        }
        for ((column, cell), (from, to)) in self.columns.iter().zip(row).zip(spans.iter().copied()) {
            let Column::Field { name, .. } = column else { continue };
            let text = if to > from { &written[from..to] } else { std::str::from_utf8(cell).unwrap_or_default() };
            // An empty cell is not given.
            if !text.trim_ascii().is_empty() {
                fields.push((Cow::Borrowed(name.as_str()), Given::Text(Cow::Borrowed(text))));
            }
        }
        act(Fields(fields))
    }

    fn ask<T>(&self, mut fields: Fields, record: Record, found: impl FnOnce(Answer) -> T) -> Result<T, Refusal> {
        let filled = if self.has_machine {
            let filled = FilledByMachine::fill(self.entry, &mut fields);
            fields.0.retain(|(name, _)| !RESERVED.contains(&name.as_ref()));
            filled
        } else {
            FilledByMachine::default()
        };
        let answered = on_record(self.entry, &fields, &self.reserved, &filled, record);
        match answered {
            Ok(answer) if self.ranges || !is_toleranced(&answer.inputs) => Ok(found(answer)),
            Ok(_) => {
                let says = "This row has a tolerance and the first row has none, so that the table has no columns for \
                            least and greatest.";
                Err(whole(Code::NotOffered, says, "a tolerance in the first row too, if only ±0"))
            }
            Err(refusal) if refusal.is_of_time() => Err(refusal),
            Err(refusal) => Err(several(&fields).unwrap_or(refusal)),
        }
    }
}

/// What is wrong with a row whose cells hold several values.
fn several(fields: &Fields) -> Option<Refusal> {
    let found = ranges_of(fields).ok().flatten()?;
    let wrong = |(at, cases): &(usize, Vec<String>)| {
        let (name, value) = &fields.0[*at];
        let says = format!("\"{}\" has several values; a row of a table takes one.", shown(&value.said()));
        Wrong::new(name, Code::NotOffered, says, cases.first().cloned().unwrap_or_default())
    };
    Some(Refusal(found.iter().map(wrong).collect()))
}
