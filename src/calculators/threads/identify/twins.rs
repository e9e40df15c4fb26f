//! Threads easily taken for one another, by what they can be told apart, and what to look at next.

use super::IdentifyInput;
use super::range::Crest;
use super::rows::{Candidate, basic, pitch};
use crate::calculators::prelude::*;
use crate::reference::threads::{Listed, Thread, ThreadFamily, unit_of};
use crate::working::{column, known_steps};

/// Most twins listed.
const MOST: usize = 6;
/// Threads are taken for each other if their diameters differ by less than this share.
const DIAMETERS: f64 = 0.04;
/// And their pitches by less than this.
const PITCHES: f64 = 0.14;

/// A thread that is easily mistaken for the first candidate.
#[derive(Debug, Gives)]
pub struct ThreadTwin {
    /// The other thread by its designation.
    #[label("Designation")]
    pub thread: String,
    /// Its family.
    pub family: &'static str,
    /// Its basic diameter over the crests less that of the first candidate.
    #[label("Diameter larger by")]
    pub diameter_difference: FoundDifference,
    /// Its pitch less that of the first candidate.
    #[label("Pitch larger by")]
    pub pitch_difference: FoundDifference,
    /// What that adds up to over ten threads.
    #[label("Over ten threads")]
    pub over_ten_turns: FoundDifference,
    /// How to tell the two apart.
    #[label("Told apart by")]
    pub tell_by: String,
}

fn is_twin(first: &Candidate, other: &Listed, crest: Crest) -> bool {
    let (one, two) = (first.thread(), other.thread());
    let has = if crest == Crest::Outside { two.has_external() } else { two.has_internal() };
    let apart = (basic(other, crest) / first.basic - 1.0).abs();
    let pitches = (pitch(two) / first.pitch - 1.0).abs();
    // In a family the sizes are known apart; only another pitch on the same size is easily overlooked.
    let other_family = one.system != two.system || one.series != two.series;
    has && *one != *two && pitches <= PITCHES && (apart <= DIAMETERS && other_family || one.diameter == two.diameter)
}

fn tell_by(one: &Thread, two: &Thread, diameters: f64, pitches: f64) -> String {
    let mut by: Vec<String> = Vec::new();
    let (a, b) = (one.system.flank_angle(), two.system.flank_angle());
    if (a - b).abs() > 2.0 {
        by.push(format!("the flanks: {b} degrees instead of {a}"));
    }
    match (one.is_taper(), two.is_taper()) {
        (false, true) => by.push("its taper of 1 in 16 on the diameter".into()),
        (true, false) => by.push("having no taper".into()),
        _ => {}
    }
    if pitches.abs() > 0.005 {
        by.push(format!("its {} pitch, counted over many threads", if pitches > 0.0 { "coarser" } else { "finer" }));
    }
    if diameters.abs() > 0.01 {
        by.push(format!("its {} diameter", if diameters > 0.0 { "larger" } else { "smaller" }));
    }
    if by.is_empty() {
        let (a, b) = (one.system.standard(), two.system.standard());
        return if a == b {
            "Hardly at all, except by the part it is on.".into()
        } else {
            "Hardly at all, except by the standards the machine is built to.".into()
        };
    }
    format!("By {}.", by.join("; by "))
}

/// The twins of the first candidate among `others`, the nearest first.
pub fn twins(
    first: &Candidate,
    others: &[&'static Listed],
    crest: Crest,
    record: &mut Record,
) -> Vec<(&'static Listed, ThreadTwin)> {
    let far = |other: &Listed| {
        let diameters = (basic(other, crest) / first.basic).ln().abs() / DIAMETERS;
        diameters + (pitch(other.thread()) / first.pitch).ln().abs() / PITCHES + f64::from(other.rareness) / 2.0
    };
    let mut found: Vec<&'static Listed> = others.iter().copied().filter(|other| is_twin(first, other, crest)).collect();
    found.sort_by(|a, b| far(a).total_cmp(&far(b)));
    found.truncate(MOST);
    let own = unit_of(first.thread());
    let difference = |si: f64| FoundDifference::stated(text::round(own.of_si(si), 14), own);
    let twins: Vec<(&'static Listed, ThreadTwin)> = found
        .into_iter()
        .map(|other| {
            let (diameters, pitches) = (basic(other, crest) - first.basic, pitch(other.thread()) - first.pitch);
            let twin = ThreadTwin {
                thread: other.designation.text(),
                family: ThreadFamily::of(other.thread()).as_str(),
                diameter_difference: difference(diameters),
                pitch_difference: difference(pitches),
                over_ten_turns: difference(10.0 * pitches),
                tell_by: tell_by(first.thread(), other.thread(), diameters / first.basic, pitches / first.pitch),
            };
            (other, twin)
        })
        .collect();
    tell(&twins, record);
    twins
}

fn tell(twins: &[(&'static Listed, ThreadTwin)], record: &mut Record) {
    if twins.is_empty() {
        return;
    }
    known_steps! { record;
        look_up "Threads easily mistaken for the first candidate",
            "lists of threads: diameters within 4 percent and pitches within 14 percent, of another series, or of its \
             own on the same diameter" => "twins.thread", column(twins, |(_, twin)| twin.thread.clone());
        look_up "Their families", "as listed" => "twins.family", column(twins, |(_, twin)| twin.family);
        look_up "Their diameters less its own", "lists of threads"
            => "twins.diameter_difference", column(twins, |(_, twin)| twin.diameter_difference);
        look_up "Their pitches less its own", "lists of threads"
            => "twins.pitch_difference", column(twins, |(_, twin)| twin.pitch_difference);
        step "Over ten threads", "t = 10 × v", v = "twins.pitch_difference"
            => "twins.over_ten_turns", column(twins, |(_, twin)| twin.over_ten_turns);
        look_up "Told apart by", "flank angle, taper, pitch and diameter, where they differ"
            => "twins.tell_by", column(twins, |(_, twin)| twin.tell_by.clone());
    }
}

/// What would part those that fit, and the twins, from each other.
pub fn check_next(
    input: &IdentifyInput,
    candidates: &[Candidate],
    twins: &[(&'static Listed, ThreadTwin)],
    record: &mut Record,
) -> Vec<String> {
    let threads: Vec<&Thread> = candidates
        .iter()
        .take(1)
        .chain(candidates.iter().skip(1).filter(|candidate| candidate.fits))
        .map(Candidate::thread)
        .chain(twins.iter().map(|(twin, _)| twin.thread()))
        .collect();
    let spread = |of: fn(&Thread) -> f64| {
        let all = threads.iter().map(|thread| of(thread));
        all.clone().fold(f64::NEG_INFINITY, f64::max) - all.fold(f64::INFINITY, f64::min)
    };
    let external = input.major_diameter.is_some();
    let next: Vec<String> = [
        (
            spread(|thread| unit_of(thread).to_si(thread.pitch)) > Unit::Millimetre.to_si(0.002),
            "Measure the pitch over as many threads as there are: a small difference adds up, and over ten threads a \
             rule shows it.",
        ),
        (
            input.flank_angle.is_none() && spread(|thread| thread.system.flank_angle()) > 2.0,
            "Hold templates of the flanks up to the light: 60 and 55 degrees, for power threads 29 and 30. Rounded \
             crests and roots suggest 55.",
        ),
        (
            input.body.is_none() && spread(|thread| f64::from(u8::from(thread.is_taper()))) > 0.0,
            "Measure the crests at both ends of the thread: a taper thread grows by a sixteenth of the length.",
        ),
        (
            external,
            "Measure again where the thread is not worn: under the head, at the end of the shank, or where it \
            is clean.",
        ),
        (
            !external,
            "Measure the root too, from a cast or with a probe: the major diameter tells threads apart \
            better.",
        ),
        (true, "See how far one turn advances: more than one pitch means several starts. Note which way it turns."),
        (true, "Run a known mating part on by hand for its whole length: a wrong one binds after two or three turns."),
    ]
    .into_iter()
    .filter(|(is, _)| *is)
    .map(|(_, says)| says.to_owned())
    .collect();
    let step =
        record.look_up("What to check next", "what tells apart those that fit and those easily mistaken for them");
    step.gives("check_next", next.clone());
    next
}
