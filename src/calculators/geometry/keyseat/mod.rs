//! A keyseat in a shaft and its slot in the hub: the key by the standard, the depth to mill from the top of the shaft and
//! what to measure after. Plane geometry of the chord over standard keys, checked against printed depth control values.

mod drawing;
mod find;
mod steps;

use crate::calculators::prelude::*;
use crate::fitting::PartLimits;
use crate::reference::keys::{KeyKind, KeyName, KeyShape, KeyStandard};

/// The calculator.
pub struct Keyseat;

choice! {
    /// Fit of a metric key in the width of its seats: `normal`, `close` or `free`.
    KeyFit {
        /// N9 in the shaft, JS9 in the hub.
        Normal = "normal",
        /// P9 in both: the key is driven in.
        Close = "close" | "tight",
        /// H9 in the shaft, D10 in the hub: the hub slides.
        Free = "free",
    }
}

/// What the keyseat calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct KeyseatInput {
    /// Nominal diameter of the shaft, which is that of the hub's bore.
    #[label("Shaft diameter")]
    pub shaft_diameter: Size,
    /// Diameter that the shaft measures; the nominal one if absent.
    #[label("Shaft as measured")]
    pub measured_diameter: Option<Size>,
    /// Form of the key.
    #[label("Form of the key")]
    #[absent("parallel", "A parallel key is the usual one.")]
    pub kind: Option<KeyKind>,
    /// Standard of the key; inch for a shaft in inches, else iso.
    #[label("Standard")]
    pub standard: Option<KeyStandard>,
    /// Section of an inch parallel key; square if absent.
    #[label("Section of the key")]
    pub shape: Option<KeyShape>,
    /// Its size or number; that of the standard if absent. A Woodruff key must be named.
    #[label("Key")]
    pub key: Option<KeyName>,
    /// Fit of a metric key in the width, for its limits.
    #[label("Fit of the width")]
    pub fit: Option<KeyFit>,
    /// Diameter of the end mill or edge finder that touches the side, or thickness of a disk cutter.
    #[label("Tip or cutter that touches the side")]
    pub tip_diameter: Option<Extent>,
    /// Paper or shim between the tip and the shaft.
    #[label("Shim thickness")]
    #[absent("0", like = shaft_diameter, "The tip is assumed to touch the shaft itself.")]
    pub shim: Option<Extent>,
}

/// What the keyseat calculator gives.
#[derive(Debug, Gives)]
pub struct KeyseatResult {
    /// Width and height, or the number of a Woodruff key and its cutter.
    #[label("Key")]
    pub key_size: &'static str,
    /// Nominal width of the key and its seats.
    #[label("Width of the keyseat")]
    pub key_width: FoundSize,
    /// Nominal height of the key.
    #[label("Height of the key")]
    pub key_height: FoundSize,
    /// Depth of cut, from where the cutter touches the top.
    #[label("Depth of cut from the top")]
    pub depth_from_top: FoundDepthSetting,
    /// Depth at the sides of the slot, from its corners.
    #[label("Depth at the side")]
    pub depth_at_side: FoundExtent,
    /// From the top down to the corners of the slot.
    #[label("Top down to the corners")]
    pub chord_height: FoundExtent,
    /// From the bottom of the keyseat to the far side of the shaft.
    #[label("Bottom to the far side (S)")]
    pub to_far_side: FoundSize,
    /// The least that may be.
    #[label("Bottom to the far side, least")]
    pub to_far_side_least: Option<FoundSize>,
    /// Over the key in its seat to the far side of the shaft.
    #[label("Over the key and the shaft")]
    pub over_key: FoundSize,
    /// Depth of the slot in the hub, from the top of its bore.
    #[label("Depth in the hub from the bore")]
    pub hub_depth: FoundExtent,
    /// From its bottom to the far side of the bore.
    #[label("Hub slot to the far side (T)")]
    pub over_hub: FoundSize,
    /// Room between the top of the key and the hub.
    #[label("Room over the key")]
    pub top_clearance: FoundDifference,
    /// Diameter of the cutter of a Woodruff seat.
    #[label("Cutter diameter")]
    pub cutter_diameter: Option<FoundSize>,
    /// Length of a Woodruff seat along the top of the shaft.
    #[label("Length of the seat at the top")]
    pub seat_length: Option<FoundExtent>,
    /// From the touch on the side to the middle of the shaft.
    #[label("Move from the side to the middle")]
    #[needs(tip_diameter)]
    pub move_over: Option<FoundMove>,
    /// Limits of the width in the shaft, by the fit.
    #[label("Width in the shaft")]
    pub shaft_seat: Option<PartLimits>,
    /// Limits of the width in the hub, by the fit.
    #[label("Width in the hub")]
    pub hub_seat: Option<PartLimits>,
    /// Limits of the width of the key, by the fit.
    #[label("Width of the key")]
    pub key_limits: Option<PartLimits>,
}

rules! { check(KeyseatInput) {
    needs(shim => tip_diameter = "3/8 in"): "A shim counts where a tip touches the side: give its diameter too.";
    never(|input| input.shape.is_some() && (input.kind == Some(KeyKind::Woodruff)
            || matches!(input.standard, Some(KeyStandard::Iso | KeyStandard::Din))), Code::Conflict,
        shape = "leave out"): "Only inch parallel keys come square or rectangular: leave the section out.";
    never(|input| input.fit.is_some() && input.standard == Some(KeyStandard::Inch), Code::Conflict,
        fit = "leave out"): "The fits normal, close and free are those of metric keys: leave the fit out.";
    never(|input| input.fit == Some(KeyFit::Free) && input.kind == Some(KeyKind::Woodruff), Code::Conflict,
        fit = "normal"): "A Woodruff key has no free fit: it would tip in its seat.";
    never(|input| input.measured_diameter.is_some_and(|measured|
            (measured.si() / input.shaft_diameter.si() - 1.0).abs() > 0.05), Code::Conflict,
        measured_diameter = "leave out"):
        "The shaft measures over a twentieth more or less than its nominal diameter. Check both, or give the measured \
         one as the shaft diameter.";
} }

impl Calculator for Keyseat {
    const ID: &'static str = "geometry/keyseat";
    const TITLE: &'static str = "Keyseat";
    const ABOUT: &'static str = "The key for a shaft, how deep to mill its seat from the top, how to center the cutter, and \
        what to measure: parallel and Woodruff keys, inch and metric.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Put the key in its seat and measure over the key and the far side of the shaft. \
        For an open slot, measure from its bottom to the far side.";
    const WORDS: &'static str = "keyway, keyseat, key, Woodruff, parallel key, key stock, key size for a shaft, half moon \
        key, depth of keyway, hub keyway, broach, feather key, slot in a shaft, center a cutter over a shaft";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch shaft of 1 in gets a keyseat for a square key; a 1/4 in end mill touches its side with a 0.003 in paper.":
            shaft_diameter = "1 in", standard = "inch", tip_diameter = "1/4 in", shim = "0.003 in";
        "A pump shaft of 25 mm, worn and ground to 24.95 mm, gets a parallel key with a normal fit.":
            shaft_diameter = "25 mm", measured_diameter = "24.95 mm", fit = "normal";
        "A magneto shaft of 3/4 in has a Woodruff key No. 606.":
            shaft_diameter = "3/4 in", kind = "woodruff", key = "606";
        "A mill pulley on a 1-1/2 in shaft has a low, rectangular key.":
            shaft_diameter = "1-1/2 in", standard = "inch", shape = "rectangular";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {shaft_diameter} shaft gets a parallel key. How wide is its keyseat?" => "key_width":
            { shaft_diameter = "3/4 in" | "1 in" | "1-1/2 in" | "2 in", units = "inch" }
            { shaft_diameter = "20 mm" | "25 mm" | "40 mm" | "60 mm", units = "metric" };
        1 "A {shaft_diameter} pump shaft gets a parallel key. How deep do you mill from the top of the shaft?"
            => "depth_from_top":
            { shaft_diameter = "20 mm" | "25 mm" | "32 mm" | "40 mm" | "50 mm", units = "metric" };
        2 "A winch shaft of {shaft_diameter} gets a square key. How deep do you mill from where the cutter touches the top?"
            => "depth_from_top":
            { shaft_diameter = "3/4 in" | "1 in" | "1-1/4 in" | "1-1/2 in" | "2 in", units = "inch" };
        2 "A {tip_diameter} end mill touches the side of a {shaft_diameter} shaft through a {shim} paper. How far do you \
           move to the middle?" => "move_over":
            { tip_diameter = "3/16 in" | "1/4 in" | "3/8 in", shaft_diameter = "1 in" | "1-1/4 in",
              shim = "0.002 in" | "0.003 in", units = "inch" }
            { tip_diameter = "6 mm" | "8 mm" | "10 mm", shaft_diameter = "30 mm" | "40 mm",
              shim = "0.05 mm" | "0.1 mm", units = "metric" };
        3 "The square key of a {shaft_diameter} shaft needs its seat. What does a micrometer read from the bottom to the \
           far side?" => "to_far_side":
            { shaft_diameter = "5/8 in" | "7/8 in" | "1 in" | "1-3/8 in" | "1-3/4 in", units = "inch" };
        3 "A {shaft_diameter} shaft measures {measured_diameter}. How deep do you mill from its top, so that the key \
           stands where its hub wants it?" => "depth_from_top":
            { shaft_diameter = "25 mm", measured_diameter = "24.9 mm" | "24.8 mm" | "24.94 mm", units = "metric" }
            { shaft_diameter = "40 mm", measured_diameter = "39.9 mm" | "39.84 mm" | "39.7 mm", units = "metric" };
        3 "A {shaft_diameter} shaft has a Woodruff key No. {key}. How deep do you feed the cutter in from the top?"
            => "depth_from_top":
            { shaft_diameter = "3/4 in" | "7/8 in" | "1 in", kind = "woodruff", key = "404" | "405" | "606",
              units = "inch" };
    };
    type Input = KeyseatInput;
    type Output = KeyseatResult;
    const LEADS: &'static [&'static str] = &["depth_from_top"];
    const CONTEXT: &'static [&'static str] =
        &["{key_size} key", "{key_width} wide", "{to_far_side} to the far side", "move {move_over} from the side"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let kind = input.kind(record);
        let key = find::find(input, kind, record)?;
        record.source("geometry", "height of the arc over a chord of the width");
        let result = steps::Seat { input, key, record }.solve()?;
        steps::tell_notes(input, key, &result, record);
        Ok(result)
    }
}
