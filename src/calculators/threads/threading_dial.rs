//! When to close the half-nuts by the threading dial of a lathe: after how many marks the tool is in its
//! groove again, and at which marks it always is. Derived: lead of the thread, of the lead screw, and the
//! teeth of the dial's gear.

use crate::calculators::prelude::*;
use crate::machine::as_stated;
use crate::quantity::text;
use crate::threading::lead_to_cut;

/// The calculator.
pub struct ThreadingDial;

/// What the threading dial calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_lead)]
pub struct ThreadingDialInput {
    /// The thread to cut. Give this or the lead.
    #[label("Thread to cut")]
    pub thread: Option<Designation>,
    /// The lead to cut: how far the thread goes in one turn. Give this or the thread.
    #[label("Lead to cut")]
    pub lead: Option<ThreadPitch>,
    /// Lead of the lead screw: how far one turn of it moves the carriage.
    #[label("Lead of the lead screw")]
    pub leadscrew_lead: ThreadPitch,
    /// Teeth of the dial's gear; each turn of the lead screw moves it on by one tooth.
    #[label("Teeth of the dial's gear")]
    pub dial_gear: Count<4, 200>,
    /// Marks on the dial, numbered or not, evenly spaced.
    #[label("Marks on the dial")]
    pub dial_marks: Count<1, 100>,
}

/// What the threading dial calculator gives.
#[derive(Debug, Gives)]
pub struct ThreadingDialResult {
    /// Turns of the lead screw until the tool meets its groove again; 1 where the half-nuts can be closed anywhere.
    #[label("Turns of the lead screw")]
    pub screw_turns: u32,
    /// Whether the half-nuts can be closed anywhere they go in.
    #[label("Close anywhere")]
    pub anywhere: bool,
    /// Marks of the dial until the tool is in its groove again. Absent where the dial does not show it.
    #[label("Marks to the next good one")]
    pub every_marks: Option<u32>,
    /// Marks at which to close, if the first cut began at the last mark, which counts as zero. Absent where they change
    /// from turn to turn.
    #[label("Marks to close at", "mark")]
    pub marks: Option<Vec<u32>>,
    /// How far the carriage runs from one such place to the next.
    #[label("Carriage travel")]
    pub travel: FoundSize,
}

rules! { check_lead(ThreadingDialInput) {
    one_of(thread = "1/2-13", lead = "1/13 in"): "Give the thread or its lead.";
    not_both(thread, lead): "Give the thread or the lead, not both: the thread already has its lead.";
} }

/// Most turns of the lead screw that are looked at: farther than any bed is long.
const MOST_TURNS: u32 = 5000;

/// The smallest whole number of lead screw turns that is a whole number of leads.
fn turns(leads_per_turn: f64) -> Option<u32> {
    (1..=MOST_TURNS).find(|turns| {
        let leads = leads_per_turn * f64::from(*turns);
        (leads - leads.round()).abs() < 1e-9 * leads.max(1.0) && leads.round() >= 1.0
    })
}

fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// The nearest leads that come together with the other one within ten turns.
fn ways_out(input: &ThreadingDialInput, lead: FoundSize, per_turn: f64) -> Vec<(&'static str, String)> {
    let near = (per_turn * 10.0).round().max(1.0) / 10.0;
    let screw = input.leadscrew_lead.length();
    let way = |si: f64, unit: Unit| as_stated(&ThreadPitch::stated(text::tidy(unit.of_si(si)), unit));
    let mut ways = vec![("leadscrew_lead", way(lead.get().si() * near, screw.quantity().unit))];
    if let Some(lead) = input.lead {
        ways.insert(0, ("lead", way(screw.get().si() / near, lead.length().quantity().unit)));
    }
    ways
}

impl Calculator for ThreadingDial {
    const ID: &'static str = "threads/threading-dial";
    const TITLE: &'static str = "Threading dial";
    const ABOUT: &'static str = "At which marks of a lathe's threading dial to close the half-nuts, so that the tool \
        falls into the groove it has begun.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str = "Take scratch passes at two of the marks: the second must follow the first.";
    const WORDS: &'static str = "thread chasing dial, half-nut, half nuts, lathe, pick up a thread, lead screw, \
        dial marks";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2-13 stud on the shop's lathe: lead screw of 8 threads per inch, a dial of 32 teeth and 8 marks.":
            thread = "1/2-13", leadscrew_lead = "1/8 in", dial_gear = "32", dial_marks = "8";
        "A lead of 1.75 mm on the same lathe: its dial cannot follow that.":
            lead = "1.75 mm", leadscrew_lead = "1/8 in", dial_gear = "32", dial_marks = "8";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Lead screw {leadscrew_lead}, {dial_gear} teeth on the dial's gear, {dial_marks} marks. You cut {thread}. \
            How many marks must pass before the half-nuts can go in again?" => "every_marks":
            { thread = "1/2-13 UNC" | "7/16-14 UNC" | "5/8-11 UNC" | "3/4-10 UNC" | "1/4-20 UNC",
              leadscrew_lead = "8 tpi", dial_gear = "32", dial_marks = "8" }
            { thread = "1/2-13 UNC" | "3/4-10 UNC" | "7/8-9 UNC", leadscrew_lead = "4 tpi", dial_gear = "16",
              dial_marks = "8" };
        1 "The lead screw has {leadscrew_lead} and you cut {thread}. How many turns does it make before the tool meets \
            its groove again?" => "screw_turns":
            { thread = "1/2-13 UNC" | "5/16-18 UNC" | "3/4-10 UNC" | "1 1/2-6 UNC" | "1/4-20 UNC",
              leadscrew_lead = "8 tpi" | "4 tpi", dial_gear = "32", dial_marks = "8" };
        2 "You open the half-nuts after a pass of {thread}; the lead screw has {leadscrew_lead}. How far must the \
            carriage run at least before they may close again?" => "travel":
            { thread = "1/2-13 UNC" | "7/8-9 UNC" | "1/4-20 UNC" | "3/4-10 UNC", leadscrew_lead = "8 tpi" | "6 tpi",
              dial_gear = "24", dial_marks = "6", units = "inch" }
            { thread = "M8" | "M12" | "M16" | "M20" | "M30", leadscrew_lead = "6 mm" | "4 mm", dial_gear = "28",
              dial_marks = "4", units = "metric" };
        2 "Metric lathe, lead screw {leadscrew_lead}, {dial_gear} teeth on the dial's gear and {dial_marks} marks. How \
            many marks must pass for {thread} before you close again?" => "every_marks":
            { thread = "M8" | "M16" | "M20" | "M30", leadscrew_lead = "6 mm", dial_gear = "35", dial_marks = "7" };
        3 "Inch lathe, lead screw {leadscrew_lead}, geared with the 127 for a lead of {lead}. After how many turns of \
            the lead screw does the tool meet its groove again?" => "screw_turns":
            { lead = "1 mm" | "1.25 mm" | "1.5 mm" | "1.75 mm" | "2 mm", leadscrew_lead = "8 tpi" | "4 tpi",
              dial_gear = "32", dial_marks = "8" };
        3 "A pump screw of several starts has a lead of {lead}; lead screw {leadscrew_lead}, dial gear {dial_gear} \
            teeth, {dial_marks} marks. How many marks must pass before you close again?" => "every_marks":
            { lead = "0.2 in" | "0.25 in" | "0.4 in" | "0.3 in", leadscrew_lead = "8 tpi", dial_gear = "32",
              dial_marks = "8" };
    };
    type Input = ThreadingDialInput;
    type Output = ThreadingDialResult;
    const LEADS: &'static [&'static str] = &["every_marks"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::THREADING_LATHE);
        record.source("kinematics", "the carriage goes one lead of the screw for each of its turns");
        let lead = (input.thread.as_ref(), input.lead);
        let lead = lead_to_cut(lead, ("Lead of the thread", "thread_lead"), record);
        let screw = input.leadscrew_lead;
        let per_turn: f64 = step!(record, "Leads of the thread in one turn of the lead screw",
            x: leads_per_turn = number(S / L), S = leadscrew_lead: screw, L = thread_lead: lead);
        let Some(turns) = turns(per_turn) else {
            return Err(Refusal::no_answer(
                "The tool does not meet its groove again within 5000 turns of the lead screw. Keep the half-nuts \
                 closed and run the spindle back.",
                &ways_out(input, lead, per_turn),
            ));
        };
        let rule = "the least whole number of turns that is a whole number of leads";
        tell!(record.look_up("Turns of the lead screw until the tool meets its \
            groove", rule), x = leads_per_turn: per_turn
            => screw_turns: turns);
        tell!(record.look_up("Close anywhere", "where every turn of the lead screw is a whole number of leads"),
            q = screw_turns: turns => anywhere: turns == 1);
        let (gear, marks) = (u64::from(input.dial_gear.get()), u64::from(input.dial_marks.get()));
        // k marks are k G / M turns of the lead screw, which must be a whole multiple of the turns found.
        let every = u64::from(turns) * marks / common(gear, u64::from(turns) * marks);
        let travel: FoundSize = step!(record, "Travel to that place",
            t: travel = S * q, S = leadscrew_lead: screw, q = screw_turns: turns);
        // Beyond two turns of the dial nobody counts.
        let counted = every <= 2 * marks;
        let every_marks = counted.then_some(every as u32);
        if let Some(every) = every_marks {
            let rule = "the least k for which k × G / M is a whole multiple of q";
            tell!(record.look_up("Marks from one good place to the next", rule), q = screw_turns: turns,
                G = dial_gear: input.dial_gear.get(), M = dial_marks: input.dial_marks.get() => every_marks: every);
        }
        let fixed = every <= marks && marks % every == 0;
        let list: Option<Vec<u32>> = fixed.then(|| (1..=marks / every).map(|n| (n * every) as u32).collect());
        if let Some(list) = &list {
            tell!(record.look_up("Marks at which to close", "every one that many on, counted from the last mark as \
                zero")
                => marks: column(list, |mark| *mark));
        } else if counted {
            notes!(record => marks_change:
                "The good marks change with each turn of the dial. Count marks on from where the first cut began, or \
                 keep the half-nuts closed and run the spindle back.");
        } else {
            notes!(record => dial_does_not_follow:
                "The dial takes too many turns to come round again. Keep the half-nuts closed: stop, draw the tool \
                 out, and run the spindle back.");
        }
        if turns == 1 {
            record.note("close_anywhere", "The half-nuts may be closed anywhere they go in; the dial is not needed.");
        }
        if input.thread.as_ref().is_some_and(|thread| thread.thread.starts > 1) {
            record.note(
                "starts",
                "Cut each start by itself at these marks, then shift the tool or the work by one pitch for the next.",
            );
        }
        Ok(ThreadingDialResult { screw_turns: turns, anywhere: turns == 1, every_marks, marks: list, travel })
    }
}
