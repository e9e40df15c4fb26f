//! The cells of a table as they are written: parted and quoted after RFC 4180, with decimal commas in
//! a table separated by semicolons, and never a formula to whatever spreadsheet opens it.

use super::separator::delimiter;
use crate::asking::describing::Separator;
use crate::quantity::{read, text};
use crate::tree::Node;
use std::borrow::Cow;
use std::io::Write;

/// Writes cells, most of which are numbers, straight into one buffer.
pub struct Cells {
    out: Vec<u8>,
    separator: Separator,
    /// Whether the row has a cell.
    is_begun: bool,
}

impl Cells {
    /// An empty table.
    pub fn new(separator: Separator, capacity: usize) -> Self {
        Self { out: Vec::with_capacity(capacity), separator, is_begun: false }
    }

    /// A cell with nothing in it.
    pub fn empty(&mut self) {
        if self.is_begun {
            self.out.push(delimiter(self.separator));
        }
        self.is_begun = true;
    }

    fn put(&mut self, cell: &[u8]) {
        self.empty();
        let delimiter = delimiter(self.separator);
        let parts = |byte: &u8| matches!(byte, b'"' | b'\r' | b'\n') || *byte == delimiter;
        if !cell.iter().any(parts) {
            self.out.extend_from_slice(cell);
            return;
        }
        self.out.push(b'"');
        for piece in cell.split_inclusive(|byte| *byte == b'"') {
            self.out.extend_from_slice(piece);
            self.out.extend(piece.last().filter(|last| **last == b'"'));
        }
        self.out.push(b'"');
    }

    /// A number, which has nothing to quote.
    fn number(&mut self, write: impl FnOnce(&mut Vec<u8>)) {
        self.empty();
        let begun = self.out.len();
        write(&mut self.out);
        if self.separator == Separator::Semicolon
            && let Some(point) = self.out[begun..].iter_mut().find(|byte| **byte == b'.')
        {
            *point = b',';
        }
    }

    /// Cells with nothing in them.
    pub fn empties(&mut self, count: usize) {
        (0..count).for_each(|_| self.empty());
    }

    /// A number in full, or nothing.
    pub fn number_or_empty(&mut self, value: Option<f64>) {
        match value {
            Some(value) => self.number(|out| text::write_full(out, value)),
            None => self.empty(),
        }
    }

    /// A number with so many places.
    pub fn fixed(&mut self, value: f64, places: usize) {
        self.number(|out| text::write_fixed(out, value, places));
    }

    /// A count.
    pub fn count(&mut self, count: u64) {
        self.number(|out| {
            let _ = write!(out, "{count}");
        });
    }

    /// Words, or whatever the caller gave.
    pub fn words(&mut self, words: &[u8]) {
        self.put(&harmless(words, self.separator));
    }

    /// A value of a result that is no quantity, or several of them parted by spaces.
    pub fn node(&mut self, node: &Node) {
        match node {
            Node::Quantity(leaf) => self.number_or_empty(Some(leaf.quantity.value)),
            Node::Number(number) => self.number_or_empty(Some(*number)),
            Node::Text(words, _) => self.words(words.as_bytes()),
            Node::Count(count) => self.put(count.to_string().as_bytes()),
            Node::Truth(truth) => self.put(if *truth { b"true" } else { b"false" }),
            Node::List(items) => {
                let items: Vec<String> = items.iter().map(|item| plain(item, self.separator)).collect();
                self.words(items.join(" ").as_bytes());
            }
            Node::Record(_) => self.empty(),
        }
    }

    /// How many bytes are written.
    pub fn len(&self) -> usize {
        self.out.len()
    }

    /// Ends the row.
    pub fn end(&mut self) {
        self.out.extend_from_slice(b"\r\n");
        self.is_begun = false;
    }

    /// The table.
    pub fn done(self) -> Vec<u8> {
        self.out
    }
}

/// A single value in words.
fn plain(node: &Node, separator: Separator) -> String {
    let number = |value: f64| {
        let full = text::full(value);
        if separator == Separator::Semicolon { full.replace('.', ",") } else { full }
    };
    match node {
        Node::Quantity(leaf) => number(leaf.quantity.value),
        Node::Number(value) => number(*value),
        Node::Count(count) => count.to_string(),
        Node::Truth(truth) => truth.to_string(),
        Node::Text(words, _) => words.to_string(),
        Node::List(_) | Node::Record(_) => String::new(),
    }
}

/// A cell as it may stand in a table. What begins like a formula and is not a number or a quantity of
/// ours gets an apostrophe before it, by which spreadsheets take it for words.
pub fn harmless(cell: &[u8], separator: Separator) -> Cow<'_, [u8]> {
    let begins = cell.iter().position(|byte| !byte.is_ascii_whitespace()).unwrap_or(cell.len());
    let is_wide = || ["＝", "＋", "－", "＠"].iter().any(|sign| cell[begins..].starts_with(sign.as_bytes()));
    let sign = match cell.get(begins) {
        Some(b'+' | b'-') => true,
        Some(b'=' | b'@') => false,
        Some(0xef) if is_wide() => false,
        // A cell that begins with a tab or a line's end is taken for a formula by some.
        _ if begins > 0 && cell.first().is_some_and(|byte| matches!(byte, b'\t' | b'\r' | b'\n')) => false,
        _ => return Cow::Borrowed(cell),
    };
    let ours = sign
        && std::str::from_utf8(cell).is_ok_and(|text| {
            let with_point = (separator == Separator::Semicolon).then(|| text.replace(',', "."));
            read(with_point.as_deref().unwrap_or(text), "1 in").is_ok_and(|written| written.tolerance.is_none())
        });
    if ours { Cow::Borrowed(cell) } else { Cow::Owned([b"'", cell].concat()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::collection::vec;
    use proptest::prelude::*;

    proptest! {
        /// Held against the csv crate, which reads such a table.
        #[test]
        fn cells_are_quoted_as_another_writer_quotes_them(rows in vec(vec("[a-z,;\"\r\n ]{0,6}", 2..5), 0..4), semicolon: bool) {
            let separator = if semicolon { Separator::Semicolon } else { Separator::Comma };
            let mut other = csv::WriterBuilder::new()
                .delimiter(delimiter(separator))
                .terminator(csv::Terminator::CRLF)
                .flexible(true)
                .from_writer(Vec::new());
            let mut cells = Cells::new(separator, 0);
            for row in &rows {
                row.iter().for_each(|cell| cells.put(cell.as_bytes()));
                cells.end();
                other.write_record(row).unwrap();
            }
            prop_assert_eq!(cells.done(), other.into_inner().unwrap());
        }
    }

    fn is_changed(cell: &str) -> bool {
        harmless(cell.as_bytes(), Separator::Comma) != cell.as_bytes()
    }

    #[test]
    fn what_begins_like_a_formula_is_made_words() {
        for cell in [
            "=1+1", "=HYPERLINK(\"x\")", "@SUM(A1)", "+A1", "-A1", "-2+3+cmd|' /C calc'!A0", "  =1+1", "\t=1",
            "\ttext", "\r=1", "＝1+1", "＠x", "+1*2", "-", "+", "-1 =2", "-1 in+1", "- 1",
        ] {
            assert!(is_changed(cell), "{cell:?}");
            assert!(harmless(cell.as_bytes(), Separator::Comma).starts_with(b"'"));
        }
    }

    #[test]
    fn numbers_and_quantities_and_words_stay() {
        for cell in ["-0.5", "+12.7", "-1e-3", "-0.5 in", "+3 mm", "-1-1/2 in", "winch", "", "12=3", "a@b", "½ in", "é"]
        {
            assert!(!is_changed(cell), "{cell:?}");
        }
        assert_eq!(&*harmless(b"-0,5", Separator::Semicolon), b"-0,5");
        assert_ne!(&*harmless(b"-0,5", Separator::Comma), b"-0,5");
    }

    #[test]
    fn a_table_of_semicolons_has_decimal_commas() {
        let mut cells = Cells::new(Separator::Semicolon, 0);
        cells.number_or_empty(Some(-0.25));
        cells.fixed(1.5, 3);
        cells.words(b"a;b");
        cells.words(b"=1");
        cells.number_or_empty(None);
        cells.end();
        assert_eq!(cells.done(), b"-0,25;1,500;\"a;b\";'=1;\r\n");
    }
}
