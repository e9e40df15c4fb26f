//! The columns of a calculator's results, laid out by the places that they have, so that a table's
//! header is known before any of its rows is answered.

use super::cells::Cells;
use crate::declared::{Member, Shape};
use crate::quantity::{Setting, System, Unit};
use crate::tree::{Leaf, Node};

/// What a table of answers is written in.
#[derive(Clone, Copy, Debug)]
pub struct Writing {
    /// The system of the answers.
    pub system: System,
    /// The unit of the readout's resolution, where one was stated.
    pub resolution: Option<Unit>,
    /// Whether tolerances give each quantity its least and greatest.
    pub ranges: bool,
}

/// The columns: those of the result itself, then those of the rows of its first list.
#[derive(Clone, Debug)]
pub struct Layout {
    single: Vec<&'static Member>,
    list: Option<(&'static str, Vec<&'static Member>)>,
    writing: Writing,
}

impl Layout {
    /// The layout of results with these members. `wanted` names those that are wanted, all if empty.
    pub fn of(results: &'static [Member], writing: Writing, wanted: &[&str]) -> Result<Self, String> {
        let mut single = columns(results);
        let mut list = results.iter().find_map(|member| Some((member.name, columns(member.of.shape.rows()?))));
        if !wanted.is_empty() {
            let names = single.iter().map(|member| member.name).chain(list.iter().map(|(name, _)| *name));
            let names: Vec<&str> = names.collect();
            if let Some(unknown) = wanted.iter().find(|name| !names.contains(name)) {
                let unknown = crate::quantity::shown(unknown);
                return Err(format!("There is no result \"{unknown}\"; the results are {}.", names.join(", ")));
            }
            single.retain(|member| wanted.contains(&member.name));
            list = list.filter(|(name, _)| wanted.contains(name));
        }
        Ok(Self { single, list, writing })
    }

    /// Whether a row in can be several rows out.
    pub fn is_long(&self) -> bool {
        self.list.is_some()
    }

    /// The names of the columns, with their units.
    pub fn header(&self) -> Vec<String> {
        let mut names = Vec::new();
        headings(&self.single, "", self.writing, &mut names);
        if let Some((list, rows)) = &self.list {
            let mut of_rows = Vec::new();
            headings(rows, "", self.writing, &mut of_rows);
            // A list's column named like one of the result itself says whose it is.
            let whose = |name: String| if names.contains(&name) { format!("{list}.{name}") } else { name };
            let of_rows: Vec<String> = of_rows.into_iter().map(whose).collect();
            names.extend(of_rows);
        }
        names
    }

    /// How many lines `result` has.
    pub fn lines(&self, result: &Node) -> usize {
        let rows = self.list.as_ref().and_then(|(name, _)| result.member(name));
        match rows {
            Some(Node::List(rows)) => rows.len().max(1),
            _ => 1,
        }
    }

    /// Writes the cells of `result`: calls `row` for each row, which begins it, and leaves its end to
    /// the caller's `end`.
    pub fn write(&self, result: &Node, cells: &mut Cells, begin: impl Fn(&mut Cells), end: impl Fn(&mut Cells)) {
        let rows = self.list.as_ref().and_then(|(name, parts)| match result.member(name) {
            Some(Node::List(rows)) if !rows.is_empty() => Some((parts, rows)),
            _ => None,
        });
        let Some((parts, rows)) = rows else {
            begin(cells);
            self.record(&self.single, Some(result), cells);
            if let Some((_, parts)) = &self.list {
                self.record(parts, None, cells);
            }
            end(cells);
            return;
        };
        for row in rows {
            begin(cells);
            self.record(&self.single, Some(result), cells);
            self.record(parts, Some(row), cells);
            end(cells);
        }
    }

    /// How many columns there are.
    pub fn width(&self) -> usize {
        self.header().len()
    }

    fn record(&self, columns: &[&'static Member], node: Option<&Node>, cells: &mut Cells) {
        let members: &[(&'static str, Node)] = match node {
            Some(Node::Record(members)) => members,
            _ => &[],
        };
        // Both are in declared order, so that what was found last is where to look next.
        let mut at = 0;
        for column in columns {
            let here = members[at..].iter().position(|(member, _)| *member == column.name);
            if let Some(skipped) = here {
                at += skipped + 1;
            }
            self.cell(column, here.map(|_| &members[at - 1].1), cells);
        }
    }

    fn cell(&self, column: &Member, node: Option<&Node>, cells: &mut Cells) {
        match (column.of.shape, node) {
            (Shape::Record(members), node) => self.record(&columns(members), node, cells),
            (Shape::Found(kind), node) => {
                let leaf = match node {
                    Some(Node::Quantity(leaf)) => Some(leaf),
                    _ => None,
                };
                self.quantity(leaf, kind.setting != Setting::Never, cells);
            }
            (_, Some(node)) => cells.node(node),
            (_, None) => cells.empty(),
        }
    }

    fn quantity(&self, leaf: Option<&Leaf>, settable: bool, cells: &mut Cells) {
        cells.number_or_empty(leaf.map(|leaf| leaf.quantity.value));
        if self.writing.ranges {
            let range = leaf.and_then(|leaf| leaf.range.as_ref().map(|range| (leaf.quantity.value, range)));
            cells.number_or_empty(range.map(|(value, range)| crate::quantity::text::tidy(value - range.minus)));
            cells.number_or_empty(range.map(|(value, range)| crate::quantity::text::tidy(value + range.plus)));
        }
        if settable && self.writing.resolution.is_some() {
            match leaf.and_then(|leaf| leaf.set) {
                Some(set) => {
                    cells.fixed(set.to, set.places);
                    cells.number_or_empty(Some(set.left_over));
                }
                None => {
                    cells.empty();
                    cells.empty();
                }
            }
        }
    }
}

/// The members that have columns of their own: a list of objects has rows.
fn columns(members: &'static [Member]) -> Vec<&'static Member> {
    members.iter().filter(|member| member.of.shape.rows().is_none()).collect()
}

fn headings(columns_here: &[&'static Member], path: &str, writing: Writing, names: &mut Vec<String>) {
    for column in columns_here {
        let name = if path.is_empty() { column.name.to_owned() } else { format!("{path}.{}", column.name) };
        match column.of.shape {
            Shape::Record(members) => headings(&columns(members), &name, writing, names),
            Shape::Found(kind) => {
                let unit = kind.written_in(writing.system).0.spelling();
                names.push(format!("{name} [{unit}]"));
                if writing.ranges {
                    names.push(format!("{name}_least [{unit}]"));
                    names.push(format!("{name}_greatest [{unit}]"));
                }
                if let (true, Some(resolution)) = (kind.setting != Setting::Never, writing.resolution) {
                    let unit = resolution.spelling();
                    names.push(format!("{name}_set_to [{unit}]"));
                    names.push(format!("{name}_left_over [{unit}]"));
                }
            }
            _ => names.push(name),
        }
    }
}
