//! Examples of milling in the demonstration shop.

use crate::calculators::Example;

/// The examples, the main use first.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A four-flute 1/2 in high-speed steel end mill cuts a 1/4 in step in a winch bracket of annealed 4140 on the bench mill.":
        diameter = "1/2 in", teeth = "4", cutting_speed = "70 ft/min", material = "4140 annealed",
        tool_material = "hss", feed_per_tooth = "0.002 in/tooth", radial_depth = "0.250 in", axial_depth = "0.250 in",
        available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
        efficiency = "85 percent";
    "A 50 mm face mill with edges at 45° takes a light side cut off a mill gear housing, its greatest chip held at 0.1 mm, within the speeds and feeds of the machine.":
        diameter = "50 mm", teeth = "4", cutting_speed = "120 m/min", feed_per_tooth = "0.1 mm/tooth",
        radial_depth = "10 mm", axial_depth = "2 mm", cutting_edge_angle = "45 deg", hold_chip = "greatest",
        way = "conventional", slowest = "112 rpm", fastest = "900 rpm",
        available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", may_exceed = "10 percent",
        fastest_feed = "500 mm/min",
        available_feeds = "40 mm/min,63 mm/min,100 mm/min,160 mm/min,250 mm/min,400 mm/min";
    "A 12 mm two-flute ball-nose cutter of high-speed steel follows the curve of a bronze pump casing, speed and feed from the tables.":
        diameter = "12 mm", teeth = "2", material = "c93200", tool_material = "hss", range_point = "middle",
        radial_depth = "1 mm", axial_depth = "0.5 mm", corner_radius = "6 mm", spindle_power = "1.5 kW",
        base_speed = "500 rpm";
    "A 2 in face mill runs down the middle of a 1-1/4 in wide mill gear pad.":
        diameter = "2 in", teeth = "5", cutting_speed = "250 ft/min", feed_per_tooth = "0.004 in/tooth",
        radial_depth = "1.25 in", axial_depth = "0.05 in", cut_offset = "0.1 in";
};
