//! What a request to identify a thread must not contradict, and the pitch in whichever way it is stated.

use super::IdentifyInput;
use crate::quantity::{SiValue, Unit};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// One part at a time is measured, over or between its crests.
pub fn check_diameter(input: &IdentifyInput) -> Result<(), ValidationError> {
    match (&input.major_diameter, &input.minor_diameter) {
        (None, None) => Err(rule_broken(
            Code::FieldMissing,
            "State the major diameter of an external thread or the minor diameter of an internal one.",
            &[("major_diameter", "0.497 in"), ("minor_diameter", "0.422 in")],
        )),
        (Some(_), Some(_)) => Err(rule_broken(
            Code::Conflict,
            "One part at a time: an external thread has its major diameter measured, an internal one its minor.",
            &[("major_diameter", "leave out"), ("minor_diameter", "leave out")],
        )),
        _ => Ok(()),
    }
}

/// The pitch is stated in one way.
pub fn check_pitch(input: &IdentifyInput) -> Result<(), ValidationError> {
    let stated = [input.pitch.is_some(), input.threads_per_inch.is_some(), input.turns.is_some()];
    let fields = [("pitch", "1.75 mm"), ("threads_per_inch", "13"), ("turns", "12"), ("turns_length", "0.923 in")];
    if input.turns.is_some() != input.turns_length.is_some() {
        let says = "turns and turns_length belong together: how many pitches, over what length.";
        return Err(rule_broken(Code::Conflict, says, &fields[2..]));
    }
    match stated.iter().filter(|stated| **stated).count() {
        0 => {
            let says = "State the pitch, the threads in one inch, or turns counted over a length.";
            Err(rule_broken(Code::FieldMissing, says, &fields))
        }
        1 => check_turns(input),
        _ => {
            let says = "State the pitch in one way only.";
            let left_out: Vec<_> =
                fields.iter().take(3).zip(stated).filter(|(_, is)| *is).map(|((f, _), _)| (*f, "leave out")).collect();
            Err(rule_broken(Code::Conflict, says, &left_out))
        }
    }
}

fn check_turns(input: &IdentifyInput) -> Result<(), ValidationError> {
    let refuse = |field, good| {
        let says = "No thread in any list has such a pitch: 0.2 mm (127 to the inch) to 50 mm are looked at.";
        Err(rule_broken(Code::ValueOutOfRange, says, &[(field, good)]))
    };
    if (0.0002..=0.05).contains(&pitch_of(input)) {
        return Ok(());
    }
    match (input.pitch, input.threads_per_inch) {
        (Some(_), _) => refuse("pitch", "1.75 mm"),
        (_, Some(_)) => refuse("threads_per_inch", "13"),
        _ => refuse("turns", "12"),
    }
}

/// The pitch as stated, in metres.
pub fn pitch_of(input: &IdentifyInput) -> f64 {
    match (input.pitch, input.threads_per_inch, input.turns, input.turns_length) {
        (Some(pitch), ..) => pitch.get().si(),
        (_, Some(threads), ..) => Unit::Inch.to_si(1.0) / threads.get(),
        (_, _, Some(turns), Some(length)) => length.get().si() / turns.get(),
        _ => 0.0,
    }
}
