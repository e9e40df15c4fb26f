//! The feed of an operation: as stated, or from the published tables, with the range that it is taken from.

use super::Tooling;
use crate::machine::{Published, RangePoint};
use crate::quantity::{Kind, Measure, text};
use crate::reference::cutting_speeds::Operation;
use crate::reference::feeds::{FeedRow, feed_for};
use crate::working::Record;

/// A feed wanted, and the field or the step that it comes from.
#[derive(Clone, Copy, Debug)]
pub struct WantedFeed<K: Kind> {
    /// The field or the step.
    pub of: &'static str,
    /// The feed.
    pub feed: Measure<K>,
    /// The published range that it is taken from; none where the request states it.
    pub published: Option<Published<K>>,
}

impl<K: Kind> WantedFeed<K> {
    /// Says first of all that the feed set lies below what is published.
    pub fn tell_if_below(&self, feed: f64, record: &mut Record) {
        if let Some(published) = &self.published {
            let means =
                "a tool that rubs gets dull and work-hardens some metals; raise the feed by hand, or run slower.";
            published.tell_if_below(feed, ("feed_below_published", "The feed set"), means, record);
        }
    }
}

impl Tooling {
    /// The feed: as stated, or from the tables, which is put on record as assumed; none where they have none, which is
    /// noted.
    pub fn feed<K: Kind>(
        &self,
        given: Option<Measure<K>>,
        field: &'static str,
        operation: Operation,
        diameter: Option<f64>,
        record: &mut Record,
    ) -> Option<WantedFeed<K>> {
        self.tell_unused_point(given.is_some(), record);
        if let Some(feed) = given {
            return Some(WantedFeed { of: field, feed, published: None });
        }
        let material = self.material?;
        if self.tool.is_none() && operation != Operation::Sawing {
            return None;
        }
        let row = feed_for(material.0, operation, self.tool, diameter);
        let Some(row) = row.filter(|row| K::ROW.units.contains(&row.unit)) else {
            record.note(
                "no_feed_published",
                format!(
                    "The tables have no feed for {} of this material with this tool at this size; use the tool maker's.",
                    operation.words()
                ),
            );
            return None;
        };
        let point = self.point(record);
        let value = match point {
            RangePoint::Low => row.low,
            RangePoint::Middle => text::tidy((row.low + row.high) / 2.0),
            RangePoint::High => row.high,
        };
        let stated = |value| Measure::stated(value, row.unit);
        let feed = stated(value);
        record.source_trusted(row.source, row.place, row.trust);
        record.assume(field, &feed, says_of(row, point));
        let published = Some(Published { low: stated(row.low), high: stated(row.high) });
        Some(WantedFeed { of: field, feed, published })
    }
}

/// Why a feed was taken.
fn says_of(row: &FeedRow, point: RangePoint) -> String {
    let end = match point {
        RangePoint::Low => "the low end",
        RangePoint::Middle => "the middle",
        RangePoint::High => "the high end",
    };
    let band = match row.diameter {
        Some((over, up_to)) => format!(", for diameters over {} up to {} in", text::full(over), text::full(up_to)),
        None => String::new(),
    };
    let note = if row.note.is_empty() { String::new() } else { format!(" The table adds: {}.", row.note) };
    format!(
        "From the feed table ({}): {} to {} {}{band}; {end} is used.{note}",
        row.place,
        text::full(row.low),
        text::full(row.high),
        row.unit.spelling()
    )
}
