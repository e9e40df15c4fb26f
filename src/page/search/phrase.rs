//! A phrase as a machinist types it, read into what its parts mean: threads, sizes with units, fractions, drills,
//! materials, bare numbers and words. Every part is read by the readers that the fields of a request have.

use crate::asking::described;
use crate::fitting::Fit;
use crate::quantity::{Dimension, Unit, Written, read};
use crate::reference::drills;
use crate::reference::material_aliases::{Relation, alias};
use crate::reference::material_name::WorkMaterial;
use crate::reference::material_search::{of_ids, with_id, with_words};
use crate::reference::threads::{Designation, MetricRow, ThreadSystem, metric_rows};
use crate::refusal::{Code, Unread};
use std::collections::HashSet;
use std::sync::LazyLock;

/// How much of a phrase is read: nobody types more to ask for one thing.
const MOST_LETTERS: usize = 120;
const MOST_TOKENS: usize = 16;
/// The longest part, in tokens: `M8 x 1.25 - 6g LH`.
const LONGEST: usize = 5;

/// What the trade says for what our fields and choices call otherwise.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("high speed steel", "hss"),
    ("high-speed steel", "hss"),
    ("coated carbide", "coated_carbide"),
    ("dia", "diameter"),
    ("diam", "diameter"),
    ("flute", "teeth"),
    ("flutes", "teeth"),
    ("tooth", "teeth"),
    ("bolts", "holes"),
];

/// Words that say nothing by themselves.
pub const FILLERS: &[&str] = &[
    "a", "an", "the", "of", "for", "to", "into", "in", "and", "i", "how", "from", "with", "at", "on", "x", "as", "is",
    "what",
];

/// What a part of a phrase means.
#[derive(Clone, Debug, PartialEq)]
pub enum Meaning {
    /// A thread by its designation.
    Thread,
    /// A size with the classes of a fit.
    Fit,
    /// A drill by a name that no length has.
    Drill,
    /// A fraction: an inch size, and a drill's name.
    Fraction,
    /// A size with its unit.
    Quantity(Written),
    /// A number without a unit.
    Number,
    /// A material: the short names that it may mean.
    Material(Vec<&'static str>),
    /// A unit by itself.
    Unit(Unit),
    /// What looks like a thread or a material and is none, or leaves open which, with what may be meant.
    Unclear {
        /// What is wrong.
        says: String,
        /// What may be meant.
        ways: Vec<String>,
    },
    /// A word.
    Word,
}

/// A part of a phrase.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its text as a request states it.
    pub text: String,
    /// What it means.
    pub meaning: Meaning,
}

impl Piece {
    /// Whether a field is to be filled with it.
    pub fn is_value(&self) -> bool {
        !matches!(self.meaning, Meaning::Word | Meaning::Unit(_) | Meaning::Unclear { .. })
    }

    /// Whether it is a word, units without a number among them.
    pub fn is_word(&self) -> bool {
        matches!(self.meaning, Meaning::Word | Meaning::Unit(_))
    }

    /// The size that it means, as a request states it with its unit.
    pub fn size(&self) -> Option<Written> {
        match &self.meaning {
            Meaning::Quantity(written) => Some(*written),
            Meaning::Fraction => read(&self.text, "").ok().map(|written| Written { unit: Some(Unit::Inch), ..written }),
            Meaning::Drill => {
                let quantity = drills::named(&self.text)?.size().quantity();
                Some(Written { value: quantity.value, unit: Some(quantity.unit), tolerance: None })
            }
            _ => None,
        }
    }
}

/// A phrase, read.
#[derive(Debug, Default)]
pub struct Phrase {
    /// Its parts, in their order.
    pub pieces: Vec<Piece>,
    /// Whether it was too long to be read whole.
    pub is_cut: bool,
}

impl Phrase {
    /// Reads a phrase.
    pub fn read(text: &str) -> Self {
        let tokens = tokens(text);
        let is_cut = text.chars().count() > MOST_LETTERS || tokens.len() > MOST_TOKENS;
        let tokens = &tokens[..tokens.len().min(MOST_TOKENS)];
        let mut pieces = Vec::new();
        let mut at = 0;
        while at < tokens.len() {
            let (piece, taken) = next(tokens, at);
            pieces.push(piece);
            at += taken;
        }
        let mut phrase = Self { pieces, is_cut };
        phrase.choose_series();
        phrase
    }

    /// `M10 fine` and `1/4 coarse`: the thread of that series, or which of several.
    fn choose_series(&mut self) {
        for at in 1..self.pieces.len() {
            let series = self.pieces[at].text.to_lowercase();
            if !["fine", "coarse"].contains(&series.as_str()) {
                continue;
            }
            if let Some(piece) = of_series(&self.pieces[at - 1], &series) {
                self.pieces.splice(at - 1..=at, [piece]);
                return;
            }
        }
    }

    /// Whether there is anything but words in it.
    pub fn has_values(&self) -> bool {
        self.pieces.iter().any(|piece| !piece.is_word())
    }

    /// Its words without those that say nothing.
    pub fn words(&self) -> String {
        let said = self.pieces.iter().filter(|piece| piece.is_word() && !is_filler(&piece.text));
        said.map(|piece| piece.text.as_str()).collect::<Vec<_>>().join(" ")
    }

    /// The phrase with its part `at` said otherwise.
    pub fn with(&self, at: usize, text: &str) -> String {
        let said = |(number, piece): (usize, &Piece)| if number == at { text.to_owned() } else { piece.text.clone() };
        self.pieces.iter().enumerate().map(said).collect::<Vec<_>>().join(" ")
    }
}

/// Whether a word says nothing by itself.
pub fn is_filler(word: &str) -> bool {
    FILLERS.contains(&word.to_lowercase().as_str())
}

/// The tokens of a text: cut at blanks, free of marks that join or end a sentence.
fn tokens(text: &str) -> Vec<String> {
    let text: String = text.chars().take(MOST_LETTERS).collect();
    let mut said = format!(" {} ", text.replace(['×', '*'], " x ").replace(['=', '?', ';', '(', ')'], " "));
    for (other, own) in OTHER_WORDS {
        let (other, own) = (format!(" {other} "), format!(" {own} "));
        while let Some(at) = said.to_ascii_lowercase().find(&other) {
            said.replace_range(at..at + other.len(), &own);
        }
    }
    let mut tokens: Vec<String> = said
        .split_whitespace()
        .map(|token| token.trim_end_matches([',', ':', '!']).trim_start_matches([',', ':', '!']))
        // A point at the end is the sentence's, but for `No.`.
        .map(|token| if token.eq_ignore_ascii_case("no.") { token } else { token.trim_end_matches('.') })
        .filter(|token| !token.is_empty())
        .flat_map(counted)
        .collect();
    // `1/4-20 class 3A` is 1/4-20-3A: the word before a class is no part of it.
    for at in (1..tokens.len()).rev() {
        if tokens[at - 1].eq_ignore_ascii_case("class") && tokens[at].starts_with(|c: char| c.is_ascii_digit()) {
            tokens.remove(at - 1);
        }
    }
    tokens
}

/// `6x100` and `6x` as a count, the cross and what is counted.
fn counted(token: &str) -> Vec<String> {
    match token.split_once(['x', 'X']) {
        Some((count, rest))
            if !count.is_empty()
                && count.bytes().all(|b| b.is_ascii_digit())
                && (rest.is_empty() || rest.starts_with(|c: char| c.is_ascii_digit() || c == '.')) =>
        {
            [count, "x", rest].into_iter().filter(|part| !part.is_empty()).map(str::to_owned).collect()
        }
        _ => vec![token.to_owned()],
    }
}

/// The longest part that begins at a token, and how many tokens it takes.
fn next(tokens: &[String], at: usize) -> (Piece, usize) {
    let left = tokens.len() - at;
    for taken in (1..=LONGEST.min(left)).rev() {
        let (parts, after) = tokens[at..].split_at(taken);
        // What stands before a unit is its number.
        if taken > 1 && parts.last().is_some_and(|last| is_number(last)) && after.first().is_some_and(|t| is_unit(t)) {
            continue;
        }
        if let Some(meaning) = meaning(parts, after.first().map(String::as_str), tokens.len() == taken) {
            return (Piece { text: parts.join(" "), meaning }, taken);
        }
    }
    // `tpi 20` is 20 tpi.
    if let [unit, number, after @ ..] = &tokens[at..]
        && unit.len() > 2
        && is_unit(unit)
        && is_number(number)
        && !number.contains('/')
        && !after.first().is_some_and(|after| is_unit(after))
        && let Ok(written @ Written { unit: Some(_), .. }) = read(&format!("{number} {unit}"), "")
    {
        return (Piece { text: format!("{number} {unit}"), meaning: Meaning::Quantity(written) }, 2);
    }
    let token = &tokens[at];
    let meaning = if is_number(token) {
        Meaning::Number
    } else if let Some(unit) = Unit::named(token).filter(|_| token.len() > 1 || (at > 0 && is_filler(&tokens[at - 1])))
    {
        Meaning::Unit(unit)
    } else {
        Meaning::Word
    };
    (Piece { text: token.clone(), meaning }, 1)
}

/// What the tokens mean together, if anything but words.
fn meaning(parts: &[String], after: Option<&str>, is_all: bool) -> Option<Meaning> {
    let text = parts.join(" ");
    if is_fit(&text) {
        return Some(Meaning::Fit);
    }
    let by_blank = parts.len() > 1 && parts.iter().all(|part| is_number(part));
    // `1/4 20` is a thread; `6 4` may be anything, and so may `4 in 6`.
    let is_size = by_blank && !parts[0].contains('/') || parts[1..].iter().any(|part| is_length(part));
    if !is_size && is_ended(parts) {
        match Designation::read(&text) {
            Ok(_) => return Some(Meaning::Thread),
            Err(unread) if is_spoilt_thread(parts, &unread) => return Some(unclear(unread, &[])),
            Err(_) => {}
        }
    }
    if let Some(written) = size(parts, &text, after) {
        return Some(written);
    }
    if drills::named(&text).is_some()
        && (text.len() > 1 || is_all || parts[0].starts_with(char::is_uppercase) && is_drill(after))
    {
        return Some(Meaning::Drill);
    }
    material(&text)
}

/// Whether it is a size with the classes of hole and shaft; with one alone, where that is no tool steel such as S7 or D2.
fn is_fit(text: &str) -> bool {
    Fit::read(text).is_ok_and(|fit| fit.hole.is_some() && fit.shaft.is_some() || material(&fit.classes()).is_none())
}

/// Whether the last token closes a designation: a word that joins what follows does not.
fn is_ended(parts: &[String]) -> bool {
    parts.last().is_some_and(|last| !is_filler(last) || parts.len() == 1)
}

fn is_drill(after: Option<&str>) -> bool {
    after.is_some_and(|after| after.to_lowercase().starts_with("drill"))
}

/// The thread of the size that a part names in the fine or the coarse series.
fn of_series(piece: &Piece, series: &str) -> Option<Piece> {
    let text = format!("{} {series}", piece.text);
    if matches!(piece.meaning, Meaning::Drill | Meaning::Fraction) {
        let named = format!("{} {}", piece.text, if series == "fine" { "UNF" } else { "UNC" });
        return Some(match Designation::read(&named) {
            Ok(thread) => Piece { text: thread.text(), meaning: Meaning::Thread },
            Err(unread) => Piece { text, meaning: unclear(unread, &[]) },
        });
    }
    let thread = Designation::read(&piece.text).ok().filter(|_| piece.meaning == Meaning::Thread)?.thread;
    if thread.system != ThreadSystem::Metric {
        return None;
    }
    let has = |row: &&MetricRow| row.diameter_mm == thread.diameter && row.series == series;
    let rows: Vec<String> = metric_rows().iter().filter(has).map(|row| row.designation.clone()).collect();
    Some(match rows.as_slice() {
        [one] => Piece { text: one.clone(), meaning: Meaning::Thread },
        [] => Piece {
            meaning: Meaning::Unclear { says: format!("There is no {text} thread."), ways: vec![piece.text.clone()] },
            text,
        },
        _ => Piece {
            meaning: Meaning::Unclear { says: format!("There are several threads {text}. Which is it?"), ways: rows },
            text,
        },
    })
}

/// What cannot be read, with what may be meant: `ways`, else what the reader says to try.
fn unclear(unread: Unread, ways: &[&str]) -> Meaning {
    let mut ways: Vec<String> = ways.iter().map(|way| (*way).to_owned()).collect();
    if ways.is_empty() && Phrase::read(&unread.try_this).pieces.iter().any(Piece::is_value) {
        ways.push(unread.try_this);
    }
    Meaning::Unclear { says: unread.says, ways }
}

/// A thread with a series or class that it does not have, or of a size that needs its pitch: not to be read without it.
fn is_spoilt_thread(parts: &[String], unread: &Unread) -> bool {
    let [first, rest @ ..] = parts else { return false };
    let first_is_thread = Designation::read(first).is_ok();
    match rest {
        [] => {
            let metric = first.starts_with(['M', 'm']) && first[1..].starts_with(|c: char| c.is_ascii_digit());
            let pitched = first.split_once('-').is_some_and(|(size, pitch)| {
                size.ends_with(|c: char| c.is_ascii_digit()) && pitch.starts_with(|c: char| c.is_ascii_digit())
            });
            (metric || pitched) && read(first, "").is_err()
        }
        _ => first_is_thread && matches!(unread.code, Code::NotFound | Code::NotOffered),
    }
}

/// A size: with its unit, or a fraction of an inch.
fn size(parts: &[String], text: &str, after: Option<&str>) -> Option<Meaning> {
    let written = read(text, "").ok()?;
    let Some(unit) = written.unit else {
        return (parts.len() <= 2 && text.contains(['/', '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞']) && written.value > 0.0)
            .then_some(Meaning::Fraction);
    };
    // `5 m in inches` is meters to be converted, not minutes.
    let joins = parts.len() > 2 && is_filler(&parts[parts.len() - 1]) && after.is_some_and(is_unit);
    let shorter = joins && read(&parts[..parts.len() - 1].join(" "), "").is_ok_and(|before| before.unit.is_some());
    (!shorter && (unit != Unit::Celsius || text.len() > 2)).then_some(Meaning::Quantity(written))
}

/// A material, or a name that is known and not to be taken for one.
fn material(text: &str) -> Option<Meaning> {
    let lower = text.to_lowercase();
    let letters = text.chars().filter(|c| c.is_alphanumeric()).count();
    if letters < 2 || is_choice(&lower) || is_filler(&lower) {
        return None;
    }
    if let Some(one) = with_id(text) {
        return Some(Meaning::Material(vec![one.id]));
    }
    let found = match alias(text) {
        // What is near another material or only known by name is never read as one of the tables.
        Some(alias) if matches!(alias.relation, Relation::Near | Relation::Known) => {
            return WorkMaterial::read(text).err().map(|unread| unclear(unread, &alias.materials));
        }
        Some(alias) => of_ids(&alias.materials),
        None if letters > 2 && !is_search_word(&lower) => with_words(text),
        None => return None,
    };
    (!found.is_empty()).then(|| Meaning::Material(found.iter().map(|material| material.id).collect()))
}

fn is_number(token: &str) -> bool {
    read(token, "").is_ok_and(|written| written.unit.is_none())
}

fn is_unit(token: &str) -> bool {
    Unit::named(token).is_some()
}

fn is_length(token: &str) -> bool {
    Unit::named(token).is_some_and(|unit| matches!(unit.row().dimension, Dimension::Length | Dimension::ThreadCount))
}

/// Whether a word is one of those that some field offers.
pub fn is_choice(word: &str) -> bool {
    static CHOICES: LazyLock<HashSet<String>> = LazyLock::new(|| {
        let fields = described().iter().flat_map(|described| &described.fields);
        fields.flat_map(|field| field.choices.iter().map(|choice| choice.to_lowercase())).collect()
    });
    CHOICES.contains(word)
}

/// Whether a word finds a calculator.
fn is_search_word(word: &str) -> bool {
    static WORDS: LazyLock<HashSet<String>> = LazyLock::new(|| {
        let words = described().iter().flat_map(|described| described.entry.each_word());
        words.flat_map(|word| word.split_whitespace().map(str::to_lowercase)).collect()
    });
    WORDS.contains(word)
}
