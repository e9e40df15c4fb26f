//! Examples of drilling in the demonstration shop.

use crate::calculators::Example;

/// The examples, the main use first.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A 1/2 in high-speed steel drill goes into a winch bracket of annealed 4140 on the bench mill, speed and feed from the tables.":
        diameter = "1/2 in", material = "4140 annealed", tool_material = "hss",
        available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
        efficiency = "85 percent";
    "An 8 mm split-point drill makes an oil hole 40 mm deep in a 304 pump shaft, with the quill's own feeds.":
        diameter = "8 mm", material = "304", tool_material = "hss", range_point = "middle", depth = "40 mm",
        point_angle = "135 deg", point = "split", slowest = "112 rpm", fastest = "1250 rpm", may_exceed = "5 percent",
        fastest_feed = "200 mm/min", available_feeds = "0.05 mm/rev,0.1 mm/rev,0.15 mm/rev", spindle_power = "1.5 kW",
        base_speed = "500 rpm";
    "A 10 mm drill in grey iron of a mill gear housing at a speed and a feed that are known.":
        diameter = "10 mm", cutting_speed = "25 m/min", feed_per_rev = "0.2 mm/rev", material = "grey-iron-35";
};
