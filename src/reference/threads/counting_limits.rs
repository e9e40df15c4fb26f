//! The limits of the class that counts: of the field, else of the designation, else the usual one.

use super::named_class::ClassOf;
use super::{
    Chosen, DesignationError, ExternalClass, ExternalLimits, InternalClass, InternalLimits, Lacking, Thread,
    external_limits, internal_limits,
};
use crate::refusal::{Refusal, Wrong};

impl<const INTERNAL: bool> ClassOf<INTERNAL> {
    fn counting_limits<L>(
        thread: &Thread,
        field: Option<&Self>,
        limits: impl FnOnce(&Thread, Option<&str>, Option<f64>) -> Result<L, DesignationError>,
    ) -> (Chosen, Result<L, Lacking>) {
        let counting = Self::counting(thread, field);
        let chosen = counting.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen);
        let found = limits(thread, counting.as_ref().map(|(class, _)| class.as_str()), None);
        (chosen, found.map_err(|error| Self::lacking(thread, chosen, error)))
    }
}

impl ExternalClass {
    /// The limits of the class that counts, and how it was chosen.
    pub fn limits(thread: &Thread, field: Option<&Self>) -> (Chosen, Result<ExternalLimits, Lacking>) {
        Self::counting_limits(thread, field, external_limits)
    }
}

impl InternalClass {
    /// The limits of the class that counts, and how it was chosen.
    pub fn limits(thread: &Thread, field: Option<&Self>) -> (Chosen, Result<InternalLimits, Lacking>) {
        Self::counting_limits(thread, field, internal_limits)
    }
}

impl Lacking {
    /// The refusal; `class_field` is the field that names the class.
    pub fn refusal(self, class_field: &str) -> Refusal {
        Refusal::one(Wrong::unread(if self.in_class { class_field } else { "thread" }, self.unread))
    }
}
