//! Depths of thread, tap and drill: full thread, the tap's chamfer, its center point and the room below it, one after
//! the other.

use super::TappedBlindInput;
use crate::calculators::prelude::*;
use crate::reference::tap_chamfers::TapChamfer;
use crate::threading::{GivenThread, given_thread};

/// How deep to drill and to tap.
#[derive(Debug, Gives)]
pub struct Depths {
    /// Depth of the drill at full diameter, below the face.
    #[label("Drill depth at full diameter")]
    pub full_depth: FoundDepthSetting,
    /// Depth of the tap's end below the face, to set where it touched the face at zero.
    #[label("Tap depth")]
    pub tap_depth: FoundDepthSetting,
    /// Turns of the tap from where its end is level with the face.
    #[label("Turns of the tap")]
    pub tap_turns: f64,
    /// Depth of full thread.
    #[label("Depth of full thread")]
    pub full_thread_depth: FoundExtent,
    /// Number of full threads.
    #[label("Full threads")]
    pub full_thread_count: f64,
}

/// Share of the thread's depth that BS 1936 drills deeper, by the thread's size in millimeters.
fn share_below(size: f64) -> f64 {
    match size {
        ..6.0 => 0.25,
        ..=12.0 => 0.2,
        _ => 0.15,
    }
}

impl Depths {
    /// Works them out; gives the threads that the tap's chamfer takes too.
    pub fn find(input: &TappedBlindInput, record: &mut Record) -> (Self, f64) {
        record.source("geometry", "full thread, chamfer, free turns and point follow one below the other");
        let given = given_thread(&input.thread, "thread", record);
        let pitch = given.pitch;
        let (full_thread_depth, full_thread_count) = full_thread(input, &given, record);
        let chamfer_threads = chamfer(input, record);
        let tap_center = input.tap_center(record);
        let tap_depth: FoundDepthSetting = step!(record, "Depth of the tap's end",
            b: tap_depth = T + k * P + e, T = full_thread_depth, k = "chamfer_threads_taken": chamfer_threads, P = pitch,
            e = tap_center);
        let extra_turns = extra(input, (full_thread_depth, chamfer_threads), &given, record);
        notes!(record => tapping_under_power: "Under power the spindle runs on by one to three turns before it stops. Add those \
            to the free turns. Clear the chips before you tap.");
        let room: FoundExtent = step!(record, "Room below the tap", r: room = n * P, n = extra_turns, P = pitch);
        let full_depth: FoundDepthSetting =
            step!(record, "Depth of the full diameter", L: full_depth = b + r, b = tap_depth, r = room);
        let tap_turns = text::tidy((tap_depth.get() / given.lead.get()).si());
        tell!(record.step("Turns of the tap", "t = b / l"), b = tap_depth, l = lead: given.lead => tap_turns);
        (Self { full_depth, tap_depth, tap_turns, full_thread_depth, full_thread_count }, chamfer_threads)
    }
}

/// Depth and number of the full threads, one of which is asked for.
fn full_thread(input: &TappedBlindInput, given: &GivenThread, record: &mut Record) -> (FoundExtent, f64) {
    let pitch = given.pitch;
    if let Some(count) = input.full_threads {
        let count = count.get();
        let depth =
            step!(record, "Depth of full thread", T: full_thread_depth = n * P, n = full_threads: count, P = pitch);
        tell!(record.choose("Full threads", "as asked for"), n = full_threads: count => full_thread_count: count);
        return (depth, count);
    }
    let depth = input.thread_depth.map_or(FoundExtent::stated(0.0, given.unit()), |depth| {
        let Quantity { value, unit, .. } = depth.quantity();
        let depth_found = FoundExtent::stated(value, unit);
        tell!(record.choose("Depth of full thread", "as asked for"), T = thread_depth: depth
            => full_thread_depth: depth_found);
        depth_found
    });
    let count = text::tidy((depth.get() / pitch.get()).si());
    tell!(record.step("Full threads", "n = T / P"), T = full_thread_depth: depth, P = pitch => full_thread_count: count);
    (depth, count)
}

/// Threads on the tap's chamfer: as counted, else the most that its kind has.
fn chamfer(input: &TappedBlindInput, record: &mut Record) -> f64 {
    let of = "chamfer_threads_taken";
    if let Some(count) = input.chamfer_threads {
        let count = count.get();
        tell!(record.choose("Threads that the chamfer takes", "as counted"), k = chamfer_threads: count => (of): count);
        return count;
    }
    let chamfer = input.tap_chamfer(record);
    let Some(row) = chamfer.row() else { return 0.0 };
    record.source_trusted(row.source, "threads on the chamfer of a tap", row.trust);
    tell!(record.look_up("Threads that the chamfer takes", "tap_chamfers.csv, the most of the range"),
        c = tap_chamfer: chamfer.as_str() => (of): row.most);
    let (least, most) = (text::full(row.least), text::full(row.most));
    let mut says = format!(
        "The chamfer of this tap has from {least} to {most} threads; {most} are counted. Count the threads on yours."
    );
    if chamfer == TapChamfer::Taper {
        says.push_str(" Another handbook says 8 to 10.");
    }
    record.note("chamfer_range", says);
    row.most
}

/// Turns to leave free below the tap: one, or as many more as BS 1936 asks for below the full thread.
fn extra(
    input: &TappedBlindInput,
    (depth, chamfer): (FoundExtent, f64),
    given: &GivenThread,
    record: &mut Record,
) -> f64 {
    if let Some(turns) = input.extra_turns {
        return turns.get();
    }
    let share = share_below(given.size.quantity().in_unit(Unit::Millimetre));
    let below = text::tidy(share * (depth.get() / given.pitch.get()).si());
    let more = (text::tidy(below - chamfer) * 2.0).ceil() / 2.0;
    record.source("tap_depth_tip", "at least one thread below the tap's chamfer");
    if more <= 1.0 {
        record.assume("extra_turns", &1.0, "A tool maker's tip leaves at least one turn below the chamfer.");
        return 1.0;
    }
    record.source("bs_1936", "room below the full thread of a blind hole");
    let says = format!(
        "A tool maker's tip leaves at least one turn below the chamfer. BS 1936 drills {} percent deeper than the full \
         thread; that is more here and is taken, up to the next half turn.",
        text::full(text::tidy(100.0 * share))
    );
    record.assume("extra_turns", &more, says);
    more
}
