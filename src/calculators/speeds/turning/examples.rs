//! Examples of turning in the demonstration shop.

use crate::calculators::Example;

/// The examples, the main use first.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A 2 in winch shaft of 1045 is roughed 0.1 in deep with a high-speed steel tool.":
        diameter = "2 in", depth_of_cut = "0.1 in", material = "1045-normalised", tool_material = "hss",
        available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
        efficiency = "80 percent";
    "A 40 mm pump shaft of 316 gets its finishing cut on a lathe with feed gears.":
        diameter = "40 mm", depth_of_cut = "0.5 mm", material = "316", tool_material = "hss", range_point = "middle",
        cut = "finish", cutting_edge_angle = "60 deg", slowest = "100 rpm", fastest = "900 rpm",
        may_exceed = "10 percent", fastest_feed = "200 mm/min",
        available_feeds = "0.05 mm/rev,0.08 mm/rev,0.1 mm/rev,0.16 mm/rev", spindle_power = "1.5 kW",
        base_speed = "400 rpm";
    "A textbook's volume, reckoned on the outside, for a 200 mm drum.":
        diameter = "200 mm", depth_of_cut = "4 mm", cutting_speed = "100 m/min", feed_per_rev = "0.25 mm/rev",
        removal_by = "outer";
};
