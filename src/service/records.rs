//! A body cut at whole records: lines of JSON, or records of CSV, whose quoted cells may hold line ends.

use bytes::{Buf, Bytes, BytesMut};

/// How much is cut off at once, at most about.
const ENOUGH_OF_TABLE: usize = 16 * 1024;
const ENOUGH_OF_LINES: usize = 8 * 1024;

/// The byte order mark that some programs begin a file with.
const MARK: &[u8] = "\u{feff}".as_bytes();

/// What can be cut off.
#[derive(Debug, PartialEq)]
pub enum Cut {
    /// Whole records, and the number of the first.
    Records(Bytes, u64),
    /// A record beyond the limit; it is dropped to the end of its line.
    TooLong(u64),
    /// The body ends within quotes, in this record.
    Open(u64),
    /// No whole record is there yet.
    Nothing,
}

/// Where in a record the scan stands.
#[derive(Clone, Copy, Debug, PartialEq)]
enum At {
    /// At the beginning of a cell.
    Begin,
    /// In a cell without quotes.
    Plain,
    /// In a cell with quotes.
    Quoted,
    /// Behind a quote in such a cell, which ends it unless another follows.
    Closing,
}

/// The bytes that have come and not been cut off, and how far they are scanned.
#[derive(Debug)]
pub struct Records {
    buffer: BytesMut,
    /// What parts cells; `None` for lines, in which quotes mean nothing.
    delimiter: Option<u8>,
    /// How far the buffer is scanned, and in which state.
    scanned: usize,
    at: At,
    /// Where the last whole record ends, and how many there are before it.
    end: usize,
    whole: u64,
    /// The number of the first record in the buffer.
    number: u64,
    /// Whether the record being scanned has nothing in it.
    empty: bool,
    /// Whether a byte order mark can still come.
    fresh: bool,
    /// Whether the rest of a record too long is being dropped.
    dropping: bool,
}

impl Records {
    fn new(delimiter: Option<u8>) -> Self {
        Self {
            buffer: BytesMut::new(),
            delimiter,
            scanned: 0,
            at: At::Begin,
            end: 0,
            whole: 0,
            number: 1,
            empty: true,
            fresh: true,
            dropping: false,
        }
    }

    /// Lines.
    pub fn lines() -> Self {
        Self::new(None)
    }

    /// Records of CSV.
    pub fn csv(delimiter: u8) -> Self {
        Self::new(Some(delimiter))
    }

    /// How many bytes are cut off at once.
    pub fn enough(&self) -> usize {
        if self.delimiter.is_some() { ENOUGH_OF_TABLE } else { ENOUGH_OF_LINES }
    }

    /// How many bytes wait.
    pub fn len(&self) -> usize {
        self.buffer.len()
    }

    /// How many whole records wait.
    pub fn whole(&self) -> u64 {
        self.whole
    }

    /// What waits.
    pub fn begun(&self) -> &[u8] {
        &self.buffer
    }

    /// Takes in bytes.
    pub fn push(&mut self, bytes: &[u8]) {
        if self.dropping {
            let Some(end) = bytes.iter().position(|byte| *byte == b'\n') else { return };
            self.dropping = false;
            return self.push(&bytes[end + 1..]);
        }
        self.buffer.extend_from_slice(bytes);
        if self.fresh {
            if self.buffer.len() < MARK.len() && MARK.starts_with(&self.buffer) {
                return;
            }
            self.fresh = false;
            if self.buffer.starts_with(MARK) {
                self.buffer.advance(MARK.len());
            }
        }
        self.scan();
    }

    /// Finds the ends of records in what is new.
    fn scan(&mut self) {
        let new = &self.buffer[self.scanned..];
        let plain = self.at == At::Begin || self.at == At::Plain;
        if plain && (self.delimiter.is_none() || memchr::memchr(b'"', new).is_none()) {
            self.scan_plain();
        } else {
            self.scan_quoted();
        }
        self.scanned = self.buffer.len();
    }

    fn ended(&mut self, at: usize) {
        self.end = at + 1;
        // Empty lines are no records.
        if !self.empty {
            self.whole += 1;
        }
        self.empty = true;
        self.at = At::Begin;
    }

    fn scan_plain(&mut self) {
        let mut from = self.scanned;
        let buffer = std::mem::take(&mut self.buffer);
        let is_lines = self.delimiter.is_none();
        let next = |rest: &[u8]| {
            if is_lines { memchr::memchr(b'\n', rest) } else { memchr::memchr2(b'\n', b'\r', rest) }
        };
        while let Some(found) = next(&buffer[from..]) {
            let line = &buffer[from..from + found];
            self.empty &= if is_lines { line.trim_ascii().is_empty() } else { line.is_empty() };
            self.ended(from + found);
            from += found + 1;
        }
        let rest = &buffer[from..];
        if !rest.is_empty() {
            self.empty &= is_lines && rest.trim_ascii().is_empty();
            let begins_cell = self.delimiter.is_some_and(|delimiter| rest.ends_with(&[delimiter]));
            self.at = if begins_cell { At::Begin } else { At::Plain };
        }
        self.buffer = buffer;
    }

    fn scan_quoted(&mut self) {
        for at in self.scanned..self.buffer.len() {
            let byte = self.buffer[at];
            let is_end = matches!(byte, b'\n' | b'\r');
            self.at = match self.at {
                At::Quoted => {
                    if byte == b'"' {
                        At::Closing
                    } else {
                        At::Quoted
                    }
                }
                At::Closing if byte == b'"' => At::Quoted,
                _ if is_end => {
                    self.ended(at);
                    continue;
                }
                _ if Some(byte) == self.delimiter => At::Begin,
                At::Begin if byte == b'"' => At::Quoted,
                _ => At::Plain,
            };
            self.empty = false;
        }
    }

    /// Passes over the first record.
    pub fn skip_one(&mut self) {
        let mut alone = Self::new(self.delimiter);
        let mut end = self.buffer.len();
        for at in 0..self.buffer.len() {
            alone.push(&self.buffer[at..=at]);
            if alone.whole == 1 {
                end = at + 1;
                break;
            }
        }
        self.buffer.advance(end);
        let rest = std::mem::take(&mut self.buffer);
        *self = Self { fresh: false, ..Self::new(self.delimiter) };
        self.push(&rest);
    }

    /// Cuts off the whole records; at the end of the body, all there is.
    pub fn cut(&mut self, limit: usize, over: bool) -> Cut {
        if over && self.at == At::Quoted && self.end == 0 {
            let number = self.number;
            self.drop_rest();
            return Cut::Open(number);
        }
        if over && self.at != At::Quoted && self.buffer.len() > self.end {
            if !self.empty {
                self.whole += 1;
            }
            self.end = self.buffer.len();
            (self.at, self.empty) = (At::Begin, true);
        }
        if self.end > 0 {
            let bytes = self.buffer.split_to(self.end).freeze();
            let (number, count) = (self.number, self.whole);
            self.scanned -= self.end;
            self.number += count;
            (self.end, self.whole) = (0, 0);
            return if count > 0 { Cut::Records(bytes, number) } else { self.cut(limit, over) };
        }
        if self.buffer.len() > limit {
            let number = self.number;
            self.drop_rest();
            self.dropping = true;
            self.number += 1;
            return Cut::TooLong(number);
        }
        Cut::Nothing
    }

    /// Drops what waits; gives the number of the record that would have been next.
    pub fn drop_rest(&mut self) -> u64 {
        self.buffer.clear();
        (self.scanned, self.end, self.whole) = (0, 0, 0);
        (self.at, self.empty) = (At::Begin, true);
        self.number
    }
}
