//! What is wrong with a shop's file: the line, the key, what is wrong, and what would be right.

use std::fmt;

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The line, from 1.
    pub line: usize,
    /// The key with those it stands under, such as `machines.mill.slowest`; empty where the line
    /// is no TOML.
    pub key: String,
    /// What is wrong, in words.
    pub says: String,
    /// What would be right, as the file would have it.
    pub try_this: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { line, key, says, try_this } = self;
        let colon = if key.is_empty() { "" } else { ": " };
        write!(f, "line {line}: {key}{colon}{says} Try {try_this}.")
    }
}

/// All that is wrong, by line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Faults(pub Vec<Fault>);

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, fault) in self.0.iter().enumerate() {
            write!(f, "{}{fault}", if at > 0 { "\n" } else { "" })?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}
