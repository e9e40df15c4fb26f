//! The usual cautions of the trade, in our own words: each a code that does not change and its
//! sentence. A calculator names those that its operation needs.

/// For a strength that was read off a hardness.
pub const STRENGTH_FROM_HARDNESS: (&str, &str) = (
    "strength_from_hardness",
    "A strength from a hardness is an estimate. Do not load a hook, a shackle, a bolt or a pressure part by it: go by \
     its certificate or a tensile test.",
);

/// For any answer that sets a machine.
pub const STARTING_POINT: (&str, &str) = (
    "starting_point",
    "This is a starting point, not a setting to trust blindly. The tool maker's data, the machine's manual and the \
     shop's rules come first, and a qualified person decides.",
);

/// For work on any machine with a turning spindle.
pub const TURNING_SPINDLE: (&str, &str) = (
    "turning_spindle",
    "Wear eye protection. Keep gloves, sleeves and hair away from the spindle, and stop it before you measure or \
     clear chips.",
);

/// For milling.
pub const MILLING: (&str, &str) = (
    "milling",
    "Clamp the work against the cut, let the cutter stick out as little as you can, and keep hands away until it has \
     stopped.",
);

/// For climb milling.
pub const CLIMB_MILLING: (&str, &str) = (
    "climb_milling",
    "In climb milling the cutter can pull the table through its backlash, break, and throw the work. Lock the axes \
     that do not move, and mill conventionally on a machine with backlash.",
);

/// For drilling.
pub const DRILLING: (&str, &str) = (
    "drilling",
    "Clamp the work so that it cannot spin, check what is below the hole, and ease the feed as the point breaks \
     through.",
);

/// For tapping.
pub const TAPPING: (&str, &str) = (
    "tapping",
    "The pitch sets the feed. Leave room below the thread for the tap's lead and the chips: a tap that hits the \
     bottom breaks, and its splinters are sharp. Turn a hand tap by hand, with the spindle switched off.",
);

/// For a thread found on a part.
pub const FOUND_THREAD: (&str, &str) = (
    "found_thread",
    "A likely thread is not a proven one: try a mating part by hand and never force it. Where the thread holds \
     pressure or a load, a qualified person decides.",
);

/// For a hole that is tapped anew because its thread was spoiled.
pub const SPOILED_HOLE: (&str, &str) = (
    "spoiled_hole",
    "A larger thread takes metal from the wall. Where pressure, lifting or a person's safety depends on it, the maker \
     of the part and a qualified person decide, not this table.",
);

/// For threading on a lathe.
pub const THREADING_LATHE: (&str, &str) = (
    "threading_lathe",
    "Thread slowly enough to open the half-nuts in time. Where the thread ends near a shoulder or the chuck, cut a \
     relief groove and set a carriage stop. Keep hands off the turning work, and stop the spindle to measure.",
);

/// For spindle speeds.
pub const SPEED_LIMIT: (&str, &str) =
    ("speed_limit", "Never go above the speed marked on the chuck, the holder, the fixture or the tool.");

/// For big diameters, and speeds near the fastest that is stated.
pub const RATED_SPEED: (&str, &str) = (
    "rated_speed",
    "Big work and high speed can burst chucks, faceplates and wheels, and throw work that is out of balance. Stay \
     below the speed marked on them, balance the work, and stand out of line when the spindle starts.",
);

/// For turning close to the jaws.
pub const JAWS: (&str, &str) = (
    "jaws",
    "Turn the spindle by hand with the tool at the end of its travel: the jaws must clear tool, slide and bed. Set a \
     stop, and stop the feed by hand before the jaws.",
);

/// For tapping under power.
pub const POWER_TAPPING: (&str, &str) = (
    "power_tapping",
    "Never tap under power without a tapping head or a spindle that reverses, and never leave a wrench or a chuck key \
     in the spindle, in the chuck or on the tap.",
);

/// For tapping by hand.
pub const HAND_TAPPING: (&str, &str) = (
    "hand_tapping",
    "Start the tap square. The spindle only guides it, with the drive off: turn the tap with a wrench, and take the \
     wrench off before you switch the drive on.",
);

/// What every cut on a lathe warns of.
pub const ON_THE_LATHE: &[(&str, &str)] = &[TURNING_SPINDLE, TURNING, JAWS, SPEED_LIMIT];

/// For finding an edge with the spindle turning.
pub const TOUCHING: (&str, &str) = (
    "touching",
    "Turn an edge finder no faster than its maker allows, come up slowly, and lift it clear before it crosses the \
     work. Touch with a cutter or hold a shim only while the spindle stands still.",
);

/// For an indicator in the spindle or on work in a chuck.
pub const INDICATING: (&str, &str) = (
    "indicating",
    "Turn the spindle or chuck by hand with the drive off, and take out the indicator and the key before you start it.",
);

/// For moves from place to place.
pub const OUT_OF_THE_WORK: (&str, &str) = (
    "out_of_the_work",
    "Lift the tool out of the work and clear of every clamp before you move across, and check the whole way before \
     the table moves.",
);

/// For turning on a lathe.
pub const LATHE: (&str, &str) = (
    "lathe",
    "Take the key out of the chuck. Keep sleeves, gloves and rags away from the work, and stop the spindle before you \
     measure.",
);

/// For reaming.
pub const REAMING: (&str, &str) = (
    "reaming",
    "Never turn a reamer backward in the hole. Clear the chips, and leave enough stock: a reamer that rubs goes dull \
     fast.",
);

/// For countersinking.
pub const COUNTERSINKING: (&str, &str) = (
    "countersinking",
    "Chatter means the speed is too high: slow down, feed firmly, and clamp the work. Keep clear of the quill as it \
     returns.",
);

/// For turning, boring and facing.
pub const TURNING: (&str, &str) = (
    "turning",
    "Take the chuck key out, secure the jaws, and support long bars inside and outside the spindle. Break the chips, \
     and never pull a string of them by hand.",
);

/// For turning at constant surface speed.
pub const CONSTANT_SURFACE_SPEED: (&str, &str) = (
    "constant_surface_speed",
    "At constant surface speed the spindle runs faster and faster toward the center. Set a limit that chuck, jaws and \
     work can stand.",
);

/// For parting.
pub const PARTING: (&str, &str) =
    ("parting", "Part close to the chuck with a sharp tool on center, and keep hands away from the piece that falls.");

/// For boring bars.
pub const BORING: (&str, &str) = (
    "boring",
    "A bar that sticks out more than four times its diameter chatters: use a thicker or shorter one, or a lighter cut.",
);

/// For boring heads.
pub const BORING_HEAD: (&str, &str) = (
    "boring_head",
    "A boring head runs out of balance: start slowly, and stay below the speed marked on it. Stop the spindle to measure \
     and to set the head, and take the key out.",
);

/// For sawing.
pub const SAWING: (&str, &str) = (
    "sawing",
    "Set the guard down to the work. Keep at least three teeth in the cut and hands out of its line, and support the \
     piece that falls.",
);

/// For entering with a milling cutter.
pub const ENTRY: (&str, &str) =
    ("entry", "Plunge straight down only with a center-cutting tool. Its maker says how steep a ramp it can take.");

/// For tool life.
pub const TOOL_LIFE: (&str, &str) = (
    "tool_life",
    "The constants hold for one pair of tool and metal; beyond twice the tested speeds they are a guess. Change a \
     tool when it is worn, not by the clock.",
);

/// For roughness.
pub const ROUGHNESS: (&str, &str) = (
    "roughness",
    "This is the best the geometry allows, not a promise: vibration, built-up edge and wear add to it. Measure the \
     surface.",
);

/// For times.
pub const TIMES: (&str, &str) =
    ("times", "This is cutting time only: loading, tool changes, measuring and speeding up take extra time.");

/// For forces and power.
pub const FORCES: (&str, &str) =
    ("forces", "Hold work and tool for more than the force found: forces vary, and a worn tool needs a third more.");

/// For pressing parts together.
pub const PRESSING: (&str, &str) = (
    "pressing",
    "Parts under a press can slip, burst and fly: line them up square, support them fully, use the guard, stand clear \
     and press slowly. Stop when the force rises at once: the parts are cocked.",
);

/// For heating a part to fit it.
pub const HEATING_TO_FIT: (&str, &str) = (
    "heating_to_fit",
    "Hot parts burn and oil on them can catch fire. Heat evenly, check the temperature, wear gloves and face \
     protection, and never heat a closed hollow part: it can burst.",
);

/// For cooling a part to fit it.
pub const COOLING_TO_FIT: (&str, &str) = (
    "cooling_to_fit",
    "Dry ice and liquid nitrogen burn skin, and their gas takes the air you breathe: work with fresh air, gloves and a \
     face shield. Steel that cold is brittle: do not hit it.",
);

/// A material's own caution by its code in the table of materials.
pub fn of_material(code: &str) -> Option<(&'static str, &'static str)> {
    Some(match code {
        "magnesium" => (
            "magnesium",
            "Magnesium chips burn: use sharp tools and a firm feed, sweep chips away, and have dry sand or a class D \
             extinguisher at hand. Never put water on a fire, and use no water-based coolant.",
        ),
        "titanium" => (
            "titanium",
            "Fine titanium chips burn: keep the feed up and the tool sharp, sweep chips away, and have dry sand or a \
             class D extinguisher at hand: never put water on a fire.",
        ),
        "beryllium" => (
            "beryllium",
            "Dust and fumes of beryllium copper are poisonous to breathe: cut wet, use extraction, and follow the \
             local exposure rules.",
        ),
        "lead" => (
            "lead",
            "This alloy contains lead: make no dust or fumes, wash hands before eating, and follow the local exposure \
             rules.",
        ),
        "iron_dust" => {
            ("iron_dust", "Cast iron makes fine dust: extract it, and keep it off the slideways and out of your lungs.")
        }
        "nickel_work_hardening" => (
            "nickel_work_hardening",
            "The metal hardens under a tool that rubs: keep the feed up, never dwell, and use a sharp tool.",
        ),
        "hardened" => {
            ("hardened", "Hardened steel and its tools can fly to pieces: set up rigidly and close the guards.")
        }
        "plastic_heat" => (
            "plastic_heat",
            "Plastic melts and grows with heat: use sharp tools, keep chips cool, and measure when it is cold.",
        ),
        "plastic_fumes" => (
            "plastic_fumes",
            "Overheated chips of this plastic give off poisonous fumes: keep them cool, use extraction, and do not \
             smoke near them.",
        ),
        _ => return None,
    })
}
