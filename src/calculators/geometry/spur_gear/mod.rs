//! A spur gear from its teeth and its pitch: the blank, the depth, the cutter, and the three ways to measure a tooth,
//! with what is still to cut. Involute geometry, checked against printed tables and points of the involute.

mod depth;
mod drawing;
mod measures;
mod pitch;

use crate::calculators::prelude::*;
use crate::reference::gears::{cutter_for, half_cutter_for};

/// The calculator.
pub struct SpurGear;

choice! {
    /// How deep the teeth are cut: `full` 2.25 modules, `older` 2.157, `fine` 2.2 and 0.002 in, `stub` 1.8.
    ToothDepth {
        /// Whole depth 2.25 times the module.
        FullDepth = "full" | "full_depth",
        /// Whole depth 2.157 times the module, as older tables and cutters have it.
        Older = "older",
        /// Whole depth 2.2 times the module and 0.002 in, for 20 diametral pitch and finer.
        Fine = "fine",
        /// Stub teeth: addendum 0.8, whole depth 1.8 times the module.
        Stub = "stub",
    }
}

/// What the spur gear calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct SpurGearInput {
    /// Teeth of the gear, 5 to 400.
    #[label("Number of teeth")]
    pub teeth: Count<5, 400>,
    /// Module: give this, a diametral or circular pitch, or the outside diameter.
    #[label("Module, given")]
    pub module: Option<Size>,
    /// Diametral pitch, teeth for each inch.
    #[label("Diametral pitch, given")]
    pub diametral_pitch: Option<PlainNumber>,
    /// Circular pitch, along the pitch circle.
    #[label("Circular pitch, given")]
    pub circular_pitch: Option<Size>,
    /// Outside diameter of a gear at hand, to find its pitch.
    #[label("Outside diameter, measured")]
    pub outside_diameter: Option<Size>,
    /// Pressure angle: 14.5, 20 or 25 deg are usual.
    #[absent(
        "20 deg",
        "20° is the usual pressure angle; older inch gears have 14.5°. Lay a cutter or a known gear on the teeth."
    )]
    pub pressure_angle: Option<EdgeAngle>,
    /// How deep the teeth are cut; if absent older for pressure angles below 18 deg, fine from a diametral pitch of 20 up,
    /// else full.
    #[label("Tooth form")]
    pub depth: Option<ToothDepth>,
    /// How much thinner the teeth are cut, for backlash.
    #[absent("0", value = Extent::stated(0.0, self.unit()), "No backlash is assumed; most gears need a little.")]
    #[label("Teeth thinner by")]
    pub thinning: Option<Extent>,
    /// Shift of the cutter outward, as a length; negative inward.
    #[absent("0", value = Difference::stated(0.0, self.unit()), "No profile shift is assumed.")]
    #[label("Profile shift")]
    pub shift: Option<Difference>,
    /// Teeth to span; if absent those touched half way up.
    #[label("Teeth spanned, given")]
    pub span_teeth: Option<Count<2, 200>>,
    /// Diameter of the pins or wires; 1.728 times the module if absent.
    #[label("Pins, given")]
    pub pin_diameter: Option<Size>,
    /// Span as measured over as many teeth.
    #[label("Span, measured")]
    pub measured_span: Option<Size>,
    /// Size over the pins as measured.
    #[label("Over pins, measured")]
    pub measured_over_pins: Option<Size>,
    /// Teeth of the gear that it runs with.
    #[label("Teeth of the mate")]
    pub mate_teeth: Option<Count<5, 400>>,
}

impl SpurGearInput {
    fn unit(&self) -> Unit {
        let size = self.module.or(self.circular_pitch).or(self.outside_diameter);
        size.map_or(Unit::Inch, |size| size.quantity().unit)
    }
}

/// What the spur gear calculator gives.
#[derive(Debug, Gives)]
pub struct SpurGearResult {
    /// Diameter to which the blank is turned.
    pub blank_diameter: FoundSize,
    /// How deep the teeth are cut from the outside.
    #[label("Whole depth")]
    pub whole_depth: FoundDepthSetting,
    /// Module.
    pub module: FoundSize,
    /// Diametral pitch, in teeth for each inch.
    pub diametral_pitch: f64,
    /// Standard pitches, the nearest first.
    #[label("Standard pitches", "pitch")]
    #[needs(outside_diameter)]
    pub candidates: Option<Vec<pitch::PitchCandidate>>,
    /// Pitch diameter.
    pub pitch_diameter: FoundSize,
    /// Root diameter.
    pub root_diameter: FoundSize,
    /// From tooth to tooth along the pitch circle.
    pub circular_pitch: FoundSize,
    /// How thick a tooth is along the pitch circle.
    #[label("Tooth thickness, along the arc")]
    pub tooth_thickness: FoundSize,
    /// Straight across a tooth, for a gear tooth caliper.
    #[label("Chordal thickness")]
    pub chordal_thickness: FoundSize,
    /// Setting of the tongue of a gear tooth caliper, for a blank to size.
    #[label("Chordal addendum")]
    pub chordal_addendum: FoundExtent,
    /// How the teeth are measured over several, and over pins.
    #[group]
    pub measures: measures::Measures,
    /// Form cutter of a set of eight, from 12 teeth up.
    pub cutter: Option<FormCutter>,
    /// From center to center of the two gears.
    #[needs(mate_teeth)]
    pub center_distance: Option<FoundSize>,
}

/// A form cutter of a set of eight.
#[derive(Debug, Gives)]
pub struct FormCutter {
    /// Teeth that it cuts.
    #[label("cuts teeth")]
    pub cuts: String,
    /// Its number in a set for diametral pitch.
    #[label("number, diametral pitch")]
    pub number: &'static str,
    /// Its number in most module sets, which count the other way.
    #[label("number, module")]
    pub module_number: u32,
    /// Nearer number of a set of fifteen.
    #[label("half number")]
    pub half_number: Option<&'static str>,
}

const ONE_PITCH: &str =
    "Give one of these: the module, the diametral pitch, the circular pitch or the outside diameter as measured.";

rules! { check(SpurGearInput) {
    one_of(module = "2 mm", diametral_pitch = "12", circular_pitch = "0.75 in", outside_diameter = "2.167 in"): ONE_PITCH;
    not_both(module, diametral_pitch): ONE_PITCH;
    not_both(module, outside_diameter): ONE_PITCH;
    not_both(diametral_pitch, outside_diameter): ONE_PITCH;
    not_both(module, circular_pitch): ONE_PITCH;
    not_both(diametral_pitch, circular_pitch): ONE_PITCH;
    not_both(circular_pitch, outside_diameter): ONE_PITCH;
    not_both(measured_span, measured_over_pins): "Give the span or the size over pins, not both.";
    never(|input| input.diametral_pitch.is_some_and(|pitch| !(0.5..=400.0).contains(&pitch.get())),
        Code::ValueOutOfRange, diametral_pitch = "12"): "Diametral pitches run from 0.5 to 400.";
    never(|input| input.module.is_some_and(|module| !(5e-5..=0.1).contains(&module.si())),
        Code::ValueOutOfRange, module = "2 mm"): "Modules run from 0.05 to 100 mm.";
    never(|input| input.circular_pitch.is_some_and(|pitch| !(1.5e-4..=0.32).contains(&pitch.si())),
        Code::ValueOutOfRange, circular_pitch = "0.75 in"): "Circular pitches run from 0.15 to 320 mm.";
    needs(measured_over_pins => pin_diameter = "5 mm"):
        "Give the diameter of the pins that you measured over.";
    never(|input| input.pressure_angle.is_some_and(|angle| !(10.0..=30.0).contains(&text::tidy(angle.degrees()))),
        Code::ValueOutOfRange, pressure_angle = "20 deg"): "Pressure angles of spur gears run from 10° to 30°.";
    never(|input| input.span_teeth.is_some_and(|span| span.get() >= input.teeth.get()),
        Code::ValueOutOfRange, span_teeth = "leave out"): "The span runs over fewer teeth than the gear has.";
} }

impl Calculator for SpurGear {
    const ID: &'static str = "geometry/spur-gear";
    const TITLE: &'static str = "Spur gear";
    const ABOUT: &'static str = "The blank, the depth of cut and the cutter of a spur gear, by module or diametral pitch, \
        what its teeth measure, and what is still to cut; the likely pitch of a gear at hand.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Measure the first teeth both ways: over pins and over several teeth. Then roll \
        the gear with its mate at the center distance.";
    const WORDS: &'static str = "gear cutting, gear tooth, module, diametral pitch, DP, blank, over pins, over wires, \
        span, base tangent, gear tooth caliper, involute cutter, pinion";
    const EXAMPLES: &'static [Example] = examples! {
        "A 24-tooth change gear of 12 diametral pitch, 14.5°, for the lathe; its mate has 48 teeth.":
            teeth = "24", diametral_pitch = "12", pressure_angle = "14.5 deg", mate_teeth = "48";
        "A winch pinion of 17 teeth, module 3, cut 0.05 mm thin for backlash and measured over 5 mm pins while it is cut.":
            teeth = "17", module = "3 mm", pressure_angle = "20 deg", thinning = "0.05 mm", pin_diameter = "5 mm",
            measured_over_pins = "59.5 mm";
        "A gear of a capstan has 32 teeth and measures 2.83 in over the tips.":
            teeth = "32", outside_diameter = "2.83 in";
        "An old gear of the mill, 48 teeth of 3/4 in circular pitch.":
            teeth = "48", circular_pitch = "0.75 in";
        "A corrected pump gear of 13 teeth, module 4, shifted 1.6 mm out; the span over 3 teeth still measures 32 mm.":
            teeth = "13", module = "4 mm", shift = "1.6 mm", span_teeth = "3", measured_span = "32 mm",
            depth = "full";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You turn the blank for a gear of {teeth} teeth, {diametral_pitch} diametral pitch, full depth. What diameter?"
            => "blank_diameter":
            { teeth = "20" | "24" | "30" | "40", diametral_pitch = "8" | "10" | "12" | "16", depth = "full" };
        1 "You turn the blank for a gear of {teeth} teeth, module {module}, full depth. What diameter?"
            => "blank_diameter":
            { teeth = "18" | "20" | "25" | "36", module = "1.5 mm" | "2 mm" | "3 mm", depth = "full" };
        2 "A gear of {teeth} teeth, module {module}, full depth 2.25 modules, is cut. What is its root diameter?"
            => "root_diameter":
            { teeth = "20" | "24" | "32", module = "2 mm" | "2.5 mm" | "4 mm", depth = "full" };
        2 "Gears of {teeth} and {mate_teeth} teeth, {diametral_pitch} diametral pitch, run together. How far apart are \
           their centers?" => "center_distance":
            { teeth = "18" | "24", mate_teeth = "36" | "60", diametral_pitch = "8" | "12" | "16" };
        3 "You check a {teeth}-tooth gear of module {module}, {pressure_angle}, no backlash. What is it over \
           {pin_diameter} pins?" => "over_pins":
            { teeth = "20" | "24" | "31", module = "2 mm", pressure_angle = "20 deg", pin_diameter = "3.5 mm" };
    };
    type Input = SpurGearInput;
    type Output = SpurGearResult;
    const LEADS: &'static [&'static str] = &["infeed|candidates/0/name|blank_diameter", "whole_depth"];
    const CONTEXT: &'static [&'static str] = &["{over_pins} over pins"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "involute of a circle; addendum, depth and thickness by the module");
        if input.diametral_pitch.is_some() {
            record.imply_units(System::Inch, "A diametral pitch is that of a gear made in inches.");
        }
        let alpha = input.pressure_angle(record);
        let (module, candidates) = pitch::find(input, record)?;
        let depth = depth::find(input, alpha, module, record)?;
        let measures = measures::find(input, alpha, module, &depth, record)?;
        let cutter = find_cutter(input.teeth.get(), record);
        let center_distance = input.mate_teeth.map(|mate| {
            let apart = FoundSize::of_si(module.si() * f64::from(input.teeth.get() + mate.get()) / 2.0);
            record
                .step("Center distance, without profile shift", "A = m × (z + Z) / 2")
                .with("m", "module", module)
                .with("z", "teeth", input.teeth.get())
                .with("Z", "mate_teeth", mate.get())
                .gives("center_distance", apart);
            apart
        });
        tell_notes(input, alpha, module, &depth, record);
        Ok(SpurGearResult {
            blank_diameter: depth.blank,
            whole_depth: depth.whole,
            module,
            diametral_pitch: depth.diametral_pitch,
            candidates,
            pitch_diameter: depth.pitch_diameter,
            root_diameter: depth.root,
            circular_pitch: depth.circular_pitch,
            tooth_thickness: depth.thickness,
            chordal_thickness: depth.chordal_thickness,
            chordal_addendum: depth.chordal_addendum,
            measures,
            cutter,
            center_distance,
        })
    }
}

fn find_cutter(teeth: u32, record: &mut Record) -> Option<FormCutter> {
    let Some(row) = cutter_for(teeth) else {
        record.note(
            "no_cutter",
            "No cutter of the usual sets cuts fewer than 12 teeth: hob or plane the gear, or grind a cutter to its space.",
        );
        return None;
    };
    let cuts = match row.teeth_to {
        Some(most) => format!("{} to {most}", row.teeth_from),
        None => format!("{} to a rack", row.teeth_from),
    };
    let module_number = row.module_number?;
    record.source_of_row(row.source(), format!("cutter for {cuts} teeth"), &row.trust);
    let step = record.look_up("Form cutter for so many teeth", "the set of eight involute cutters");
    step.with("z", "teeth", teeth).gives("cutter.cuts", cuts.clone());
    record.look_up("Its number in a diametral pitch set", "the same row").gives("cutter.number", row.number.as_str());
    record.look_up("Its number in most module sets", "the same row").gives("cutter.module_number", module_number);
    record.note(
        "cutter_numbers",
        "Module sets mostly number the cutters the other way, and some makers do not: go by the range of teeth stamped on \
         the cutter. It must also have the pitch and the pressure angle.",
    );
    let half = half_cutter_for(teeth);
    if let Some(half) = half {
        record.source_of_row(half.source(), format!("cutter {}", half.number), &half.trust);
        let step = record.look_up("Half number that comes nearer", "the set of fifteen involute cutters");
        step.with("z", "teeth", teeth).gives("cutter.half_number", half.number.as_str());
    }
    let half_number = half.map(|half| half.number.as_str());
    Some(FormCutter { cuts, number: row.number.as_str(), module_number, half_number })
}

fn tell_notes(input: &SpurGearInput, alpha: EdgeAngle, module: FoundSize, depth: &depth::Depth, record: &mut Record) {
    let sine = angle::sin(alpha.degrees());
    let reach = depth.addendum_alone / module.si() - depth.shift / module.si();
    // A rack-shaped cutter cuts into the flank where its straight part reaches below the start of the involute.
    if reach > f64::from(input.teeth.get()) * sine * sine / 2.0 + 1e-9 {
        record.note(
            "undercut",
            "With so few teeth a hob or rack cutter undercuts the flanks near the root. A profile shift outward avoids it.",
        );
    }
    if depth.is_pointed(alpha) {
        record.note(
            "pointed_tips",
            "The flanks meet before the blank's diameter: the teeth come to a point. Shift the cutter less or turn the \
             blank smaller.",
        );
    }
    if input.mate_teeth.is_some() && depth.shift != 0.0 {
        record.note(
            "shifted_centers",
            "The center distance is that of gears without profile shift; shifts that do not cancel change it.",
        );
    }
    record.note(
        "depths_differ",
        "Standards differ: 2.157 or 2.25 times the module, or 2.2 times and 0.002 in. With a form cutter take the depth \
         stamped on it, and cut to size by the measure over pins or teeth.",
    );
    record.note(
        "tongue",
        "Measure the blank. Where it is not to size, change the tongue's setting by half of the difference.",
    );
    if input.thinning.is_none() {
        record.note("backlash", "Backlash is cut by going a little deeper than the whole depth, or by wider centers.");
    }
}
