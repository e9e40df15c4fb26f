//! What thread a measured part has: candidates of every family ranked by how far diameter and pitch are off
//! their standards, the threads easily taken for the first, and what to look at next (lists and limits of the
//! standards; the order is a judgement).

mod range;
mod rows;
mod twins;

use crate::calculators::prelude::*;
use crate::reference::threads::{Listed, Thread, ThreadFamily, listed};
use crate::threading::INCH;
use range::Crest;
use rows::Measured;
use twins::ThreadTwin;

/// The calculator.
pub struct Identify;

choice! {
    /// Whether the thread lies on a cylinder (`parallel`) or on a cone (`taper`).
    ThreadBody {
        /// On a cylinder.
        Parallel = "parallel",
        /// On a cone.
        Taper = "taper",
    }
}

/// What identifying a thread asks for.
#[derive(Debug, Asks)]
#[asks(check = check_diameter, check = check_pitch)]
pub struct IdentifyInput {
    /// Major diameter of an external thread, measured over its crests; this or minor_diameter.
    pub major_diameter: Option<Size>,
    /// Minor diameter of an internal thread, measured between its crests; this or major_diameter.
    pub minor_diameter: Option<Size>,
    /// Pitch as measured or as a pitch gauge says; this, threads_per_inch, or turns with turns_length.
    pub pitch: Option<ThreadPitch>,
    /// Threads in one inch as a pitch gauge says.
    pub threads_per_inch: Option<PlainNumber>,
    /// Pitches counted along the thread: one less than the crests from the first to the last; with turns_length.
    pub turns: Option<PlainNumber>,
    /// Length over which the turns were counted, from crest to crest.
    pub turns_length: Option<Size>,
    /// How far the diameter as measured may be off, either way; if absent 0.05 mm, some 0.002 in.
    #[absent("0.05 mm", "A caliper or micrometer laid over crests that are none too clean.")]
    pub diameter_error: Option<Size>,
    /// How far the pitch may be off, either way; if absent 1.5 percent of it, and where turns were counted 0.2 mm,
    /// some 0.008 in, over their length.
    pub pitch_error: Option<Size>,
    /// How far crests may be worn below the least size of a new screw, or a hole's above the greatest; if absent
    /// 0.1 mm, some 0.004 in.
    #[absent("0.1 mm", "A used part: crests of screws wear small, those of holes large. A new part has none.")]
    pub wear: Option<Extent>,
    /// Angle between the flanks, if known; threads more than 2 degrees off it are left out.
    pub flank_angle: Option<PointAngle>,
    /// Whether the thread is parallel or taper, if known.
    pub body: Option<ThreadBody>,
    /// Families to look in; all if absent.
    pub families: Option<Vec<ThreadFamily>>,
    /// Most candidates listed, 1 to 30.
    #[absent("10", "The ten likeliest.")]
    pub count: Option<Count<1, 30>>,
}

/// A thread that the part may have.
#[derive(Debug, Gives)]
pub struct ThreadCandidate {
    /// The thread by its designation.
    pub thread: String,
    /// Its family.
    pub family: &'static str,
    /// Angle between its flanks.
    pub flank_angle: FoundAngle,
    /// Its basic diameter over the crests: major of an external, minor of an internal thread; of a taper thread that at the
    /// plane that gauges it.
    pub basic_diameter: FoundSize,
    /// The diameter measured less the basic one; external threads measure under it, internal ones over.
    pub from_basic: FoundDifference,
    /// Least diameter to be expected of it, with wear.
    pub least: FoundSize,
    /// Greatest diameter to be expected of it, with wear.
    pub greatest: FoundSize,
    /// How far the diameter measured lies above the greatest, or below the least as a negative amount; 0 between.
    pub outside_by: FoundDifference,
    /// Its pitch.
    pub pitch: FoundSize,
    /// Its threads in one inch.
    pub threads_per_inch: f64,
    /// The pitch measured less its own.
    pub pitch_off: FoundDifference,
    /// Both differences over their errors, as the root of the sum of their squares.
    pub misfit: f64,
    /// Whether neither difference is more than its error.
    pub fits: bool,
    /// What speaks for and against it.
    pub says: String,
}

/// What identifying a thread gives.
#[derive(Debug, Gives)]
pub struct IdentifyResult {
    /// The thread it most likely is; absent where none fits.
    pub thread: Option<String>,
    /// Pitch as measured.
    pub measured_pitch: FoundSize,
    /// The same as threads in one inch.
    pub measured_threads_per_inch: f64,
    /// Candidates, the likeliest first.
    pub candidates: Vec<ThreadCandidate>,
    /// Other listed threads that the first candidate is easily taken for.
    pub twins: Vec<ThreadTwin>,
    /// What to look at next.
    pub check_next: Vec<String>,
}

rules! { check_diameter(IdentifyInput) {
    one_of(major_diameter = "0.497 in", minor_diameter = "0.422 in"):
        "State the major diameter of an external thread or the minor diameter of an internal one.";
    not_both(major_diameter, minor_diameter):
        "One part at a time: an external thread has its major diameter measured, an internal one its minor.";
} }

const ONE_WAY: &str = "State the pitch in one way only.";
const NO_SUCH: &str = "No thread in any list has such a pitch: 0.2 mm (127 to the inch) to 50 mm are looked at.";

rules! { check_pitch(IdentifyInput) {
    never(|input| input.turns.is_some() != input.turns_length.is_some(), Code::Conflict,
        turns = "12", turns_length = "0.923 in"):
        "turns and turns_length belong together: how many pitches, over what length.";
    one_of(pitch = "1.75 mm", threads_per_inch = "13", turns = "12", turns_length = "0.923 in"):
        "State the pitch, the threads in one inch, or turns counted over a length.";
    never(|input| input.pitch.is_some() && input.threads_per_inch.is_some() && input.turns.is_some(), Code::Conflict,
        pitch = "leave out", threads_per_inch = "leave out", turns = "leave out"): ONE_WAY;
    not_both(pitch, threads_per_inch): ONE_WAY;
    not_both(pitch, turns): ONE_WAY;
    not_both(threads_per_inch, turns): ONE_WAY;
    never(|input| input.pitch.is_some() && !input.has_listed_pitch(), Code::ValueOutOfRange, pitch = "1.75 mm"): NO_SUCH;
    never(|input| input.threads_per_inch.is_some() && !input.has_listed_pitch(), Code::ValueOutOfRange,
        threads_per_inch = "13"): NO_SUCH;
    never(|input| !input.has_listed_pitch(), Code::ValueOutOfRange, turns = "12"): NO_SUCH;
} }

impl IdentifyInput {
    fn has_listed_pitch(&self) -> bool {
        (0.0002..=0.05).contains(&pitch_of(self))
    }
}

impl Calculator for Identify {
    const ID: &'static str = "threads/identify";
    const TITLE: &'static str = "What thread is this";
    const ABOUT: &'static str = "The threads that a measured part may have, from its diameter and pitch, ranked over all \
        families with reasons, the ones easily mistaken for it, and what to check next.";
    const TASK: Task = Task::Thread;
    // A thread that is measured on the bench.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Lay the part against a screw of the thread named, or a pitch gauge against its flanks, to a strong light: over ten pitches no light comes through.";
    const WORDS: &'static str = "identify, unknown thread, which thread, pitch gauge, measure a thread, BSW or UNC, \
        BSP or NPT, metric or inch, worn thread, threads per inch";
    const EXAMPLES: &'static [Example] = examples! {
        "A stud of an old winch measures 0.4950 in over its crests, and twelve turns 0.925 in: 13 or 12 to the inch?":
            major_diameter = "0.4950 in", turns = "12", turns_length = "0.925 in";
        "A hole in a pump flange between its crests, by a metric pitch gauge.":
            minor_diameter = "10.3 mm", pitch = "1.75 mm", diameter_error = "0.1 mm", pitch_error = "0.05 mm",
            wear = "0.2 mm", families = "metric,unified,whitworth";
        "A plug of a mill gear case: 14 to the inch, flanks of 55 degrees, and the same all along.":
            major_diameter = "20.8 mm", threads_per_inch = "14", flank_angle = "55 deg", body = "parallel",
            count = "5";
    };
    type Input = IdentifyInput;
    type Output = IdentifyResult;
    const LEADS: &'static [&'static str] = &["thread", "measured_pitch"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::FOUND_THREAD);
        let measured = measured(input, record);
        let measured_pitch = measured.pitch;
        let possible: Vec<&'static Listed> = listed().iter().filter(|one| asked_for(input, one, true)).collect();
        let count = input.count(record).get() as usize;
        let candidates = measured.candidates(&possible, count);
        let Some(first) = candidates.first() else {
            let stated = [
                ("flank_angle", input.flank_angle.is_some()),
                ("body", input.body.is_some()),
                ("families", input.families.is_some()),
            ];
            let stated = stated.into_iter().filter(|(_, is)| *is).map(|(field, _)| (field, "leave out".into()));
            return Err(Refusal::no_answer(
                "No listed thread has this angle between its flanks, body and family at once.",
                &stated.collect::<Vec<_>>(),
            ));
        };
        for candidate in &candidates {
            candidate.cite(record);
        }
        record.source("common_practice", "the order: the misfit, and a quarter more for each step of rareness");
        let rows = measured.rows(&candidates, record);
        let thread = rows.first().filter(|row| row.fits).map(|row| row.thread.clone());
        if let Some(thread) = &thread {
            let step = record.look_up("The thread it most likely is", "the first candidate, which fits");
            step.gives("thread", thread.clone());
        } else {
            record.note(
                "none_fits",
                "No listed thread meets diameter and pitch within their errors; the nearest are listed. Count the turns \
                 again (n crests span n - 1 pitches), measure at an unworn place, and think of a special pitch.",
            );
        }
        if measured.crest == Crest::Inside {
            record.note(
                "drilled_large",
                "A minor diameter says how the hole was drilled more than what thread it has: the pitch and a screw that \
                 runs in say more.",
            );
        }
        record.note(
            "order",
            "Ranked by the misfit and, where two fit much alike, the commoner before the rarer; the rank is a judgement, \
             the columns are not.",
        );
        let others: Vec<&'static Listed> = listed().iter().filter(|one| asked_for(input, one, false)).collect();
        let twins = twins::twins(first, &others, measured.crest, record);
        let check_next = twins::check_next(input, &candidates, &twins, record);
        Ok(IdentifyResult {
            thread,
            measured_pitch,
            measured_threads_per_inch: measured.threads_per_inch(),
            candidates: rows,
            twins: twins.into_iter().map(|(_, twin)| twin).collect(),
            check_next,
        })
    }
}

/// Whether what is known of the part allows the thread; the families asked for only bind the candidates.
fn asked_for(input: &IdentifyInput, one: &Listed, in_families: bool) -> bool {
    let thread: &Thread = one.thread();
    let families = input.families.as_ref().filter(|_| in_families);
    let angle = input.flank_angle.is_none_or(|angle| (angle.degrees() - thread.system.flank_angle()).abs() <= 2.0);
    let body = input.body.is_none_or(|body| (body == ThreadBody::Taper) == thread.is_taper());
    angle && body && families.is_none_or(|families| families.contains(&ThreadFamily::of(thread)))
}

/// The pitch as stated, in metres.
fn pitch_of(input: &IdentifyInput) -> f64 {
    match (input.pitch, input.threads_per_inch, input.turns, input.turns_length) {
        (Some(pitch), ..) => pitch.get().si(),
        (_, Some(threads), ..) => Unit::Inch.to_si(1.0) / threads.get(),
        (_, _, Some(turns), Some(length)) => length.get().si() / turns.get(),
        _ => 0.0,
    }
}

/// What was measured, with its errors on record.
fn measured(input: &IdentifyInput, record: &mut Record) -> Measured {
    let (diameter, crest) = match (input.major_diameter, input.minor_diameter) {
        (Some(major), _) => (major, Crest::Outside),
        (None, Some(minor)) => (minor, Crest::Inside),
        (None, None) => (Size::stated(1.0, Unit::Millimetre), Crest::Outside),
    };
    let diameter_error = input.diameter_error(record);
    let pitch: FoundSize = match (input.pitch, input.threads_per_inch, input.turns, input.turns_length) {
        (Some(pitch), ..) => step!(record, "Pitch", P: measured_pitch = p, p = pitch),
        (_, Some(threads), ..) => step!(record, "Pitch", P: measured_pitch = I / n,
            I = "constant:inch": INCH, n = threads_per_inch: threads.get()),
        (_, _, turns, length) => step!(record, "Pitch", P: measured_pitch = l / n,
            l = turns_length: length.unwrap_or(diameter), n = turns: turns.map_or(1.0, PlainNumber::get)),
    };
    let (value, says) = match input.turns {
        Some(turns) => (0.2 / turns.get(), "The length over the turns is taken to be good to 0.2 mm, 0.008 in."),
        None => {
            let value = 0.015 * pitch.quantity().in_unit(Unit::Millimetre);
            (value, "A pitch gauge held against a few turns tells some 1.5 percent.")
        }
    };
    let pitch_error = record.or_assume(input.pitch_error, "pitch_error", Size::stated(value, Unit::Millimetre), says);
    Measured { diameter, crest, pitch, diameter_error, pitch_error, wear: input.wear(record) }
}
