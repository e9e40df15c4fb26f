//! Reading of a class for one side of a thread, by the rules of the thread's system.

use super::classes::{MetricClass, UnifiedClass, unknown};
use super::error::DesignationError;
use super::{ThreadSystem, acme, trapezoidal};

/// Reads a class of the wanted side for a thread's system, refusing the other side's and the other
/// systems'; gives it back in the standard's spelling.
pub fn read_for(system: ThreadSystem, internal: bool, text: &str) -> Result<String, DesignationError> {
    let (class, is_internal) = match system {
        ThreadSystem::Unified => UnifiedClass::read(text).map(|c| (c.text(), c.internal))?,
        ThreadSystem::Metric => MetricClass::read(text).map(|c| (c.text(), c.internal()))?,
        ThreadSystem::PipeParallel if !internal => match text.trim().to_ascii_uppercase().as_str() {
            class @ ("A" | "B") => return Ok(class.to_owned()),
            _ => {
                return Err(unknown(
                    format!("`{text}`: the classes of external pipe threads G are A and B"),
                    "A",
                    &["A", "B"],
                ));
            }
        },
        ThreadSystem::Acme => {
            let says = || format!("`{text}`: the classes of general purpose Acme threads are 2G, 3G and 4G");
            return acme::read_class(text).map(str::to_owned).ok_or_else(|| unknown(says(), "2G", &acme::CLASSES));
        }
        ThreadSystem::Trapezoidal => {
            let classes: &[&str] = if internal { &trapezoidal::INTERNAL } else { &trapezoidal::EXTERNAL };
            let says = || format!("`{text}`: the classes of trapezoidal threads here are {}", classes.join(", "));
            let found = trapezoidal::read_class(text).filter(|class| classes.contains(class));
            return found.map(str::to_owned).ok_or_else(|| unknown(says(), classes[0], classes));
        }
        ThreadSystem::PipeParallel | ThreadSystem::PipeTaper | ThreadSystem::Npt | ThreadSystem::Whitworth => {
            let side = if internal { "internal" } else { "external" };
            let says =
                format!("`{text}`: {} threads have no class here on the {side} side; leave it out", system.words());
            return Err(unknown(says, "leave out", &[]));
        }
    };
    if is_internal == internal {
        return Ok(class);
    }
    let (is, wanted, example) = match (internal, system) {
        (false, ThreadSystem::Unified) => ("internal", "an external", "2A"),
        (false, _) => ("internal", "an external", "6g"),
        (true, ThreadSystem::Unified) => ("external", "an internal", "2B"),
        (true, _) => ("external", "an internal", "6H"),
    };
    Err(unknown(format!("`{class}` is an {is} class; give {wanted} one"), example, &[example]))
}
