//! What one turn and one division of a dial move the slide: as stated, or from what the dial or the screw says instead.

use super::HandwheelInput;
use crate::calculators::prelude::*;

/// What a symbol of a step stands for.
#[derive(Clone)]
pub struct Named {
    /// The field that it is.
    pub of: &'static str,
    /// Its value in SI units.
    pub si: f64,
    /// How a step shows it.
    pub shown: Shown,
}

/// A dial and its screw.
pub enum Dial {
    /// Travel of a turn, and the divisions of the dial.
    Turning { turn: Named, divisions: Named },
    /// Travel of a division alone: turns are not known.
    Divided { division: Named },
}

const NOT_WHOLE: &str = "One turn must be a whole number of divisions, from 1 to 10000. These two do not fit together.";

rules! { pub check_dial(HandwheelInput) {
    never(|input| input.divisions.is_none() && input.travel_per_division.is_none() && input.stated_turn().is_none(),
        Code::FieldMissing, travel_per_turn = "0.2 in", divisions = "200"):
        "Give the travel of one turn and the divisions on the dial, or the travel of one division.";
    one_of(travel_per_turn = "0.2 in", threads_per_inch = "5", travel_per_division = "0.001 in"):
        "Give the travel of one turn or of one division, or the threads per inch of the screw.";
    not_both(travel_per_turn, threads_per_inch): "Give the threads per inch of the screw or the travel of one turn, \
     not both.";
    never(|input| input.divisions.is_none() && input.travel_per_division.is_none(), Code::FieldMissing,
        divisions = "200", travel_per_division = "0.001 in"):
        "Give the divisions on the dial, or the travel of one division.";
    never(|input| input.threads_per_inch.is_some_and(|threads| !(0.1..=500.0).contains(&threads.get())),
        Code::ValueOutOfRange, threads_per_inch = "5"): "The screw of a slide has from 0.1 to 500 threads per inch.";
    never(|input| input.is_not_whole() && input.divisions.is_some(), Code::Conflict,
        travel_per_division = "leave out"): NOT_WHOLE;
    never(|input| input.is_not_whole() && input.travel_per_turn.is_some(), Code::Conflict,
        travel_per_turn = "leave out"): NOT_WHOLE;
    never(|input| input.is_not_whole(), Code::Conflict, threads_per_inch = "leave out"): NOT_WHOLE;
    never(|input| input.whole_divisions().zip(input.divisions)
        .is_some_and(|(all, stated)| all.round() as u32 != stated.get()), Code::Conflict,
        travel_per_division = "leave out", divisions = "leave out"):
        "One turn holds another number of these divisions than the dial has. Leave out what is wrong.";
    never(|input| input.dial_now.is_some() && input.turn().is_none(), Code::Conflict,
        dial_now = "leave out", divisions = "200"):
        "Give the travel of one turn or the divisions on the dial too: without them it is not known where the dial \
         ends.";
} }

impl HandwheelInput {
    /// Travel of one turn in meters, where it is known.
    pub fn turn(&self) -> Option<f64> {
        let by_divisions = || Some(self.travel_per_division?.get().si() * f64::from(self.divisions?.get()));
        self.stated_turn().or_else(by_divisions)
    }

    fn stated_turn(&self) -> Option<f64> {
        let of_screw = || Some(Unit::Inch.to_si(1.0) / self.threads_per_inch?.get());
        self.travel_per_turn.map(|turn| turn.get().si()).or_else(of_screw)
    }

    /// Divisions in a turn by the travel of one.
    fn whole_divisions(&self) -> Option<f64> {
        Some(self.stated_turn()? / self.travel_per_division?.get().si())
    }

    fn is_not_whole(&self) -> bool {
        let whole = |all: f64| (0.5..10_000.5).contains(&all) && (all - all.round()).abs() <= 1e-6 * all;
        self.whole_divisions().is_some_and(|all| !whole(all))
    }

    /// The unit that the dial is marked in.
    pub fn dial_unit(&self) -> Unit {
        let stated = self.travel_per_turn.or(self.travel_per_division);
        stated.map_or(Unit::Inch, |stated| stated.quantity().unit)
    }
}

impl Dial {
    /// The dial of a request that keeps the rules.
    pub fn find(input: &HandwheelInput, record: &mut Record) -> Option<Self> {
        let named = |of, measure: Size| Named { of, si: measure.get().si(), shown: measure.into() };
        let Some(turn) = turn_of(input, record) else {
            return input
                .travel_per_division
                .map(|division| Dial::Divided { division: named("travel_per_division", division) });
        };
        let divisions = match (input.divisions, input.travel_per_division) {
            (Some(stated), _) => Named { of: "divisions", si: f64::from(stated.get()), shown: stated.get().into() },
            (None, division) => {
                let (of, division) = ("dial_divisions", division?);
                let count = (turn.si / division.get().si()).round();
                record
                    .step("Divisions on the dial", "N = round(T / v)")
                    .with("T", turn.of, turn.shown.clone())
                    .with("v", "travel_per_division", division)
                    .gives(of, count);
                Named { of, si: count, shown: count.into() }
            }
        };
        Some(Dial::Turning { turn, divisions })
    }

    /// How many divisions a turn has, where turns are known.
    pub fn turn_and_divisions(&self) -> Option<(&Named, &Named)> {
        match self {
            Dial::Turning { turn, divisions } => Some((turn, divisions)),
            Dial::Divided { .. } => None,
        }
    }

    /// Travel of one division, in meters.
    pub fn division(&self) -> f64 {
        match self {
            Dial::Turning { turn, divisions } => turn.si / divisions.si,
            Dial::Divided { division } => division.si,
        }
    }
}

/// Travel of one turn, on record where it is not stated.
fn turn_of(input: &HandwheelInput, record: &mut Record) -> Option<Named> {
    if let Some(turn) = input.travel_per_turn {
        return Some(Named { of: "travel_per_turn", si: turn.get().si(), shown: turn.into() });
    }
    let of = "screw_travel";
    let turn: FoundSize = match (input.threads_per_inch, input.travel_per_division, input.divisions) {
        (Some(threads), _, _) => step!(record, "Travel of one turn", T: (of) = I / n,
            I = "constant:inch": FoundSize::stated(1.0, Unit::Inch), n = threads_per_inch: threads.get()),
        (None, Some(division), Some(divisions)) => step!(record, "Travel of one turn", T: (of) = v * N,
            v = travel_per_division: division, N = divisions: divisions.get()),
        _ => return None,
    };
    Some(Named { of, si: turn.get().si(), shown: turn.into() })
}
