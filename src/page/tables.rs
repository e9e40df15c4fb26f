//! Results as tables: single values each under its label, lists with the unit at the head of a column, and the
//! rows of a range as a chart for the wall.

use crate::asking::Row;
use crate::declared::{Member, in_sentence, label, said_word};
use crate::quantity::{Dimension, Quantity, System, Unit, text};
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
            Node::Text(words, _) if is_choice(words) => Self::words(said_word(words)),
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

/// Whether a text is a word to choose from, which has no capitals, spaces or marks; names of drills and threads have.
fn is_choice(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_')
}

/// A value in words.
pub fn plain(node: &Node) -> String {
    Cell::of(node).text
}

/// A quantity as a shop writes it: `450 rpm`, where a length keeps its noughts, which say how exact it is.
fn shop_text(quantity: &Quantity) -> String {
    let whole = quantity.text();
    let suffix = quantity.unit.row().suffix;
    let Some(number) = whole.strip_suffix(suffix).filter(|_| quantity.unit.row().dimension != Dimension::Length) else {
        return whole;
    };
    match number.split_once('.') {
        // What is less than its last place is no nought.
        Some(("0", _)) if quantity.value != 0.0 => whole,
        Some((before, after)) if after.bytes().all(|digit| digit == b'0') => format!("{before}{suffix}"),
        _ => whole,
    }
}

/// A quantity with the range that tolerances give it, and the name it was asked by.
fn quantity(leaf: &Leaf) -> Cell {
    let Leaf { quantity, range, name, .. } = leaf;
    let mut whole = shop_text(quantity);
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

/// The single values of a result by their paths, not those in lists of records.
pub fn singles(node: &Node) -> Vec<(String, &Node)> {
    let mut rows = Vec::new();
    collect(node, "", &mut rows);
    rows
}

fn collect<'n>(node: &'n Node, path: &str, rows: &mut Vec<(String, &'n Node)>) {
    match node {
        Node::Record(members) => {
            for (member, node) in members {
                let path = if path.is_empty() { (*member).to_owned() } else { format!("{path}/{member}") };
                collect(node, &path, rows);
            }
        }
        node if is_table(node) => {}
        other => rows.push((path.to_owned(), other)),
    }
}

/// Whether it is a list of records.
pub fn is_table(node: &Node) -> bool {
    matches!(node, Node::List(rows) if rows.iter().any(|row| matches!(row, Node::Record(_))))
}

/// The single values of a result as cells under their labels.
pub fn cells(node: &Node, members: &[Member]) -> Vec<(String, Cell)> {
    singles(node).into_iter().map(|(path, node)| (label(members, &path), Cell::of(node))).collect()
}

/// Single values, each under its label.
pub fn figures(rows: &[(String, Cell)]) -> Markup {
    html! {
        dl.figures { @for (name, cell) in rows {
            div { dt { (name) } dd data-copy=(cell.bare) { (cell.text) } }
        } }
    }
}

/// Above so many rows a list says how many it has: it is scrolled.
const LONG: usize = 8;

/// Every list of records in a record, each as a table under its name; one of a single row as its values.
pub fn lists(node: &Node, members: &[Member]) -> Markup {
    let Node::Record(nodes) = node else { return html! {} };
    html! {
        @for (name, node) in nodes {
            @let of = members.iter().find(|member| member.name == *name);
            @let columns = of.map_or(&[][..], |member| member.of.shape.members());
            @match node {
                Node::List(rows) if is_table(node) => {
                    h3 { (label(members, name)) @if rows.len() > LONG { " (" (rows.len()) ")" } }
                    @if let [row] = rows.as_slice() { (figures(&row_cells(row, columns, true))) } @else {
                        (rows_table(&label(members, name), rows.iter().map(|row| row_cells(row, columns, true)).collect()))
                    }
                }
                node => (lists(node, columns)),
            }
        }
    }
}

/// The cells of a record by column; with `settings` also what to set for each.
pub fn row_cells(row: &Node, members: &[Member], settings: bool) -> Vec<(String, Cell)> {
    let mut cells = Vec::new();
    for (path, node) in singles(row) {
        let name = label(members, &path);
        let set = format!("Set {}", in_sentence(&name));
        cells.push((name, Cell::of(node)));
        if let Node::Quantity(leaf) = node
            && settings
            && let Some((to, _)) = setting(leaf)
        {
            cells.push((set, to));
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
    // Figures stand to the right, so that their points are one below another.
    let is_figure = |column: &str| {
        rows.iter().flatten().filter(|(name, _)| name == column).all(|(_, cell)| cell.bare.parse::<f64>().is_ok())
    };
    let figures: Vec<bool> = columns.iter().map(|column| is_figure(column)).collect();
    html! {
        div.scroll tabindex="0" role="region" aria-label=(name) {
            table.rows {
                thead { tr { @for ((column, unit), is_figure) in columns.iter().zip(&units).zip(&figures) {
                    th.figure[*is_figure] scope="col" { (column) @if let Some(unit) = unit { " " span.head-unit { (sign(*unit)) } } }
                } } }
                tbody { @for row in &rows {
                    tr { @for ((column, unit), is_figure) in columns.iter().zip(&units).zip(&figures) {
                        @let cell = cell(row, column);
                        td.figure[*is_figure] { (if unit.is_some() { cell.bare } else { cell.text }) }
                    } }
                } }
            }
        }
    }
}

/// The rows of a range as one chart: what varies first, then the single values.
pub fn chart(rows: &[Row], inputs: &[Member], results: &[Member]) -> Markup {
    let cells = rows.iter().map(|row| {
        let varied = row.varied.iter().map(|(name, node)| (label(inputs, name), Cell::of(node)));
        match &row.outcome {
            Ok((_, result)) => {
                let found = row_cells(result, results, true).into_iter().map(|(name, cell)| {
                    // A result of an input's own name is a column of its own.
                    let taken = row.varied.iter().any(|(varied, _)| label(inputs, varied) == name);
                    (if taken { format!("{name} found") } else { name }, cell)
                });
                varied.chain(found).collect()
            }
            Err(wrongs) => {
                let says: Vec<&str> = wrongs.iter().map(|wrong| wrong.says.as_str()).collect();
                varied.chain([("Refused".to_owned(), Cell::words(says.join(" ")))]).collect()
            }
        }
    });
    html! { div.chart { (rows_table("Chart", cells.collect())) } }
}

/// The lists of every row of a chart, each below what it varies.
pub fn chart_lists(rows: &[Row], inputs: &[Member], results: &[Member]) -> Markup {
    html! {
        @for row in rows {
            @if let Ok((_, result)) = &row.outcome && has_list(result) {
                h3 { @for (name, node) in &row.varied { (label(inputs, name)) " " (plain(node)) " " } }
                (lists(result, results))
            }
        }
    }
}

fn has_list(node: &Node) -> bool {
    match node {
        Node::Record(members) => members.iter().any(|(_, node)| has_list(node)),
        node => is_table(node),
    }
}

/// The single quantities of a result in the other system.
pub fn in_other(result: &Node, members: &[Member], system: System) -> Vec<(String, Cell)> {
    let other = match system {
        System::Inch => System::Metric,
        System::Metric => System::Inch,
    };
    singles(result)
        .into_iter()
        .filter_map(|(path, node)| match node {
            Node::Quantity(leaf) if leaf.quantity.in_system(other).unit != leaf.quantity.unit => {
                let quantity = leaf.quantity.in_system(other);
                Some((label(members, &path), Cell::of(&quantity.into())))
            }
            _ => None,
        })
        .collect()
}
