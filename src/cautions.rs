//! The usual cautions of the trade, in our own words: each a code that does not change and its
//! sentence. A calculator names those that its operation needs.

/// For any answer that sets a machine.
pub const STARTING_POINT: (&str, &str) = (
    "starting_point",
    "A starting point, not a setting to trust blindly: the tool maker's data, the machine's manual and the rules of \
     the shop come first, and a qualified person decides.",
);

/// For work on any machine with a turning spindle.
pub const TURNING_SPINDLE: (&str, &str) = (
    "turning_spindle",
    "Wear eye protection, keep gloves, sleeves and hair away from the spindle, and stop it before measuring or \
     clearing chips.",
);

/// For milling.
pub const MILLING: (&str, &str) = (
    "milling",
    "Clamp the work against the cut, keep the cutter short, and keep hands away until the cutter stands still.",
);

/// For climb milling.
pub const CLIMB_MILLING: (&str, &str) = (
    "climb_milling",
    "In climb milling the cutter can pull the table through the backlash of its screw, break the cutter and throw \
     the work: lock what does not move, and mill conventionally where the screw has play.",
);

/// For drilling.
pub const DRILLING: (&str, &str) = (
    "drilling",
    "Clamp the work so that it cannot spin, look at what lies below the hole, and ease the feed where the point \
     breaks through.",
);

/// For tapping.
pub const TAPPING: (&str, &str) = (
    "tapping",
    "The feed is fixed by the pitch. Leave room below the thread for the tap's lead and the chips; a tap that \
     meets the bottom breaks, and its splinters are sharp.",
);

/// For spindle speeds.
pub const SPEED_LIMIT: (&str, &str) =
    ("speed_limit", "Never go above the speed marked on the chuck, the holder, the fixture or the tool.");

/// For finding an edge with the spindle turning.
pub const TOUCHING: (&str, &str) = (
    "touching",
    "Turn an edge finder no faster than its maker allows, come up slowly, and lift it clear before it crosses the work. \
     Touch with a cutter or hold a shim only while the spindle stands still.",
);

/// For an indicator in the spindle or on work in a chuck.
pub const INDICATING: (&str, &str) = (
    "indicating",
    "Turn spindle or chuck by hand with the drive off, and take indicator and key away before it is started.",
);

/// For moves from place to place.
pub const OUT_OF_THE_WORK: (&str, &str) = (
    "out_of_the_work",
    "Bring the tool out of the work and clear of every clamp before moving across, and look along the whole way \
     before the table goes.",
);

/// For turning on a lathe.
pub const LATHE: (&str, &str) = (
    "lathe",
    "Take the key out of the chuck, keep sleeves, gloves and cloth away from the work, and stop the spindle before \
     measuring.",
);
