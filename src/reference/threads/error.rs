//! Why a thread was refused: one kind for a program, plain words for a person, and a value that
//! would have been accepted.

use std::fmt;

/// What kind of thing is wrong with a designation or a class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorKind {
    /// Nothing was written.
    Empty,
    /// It cannot be read as a size and a pitch.
    Unreadable,
    /// It can be read in more than one way.
    Ambiguous,
    /// The size was read, but nothing fixes the pitch.
    PitchMissing,
    /// A thread of another standard, which is not offered yet.
    NotOffered,
    /// The series named does not have this size and pitch.
    SeriesMismatch,
    /// The diameter or the pitch is outside what can be a thread here.
    OutOfRange,
    /// The class does not exist, or stands for the other side of the thread.
    ClassUnknown,
    /// The class exists, but no tolerance is known for it at this pitch.
    ClassWithoutData,
    /// The length of engagement cannot be used.
    EngagementUnusable,
}

/// A thread designation, class or length of engagement that was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DesignationError {
    /// What kind of refusal it is.
    pub kind: ErrorKind,
    /// What is wrong, in plain words.
    pub says: String,
    /// A value that is accepted.
    pub try_this: String,
    /// Threads (or classes) that exist and are nearest to what was asked; may be empty.
    pub nearest: Vec<String>,
}

impl DesignationError {
    /// A refusal without a list of neighbors.
    pub fn new(kind: ErrorKind, says: impl Into<String>, try_this: impl Into<String>) -> Self {
        Self { kind, says: says.into(), try_this: try_this.into(), nearest: Vec::new() }
    }

    /// The same refusal with the neighbors that exist; the first becomes the value to try.
    #[must_use]
    pub fn with_nearest(mut self, nearest: Vec<String>) -> Self {
        if let Some(first) = nearest.first() {
            self.try_this.clone_from(first);
        }
        self.nearest = nearest;
        self
    }
}

impl fmt::Display for DesignationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; try `{}`", self.says, self.try_this)
    }
}

impl std::error::Error for DesignationError {}
