//! How tools of different length differ, from the reading of each on one and the same face: plain
//! differences of readings, which hold whichever way the scale counts.

use crate::arithmetic::touching::ReadingWas;
use crate::calculators::prelude::*;
use crate::fields::nearest;

/// The calculator.
pub struct ToolSetting;

/// Most letters of a tool's name.
const LONGEST_NAME: usize = 60;

choice! {
    /// What was moved to bring tool and face together: the `quill` or the `knee`.
    MovedToTouch {
        /// The quill or the head, with the tool.
        Quill = "quill",
        /// The knee or the table, with the work.
        Knee = "knee",
    }
}

/// A tool and its reading on the face.
#[derive(Clone, Debug, Asks)]
pub struct TouchedTool {
    /// Name of the tool, as it is marked.
    pub name: String,
    /// Reading with the tool touching the face.
    pub reading: Place,
}

/// The tools, in the order given.
pub type TouchedTools = Rows<TouchedTool>;

/// What the tool setting asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ToolSettingInput {
    /// The tools and their readings on one and the same face: name, reading.
    pub tools: TouchedTools,
    /// Name of the tool that the others are compared with.
    pub reference: String,
    /// What was moved to touch, quill or knee. The other stays locked for all tools.
    #[absent("quill", "The quill is taken to be what was moved, the knee being locked.")]
    pub moved: Option<MovedToTouch>,
    /// Which way the reading changed while coming up to the face, growing or falling; with it the answer says which tools are longer.
    pub reading_was: Option<ReadingWas>,
    /// Reading of the reference tool on the face as it is now, after a change of work or face: one shift for all tools.
    pub reference_now: Option<Place>,
}

/// What the tool setting gives.
#[derive(Debug, Gives)]
pub struct ToolSettingResult {
    /// The tools, in the order given.
    pub offsets: Vec<ToolOffset>,
    /// How far the readings on the face have shifted, for all tools alike; needs reference_now.
    pub shift: Option<FoundMove>,
}

/// A tool against the reference.
#[derive(Debug, Gives)]
pub struct ToolOffset {
    /// Name of the tool.
    pub name: String,
    /// Reading of this tool less reading of the reference on the same face: taken off this tool's readings, it makes them those of the reference.
    pub offset: FoundPlace,
    /// How much longer than the reference the tool is, negative if shorter; needs reading_was.
    pub longer_by: Option<FoundDifference>,
    /// Reading at which this tool touches the face as it is now; needs reference_now.
    pub reading_now: Option<FoundPlace>,
}

fn check(input: &ToolSettingInput) -> Result<(), ValidationError> {
    let tools = &input.tools.0;
    for (at, tool) in tools.iter().enumerate() {
        let letters = tool.name.chars().count();
        let (code, says) = if !(1..=LONGEST_NAME).contains(&letters) {
            let says = format!("The name of tool {} has {letters} letters; 1 to {LONGEST_NAME} fit.", at + 1);
            (Code::ValueOutOfRange, says)
        } else if tools[..at].iter().any(|other| other.name == tool.name) {
            (Code::Conflict, format!("The tool {} is there twice, so its offset is not certain.", tool.name))
        } else {
            continue;
        };
        return Err(rule_broken(code, says, &[("tools", ToolSetting::EXAMPLES[0].fields[0].1)]));
    }
    if !tools.iter().any(|tool| tool.name == input.reference) {
        let mut names = tools.iter().map(|tool| tool.name.as_str());
        let near = nearest(&input.reference, names.clone()).or(names.next()).unwrap_or_default();
        let says = "The reference is none of the tools touched off.";
        return Err(rule_broken(Code::NotFound, says, &[("reference", near)]));
    }
    Ok(())
}

impl Calculator for ToolSetting {
    const ID: &'static str = "datum/tool-setting";
    const TITLE: &'static str = "Tool lengths by touching";
    const ABOUT: &'static str = "Offsets of tools touched on one face: taken off its readings, each tool's offset \
        makes every tool read the same on the same face, whichever way the scale counts.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Touch a tool on a gauge block that stands on the same face: it must read the height of the block.";
    const WORDS: &'static str = "tool offset, tool length, touch off, tool change, quill, knee, Z zero, depth, \
        reference tool";
    const EXAMPLES: &'static [Example] = examples! {
        "Three tools for a winch bracket touched on the top of the vice jaw with the quill, whose scale grows on the way down.":
            tools = "spot drill,2.3150 in;drill,0.8725 in;reamer,0.4180 in", reference = "spot drill",
            moved = "quill", reading_was = "growing";
        "Two cutters touched with the knee; then a thicker pump cover lies in the vice and only the end mill is touched again.":
            tools = "end mill,-12.40 mm;face mill,-31.85 mm", reference = "end mill", moved = "knee",
            reading_was = "falling", reference_now = "-4.15 mm";
    };
    type Input = ToolSettingInput;
    type Output = ToolSettingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "tools that touch one face differ in length as their readings do");
        let moved = input.moved(record);
        let tools = &input.tools.0;
        let reference = tools.iter().find(|tool| tool.name == input.reference).unwrap_or(&tools[0]).reading.found();
        let offset = |tool: &TouchedTool| ToolOffset {
            name: tool.name.clone(),
            offset: FoundPlace::of(tool.reading.get() - reference.get()),
            longer_by: None,
            reading_now: None,
        };
        let mut offsets: Vec<ToolOffset> = tools.iter().map(offset).collect();
        tell!(record.choose("Tools", "in the order given"), n = tools.name => offsets.name);
        tell!(record.choose("Reading of the reference tool", "the reading of that name"),
            r = tools.reading => reference_reading: reference);
        tell!(record.step("Offset of each tool", "o = r - R"),
            r = tools.reading, R = reference_reading: reference => offsets.offset);
        if let Some(way) = input.reading_was {
            find_longer(&mut offsets, way, record);
        }
        let shift = input.reference_now.map(|now| find_readings_now(tools, &mut offsets, (reference, now), record));
        notes!(record => taken_off: "Take a tool's offset off what the scale shows with that tool, or enter it as the \
            tool's offset where a readout takes it off by itself. Readings and offsets count alike, so this holds with \
            the scale counting up or down.");
        match moved {
            MovedToTouch::Quill => {
                notes!(record => one_scale: "All readings are of the quill, with the knee locked at \
                one height; an offset is wrong as soon as the knee has moved between two tools.")
            }
            MovedToTouch::Knee => notes!(record => one_scale: "All readings are of the knee, with the quill locked at \
                one height; raise the knee to every reading, so that its weight takes up the play of the screw the \
                same way."),
        }
        record.caution(cautions::TOUCHING);
        Ok(ToolSettingResult { offsets, shift })
    }
}

/// How much longer each tool is: a longer one touches before the others.
fn find_longer(offsets: &mut [ToolOffset], way: ReadingWas, record: &mut Record) {
    let (what, formula, sign) = match way {
        ReadingWas::Growing => ("Longer than the reference, which touches at a larger reading", "l = -o", -1.0),
        ReadingWas::Falling => ("Longer than the reference, which touches at a smaller reading", "l = o", 1.0),
    };
    for tool in offsets.iter_mut() {
        tool.longer_by = Some(FoundDifference::of(sign * tool.offset.get()));
    }
    tell!(record.step(what, formula), o = offsets.offset => offsets.longer_by);
}

/// The shift of the face and each tool's reading on it now.
fn find_readings_now(
    tools: &[TouchedTool],
    offsets: &mut [ToolOffset],
    (reference, now): (FoundPlace, Place),
    record: &mut Record,
) -> FoundMove {
    let shift: FoundMove = step!(record, "Shift of the face, in readings",
        d: shift = N - R, N = reference_now: now, R = reference_reading: reference);
    for (tool, row) in tools.iter().zip(offsets.iter_mut()) {
        row.reading_now = Some(FoundPlace::of(tool.reading.get() + shift.get()));
    }
    tell!(record.step("Reading of each tool on the face as it is now", "n = r + d"),
        r = tools.reading, d = shift => offsets.reading_now);
    record.note("one_shift", "A changed face shifts every tool's reading alike; the offsets between tools stay.");
    shift
}
