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
     meets the bottom breaks, and its splinters are sharp. Turn a hand tap by hand, with the spindle switched off.",
);

/// For a thread found on a part.
pub const FOUND_THREAD: (&str, &str) = (
    "found_thread",
    "A likely thread is not a proven one: try a mating part by hand and never force it. Where pressure or a load hangs on \
     the thread, a qualified person decides.",
);

/// For a hole that is tapped anew because its thread was spoiled.
pub const SPOILED_HOLE: (&str, &str) = (
    "spoiled_hole",
    "A larger thread takes metal from the wall. Where pressure, lifting or a person's safety hangs on it, the maker of the \
     part and a qualified person decide, not this table.",
);

/// For threading on a lathe.
pub const THREADING_LATHE: (&str, &str) = (
    "threading_lathe",
    "Thread at a speed at which the half-nuts can be opened in time, cut a relief groove and set a carriage stop where the \
     thread ends near a shoulder or the chuck, keep hands off the turning work, and stop the spindle to measure.",
);

/// For spindle speeds.
pub const SPEED_LIMIT: (&str, &str) =
    ("speed_limit", "Never go above the speed marked on the chuck, the holder, the fixture or the tool.");

/// For big diameters, and speeds near the fastest that is stated.
pub const RATED_SPEED: (&str, &str) = (
    "rated_speed",
    "Big work and high speed burst chucks, faceplates and wheels, and throw work that is out of balance: read the speed \
     marked on them, stay below it, balance, and stand out of line when the spindle starts.",
);

/// For turning close to the jaws.
pub const JAWS: (&str, &str) = (
    "jaws",
    "Turn the spindle round by hand with the tool at the end of its way: jaws must clear tool, slide and bed. Set a stop, \
     and stop the feed by hand before the jaws.",
);

/// For tapping under power.
pub const POWER_TAPPING: (&str, &str) = (
    "power_tapping",
    "Never tap under power without a tapping head or a spindle that turns back, and never leave a wrench or a chuck key \
     in the spindle, the chuck or on the tap.",
);

/// For tapping by hand.
pub const HAND_TAPPING: (&str, &str) = (
    "hand_tapping",
    "Start the tap square. The spindle only guides it, with the drive off: turn it by a wrench, and take the wrench off \
     before the drive is switched on.",
);

/// What every cut on a lathe warns of.
pub const ON_THE_LATHE: &[(&str, &str)] = &[TURNING_SPINDLE, TURNING, JAWS, SPEED_LIMIT];

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

/// For reaming.
pub const REAMING: (&str, &str) = (
    "reaming",
    "Never turn a reamer backwards in the hole, clear the chips, and leave enough stock: a reamer that rubs is dull soon.",
);

/// For countersinking.
pub const COUNTERSINKING: (&str, &str) = (
    "countersinking",
    "Chatter means too fast: lower the speed, feed firmly, and clamp the work. Keep clear of the quill's return.",
);

/// For turning, boring and facing.
pub const TURNING: (&str, &str) = (
    "turning",
    "Take the chuck key out, secure the jaws, support long bars inside and outside the spindle, and break chips: never \
     pull a string of them.",
);

/// For turning at constant surface speed.
pub const CONSTANT_SURFACE_SPEED: (&str, &str) = (
    "constant_surface_speed",
    "At constant surface speed the spindle runs ever faster towards the centre: set a limit that chuck, jaws and work \
     bear.",
);

/// For parting.
pub const PARTING: (&str, &str) =
    ("parting", "Part close to the chuck with a sharp tool on centre, and keep hands away from the piece that falls.");

/// For boring bars.
pub const BORING: (&str, &str) = (
    "boring",
    "A bar that stands out more than four times its diameter chatters: take a thicker or shorter one, or cut lighter.",
);

/// For sawing.
pub const SAWING: (&str, &str) = (
    "sawing",
    "Set the guard down to the work, keep at least three teeth in the cut and hands out of its line, and support the \
     piece that falls.",
);

/// For entering with a milling cutter.
pub const ENTRY: (&str, &str) = (
    "entry",
    "Go straight down only with a cutter that cuts to its centre; what slope a cutter bears, its maker says.",
);

/// For tool life.
pub const TOOL_LIFE: (&str, &str) = (
    "tool_life",
    "The constants hold for one pair of tool and metal; beyond twice the tested speeds they are a guess. Change a tool by \
     its wear, not by the clock.",
);

/// For roughness.
pub const ROUGHNESS: (&str, &str) = (
    "roughness",
    "The geometry is the floor, not a promise: vibration, built-up edge and wear come on top. Measure the surface.",
);

/// For times.
pub const TIMES: (&str, &str) =
    ("times", "Cutting time only: loading, tool changes, measuring, and speeding up come on top.");

/// For forces and power.
pub const FORCES: (&str, &str) =
    ("forces", "Hold work and tool for more than the force found: it scatters, and a worn tool needs a third more.");

/// A material's own caution by its code in the table of materials.
pub fn of_material(code: &str) -> Option<(&'static str, &'static str)> {
    Some(match code {
        "magnesium" => (
            "magnesium",
            "Magnesium chips burn: sharp tools, firm feed, chips swept away, dry sand or a class D extinguisher at hand, \
             never water, and no water-based coolant.",
        ),
        "titanium" => (
            "titanium",
            "Fine titanium chips burn: keep the feed up and the tool sharp, sweep chips away, and have dry sand or a class \
             D extinguisher at hand, never water.",
        ),
        "beryllium" => (
            "beryllium",
            "Dust and fume of beryllium copper are poisonous to breathe: cut wet, extract, and follow the local exposure \
             rules.",
        ),
        "lead" => (
            "lead",
            "The alloy holds lead: no dust or fume, wash hands before eating, follow the local exposure rules.",
        ),
        "iron_dust" => ("iron_dust", "Cast iron makes fine dust: extract it and keep it off slideways and lungs."),
        "nickel_work_hardening" => (
            "nickel_work_hardening",
            "The metal hardens under a tool that rubs: keep the feed up, never dwell, and use a sharp tool.",
        ),
        "hardened" => ("hardened", "Hardened steel and its tools can fly to pieces: rigid set-up, guards closed."),
        "plastic_heat" => (
            "plastic_heat",
            "Plastic melts and grows with heat: sharp tools, cool chips, and sizes measured when it is cold.",
        ),
        "plastic_fumes" => (
            "plastic_fumes",
            "Overheated swarf of this plastic gives off poisonous fumes: keep it cool, extract, and do not smoke near it.",
        ),
        _ => return None,
    })
}
