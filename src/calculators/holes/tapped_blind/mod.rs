//! How deep to drill and to tap a blind hole for so much full thread: the tap's chamfer and the room below it count in
//! pitches, the drill's point by plane geometry.

mod depths;
mod drawing;

use crate::calculators::prelude::*;
use crate::reference::tap_chamfers::TapChamfer;
use crate::suggestion::{Way, value};
use crate::threading::{BelowTheHole, BlindBottom};
use depths::Depths;

/// The calculator.
pub struct TappedBlind;

/// What the tapped blind hole calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check)]
pub struct TappedBlindInput {
    /// The thread by its designation, such as M8 or 1/4-20 UNC.
    pub thread: Designation,
    /// Depth of full thread wanted below the face.
    #[label("Depth of full thread")]
    pub thread_depth: Option<Size>,
    /// Number of full threads wanted, in place of their depth.
    #[label("Full threads")]
    pub full_threads: Option<PlainNumber>,
    /// Chamfer of the tap: taper, plug or bottoming.
    #[label("Chamfer of the tap")]
    #[absent("plug", "A plug tap is assumed, the usual one.")]
    pub tap_chamfer: Option<TapChamfer>,
    /// Threads on the chamfer, counted on the tap.
    #[label("Threads on the chamfer")]
    pub chamfer_threads: Option<PlainNumber>,
    /// Turns to leave free below the tap; if absent one, or more for a deep thread.
    #[label("Free turns below the tap")]
    pub extra_turns: Option<PlainNumber>,
    /// Length of a center point at the end of the tap.
    #[label("Center point on the tap")]
    #[absent("0", value = Extent::stated(0.0, self.thread.unit()),
        "The tap is assumed to end flat. Small taps often have a center point: measure it.")]
    pub tap_center: Option<Extent>,
    /// Tap drill, as a length or by its name.
    #[label("Tap drill")]
    pub drill: Option<DrillDiameter>,
    /// The drill's point and the part.
    #[group]
    pub bottom: BlindBottom,
}

/// What the tapped blind hole calculator gives.
#[derive(Debug, Gives)]
pub struct TappedBlindResult {
    /// How deep to drill and to tap.
    #[group]
    pub depths: Depths,
    /// How deep the drill's tip goes, and what is left.
    #[group]
    #[needs(drill)]
    pub below: Option<BelowTheHole>,
}

fn check_thread(input: &TappedBlindInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if thread.is_taper() || !thread.has_internal() {
        let says =
            "A taper thread has no depth of full thread: its gauge says how deep it goes. Name a parallel thread.";
        return Err(rule_broken(Code::Conflict, says, &[("thread", "G 1/2")]));
    }
    let size = input.thread.found(thread.diameter).get().si();
    let smaller = value(size - input.thread.found(thread.pitch).get().si(), input.thread.unit(), Way::Near);
    match input.drill {
        // Unsaid, the floor would go unchecked, and the hole could come through.
        None if input.bottom.thickness.is_some() || input.bottom.floor.is_some() => {
            let says = "Give the tap drill too: how far its point goes decides what floor is left.";
            Err(rule_broken(Code::FieldMissing, says, &[("drill", &smaller)]))
        }
        Some(drill) if drill.size.get().si() >= size => {
            let says = "The tap drill must be smaller than the thread.";
            Err(rule_broken(Code::Conflict, says, &[("drill", &smaller)]))
        }
        _ => Ok(()),
    }
}

rules! { check(TappedBlindInput) {
    one_of(thread_depth = "0.5 in", full_threads = "8"): "Give the depth of full thread or how many full threads.";
    not_both(thread_depth, full_threads): "Give the depth of full thread or how many full threads, not both.";
    not_both(tap_chamfer, chamfer_threads): "Give the kind of chamfer or the threads on it, not both.";
    never(|input| input.full_threads.is_some_and(|count| !(0.5..=500.0).contains(&count.get())),
        Code::ValueOutOfRange, full_threads = "8"): "From 0.5 to 500 full threads can be asked for.";
    never(|input| input.chamfer_threads.is_some_and(|count| !(0.5..=20.0).contains(&count.get())),
        Code::ValueOutOfRange, chamfer_threads = "4"): "The chamfer of a tap takes from 0.5 to 20 threads.";
    never(|input| input.extra_turns.is_some_and(|count| !(0.1..=100.0).contains(&count.get())),
        Code::ValueOutOfRange, extra_turns = "1"):
        "Leave from 0.1 to 100 turns free. A tap that reaches the bottom breaks.";
} }

impl Calculator for TappedBlind {
    const ID: &'static str = "holes/tapped-blind";
    const TITLE: &'static str = "Tapped blind hole";
    const ABOUT: &'static str = "How deep to drill and to tap a blind hole for so much full thread, with the tap's chamfer \
        and the drill's point, and how much floor is left below.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str = "Before tapping, measure the depth at full diameter with a flat-ended rod; after it, count the turns that a screw \
         goes in.";
    const WORDS: &'static str = "blind tap, tap depth, thread depth, tapping depth, drill depth, full threads, bottoming \
        tap, plug tap, taper tap, chamfer, lead, floor, wall";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 stud takes 1/2 in of full thread in a winch housing 1-1/8 in thick; the drill is No.7, the tap a plug tap.":
            thread = "1/4-20 UNC", thread_depth = "1/2 in", tap_chamfer = "plug", extra_turns = "2", drill = "No.7",
            point_angle = "118 deg", thickness = "1-1/8 in", floor = "1/8 in";
        "Ten full threads of M8 in a pump cap, with a tap whose chamfer has 3 threads and a center point of 2 mm.":
            thread = "M8", full_threads = "10", chamfer_threads = "3", tap_center = "2 mm", drill = "6.8 mm",
            floor = "3 mm";
        "M10, 15 mm deep, in a mill gear cover of 30 mm, finished with a bottoming tap.":
            thread = "M10", thread_depth = "15 mm", tap_chamfer = "bottoming", drill = "8.5 mm", thickness = "30 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You want {full_threads} full threads of {thread}. How deep is that?" => "full_thread_depth":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "5/16-18 UNC", full_threads = "8" | "10" | "12" }
            { thread = "M6" | "M8" | "M10", full_threads = "8" | "10" | "12" };
        2 "A {thread} hole needs {thread_depth} of full thread. The chamfer of your tap has {chamfer_threads} threads. How \
           deep does the end of the tap go?" => "tap_depth":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", thread_depth = "1/2 in" | "3/4 in",
              chamfer_threads = "2" | "4" | "5" }
            { thread = "M6" | "M8" | "M10", thread_depth = "12 mm" | "16 mm", chamfer_threads = "2" | "4" | "5" };
        2 "{thread}, {thread_depth} of full thread, {chamfer_threads} threads on the tap's chamfer, {extra_turns} turns \
           free below it. How deep must the full diameter of the drill go?" => "full_depth":
            { thread = "1/4-20 UNC" | "3/8-16 UNC", thread_depth = "1/2 in" | "3/4 in", chamfer_threads = "2" | "4",
              extra_turns = "1" | "2" }
            { thread = "M6" | "M8" | "M10", thread_depth = "12 mm" | "16 mm", chamfer_threads = "2" | "4",
              extra_turns = "1" | "2" };
        3 "{thread}, {thread_depth} of full thread, {chamfer_threads} threads on the chamfer, {extra_turns} turns free. \
           The part is {thickness} thick, the drill {drill} with a {point_angle} point. How much floor is left?"
            => "floor_left":
            { thread = "M8", thread_depth = "12 mm" | "14 mm", chamfer_threads = "2" | "3", extra_turns = "1" | "2",
              thickness = "25 mm" | "30 mm", drill = "6.8 mm", point_angle = "118 deg" }
            { thread = "3/8-16 UNC", thread_depth = "5/8 in" | "3/4 in", chamfer_threads = "2" | "4",
              extra_turns = "1" | "2", thickness = "1-1/2 in" | "1-3/4 in", drill = "5/16 in",
              point_angle = "118 deg" };
    };
    type Input = TappedBlindInput;
    type Output = TappedBlindResult;
    const LEADS: &'static [&'static str] = &["tip_depth|full_depth", "tap_depth"];
    const CONTEXT: &'static [&'static str] =
        &["{full_depth} at full diameter", "tap {tap_depth} deep", "{floor_left} of floor left"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::DRILLING, cautions::TAPPING, cautions::TURNING_SPINDLE]);
        let (depths, chamfer) = Depths::find(input, record);
        let Some(drill) = input.drill else { return Ok(TappedBlindResult { depths, below: None }) };
        let pitch = input.thread.found(input.thread.thread.pitch).get().si();
        let thread = depths.full_thread_depth.get().si();
        let shallower = |lacking: f64| {
            let unit = input.thread.unit();
            let less = thread - lacking;
            let mut ways = Vec::with_capacity(2);
            if less > pitch && input.thread_depth.is_some() {
                ways.push(("thread_depth", value(less, unit, Way::Down)));
            } else if less > pitch {
                ways.push(("full_threads", text::full((less / pitch).floor())));
            }
            let bottoming = TapChamfer::Bottoming.row().map_or(0.0, |row| row.most);
            if input.chamfer_threads.is_none() && chamfer - bottoming >= lacking / pitch {
                ways.push(("tap_chamfer", TapChamfer::Bottoming.as_str().to_owned()));
            }
            ways
        };
        let below = input.bottom.below(("drill", drill.size), depths.full_depth, shallower, record)?;
        Ok(TappedBlindResult { depths, below: Some(below) })
    }
}
