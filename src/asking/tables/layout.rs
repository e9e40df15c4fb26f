//! The columns of a calculator's results, laid out by the places that they have, so that a table's
//! header is known before any of its rows is answered.

use super::cells::Cells;
use crate::asking::describing::{Part, Places};
use crate::quantity::{System, Unit};
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
    single: Vec<(String, Part)>,
    list: Option<(String, Vec<(String, Part)>)>,
    writing: Writing,
}

impl Layout {
    /// The layout of a calculator's results. `wanted` names those that are wanted, all if empty.
    pub fn of(places: &Places, writing: Writing, wanted: &[&str]) -> Result<Self, String> {
        let all = places.0.clone();
        let first_list = all.iter().find_map(|(name, part)| match part {
            Part::Rows(rows) => Some((name.clone(), rows.clone())),
            _ => None,
        });
        let single: Vec<_> = all.into_iter().filter(|(_, part)| !matches!(part, Part::Rows(_))).collect();
        if wanted.is_empty() {
            return Ok(Self { single, list: first_list, writing });
        }
        let names = single.iter().map(|(name, _)| name).chain(first_list.iter().map(|(name, _)| name));
        let names: Vec<&str> = names.map(String::as_str).collect();
        if let Some(unknown) = wanted.iter().find(|name| !names.contains(name)) {
            let unknown = crate::quantity::shown(unknown);
            return Err(format!("There is no result \"{unknown}\"; the results are {}.", names.join(", ")));
        }
        let is_wanted = |name: &String| wanted.contains(&name.as_str());
        let single = single.into_iter().filter(|(name, _)| is_wanted(name)).collect();
        Ok(Self { single, list: first_list.filter(|(name, _)| is_wanted(name)), writing })
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

    fn record(&self, parts: &[(String, Part)], node: Option<&Node>, cells: &mut Cells) {
        let members: &[(&'static str, Node)] = match node {
            Some(Node::Record(members)) => members,
            _ => &[],
        };
        // Both are in declared order, so that what was found last is where to look next.
        let mut at = 0;
        for (name, part) in parts {
            let here = members[at..].iter().position(|(member, _)| member == name);
            if let Some(skipped) = here {
                at += skipped + 1;
            }
            self.part(part, here.map(|_| &members[at - 1].1), cells);
        }
    }

    fn part(&self, part: &Part, node: Option<&Node>, cells: &mut Cells) {
        match part {
            Part::Record(parts) | Part::Rows(parts) => self.record(parts, node, cells),
            Part::Plain => match node {
                Some(node) => cells.node(node),
                None => cells.empty(),
            },
            Part::Quantity { settable, .. } => {
                let leaf = match node {
                    Some(Node::Quantity(leaf)) => Some(leaf),
                    _ => None,
                };
                self.quantity(leaf, *settable, cells);
            }
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

fn headings(parts: &[(String, Part)], path: &str, writing: Writing, names: &mut Vec<String>) {
    for (name, part) in parts {
        let name = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
        match part {
            Part::Record(parts) | Part::Rows(parts) => headings(parts, &name, writing, names),
            Part::Plain => names.push(name),
            Part::Quantity { inch, metric, settable } => {
                let unit = if writing.system == System::Inch { inch } else { metric };
                names.push(format!("{name} [{unit}]"));
                if writing.ranges {
                    names.push(format!("{name}_least [{unit}]"));
                    names.push(format!("{name}_greatest [{unit}]"));
                }
                if let (true, Some(resolution)) = (*settable, writing.resolution) {
                    let unit = resolution.spelling();
                    names.push(format!("{name}_set_to [{unit}]"));
                    names.push(format!("{name}_left_over [{unit}]"));
                }
            }
        }
    }
}
