//! A value that could not be read, and its way through serde, whose errors take only words: the whole is left beside
//! the words for the reader of a request, which takes it at once.

use super::Code;
use serde::de;
use std::cell::Cell;

/// Why a value could not be read: a code, what is wrong, and a value to try.
#[derive(Clone, Debug, PartialEq)]
pub struct Unread {
    /// What kind of wrong.
    pub code: Code,
    /// What is wrong, in words.
    pub says: String,
    /// A value that would be right; empty where none is known here.
    pub try_this: String,
}

impl Unread {
    /// Not readable, as `code` says and in words, with a value to try.
    pub fn new(code: Code, says: impl Into<String>, try_this: impl Into<String>) -> Self {
        Self { code, says: says.into(), try_this: try_this.into() }
    }
}

thread_local! {
    /// What is being made an error of serde's right now.
    static CARRIED: Cell<Option<Unread>> = const { Cell::new(None) };
}

/// `unread` as an error of serde's: in words for any reader, whole for one that asks [`carried`].
pub fn carry<E: de::Error>(unread: Unread) -> E {
    let words = unread.says.clone();
    CARRIED.set(Some(unread));
    let error = E::custom(words);
    // A reader that takes only words has left it, and no later error may find it.
    CARRIED.take();
    error
}

/// What is being carried in these `words`; nothing for words of serde or of another error.
pub(crate) fn carried(words: &str) -> Option<Unread> {
    CARRIED.take().filter(|unread| unread.says == words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fmt::{self, Display};

    /// An error that asks for what is carried.
    #[derive(Debug)]
    struct Asking(Option<Unread>);

    impl Display for Asking {
        fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            write!(f, "{:?}", self.0)
        }
    }

    impl std::error::Error for Asking {}

    impl de::Error for Asking {
        fn custom<T: Display>(message: T) -> Self {
            Self(carried(&message.to_string()))
        }
    }

    fn too_large() -> Unread {
        Unread::new(Code::ValueOutOfRange, "\"9 in\" is beyond 8 in.", "8 in")
    }

    #[test]
    fn the_whole_goes_with_the_words() {
        assert_eq!(carry::<Asking>(too_large()).0, Some(too_large()));
    }

    #[test]
    fn what_another_error_left_is_not_found_later() {
        let words = carry::<serde_json::Error>(too_large()).to_string();
        assert_eq!(words, too_large().says);
        assert_eq!(<Asking as de::Error>::custom(words).0, None);
    }

    #[test]
    fn other_words_carry_nothing_and_end_the_carrying() {
        CARRIED.set(Some(too_large()));
        assert_eq!(<Asking as de::Error>::custom("something else").0, None);
        assert_eq!(<Asking as de::Error>::custom(too_large().says).0, None);
    }
}
