//! Finding a calculator from any word that a machinist might use for it, or the nearest where there is none.

use crate::asking::{Described, described};
use crate::fields::is_slip;
use std::collections::HashMap;
use std::sync::LazyLock;

/// Most words that are looked for; nobody needs more to say what is meant.
const MOST_WORDS: usize = 10;

/// The calculators that `words` may mean, the likeliest first.
pub fn found(words: &str) -> Vec<&'static Described> {
    let mut asked: Vec<String> = parts(words);
    asked.truncate(MOST_WORDS);
    if asked.is_empty() {
        return Vec::new();
    }
    let phrase = asked.join(" ");
    let mut ranked: Vec<(usize, f64, &Described)> = described()
        .iter()
        .copied()
        .map(|described| {
            let (hits, score) = score(described, &asked, &phrase);
            (hits, score, described)
        })
        .filter(|(hits, _, _)| *hits > 0)
        .collect();
    // Those that answer to more of the words stand first; between equals the register's order is kept.
    ranked.sort_by(|a, b| b.0.cmp(&a.0).then(b.1.total_cmp(&a.1)));
    let most = ranked.first().map_or(0, |first| first.0);
    ranked.retain(|(hits, _, _)| *hits == most);
    ranked.into_iter().map(|(_, _, described)| described).collect()
}

/// The calculators that come nearest to what is asked, where a register's entry says that there is none for it.
pub fn nearest(words: &str) -> Vec<&'static Described> {
    let asked = parts(words);
    let is_near = |word: &str| !asked.is_empty() && parts(word) == asked;
    described().iter().copied().filter(|described| described.entry.each_near().any(is_near)).collect()
}

/// How many of the words a calculator answers to, and how well they do together.
pub fn answers_to(described: &Described, asked: &[String]) -> (usize, f64) {
    score(described, asked, &asked.join(" "))
}

/// How many of the words a calculator answers to, and how well.
fn score(described: &Described, asked: &[String], phrase: &str) -> (usize, f64) {
    if asked.is_empty() {
        return (0, 0.0);
    }
    let Some(Places { places, named }) = PLACES.get(described.entry.id) else { return (0, 0.0) };
    let mut hits = 0;
    let mut score = 0.0;
    for word in asked {
        let best = places
            .iter()
            .flat_map(|(weight, tokens)| tokens.iter().map(move |token| weight * alike(word, token)))
            .fold(0.0, f64::max);
        hits += usize::from(best > 0.0);
        score += best;
    }
    // The whole phrase as a title counts most, then as a search word, then as a part of either.
    let is_whole = |places: &[(f64, Vec<String>)]| places.iter().any(|(_, tokens)| tokens.join(" ") == phrase);
    let whole = if is_whole(&places[..2]) {
        30.0
    } else if is_whole(&places[2..*named]) {
        20.0
    } else {
        0.0
    };
    let within = places.iter().filter(|(_, tokens)| tokens.join(" ").contains(phrase)).map(|(weight, _)| *weight);
    (hits, score + whole + within.fold(0.0, f64::max))
}

/// Where a calculator's words stand, each with its weight.
struct Places {
    /// Title and name first, then the search words, then the rest.
    places: Vec<(f64, Vec<String>)>,
    /// Where the search words end.
    named: usize,
}

/// Those of every calculator, by its id.
static PLACES: LazyLock<HashMap<&'static str, Places>> = LazyLock::new(|| {
    let of = |described: &&Described| {
        let entry = described.entry;
        let mut places = vec![(8.0, parts(entry.title)), (7.0, parts(entry.address().1))];
        places.extend(entry.each_word().map(|word| (6.0, parts(word))));
        let named = places.len();
        places.push((2.0, parts(entry.about)));
        places.extend(described.fields.iter().map(|field| (1.5, parts(&field.name))));
        places.extend(described.results.iter().map(|result| (1.0, parts(result.name))));
        (entry.id, Places { places, named })
    };
    described().iter().map(of).collect()
});

/// How well a word of a calculator answers to one asked for: 1 the same, less where it only begins so or is
/// a slip of the finger away, 0 not at all.
fn alike(asked: &str, token: &str) -> f64 {
    if asked == token {
        1.0
    } else if token.starts_with(asked) {
        0.8
    } else if is_slip(asked, token) {
        0.5
    } else {
        0.0
    }
}

/// The words of a text in small letters, without the s of a plural; words that say nothing are left out.
pub fn parts(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric())
        .map(str::to_lowercase)
        .filter(|word| {
            !word.is_empty() && !["a", "the", "of", "for", "to", "in", "and", "i", "how"].contains(&word.as_str())
        })
        .map(|word| match word.strip_suffix('s') {
            Some(one) if one.len() > 2 && !one.ends_with('s') => one.to_owned(),
            _ => word,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::found;
    use crate::calculators::REGISTER;

    #[test]
    fn words_of_the_shop_find_their_calculator_first() {
        for (words, id) in [
            ("drill tip", "holes/drill-point"),
            ("PCD", "patterns/bolt-circle"),
            ("hole circle", "patterns/bolt-circle"),
            ("three wires", "threads/wires"),
            ("tap drill", "holes/tap-drill"),
            ("touch off", "datum/touch-off"),
            ("rpm", "speeds/spindle-speed"),
            ("change gears", "threads/change-gears"),
            ("tramming", "datum/tram"),
            ("sagitta", "geometry/arc"),
            ("taylor", "speeds/tool-life"),
            ("dril piont", "holes/drill-point"),
            ("ball nose", "speeds/ball-nose"),
            ("band saw", "speeds/sawing"),
        ] {
            let found = found(words);
            assert_eq!(found.first().map(|d| d.entry.id), Some(id), "{words}: {:?}", ids(&found));
        }
    }

    #[test]
    fn every_title_and_every_search_word_finds_its_calculator() {
        for entry in REGISTER {
            assert_eq!(found(entry.title).first().map(|d| d.entry.id), Some(entry.id), "{}", entry.title);
            for word in entry.each_word() {
                let found = found(word);
                assert!(found.iter().any(|d| d.entry.id == entry.id), "{word}: {:?}", ids(&found));
            }
        }
    }

    #[test]
    fn nonsense_finds_nothing() {
        assert!(found("xyzzy").is_empty() && found("  ").is_empty());
    }

    fn ids(found: &[&super::Described]) -> Vec<&'static str> {
        found.iter().map(|d| d.entry.id).collect()
    }
}
