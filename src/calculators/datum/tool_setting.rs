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
    #[label("Name")]
    pub name: String,
    /// Reading with the tool touching the face.
    #[label("Reading at the face")]
    pub reading: Place,
}

/// The tools, in the order given.
pub type TouchedTools = Rows<TouchedTool>;

/// What the tool setting asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ToolSettingInput {
    /// The tools and their readings on the same face: name, reading.
    #[label("Tools", "tool")]
    pub tools: TouchedTools,
    /// Name of the tool that the others are compared with.
    #[label("Reference tool")]
    pub reference: String,
    /// What was moved to touch, quill or knee. The other stays locked for all tools.
    #[label("Moved to touch")]
    #[absent("quill", "The quill is assumed to be what was moved, with the knee locked.")]
    pub moved: Option<MovedToTouch>,
    /// Whether the reading was growing or falling on the way to the face; with it the answer says which tools are longer.
    #[label("Reading while approaching")]
    pub reading_was: Option<ReadingWas>,
    /// Reading of the reference tool on the face as it is now, after a change of work or face.
    #[label("Reference tool reads now")]
    pub reference_now: Option<Place>,
}

/// What the tool setting gives.
#[derive(Debug, Gives)]
pub struct ToolSettingResult {
    /// The tools, in the order given.
    #[label("Offsets", "tool")]
    pub offsets: Vec<ToolOffset>,
    /// How far the face has shifted, in readings, for all tools alike; needs the reading of the reference tool now.
    #[label("Shift of the face")]
    pub shift: Option<FoundMove>,
}

/// A tool against the reference.
#[derive(Debug, Gives)]
pub struct ToolOffset {
    /// Name of the tool.
    #[label("Name")]
    pub name: String,
    /// Reading of this tool less that of the reference tool on the same face: taken off this tool's readings, it gives those of the reference tool.
    #[label("Offset")]
    pub offset: FoundPlace,
    /// How much longer than the reference tool it is, negative if shorter; needs the reading while approaching.
    #[label("Longer by")]
    pub longer_by: Option<FoundDifference>,
    /// Reading at which this tool touches the face as it is now; needs the reading of the reference tool now.
    #[label("Reading now")]
    pub reading_now: Option<FoundPlace>,
}

fn check(input: &ToolSettingInput) -> Result<(), ValidationError> {
    let tools = &input.tools.0;
    for (at, tool) in tools.iter().enumerate() {
        let letters = tool.name.chars().count();
        let (code, says) = if !(1..=LONGEST_NAME).contains(&letters) {
            let says = format!("The name of tool {} has {letters} letters. Give it 1 to {LONGEST_NAME}.", at + 1);
            (Code::ValueOutOfRange, says)
        } else if tools[..at].iter().any(|other| other.name == tool.name) {
            (Code::Conflict, format!("The tool {} is listed twice. List each tool once.", tool.name))
        } else {
            continue;
        };
        return Err(rule_broken(code, says, &[("tools", ToolSetting::EXAMPLES[0].fields[0].1)]));
    }
    if !tools.iter().any(|tool| tool.name == input.reference) {
        let mut names = tools.iter().map(|tool| tool.name.as_str());
        let near = nearest(&input.reference, names.clone()).or(names.next()).unwrap_or_default();
        let says = "The reference tool is not among the tools listed.";
        return Err(rule_broken(Code::NotFound, says, &[("reference", near)]));
    }
    Ok(())
}

impl Calculator for ToolSetting {
    const ID: &'static str = "datum/tool-setting";
    const TITLE: &'static str = "Tool lengths by touching";
    const ABOUT: &'static str = "Offsets of tools touched off on one face: with its offset taken off, every tool \
        reads the same on the same face, whichever way the scale counts.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Touch a tool on a gauge block that stands on the same face: it must read the height of the block.";
    const WORDS: &'static str = "tool offset, tool length, touch off, tool change, quill, knee, Z zero, depth, \
        reference tool";
    const EXAMPLES: &'static [Example] = examples! {
        "Three tools for a winch bracket touched on the top of the vice jaw with the quill, whose scale grows on the way down.":
            tools = "spot drill,2.3150 in;drill,0.8725 in;reamer,0.4180 in", reference = "spot drill",
            moved = "quill", reading_was = "growing";
        "Two cutters touched with the knee; then a thicker pump cover lies in the vise and only the end mill is touched again.":
            tools = "end mill,-12.40 mm;face mill,-31.85 mm", reference = "end mill", moved = "knee",
            reading_was = "falling", reference_now = "-4.15 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Tools touched off on the vise jaw with the quill: {tools}. The {reference} is the reference. What is the \
           offset of the second tool?" => "offsets/1/offset":
            { tools = "spot drill, 2.315 in; drill, 0.872 in" | "spot drill, 1.940 in; drill, 0.506 in" |
                  "spot drill, 2.105 in; drill, 2.480 in",
              reference = "spot drill" }
            { tools = "spot drill, 62.4 mm; drill, 18.15 mm" | "spot drill, 48.2 mm; drill, 55.7 mm",
              reference = "spot drill" };
        2 "Touched off with the quill, the reading {reading_was}: {tools}. How much longer than the {reference} is \
           the second tool?" => "offsets/1/longer_by":
            { reading_was = "growing",
              tools = "spot drill, 2.315 in; reamer, 0.418 in" | "spot drill, 1.750 in; reamer, 0.625 in" |
                  "spot drill, 2.040 in; reamer, 1.115 in",
              reference = "spot drill" }
            { reading_was = "falling",
              tools = "spot drill, 20.9 mm; reamer, 62.4 mm" | "spot drill, -48.2 mm; reamer, -11.5 mm" |
                  "spot drill, 8.6 mm; reamer, 35.1 mm",
              reference = "spot drill" };
        2 "Touched off: {tools}. Other work goes into the vise, and the {reference} now reads {reference_now} on it. \
           At what reading does the second tool touch?" => "offsets/1/reading_now":
            { tools = "end mill, 1.240 in; face mill, 2.185 in" | "end mill, 0.960 in; face mill, 2.015 in",
              reference = "end mill", reference_now = "1.615 in" | "0.830 in" }
            { tools = "end mill, -12.4 mm; face mill, -31.8 mm" | "end mill, 20.5 mm; face mill, 8.2 mm",
              reference = "end mill", reference_now = "-4.1 mm" | "26 mm" };
        3 "With the knee and the reading {reading_was}, you touched off: {tools}. How much longer than the \
           {reference} is the third tool?" => "offsets/2/longer_by":
            { moved = "knee", reading_was = "growing",
              tools = "center drill, 3.120 in; end mill, 2.480 in; drill, 0.955 in" |
                  "center drill, 2.760 in; end mill, 3.010 in; drill, 1.200 in",
              reference = "end mill" }
            { moved = "knee", reading_was = "falling",
              tools = "center drill, 0.640 in; end mill, 0.225 in; drill, 2.130 in" |
                  "center drill, -1.560 in; end mill, -1.245 in; drill, 0.370 in",
              reference = "center drill" | "end mill" }
            { moved = "knee", reading_was = "growing",
              tools = "center drill, 80.5 mm; end mill, 71.3 mm; drill, 24.6 mm" |
                  "center drill, 64 mm; end mill, 58.5 mm; drill, 22.5 mm",
              reference = "center drill" | "end mill" };
    };
    type Input = ToolSettingInput;
    type Output = ToolSettingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "tools that touch one face differ in length as much as their readings");
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
            tool's offset if the readout takes it off by itself. This holds with the scale counting up or down.");
        match moved {
            MovedToTouch::Quill => {
                notes!(record => one_scale: "All readings are of the quill, with the knee locked at \
                one height. If the knee moves between two tools, the offset is wrong.")
            }
            MovedToTouch::Knee => notes!(record => one_scale: "All readings are of the knee, with the quill locked at \
                one height. Raise the knee to every reading, so that its weight takes up the backlash the same way."),
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
    record.note("one_shift", "A new face shifts every tool's reading by the same amount; the offsets stay.");
    shift
}
