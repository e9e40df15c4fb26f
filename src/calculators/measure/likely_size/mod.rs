//! What size a measured part was probably made to: fractions, millimeters, drills, stock bars and threads near the
//! measurement, the likeliest first (the tables' sizes; the order is a judgment).

mod known;

use crate::arithmetic::measured::HoleOrShaft;
use crate::calculators::prelude::*;
use known::{Known, known_near};

/// The calculator.
pub struct LikelySize;

choice! {
    /// Fractions to 64ths of an inch, millimeters to tenths, drills, stock bars, or diameters of threads.
    SizeFamily {
        /// Fractions of an inch to 64ths.
        Fraction = "fraction",
        /// Whole, half and tenth millimeters.
        Millimeter = "millimeter",
        /// Number, letter, fraction and metric drills.
        Drill = "drill",
        /// Round bar that is usually stocked.
        Bar = "bar",
        /// Basic diameters of unified and metric threads.
        Thread = "thread",
    }
}

choice! {
    /// The `only` one that fits, the `likeliest` of several, `possible`, or `unlikely`.
    HowSure {
        /// No other of the list fits.
        Only = "only",
        /// It stands out among those that fit.
        Likeliest = "likeliest",
        /// It fits, and so does another about as well.
        Possible = "possible",
        /// It is farther off than it may be.
        Unlikely = "unlikely",
    }
}

/// What the likely size asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct LikelySizeInput {
    /// Size that was measured.
    #[label("Measured size")]
    pub measured_size: Size,
    /// How far off it may be, with the tolerance it was made to.
    #[label("May be off by")]
    #[absent("0.05 mm", "A caliper and ordinary work are good to about 0.05 mm, 0.002 in.")]
    pub error: Option<Size>,
    /// A hole, or a shaft; needed with wear.
    #[label("Hole or shaft")]
    pub feature: Option<HoleOrShaft>,
    /// How far it may be worn, measured across.
    #[label("May be worn by")]
    #[absent("0", like = measured_size, "The part is taken as not worn where it was measured.")]
    pub wear: Option<Extent>,
    /// Families of sizes to look in; all if absent.
    #[label("Families of sizes", "family")]
    pub families: Option<Vec<SizeFamily>>,
    /// Most sizes to list.
    #[label("How many to list")]
    #[absent("8", "The eight likeliest are listed.")]
    pub count: Option<Count<1, 30>>,
}

/// A size that the part may have been made to.
#[derive(Debug, Gives)]
pub struct LikelyCandidate {
    /// The size by its name.
    pub name: String,
    /// What else has that size.
    #[label("Also the size of")]
    pub also: Option<String>,
    /// The size.
    pub size: FoundSize,
    /// The measured size less it.
    #[label("Measured less this")]
    pub difference: FoundDifference,
    /// How far it is off as a multiple of how far it may be.
    pub misfit: f64,
    /// How sure it is.
    pub how_sure: HowSure,
}

/// What the likely size gives.
#[derive(Debug, Gives)]
pub struct LikelySizeResult {
    /// The likeliest size by its name; absent if none fits.
    #[label("Likeliest size")]
    pub name: Option<String>,
    /// The likeliest size.
    #[label("Its size")]
    pub size: Option<FoundSize>,
    /// How many sizes fit.
    #[label("Sizes that fit")]
    pub fitting: u32,
    /// Whether several fit.
    pub ambiguous: bool,
    /// The sizes, the likeliest first.
    #[label("Sizes", "size")]
    pub candidates: Vec<LikelyCandidate>,
}

rules! { check(LikelySizeInput) {
    never(|input| input.wear.is_some_and(|wear| wear.si() > 0.0) && input.feature.is_none(), Code::Conflict,
        feature = "shaft", wear = "leave out"): "Say whether it is a hole or a shaft: a hole wears large, a shaft small.";
    never(|input| input.error.is_some_and(|error| error.si() > 0.001), Code::ValueOutOfRange, error = "0.1 mm"):
        "With more than 1 mm, about 0.04 in, either way nearly every size fits. Measure closer.";
    never(|input| input.wear.is_some_and(|wear| wear.si() > 0.002), Code::ValueOutOfRange, wear = "0.5 mm"):
        "With more than 2 mm, about 0.08 in, of wear nearly every size fits. Measure where it is not worn.";
    never(|input| input.families.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty,
        families = "fraction,millimeter"): "No family is named; leave the field out for all of them.";
    never(|input| input.measured_size.si() < 0.0002, Code::ValueOutOfRange, measured_size = "0.5 in"):
        "The smallest size of the tables is 0.2 mm, about 0.008 in.";
} }

impl Calculator for LikelySize {
    const ID: &'static str = "measure/likely-size";
    const TITLE: &'static str = "What size was it made to";
    const ABOUT: &'static str = "The fraction, millimeter, drill, stock bar or thread size that a measured part was \
        probably made to, with what else fits, also for a worn bore or shaft.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Measure the part that it ran with, and where nothing ran on it: under a collar, in the bottom of a bore.";
    const WORDS: &'static str = "nearest fraction, nominal size, original size, worn shaft, worn bore, inch or metric, \
        what size is this, decimal to fraction, reverse engineer, caliper reading";
    const EXAMPLES: &'static [Example] = examples! {
        "A pin of an old winch measures 0.4985 in with a caliper: was it 1/2 in?": measured_size = "0.4985 in";
        "A pump's bushing bore is worn and measures 25.32 mm; bores wear large.":
            measured_size = "25.32 mm", error = "0.03 mm", feature = "hole", wear = "0.4 mm",
            families = "fraction,millimeter", count = "6";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A caliper reads {measured_size}, good to {error}. What fraction of an inch was it made to, as a decimal?"
            => "candidates/0/size":
            { measured_size = "0.374 in" | "0.499 in" | "0.626 in" | "0.188 in" | "0.311 in", error = "0.002 in",
              families = "fraction", units = "inch" };
        1 "A caliper reads {measured_size}, good to {error}. What size in millimeters was it made to?" => "candidates/0/size":
            { measured_size = "11.98 mm" | "24.97 mm" | "7.48 mm" | "15.96 mm", error = "0.05 mm", families = "millimeter",
              units = "metric" };
        2 "A caliper reads {measured_size}, good to {error}. How far is that from the fraction it was made to, minus for \
            under?" => "candidates/0/difference":
            { measured_size = "0.3735 in" | "0.4985 in" | "0.6265 in" | "0.7485 in", error = "0.002 in",
              families = "fraction", units = "inch" };
        3 "A worn {feature} measures {measured_size}, good to {error}, and may be worn by {wear}. What millimeter size was it?"
            => "candidates/0/size":
            { feature = "shaft", measured_size = "24.8 mm" | "19.75 mm" | "11.85 mm", error = "0.02 mm", wear = "0.3 mm",
              families = "millimeter", units = "metric" }
            { feature = "hole", measured_size = "25.25 mm" | "20.2 mm" | "12.15 mm", error = "0.02 mm", wear = "0.3 mm",
              families = "millimeter", units = "metric" };
    };
    type Input = LikelySizeInput;
    type Output = LikelySizeResult;
    const LEADS: &'static [&'static str] = &["name", "size"];
    const CONTEXT: &'static [&'static str] = &["{candidates/0/how_sure}", "{fitting} that fit"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("common_practice", "the order: the misfit, plus a quarter for each step of rareness");
        let measured = input.measured_size;
        let error = input.error(record);
        let wear = input.wear(record);
        let families = input.families.as_deref().unwrap_or(&SizeFamily::ALL);
        let reach = (3.0 * error.si() + wear.si()).max(0.0006);
        let misfit = |known: &Known| {
            let over = rounded(measured.si() - known.size.si());
            let off = match input.feature {
                Some(HoleOrShaft::Hole) => (-over).max(over - wear.si()).max(0.0),
                Some(HoleOrShaft::Shaft) => over.max(-over - wear.si()).max(0.0),
                None => over.abs(),
            };
            // So that the last bits of a difference decide nothing.
            (off / error.si() * 1e9).round() / 1e9
        };
        let mut all: Vec<(f64, Known)> = known_near((measured.si(), reach), families, input.feature)
            .into_iter()
            .map(|known| (misfit(&known), known))
            .collect();
        if all.is_empty() {
            let says = "No size of these families is near. Look in all of them.";
            return Err(Refusal::no_answer(says, &[("families", "leave out".into())]));
        }
        let score = |(misfit, known): &(f64, Known)| misfit + f64::from(known.rareness) / 4.0;
        let off = |known: &Known| (measured.si() - known.size.si()).abs();
        all.sort_by(|a, b| {
            let fits = (a.0 > 1.0).cmp(&(b.0 > 1.0));
            fits.then(score(a).total_cmp(&score(b))).then(off(&a.1).total_cmp(&off(&b.1)))
        });
        let fitting = all.iter().filter(|(misfit, _)| *misfit <= 1.0).count();
        let stands_out = fitting > 1 && score(&all[1]) - score(&all[0]) >= 0.25;
        all.truncate(input.count(record).get() as usize);
        for (_, known) in &all {
            for (source, place, trust) in &known.sources {
                record.source_of_row(source, *place, trust);
            }
        }
        let candidates: Vec<LikelyCandidate> = all
            .into_iter()
            .enumerate()
            .map(|(at, (misfit, known))| LikelyCandidate {
                how_sure: how_sure(at, misfit, fitting, stands_out),
                difference: FoundDifference::of_si(rounded(measured.si() - known.size.si())),
                also: known.also(),
                name: known.names.into_iter().next().unwrap_or_default(),
                size: known.size.found(),
                misfit,
            })
            .collect();
        tell_candidates(input, &candidates, (error, wear), record);
        Ok(tell_first(candidates, fitting as u32, record))
    }
}

impl SizeFamily {
    const ALL: [SizeFamily; 5] =
        [SizeFamily::Fraction, SizeFamily::Millimeter, SizeFamily::Drill, SizeFamily::Bar, SizeFamily::Thread];
}

/// Without the last bits that a difference leaves.
fn rounded(meters: f64) -> f64 {
    (meters * 1e15).round() / 1e15
}

fn how_sure(at: usize, misfit: f64, fitting: usize, stands_out: bool) -> HowSure {
    match (misfit <= 1.0, fitting) {
        (false, _) => HowSure::Unlikely,
        (true, 1) => HowSure::Only,
        (true, _) if at == 0 && stands_out => HowSure::Likeliest,
        (true, _) => HowSure::Possible,
    }
}

fn tell_candidates(
    input: &LikelySizeInput,
    candidates: &[LikelyCandidate],
    (error, wear): (Size, Extent),
    record: &mut Record,
) {
    let measured = input.measured_size;
    let table = "fractions, millimeters, drills, bars and threads near the size, ranked by misfit and rareness";
    record
        .look_up("Sizes near the measured one", table)
        .with("m", "measured_size", measured)
        .gives("candidates.name", column(candidates, |one| one.name.clone()));
    if candidates.iter().any(|one| one.also.is_some()) {
        record
            .look_up("What else has that size", table)
            .gives("candidates.also", column(candidates, |one| one.also.clone()));
    }
    tell!(record.look_up("Their sizes", table) => candidates.size);
    tell!(record.step("Measured size less each", "d = m - s"), m = measured_size: measured, s = candidates.size
        => candidates.difference);
    let step = match input.feature {
        Some(HoleOrShaft::Hole) => {
            record.step("Misfit, wear making a hole larger", "q = max(max(-d, d - w), 0) / e").with("w", "wear", wear)
        }
        Some(HoleOrShaft::Shaft) => {
            record.step("Misfit, wear making a shaft smaller", "q = max(max(d, -d - w), 0) / e").with("w", "wear", wear)
        }
        None => record.step("Misfit", "q = abs(d) / e"),
    };
    step.with("d", "candidates.difference", column(candidates, |one| one.difference))
        .with("e", "error", error)
        .gives("candidates.misfit", column(candidates, |one| one.misfit));
    let rule = "unlikely if the misfit is above 1; only if no other fits; likeliest if the first is ahead by a quarter";
    tell!(record.look_up("How sure each is", rule), q = "candidates.misfit": column(candidates, |one| one.misfit)
        => "candidates.how_sure": column(candidates, |one| one.how_sure.as_str()));
}

/// The likeliest, and what to say of the others.
fn tell_first(candidates: Vec<LikelyCandidate>, fitting: u32, record: &mut Record) -> LikelySizeResult {
    let ambiguous = fitting > 1;
    tell!(record.look_up("Sizes that fit", "misfit of 1 or less, also where they are not listed") => fitting);
    tell!(record.look_up("Whether several fit", "more than one") => ambiguous);
    let first = candidates.first().filter(|_| fitting > 0);
    let (name, size) = (first.map(|one| one.name.clone()), first.map(|one| one.size));
    if let (Some(name), Some(size)) = (&name, size) {
        record.look_up("Likeliest size", "the first that fits").gives("name", name.clone());
        tell!(record.choose("Its size", "the first"), s = candidates.size => size);
    }
    match fitting {
        0 => record.note(
            "none_fits",
            "No size of the list is near enough; the nearest are shown. The part may be worn, plated, or made to a decimal \
             size or to a fit.",
        ),
        1 => {}
        _ => record.note(
            "ambiguous",
            "Several sizes fit. Look at what it belongs to before you make a new part: an inch machine has inch sizes, and \
             the part that runs with it decides.",
        ),
    }
    record.note(
        "nominal",
        "A part is made to its size less or more a fit: a running shaft measures a little under, a bore a little over, a \
         screw 0.1 to 0.3 mm, 0.004 to 0.012 in, under.",
    );
    LikelySizeResult { name, size, fitting, ambiguous, candidates }
}
