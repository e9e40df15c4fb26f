//! What a foreman asks about reamed holes.

use crate::calculators::prelude::*;

/// The questions.
pub const QUESTIONS: &[Exercise] = exercises! {
    1 "A {diameter} machine reamer: what is the most stock that the chart leaves for it on the diameter?" => "stock_high":
        { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "1 in", reamer = "machine", units = "inch", from = "tables" };
    1 "You ream {diameter} {hole_class}. How large may the hole be at most?" => "hole/greatest":
        { diameter = "6 mm" | "10 mm" | "12 mm" | "20 mm" | "25 mm", hole_class = "H7" | "H8", units = "metric",
          from = "tables" };
    2 "A hole is reamed by hand to {diameter}. How large may it be drilled, by the table of the trade course?"
        => "drill_high":
        { diameter = "5 mm" | "8 mm" | "10 mm" | "16 mm" | "25 mm", reamer = "hand", units = "metric", from = "tables" };
    2 "Which metric drill do you take before a machine reamer of {diameter}?" => "drill/diameter":
        { diameter = "6 mm" | "8 mm" | "10 mm" | "12 mm", reamer = "machine", systems = "metric", units = "metric",
          from = "tables" };
    3 "A new reamer is to cut {diameter} {hole_class}. How large may it be, by the rule of 15 percent of the tolerance?"
        => "new_reamer/greatest":
        { diameter = "6 mm" | "10 mm" | "16 mm" | "25 mm" | "40 mm", hole_class = "H7" | "H8" | "D8", units = "metric",
          from = "tables" };
};
