//! A calculator filled from a phrase: each part goes where it fits exactly one field, by the word beside it or by its
//! type. What fits several is left open, never guessed.

use super::phrase::{Meaning, Phrase, Piece, is_filler};
use super::words::{answers_to, parts};
use crate::asking::{Described, Field, described};
use crate::declared::Shape;
use crate::quantity::{Dimension, KindRow, Least, Unit, Written};
use crate::reference::drills;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A calculator filled as far as a phrase goes.
#[derive(Debug)]
pub struct Fit {
    /// The calculator.
    pub described: &'static Described,
    /// Fields and their text, in declared order.
    pub fields: Vec<(&'static str, String)>,
    /// Parts that fit no one field, by their number, with the fields that one of them may go to.
    pub open: Vec<(usize, Vec<&'static Field>)>,
    /// Words that say nothing to this calculator.
    pub unexplained: usize,
    /// How well its words answer.
    pub score: f64,
    /// Whether a part went into a field made for its like alone.
    pub is_made_for: bool,
}

/// The calculators that every value of a phrase fits, the likeliest first; where its words find calculators at all, only
/// those that a word finds.
pub fn fits(phrase: &Phrase, all: &[&'static Described], words_find: bool) -> Vec<Fit> {
    let words = phrase.pieces.iter().filter(|piece| piece.is_word() && !is_filler(&piece.text)).count();
    let mut fits: Vec<Fit> = all
        .iter()
        .map(|described| Fit::of(phrase, described))
        .filter(|fit| fit.open.is_empty() && !fit.fields.is_empty() && fit.is_begun())
        .filter(|fit| !(words_find && words > 0 && fit.unexplained == words))
        .collect();
    let least = fits.iter().map(|fit| fit.unexplained).min().unwrap_or_default();
    fits.retain(|fit| fit.unexplained == least);
    fits.sort_by(|a, b| {
        let of = |fit: &Fit| (!fit.missing().is_empty(), !fit.is_made_for);
        b.score.total_cmp(&a.score).then(of(a).cmp(&of(b)))
    });
    fits
}

impl Fit {
    /// The calculator filled from a phrase.
    pub fn of(phrase: &Phrase, described: &'static Described) -> Self {
        let mut filling = Filling { phrase, described, placed: HashMap::new(), said: vec![false; phrase.pieces.len()] };
        filling.choose_words();
        filling.place_named();
        let open = filling.place_by_type();
        let (unexplained, score) = filling.words_left();
        let mut fields: Vec<(&Field, String)> = filling.placed.into_values().collect();
        let order = |name: &str| described.fields.iter().position(|field| field.name == name);
        fields.sort_by_key(|(field, _)| order(&field.name));
        let is_made_for = fields.iter().any(|(field, _)| matches!(field.member.of.shape, Shape::Words));
        let fields = fields.into_iter().map(|(field, text)| (field.member.name, text)).collect();
        Self { described, fields, open, unexplained, score, is_made_for }
    }

    /// Whether a field that it needs is filled, if it needs any: what goes to its side fields alone does not ask for it.
    fn is_begun(&self) -> bool {
        let mut needed = self.described.fields.iter().filter(|field| field.required).peekable();
        needed.peek().is_none() || needed.any(|field| self.fields.iter().any(|(name, _)| *name == field.name))
    }

    /// The fields that are needed and not filled.
    pub fn missing(&self) -> Vec<&'static Field> {
        let is_filled = |field: &Field| self.fields.iter().any(|(name, _)| *name == field.name);
        self.described.fields.iter().filter(|field| field.required && !is_filled(field)).collect()
    }
}

/// A calculator that is being filled.
struct Filling<'p> {
    phrase: &'p Phrase,
    described: &'static Described,
    /// The field and its text, by the number of the part.
    placed: HashMap<usize, (&'static Field, String)>,
    /// The parts that are accounted for.
    said: Vec<bool>,
}

impl Filling<'_> {
    fn free(&self) -> impl Iterator<Item = &'static Field> {
        let placed: Vec<&str> = self.placed.values().map(|(field, _)| field.name.as_str()).collect();
        self.described.fields.iter().filter(move |field| !placed.contains(&field.name.as_str()))
    }

    fn place(&mut self, at: usize, field: &'static Field, text: String) {
        self.placed.insert(at, (field, text));
        self.said[at] = true;
    }

    /// Words that exactly one field offers. A word by which the calculator is found as well chooses only what it must be
    /// told.
    fn choose_words(&mut self) {
        let own: Vec<String> = [parts(self.described.entry.title), parts(self.described.entry.words)].concat();
        for at in 0..self.phrase.pieces.len() {
            let piece = &self.phrase.pieces[at];
            let word = piece.text.to_lowercase();
            if !piece.is_word() || is_filler(&word) {
                continue;
            }
            let is_own = parts(&word).iter().all(|part| own.contains(part));
            let offers = |field: &&Field| field.choices.contains(&word) && (field.required || !is_own);
            if let Some(field) = only(self.free().filter(offers)) {
                self.place(at, field, word);
            }
        }
    }

    /// Values whose field stands beside them: `chord 2 in`, `6 holes`, `118 deg point angle`.
    fn place_named(&mut self) {
        for at in 0..self.phrase.pieces.len() {
            let piece = &self.phrase.pieces[at];
            if !piece.is_value() {
                continue;
            }
            let sides = [self.words_before(at), self.words_after(at)];
            let named = sides.iter().flatten().find_map(|span| Some((span.clone(), self.named(span, piece)?)));
            if let Some((span, (field, text))) = named {
                self.place(at, field, text);
                span.iter().for_each(|word| self.said[*word] = true);
            } else if piece.meaning == Meaning::Number && self.is_counting(at) {
                // `6 x 100 mm`: the one count of the calculator's main use.
                let main = self.described.entry.examples.first().map_or(&[][..], |example| example.fields);
                let counts = |field: &&Field| field.form == "count" && main.iter().any(|(name, _)| *name == field.name);
                if let Some(field) = only(self.free().filter(counts)) {
                    self.place(at, field, piece.text.clone());
                }
            }
        }
    }

    fn is_counting(&self, at: usize) -> bool {
        self.phrase.pieces.get(at + 1).is_some_and(|next| next.text.eq_ignore_ascii_case("x"))
    }

    /// The free words right before a part: two of them, then the last alone.
    fn words_before(&self, at: usize) -> Vec<Vec<usize>> {
        let mut words: Vec<usize> = (0..at).rev().take_while(|one| self.is_free_word(*one)).collect();
        words.retain(|one| !is_filler(&self.phrase.pieces[*one].text));
        spans(words.into_iter().take(2).collect())
    }

    fn words_after(&self, at: usize) -> Vec<Vec<usize>> {
        let all = at + 1..self.phrase.pieces.len();
        spans(
            all.take_while(|one| self.is_free_word(*one) && !is_filler(&self.phrase.pieces[*one].text))
                .take(2)
                .collect(),
        )
    }

    fn is_free_word(&self, at: usize) -> bool {
        self.phrase.pieces[at].is_word() && !self.said[at]
    }

    /// The one field that words name and that takes the part: by its whole name, else by a part of it.
    fn named(&self, span: &[usize], piece: &Piece) -> Option<(&'static Field, String)> {
        let mut span = span.to_vec();
        span.sort_unstable();
        let said: Vec<String> = span.iter().flat_map(|at| parts(&self.phrase.pieces[*at].text)).collect();
        if said.is_empty() {
            return None;
        }
        let taking: Vec<_> = self.free().filter_map(|field| Some((field, takes(field, piece)?))).collect();
        let whole = taking.iter().find(|(field, _)| parts(&field.name.replace('_', " ")) == said);
        let part = || {
            let has = |(field, _): &&(&Field, String)| {
                // What stands behind `per` is no name of it: a turn is no travel.
                let own = parts(&field.name.split("_per_").next().unwrap_or_default().replace('_', " "));
                said.iter().all(|word| own.contains(word))
            };
            only(taking.iter().filter(has))
        };
        whole.or_else(part).cloned()
    }

    /// Values that fit exactly one field by their type: one made for their like, else one that must be given, else the
    /// only one of all. Gives those that do not, with the fields that they fit.
    fn place_by_type(&mut self) -> Vec<(usize, Vec<&'static Field>)> {
        let mut open = Vec::new();
        let mut left: Vec<(usize, Vec<&'static Field>)> = Vec::new();
        for at in 0..self.phrase.pieces.len() {
            let piece = &self.phrase.pieces[at];
            if !piece.is_value() || self.said[at] || (piece.meaning == Meaning::Number && self.is_in_words(at)) {
                continue;
            }
            let is_number = piece.meaning == Meaning::Number;
            left.push((at, self.free().filter(|field| !is_number && takes(field, piece).is_some()).collect()));
        }
        // What fits fewest fields is placed first.
        left.sort_by_key(|(_, fields)| fields.len());
        let names = |fields: &[&Field]| fields.iter().map(|field| field.member.name).collect::<Vec<_>>();
        for (at, fields) in &left {
            let piece = &self.phrase.pieces[*at];
            let free: Vec<&'static Field> =
                self.free().filter(|field| names(fields).contains(&field.member.name)).collect();
            let one = only(free.iter().filter(|field| matches!(field.member.of.shape, Shape::Words)))
                .or_else(|| only(free.iter().filter(|field| field.required)))
                .or_else(|| only(free.iter()))
                .or_else(|| self.of_main_use(&free))
                .and_then(|field| Some((*field, takes(field, piece)?)));
            // Two of one sort could stand either way round.
            let has_twin = left.iter().any(|(other, same)| other != at && names(same) == names(fields));
            match one {
                Some((field, text)) if !has_twin => self.place(*at, field, text),
                _ => open.push((*at, free)),
            }
        }
        open
    }

    /// Of fields that are never asked together in an example, the one whose example comes first.
    fn of_main_use<'f>(&self, free: &'f [&'static Field]) -> Option<&'f &'static Field> {
        let examples = self.described.entry.examples;
        let asked = |at: usize| {
            free.iter().filter(move |field| examples[at].fields.iter().any(|(name, _)| *name == field.member.name))
        };
        let first = (0..examples.len()).find(|at| asked(*at).next().is_some())?;
        let main = only(asked(first))?;
        let is_main = |field: &&'static Field| field.member.name == main.member.name;
        let is_apart = |at: usize| !asked(at).any(is_main) || asked(at).count() == 1;
        (0..examples.len()).all(is_apart).then_some(main)
    }

    /// Whether a number belongs to a search word of the calculator, as in `3 wires`.
    fn is_in_words(&mut self, at: usize) -> bool {
        let said = &self.phrase.pieces[at].text;
        let next = self.phrase.pieces.get(at + 1).filter(|next| next.is_word()).map(|next| parts(&next.text));
        let has = self.described.entry.each_word().map(parts).any(|own| match own.as_slice() {
            [one] => one == said,
            [first, rest @ ..] => first == said && next.as_deref().is_some_and(|next| rest.starts_with(next)),
            [] => false,
        });
        self.said[at] |= has;
        has
    }

    /// How many words are left that say nothing to the calculator, and how well the others answer.
    fn words_left(&self) -> (usize, f64) {
        let left = |at: &usize| self.is_free_word(*at) && !is_filler(&self.phrase.pieces[*at].text);
        let words: Vec<String> =
            (0..self.phrase.pieces.len()).filter(left).flat_map(|at| parts(&self.phrase.pieces[at].text)).collect();
        let (hits, score) = answers_to(self.described, &words);
        (words.len() - hits, score)
    }
}

/// Two words, then each one alone that is nearest.
fn spans(words: Vec<usize>) -> Vec<Vec<usize>> {
    match words.as_slice() {
        [] => Vec::new(),
        [one] => vec![vec![*one]],
        [near, far, ..] => vec![vec![*near, *far], vec![*near]],
    }
}

/// The only one, if there is one alone.
fn only<T>(mut all: impl Iterator<Item = T>) -> Option<T> {
    let first = all.next()?;
    all.next().is_none().then_some(first)
}

/// The text by which a field takes a part, if it takes it.
fn takes(field: &Field, piece: &Piece) -> Option<String> {
    let as_size = |row: &KindRow| -> Option<String> {
        let written = piece.size().filter(|_| piece.meaning != Meaning::Drill)?;
        is_of(row, &written).then(|| match piece.meaning {
            Meaning::Fraction => format!("{} in", piece.text),
            _ => piece.text.clone(),
        })
    };
    match (&field.member.of.shape, &piece.meaning) {
        (Shape::Quantity(row), _) if piece.size().is_some() => as_size(row),
        (Shape::QuantityOrName(_), Meaning::Drill) => Some(piece.text.clone()),
        (Shape::QuantityOrName(_), Meaning::Fraction) if drills::named(&piece.text).is_some() => {
            Some(piece.text.clone())
        }
        (Shape::QuantityOrName(Some(row)), _) => as_size(row),
        (Shape::Count { .. } | Shape::Number, Meaning::Number) => Some(piece.text.clone()),
        (Shape::Words, meaning) => as_words(field, piece, meaning),
        _ => None,
    }
}

/// A field of words takes what its own example is: a thread, a drill, a material.
fn as_words(field: &Field, piece: &Piece, meaning: &Meaning) -> Option<String> {
    match (EXAMPLES.get(field.example.as_str())?, meaning) {
        (Meaning::Thread, Meaning::Thread) | (Meaning::Drill, Meaning::Drill) | (Meaning::Fit, Meaning::Fit) => {
            Some(piece.text.clone())
        }
        (Meaning::Drill, Meaning::Fraction) => drills::named(&piece.text).map(|drill| drill.name.to_owned()),
        // The catalogue of materials is searched by words; elsewhere one material is meant, or each of a few.
        (Meaning::Material(_), Meaning::Material(_)) if field.member.of.name.is_none() => Some(piece.text.clone()),
        (Meaning::Material(_), Meaning::Material(ids)) if ids.len() <= super::unsure::FEW => Some(ids.join("|")),
        _ => None,
    }
}

/// What the examples of fields of words mean, read once.
static EXAMPLES: LazyLock<HashMap<&'static str, Meaning>> = LazyLock::new(|| {
    let fields = described().iter().flat_map(|described| &described.fields);
    let of_words = fields.filter(|field| matches!(field.member.of.shape, Shape::Words));
    let read = |text: &'static str| Some((text, only(Phrase::read(text).pieces.into_iter())?.meaning));
    of_words.filter_map(|field| read(&field.example)).collect()
});

/// Whether a size is of a kind, by its unit and its bounds.
fn is_of(row: &KindRow, written: &Written) -> bool {
    let Some(unit) = written.unit else { return false };
    let si = unit.to_si(written.value);
    let least = match row.least {
        Least::Any => -row.most,
        Least::From(least) => least,
        Least::AboveZero => f64::MIN_POSITIVE,
    };
    let is_feed = matches!(row.dimension(), Dimension::FeedPerRev | Dimension::FeedPerTooth);
    let plain = matches!(unit, Unit::Inch | Unit::Millimetre | Unit::Thou);
    row.units.contains(&unit) && !(is_feed && plain) && si >= least && si <= row.most
}
