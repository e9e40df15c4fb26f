//! What a designation of any system may say once, and what it may not say: starts, classes, coarse pitches.

use crate::reference::threads::TO_MINOR_DIAMETER;
use crate::reference::threads::error::{DesignationError, ErrorKind};

/// Refusal of what stands after size and pitch and is neither series, class, hand nor starts.
pub(super) fn left_over(what: &str, plain: &str, example: &str) -> DesignationError {
    DesignationError::new(
        ErrorKind::Unreadable,
        format!(
            "in `{plain}`, `{what}` is not a series, a class, a hand or a number of starts; \
             leave lengths and notes out"
        ),
        example,
    )
}

/// Refusal of a second value where one has been read already.
pub(super) fn said_twice(what: &str, plain: &str, example: &str) -> DesignationError {
    DesignationError::new(ErrorKind::Ambiguous, format!("`{plain}` names {what} more than once"), example)
}

/// Sets a part of a designation, refusing to set it twice.
pub(super) fn set_once<T>(
    place: &mut Option<T>,
    value: T,
    what: &str,
    plain: &str,
    example: &str,
) -> Result<(), DesignationError> {
    if place.replace(value).is_some() {
        return Err(said_twice(what, plain, example));
    }
    Ok(())
}

/// Number of starts from the number written before `start` or `starts`.
pub(super) fn starts(value: f64, plain: &str, example: &str) -> Result<u32, DesignationError> {
    if (1.0..=12.0).contains(&value) && value.fract() == 0.0 {
        return Ok(value as u32);
    }
    Err(DesignationError::new(
        ErrorKind::OutOfRange,
        format!("`{plain}`: the number of starts is a whole number from 1 to 12"),
        example,
    ))
}

/// A root deeper than half the diameter is no thread; most often the number read as the pitch
/// was a length.
pub(super) fn refuse_coarse(
    diameter: f64,
    pitch: f64,
    read_as: &str,
    plain: &str,
    example: &str,
) -> Result<(), DesignationError> {
    if TO_MINOR_DIAMETER * pitch <= diameter / 2.0 {
        return Ok(());
    }
    Err(DesignationError::new(
        ErrorKind::OutOfRange,
        format!(
            "`{plain}` reads as {read_as}, which would cut away more than half of the diameter; \
             check size and pitch, and leave any length out"
        ),
        example,
    ))
}
