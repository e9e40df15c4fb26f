//! The calculators that a phrase fills asked in turn, within the time of the request and no more than a few.

use super::filling::Fit;
use super::unsure::Question;
use crate::asking::{self, Answer, Body, Described, Form};
use crate::budget::go_on;
use crate::declared::in_sentence;
use crate::fields::{Fields, Given};
use crate::page::field::{field_of, label};
use crate::page::stated;
use crate::refusal::{Code, Refusal};

/// Most calculators that are asked for one phrase.
const MOST_ASKED: usize = 16;
/// Most answers that are shown.
const MOST_ANSWERS: usize = 5;

/// A calculator with what a phrase fills in it.
#[derive(Debug)]
pub struct Further {
    /// The calculator.
    pub described: &'static Described,
    /// Fields and their text.
    pub fields: Vec<(&'static str, String)>,
    /// What it still needs, in words.
    pub needs: Vec<String>,
    /// Whether it answers as it is filled.
    pub is_answered: bool,
}

/// An answer.
#[derive(Debug)]
pub struct Answered {
    /// The calculator, filled.
    pub filled: Further,
    /// What it answers.
    pub answer: Answer,
    /// The words of the phrase, by which values are chosen.
    pub words: String,
}

impl Further {
    /// The calculator filled as far as a phrase goes.
    pub fn of(fit: &Fit) -> Self {
        // Of a calculator that is only named, its page says what it needs.
        let missing = if fit.fields.is_empty() { Vec::new() } else { fit.missing() };
        let needs = missing.iter().map(|field| in_sentence(field.label)).collect();
        Self { described: fit.described, fields: fit.fields.clone(), needs, is_answered: false }
    }

    /// The address of its page.
    pub fn address(&self) -> String {
        let pairs = self.fields.iter().map(|(name, text)| ((*name).to_owned(), text.clone()));
        match self.fields.is_empty() {
            true => format!("/{}", self.described.entry.id),
            false => format!("/{}?{}", self.described.entry.id, stated::query(pairs)),
        }
    }

    fn ask(&self) -> Result<Answer, Refusal> {
        let mut fields: Vec<_> =
            self.fields.iter().map(|(name, text)| ((*name).into(), Given::Text(text.clone().into()))).collect();
        fields.push(("working".into(), Given::Text("false".into())));
        asking::ask(self.described.entry, Fields(fields), Form::Json).map(|(answer, _)| answer)
    }
}

/// What the calculators that fit say.
#[derive(Debug, Default)]
pub struct Asked {
    /// The answers, the likeliest first.
    pub answers: Vec<Answered>,
    /// Those that need more, and those that answer too.
    pub further: Vec<Further>,
    /// Why there is no answer, where there is none.
    pub refused: Option<Question>,
}

/// Asks the calculators that fit, the likeliest first, as long as the request has time.
pub fn ask(fits: &[Fit], words: &str) -> Asked {
    let mut out = Asked::default();
    let (needing, complete): (Vec<Further>, Vec<Further>) =
        fits.iter().map(Further::of).partition(|filled| !filled.needs.is_empty());
    for mut filled in complete.into_iter().take(MOST_ASKED) {
        match go_on().and_then(|()| filled.ask()) {
            Ok(answer) if !has_an_answer(&answer) => {}
            Ok(answer) if out.answers.len() < MOST_ANSWERS => {
                out.answers.push(Answered { filled, answer, words: words.to_owned() });
            }
            Ok(_) => out.further.push(Further { is_answered: true, ..filled }),
            Err(refusal) if refusal.is_of_time() => {
                out.further.push(filled);
                out.refused = Some(Question::says("That took too long to be answered here. Open a calculator below."));
                break;
            }
            Err(refusal) => {
                let missing = refusal.0.iter().filter(|wrong| wrong.code == Code::FieldMissing);
                let missing: Vec<String> =
                    missing.map(|wrong| in_sentence(&label(filled.described.entry, field_of(wrong)))).collect();
                if missing.len() == refusal.0.len() {
                    filled.needs = missing;
                    out.further.push(filled);
                } else if out.refused.is_none() {
                    let title = filled.described.entry.title;
                    out.refused = Some(Question::says(format!("{title}: {}", refusal.words())));
                }
            }
        }
    }
    out.further.extend(needing);
    out
}

/// Whether anything was found: of several cases at least one.
fn has_an_answer(answer: &Answer) -> bool {
    match &answer.body {
        Body::Rows(rows, _) => rows.iter().any(|row| row.outcome.is_ok()),
        _ => true,
    }
}
