//! The trade. One file or folder is one calculator; this file holds what a calculator is and the register,
//! the only list of them. Routes, descriptions, pages, tables and tests are loops over that list.

pub mod exercise;
pub mod prelude;

use crate::cautions;
use crate::declared::{Asked, Declaration, Declared, Member, in_sentence, tree_of};
use crate::drawing::Drawing;
use crate::fields::Fields;
use crate::refusal::{Code, Refusal};
use crate::tree::Node;
use crate::working::Record;
use exercise::Exercise;
use rapidhash::RapidHashMap;
use serde::de::DeserializeOwned;
use std::sync::LazyLock;
use validator::Validate;

mod datum {
    pub mod between_faces;
    pub mod bore_or_boss;
    pub mod corner;
    pub mod edge_angle;
    pub mod handwheel;
    pub mod indicate;
    pub mod lathe_touch_off;
    pub mod move_list;
    pub mod stepped_profile;
    pub mod tool_setting;
    pub mod touch_off;
    pub mod tram;
    pub mod turn_and_shift;
    pub mod visit_order;
    pub mod wall_stops;
}
mod fits {
    pub mod find;
    pub mod limits;
    pub mod press;
    pub mod running;
}
mod geometry {
    pub mod arc;
    pub mod circle_through;
    pub mod compound_angle;
    pub mod compound_feed;
    pub mod dividing_head;
    pub mod dovetail;
    pub mod fillet;
    pub mod flat_on_round;
    pub mod gauge_blocks;
    pub mod keyseat;
    pub mod polygon;
    pub mod rolls_and_balls;
    pub mod rotary_table;
    pub mod sine_bar;
    pub mod spur_gear;
    pub mod tangents;
    pub mod taper;
    pub mod triangle;
    pub mod v_block;
}
mod holes {
    pub mod bore_steps;
    pub mod centre_drill;
    pub mod clearance;
    pub mod counterbore;
    pub mod countersink;
    pub mod drill_point;
    pub mod drill_size;
    pub mod inserts;
    pub mod pecks;
    pub mod reaming;
    pub mod spot_drill;
    pub mod tap_drill;
    pub mod tapped_blind;
}

mod measure {
    pub mod at_temperature;
    pub mod gauge_makers;
    pub mod general_tolerance;
    pub mod hardness;
    pub mod likely_size;
    pub mod position_error;
    pub mod surface_grade;
}
mod patterns {
    pub mod around_rectangle;
    pub mod bolt_circle;
    pub mod in_line;
    pub mod pitch_arc;
    pub mod rectangular;
    pub mod triangular_pitch;
}
mod speeds {
    pub mod as_run;
    pub mod ball_nose;
    pub mod boring;
    pub mod countersinking;
    pub mod cutting_time;
    pub mod drilling;
    pub mod entry;
    pub mod facing;
    pub mod hand_feed;
    pub mod materials;
    pub mod milling;
    pub mod power;
    pub mod reaming;
    pub mod sawing;
    pub mod spindle_speed;
    pub mod surface_finish;
    pub mod tapping;
    pub mod tool_life;
    pub mod turning;
}
mod stock {
    pub mod cut_list;
    pub mod mass;
}
mod threads {
    pub mod change_gears;
    pub mod identify;
    pub mod milling;
    pub mod plated;
    pub mod rescue;
    pub mod single_point;
    pub mod tap_limit;
    pub mod thread;
    pub mod threading_dial;
    pub mod wires;
}

/// Every calculator there is.
pub static REGISTER: &[Entry] = &[
    Entry::of::<patterns::bolt_circle::BoltCircle>(),
    Entry::of::<patterns::pitch_arc::PitchArc>(),
    Entry::of::<patterns::in_line::InLine>(),
    Entry::of::<patterns::rectangular::Rectangular>(),
    Entry::of::<patterns::triangular_pitch::TriangularPitch>(),
    Entry::of::<patterns::around_rectangle::AroundRectangle>(),
    Entry::of::<geometry::arc::Arc>(),
    Entry::of::<holes::drill_point::DrillPoint>(),
    Entry::of::<holes::drill_size::DrillSize>(),
    Entry::of::<holes::tap_drill::TapDrill>(),
    Entry::of::<holes::clearance::Clearance>(),
    Entry::of::<speeds::spindle_speed::SpindleSpeed>(),
    Entry::of::<speeds::milling::Milling>(),
    Entry::of::<speeds::materials::Materials>(),
    Entry::of::<speeds::drilling::Drilling>(),
    Entry::of::<speeds::reaming::Reaming>(),
    Entry::of::<holes::reaming::ReamedHole>(),
    Entry::of::<speeds::countersinking::Countersinking>(),
    Entry::of::<speeds::tapping::Tapping>(),
    Entry::of::<speeds::turning::Turning>(),
    Entry::of::<speeds::boring::Boring>(),
    Entry::of::<speeds::facing::Facing>(),
    Entry::of::<speeds::sawing::Sawing>(),
    Entry::of::<speeds::hand_feed::HandFeed>(),
    Entry::of::<speeds::as_run::AsRun>(),
    Entry::of::<speeds::power::Power>(),
    Entry::of::<speeds::tool_life::ToolLife>(),
    Entry::of::<speeds::surface_finish::SurfaceFinish>(),
    Entry::of::<speeds::ball_nose::BallNose>(),
    Entry::of::<speeds::entry::CutterEntry>(),
    Entry::of::<speeds::cutting_time::CuttingTime>(),
    Entry::of::<threads::thread::Thread>(),
    Entry::of::<threads::wires::Wires>(),
    Entry::of::<threads::plated::Plated>(),
    Entry::of::<threads::change_gears::ChangeGears>(),
    Entry::of::<threads::threading_dial::ThreadingDial>(),
    Entry::of::<threads::identify::Identify>(),
    Entry::of::<threads::rescue::Rescue>(),
    Entry::of::<threads::single_point::SinglePoint>(),
    Entry::of::<threads::tap_limit::TapLimit>(),
    Entry::of::<threads::milling::ThreadMilling>(),
    Entry::of::<holes::counterbore::Counterbore>(),
    Entry::of::<holes::countersink::Countersink>(),
    Entry::of::<holes::tapped_blind::TappedBlind>(),
    Entry::of::<holes::spot_drill::SpotDrill>(),
    Entry::of::<holes::pecks::Pecks>(),
    Entry::of::<holes::bore_steps::BoreSteps>(),
    Entry::of::<holes::centre_drill::CentreDrill>(),
    Entry::of::<holes::inserts::Inserts>(),
    Entry::of::<fits::find::FindFit>(),
    Entry::of::<fits::limits::FitLimits>(),
    Entry::of::<fits::running::InchFit>(),
    Entry::of::<fits::press::PressFit>(),
    Entry::of::<datum::touch_off::TouchOff>(),
    Entry::of::<datum::between_faces::BetweenFaces>(),
    Entry::of::<datum::bore_or_boss::BoreOrBoss>(),
    Entry::of::<datum::corner::Corner>(),
    Entry::of::<datum::edge_angle::EdgeAngle>(),
    Entry::of::<datum::turn_and_shift::TurnAndShift>(),
    Entry::of::<datum::indicate::Indicate>(),
    Entry::of::<datum::tram::Tram>(),
    Entry::of::<datum::tool_setting::ToolSetting>(),
    Entry::of::<datum::lathe_touch_off::LatheTouchOff>(),
    Entry::of::<datum::move_list::MoveList>(),
    Entry::of::<datum::visit_order::VisitOrder>(),
    Entry::of::<datum::wall_stops::WallStops>(),
    Entry::of::<datum::handwheel::Handwheel>(),
    Entry::of::<datum::stepped_profile::SteppedProfile>(),
    Entry::of::<geometry::triangle::Triangle>(),
    Entry::of::<geometry::polygon::Polygon>(),
    Entry::of::<geometry::flat_on_round::FlatOnRound>(),
    Entry::of::<geometry::taper::Taper>(),
    Entry::of::<geometry::sine_bar::SineBar>(),
    Entry::of::<geometry::rotary_table::RotaryTableSettings>(),
    Entry::of::<geometry::v_block::VBlock>(),
    Entry::of::<geometry::dovetail::Dovetail>(),
    Entry::of::<geometry::rolls_and_balls::RollsAndBalls>(),
    Entry::of::<geometry::gauge_blocks::GaugeBlocks>(),
    Entry::of::<geometry::compound_angle::CompoundAngle>(),
    Entry::of::<geometry::compound_feed::CompoundFeed>(),
    Entry::of::<geometry::dividing_head::DividingHead>(),
    Entry::of::<geometry::keyseat::Keyseat>(),
    Entry::of::<geometry::circle_through::CircleThrough>(),
    Entry::of::<geometry::fillet::Fillet>(),
    Entry::of::<geometry::tangents::Tangents>(),
    Entry::of::<geometry::spur_gear::SpurGear>(),
    Entry::of::<stock::mass::StockMass>(),
    Entry::of::<stock::cut_list::CutList>(),
    Entry::of::<measure::position_error::PositionError>(),
    Entry::of::<measure::general_tolerance::GeneralToleranceLimits>(),
    Entry::of::<measure::gauge_makers::GaugeMakers>(),
    Entry::of::<measure::at_temperature::AtTemperature>(),
    Entry::of::<measure::likely_size::LikelySize>(),
    Entry::of::<measure::surface_grade::SurfaceGrade>(),
    Entry::of::<measure::hardness::Hardness>(),
];

/// The job at hand, by which pages group the calculators.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Task {
    FindZero,
    LayOut,
    MakeTheHole,
    Cut,
    Turn,
    Thread,
    Check,
}

impl Task {
    /// Every task, in the order of a job.
    pub const ALL: [Task; 7] =
        [Task::FindZero, Task::LayOut, Task::MakeTheHole, Task::Cut, Task::Turn, Task::Thread, Task::Check];

    /// The task in words.
    pub const fn words(self) -> &'static str {
        match self {
            Task::FindZero => "Find zero",
            Task::LayOut => "Lay out",
            Task::MakeTheHole => "Make the hole",
            Task::Cut => "Cut",
            Task::Turn => "Turn",
            Task::Thread => "Thread",
            Task::Check => "Check",
        }
    }
}

/// An example: what it is about, and its fields as a query has them.
#[derive(Debug)]
pub struct Example {
    /// What is worked out, in a sentence set in the demonstration shop.
    pub says: &'static str,
    /// Fields and their text.
    pub fields: &'static [(&'static str, &'static str)],
}

/// Examples: what each is about, then its fields: `"A hole.": diameter = "1/2 in", full_depth = "1 in";`.
#[macro_export]
macro_rules! examples {
    ($($says:literal: $($field:ident = $value:literal),* $(,)?;)*) => {
        &[$($crate::calculators::Example { says: $says, fields: &[$((stringify!($field), $value)),*] }),*]
    };
}

/// A calculator: typed input, typed result, and what is known about it.
pub trait Calculator: 'static {
    /// Its address, `topic/name`.
    const ID: &'static str;
    /// Its name on a page.
    const TITLE: &'static str;
    /// What it does, in one or two sentences.
    const ABOUT: &'static str;
    /// The job it belongs to.
    const TASK: Task;
    /// Whether a machine is set or moved by it, which can hurt: then every answer says first whose word goes before it.
    const AT_THE_MACHINE: bool = true;
    /// Another way to check the part or the setting, in a sentence; empty where there is none.
    const ANOTHER_CHECK: &'static str = "";
    /// Words a machinist might look for, parted by commas.
    const WORDS: &'static str;
    /// Words, parted by commas, of what there is no calculator for and this one comes nearest to.
    const NEAR: &'static str = "";
    /// Examples; the first shows the main use.
    const EXAMPLES: &'static [Example];
    /// Questions as a foreman asks them, for practice.
    const EXERCISES: &'static [Exercise] = &[];
    /// What it asks for.
    type Input: Asked + DeserializeOwned + Validate;
    /// What it gives.
    type Output: Declared;

    /// Results that a person asks for first, by their paths, of several parted by `|` the first that is there; if none, a
    /// thing chosen by name and the first quantity.
    const LEADS: &'static [&'static str] = &[];

    /// What belongs to that in one line, in words with paths of results in braces: `"within {minor_limits/class}"`; a part
    /// whose result is absent is left out. If none, the leads that are not shown large and the first quantities.
    const CONTEXT: &'static [&'static str] = &[];

    /// The drawing of an answer, where a person would rather look than read.
    const DRAW: Option<Draw<Self::Input, Self::Output>> = None;

    /// The calculation. The record takes the steps, defaults, notes, cautions and sources.
    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal>;
}

/// Inputs as understood and the result, without their types.
#[derive(Debug)]
pub struct Solved {
    /// The inputs; none where only the result is wanted, but where one may have a tolerance.
    pub inputs: Node,
    /// The result.
    pub result: Node,
}

/// Draws a result.
pub type Draw<Input, Output> = fn(&Input, &Output) -> Drawing;

/// Reads the fields, calculates and draws the result.
pub type DrawFields = fn(&Fields, &mut Record) -> Result<Drawing, Refusal>;

/// A calculator without its types.
#[derive(Debug)]
pub struct Entry {
    /// See [`Calculator::ID`].
    pub id: &'static str,
    /// See [`Calculator::TITLE`].
    pub title: &'static str,
    /// See [`Calculator::ABOUT`].
    pub about: &'static str,
    /// See [`Calculator::TASK`].
    pub task: Task,
    /// See [`Calculator::ANOTHER_CHECK`].
    pub another_check: &'static str,
    /// See [`Calculator::WORDS`].
    pub words: &'static str,
    /// See [`Calculator::NEAR`].
    pub near: &'static str,
    /// See [`Calculator::EXAMPLES`].
    pub examples: &'static [Example],
    /// See [`Calculator::EXERCISES`].
    pub exercises: &'static [Exercise],
    /// Results that a person asks for first.
    pub leads: &'static [&'static str],
    /// See [`Calculator::CONTEXT`].
    pub context: &'static [&'static str],
    /// Reads the fields, checks them and calculates.
    pub solve: fn(&Fields, &mut Record) -> Result<Solved, Refusal>,
    /// The same, to the drawing of the answer, if it has one.
    pub draw: Option<DrawFields>,
    /// What it asks for.
    pub input: &'static Declaration,
    /// What it gives.
    pub output: &'static Declaration,
}

impl Entry {
    /// The entry of a calculator.
    pub const fn of<C: Calculator>() -> Self {
        Self {
            id: C::ID,
            title: C::TITLE,
            about: C::ABOUT,
            task: C::TASK,
            another_check: C::ANOTHER_CHECK,
            words: C::WORDS,
            near: C::NEAR,
            examples: C::EXAMPLES,
            exercises: C::EXERCISES,
            leads: C::LEADS,
            context: C::CONTEXT,
            solve: solve::<C>,
            draw: match C::DRAW {
                Some(_) => Some(draw::<C>),
                None => None,
            },
            input: &C::Input::DECLARATION,
            output: &C::Output::DECLARATION,
        }
    }

    /// Its place in the register: by where it lies, which needs no look into a map, or that of the one it is a copy of.
    pub fn place(&self) -> Option<usize> {
        let distance = std::ptr::from_ref(self).addr().wrapping_sub(REGISTER.as_ptr().addr());
        let place = distance / size_of::<Self>();
        if place < REGISTER.len() { Some(place) } else { REGISTER.iter().position(|entry| entry.id == self.id) }
    }

    /// The topic and the name, the two parts of the address.
    pub fn address(&self) -> (&'static str, &'static str) {
        self.id.split_once('/').unwrap_or((self.id, ""))
    }

    /// The name of its operation: the last part of the address, with the topic before it where a calculator further up
    /// the register has the same.
    pub fn operation(&self) -> String {
        let (topic, name) = self.address();
        let before = REGISTER.iter().take_while(|entry| entry.id != self.id);
        let taken = before.into_iter().any(|entry| entry.address().1 == name);
        let name = if taken { format!("{topic}-{name}") } else { name.to_owned() };
        name.replace('-', "_")
    }

    /// The words a machinist might look for, one by one.
    pub fn each_word(&self) -> impl Iterator<Item = &'static str> {
        self.words.split(", ")
    }

    /// The words that it only comes nearest to, one by one.
    pub fn each_near(&self) -> impl Iterator<Item = &'static str> {
        self.near.split(", ").filter(|word| !word.is_empty())
    }

    /// A good value for a field, from the examples.
    pub fn good(&self, field: &str) -> Option<&'static str> {
        let mut fields = self.examples.iter().flat_map(|example| example.fields);
        fields.find(|(name, _)| *name == field).map(|(_, value)| *value)
    }
}

fn solve<C: Calculator>(fields: &Fields, record: &mut Record) -> Result<Solved, Refusal> {
    let wants_inputs = !record.is_of_result_alone() || fields.may_have_tolerance();
    let solved = typed::<C, _>(fields, record, |input, result| {
        let inputs = if wants_inputs { tree_of(input) } else { Node::Record(Vec::new()) };
        Solved { inputs, result: tree_of(result) }
    })?;
    record.tell_lacking(&C::Input::DECLARATION, &C::Output::DECLARATION, &solved.inputs, &solved.result);
    Ok(solved)
}

fn draw<C: Calculator>(fields: &Fields, record: &mut Record) -> Result<Drawing, Refusal> {
    let nothing = || Drawing::new(C::TITLE, Default::default());
    typed::<C, _>(fields, record, |input, result| C::DRAW.map_or_else(nothing, |draw| draw(input, result)))
}

/// Reads, checks and calculates; what `take` makes of it.
fn typed<C: Calculator, T>(
    fields: &Fields,
    record: &mut Record,
    take: impl FnOnce(&C::Input, &C::Output) -> T,
) -> Result<T, Refusal> {
    let good = |field: &str| {
        let mut fields = C::EXAMPLES.iter().flat_map(|example| example.fields);
        fields.find(|(name, _)| *name == field).map(|(_, value)| *value)
    };
    let act = |input: &C::Input| {
        input.validate()?;
        if C::AT_THE_MACHINE {
            record.caution(cautions::STARTING_POINT);
        }
        Ok(take(input, &C::solve(input, record)?))
    };
    fields.read_and(good, act).unwrap_or_else(|refusal| Err(in_words(refusal, C::Input::DECLARATION.members)))
}

/// What is missing by its label.
fn in_words(mut refusal: Refusal, members: &[Member]) -> Refusal {
    for wrong in refusal.0.iter_mut().filter(|wrong| wrong.code == Code::FieldMissing) {
        if let Some(member) = members.iter().find(|member| wrong.field.strip_prefix('/') == Some(member.name)) {
            wrong.says = format!("Needed: {}.", in_sentence(member.label));
        }
    }
    refusal
}

/// The calculator at `id`.
pub fn find(id: &str) -> Option<&'static Entry> {
    static ALL: LazyLock<RapidHashMap<&str, &Entry>> =
        LazyLock::new(|| REGISTER.iter().map(|entry| (entry.id, entry)).collect());
    ALL.get(id).copied()
}
