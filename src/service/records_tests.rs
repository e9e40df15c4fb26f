//! Cutting a body anywhere changes nothing: pieces read as the whole does, by the csv library's own reader.

use super::records::{Cut, Records};
use bytes::Bytes;
use proptest::prelude::*;

const LIMIT: usize = 1 << 20;

/// Cuts a body that comes in parts of `size` bytes; whole records as they are cut, with their numbers.
fn cut(mut records: Records, body: &[u8], size: usize) -> Vec<Cut> {
    let mut cuts = Vec::new();
    let mut take = |records: &mut Records, over| loop {
        match records.cut(LIMIT, over) {
            Cut::Nothing => break,
            cut => cuts.push(cut),
        }
    };
    for part in body.chunks(size) {
        records.push(part);
        take(&mut records, false);
    }
    take(&mut records, true);
    cuts
}

fn read(bytes: &[u8]) -> Vec<csv::ByteRecord> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
    reader.byte_records().flatten().collect()
}

proptest! {
    /// However a table comes in parts, its pieces read as the whole does.
    #[test]
    fn pieces_of_a_table_read_as_the_whole(
        body in prop::collection::vec(prop::sample::select(&b"ab,\"\n\r1 "[..]), 0..120),
        size in 1usize..30,
    ) {
        let cuts = cut(Records::csv(b','), &body, size);
        let (mut pieces, mut open) = (Vec::new(), false);
        for cut in &cuts {
            match cut {
                Cut::Records(bytes, number) => {
                    prop_assert_eq!(*number as usize, pieces.len() + 1);
                    pieces.extend(read(bytes));
                }
                Cut::Open(number) => {
                    prop_assert_eq!(*number as usize, pieces.len() + 1);
                    open = true;
                }
                other => prop_assert!(false, "{other:?}"),
            }
        }
        let whole = read(&body);
        // What stands open at the end is one record, which is not answered.
        prop_assert_eq!(&pieces[..], &whole[..whole.len() - usize::from(open)]);
    }

    #[test]
    fn pieces_of_lines_are_its_lines(
        body in prop::collection::vec(prop::sample::select(&b"a{\"\n\r "[..]), 0..80),
        size in 1usize..20,
    ) {
        let cuts = cut(Records::lines(), &body, size);
        let is_line = |line: &&[u8]| !line.trim_ascii().is_empty();
        let mut lines: Vec<Vec<u8>> = Vec::new();
        for cut in &cuts {
            let Cut::Records(bytes, number) = cut else { panic!("{cut:?}") };
            prop_assert_eq!(*number as usize, lines.len() + 1);
            lines.extend(bytes.split(|byte| *byte == b'\n').filter(is_line).map(<[u8]>::to_vec));
        }
        let whole: Vec<Vec<u8>> = body.split(|byte| *byte == b'\n').filter(is_line).map(<[u8]>::to_vec).collect();
        prop_assert_eq!(lines, whole);
    }
}

#[test]
fn a_record_beyond_the_limit_is_dropped_to_its_end() {
    let mut records = Records::lines();
    let body = [b"one\n".as_slice(), &[b'x'; 50], b"\ntwo\n"].concat();
    let mut cuts = Vec::new();
    for part in body.chunks(7) {
        records.push(part);
        while let cut @ (Cut::Records(..) | Cut::TooLong(_)) = records.cut(20, false) {
            cuts.push(cut);
        }
    }
    let one = |text: &'static str, number| Cut::Records(Bytes::from_static(text.as_bytes()), number);
    assert_eq!(cuts, [one("one\n", 1), Cut::TooLong(2), one("two\n", 3)]);
}

#[test]
fn the_first_record_is_passed_over_with_its_mark() {
    let mut records = Records::csv(b',');
    records.push(b"\xef\xbb");
    records.push(b"\xbf\"a\nb\",c\r\n1,2\r\n");
    assert_eq!(records.whole(), 2);
    records.skip_one();
    assert_eq!(records.cut(LIMIT, true), Cut::Records(Bytes::from_static(b"\n1,2\r\n"), 1));
}
