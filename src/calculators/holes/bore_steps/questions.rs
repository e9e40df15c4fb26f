//! What a foreman asks about boring to size.

use crate::calculators::prelude::*;

/// The questions.
pub const QUESTIONS: &[Exercise] = exercises! {
    1 "A bore measures {now} and is to be {target}. How much has to come off, on the diameter?" => "stock":
        { now = "0.985 in" | "1.000 in" | "1.120 in", target = "1.2505 in" | "1.375 in", depth_of_cut = "0.03 in" }
        { now = "20 mm" | "21.5 mm" | "24.2 mm", target = "28 mm" | "30 mm", depth_of_cut = "0.8 mm" };
    1 "The head was set for {set_for}, and the bore measures {now}. How much smaller did it come out?"
        => "came_out_smaller":
        { set_for = "1.240 in" | "1.242 in", now = "1.2385 in" | "1.239 in", target = "1.2505 in", depth_of_cut = "0.03 in" }
        { set_for = "39.8 mm" | "39.82 mm", now = "39.76 mm" | "39.78 mm", target = "40 mm", depth_of_cut = "0.5 mm" };
    2 "From {now} to {target}: a cut goes {depth_of_cut} deep on the radius, and {finish} is left on the diameter for the \
       last one. How many cuts are there?" => "count":
        { now = "1.000 in" | "1.050 in", target = "1.250 in" | "1.375 in", depth_of_cut = "0.02 in" | "0.03 in" | "0.04 in",
          finish = "0.01 in" | "0.02 in" }
        { now = "20 mm" | "22 mm", target = "28 mm" | "30 mm", depth_of_cut = "0.5 mm" | "0.8 mm" | "1 mm",
          finish = "0.2 mm" | "0.4 mm" };
    2 "The bore is {now} and one division of the head counts {division} on the radius. It is to be {target}, in one cut. \
       How many divisions do you turn on?" => "cuts/0/divisions":
        { now = "1.244 in" | "1.246 in", target = "1.250 in" | "1.251 in", division = "0.001 in" | "0.0005 in",
          head_counts = "radius", depth_of_cut = "0.02 in", finish = "0.01 in" }
        { now = "39.8 mm" | "39.86 mm", target = "40 mm" | "40.02 mm", division = "0.01 mm", head_counts = "radius",
          depth_of_cut = "0.5 mm", finish = "0.3 mm" };
    3 "A head counts {division} of diameter for a division. You bore from {now} to {target} with cuts of {depth_of_cut} on \
       the radius. How many divisions is the first cut?" => "cuts/0/divisions":
        { now = "1.000 in" | "1.050 in", target = "1.250 in", division = "0.001 in" | "0.002 in", head_counts = "diameter",
          depth_of_cut = "0.02 in" | "0.03 in", finish = "0.01 in" }
        { now = "20 mm" | "22 mm", target = "28 mm", division = "0.02 mm" | "0.05 mm", head_counts = "diameter",
          depth_of_cut = "0.5 mm" | "0.8 mm", finish = "0.2 mm" };
};
