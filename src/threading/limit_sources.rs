//! The sources of limits of size, cited where a calculator only uses them.

use crate::reference::threads::Tolerances;
use crate::sources::Trust;
use crate::working::Record;

/// Cites what limits rest on, and says where they are recalled.
pub fn cite_limits(tolerances: &Tolerances, record: &mut Record) {
    let named = |trust: &str| Trust::named(trust).unwrap_or(Trust::FromMemory);
    match tolerances {
        Tolerances::Unified(_) => record.source("asme_b1_1", "limits of size, and their rounding"),
        Tolerances::Metric(t) => {
            record.source("iso_965_1", "limits of size, and their R40 steps");
            for provenance in &t.sources {
                record.source_trusted(provenance.source, "cells of the tolerance tables", named(provenance.trust));
            }
        }
        Tolerances::Pipe(t) => {
            record.source("iso_228_1", "limits of size");
            record.source_trusted(&t.row.source, "cells of the tolerance table", named(&t.row.trust));
        }
        Tolerances::Acme(t) => {
            record.source("asme_b1_5", "limits of size");
            if let Some(range) = t.range {
                record.source_trusted(range.source, "range of size of the allowance", named(range.trust));
            }
        }
        Tolerances::Trapezoidal(t) => {
            record.source_trusted(t.source.source, "deviations and tolerances", named(t.source.trust));
            if !record.notes.iter().any(|note| note.code == "not_compared") {
                record.note(
                    "not_compared",
                    "The tolerances of ISO 2903 are recalled and were not compared with the standard: use them to plan, \
                     not to accept or reject work.",
                );
            }
        }
    }
}
