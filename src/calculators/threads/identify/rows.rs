//! Candidates for a measured thread: how far diameter and pitch are off, what that makes of them together, and
//! the steps of each column.

use super::ThreadCandidate;
use super::range::{Crest, Range};
use crate::calculators::prelude::*;
use crate::reference::threads::{Listed, Thread, ThreadFamily, unit_of};
use crate::threading::{INCH, cite_row};
use crate::working::{column, known_steps};

/// Threads looked at in full: the nearest by basic size and pitch.
const LOOKED_AT: usize = 60;
/// Candidates with more misfit than this are left out, but for the first few.
const MOST_MISFIT: f64 = 4.0;
/// The first few are listed with more misfit, up to this, and if nothing fits whatever they have.
const MISFIT_OF_THE_FIRST: f64 = 10.0;
/// How many these are.
const THE_FIRST: usize = 3;

/// What was measured, and how well.
pub struct Measured {
    /// The diameter over or between the crests.
    pub diameter: Size,
    /// Which it is.
    pub crest: Crest,
    /// The pitch.
    pub pitch: FoundSize,
    /// How far the diameter may be off.
    pub diameter_error: Size,
    /// How far the pitch may be off.
    pub pitch_error: Size,
    /// How far crests may be worn.
    pub wear: Extent,
}

/// A candidate, with lengths in meters.
pub struct Candidate {
    /// The listed thread.
    pub listed: &'static Listed,
    /// Its basic diameter over the crests.
    pub basic: f64,
    /// Its pitch.
    pub pitch: f64,
    /// The sizes between which a sound thread lies.
    range: Range,
    /// The pitch measured less its own.
    pitch_off: f64,
    sound: (f64, f64),
    /// The same with wear.
    reach: (f64, f64),
    outside_by: f64,
    misfit: f64,
    /// Whether neither difference is more than its error.
    pub fits: bool,
}

/// The basic diameter over a thread's crests, in meters.
pub fn basic(listed: &Listed, crest: Crest) -> f64 {
    let basics = listed.basics();
    unit_of(listed.thread()).to_si(if crest == Crest::Outside { basics.major } else { basics.minor })
}

/// A thread's pitch, in meters.
pub fn pitch(thread: &Thread) -> f64 {
    unit_of(thread).to_si(thread.pitch)
}

impl Candidate {
    /// The thread.
    pub fn thread(&self) -> &'static Thread {
        self.listed.thread()
    }

    fn rank(&self) -> f64 {
        self.misfit + f64::from(self.listed.rareness) / 4.0
    }

    /// Cites the list it stands in and what its range rests on.
    pub fn cite(&self, record: &mut Record) {
        let thread = self.thread();
        if let Some(row) = thread.provenance {
            cite_row(row, format!("list of {} threads", thread.system.words()), record);
        }
        self.range.cite(thread, record);
    }

    fn says(&self, measured: &Measured) -> String {
        let (d, error) = (measured.diameter.get().si(), measured.diameter_error.get().si());
        let words = self.range.words();
        let outside = measured.crest == Crest::Outside;
        let place = if d > self.reach.1 + error {
            "is larger than this thread can be".to_owned()
        } else if d < self.reach.0 - error {
            "is smaller than this thread can be, even worn".to_owned()
        } else if d > self.sound.1 {
            format!(
                "is above {words}, {}",
                if outside { "but no more than it may be off" } else { "as if worn or drilled large" }
            )
        } else if d < self.sound.0 {
            format!("is below {words}, {}", if outside { "as if worn" } else { "but no more than it may be off" })
        } else {
            format!("is within {words}")
        };
        let within = self.pitch_off.abs() / measured.pitch_error.get().si();
        let pitch = if within <= 0.5 {
            "the pitch agrees"
        } else if within <= 1.0 {
            "the pitch agrees, just within what it may be off"
        } else {
            "the pitch does not agree"
        };
        format!("The diameter {place}; {pitch}.")
    }
}

impl Measured {
    /// Threads per inch, as measured.
    pub fn threads_per_inch(&self) -> f64 {
        Unit::Inch.to_si(1.0) / self.pitch.get().si()
    }

    /// The candidates among `possible`, the likeliest first.
    pub fn candidates(&self, possible: &[&'static Listed], count: usize) -> Vec<Candidate> {
        let (d, p) = (self.diameter.get().si(), self.pitch.get().si());
        let mut near: Vec<(f64, &'static Listed)> = possible
            .iter()
            .map(|listed| {
                let off = (pitch(listed.thread()) - p).abs() / self.pitch_error.get().si();
                // What wear and tolerance can do to a diameter goes by the pitch.
                let apart = (basic(listed, self.crest) - d).abs() / (0.1 * p + self.diameter_error.get().si());
                (off + apart, *listed)
            })
            .collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut found: Vec<Candidate> =
            near.into_iter().filter_map(|(_, listed)| self.candidate(listed)).take(LOOKED_AT).collect();
        found.sort_by(|a, b| a.rank().total_cmp(&b.rank()));
        let none_fits = !found.iter().any(|candidate| candidate.fits);
        let mut at = 0;
        found.retain(|candidate| {
            at += 1;
            let most = if at <= THE_FIRST { MISFIT_OF_THE_FIRST } else { MOST_MISFIT };
            candidate.misfit <= most || (none_fits && at <= THE_FIRST)
        });
        found.truncate(count);
        found
    }

    fn candidate(&self, listed: &'static Listed) -> Option<Candidate> {
        let thread = listed.thread();
        let range = Range::of(thread, self.crest)?;
        let unit = unit_of(thread);
        let sound = (unit.to_si(range.least), unit.to_si(range.greatest));
        let wear = self.wear.get().si();
        let reach = match self.crest {
            Crest::Outside => (sound.0 - wear, sound.1),
            Crest::Inside => (sound.0, sound.1 + wear),
        };
        let d = self.diameter.get().si();
        let outside_by = (d - reach.1).max(0.0) + (d - reach.0).min(0.0);
        let diameter = outside_by / self.diameter_error.get().si();
        let pitch = pitch(thread);
        let pitch_off = self.pitch.get().si() - pitch;
        // The pitch of so many to the inch, measured and listed, differs by the noise of a double.
        let pitch_off = if pitch_off.abs() < 1e-12 { 0.0 } else { pitch_off };
        let off = pitch_off / self.pitch_error.get().si();
        Some(Candidate {
            listed,
            basic: basic(listed, self.crest),
            pitch,
            range,
            pitch_off,
            sound,
            reach,
            outside_by,
            misfit: diameter.hypot(off),
            fits: diameter.abs() <= 1.0 && off.abs() <= 1.0,
        })
    }

    /// The rows of the candidates, column by column.
    pub fn rows(&self, candidates: &[Candidate], record: &mut Record) -> Vec<ThreadCandidate> {
        let inch = self.diameter.quantity().unit.system() == Some(System::Inch);
        let own = if inch { Unit::Inch } else { Unit::Millimetre };
        let difference = |si: f64| FoundDifference::stated(text::round(own.of_si(si), 14), own);
        let d = self.diameter.get().si();
        let rows: Vec<ThreadCandidate> = candidates
            .iter()
            .map(|one| {
                let (thread, unit) = (one.thread(), unit_of(one.thread()));
                let size = |si: f64| FoundSize::stated(unit.of_si(si), unit);
                ThreadCandidate {
                    thread: one.listed.designation.text(),
                    family: ThreadFamily::of(thread).as_str(),
                    flank_angle: FoundAngle::stated(thread.system.flank_angle(), Unit::Degree),
                    basic_diameter: size(one.basic),
                    from_basic: difference(d - one.basic),
                    least: size(one.reach.0),
                    greatest: size(one.reach.1),
                    outside_by: difference(one.outside_by),
                    pitch: size(one.pitch),
                    threads_per_inch: Unit::Inch.to_si(1.0) / one.pitch,
                    pitch_off: difference(one.pitch_off),
                    misfit: one.misfit,
                    fits: one.fits,
                    says: one.says(self),
                }
            })
            .collect();
        self.tell(candidates, &rows, record);
        rows
    }

    fn tell(&self, candidates: &[Candidate], rows: &[ThreadCandidate], record: &mut Record) {
        let sound = |si: fn(&Candidate) -> f64| {
            let of = |one: &Candidate| FoundSize::stated(unit_of(one.thread()).of_si(si(one)), unit_of(one.thread()));
            column(candidates, of)
        };
        let field = if self.crest == Crest::Outside { "major_diameter" } else { "minor_diameter" };
        let rule =
            "limits of the usual class; for a taper thread its two ends, for a Whitworth thread a borrowed tolerance";
        known_steps! { record;
            step "Threads per inch", "n = I / P", I = "constant:inch": INCH, P = "measured_pitch"
                => "measured_threads_per_inch", self.threads_per_inch();
            look_up "Candidates", "lists of threads: least misfit first, the commoner before the rarer"
                => "candidates.thread", column(rows, |row| row.thread.clone());
            look_up "Their families", "as listed" => "candidates.family", column(rows, |row| row.family);
            look_up "Their flank angles", "form of each thread in its standard"
                => "candidates.flank_angle", column(rows, |row| row.flank_angle);
            look_up "Their basic diameters over the crests", "lists of threads"
                => "candidates.basic_diameter", column(rows, |row| row.basic_diameter);
            step "Measured less basic", "u = m - D", m = field: self.diameter, D = "candidates.basic_diameter"
                => "candidates.from_basic", column(rows, |row| row.from_basic);
            look_up "Least of a sound one", rule => "sound.least", sound(|one| one.sound.0);
            look_up "Greatest of a sound one", rule => "sound.greatest", sound(|one| one.sound.1);
        }
        let (least, greatest) = (column(rows, |row| row.least), column(rows, |row| row.greatest));
        match self.crest {
            Crest::Outside => known_steps! { record;
                step "Least with wear", "a = l - w", l = "sound.least", w = "wear": self.wear
                    => "candidates.least", least;
                step "Greatest with wear", "b = l", l = "sound.greatest" => "candidates.greatest", greatest;
            },
            Crest::Inside => known_steps! { record;
                step "Least with wear", "a = l", l = "sound.least" => "candidates.least", least;
                step "Greatest with wear", "b = l + w", l = "sound.greatest", w = "wear": self.wear
                    => "candidates.greatest", greatest;
            },
        }
        known_steps! { record;
            step "Outside these by", "o = (m - b + abs(m - b)) / 2 + (m - a - abs(m - a)) / 2",
                m = field: self.diameter, a = "candidates.least", b = "candidates.greatest"
                => "candidates.outside_by", column(rows, |row| row.outside_by);
            look_up "Their pitches", "lists of threads" => "candidates.pitch", column(rows, |row| row.pitch);
            step "Their threads per inch", "n = I / P", I = "constant:inch": INCH, P = "candidates.pitch"
                => "candidates.threads_per_inch", column(rows, |row| row.threads_per_inch);
            step "Pitch off by", "v = p - P", p = "measured_pitch", P = "candidates.pitch"
                => "candidates.pitch_off", column(rows, |row| row.pitch_off);
            step "Misfit", "f = √((o / e)^2 + (v / g)^2)",
                o = "candidates.outside_by", e = "diameter_error": self.diameter_error, v = "candidates.pitch_off",
                g = "pitch_error": self.pitch_error => "candidates.misfit", column(rows, |row| row.misfit);
            look_up "Whether they fit", "true where o is at most e and v at most g, either way"
                => "candidates.fits", column(rows, |row| row.fits.to_string());
            look_up "For and against", "in words" => "candidates.says", column(rows, |row| row.says.clone());
        }
    }
}
