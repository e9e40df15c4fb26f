//! Practice: a question for any calculator from a seed or from an answer's link, and the marking of
//! what was answered, which tells a slip from a misunderstanding. One mechanism for the whole register: its
//! exercises are the questions, the calculators themselves give what is right and what a slip
//! would have given. Nothing is kept; a question is made again from its seed.

mod course;
mod draw;
mod formula;
mod link;
mod machine;
mod marking;
mod question;
mod replay;
mod request;
mod round_near;
mod seed;
mod sentence;
mod slips;
mod wanted;
mod written;

pub use course::{TOPICS, Topic, TopicNamed};
pub use marking::{Closeness, accepted};
pub use question::{Marked, Question, Recipe, levels};
pub use request::{Asked, Checked, FIRST_SEED, MOST_QUESTIONS, good, next_seed};
pub use seed::{Seed, TaskNamed};
pub use sentence::{LONGEST, said_node};
pub use slips::{CODES, Slip};
pub use wanted::{Amount, Wanted};
pub use written::{allowed_words, course};
