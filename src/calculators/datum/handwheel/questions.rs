//! What a foreman asks about turns and dials.

use crate::calculators::prelude::*;

/// The questions.
pub const QUESTIONS: &[Exercise] = exercises! {
    1 "One turn of the handwheel moves the table {travel_per_turn}. How many whole turns go into {distance}?"
        => "turns":
        { travel_per_turn = "0.1 in" | "0.2 in" | "0.25 in", divisions = "100",
          distance = "1.875 in" | "2.3 in" | "3.6 in" }
        { travel_per_turn = "4 mm" | "5 mm", divisions = "100", distance = "23.5 mm" | "37 mm" | "62 mm" };
    1 "A slide moves {travel_per_division} for each division of its dial. How many divisions, to the nearest, are \
       {distance}?" => "nearest/divisions":
        { travel_per_division = "0.001 in" | "0.002 in", distance = "0.046 in" | "0.074 in" | "0.128 in" }
        { travel_per_division = "0.02 mm" | "0.05 mm", distance = "0.6 mm" | "1.5 mm" | "2.4 mm" };
    2 "One turn is {travel_per_turn}, and the dial has {divisions} divisions. You go {distance}. How many \
       divisions, to the nearest, come after the whole turns?" => "nearest/divisions":
        { travel_per_turn = "0.2 in", divisions = "200", distance = "1.234 in" | "0.875 in" | "2.563 in" }
        { travel_per_turn = "0.1 in", divisions = "100", distance = "0.734 in" | "1.312 in" }
        { travel_per_turn = "5 mm", divisions = "100", distance = "23.75 mm" | "61.4 mm" | "17.2 mm" }
        { travel_per_turn = "4 mm", divisions = "80", distance = "30.6 mm" | "13.35 mm" };
    2 "A cross slide has a screw of {threads_per_inch} threads per inch and a dial of {divisions} divisions. You \
       go {distance}. How many divisions, to the nearest, come after the whole turns?" => "nearest/divisions":
        { threads_per_inch = "8", divisions = "125", distance = "0.3 in" | "0.46 in" | "0.712 in" }
        { threads_per_inch = "10", divisions = "100", distance = "0.235 in" | "0.562 in" }
        { threads_per_inch = "5", divisions = "200", distance = "0.687 in" | "1.45 in" };
    2 "The dial shows {dial_now}, and one turn is {travel_per_turn}. You go on by {distance}, its figures \
       growing. What does the dial show then?" => "dial_reading":
        { dial_now = "0.035 in" | "0.12 in", travel_per_turn = "0.2 in", divisions = "200",
          distance = "0.75 in" | "1.234 in" | "2.5 in" }
        { dial_now = "1.4 mm" | "3.25 mm", travel_per_turn = "5 mm", divisions = "100",
          distance = "12.3 mm" | "38 mm" | "61.5 mm" };
    3 "The screw has {backlash} of backlash, and you approach every place with the dial's figures growing. You go \
       {distance}. How far past the place do you go first, by the rule of twice the backlash?" => "overshoot":
        { backlash = "0.005 in" | "0.008 in" | "0.012 in", distance = "-1.5 in" | "-0.625 in",
          travel_per_turn = "0.2 in", divisions = "200" }
        { backlash = "0.1 mm" | "0.12 mm" | "0.25 mm", distance = "-24 mm" | "-8.5 mm", travel_per_turn = "5 mm",
          divisions = "100" };
    3 "The dial is at {dial_now}, {travel_per_turn} a turn. You go {distance} to a place approached with its \
       figures growing, first past it by twice the backlash of {backlash}. Where on the dial do you turn back?"
        => "turn_back_at":
        { dial_now = "0.15 in" | "0.02 in", travel_per_turn = "0.2 in", divisions = "200",
          distance = "-1.25 in" | "-0.63 in", backlash = "0.005 in" | "0.01 in", approach = "growing" }
        { dial_now = "1.4 mm" | "4.5 mm", travel_per_turn = "5 mm", divisions = "100",
          distance = "-23.75 mm" | "-11.2 mm", backlash = "0.12 mm" | "0.2 mm", approach = "growing" };
};
