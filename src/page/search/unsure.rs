//! What a phrase leaves open, said in words with ways to say it: a number without its unit, a name of several
//! materials, a thread that is none, a part that no calculator takes.

use super::filling::Fit;
use super::phrase::{Meaning, Phrase, Piece, is_choice, is_filler};
use super::words::found;
use crate::quantity::shown;
use crate::reference::drills;
use crate::reference::material_name::WorkMaterial;
use crate::reference::threads::Designation;

/// Up to so many materials are each answered for; more are asked about.
pub const FEW: usize = 3;
/// Most ways that are shown.
const MOST_WAYS: usize = 12;

/// Something to be said about a phrase.
#[derive(Debug)]
pub struct Question {
    /// What is open, or what was taken.
    pub says: String,
    /// Ways to say it: what stands on the link, and the whole phrase.
    pub ways: Vec<(String, String)>,
}

impl Question {
    /// Something to be said, without another way to say the phrase.
    pub fn says(says: impl Into<String>) -> Self {
        Self { says: says.into(), ways: Vec::new() }
    }
}

/// What is to be said of the parts of a phrase by themselves.
pub fn questions(phrase: &Phrase) -> Vec<Question> {
    let mut questions: Vec<Question> =
        phrase.pieces.iter().enumerate().filter_map(|(at, piece)| of_piece(phrase, at, piece)).collect();
    if phrase.is_cut {
        questions.push(Question::says("That is long; only its beginning was read."));
    }
    questions
}

fn of_piece(phrase: &Phrase, at: usize, piece: &Piece) -> Option<Question> {
    let way = |text: &str| (text.to_owned(), phrase.with(at, text));
    match &piece.meaning {
        Meaning::Fraction if drills::named(&piece.text).is_none() || phrase.pieces.len() > 1 => {
            Some(Question::says(format!("{} is read as {} in.", piece.text, piece.text)))
        }
        Meaning::Material(ids) if ids.len() > 1 => {
            let few = ids.len() <= FEW;
            let says = match WorkMaterial::read(&piece.text) {
                Err(unread) if few => unread.says,
                _ => format!("“{}” can mean several materials. Which is it?", shown(&piece.text)),
            };
            Some(Question { says, ways: ids.iter().take(MOST_WAYS).map(|id| way(id)).collect() })
        }
        Meaning::Unclear { says, ways } => {
            Some(Question { says: says.clone(), ways: ways.iter().take(MOST_WAYS).map(|text| way(text)).collect() })
        }
        Meaning::Drill | Meaning::Fraction if phrase.pieces.len() == 1 => {
            let thread = Designation::read(&piece.text).err()?.try_this;
            let says = format!("{} is read as a drill. A thread of that size needs its threads an inch.", piece.text);
            thread.strip_prefix(&piece.text)?.starts_with('-').then(|| Question { says, ways: vec![way(&thread)] })
        }
        _ => None,
    }
}

/// What is to be said of the parts that no calculator takes: a number without its unit, a value with no place, a word
/// that nothing answers to. `is_open` where something was asked already.
pub fn left_over(phrase: &Phrase, fits: &[Fit], is_open: bool, words_find_some: bool) -> Vec<Question> {
    let mut questions = Vec::new();
    if fits.is_empty() {
        for (at, piece) in phrase.pieces.iter().enumerate().filter(|(_, piece)| piece.meaning == Meaning::Number) {
            let ways = ["in", "mm"].map(|unit| format!("{} {unit}", piece.text));
            let ways = ways.map(|text| (text.clone(), phrase.with(at, &text))).into();
            questions.push(Question { says: format!("{} has no unit. Which is it?", piece.text), ways });
        }
        let values = phrase.pieces.iter().filter(|piece| piece.is_value()).map(|piece| piece.text.as_str());
        let values = values.collect::<Vec<_>>().join(" and ");
        if questions.is_empty() && !is_open && !values.is_empty() {
            questions.push(Question::says(match words_find_some {
                true => format!("What the words find has no one field for {values}."),
                false => format!("No calculator has one field for {values}."),
            }));
        }
    }
    let is_unknown = |piece: &&Piece| {
        piece.is_word()
            && !is_filler(&piece.text)
            && !is_choice(&piece.text.to_lowercase())
            && found(&piece.text).is_empty()
    };
    let unknown = phrase.pieces.iter().filter(is_unknown).filter(|piece| !is_used(piece, fits));
    let unknown: Vec<String> = unknown.map(|piece| format!("“{}”", shown(&piece.text))).collect();
    if !unknown.is_empty() {
        let ignored = if fits.is_empty() { "" } else { " The answers do not take it into account." };
        questions.push(Question::says(format!("Not understood: {}.{ignored}", unknown.join(", "))));
    }
    questions
}

/// Whether a word stands in a field of the likeliest calculator.
fn is_used(piece: &Piece, fits: &[Fit]) -> bool {
    let said = piece.text.to_lowercase();
    fits.first().is_some_and(|fit| fit.unexplained == 0 || fit.fields.iter().any(|(_, text)| *text == said))
}
