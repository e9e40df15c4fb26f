//! The course: topics in an order that builds, each with the calculators it uses, found in the register, and a question
//! that no sum answers.

use crate::calculators::{Entry, REGISTER, Task};
use crate::fields::nearest;
use crate::quantity::shown;
use crate::refusal::{Code, Unread, carry};
use serde::de::{Deserialize, Deserializer};

/// One topic of the course.
#[derive(Debug, PartialEq)]
pub struct Topic {
    /// The word that addresses use.
    pub word: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What one can do after it, in a sentence.
    pub about: &'static str,
    /// Calculators of it by the beginnings of their names; they belong to no other topic.
    names: &'static [&'static str],
    /// Tasks whose other calculators belong to it.
    tasks: &'static [Task],
    /// A question that no sum answers.
    pub why: &'static str,
    /// Its answer.
    pub because: &'static str,
}

/// The topics, each resting on those before it.
pub static TOPICS: &[Topic] = &[
    Topic {
        word: "measure",
        title: "Measure and convert",
        about: "Read sizes, dials and drill names, and carry them from inches to millimeters and back.",
        names: &["drill-size", "handwheel", "surface-finish"],
        tasks: &[Task::Check],
        why: "Why do you turn a handwheel past the mark and come back to it from the same side every time?",
        because: "The screw and its nut have play. When the handwheel turns back, the dial moves before the table does. \
                  Coming to every mark from the same side takes up the play the same way, so the dial tells the truth. \
                  On a worn screw the play can be a quarter of a turn.",
    },
    Topic {
        word: "fit",
        title: "Fit",
        about: "Know what a hole and a shaft may measure for a fit, what play or grip that leaves, and what a press fit holds.",
        names: &["find", "limits", "running", "press"],
        tasks: &[],
        why: "Why do you let a part cool before you measure it for a fit?",
        because: "Limits hold at 20 °C. Steel grows about a hundredth of a millimeter for each hundred millimeters and 10 °C, \
                  so a warm 100 mm shaft that is just off the lathe can measure right and be too small when it is cold. \
                  Of a fine fit that is half the tolerance.",
    },
    Topic {
        word: "drill",
        title: "Drill",
        about: "Choose a drill, its speed and its depth, and finish the hole with a reamer or a countersink.",
        names: &[],
        tasks: &[Task::MakeTheHole],
        why: "Why do you clamp the work, and back off the feed just as the drill breaks through?",
        because: "As the point comes through, the corners of the lips grab the thin metal that is left and pull the drill \
                  in. Loose work climbs the drill and spins with it; that breaks drills and hands. Clamp it or put it \
                  against a stop, and ease the feed at the end.",
    },
    Topic {
        word: "tap",
        title: "Tap",
        about: "Find the tap drill for the thread that is wanted, choose the tap, and set its speed.",
        names: &["tap-", "tapp"],
        tasks: &[],
        why: "Why is the tap drill larger than the minor diameter of the thread at its smallest?",
        because: "Three quarters of a full thread holds nearly as much as a full one, because the screw breaks before the \
                  thread strips. A full thread takes far more torque to cut, and that is what breaks taps in the hole. \
                  In soft metal the tap also squeezes some inward, so the hole ends smaller than it was drilled.",
    },
    Topic {
        word: "speeds",
        title: "Speeds and feeds",
        about: "Turn a cutting speed into a spindle speed, set a feed, and know what power and time the cut takes.",
        names: &[],
        tasks: &[Task::Cut, Task::Turn],
        why: "Why is climb milling dangerous on a machine with a worn feed screw?",
        because: "In a climb cut the teeth push the work the same way it is fed. With play between screw and nut nothing \
                  holds the table back, so the cutter pulls it forward by the play in one bite. That breaks teeth, bends \
                  arbors and throws work. Cut conventionally, or lock out the play first.",
    },
    Topic {
        word: "lay_out",
        title: "Lay out",
        about: "Find where holes, steps and arcs lie, and the moves that take you there.",
        names: &[],
        tasks: &[Task::LayOut],
        why: "Why do you dimension and dial every hole from one zero and not from the hole before it?",
        because: "Each move has a small error. Going from hole to hole adds them up, and the last hole has them all. From \
                  one zero every hole has only its own error, and one wrong hole does not carry the rest with it.",
    },
    Topic {
        word: "find_zero",
        title: "Find zero",
        about: "Touch faces, bores and corners, and set the readout so that zero is where the drawing has it.",
        names: &[],
        tasks: &[Task::FindZero],
        why: "Why do you allow half the tip's diameter after touching a face, and never the whole?",
        because: "What touches is the edge of the tip; what you set is the middle of the spindle. They lie half a diameter \
                  apart. When you touch both sides of a slot, the two halves cancel for its middle, and its width needs \
                  both.",
    },
    Topic {
        word: "thread",
        title: "Thread",
        about: "Know a thread's sizes and limits, gear the lathe for it, cut it in passes, and measure it.",
        names: &[],
        tasks: &[Task::Thread],
        why: "Why do the passes of a single-point thread get smaller as it gets deeper?",
        because: "The deeper the tool is in, the wider the chip, since both flanks cut. The same depth again and again \
                  would make every chip heavier than the one before, until the tool chatters or breaks. Passes that \
                  shrink keep the chip, and so the force, about the same.",
    },
    Topic {
        word: "repair",
        title: "Repair",
        about: "Find out what thread an old part has, and save a hole whose thread is gone.",
        names: &["identify", "rescue"],
        tasks: &[],
        why: "Why do you never force a screw that almost fits into an unknown thread?",
        because: "Many inch and metric threads start into each other for a turn or two and then jam. Forced further, they \
                  cut each other and hold on a few damaged turns; the joint feels tight and lets go under load. Measure \
                  diameter and pitch first. If a forced bolt holds anything that can fall or spin, replace both parts.",
    },
];

impl Topic {
    /// The topic of a calculator.
    pub fn of(entry: &Entry) -> Option<&'static Topic> {
        let named = |topic: &&Topic| topic.names.iter().any(|name| entry.address().1.starts_with(name));
        TOPICS.iter().find(named).or_else(|| TOPICS.iter().find(|topic| topic.tasks.contains(&entry.task)))
    }

    /// The calculators of this topic, in the order of the register.
    pub fn entries(&'static self) -> impl Iterator<Item = &'static Entry> {
        REGISTER.iter().filter(move |entry| Self::of(entry).is_some_and(|topic| topic.word == self.word))
    }
}

/// A topic by its word, also with spaces or hyphens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopicNamed(pub &'static Topic);

impl<'de> Deserialize<'de> for TopicNamed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let said = String::deserialize(deserializer)?;
        let wanted = said.trim().to_lowercase().replace([' ', '-'], "_");
        let words = TOPICS.iter().map(|topic| topic.word);
        TOPICS.iter().find(|topic| topic.word == wanted).map(TopicNamed).ok_or_else(|| {
            let near = nearest(&wanted, words.clone()).unwrap_or("drill").to_owned();
            let all = words.collect::<Vec<_>>().join(", ");
            let says = format!("\"{}\" is not a topic; the topics are {all}.", shown(&said));
            carry(Unread { code: Code::NotFound, says, try_this: near })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_calculator_has_one_topic_and_every_name_means_one() {
        for entry in REGISTER {
            assert!(Topic::of(entry).is_some(), "{}", entry.id);
        }
        for topic in TOPICS {
            assert!(topic.entries().count() >= 2, "{}", topic.word);
            for name in topic.names {
                assert!(REGISTER.iter().any(|entry| entry.address().1.starts_with(name)), "{name}");
            }
            assert!(topic.why.ends_with('?') && topic.because.len() < 420, "{}", topic.word);
        }
        let all: usize = TOPICS.iter().map(|topic| topic.entries().count()).sum();
        assert_eq!(all, REGISTER.len());
    }
}
