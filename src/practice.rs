//! Practice: a question for any calculator from a seed or from an answer's link, and the marking of
//! what was answered, which tells a slip from a misunderstanding. One mechanism for the whole register:
//! the examples are the patterns, the calculators themselves give what is right and what a slip
//! would have given. Nothing is kept; a question is made again from its seed.

mod draw;
mod formula;
mod link;
mod marking;
mod question;
mod replay;
mod request;
mod seed;
mod slips;
mod vary;
mod wanted;
mod words;
mod written;

pub use marking::allowed;
pub use question::{Marked, Question, Recipe};
pub use request::{Asked, Checked, FIRST_SEED, MOST_QUESTIONS, good, next_seed};
pub use seed::{Seed, TaskNamed};
pub use slips::{CODES, Slip};
pub use wanted::Wanted;
pub use words::name_of;
pub use written::allowed_words;
