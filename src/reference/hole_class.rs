//! The tolerance class of a hole as a request names it, `H7`.

use super::by_name;
use super::fits::ToleranceClass;
use crate::refusal::{Code, Unread};

/// A tolerance class of a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoleClass(pub ToleranceClass);

impl HoleClass {
    /// Reads `H7`, `D8`, `JS6`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let refuse = |code, says: String, try_this: String| Err(Unread { code, says, try_this });
        let said = crate::quantity::shown(text);
        match ToleranceClass::read(text.trim()) {
            Some(class) if class.is_hole => Ok(Self(class)),
            Some(class) => refuse(
                Code::NotOffered,
                format!("\"{said}\" is a class of a shaft; a hole has capital letters."),
                class.mirrored().to_string(),
            ),
            None => refuse(Code::ValueUnreadable, format!("\"{said}\" is not a class of a hole."), "H7".to_owned()),
        }
    }

    fn name(&self) -> String {
        self.0.to_string()
    }
}

by_name!(HoleClass, "A tolerance class of a hole after ISO 286: H7, H8, D8, JS6.", "H7");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_classes_of_holes_are_read() {
        assert_eq!(HoleClass::read("H7").map(|class| class.name()), Ok("H7".to_owned()));
        assert_eq!(HoleClass::read("g6").unwrap_err().try_this, "G6");
        assert_eq!(HoleClass::read("seven").unwrap_err().try_this, "H7");
    }
}
