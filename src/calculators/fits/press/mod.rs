//! Press and shrink fits: the pressure between hub and shaft, what it holds, the stress in both, the force of the press and
//! the temperatures at which the parts slip together. Thick-walled cylinders by Lamé.

mod assembly;
mod interference;
mod parts;
mod pressure;

use crate::calculators::prelude::*;
use crate::fitting::Fit;
use crate::reference::material_name::WorkMaterial;
use parts::carbon_steel;

/// The calculator.
pub struct PressFit;

/// What the press fit calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct PressFitInput {
    /// The size with an ISO fit, in place of diameter and interference.
    #[label("Size and ISO fit")]
    pub fit: Option<Fit>,
    /// Diameter of the joint.
    #[label("Diameter of the joint")]
    pub diameter: Option<Size>,
    /// Shaft less hole, on the diameter; where the parts vary, the greatest.
    pub interference: Option<Size>,
    /// The least interference, where the parts vary.
    #[label("Least interference")]
    pub least_interference: Option<Size>,
    /// Outside diameter of the hub.
    #[label("Hub, outside diameter")]
    pub hub_diameter: Size,
    /// Bore through the shaft, or through a bushing that is pressed in.
    #[absent("0", like = hub_diameter, "The shaft is assumed solid.")]
    #[label("Bore of the shaft")]
    pub shaft_bore: Option<Extent>,
    /// Length of the joint.
    #[label("Length of the joint")]
    pub length: Option<Size>,
    /// Material of the hub.
    #[absent("carbon steel", value = carbon_steel(), "The hub is assumed to be of carbon steel.")]
    pub hub_material: Option<WorkMaterial>,
    /// Material of the shaft or bushing.
    #[absent("carbon steel", value = carbon_steel(), "The shaft is assumed to be of carbon steel.")]
    pub shaft_material: Option<WorkMaterial>,
    /// Modulus of elasticity of the hub, if not the table's.
    #[label("Hub, modulus of elasticity")]
    pub hub_modulus: Option<Strength>,
    /// Modulus of elasticity of the shaft, if not the table's.
    #[label("Shaft, modulus of elasticity")]
    pub shaft_modulus: Option<Strength>,
    /// Yield strength of the hub.
    pub hub_yield: Option<Strength>,
    /// Yield strength of the shaft.
    pub shaft_yield: Option<Strength>,
    /// Coefficient of friction that holds the joint.
    #[absent("0.1", value = PlainNumber::stated(0.1), "0.1 is the low end of 0.1 to 0.2, so that the joint holds at least this.")]
    #[label("Friction that holds")]
    pub friction: Option<PlainNumber>,
    /// Coefficient of friction in pressing.
    #[absent("0.2", value = PlainNumber::stated(0.2), "0.2 is the high end of 0.1 to 0.2, so that the press is large enough.")]
    #[label("Friction in pressing")]
    pub pressing_friction: Option<PlainNumber>,
    /// Interference lost as the rough surfaces are pressed flat, on the diameter.
    #[absent("0", like = hub_diameter, "Smooth surfaces are assumed. Turned ones lose about 0.8 of the sum of both roughness heights Rz.")]
    #[label("Lost to roughness")]
    pub smoothing: Option<Extent>,
    /// Clearance at which the hot hub slips on, on the diameter.
    #[absent("a thousandth of the diameter", value = assembly::usual_clearance(self), "A thousandth of the diameter lets the parts slip together.")]
    #[label("Clearance to slip on")]
    pub assembly_clearance: Option<Extent>,
    /// Temperature of the room.
    #[absent("20 degC", "The room is assumed to be at 20 °C (68 °F).")]
    pub room_temperature: Option<Temperature>,
    /// Temperature to which the shaft is cooled before the hot hub goes on; the room's if absent.
    #[label("Shaft cooled to")]
    pub shaft_temperature: Option<Temperature>,
}

/// What the press fit calculator gives.
#[derive(Debug, Gives)]
pub struct PressFitResult {
    /// Interference that presses, at its greatest.
    #[label("Greatest interference")]
    pub greatest_interference: FoundFineDifference,
    /// Interference that presses, at its least; zero or less holds nothing.
    #[label("Least interference")]
    pub least_interference: FoundFineDifference,
    /// Pressure between the parts at the greatest interference.
    #[label("Greatest pressure")]
    pub pressure: FoundStress,
    /// Pressure between the parts at the least interference; absent where the parts may be loose.
    #[label("Least pressure")]
    pub least_pressure: Option<FoundStress>,
    /// Force along the shaft that the joint holds at the least pressure; needs the length.
    #[needs(length)]
    pub holding_force: Option<FoundCuttingForce>,
    /// Torque that the joint holds at the least pressure; needs the length.
    #[needs(length)]
    pub holding_torque: Option<FoundTorque>,
    /// Force to press the parts together at the greatest pressure; needs the length.
    #[needs(length)]
    pub pressing_force: Option<FoundCuttingForce>,
    /// Temperature of the hub at which it slips on.
    #[label("Heat the hub to")]
    pub hub_temperature: FoundTemperature,
    /// Temperature of the shaft at which it slips into a hub at the room's temperature; absent where liquid nitrogen is not cold enough.
    #[label("Or cool the shaft to")]
    pub shaft_temperature_alone: Option<FoundTemperature>,
    /// Pull around the hub at its bore, where it is greatest.
    #[label("Hub, pull at the bore")]
    pub hub_stress: FoundStress,
    /// Pull around the hub at its outside.
    #[label("Hub, pull at the outside")]
    pub hub_outside_stress: FoundStress,
    /// Stress around the shaft where it is greatest: at its bore, or all through a solid one; negative is push.
    #[label("Shaft, stress around")]
    pub shaft_stress: FoundStress,
    /// Greatest shear of the hub, as a share of what makes it yield; needs the hub's yield strength.
    #[label("Hub, share of yield")]
    #[needs(hub_yield)]
    pub hub_share: Option<FoundPercentage>,
    /// The same of the shaft; needs the shaft's yield strength.
    #[label("Shaft, share of yield")]
    #[needs(shaft_yield)]
    pub shaft_share: Option<FoundPercentage>,
    /// How much the hub's outside diameter grows.
    pub hub_grows: FoundFineDifference,
    /// How much the bore of the shaft or bushing closes; needs the bore of the shaft.
    #[label("Bore closes by")]
    #[needs(shaft_bore)]
    pub bore_closes: Option<FoundFineDifference>,
}

rules! { check(PressFitInput) {
    one_of(fit = "50 mm H7/s6", diameter = "50 mm"): "Give an ISO fit with its size, or diameter and interference.";
    never(|input| input.fit.is_some() && input.diameter.is_some(), Code::Conflict, diameter = "leave out"):
        "The fit gives the diameter: leave the other one out.";
    never(|input| input.fit.is_some() && input.interference.is_some(), Code::Conflict, interference = "leave out"):
        FIT_GIVES_IT;
    never(|input| input.fit.is_some() && input.least_interference.is_some(), Code::Conflict,
        least_interference = "leave out"): FIT_GIVES_IT;
    needs(diameter => interference = "0.04 mm"): "The diameter needs an interference.";
    at_most(least_interference <= interference, least_interference = "leave out"):
        "The least interference must not be more than the greatest.";
    never(|input| parts::joint(input) >= input.hub_diameter.si(), Code::Conflict, hub_diameter = "100 mm"):
        "The hub must be larger outside than the joint.";
    never(|input| input.shaft_bore.is_some_and(|bore| bore.si() >= parts::joint(input)), Code::Conflict, shaft_bore = "0 mm"):
        "The bore of the shaft must be smaller than the joint.";
    never(|input| input.interference.is_some_and(|by| by.si() > 0.02 * parts::joint(input)), Code::ValueOutOfRange,
        interference = "0.04 mm"): "An interference of more than a fiftieth of the diameter would tear any metal hub.";
} }

const FIT_GIVES_IT: &str = "The fit gives the interference: leave the other one out.";

impl Calculator for PressFit {
    const ID: &'static str = "fits/press";
    const TITLE: &'static str = "Press and shrink fit";
    const ABOUT: &'static str = "The pressure between a hub and a shaft with interference, the force and torque it holds, the \
        force of the press, the temperatures to slip them together, and the stress in both.";
    const TASK: Task = Task::Check;
    const ANOTHER_CHECK: &'static str = "Measure both parts before pressing, and read the press's gauge: the force should rise evenly to near the one found.";
    const WORDS: &'static str = "press fit, shrink fit, interference fit, arbor press, pressing force, hub, bushing, \
        bearing race, heat to assemble, dry ice, liquid nitrogen, Lamé, holding torque, force fit";
    const EXAMPLES: &'static [Example] = examples! {
        "A mill gear of 100 mm outside is pressed 60 mm long on its 50 mm shaft, H7/s6.":
            fit = "50 mm H7/s6", hub_diameter = "100 mm", length = "60 mm", hub_yield = "350 MPa",
            shaft_yield = "400 MPa";
        "A bronze bushing, 1 in outside and 3/4 in bore, goes into a 3 in pump housing with 0.002 in interference.":
            diameter = "1 in", interference = "0.002 in", least_interference = "0.001 in", hub_diameter = "3 in",
            shaft_bore = "0.75 in", length = "1.5 in", hub_material = "ductile-iron-60", shaft_material = "C93200",
            friction = "0.1", pressing_friction = "0.15", smoothing = "0.0002 in";
        "A steel ring is shrunk on a winch drum of 200 mm, the drum cooled in dry ice.":
            diameter = "200 mm", interference = "0.2 mm", hub_diameter = "260 mm", hub_modulus = "205000 MPa",
            shaft_modulus = "205000 MPa", room_temperature = "22 degC", shaft_temperature = "-70 degC",
            assembly_clearance = "0.1 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A steel collar of {hub_diameter} outside is pressed on a solid {diameter} shaft with {interference}. What is \
           the pressure between them?" => "pressure":
            { diameter = "40 mm" | "50 mm", interference = "0.03 mm" | "0.04 mm" | "0.05 mm", hub_diameter = "80 mm" | "100 mm" }
            { diameter = "1 in" | "1.5 in", interference = "0.001 in" | "0.0015 in", hub_diameter = "3 in" };
        2 "A steel gear of {hub_diameter} outside and {length} long goes on a {diameter} shaft with {interference}. What \
           torque does it hold for certain?" => "holding_torque":
            { diameter = "40 mm" | "50 mm", interference = "0.03 mm" | "0.04 mm", hub_diameter = "90 mm" | "120 mm",
              length = "40 mm" | "60 mm" };
        2 "You press a steel hub, {hub_diameter} outside and {length} long, on a {diameter} shaft with {interference}. What \
           force must the press have?" => "pressing_force":
            { diameter = "1 in" | "1.5 in" | "2 in", interference = "0.001 in" | "0.002 in", hub_diameter = "3 in" | "4 in",
              length = "1 in" | "2 in" };
        3 "A steel ring, {hub_diameter} outside, is shrunk on a {diameter} shaft with {interference}. How hot must it be to \
           slip on?" => "hub_temperature":
            { diameter = "80 mm" | "100 mm", interference = "0.05 mm" | "0.08 mm", hub_diameter = "140 mm" };
        3 "A bronze bushing, {diameter} outside and {shaft_bore} bore, goes into a steel housing of {hub_diameter} with \
           {interference}. How much does its bore close?" => "bore_closes":
            { diameter = "1 in" | "1.25 in", shaft_bore = "0.75 in" | "0.875 in", hub_diameter = "3 in",
              interference = "0.001 in" | "0.002 in", shaft_material = "C93200" };
    };
    type Input = PressFitInput;
    type Output = PressFitResult;
    const LEADS: &'static [&'static str] = &["pressing_force|pressure"];
    const CONTEXT: &'static [&'static str] = &[
        "holds {holding_torque}", "heat the hub to {hub_temperature}", "hub at {hub_share} of yield",
        "{pressure} at most",
    ];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::PRESSING, cautions::HEATING_TO_FIT]);
        record.source("lame", "pressure and stress of the two parts");
        let joint = interference::joint(input, record)?;
        let parts = parts::read(input, record);
        let held = pressure::find(input, &joint, &parts, record);
        let slip = assembly::find(input, &joint, &parts, record)?;
        Ok(PressFitResult {
            greatest_interference: joint.greatest,
            least_interference: joint.least,
            pressure: held.pressure,
            least_pressure: held.least_pressure,
            holding_force: held.holding_force,
            holding_torque: held.holding_torque,
            pressing_force: held.pressing_force,
            hub_temperature: slip.hub,
            shaft_temperature_alone: slip.shaft,
            hub_stress: held.hub_stress,
            hub_outside_stress: held.hub_outside_stress,
            shaft_stress: held.shaft_stress,
            hub_share: held.hub_share,
            shaft_share: held.shaft_share,
            hub_grows: held.hub_grows,
            bore_closes: held.bore_closes,
        })
    }
}
