//! A round bar or pin in a vee: plane geometry of the right triangle, checked against lines in the complex plane.

mod drawing;

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct VBlock;

/// What the vee calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct VBlockInput {
    /// Diameter of the bar or pin that lies in the vee.
    #[label("Bar or pin")]
    pub diameter: Option<Size>,
    /// Height of the top of the bar above the vertex, where the flanks would meet, in place of the diameter.
    #[label("Top of bar above vertex")]
    pub top_height: Option<Size>,
    /// Angle between the flanks of the vee.
    #[absent("90 deg", "The vee is assumed to have 90° between its flanks, as most V-blocks do.")]
    #[label("Angle of the vee")]
    pub vee_angle: Option<Angle>,
    /// Width of the vee at the face of the block.
    #[label("Width of the vee at the face")]
    pub groove_width: Option<Size>,
    /// How far the top of the bar stands above the face, negative where it lies below, as measured: it gives the width at the face.
    #[label("Bar stands out, measured")]
    pub stands_out: Option<Difference>,
}

/// What the vee calculator gives.
#[derive(Debug, Gives)]
pub struct VBlockResult {
    /// Diameter of the bar.
    #[label("Bar or pin")]
    pub diameter: FoundSize,
    /// Height of its center above the vertex.
    #[label("Center above vertex")]
    pub center_height: FoundSize,
    /// Height of its top above the vertex.
    #[label("Top above vertex")]
    pub top_height: FoundSize,
    /// Distance between the two lines on which it touches the flanks.
    #[label("Between the lines of contact")]
    pub contact_width: FoundSize,
    /// How much higher the top comes for each unit that the bar is larger.
    #[label("Rise of the top for each of diameter")]
    pub top_rise: f64,
    /// Width of the vee at the face.
    #[label("Width of the vee at the face")]
    #[needs(groove_width | stands_out)]
    pub groove_width: Option<FoundSize>,
    /// Depth of the vertex below the face.
    #[label("Vertex below the face")]
    #[needs(groove_width | stands_out)]
    pub groove_depth: Option<FoundSize>,
    /// How far the top of the bar stands above the face, negative where it lies below.
    #[label("Bar stands out")]
    #[needs(groove_width | stands_out)]
    pub stands_out: Option<FoundDifference>,
    /// How far the lines of contact lie below the face.
    #[label("Contact below the face")]
    #[needs(groove_width | stands_out)]
    pub contact_depth: Option<FoundExtent>,
}

rules! { check(VBlockInput) {
    one_of(diameter = "1 in", top_height = "1.2071 in"): "Give the diameter of the bar or the height of its top.";
    not_both(diameter, top_height): "Give the diameter of the bar or the height of its top, not both.";
    never(|input| input.vee_angle.is_some_and(|angle| !(5.0..=170.0).contains(&angle.degrees())),
        Code::ValueOutOfRange, vee_angle = "90 deg"): "A vee has 5 to 170 deg between its flanks.";
    not_both(groove_width, stands_out): "Give the width of the vee or how far the bar stands out, not both.";
} }

impl Calculator for VBlock {
    const ID: &'static str = "geometry/v-block";
    const TITLE: &'static str = "Bar in a vee";
    const ABOUT: &'static str = "How high a round bar or pin lies in a vee, which diameter has its top at a height, how \
        far it stands out, and how wide a V-groove is that was measured over a pin.";
    const TASK: Task = Task::Check;
    const ANOTHER_CHECK: &'static str = "Measure again over a pin of another size: both must give the same groove.";
    const WORDS: &'static str = "v block, vee block, v groove, vee, measure over a pin, shaft in a vee, cross drilling, \
        center height";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1 in winch shaft is cross-drilled in a V-block of 90°: how high is its center above the vertex?":
            diameter = "1 in";
        "A V-slide of 60° in the mill gear, 22 mm wide at its face, is to be checked over a 16 mm pin.":
            diameter = "16 mm", vee_angle = "60 deg", groove_width = "22 mm";
        "The top of an unmarked bar stands 1.8107 in above the vertex of the block.": top_height = "1.8107 in";
        "A 12 mm pin stands 4.35 mm out of a 90° groove: how wide is it?":
            diameter = "12 mm", stands_out = "4.35 mm", vee_angle = "90 deg";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} bar lies in a 90° V-block. How high is its center above the vertex?" => "center_height":
            { diameter = "3/4 in" | "1 in" | "1-1/4 in" | "2 in" } { diameter = "16 mm" | "20 mm" | "25 mm" | "40 mm" };
        1 "A {diameter} bar lies in a vee of {vee_angle}. How high is its top above the vertex?" => "top_height":
            { diameter = "1/2 in" | "1 in" | "1-1/2 in", vee_angle = "60°" | "90°" | "120°" }
            { diameter = "12 mm" | "20 mm" | "30 mm", vee_angle = "60°" | "90°" | "120°" };
        2 "A V-groove of {vee_angle} is to be {groove_width} wide at the face. How deep is its vertex?" => "groove_depth":
            { diameter = "1/4 in", vee_angle = "60°" | "90°", groove_width = "1/2 in" | "3/4 in" | "1 in" }
            { diameter = "8 mm", vee_angle = "60°" | "90°", groove_width = "12 mm" | "20 mm" | "25 mm" };
        2 "A {diameter} pin lies in a 90° groove {groove_width} wide. How far must it stand out?" => "stands_out":
            { diameter = "1/2 in" | "5/8 in", groove_width = "1/2 in" | "5/8 in" | "3/4 in" }
            { diameter = "12 mm" | "16 mm", groove_width = "14 mm" | "16 mm" | "20 mm" };
        3 "The top of a bar stands {top_height} above the vertex of a 90° block. What is its diameter?" => "diameter":
            { top_height = "1.2071 in" | "0.9053 in" | "1.8107 in" } { top_height = "24.142 mm" | "30.178 mm" | "48.284 mm" };
        3 "A {diameter} pin stands {stands_out} out of a 90° groove. How wide is the groove at the face?" => "groove_width":
            { diameter = "1/2 in" | "5/8 in", stands_out = "0.2 in" | "0.25 in" | "0.3 in" }
            { diameter = "12 mm" | "16 mm", stands_out = "5 mm" | "6 mm" | "7.5 mm" };
    };
    type Input = VBlockInput;
    type Output = VBlockResult;
    const LEADS: &'static [&'static str] = &["groove_width", "center_height"];
    const CONTEXT: &'static [&'static str] = &["top {top_height} above the vertex", "stands out {stands_out}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle from the vertex to the center and a line of contact");
        let vee = input.vee_angle(record);
        let diameter: FoundSize = match (input.diameter, input.top_height) {
            (None, Some(top)) => step!(record, "Diameter whose top lies there",
                D: diameter = 2.0 * T / (1.0 + 1.0 / sin(φ / 2.0)), T = top_height: top, φ = vee_angle: vee),
            (given, _) => {
                let given = given.unwrap_or(Size::stated(1.0, Unit::Inch));
                record.choose("Diameter", "as given").with("D", "diameter", given).gives("diameter", given.found());
                given.found()
            }
        };
        let center_height: FoundSize = step!(record, "Center above the vertex",
            c: center_height = D / (2.0 * sin(φ / 2.0)), D = diameter, φ = vee_angle: vee);
        let top_height: FoundSize = match input.top_height {
            Some(top) => {
                record
                    .choose("Top above the vertex", "as given")
                    .with("T", "top_height", top)
                    .gives("top_height", top.found());
                top.found()
            }
            None => step!(record, "Top above the vertex", T: top_height = c + D / 2.0, c = center_height, D = diameter),
        };
        let contact_width: FoundSize = step!(record, "Between the lines of contact",
            k: contact_width = D * cos(φ / 2.0), D = diameter, φ = vee_angle: vee);
        let top_rise: f64 = step!(record, "Rise of the top for each of diameter",
            e: top_rise = (1.0 + 1.0 / sin(φ / 2.0)) / 2.0, φ = vee_angle: vee);
        let mut result = VBlockResult {
            diameter,
            center_height,
            top_height,
            contact_width,
            top_rise,
            groove_width: None,
            groove_depth: None,
            stands_out: None,
            contact_depth: None,
        };
        find_groove(input, vee, &mut result, record)?;
        notes!(record =>
            clean_flanks: "Clean bar and flanks, and turn the bar: a high spot lifts it by more than its own size.";
            vertex_is_relieved: "Most vees have a slot at the vertex. Heights count from where the flanks would meet.");
        Ok(result)
    }
}

/// What depends on the face of the block.
fn find_groove(input: &VBlockInput, vee: Angle, result: &mut VBlockResult, record: &mut Record) -> Result<(), Refusal> {
    let (top_height, contact_width) = (result.top_height, result.contact_width);
    let width: FoundSize = match (input.groove_width, input.stands_out) {
        (Some(width), _) => {
            record
                .choose("Width at the face", "as given")
                .with("w", "groove_width", width)
                .gives("groove_width", width.found());
            width.found()
        }
        (None, Some(out)) => {
            let depth = top_height.si() - out.si();
            if depth <= 0.0 {
                let says = "The bar cannot stand out by its whole height above the vertex: then there is no groove.";
                let less = value(0.4 * top_height.si(), out.quantity().unit, Way::Down);
                return Err(Refusal::no_answer(says, &[("stands_out", less)]));
            }
            step!(record, "Width at the face", w: groove_width = 2.0 * (T - s) * tan(φ / 2.0),
                T = top_height, s = stands_out: out, φ = vee_angle: vee)
        }
        (None, None) => return Ok(()),
    };
    if contact_width.si() > width.si() * (1.0 + 1e-9) {
        let says = "The bar is too large for this vee: it would rest on the edges of the face, not on the flanks.";
        let unit = input.diameter.or(input.groove_width).map_or(Unit::Inch, |size| size.quantity().unit);
        let smaller = value(0.8 * result.diameter.si() * width.si() / contact_width.si(), unit, Way::Down);
        let field = if input.diameter.is_some() { "diameter" } else { "top_height" };
        let wider = value(1.25 * contact_width.si(), unit, Way::Up);
        let mut wrongs = Vec::new();
        if field == "diameter" {
            wrongs.push(Wrong::new(field, Code::Conflict, says, smaller));
        }
        match input.stands_out {
            Some(out) => {
                let less = value(0.4 * result.diameter.si(), out.quantity().unit, Way::Down);
                wrongs.push(Wrong::new("stands_out", Code::Conflict, says, less));
            }
            None => wrongs.push(Wrong::new("groove_width", Code::Conflict, says, wider)),
        }
        return Err(Refusal(wrongs));
    }
    let depth: FoundSize = step!(record, "Vertex below the face",
        v: groove_depth = w / (2.0 * tan(φ / 2.0)), w = groove_width: width, φ = vee_angle: vee);
    let stands_out: FoundDifference = match input.stands_out {
        Some(out) => {
            record.choose("Stands out", "as measured").with("s", "stands_out", out).gives("stands_out", out.found());
            out.found()
        }
        None => step!(record, "Stands out", s: stands_out = T - v, T = top_height, v = groove_depth: depth),
    };
    let contact_depth: FoundExtent = step!(record, "Contact below the face",
        b: contact_depth = not_negative((w - k) / (2.0 * tan(φ / 2.0))), w = groove_width: width, k = contact_width, φ = vee_angle: vee);
    result.groove_width = Some(width);
    result.groove_depth = Some(depth);
    result.stands_out = Some(stands_out);
    result.contact_depth = Some(contact_depth);
    Ok(())
}
