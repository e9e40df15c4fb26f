//! What a part of its drawing size reads when it and the gauge are not at 20 °C, and what it measures at 20 °C from a
//! reading here: linear expansion of both (published coefficients; ISO 1 for the temperature).

use crate::calculators::prelude::*;
use crate::reference::material_name::WorkMaterial;
use crate::reference::material_physical::physical;

/// The calculator.
pub struct AtTemperature;

/// What the sizes at a temperature ask for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct AtTemperatureInput {
    /// Size on the drawing, to find what it reads here.
    #[label("Size on the drawing")]
    pub drawing_size: Option<Size>,
    /// Size read here, to find the size at 20 °C.
    #[label("Size read here")]
    pub reading: Option<Size>,
    /// Material of the part, such as 6061.
    #[label("Material of the part")]
    pub material: Option<WorkMaterial>,
    /// Expansion of the part, in place of its material.
    #[label("Expansion of the part")]
    pub expansion: Option<Expansion>,
    /// Temperature of the part.
    #[label("Temperature of the part")]
    pub part_temperature: Temperature,
    /// Temperature of the gauge or scale; that of the part if absent.
    #[label("Temperature of the gauge")]
    pub gauge_temperature: Option<Temperature>,
    /// Expansion of the gauge.
    #[label("Expansion of the gauge")]
    #[absent(
        "11.5 µm/m/K",
        "Gauge blocks and micrometers are of steel, 11.5 µm in a meter for each °C. A glass scale has about 8."
    )]
    pub gauge_expansion: Option<Expansion>,
}

/// What a part of the drawing size comes to.
#[derive(Debug, Gives)]
pub struct ReadsHere {
    /// What the drawing size reads here.
    #[label("Reads here")]
    pub reads: FoundGaugeSize,
    /// What it reads more than the drawing; negative if less.
    #[label("Reads more by")]
    pub reads_more: FoundTinyDifference,
    /// The least it reads by the published expansions.
    #[label("Reads at least")]
    pub reads_least: FoundGaugeSize,
    /// The most it reads by the published expansions.
    #[label("Reads at most")]
    pub reads_most: FoundGaugeSize,
    /// The size that it really has here.
    #[label("Its real size here")]
    pub size_here: FoundGaugeSize,
}

/// What a reading comes to at the reference temperature.
#[derive(Debug, Gives)]
pub struct AtReference {
    /// Size at 20 °C.
    #[label("Size at 20 °C")]
    pub true_size: FoundGaugeSize,
    /// What to add to the reading.
    #[label("Add to the reading")]
    pub correction: FoundTinyDifference,
    /// The least by the published expansions.
    #[label("Size at 20 °C, least")]
    pub true_least: FoundGaugeSize,
    /// The greatest by the published expansions.
    #[label("Size at 20 °C, greatest")]
    pub true_greatest: FoundGaugeSize,
}

/// What the sizes at a temperature give.
#[derive(Debug, Gives)]
pub struct AtTemperatureResult {
    /// What the drawing size comes to here.
    #[group]
    #[needs(drawing_size)]
    pub here: Option<ReadsHere>,
    /// What the reading comes to at 20 °C.
    #[group]
    #[needs(reading)]
    pub at_reference: Option<AtReference>,
    /// What each degree Celsius changes.
    #[label("Each °C of the part changes")]
    pub each_degree: FoundTinyDifference,
    /// Expansion of the part, least published.
    #[label("Expansion, least")]
    pub expansion_low: FoundExpansion,
    /// Expansion of the part, greatest published.
    #[label("Expansion, greatest")]
    pub expansion_high: FoundExpansion,
}

const FROM: f64 = 253.15;
const TO: f64 = 373.15;

fn outside(temperature: Option<Temperature>) -> bool {
    temperature.is_some_and(|temperature| !(FROM..=TO).contains(&temperature.si()))
}

const RANGE: &str =
    "Give a temperature of the shop, from -20 to 100 °C, -4 to 212 °F: the published expansions hold there.";

rules! { check(AtTemperatureInput) {
    one_of(drawing_size = "100 mm", reading = "100.02 mm"): "Give the size on the drawing, or the size read here.";
    one_of(material = "6061", expansion = "23.6 um/m/K"): "Give the material of the part, or its expansion.";
    not_both(material, expansion): "Give the material or the expansion, not both.";
    never(|input| outside(Some(input.part_temperature)), Code::ValueOutOfRange, part_temperature = "30 degC"): RANGE;
    never(|input| outside(input.gauge_temperature), Code::ValueOutOfRange, gauge_temperature = "20 degC"): RANGE;
} }

impl Calculator for AtTemperature {
    const ID: &'static str = "measure/at-temperature";
    const TITLE: &'static str = "Sizes of warm and cold parts";
    const ABOUT: &'static str = "What the drawing size reads when part and gauge are not at 20 °C, and what a reading here \
        is at 20 °C, by the published expansions.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Let part and gauge lie on one iron plate until both are as warm, an hour for \
        each 25 mm of thickness, and measure again.";
    const WORDS: &'static str = "thermal expansion, temperature, 20 degrees, 68 F, warm part, coefficient, shop \
        temperature, correction, hot from turning, ISO 1, growth";
    const EXAMPLES: &'static [Example] = examples! {
        "A 6061 pump cover bored to 150 mm is still 32 °C from the cut; the bore gauge lay at 22 °C.":
            drawing_size = "150 mm", material = "6061", part_temperature = "32 degC", gauge_temperature = "22 degC";
        "A winch drum of 316 reads 12.0035 in on a warm day, part and micrometer at 86 °F.":
            reading = "12.0035 in", material = "316", part_temperature = "86 degF",
            gauge_expansion = "11.5 um/m/K";
        "A brass bushing with a data sheet, 60 mm, measured at 35 °C.":
            drawing_size = "60 mm", expansion = "20.5 um/m/K", part_temperature = "35 degC";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {material} part comes off the lathe at {part_temperature}. The gauge lay at {gauge_temperature}. How much more \
            than {drawing_size} does it read?" => "reads_more":
            { drawing_size = "100 mm" | "200 mm", material = "1018" | "6061", part_temperature = "30 degC" | "40 degC",
              gauge_temperature = "20 degC", units = "metric" };
        2 "Part and micrometer are both at {part_temperature}. What do you add to a reading of {reading} on {material}?"
            => "correction":
            { reading = "100 mm" | "150 mm" | "250 mm", material = "6061" | "304", part_temperature = "28 degC" | "32 degC",
              units = "metric" }
            { reading = "4 in" | "6 in" | "10 in", material = "6061" | "304", part_temperature = "80 degF" | "90 degF",
              units = "inch" };
        3 "A part with an expansion of {expansion} reads {reading} at {part_temperature}, with the gauge at \
            {gauge_temperature}. What is its size at 20 °C?" => "true_size":
            { reading = "60 mm" | "80 mm", expansion = "20.5 um/m/K" | "17 um/m/K", part_temperature = "35 degC",
              gauge_temperature = "22 degC" | "25 degC", units = "metric" };
    };
    type Input = AtTemperatureInput;
    type Output = AtTemperatureResult;
    const LEADS: &'static [&'static str] = &["reads|true_size"];
    const CONTEXT: &'static [&'static str] = &["{reads_more} more than the drawing", "{correction} to add"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "length times expansion times degrees");
        record.source("iso_1", "drawings and gauges hold at 20 °C, 68 °F");
        let reference = FoundTemperature::stated(20.0, Unit::Celsius);
        tell!(record.look_up("Temperature at which drawing and gauge hold", "ISO 1") => reference_temperature: reference);
        let part = input.part_temperature;
        let gauge = record.or_assume(
            input.gauge_temperature,
            "gauge_temperature",
            part,
            "The gauge is assumed to be as warm as the part: both lay together long enough.",
        );
        let gauge_expansion = input.gauge_expansion(record);
        if input.gauge_expansion.is_none() {
            record.source("iso_3650_memory", "expansion of steel gauge blocks, 11.5 ± 1.0 µm/m/K");
        }
        let (expansion_low, expansion_high) = expansions(input, record);
        let expansion: FoundExpansion = step!(record, "Expansion of the part, the middle",
            α: expansion_middle = (a + b) / 2.0, a = expansion_low, b = expansion_high);
        let gauge_growth: FoundFineRatio = step!(record, "Growth of the gauge",
            G: gauge_growth = β * (t - r),
            β = gauge_expansion, t = gauge_temperature: gauge, r = reference_temperature: reference);
        let growth = |what: &'static str,
                      field: &'static str,
                      (name, of): (&'static str, FoundExpansion),
                      record: &mut Record|
         -> FoundFineRatio {
            step!(record, what, P: (field) = α * (t - r),
                α = (name): of, t = part_temperature: part, r = reference_temperature: reference)
        };
        let middle = growth("Growth of the part", "part_growth", ("expansion_middle", expansion), record);
        let low = growth("Growth of the part, least expansion", "growth_low", ("expansion_low", expansion_low), record);
        let high =
            growth("Growth of the part, greatest expansion", "growth_high", ("expansion_high", expansion_high), record);
        let of = input.drawing_size.or(input.reading).unwrap_or(Size::stated(1.0, Unit::Metre));
        let each = if input.drawing_size.is_some() { "drawing_size" } else { "reading" };
        let degree =
            Constant { of: "constant:one_degree", value: 1.0, source: "geometry", place: "one degree Celsius" };
        let each_degree = FoundTinyDifference::of_si(of.si() * expansion.si());
        record
            .step("Change for each degree Celsius", "c = L × α × k")
            .with("L", each, of)
            .with("α", "expansion_middle", expansion)
            .constant("k", &degree)
            .gives("each_degree", each_degree);
        let grown = Growths { gauge: gauge_growth, middle, low, high };
        let here = input.drawing_size.map(|drawing_size| reads_here(drawing_size, &grown, record));
        let at_reference = input.reading.map(|reading| at_reference(reading, &grown, record));
        notes!(record =>
            let_it_lie: "A part warm from the cut, or from the hand, is not as warm all through. Where a hundredth matters, \
                let it lie beside the gauge until both are as warm; a correction of a warm part is only as good as its \
                thermometer.";
            published: "Published expansions are good to about 5 to 10 percent for the alloy in hand, and clamped or \
                composite parts do not grow freely.");
        Ok(AtTemperatureResult { here, at_reference, each_degree, expansion_low, expansion_high })
    }
}

/// The least and the greatest expansion of the part.
fn expansions(input: &AtTemperatureInput, record: &mut Record) -> (FoundExpansion, FoundExpansion) {
    match (input.expansion, input.material) {
        (None, Some(material)) => {
            let row = physical(material.0);
            row.expansion.cite(record, "expansion", row);
            let [low, high] = [row.expansion.low, row.expansion.high]
                .map(|si| FoundExpansion::stated(text::tidy(si * 1e6), Unit::MicrometrePerMetreKelvin));
            let table = format!("physical properties of the material, row {}", row.material);
            tell!(record.look_up("Expansion, least published", table.clone()) => expansion_low: low);
            tell!(record.look_up("Expansion, greatest published", table) => expansion_high: high);
            (low, high)
        }
        (expansion, _) => {
            let expansion = expansion.unwrap_or(Expansion::stated(0.0, Unit::MicrometrePerMetreKelvin));
            let found = expansion.found();
            tell!(record.choose("Expansion, least", "as given"), a = expansion => expansion_low: found);
            tell!(record.choose("Expansion, greatest", "as given"), a = expansion => expansion_high: found);
            (found, found)
        }
    }
}

/// How much part and gauge have grown.
struct Growths {
    gauge: FoundFineRatio,
    middle: FoundFineRatio,
    low: FoundFineRatio,
    high: FoundFineRatio,
}

/// The least and the greatest of two.
fn ordered(a: FoundGaugeSize, b: FoundGaugeSize) -> [FoundGaugeSize; 2] {
    if a.si() <= b.si() { [a, b] } else { [b, a] }
}

fn reads_here(drawing_size: Size, grown: &Growths, record: &mut Record) -> ReadsHere {
    let size_here: FoundGaugeSize = step!(record, "Real size of the part here",
        s: size_here = L * (1.0 + number(P)), L = drawing_size, P = part_growth: grown.middle);
    let reads = |what: &'static str,
                 field: &'static str,
                 (name, of): (&'static str, FoundFineRatio),
                 record: &mut Record|
     -> FoundGaugeSize {
        step!(record, what, d: (field) = L * (1.0 + number(P)) / (1.0 + number(G)),
            L = drawing_size, P = (name): of, G = gauge_growth: grown.gauge)
    };
    let is = reads("What the gauge reads", "reads", ("part_growth", grown.middle), record);
    let low = reads("The same, least expansion", "reads_low", ("growth_low", grown.low), record);
    let high = reads("The same, greatest expansion", "reads_high", ("growth_high", grown.high), record);
    let reads_more: FoundTinyDifference = step!(record, "More than the drawing size",
        c: reads_more = L * (P - G) / (1.0 + number(G)),
        L = drawing_size, P = part_growth: grown.middle, G = gauge_growth: grown.gauge);
    let [reads_least, reads_most] = ordered(low, high);
    tell!(record.choose("Reads at least", "the smaller"), a = reads_low: low, b = reads_high: high => reads_least);
    tell!(record.choose("Reads at most", "the larger"), a = reads_low: low, b = reads_high: high => reads_most);
    ReadsHere { reads: is, reads_more, reads_least, reads_most, size_here }
}

fn at_reference(reading: Size, grown: &Growths, record: &mut Record) -> AtReference {
    let size = |what: &'static str,
                field: &'static str,
                (name, of): (&'static str, FoundFineRatio),
                record: &mut Record|
     -> FoundGaugeSize {
        step!(record, what, s: (field) = R * (1.0 + number(G)) / (1.0 + number(P)),
            R = reading, G = gauge_growth: grown.gauge, P = (name): of)
    };
    let true_size = size("Size at the reference temperature", "true_size", ("part_growth", grown.middle), record);
    let low = size("The same, least expansion", "true_low", ("growth_low", grown.low), record);
    let high = size("The same, greatest expansion", "true_high", ("growth_high", grown.high), record);
    let correction: FoundTinyDifference = step!(record, "To add to the reading",
        c: correction = R * (G - P) / (1.0 + number(P)),
        R = reading, G = gauge_growth: grown.gauge, P = part_growth: grown.middle);
    let [true_least, true_greatest] = ordered(low, high);
    tell!(record.choose("Least", "the smaller"), a = true_low: low, b = true_high: high => true_least);
    tell!(record.choose("Greatest", "the larger"), a = true_low: low, b = true_high: high => true_greatest);
    AtReference { true_size, correction, true_least, true_greatest }
}
