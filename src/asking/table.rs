//! A result as a table: the rows of its list, or one row if it has none. The unit stands in the
//! header, so that the cells are bare numbers.

use super::answer::Answer;
use super::reserved::{Reserved, Separator};
use crate::quantity::text;
use crate::tree::{Leaf, Node};

/// The table as CSV (RFC 4180).
pub fn table(answer: &Answer, reserved: &Reserved) -> String {
    let separator = reserved.separator.unwrap_or(Separator::Comma);
    let rows: Vec<Vec<(String, String)>> = match first_list(&answer.result) {
        Some(rows) => rows.iter().map(row_of).collect(),
        None => vec![row_of(&answer.result)],
    };
    let mut header: Vec<String> = Vec::new();
    for (name, _) in rows.iter().flatten() {
        if !header.contains(name) {
            header.push(name.clone());
        }
    }
    let mut writer = csv::WriterBuilder::new()
        .delimiter(if separator == Separator::Semicolon { b';' } else { b',' })
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let mut write = |cells: Vec<String>| writer.write_record(cells).is_ok();
    write(header.clone());
    for row in rows {
        let cells = header.iter().map(|name| {
            let cell = row.iter().find(|(column, _)| column == name).map(|(_, cell)| cell.as_str()).unwrap_or_default();
            if separator == Separator::Semicolon && cell.parse::<f64>().is_ok() {
                cell.replace('.', ",")
            } else {
                cell.to_owned()
            }
        });
        write(cells.collect());
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// The first list of records in a result.
fn first_list(result: &Node) -> Option<&[Node]> {
    let Node::Record(members) = result else { return None };
    members.iter().find_map(|(_, node)| match node {
        Node::List(rows) if rows.iter().any(|row| matches!(row, Node::Record(_))) => Some(rows.as_slice()),
        _ => None,
    })
}

/// The columns of one row: name with unit, and cell.
fn row_of(node: &Node) -> Vec<(String, String)> {
    let mut cells = Vec::new();
    columns(node, "", &mut cells);
    cells
}

fn columns(node: &Node, name: &str, cells: &mut Vec<(String, String)>) {
    let mut put = |name: String, cell: String| cells.push((name, cell));
    match node {
        Node::Record(members) => {
            for (member, node) in members {
                let name = if name.is_empty() { (*member).to_owned() } else { format!("{name}.{member}") };
                columns(node, &name, cells);
            }
        }
        Node::List(items) => {
            let items: Vec<String> = items.iter().map(plain).collect();
            put(name.to_owned(), items.join(" "));
        }
        Node::Quantity(Leaf { quantity, set, .. }) => {
            put(format!("{name} [{}]", quantity.unit.spelling()), text::full(quantity.value));
            if let Some(set) = set {
                put(format!("{name}_set_to [{}]", set.unit.spelling()), text::fixed(set.to, set.places));
                put(format!("{name}_left_over [{}]", set.unit.spelling()), text::full(set.left_over));
            }
        }
        other => put(name.to_owned(), plain(other)),
    }
}

/// A single value as a cell.
fn plain(node: &Node) -> String {
    match node {
        Node::Quantity(leaf) => text::full(leaf.quantity.value),
        Node::Number(number) => text::full(*number),
        Node::Count(count) => count.to_string(),
        Node::Truth(truth) => truth.to_string(),
        Node::Text(words, _) => words.to_string(),
        Node::List(_) | Node::Record(_) => String::new(),
    }
}
