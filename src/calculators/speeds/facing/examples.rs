//! Examples of facing and parting in the demonstration shop.

use crate::calculators::Example;

/// The examples, the main use first.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A 2 in winch shaft end of 1018 is faced 0.05 in deep down to a 1 in bore.":
        outer_diameter = "2 in", inner_diameter = "1 in", depth_of_cut = "0.05 in", material = "1018",
        tool_material = "hss", available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm",
        spindle_power = "1.5 kW", efficiency = "85 percent";
    "A 50 mm pump shaft is faced to the centre with the surface speed held, up to 1250 rpm.":
        outer_diameter = "50 mm", cutting_speed = "60 m/min", feed_per_rev = "0.1 mm/rev", hold = "surface_speed",
        slowest = "50 rpm", fastest = "1250 rpm", may_exceed = "0 percent", fastest_feed = "500 mm/min";
    "A 30 mm bar of bronze is parted with a 3 mm tool on a lathe with feed gears.":
        outer_diameter = "30 mm", depth_of_cut = "3 mm", material = "c93200", tool_material = "hss",
        range_point = "low", cut = "parting", fastest = "400 rpm",
        available_feeds = "0.05 mm/rev,0.08 mm/rev,0.1 mm/rev", spindle_power = "1.5 kW", base_speed = "500 rpm";
};
