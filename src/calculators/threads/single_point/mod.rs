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
    /// How the depth grows from pass to pass: with the `square_root` of the pass's number, which takes equal chips with a sharp tip, or by `equal_area` of the groove, so that every chip is as large with a flat too.
    PassLaw {
        /// By the square root.
        SquareRoot = "square_root",
        /// By the area.
        EqualArea = "equal_area",
    }
}

choice! {
    /// What the dial of the slide that feeds counts: `radius`, as far as the slide moves, or `diameter`, twice as much.
    FeedDial {
        /// As far as the slide moves.
        Radius = "radius",
        /// Twice as far.
        Diameter = "diameter",
    }
}

/// What single-point threading asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check_side, check = check_tip, check = check_infeed, check = check_passes)]
pub struct SinglePointInput {
    /// The thread by its designation; class, LH and starts may stand in it. Not taper.
    pub thread: Designation,
    /// Which thread is cut: external or internal.
    #[absent("external", value = self.usual_side(),
        "The thread of a screw is the more common one to cut so; Rp is an internal thread only.")]
    pub side: Option<CutThread>,
    /// Diameter of the blank as it was turned or bored.
    #[absent("the middle of the limits of its class, without limits the basic one", value = self.usual_blank(),
        "The middle of the limits of its class, the basic diameter where there are none; measure the blank, since the depth \
         starts from it.")]
    pub blank_diameter: Option<Size>,
    /// Class of a screw; if absent the one in the designation, else the usual one.
    pub external_class: Option<ExternalClass>,
    /// Class of a nut; if absent the one in the designation, else the usual one.
    pub internal_class: Option<InternalClass>,
    /// Pitch diameter to aim at; the middle of the limits of the class if absent.
    pub pitch_diameter: Option<Size>,
    /// Width of the flat on the tool's tip; 0 for a sharp one; if absent what the form of the thread has in its root: an
    /// eighth of the pitch for flanks of 60 degrees.
    pub tip_flat: Option<Extent>,
    /// Radius of the tool's tip, where it is rounded instead.
    pub tip_radius: Option<Size>,
    /// Which slide feeds the tool in: cross_slide or compound; compound where its angle is stated, else cross_slide.
    pub infeed: Option<ThreadInfeed>,
    /// Angle between the compound slide and the cross slide's direction; if absent half a degree less than the flank.
    #[absent("half a degree less than the flank", value = self.along_the_flank(),
        "Common practice: half a degree less than the flank, so that the trailing side is cleaned.")]
    pub compound_angle: Option<EdgeAngle>,
    /// What the dial of that slide counts: radius or diameter.
    #[absent("radius", "The dial is taken to count as far as its slide moves; many cross slides count diameters.")]
    pub dial: Option<FeedDial>,
    /// Passes to take, without those that only clean; this, or first_depth.
    pub passes: Option<Count<1, 200>>,
    /// Depth that the first pass may have, square to the axis; if neither it nor passes is stated, 0.010 in or 0.25 mm,
    /// from a pitch of 0.1 in or 2.5 mm on 0.012 in or 0.3 mm.
    pub first_depth: Option<Size>,
    /// Depth below which no pass but the last falls; none if absent, but with nothing stated 0.002 in or 0.05 mm.
    pub least_depth: Option<Size>,
    /// How the depth grows: square_root or equal_area.
    #[absent("equal_area, for a rounded tip square_root", value = self.usual_law(),
        "Every pass takes as much metal as the first, which a tip with a flat needs other depths for than a sharp one; \
         of a rounded tip the square root of the pass's number comes near to it.")]
    pub law: Option<PassLaw>,
    /// Passes at the end that take no more depth.
    #[absent("2", "Common practice: work and tool give way, and come back.")]
    pub spring_passes: Option<Count<0, 20>>,
}

/// One pass.
#[derive(Debug, Gives)]
pub struct ThreadPass {
    /// Its number.
    pub number: u32,
    /// `cut`, or `spring` for one that takes no more depth.
    pub kind: &'static str,
    /// Depth below the blank's surface, square to the axis.
    pub depth: FoundExtent,
    /// What it adds to the depth.
    pub added: FoundExtent,
    /// Section of the chip that it takes out of one groove; absent for a rounded tip.
    pub chip_area: Option<FoundArea>,
    /// Diameter at the tool's tip, as a readout across the lathe shows it.
    pub tip_diameter: FoundCrossDiameter,
    /// What the dial of the slide that feeds shows, from zero where the tip touched the blank.
    pub dial_reading: FoundPlace,
}

/// What single-point threading gives.
#[derive(Debug, Gives)]
pub struct SinglePointResult {
    /// Pitch of the thread.
    pub pitch: FoundSize,
    /// Lead that the lathe is geared for: the advance in one turn.
    pub lead: FoundSize,
    /// Number of starts.
    pub starts: u32,
    /// Angle of the thread at the basic pitch diameter, by which the tool's leading side has to clear more.
    pub lead_angle: FoundAngle,
    /// Which way the carriage goes while it cuts with the spindle forward: `towards_headstock`, or for a left-hand thread
    /// `towards_tailstock`.
    pub carriage_goes: &'static str,
    /// Turn of the work from start to start; several starts only.
    pub start_turn: Option<FoundAngle>,
    /// The groove.
    #[group]
    pub groove: GrooveSizes,
    /// Where the compound slide feeds.
    #[group]
    pub compound: CompoundAngles,
    /// Whole way of the slide that feeds, from touching the blank.
    pub slide_travel: FoundExtent,
    /// Number of passes that cut.
    pub pass_count: u32,
    /// The passes in order, those that only clean at the end.
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
    const ABOUT: &'static str = "The depth of a thread from the blank as it was turned, and the passes to it by cross \
        slide or compound, with what the dial shows at each.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str = "Measure over three wires before the last passes, or try the mating part while the work is still in the machine.";
    const WORDS: &'static str = "screwcutting, lathe, thread depth, infeed, compound slide, 29.5 degrees, passes, \
        spring pass, internal thread, left-hand, multiple starts, chasing";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2-13 stud for a winch on a blank of 0.498 in, by the compound at 29.5 degrees, sharp tip, 12 passes.":
            thread = "1/2-13 UNC", external_class = "2A", blank_diameter = "0.498 in", tip_flat = "0 in",
            infeed = "compound", compound_angle = "29.5 deg", passes = "12", spring_passes = "2";
        "An M24 nut of a pump, bored to 20.9 mm, straight in with a rounded tip; the first pass 0.3 mm deep, none below 0.05 mm.":
            thread = "M24x3", side = "internal", internal_class = "6H", blank_diameter = "20.9 mm",
            tip_radius = "0.2 mm", first_depth = "0.3 mm", least_depth = "0.05 mm", dial = "diameter";
        "A left-hand two-start Acme spindle of a mill gear to a pitch diameter, the chips of equal area.":
            thread = "1-5 Acme-LH (2 STARTS)", pitch_diameter = "0.890 in", law = "equal_area", passes = "20";
    };
    type Input = SinglePointInput;
    type Output = SinglePointResult;
    const LEADS: &'static [&'static str] = &["depth"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::THREADING_LATHE);
        record.caution(cautions::LATHE);
        record.source("geometry", "a groove of the flanks' angle, half a pitch wide on the pitch diameter");
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
                "Cut one start to its full depth, then turn the work by start_turn against the lead screw, or shift \
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
            "Swing the compound so that feeding in also moves the tool the way that the carriage goes: the leading \
             flank then does the cutting. The cross slide goes back to the same zero for each pass.");
    }
    if left_hand {
        notes!(record => left_hand:
            "A left-hand thread starts in a relief groove at the headstock's end and is cut away from it; the tool's \
             side towards the tailstock has to clear the lead angle.");
    }
    if input.cuts() == CutThread::Internal {
        notes!(record => internal:
            "Inside, the slide feeds towards the operator, and a boring bar springs: repeat the last pass until it \
             cuts nothing, and draw the tool back the other way.");
    }
    notes!(record => measure:
        "The flanks decide, not the depth: measure over wires or with a gauge before the last passes. Touch off anew \
         after the tool was ground.");
}
