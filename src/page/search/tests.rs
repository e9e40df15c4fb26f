use super::*;
use crate::budget::Budget;
use crate::page::list;
use proptest::prelude::*;
use std::time::Duration;

/// The calculators that answer, in order.
fn answered(text: &str) -> Vec<&'static str> {
    look(text).answers.iter().map(|one| one.answer.entry.id).collect()
}

/// The page's text for a phrase, between its tags.
fn page(text: &str) -> String {
    let find: String = form_urlencoded::byte_serialize(text.as_bytes()).collect();
    let html = list(&format!("find={find}"));
    html.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| format!("{text} ")).collect()
}

#[test]
fn what_a_machinist_types_is_answered_first_by_the_calculator_he_means() {
    for (text, id, value) in [
        ("M8", "holes/tap-drill", "6.8 mm"),
        ("M8", "holes/tap-drill", "7.188 mm"),
        ("1/4-20", "holes/tap-drill", "#7"),
        ("#10-32", "holes/tap-drill", "#21"),
        ("3/8-16 tap drill", "holes/tap-drill", "5/16"),
        ("M8 drill", "holes/tap-drill", "6.8 mm"),
        ("drill for 1/4-20", "holes/tap-drill", "#7"),
        ("1/4 fine", "holes/tap-drill", "#3"),
        ("1/2 npt", "holes/tap-drill", "1/2"),
        ("1/4 20", "holes/tap-drill", "#7"),
        ("M6 tap", "holes/tap-drill", "5 mm"),
        ("25 mm H7/g6", "fits/limits", "25.0210 mm"),
        ("#7", "holes/drill-size", "0.2010"),
        ("letter F", "holes/drill-size", "0.2570"),
        ("F", "holes/drill-size", "0.2570"),
        ("27/64", "holes/drill-size", "10.715625 mm"),
        ("drill 1/2", "holes/drill-size", "0.5000"),
        ("118 deg 1/2", "holes/drill-point", "0.1502 in"),
        ("drill point of 1/2 118°", "holes/drill-point", "0.1502 in"),
        ("6 holes 4 in", "patterns/bolt-circle", "1.7321"),
        ("4 in 6 bolts", "patterns/bolt-circle", "1.7321"),
        ("bolt circle 6 x 100 mm", "patterns/bolt-circle", "43.301"),
        ("bolt circle 6x100 mm", "patterns/bolt-circle", "43.301"),
        ("100 mm PCD 6 holes", "patterns/bolt-circle", "43.301"),
        ("4140-annealed hss 1/2 end mill", "speeds/milling", "458.4 rpm"),
        ("4140 hss 1/2 end mill", "speeds/milling", "458.4"),
        ("1/2 high speed steel 1018 drill", "speeds/drilling", "rpm"),
        ("304 hss 12 mm drill", "speeds/drilling", "rpm"),
        ("1/2 reamer 1018 hss", "speeds/reaming", "rpm"),
        ("2 in 1018 carbide turning", "speeds/turning", "rpm"),
        ("1/2 hss 4140", "speeds/spindle-speed", "458.4"),
        ("12 rpm 1/2", "speeds/as-run", "1.6 ft/min"),
        ("450 rpm 1/2 4 flutes 5 ipm", "speeds/as-run", "0.00278 in/tooth"),
        ("90 ft/min 1/2", "speeds/spindle-speed", "687.5 rpm"),
        ("thread limits 1/4-20", "threads/thread", "0.2164 in"),
        ("limits 3/4-10 class 3A", "threads/thread", "3A"),
        ("limits 3/4-10 class 3A", "threads/thread", "0.6850 in"),
        ("1/4-20 2B", "holes/tap-drill", "#7"),
        ("3 wires M10", "threads/wires", "mm"),
        ("best wire 1/4-20", "threads/wires", "0.0289 in"),
        ("arc chord 2 in height 0.25 in", "geometry/arc", "2.1250 in"),
        ("2 in chord 0.25 in height", "geometry/arc", "2.1250 in"),
        ("1/2 3/4 depth drill", "holes/drill-point", "0.9002 in"),
        ("touch off growing 0.2 in", "datum/touch-off", "-0.1000 in"),
        ("4140", "speeds/materials", "4140-annealed"),
    ] {
        assert_eq!(answered(text).first(), Some(&id), "{text}: {:?}", look(text));
        let page = page(text);
        assert!(page.contains(value), "{text}: no {value} in {page}");
    }
}

#[test]
fn a_size_is_converted_into_the_unit_that_stands_beside_it() {
    for (text, other) in [
        ("25.4 mm in inch", "1 in"),
        ("25.4 mm in", "1 in"),
        ("1/2 in mm", "12.7 mm"),
        ("#7 in mm", "5.1054 mm"),
        ("27/64 in mm", "10.715625 mm"),
        ("1.25 mm pitch in tpi", "20.32 tpi"),
        ("20 tpi to mm", "1.27 mm"),
        ("5 m in inches", "196.850394 in"),
        ("10 hp in kW", "7.456999 kW"),
        ("90 ft/min in m/min", "27.432 m/min"),
        ("2.000 ±0.001 in to mm", "50.8 ±0.0254 mm"),
    ] {
        let found = look(text);
        let conversion = found.conversion.unwrap_or_else(|| panic!("{text} is converted"));
        assert_eq!(conversion.others.iter().map(|(says, _)| says.as_str()).collect::<Vec<_>>(), [other], "{text}");
        assert!(found.answers.is_empty() && found.questions.is_empty(), "{text}");
    }
    let both = look("tpi 20").conversion.expect("converted");
    assert_eq!(both.others, [("0.05 in".to_owned(), false), ("1.27 mm".to_owned(), false)]);
    assert!(look("5 rpm in mm").conversion.is_none(), "a speed is no length");
}

#[test]
fn what_is_open_is_asked_and_never_guessed() {
    for (text, says, ways) in [
        ("6", "6 has no unit", &["6 in", "6 mm"][..]),
        ("0.5", "0.5 has no unit", &["0.5 in", "0.5 mm"]),
        ("1/2 hss 4140", "1/2 is read as 1/2 in", &[]),
        ("1/2 hss 4140", "which?", &["1/2 hss 4140-annealed", "1/2 hss 4140-prehardened"]),
        ("1/2 carbide brass", "several materials", &["1/2 carbide c36000"]),
        ("10 mm hss 42CrMo4", "not the same", &["10 mm hss 4140-annealed"]),
        ("M10 fine", "several threads", &["M10x1.25", "M10x1"]),
        ("1/4-20 UNF", "UNF has no such thread", &["1/4-28 UNF"]),
        ("#10", "read as a drill", &["#10-24 UNC"]),
        ("1/2", "read as a drill", &["1/2-13 UNC"]),
        ("2 in 3 in", "No calculator has one field for 2 in and 3 in", &[]),
        ("82 degree sawing", "no one field for 82 degree", &[]),
        ("M8 xyzzy", "Not understood: “xyzzy”. The answers do not take it into account.", &[]),
    ] {
        let found = look(text);
        let said = found.questions.iter().find(|question| question.says.contains(says));
        let said = said.unwrap_or_else(|| panic!("{text}: {:?}", found.questions));
        for way in ways {
            assert!(said.ways.iter().any(|(_, whole)| whole == way), "{text}: {said:?}");
        }
        assert!(found.questions.iter().flat_map(|one| &one.ways).all(|(_, way)| !look(way).is_empty()), "{text}");
    }
    assert!(look("#7").questions.is_empty(), "there is no thread of that size");
    for text in ["6", "0.5", "M10 fine", "1/4-20 UNF", "2 in 3 in", "10 mm hss 42CrMo4", "1/2 carbide brass"] {
        assert_eq!(answered(text), [""; 0], "{text}");
    }
}

#[test]
fn words_of_the_trade_find_what_there_is_or_what_comes_nearest() {
    for (word, id) in [
        ("tap", "holes/tap-drill"),
        ("readout", "datum/touch-off"),
        ("DRO", "datum/touch-off"),
        ("vise", "datum/between-faces"),
        ("vice", "datum/between-faces"),
        ("edge finder", "datum/touch-off"),
        ("touch-off", "datum/touch-off"),
        ("countersink", "speeds/countersinking"),
        ("chuck", "datum/indicate"),
        ("rpm", "speeds/spindle-speed"),
        ("spot drill", "speeds/drilling"),
        ("spot drill", "holes/spot-drill"),
        ("center drill", "holes/centre-drill"),
        ("peck", "holes/pecks"),
        ("STI", "holes/inserts"),
        ("sine bars", "geometry/sine-bar"),
        ("slip gauges", "geometry/gauge-blocks"),
        ("compound sine plate", "geometry/compound-angle"),
        ("top slide", "geometry/compound-feed"),
        ("keyway", "geometry/keyseat"),
        ("woodruff", "geometry/keyseat"),
        ("taper", "geometry/taper"),
        ("dividing head", "geometry/dividing-head"),
        ("gear cutting", "geometry/spur-gear"),
        ("spur gear", "geometry/spur-gear"),
        ("gear tooth", "geometry/spur-gear"),
    ] {
        let found = look(word);
        assert!(found.nearest.is_empty(), "{word}");
        assert!(found.by_words.iter().any(|one| one.entry.id == id), "{word}: {found:?}");
    }
    assert_eq!(look("tap").by_words[0].entry.id, "holes/tap-drill");
    assert_eq!(look("gauge blocks").by_words[0].entry.id, "geometry/gauge-blocks");
    assert_eq!(look("sine bar").by_words[0].entry.id, "geometry/sine-bar");
    for (word, id) in [("knurl", "speeds/turning"), ("collet", "datum/indicate")] {
        let found = look(word);
        assert!(found.nearest.iter().any(|one| one.entry.id == id), "{word}: {found:?}");
        assert!(page(word).contains(&format!("There is no calculator for “{word}”")), "{word}");
    }
    let nothing = page("xyzzy");
    assert!(nothing.contains("Nothing found") || nothing.contains("Not understood"), "{nothing}");
    assert!(nothing.contains("6 holes 4 in"), "what to try is shown: {nothing}");
}

#[test]
fn no_calculator_is_near_to_what_one_answers_by_name() {
    for entry in crate::calculators::REGISTER {
        for word in entry.each_near() {
            let own = |one: &&crate::asking::Described| {
                one.entry.each_word().chain([one.entry.title]).any(|own| parts(own) == parts(word))
            };
            assert!(!described().iter().copied().any(|one| own(&one)), "{word} is a search word of a calculator");
        }
    }
}

#[test]
fn every_example_of_one_value_that_is_needed_is_answered_when_it_is_typed() {
    // A new calculator takes part by its declaration alone: its first thread, size or material is found by its title.
    for described in described() {
        let needed: Vec<_> = described.fields.iter().filter(|field| field.required).collect();
        let [only] = needed.as_slice() else { continue };
        if phrase::Phrase::read(&only.example).pieces.iter().filter(|piece| piece.is_value()).count() != 1 {
            continue;
        }
        let text = format!("{} {}", only.example, described.entry.title);
        let found = look(&text);
        let all = found.answers.iter().map(|one| one.answer.entry.id);
        let mut all = all.chain(found.further.iter().map(|one| one.described.entry.id));
        assert!(all.any(|id| id == described.entry.id), "{text}: {found:?}");
    }
}

#[test]
fn a_spent_budget_ends_the_asking() {
    let spent = Budget::of(Duration::ZERO);
    std::thread::sleep(Duration::from_millis(1));
    let found = spent.spend(|| look("M8"));
    assert!(found.answers.is_empty() && spent.ran_out());
    assert!(found.questions.iter().any(|question| question.says.contains("too long")), "{found:?}");
}

#[test]
fn long_phrases_are_read_to_a_bound_and_said_to_be() {
    let found = look(&"M8 drill ".repeat(4000));
    assert!(found.questions.iter().any(|question| question.says.contains("beginning")), "{found:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn any_text_is_looked_for_without_a_panic(text in any::<String>()) {
        page(&text);
    }

    #[test]
    fn any_phrase_of_the_trade_is_looked_for_without_a_panic(
        words in prop::collection::vec(
            "(M[0-9]{1,2}|#[0-9]{1,2}|[0-9]{1,2}/[0-9]{1,2}|[0-9.]{1,5}|in|mm|x|tpi|rpm|deg|°|hss|4140|1018|brass|drill|tap|\
             holes|teeth|chord|depth|fine|letter|[A-Z]|[0-9]{1,3} ?(in|mm|rpm|deg|tpi|ft/min)|[½±×\"'-]|to|[a-zé]{1,9})", 0..9),
    ) {
        let text = words.join(" ");
        let found = look(&text);
        prop_assert!(found.answers.len() <= 5 && found.further.len() <= MOST_NAMED);
    }
}
