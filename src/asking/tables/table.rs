//! A result as a table: the rows of its list, or one row if it has none; for a range of inputs, or
//! inputs found backwards, the rows of each case with the inputs that differ. The unit stands in the
//! header, so that the cells are bare numbers.

use super::cells::harmless;
use super::separator::delimiter;
use crate::asking::describing::{Reserved, Separator};
use crate::asking::solving::{Answer, Body};
use crate::quantity::text;
use crate::tree::{Leaf, Node};

type Cells = Vec<(String, String)>;

/// The table as CSV (RFC 4180).
pub fn table(answer: &Answer, reserved: &Reserved) -> String {
    let separator = reserved.separator.unwrap_or(Separator::Comma);
    let rows = rows(&answer.body);
    let mut header: Vec<String> = Vec::new();
    for (name, _) in rows.iter().flatten() {
        if !header.contains(name) {
            header.push(name.clone());
        }
    }
    let mut writer = csv::WriterBuilder::new()
        .delimiter(delimiter(separator))
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
                // Words that came with the request are no formulas.
                String::from_utf8_lossy(&harmless(cell.as_bytes(), Separator::Comma)).into_owned()
            }
        });
        write(cells.collect());
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn rows(body: &Body) -> Vec<Cells> {
    match body {
        Body::Result(result) => result_rows(result),
        Body::Correction(correction) => {
            let mut cells = Cells::new();
            for (name, node) in
                [("intended", &correction.intended), ("as_made", &correction.as_made), ("change", &correction.change)]
            {
                columns(node, &format!("{}_{name}", correction.field), &mut cells);
            }
            vec![cells]
        }
        Body::Roots(roots) => {
            let each =
                roots.iter().flat_map(|root| after(&columns_of("value", &root.value), result_rows(&root.result)));
            each.collect()
        }
        Body::Rows(rows, _) => {
            let each = rows.iter().flat_map(|row| {
                let varied: Cells = row.varied.iter().flat_map(|(name, node)| columns_of(name, node)).collect();
                match &row.outcome {
                    Ok((_, result)) => after(&varied, result_rows(result)),
                    Err(wrongs) => {
                        let says: Vec<&str> = wrongs.iter().map(|wrong| wrong.says.as_str()).collect();
                        after(&varied, vec![vec![("refused".to_owned(), says.join(" "))]])
                    }
                }
            });
            each.collect()
        }
    }
}

fn after(first: &Cells, rows: Vec<Cells>) -> Vec<Cells> {
    // A result of the input's own name would be two columns of one name.
    let with = |row: Cells| {
        let rest = row.into_iter().map(|(name, cell)| {
            let taken = first.iter().any(|(known, _)| *known == name);
            (if taken { format!("result {name}") } else { name }, cell)
        });
        first.iter().cloned().chain(rest).collect()
    };
    rows.into_iter().map(with).collect()
}

fn columns_of(name: &str, node: &Node) -> Cells {
    let mut cells = Cells::new();
    columns(node, name, &mut cells);
    cells
}

fn result_rows(result: &Node) -> Vec<Cells> {
    match first_list(result) {
        Some(rows) => rows.iter().map(|row| columns_of("", row)).collect(),
        None => vec![columns_of("", result)],
    }
}

/// The first list of records in a result.
fn first_list(result: &Node) -> Option<&[Node]> {
    let Node::Record(members) = result else { return None };
    members.iter().find_map(|(_, node)| match node {
        Node::List(rows) if rows.iter().any(|row| matches!(row, Node::Record(_))) => Some(rows.as_slice()),
        _ => None,
    })
}

fn columns(node: &Node, name: &str, cells: &mut Cells) {
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
        Node::Quantity(Leaf { quantity, set, range, .. }) => {
            let unit = quantity.unit.spelling();
            put(format!("{name} [{unit}]"), text::full(quantity.value));
            if let Some(range) = range {
                put(format!("{name}_least [{unit}]"), text::full(text::tidy(quantity.value - range.minus)));
                put(format!("{name}_greatest [{unit}]"), text::full(text::tidy(quantity.value + range.plus)));
            }
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
