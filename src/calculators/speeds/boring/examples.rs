//! Examples of boring in the demonstration shop.

use crate::calculators::Example;

/// The examples, the main use first.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A pump casing of grey iron is bored to 1-1/2 in, 0.05 in deep, with a 5/8 in bar 3 in out.":
        diameter = "1-1/2 in", depth_of_cut = "0.05 in", material = "grey-iron-35", tool_material = "hss",
        overhang = "3 in", bar_diameter = "5/8 in",
        available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
        efficiency = "85 percent";
    "A bronze bush of a winch is bored to 40 mm.":
        diameter = "40 mm", depth_of_cut = "0.5 mm", material = "c93200", tool_material = "hss", range_point = "low",
        cutting_edge_angle = "75 deg", slowest = "112 rpm", fastest = "900 rpm", may_exceed = "5 percent",
        fastest_feed = "150 mm/min", available_feeds = "0.05 mm/rev,0.1 mm/rev", spindle_power = "1.5 kW",
        base_speed = "400 rpm";
    "A bore of 50 mm at a speed and a feed that are known.":
        diameter = "50 mm", depth_of_cut = "1 mm", cutting_speed = "60 m/min", feed_per_rev = "0.1 mm/rev";
};
