//! What the search box answers to: a phrase is read into what its parts mean, each calculator is filled where the parts
//! fit its fields, those that have all they need are asked, and calculators are found by their words.

mod answers;
mod conversion;
mod filling;
mod phrase;
mod unsure;
mod words;

pub use answers::{Answered, Further};
pub use conversion::Conversion;
pub use unsure::Question;
pub use words::{found, nearest, parts};

use crate::asking::{Described, described};
use filling::Fit;
use phrase::Phrase;

/// Most calculators that are named for one phrase.
const MOST_NAMED: usize = 8;

/// What a phrase finds.
#[derive(Debug, Default)]
pub struct Found {
    /// What was taken for granted, what is open, and ways to say it.
    pub questions: Vec<Question>,
    /// The size in other units.
    pub conversion: Option<Conversion>,
    /// Answers, the likeliest first.
    pub answers: Vec<Answered>,
    /// Calculators that take it further, filled as far as it goes.
    pub further: Vec<Further>,
    /// Calculators that its words find.
    pub by_words: Vec<&'static Described>,
    /// Calculators that come nearest to a word for which there is none.
    pub nearest: Vec<&'static Described>,
}

/// What `text` finds.
pub fn look(text: &str) -> Found {
    let phrase = Phrase::read(text);
    let mut found = Found { questions: unsure::questions(&phrase), ..Found::default() };
    let words = phrase.words();
    found.nearest = nearest(&words);
    if !phrase.has_values() {
        found.by_words = if found.nearest.is_empty() { words::found(&words) } else { Vec::new() };
        return found;
    }
    found.conversion = conversion::of(&phrase);
    if found.conversion.as_ref().is_some_and(|conversion| conversion.is_asked) {
        return found;
    }
    let by_words = words::found(&words);
    let fits = filling::fits(&phrase, described(), !by_words.is_empty());
    let is_open = found.conversion.is_some() || !found.questions.is_empty();
    found.questions.extend(unsure::left_over(&phrase, &fits, is_open, !by_words.is_empty()));
    let asked = answers::ask(&fits, &words);
    (found.answers, found.further) = (asked.answers, asked.further);
    if found.answers.is_empty() {
        found.questions.extend(asked.refused);
    }
    if fits.is_empty() && found.nearest.is_empty() {
        // What the words find is filled with what fits there.
        found.further = by_words.iter().map(|one| Further::of(&Fit::of(&phrase, one))).collect();
    }
    found.further.truncate(MOST_NAMED);
    // What needs least goes on soonest.
    found.further.sort_by_key(|further| further.needs.len());
    found
}

impl Found {
    /// Whether nothing was found.
    pub fn is_empty(&self) -> bool {
        self.conversion.is_none()
            && self.answers.is_empty()
            && self.further.is_empty()
            && self.by_words.is_empty()
            && self.nearest.is_empty()
    }
}

#[cfg(test)]
mod tests;
