//! A thread cut by a single point on a lathe: depth from the blank as it is to the pitch diameter aimed at, for
//! the tip that is ground, and the passes to it with the dial's readings (form of the standards; passes of equal
//! area are geometry, what a first pass bears is common practice).

mod drawing;
mod groove;
mod passes;
mod plan;
mod rules;
mod tip;

use crate::calculators::prelude::*;
use crate::reference::threads::basics;
use crate::threading::given_thread;
use groove::{Groove, GrooveSizes};
use passes::{CompoundAngles, Feed};
use rules::{check_infeed, check_passes, check_side, check_thread, check_tip};
use tip::{Tip, tip_of};

/// The calculator.
pub struct SinglePoint;

choice! {
    /// Which thread is cut: the `external` one of a screw or the `internal` one of a nut.
    CutThread {
        /// On a screw.
        External = "external",
        /// In a bore.
        Internal = "internal",
    }
}

choice! {
    /// Which slide feeds the tool in: the `cross_slide` straight, or the `compound` at its angle along a flank.
    ThreadInfeed {
        /// Straight in.
        CrossSlide = "cross_slide",
        /// Along a flank.
        Compound = "compound",
    }
}

choice! {
    /// How the depth grows: with the `square_root` of the pass number, which takes equal chips with a sharp tip, or by `equal_area`, which takes equal chips with a flat too.
    PassLaw {
        /// With the square root of the pass number.
        SquareRoot = "square_root",
        /// By equal areas of the groove.
        EqualArea = "equal_area",
    }
}

choice! {
    /// What the dial of the slide that feeds reads: `radius`, the travel of the slide, or `diameter`, twice that.
    FeedDial {
        /// The travel of the slide.
        Radius = "radius",
        /// Twice the travel.
        Diameter = "diameter",
    }
}

/// What single-point threading asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check_side, check = check_tip, check = check_infeed, check = check_passes)]
pub struct SinglePointInput {
    /// The thread by its designation, which may name class, LH and starts. Parallel threads only.
    pub thread: Designation,
    /// Which thread is cut: external (screw) or internal (nut).
    #[absent("external", value = self.usual_side(),
        "Screws are cut this way more often than nuts; Rp is an internal thread only.")]
    #[label("Screw or nut")]
    pub side: Option<CutThread>,
    /// Diameter of the blank as turned or bored.
    #[absent("the middle of the limits of its class, or the basic one without limits", value = self.usual_blank(),
        "The middle of the limits of its class, or the basic diameter without limits. Measure the blank: the depth \
         starts from it.")]
    pub blank_diameter: Option<Size>,
    /// Class of the screw. If absent, the one in the designation, or else the usual one.
    #[label("Class of the screw")]
    pub external_class: Option<ExternalClass>,
    /// Class of the nut. If absent, the one in the designation, or else the usual one.
    #[label("Class of the nut")]
    pub internal_class: Option<InternalClass>,
    /// Pitch diameter to aim at. If absent, the middle of the limits of the class.
    #[label("Pitch diameter to cut to")]
    pub pitch_diameter: Option<Size>,
    /// Width of the flat on the tool's tip; 0 for a sharp tip. If absent, the root flat of the thread form: an eighth
    /// of the pitch for 60 degree threads.
    #[label("Flat on the tip")]
    pub tip_flat: Option<Extent>,
    /// Radius of the tool's tip, if it is rounded instead of flat.
    #[label("Radius on the tip")]
    pub tip_radius: Option<Size>,
    /// Which slide feeds the tool in: cross_slide or compound. If absent, compound where its angle is given, or else
    /// cross_slide.
    #[label("Slide that feeds")]
    pub infeed: Option<ThreadInfeed>,
    /// Angle of the compound slide from the direction of the cross slide; if absent half a degree less than the flank.
    #[absent("half a degree less than the flank", value = self.along_the_flank(),
        "Common practice: half a degree less than the flank, so that the trailing flank is cleaned up.")]
    pub compound_angle: Option<EdgeAngle>,
    /// What the dial of that slide reads: radius or diameter.
    #[absent("radius", "The dial is assumed to read the travel of the slide; many cross slide dials read diameters.")]
    #[label("Dial reads")]
    pub dial: Option<FeedDial>,
    /// Passes that cut, without spring passes. Give this or the depth of the first pass.
    #[label("Cutting passes")]
    pub passes: Option<Count<1, 200>>,
    /// Greatest depth of the first pass, on the radius. If neither it nor the passes are given, 0.010 in or 0.25 mm;
    /// from pitch 0.1 in or 2.5 mm on, 0.012 in or 0.3 mm.
    #[label("Depth of the first pass")]
    pub first_depth: Option<Size>,
    /// Least depth that a pass adds, but for the last. If absent, none; where no passes or depths are given, 0.002 in
    /// or 0.05 mm.
    #[label("Least depth of a pass")]
    pub least_depth: Option<Size>,
    /// How the depth grows: square_root or equal_area.
    #[absent("equal_area, for a rounded tip square_root", value = self.usual_law(),
        "Every pass takes as much metal as the first. For a rounded tip the square root of the pass number comes close \
         to that.")]
    #[label("How the depth grows")]
    pub law: Option<PassLaw>,
    /// Passes at the end that add no depth.
    #[absent("2", "Common practice: work and tool spring away, and come back.")]
    pub spring_passes: Option<Count<0, 20>>,
}

/// One pass.
#[derive(Debug, Gives)]
pub struct ThreadPass {
    /// Its number.
    pub number: u32,
    /// `cut`, or `spring` for one that adds no depth.
    pub kind: &'static str,
    /// Depth below the surface of the blank, on the radius.
    pub depth: FoundExtent,
    /// What it adds to the depth.
    #[label("Depth added")]
    pub added: FoundExtent,
    /// Cross section of the chip it takes; absent for a rounded tip.
    #[label("Chip cross section")]
    pub chip_area: Option<FoundArea>,
    /// Diameter at the tool's tip, as a cross slide readout shows it.
    #[label("Diameter at the tip")]
    pub tip_diameter: FoundCrossDiameter,
    /// What the dial of the slide that feeds reads, set to zero where the tip touched the blank.
    pub dial_reading: FoundPlace,
}

/// What single-point threading gives.
#[derive(Debug, Gives)]
pub struct SinglePointResult {
    /// Pitch of the thread.
    pub pitch: FoundSize,
    /// Lead to gear the lathe for: the advance in one turn.
    pub lead: FoundSize,
    /// Number of starts.
    pub starts: u32,
    /// Lead angle at the basic pitch diameter; the tool's leading side needs that much more clearance.
    pub lead_angle: FoundAngle,
    /// Which way the carriage goes while it cuts with the spindle forward: `towards_headstock`, or for a left-hand thread
    /// `towards_tailstock`.
    #[label("Carriage goes")]
    pub carriage_goes: &'static str,
    /// How far to turn the work from one start to the next; several starts only.
    #[label("Turn from start to start")]
    pub start_turn: Option<FoundAngle>,
    /// The groove.
    #[group]
    pub groove: GrooveSizes,
    /// Where the compound slide feeds.
    #[group]
    pub compound: CompoundAngles,
    /// Whole travel of the slide that feeds, from touching the blank.
    #[label("Travel of the slide")]
    pub slide_travel: FoundExtent,
    /// Number of passes that cut.
    #[label("Number of cutting passes")]
    pub pass_count: u32,
    /// The passes in order, spring passes last.
    #[label("Passes", "pass")]
    pub passes: Vec<ThreadPass>,
}

impl SinglePointInput {
    /// Which thread is cut, where the thread itself leaves a choice.
    pub fn cuts(&self) -> CutThread {
        self.side.unwrap_or(self.usual_side())
    }

    fn usual_side(&self) -> CutThread {
        if self.thread.thread.has_external() { CutThread::External } else { CutThread::Internal }
    }

    /// Major of a screw, minor of a nut.
    fn basic_diameter(&self) -> Size {
        let basics = basics(&self.thread.thread);
        let basic = if self.cuts() == CutThread::External { basics.major } else { basics.minor };
        Size::stated(basic, self.thread.unit())
    }

    /// The middle of the limits that the class has for the blank, as a size that can be stated; else the basic one.
    fn usual_blank(&self) -> Size {
        let thread = &self.thread.thread;
        let limits = if self.cuts() == CutThread::External {
            let found = ExternalClass::limits(thread, self.external_class.as_ref()).1;
            found.ok().map(|limits| (limits.major_min, limits.major_max))
        } else {
            let found = InternalClass::limits(thread, self.internal_class.as_ref()).1;
            found.ok().map(|limits| (limits.minor_min, limits.minor_max))
        };
        let middle = limits.map(|(least, greatest)| text::tidy((least + greatest) / 2.0));
        middle.map_or_else(|| self.basic_diameter(), |middle| Size::stated(middle, self.thread.unit()))
    }

    /// Passes of equal area, where they are worked out for the tip.
    fn usual_law(&self) -> PassLaw {
        if matches!(tip_of(self), Tip::Round(_)) { PassLaw::SquareRoot } else { PassLaw::EqualArea }
    }

    fn along_the_flank(&self) -> EdgeAngle {
        EdgeAngle::stated(self.thread.thread.system.flank_angle() / 2.0 - 0.5, Unit::Degree)
    }
}

impl Calculator for SinglePoint {
    const ID: &'static str = "threads/single-point";
    const TITLE: &'static str = "Threading with a single point";
    const ABOUT: &'static str = "The depth of a thread from the blank as turned or bored, and the passes to it by \
        cross slide or compound, with the dial reading of each.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Measure over three wires before the last passes, or try the mating part while the work is still in the lathe.";
    const WORDS: &'static str = "screwcutting, lathe, thread depth, infeed, compound slide, 29.5 degrees, passes, \
        spring pass, internal thread, left-hand, multiple starts, chasing";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2-13 stud for a winch on a blank of 0.498 in, by the compound at 29.5 degrees, sharp tip, 12 passes.":
            thread = "1/2-13 UNC", external_class = "2A", blank_diameter = "0.498 in", tip_flat = "0 in",
            infeed = "compound", compound_angle = "29.5 deg", passes = "12", spring_passes = "2";
        "An M24 nut of a pump, bored to 20.9 mm, straight in with a rounded tip; the first pass 0.3 mm deep, none below 0.05 mm.":
            thread = "M24x3", side = "internal", internal_class = "6H", blank_diameter = "20.9 mm",
            tip_radius = "0.2 mm", first_depth = "0.3 mm", least_depth = "0.05 mm", dial = "diameter";
        "A left-hand two-start Acme spindle of a mill gear, cut to a pitch diameter in 20 passes of equal chips.":
            thread = "1-5 Acme-LH (2 STARTS)", pitch_diameter = "0.890 in", law = "equal_area", passes = "20";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You cut the pump screw {thread}. How far do you turn the work from one start to the next?" => "start_turn":
            { thread = "1-5 Acme (2 STARTS)" | "1 1/2-4 Acme (3 STARTS)" | "1-5 Acme (4 STARTS)" | "Tr40x14P7"
              | "Tr40x21P7" };
        1 "What lead do you gear the lathe for to cut the screw {thread}?" => "lead":
            { thread = "1-5 Acme (2 STARTS)" | "3/4-6 Acme (2 STARTS)" | "1 1/2-4 Acme (3 STARTS)" | "2-4 Acme (2 \
                STARTS)",
              units = "inch" }
            { thread = "Tr40x14P7" | "Tr28x10P5" | "Tr20x8P4" | "Tr40x21P7", units = "metric" };
        2 "A {thread} winch stud on a blank turned to {blank_diameter}, tool with a {tip_flat} flat, cut to the middle \
            of class {external_class}. How deep is the thread on the radius?" => "depth":
            { thread = "1/2-13 UNC", external_class = "2A", blank_diameter = "0.498 in" | "0.495 in" | "0.496 in",
              tip_flat = "0.01 in" | "0.008 in", infeed = "cross_slide", units = "inch" }
            { thread = "3/4-10 UNC", external_class = "2A", blank_diameter = "0.748 in" | "0.745 in" | "0.746 in",
              tip_flat = "0.012 in" | "0.01 in", infeed = "cross_slide", units = "inch" };
        2 "An {thread} stud is cut to a pitch diameter of {pitch_diameter} from a {blank_diameter} blank with a \
            {tip_flat} flat on the tool. How deep is the thread on the radius?" => "depth":
            { thread = "M20", pitch_diameter = "18.25 mm" | "18.3 mm", blank_diameter = "19.9 mm" | "19.8 mm",
              tip_flat = "0.3 mm" | "0.25 mm", infeed = "cross_slide", units = "metric" }
            { thread = "M24", pitch_diameter = "21.9 mm" | "21.95 mm", blank_diameter = "23.9 mm" | "23.8 mm",
              tip_flat = "0.35 mm" | "0.3 mm", infeed = "cross_slide", units = "metric" };
        3 "A sharp tool cuts {thread} from {blank_diameter} to a pitch diameter of {pitch_diameter}, fed by the \
            compound at {compound_angle}. How far does the compound travel in all?" => "slide_travel":
            { thread = "1/2-13 UNC", pitch_diameter = "0.446 in" | "0.447 in", blank_diameter = "0.498 in" | "0.496 in",
              tip_flat = "0 in", infeed = "compound", compound_angle = "29 deg" | "29.5 deg", units = "inch" }
            { thread = "3/4-10 UNC", pitch_diameter = "0.681 in" | "0.68 in", blank_diameter = "0.748 in" | "0.746 in",
              tip_flat = "0 in", infeed = "compound", compound_angle = "29.5 deg", units = "inch" };
        3 "A sharp tool cuts {thread} from {blank_diameter} to a pitch diameter of {pitch_diameter} in {passes} passes \
            of equal chips, straight in. How deep does the first one go?" => "passes/0/depth":
            { thread = "M20", pitch_diameter = "18.3 mm" | "18.25 mm", blank_diameter = "19.9 mm", tip_flat = "0 mm",
              infeed = "cross_slide", passes = "16" | "20" | "25", law = "equal_area", units = "metric" }
            { thread = "1/2-13 UNC", pitch_diameter = "0.446 in", blank_diameter = "0.498 in" | "0.496 in",
              tip_flat = "0 in", infeed = "cross_slide", passes = "12" | "16" | "25", law = "equal_area",
              units = "inch" };
    };
    type Input = SinglePointInput;
    type Output = SinglePointResult;
    const LEADS: &'static [&'static str] = &["depth"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::THREADING_LATHE);
        record.caution(cautions::LATHE);
        record.source("geometry", "a groove at the flank angle, half a pitch wide on the pitch diameter");
        input.side(record);
        let given = given_thread(&input.thread, "thread", record);
        let groove = Groove::find(&given, input, record)?;
        let feed = Feed::find(input, record);
        let (slide_travel, passes) = passes::rows(&given, &groove, &feed, input, record)?;
        let thread = given.thread();
        let carriage_goes = if thread.left_hand { "towards_tailstock" } else { "towards_headstock" };
        tell!(record.look_up("Which way the carriage goes", "a left-hand thread is cut away from the headstock"),
            T = thread: input.thread.text() => carriage_goes);
        let start_turn = (thread.starts > 1).then(|| {
            let turn = FoundAngle::stated(360.0, Unit::Degree);
            let turn: FoundAngle = step!(record, "Turn from start to start",
                β: start_turn = c / N, c = "constant:full_turn": turn, N = starts: thread.starts);
            notes!(record => starts:
                "Cut one start to full depth. Then turn the work to the next start with the lead screw held, or shift \
                 the tool along the axis by one pitch, and cut the next.");
            turn
        });
        tell_practice(input, &feed, thread.left_hand, record);
        Ok(SinglePointResult {
            pitch: given.pitch,
            lead: given.lead,
            starts: thread.starts,
            lead_angle: groove.lead_angle,
            carriage_goes,
            start_turn,
            groove: groove.sizes,
            compound: feed.shown,
            slide_travel,
            pass_count: passes.iter().filter(|pass| pass.kind == "cut").count() as u32,
            passes,
        })
    }
}

/// Notes on how such a thread is cut.
fn tell_practice(input: &SinglePointInput, feed: &Feed, left_hand: bool, record: &mut Record) {
    if feed.angle.is_some() {
        notes!(record => compound_side:
            "Swing the compound so that feeding in also moves the tool the way the carriage goes: then the leading \
             edge does the cutting. Bring the cross slide back to the same zero for each pass.");
    }
    if left_hand {
        notes!(record => left_hand:
            "Start a left-hand thread in a relief groove at the headstock end and cut away from it. The side of the \
             tool towards the tailstock has to clear the lead angle.");
    }
    if input.cuts() == CutThread::Internal {
        notes!(record => internal:
            "Inside, the slide feeds towards you and the boring bar springs. Repeat the last pass until it cuts \
             nothing, and draw the tool out the other way.");
    }
    notes!(record => measure:
        "The fit is on the flanks, not in the depth: measure over wires or with a gauge before the last passes. Touch \
         off again after grinding the tool.");
}
