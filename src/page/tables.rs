//! Results as tables: single values in two columns, lists with the unit at the head of a column, and the
//! rows of a range as a chart for the wall.

use super::field::words;
use crate::asking::Row;
use crate::quantity::{System, Unit, text};
use crate::tree::{Leaf, Node};
use maud::{Markup, html};

/// A value as it is shown: whole, and without its unit.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    /// With its unit.
    pub text: String,
    /// Without its unit.
    pub bare: String,
    unit: Option<Unit>,
}

impl Cell {
    /// Words without a unit.
    pub fn words(text: String) -> Self {
        Self { bare: text.clone(), text, unit: None }
    }

    /// A value in words.
    pub fn of(node: &Node) -> Self {
        match node {
            Node::Quantity(leaf) => quantity(leaf),
            Node::Number(number) => {
                // Six decimals are more than anybody reads; what is copied has them all.
                Self { text: text::full(text::round(*number, 6)), ..Self::words(text::full(*number)) }
            }
            Node::Count(count) => Self::words(count.to_string()),
            Node::Truth(truth) => Self::words(if *truth { "yes" } else { "no" }.to_owned()),
            Node::Text(words, _) => Self::words(words.to_string()),
            Node::List(items) => {
                Self::words(items.iter().map(|item| Cell::of(item).text).collect::<Vec<_>>().join(", "))
            }
            // A point inside a list of points.
            Node::Record(members) => {
                Self::words(members.iter().map(|(_, node)| Cell::of(node).text).collect::<Vec<_>>().join(", "))
            }
        }
    }
}

/// A value in words.
pub fn plain(node: &Node) -> String {
    Cell::of(node).text
}

/// A quantity with the range that tolerances give it, and the name it was asked by.
fn quantity(leaf: &Leaf) -> Cell {
    let Leaf { quantity, range, name, .. } = leaf;
    let mut whole = quantity.text();
    let suffix = quantity.unit.row().suffix;
    let mut bare = whole.strip_suffix(suffix).unwrap_or(&whole).to_owned();
    let mut more = String::new();
    if let Some(range) = range {
        let side = |amount: f64| text::fixed(amount, quantity.kind.places(quantity.unit) + 1);
        if range.minus == range.plus {
            more.push_str(&format!(" ±{}", side(range.plus)));
        } else {
            more.push_str(&format!(" +{} -{}", side(range.plus), side(range.minus)));
        }
    }
    if let Some(name) = name {
        more.push_str(&format!(" ({name})"));
    }
    whole.push_str(&more);
    bare.push_str(&more);
    Cell { text: whole, bare, unit: Some(quantity.unit) }
}

/// What to set for a value, where the readout's step is known: the setting and what it leaves over.
pub fn setting(leaf: &Leaf) -> Option<(Cell, Cell)> {
    let set = leaf.set?;
    let cell = |value: f64, places: usize| {
        let bare = text::fixed(value, places);
        Cell { text: format!("{bare}{}", set.unit.row().suffix), bare, unit: Some(set.unit) }
    };
    Some((cell(set.to, set.places), cell(set.left_over, set.places + 2)))
}

/// The single values of a result by name, not those in lists of records.
pub fn singles(node: &Node) -> Vec<(String, &Node)> {
    let mut rows = Vec::new();
    collect(node, "", &mut rows);
    rows
}

fn collect<'n>(node: &'n Node, name: &str, rows: &mut Vec<(String, &'n Node)>) {
    match node {
        Node::Record(members) => {
            for (member, node) in members {
                let member = words(member);
                let name = if name.is_empty() { member } else { format!("{name}, {member}") };
                collect(node, &name, rows);
            }
        }
        Node::List(items) if items.iter().any(|item| matches!(item, Node::Record(_))) => {}
        other => rows.push((name.to_owned(), other)),
    }
}

/// Single values as a table of two columns.
pub fn two_columns(rows: &[(String, Cell)]) -> Markup {
    html! {
        table.answer { tbody { @for (name, cell) in rows {
            tr { th scope="row" { (name) } td data-copy=(cell.bare) { (cell.text) } }
        } } }
    }
}

/// Every list of records in a record, each as a table under its name.
pub fn lists(node: &Node) -> Markup {
    let Node::Record(members) = node else { return html! {} };
    html! {
        @for (name, node) in members {
            @if let Node::List(rows) = node {
                @if rows.iter().any(|row| matches!(row, Node::Record(_))) {
                    h3 { (words(name)) }
                    (rows_table(&words(name), rows.iter().map(|row| row_cells(row, true)).collect()))
                }
            } @else {
                (lists(node))
            }
        }
    }
}

/// The cells of a record by column; with `settings` also what to set for each.
fn row_cells(row: &Node, settings: bool) -> Vec<(String, Cell)> {
    let mut cells = Vec::new();
    for (name, node) in singles(row) {
        cells.push((name.clone(), Cell::of(node)));
        if let Node::Quantity(leaf) = node
            && settings
            && let Some((to, _)) = setting(leaf)
        {
            cells.push((format!("set {name}"), to));
        }
    }
    cells
}

/// Rows of named cells as a table. A unit that a whole column has stands at its head.
pub fn rows_table(name: &str, rows: Vec<Vec<(String, Cell)>>) -> Markup {
    let mut columns: Vec<String> = Vec::new();
    for (column, _) in rows.iter().flatten() {
        if !columns.contains(column) {
            columns.push(column.clone());
        }
    }
    let cell = |row: &Vec<(String, Cell)>, column: &str| {
        row.iter().find(|(name, _)| name == column).map(|(_, cell)| cell.clone()).unwrap_or_default()
    };
    let unit = |column: &str| {
        let mut units = rows.iter().flat_map(|row| row.iter().filter(|(name, _)| name == column).map(|(_, c)| c.unit));
        let first = units.next().flatten()?;
        units.all(|unit| unit == Some(first)).then_some(first)
    };
    let units: Vec<Option<Unit>> = columns.iter().map(|column| unit(column)).collect();
    let sign = |unit: Unit| match unit {
        Unit::Degree => "°",
        Unit::Percent => "%",
        unit => unit.spelling(),
    };
    html! {
        div.scroll tabindex="0" role="region" aria-label=(name) {
            table.rows {
                thead { tr { @for (column, unit) in columns.iter().zip(&units) {
                    th scope="col" { (column) @if let Some(unit) = unit { " " span.head-unit { (sign(*unit)) } } }
                } } }
                tbody { @for row in &rows {
                    tr { @for (column, unit) in columns.iter().zip(&units) {
                        @let cell = cell(row, column);
                        td { (if unit.is_some() { cell.bare } else { cell.text }) }
                    } }
                } }
            }
        }
    }
}

/// The rows of a range as one chart: what varies first, then the single values.
pub fn chart(rows: &[Row]) -> Markup {
    let cells = rows.iter().map(|row| {
        let varied = row.varied.iter().map(|(name, node)| (words(name), Cell::of(node)));
        match &row.outcome {
            Ok((_, result)) => {
                let found = row_cells(result, true).into_iter().map(|(name, cell)| {
                    // A result of an input's own name is a column of its own.
                    let taken = row.varied.iter().any(|(varied, _)| words(varied) == name);
                    (if taken { format!("{name} found") } else { name }, cell)
                });
                varied.chain(found).collect()
            }
            Err(wrongs) => {
                let says: Vec<&str> = wrongs.iter().map(|wrong| wrong.says.as_str()).collect();
                varied.chain([("refused".to_owned(), Cell::words(says.join(" ")))]).collect()
            }
        }
    });
    let has_lists = |row: &Row| matches!(&row.outcome, Ok((_, result)) if has_list(result));
    html! {
        div.chart { (rows_table("chart", cells.collect())) }
        @for row in rows.iter().filter(|row| has_lists(row)) {
            @if let Ok((_, result)) = &row.outcome {
                h3 { @for (name, node) in &row.varied { (words(name)) " " (plain(node)) " " } }
                (lists(result))
            }
        }
    }
}

fn has_list(node: &Node) -> bool {
    match node {
        Node::Record(members) => members.iter().any(|(_, node)| has_list(node)),
        Node::List(rows) => rows.iter().any(|row| matches!(row, Node::Record(_))),
        _ => false,
    }
}

/// The single quantities of a result in the other system.
pub fn in_other(result: &Node, system: System) -> Vec<(String, Cell)> {
    let other = match system {
        System::Inch => System::Metric,
        System::Metric => System::Inch,
    };
    singles(result)
        .into_iter()
        .filter_map(|(name, node)| match node {
            Node::Quantity(leaf) if leaf.quantity.in_system(other).unit != leaf.quantity.unit => {
                let quantity = leaf.quantity.in_system(other);
                Some((name, Cell::of(&quantity.into())))
            }
            _ => None,
        })
        .collect()
}
