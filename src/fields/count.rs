//! A whole number with its bounds, read like any count: `6`, `"6"`, `6.0`.

use crate::declared::{FieldType, OfText, Shape, TypeFacts, whole};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};

/// A whole number from `LEAST` to `MOST`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count<const LEAST: u32, const MOST: u32>(u32);

impl<const LEAST: u32, const MOST: u32> Count<LEAST, MOST> {
    /// A number within the bounds.
    pub const fn of(number: u32) -> Option<Self> {
        if number >= LEAST && number <= MOST { Some(Self(number)) } else { None }
    }

    /// The number.
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl<const LEAST: u32, const MOST: u32> FieldType for Count<LEAST, MOST> {
    const TYPE: TypeFacts =
        TypeFacts::plain(Shape::Count { least: LEAST, most: Some(MOST) }, || whole(LEAST, Some(MOST)));
}

impl<const LEAST: u32, const MOST: u32> OfText for Count<LEAST, MOST> {
    fn of_text(text: &'static str) -> Self {
        Self(u32::of_text(text))
    }
}

impl<'de, const LEAST: u32, const MOST: u32> Deserialize<'de> for Count<LEAST, MOST> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let number = u32::deserialize(deserializer)?;
        if (LEAST..=MOST).contains(&number) {
            return Ok(Self(number));
        }
        let says = format!("{number} is not from {LEAST} to {MOST}.");
        // The field's own example is what to try.
        Err(carry(Unread { code: Code::ValueOutOfRange, says, try_this: String::new() }))
    }
}

impl<const LEAST: u32, const MOST: u32> IntoTree for Count<LEAST, MOST> {
    fn tree(&self) -> Option<Node> {
        self.0.tree()
    }
}
