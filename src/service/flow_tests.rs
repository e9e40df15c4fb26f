//! Pieces are answered in order, a turn at a time, and a stream that cannot be whole says so.

use super::aside::{Wanted, Workshop};
use super::flow::worked;
use super::settings::Settings;
use clap::Parser;
use futures_util::stream::{self, StreamExt};

/// What a stream gives for `pieces`, each a list of answers of which a turn makes one.
fn answers(pieces: Vec<Vec<&'static str>>, before: impl FnOnce(&Workshop)) -> Vec<String> {
    actix_web::rt::System::new().block_on(async {
        let workshop = Workshop::open(&Settings::parse_from(["shop-reckoner"])).expect("threads");
        let place = workshop.enter(Wanted::Stream).expect("a place");
        before(&workshop);
        let work = |mut piece: Vec<&'static str>| {
            let answer = piece.remove(0);
            assert_ne!(answer, "fault", "made on purpose");
            (answer.as_bytes().to_vec(), Some(piece).filter(|rest| !rest.is_empty()))
        };
        let sign = |says: &str| format!("sign: {says}").into_bytes();
        let chunks = worked(place, stream::iter(pieces), work, sign);
        let text =
            chunks.map(|chunk| chunk.map_or("broken off".into(), |chunk| String::from_utf8(chunk).expect("UTF-8")));
        text.take(20).collect().await
    })
}

#[test]
fn turns_of_all_pieces_come_in_order() {
    let pieces = vec![vec!["a1", "a2", "a3"], vec!["b1"], vec!["c1", "c2"], vec!["d1"], vec!["e1"], vec!["f1", "f2"]];
    let wanted: Vec<&str> = pieces.concat();
    assert_eq!(answers(pieces, |_| ()), wanted);
}

#[test]
fn a_fault_is_said_in_its_place_and_the_others_are_answered() {
    let pieces = vec![vec!["a1"], vec!["b1", "fault", "b3"], vec!["c1"]];
    assert_eq!(
        answers(pieces, |_| ()),
        ["a1", "b1", "sign: The service failed. The fault is its own, not the request's.", "c1"]
    );
}

#[test]
fn a_stream_that_is_stopped_says_so_and_breaks_off() {
    let given = answers(vec![vec!["a1"], vec!["b1"]], Workshop::close);
    assert_eq!(given[0], "sign: The service stopped here. Ask again for what is missing.");
    assert!(given[1..].iter().all(|chunk| chunk == "broken off") && given.len() > 1, "{given:?}");
}
