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
    /// Whether the thread is `parallel`, the same size all along, or `taper`.
    ThreadBody {
        /// The same size all along.
        Parallel = "parallel",
        /// Larger towards one end.
        Taper = "taper",
    }
}

/// What identifying a thread asks for.
#[derive(Debug, Asks)]
#[asks(check = check_diameter, check = check_pitch)]
pub struct IdentifyInput {
    /// Major diameter of an external thread, over its crests. Give this, or the minor diameter of a hole.
    #[label("Major diameter of a screw")]
    pub major_diameter: Option<Size>,
    /// Minor diameter of an internal thread, between its crests. Give this, or the major diameter of a screw.
    #[label("Minor diameter of a hole")]
    pub minor_diameter: Option<Size>,
    /// Pitch, measured or by a pitch gauge. Give this, the threads per inch, or threads counted over a length.
    pub pitch: Option<ThreadPitch>,
    /// Threads per inch, by a pitch gauge.
    pub threads_per_inch: Option<PlainNumber>,
    /// Pitches counted along the thread, one less than the crests. Give the length they span too.
    #[label("Pitches counted")]
    pub turns: Option<PlainNumber>,
    /// Length that the counted pitches span, from crest to crest.
    #[label("Length they span")]
    pub turns_length: Option<Size>,
    /// How far off the measured diameter may be, either way; if absent 0.05 mm, about 0.002 in.
    #[absent("0.05 mm", "What a caliper or micrometer is good for over crests that are not quite clean.")]
    #[label("Diameter may be off by")]
    pub diameter_error: Option<Size>,
    /// How far off the pitch may be, either way; if absent 1.5 percent of it, or for counted pitches 0.2 mm, about
    /// 0.008 in, over their length.
    #[label("Pitch may be off by")]
    pub pitch_error: Option<Size>,
    /// How far the crests of a screw may be worn below the least size of a new one, or those of a hole above the
    /// greatest; if absent 0.1 mm, about 0.004 in.
    #[absent(
        "0.1 mm",
        "For a used part: the crests of a screw wear small, those of a hole large. Give 0 for a new part."
    )]
    #[label("Wear on the crests")]
    pub wear: Option<Extent>,
    /// Angle between the flanks, if known; threads more than 2 degrees off are left out.
    pub flank_angle: Option<PointAngle>,
    /// Whether the thread is parallel or taper, if known.
    #[label("Parallel or taper")]
    pub body: Option<ThreadBody>,
    /// Families of threads to look in; all if absent.
    #[label("Thread families", "family")]
    pub families: Option<Vec<ThreadFamily>>,
    /// Most candidates to list, 1 to 30.
    #[absent("10", "The ten likeliest are listed.")]
    #[label("How many to list")]
    pub count: Option<Count<1, 30>>,
}

/// A thread that the part may have.
#[derive(Debug, Gives)]
pub struct ThreadCandidate {
    /// The thread by its designation.
    #[label("Designation")]
    pub thread: String,
    /// Its family.
    pub family: &'static str,
    /// Angle between its flanks.
    pub flank_angle: FoundAngle,
    /// Its basic diameter over the crests: major of an external thread, minor of an internal one; for a taper thread at
    /// its gauge plane.
    #[label("Basic diameter")]
    pub basic_diameter: FoundSize,
    /// The measured diameter less the basic one: external threads measure under it, internal ones over.
    #[label("Measured less basic")]
    pub from_basic: FoundDifference,
    /// Least diameter to expect, with wear.
    #[label("Least to expect")]
    pub least: FoundSize,
    /// Greatest diameter to expect, with wear.
    #[label("Greatest to expect")]
    pub greatest: FoundSize,
    /// How far the measured diameter is above the greatest; negative if it is below the least, 0 in between.
    #[label("Outside these by")]
    pub outside_by: FoundDifference,
    /// Its pitch.
    pub pitch: FoundSize,
    /// Its threads per inch.
    pub threads_per_inch: f64,
    /// The measured pitch less its own.
    #[label("Pitch off by")]
    pub pitch_off: FoundDifference,
    /// How badly it fits: diameter and pitch off as multiples of their possible errors, as the root of the sum of
    /// squares.
    pub misfit: f64,
    /// Whether diameter and pitch are both off by no more than they may be.
    pub fits: bool,
    /// What speaks for and against it.
    #[label("For and against")]
    pub says: String,
}

/// What identifying a thread gives.
#[derive(Debug, Gives)]
pub struct IdentifyResult {
    /// The most likely thread; absent where none fits.
    #[label("Most likely thread")]
    pub thread: Option<String>,
    /// Pitch as measured.
    #[label("Pitch measured")]
    pub measured_pitch: FoundSize,
    /// The same as threads per inch.
    #[label("Threads per inch measured")]
    pub measured_threads_per_inch: f64,
    /// Candidates, the likeliest first.
    pub candidates: Vec<ThreadCandidate>,
    /// Other listed threads that are easily mistaken for the first candidate.
    #[label("Easily mistaken for", "lookalike")]
    pub twins: Vec<ThreadTwin>,
    /// What to check next.
    #[label("Check next", "check")]
    pub check_next: Vec<String>,
}

rules! { check_diameter(IdentifyInput) {
    one_of(major_diameter = "0.497 in", minor_diameter = "0.422 in"):
        "Give the major diameter of an external thread or the minor diameter of an internal one.";
    not_both(major_diameter, minor_diameter):
        "Give the major or the minor diameter, not both: the major of an external thread, the minor of an internal \
         one.";
} }

const ONE_WAY: &str = "Give the pitch in one way only.";
const NO_SUCH: &str = "No listed thread has such a pitch. Give one from 0.2 mm (127 per inch) to 50 mm.";

rules! { check_pitch(IdentifyInput) {
    never(|input| input.turns.is_some() != input.turns_length.is_some(), Code::Conflict,
        turns = "12", turns_length = "0.923 in"):
        "Give both how many pitches you counted and the length they span.";
    one_of(pitch = "1.75 mm", threads_per_inch = "13", turns = "12", turns_length = "0.923 in"):
        "Give the pitch, the threads per inch, or the pitches counted over a length.";
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
    const ABOUT: &'static str = "The threads that a measured part may have, from its diameter and pitch: the likeliest \
        of every family with reasons, the ones easily mistaken for it, and what to check next.";
    const TASK: Task = Task::Thread;
    // A thread that is measured on the bench.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Hold the part against a screw of that thread, or a pitch gauge on its flanks, \
        up to a strong light: over ten pitches no light shows through.";
    const WORDS: &'static str = "identify, unknown thread, which thread, pitch gauge, measure a thread, BSW or UNC, \
        BSP or NPT, metric or inch, worn thread, threads per inch";
    const EXAMPLES: &'static [Example] = examples! {
        "A stud of an old winch measures 0.4950 in over its crests, and twelve turns 0.925 in: 13 or 12 per inch?":
            major_diameter = "0.4950 in", turns = "12", turns_length = "0.925 in";
        "A hole in a pump flange, measured between its crests, its pitch by a metric gauge.":
            minor_diameter = "10.3 mm", pitch = "1.75 mm", diameter_error = "0.1 mm", pitch_error = "0.05 mm",
            wear = "0.2 mm", families = "metric,unified,whitworth";
        "A plug of a mill gear case: 14 per inch, flanks of 55 degrees, parallel.":
            major_diameter = "20.8 mm", threads_per_inch = "14", flank_angle = "55 deg", body = "parallel",
            count = "5";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You count {turns} pitches over {turns_length} on an old winch stud. What pitch is that?" => "measured_pitch":
            { turns = "12", turns_length = "0.924 in" | "0.6 in" | "1.2 in", major_diameter = "0.495 in",
              units = "inch" }
            { turns = "10", turns_length = "0.5 in" | "1 in" | "0.77 in" | "0.625 in", major_diameter = "0.495 in",
              units = "inch" }
            { turns = "10", turns_length = "20 mm" | "15 mm" | "17.5 mm" | "12.5 mm", major_diameter = "11.9 mm",
              units = "metric" }
            { turns = "8", turns_length = "20 mm" | "12 mm" | "14 mm" | "10 mm", major_diameter = "11.9 mm",
              units = "metric" };
        1 "A pitch gauge reads {threads_per_inch} threads per inch on an old pump stud. What pitch is that in \
            millimeters?"
            => "measured_pitch":
            { threads_per_inch = "20" | "16" | "13" | "12" | "11" | "10", major_diameter = "12.5 mm",
              units = "metric" };
        2 "A stud measures {major_diameter} over its crests, and the gauge reads {threads_per_inch} per inch with 60 \
            degree flanks. What is the basic diameter of the likeliest inch thread?" => "candidates/0/basic_diameter":
            { major_diameter = "0.495 in", threads_per_inch = "13" | "20", flank_angle = "60 deg", families = "unified",
              units = "inch" }
            { major_diameter = "0.37 in", threads_per_inch = "16" | "24", flank_angle = "60 deg", families = "unified",
              units = "inch" }
            { major_diameter = "0.745 in", threads_per_inch = "10" | "16", flank_angle = "60 deg", families = "unified",
              units = "inch" };
        2 "A screw measures {major_diameter} over its crests and {pitch} from crest to crest. How far is that off \
            the basic diameter of the likeliest metric thread, minus for under?" => "candidates/0/from_basic":
            { major_diameter = "11.85 mm" | "11.8 mm" | "11.9 mm", pitch = "1.75 mm" | "1.25 mm", families = "metric",
              units = "metric" }
            { major_diameter = "9.85 mm" | "9.9 mm", pitch = "1.5 mm" | "1.25 mm", families = "metric",
              units = "metric" };
        3 "{turns} pitches of a stud span {turns_length}, and it measures {major_diameter} over its crests. What pitch \
            does the likeliest thread have?" => "candidates/0/pitch":
            { turns = "12", turns_length = "0.925 in" | "0.92 in", major_diameter = "0.495 in", units = "inch" }
            { turns = "10", turns_length = "0.625 in" | "0.63 in", major_diameter = "0.37 in", units = "inch" }
            { turns = "10", turns_length = "17.5 mm" | "17.6 mm" | "12.5 mm", major_diameter = "11.9 mm",
              units = "metric" };
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
                "No listed thread has this flank angle, body and family at once. Leave one of them out.",
                &stated.collect::<Vec<_>>(),
            ));
        };
        for candidate in &candidates {
            candidate.cite(record);
        }
        record.source("common_practice", "the order: the misfit, plus a quarter for each step of rareness");
        let rows = measured.rows(&candidates, record);
        let thread = rows.first().filter(|row| row.fits).map(|row| row.thread.clone());
        if let Some(thread) = &thread {
            let step = record.look_up("Most likely thread", "the first candidate, which fits");
            step.gives("thread", thread.clone());
        } else {
            record.note(
                "none_fits",
                "No listed thread fits both diameter and pitch; the nearest are listed. Count the pitches again (n \
                 crests span n - 1 pitches), measure where the thread is not worn, and consider a special pitch.",
            );
        }
        if measured.crest == Crest::Inside {
            record.note(
                "drilled_large",
                "A minor diameter tells more about the drill than about the thread. Go by the pitch, and by a screw \
                 that runs in.",
            );
        }
        record.note(
            "order",
            "The list is ranked by misfit; where two fit about equally, the commoner comes first. The ranking is a \
             judgment, the figures are not.",
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

/// The pitch as stated, in meters.
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
        Some(turns) => (0.2 / turns.get(), "The length over the counted pitches is assumed good to 0.2 mm, 0.008 in."),
        None => {
            let value = 0.015 * pitch.quantity().in_unit(Unit::Millimetre);
            (value, "A pitch gauge held against a few threads is good to about 1.5 percent.")
        }
    };
    let pitch_error = record.or_assume(input.pitch_error, "pitch_error", Size::stated(value, Unit::Millimetre), says);
    Measured { diameter, crest, pitch, diameter_error, pitch_error, wear: input.wear(record) }
}
