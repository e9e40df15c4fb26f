//! The sources of threads, their lists and their limits of size, as calculators cite them.

use crate::reference::threads::{Designation, Provenance, Tolerances};
use crate::working::Record;
use std::borrow::Cow;

/// Cites a row of a table, which says itself how far it can be trusted.
pub fn cite_row(from: Provenance, place: impl Into<Cow<'static, str>>, record: &mut Record) {
    record.source_of_row(from.source, place, from.trust);
}

/// Cites the list that a thread stands in, or notes that it stands in none.
pub fn cite_list(designation: &Designation, record: &mut Record) {
    let thread = &designation.thread;
    if let Some(row) = thread.provenance {
        cite_row(row, format!("series, {}", thread.designation), record);
    }
    if let Some(unlisted) = designation.unlisted() {
        record.note("unlisted", unlisted);
    }
}

/// Cites what limits rest on, where a calculator only uses them.
pub fn cite_limits(tolerances: &Tolerances, record: &mut Record) {
    match tolerances {
        Tolerances::Unified(_) => record.source("asme_b1_1", "limits of size, and their rounding"),
        Tolerances::Metric(_) => record.source("iso_965_1", "limits of size, and their R40 steps"),
        Tolerances::Pipe(_) => record.source("iso_228_1", "limits of size"),
        Tolerances::Acme(_) => record.source("asme_b1_5", "limits of size"),
        Tolerances::Trapezoidal(_) => {}
    }
    cite_cells(tolerances, record);
}

/// Cites the cells of tables that tolerances come from, and says where they are recalled.
pub fn cite_cells(tolerances: &Tolerances, record: &mut Record) {
    match tolerances {
        Tolerances::Unified(_) => {}
        Tolerances::Metric(t) => {
            t.sources.iter().for_each(|row| cite_row(*row, "cells of the tolerance tables", record))
        }
        Tolerances::Pipe(t) => {
            let row = Provenance { source: &t.row.source, trust: &t.row.trust };
            cite_row(row, "cells of the tolerance table", record);
        }
        Tolerances::Acme(t) => {
            t.range.iter().for_each(|row| cite_row(*row, "range of size of the allowance", record));
        }
        Tolerances::Trapezoidal(t) => {
            cite_row(t.source, "deviations and tolerances", record);
            if !record.notes.iter().any(|note| note.code == "not_compared") {
                record.note(
                    "not_compared",
                    "The tolerances of ISO 2903 are from memory and were not compared with the standard. Use them to \
                     plan, not to accept or reject work.",
                );
            }
        }
    }
}
