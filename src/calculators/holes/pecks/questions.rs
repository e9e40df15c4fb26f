//! What a foreman asks about pecks.

use crate::calculators::prelude::*;

/// The questions.
pub const QUESTIONS: &[Exercise] = exercises! {
    1 "You peck {depth} deep at {feed_rate}. How long does the drill cut, without the retracts?" => "time":
        { diameter = "1/4 in", depth = "1-1/2 in" | "2 in" | "3 in", feed_rate = "2 in/min" | "3 in/min" | "4 in/min",
          material = "c36000" }
        { diameter = "8 mm", depth = "40 mm" | "60 mm", feed_rate = "50 mm/min" | "60 mm/min" | "80 mm/min",
          material = "c36000" };
    2 "A {diameter} hole in brass is {depth} deep: the first peck is {first_peck}, the second {next_peck}. How deep is \
       the tip after the second?" => "pecks/1/depth":
        { diameter = "1/4 in", depth = "2 in" | "3 in", first_peck = "1/2 in" | "3/4 in", next_peck = "1/4 in" | "3/8 in",
          material = "c36000" }
        { diameter = "8 mm", depth = "60 mm" | "80 mm", first_peck = "15 mm" | "16 mm" | "20 mm",
          next_peck = "8 mm" | "10 mm", material = "c36000" };
    2 "The table reduces the cutting speed for deep holes. By how much for a {diameter} hole {depth} deep?"
        => "speed_reduction":
        { diameter = "1/4 in", depth = "3/4 in" | "1 in" | "1-1/4 in" | "1-1/2 in", material = "c36000" }
        { diameter = "8 mm" | "10 mm", depth = "40 mm" | "48 mm", material = "c36000" };
    3 "The first peck of a {depth} hole is {first_peck}, the second {next_peck}, and each after it {shrink} smaller, but \
       none below {smallest_peck}. How many pecks are there?" => "count":
        { diameter = "1/4 in", depth = "1-1/2 in" | "2 in", first_peck = "1/2 in" | "3/4 in", next_peck = "1/4 in" | "3/8 in",
          smallest_peck = "1/8 in" | "3/16 in", shrink = "20 percent" | "25 percent", material = "c36000" }
        { diameter = "8 mm", depth = "40 mm" | "60 mm", first_peck = "16 mm" | "20 mm", next_peck = "8 mm" | "10 mm",
          smallest_peck = "4 mm" | "5 mm", shrink = "20 percent" | "25 percent", material = "c36000" };
    3 "Pecking {depth} at {feed_rate}, with a first peck of {first_peck} and then {next_peck} each time, you need \
       {retract_time} for each retract. How long does the hole take?" => "time":
        { diameter = "8 mm", depth = "40 mm" | "60 mm", feed_rate = "50 mm/min" | "60 mm/min", first_peck = "16 mm" | "20 mm",
          next_peck = "8 mm" | "10 mm", smallest_peck = "8 mm", retract_time = "5 s" | "8 s", material = "c36000" }
        { diameter = "1/4 in", depth = "2 in" | "2-1/2 in", feed_rate = "2 in/min" | "3 in/min", first_peck = "1/2 in",
          next_peck = "1/4 in", smallest_peck = "1/4 in", retract_time = "5 s" | "10 s", material = "c36000" };
};
