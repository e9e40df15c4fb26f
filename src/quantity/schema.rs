//! How quantities stand in the published description: one schema for each kind asked for, one for
//! each way a result is written.

use super::kinds::{Kind, KindRow, Setting};
use super::measure::{Found, Measure};
use super::pattern::pattern;
use super::units::{Dimension, Unit};
use serde_json::json;
use std::borrow::Cow;
use utoipa::openapi::schema::{AllOfBuilder, ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// The name of the schema of a kind's text form, which is also what a query takes.
pub(crate) fn text_name(row: &KindRow) -> String {
    format!("{}Text", row.name)
}

/// The name of the schema of a kind's object form, which kinds with the same units share.
pub(crate) fn value_name(row: &KindRow) -> String {
    format!("{}Value", units_name(row))
}

/// The part of names that stands for a kind's units.
fn units_name(row: &KindRow) -> &'static str {
    match found_name(row).trim_end_matches("Found") {
        _ if row.units.contains(&Unit::ThreadsPerInch) => "Pitch",
        "Setting" => "Length",
        sort => sort,
    }
}

/// The name of the schema of a kind's units.
fn unit_name(row: &KindRow) -> String {
    format!("{}Unit", units_name(row))
}

fn units(row: &KindRow) -> String {
    row.units.iter().map(|unit| unit.spelling()).collect::<Vec<_>>().join(", ")
}

/// The text form. The pattern stands with each kind: a text that adds to another is no text to some readers.
fn text_schema(row: &KindRow) -> Schema {
    ObjectBuilder::new()
        .schema_type(Type::String)
        .pattern(Some(pattern(row)))
        .description(Some(format!(
            "{} A number and a unit: {}. {}Several separated by | or a range give a table.",
            row.about,
            units(row),
            without_unit(row).map(|says| says + " ").unwrap_or_default()
        )))
        .examples([json!(row.example)])
        .into()
}

/// What is said of a kind whose numbers may stand without a unit.
fn without_unit(row: &KindRow) -> Option<String> {
    let unit = row.only_unit()?.spelling();
    Some(format!("A number above 1 needs no unit; up to 1 say {unit}."))
}

fn number(about: &str) -> ObjectBuilder {
    ObjectBuilder::new().schema_type(Type::Number).description(Some(about.to_owned()))
}

fn words(about: &str) -> ObjectBuilder {
    ObjectBuilder::new().schema_type(Type::String).description(Some(about.to_owned()))
}

const NOT_READ: &str = "As an answer has it; not read.";

/// What the object forms of all quantities have.
fn stated_frame() -> Schema {
    ObjectBuilder::new()
        .property("value", number("The number."))
        .property("plus", number("Tolerance above the value, in the same unit.").minimum(Some(0.0)))
        .property("minus", number("Tolerance below the value, as a positive amount.").minimum(Some(0.0)))
        .property("plus_minus", referred("Spread", "As an answer has it: its worst case is taken as the tolerance."))
        .property("least", number(NOT_READ))
        .property("greatest", number(NOT_READ))
        .property("text", words(NOT_READ))
        .property("name", words(NOT_READ))
        .required("value")
        .description(Some("What a quantity has as an object, whatever its unit."))
        .into()
}

/// The object form.
fn value_schema(row: &KindRow) -> Schema {
    let mut own = ObjectBuilder::new().property("unit", Ref::from_schema_name(unit_name(row))).required("unit");
    if row.dimension() == Dimension::Length {
        for name in ["set_to", "left_over"] {
            own = own.property(name, referred("Setting", NOT_READ));
        }
    }
    let about = "A quantity as an object: one of an answer can be sent back as it is.";
    AllOfBuilder::new()
        .item(Ref::from_schema_name("QuantityStated"))
        .item(own)
        .description(Some(about))
        .examples([json!({"value": 1.5, "unit": row.metric.0.spelling()})])
        .into()
}

/// The units a kind is read in.
fn unit_schema(row: &KindRow) -> Schema {
    ObjectBuilder::new()
        .schema_type(Type::String)
        .enum_values(Some(row.units.iter().map(|unit| unit.spelling()).collect::<Vec<_>>()))
        .description(Some(format!(
            "A unit of {}.",
            row.dimension().words().trim_start_matches("a ").trim_start_matches("an ")
        )))
        .into()
}

fn referred(name: &str, about: &str) -> Ref {
    Ref::builder().ref_location_from_schema_name(name).description(Some(about)).build()
}

impl<K: Kind> PartialSchema for Measure<K> {
    fn schema() -> RefOr<Schema> {
        let row = K::ROW;
        let mut forms = OneOfBuilder::new()
            .item(Ref::from_schema_name(text_name(row)))
            .item(Ref::from_schema_name(value_name(row)));
        if let Some(says) = without_unit(row) {
            forms = forms.item(number(&says));
        }
        forms.description(Some(row.about)).examples([json!(row.example)]).into()
    }
}

impl<K: Kind> ToSchema for Measure<K> {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed(K::ROW.name)
    }

    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        parts.push((text_name(K::ROW), text_schema(K::ROW).into()));
        parts.push((value_name(K::ROW), value_schema(K::ROW).into()));
        parts.push((unit_name(K::ROW), unit_schema(K::ROW).into()));
        parts.extend(shared());
    }
}

/// Which of the result schemas a kind uses: those that are set on a machine have two more fields.
fn found_name(row: &KindRow) -> &'static str {
    match (row.dimension(), row.setting, row.inch.0) {
        (Dimension::ThreadCount, ..) => "LengthFound",
        (Dimension::Length, _, Unit::Microinch) => "RoughnessFound",
        (Dimension::Length, Setting::Never, _) => "LengthFound",
        (Dimension::Length, ..) => "SettingFound",
        (Dimension::Angle, ..) => "AngleFound",
        (Dimension::Velocity, _, Unit::InchPerMinute) => "FeedRateFound",
        (Dimension::Velocity, ..) => "CuttingSpeedFound",
        (Dimension::FeedPerRev, ..) => "FeedPerRevFound",
        (Dimension::FeedPerTooth, ..) => "FeedPerToothFound",
        (Dimension::TurningSpeed, ..) => "SpindleSpeedFound",
        (Dimension::VolumeRate, ..) => "VolumeRateFound",
        (Dimension::Area, ..) => "AreaFound",
        (Dimension::Ratio, ..) => "PercentFound",
        (Dimension::Power, ..) => "PowerFound",
        (Dimension::Torque, ..) => "TorqueFound",
        (Dimension::Force, ..) => "ForceFound",
        (Dimension::Pressure, _, Unit::Ksi) => "StrengthFound",
        (Dimension::Pressure, ..) => "PressureFound",
        (Dimension::UnitPower, ..) => "UnitPowerFound",
        (Dimension::Time, _, Unit::Second) => "SecondsFound",
        (Dimension::Time, ..) => "TimeFound",
        (Dimension::Mass, ..) => "MassFound",
        (Dimension::Density, ..) => "DensityFound",
        (Dimension::MassPerLength, ..) => "MassPerLengthFound",
        (Dimension::Temperature, ..) => "TemperatureFound",
        (Dimension::Expansion, ..) => "ExpansionFound",
    }
}

/// What the quantities of an answer have, whatever their unit.
fn found_frames() -> [(String, RefOr<Schema>); 2] {
    let shown = ObjectBuilder::new()
        .property("value", number("The number in full."))
        .property("text", words("Rounded as the trade writes it, with the unit."))
        .required("value")
        .required("text")
        .description(Some("What a quantity of an answer has, whatever its unit."));
    let toleranced = ObjectBuilder::new()
        .property("least", number("The least that the inputs' tolerances allow."))
        .property("greatest", number("The greatest that the inputs' tolerances allow."))
        .property(
            "plus_minus",
            referred("Spread", "How the inputs' tolerances spread; only where one has a tolerance."),
        );
    let found = AllOfBuilder::new()
        .item(Ref::from_schema_name("QuantityShown"))
        .item(toleranced)
        .description(Some("What a result has, whatever its unit."));
    [("QuantityShown".into(), shown.into()), ("QuantityFound".into(), found.into())]
}

/// A quantity of an answer: what `frame` has, its unit and perhaps more.
fn with_unit(frame: &str, units: Vec<&'static str>, about: &str, more: &[(&str, Ref)]) -> Schema {
    let unit = ObjectBuilder::new()
        .schema_type(Type::String)
        .description(Some("The unit of the number."))
        .enum_values(Some(units));
    let mut own = ObjectBuilder::new().property("unit", unit).required("unit");
    for (name, of) in more {
        own = own.property(*name, of.clone());
    }
    AllOfBuilder::new().item(Ref::from_schema_name(frame)).item(own).description(Some(about)).into()
}

/// What the schemas of quantities refer to.
fn shared() -> Vec<(String, RefOr<Schema>)> {
    let length = super::kinds::kind::Resolution::ROW.units.iter().map(|unit| unit.spelling()).collect();
    let setting = with_unit(
        "QuantityShown",
        length,
        "A setting of a readout or dial, or what it leaves over, in the unit of its resolution.",
        &[],
    );
    let spread = json!({
        "type": "object",
        "description": "How the tolerances of the inputs spread to a result, in its unit.",
        "required": ["worst_case", "root_sum_square", "most_from", "method"],
        "properties": {
            "worst_case": {
                "type": "object", "description": "All inputs at their worst together.",
                "required": ["minus", "plus"],
                "properties": {
                    "minus": {"type": "number", "minimum": 0, "description": "How far below the value."},
                    "plus": {"type": "number", "minimum": 0, "description": "How far above the value."},
                }
            },
            "root_sum_square": {"type": "number", "description": "The likely spread, either way."},
            "most_from": {"type": "string", "description": "The input that adds most."},
            "method": {"type": "string", "enum": ["derivatives", "corners", "inside"],
                       "description": "Whether slopes were enough, the corners are the worst, or an extreme lies inside the tolerances."},
        }
    });
    let spread = serde_json::from_value(spread).unwrap_or_else(|_| RefOr::T(Schema::default()));
    let mut all = vec![("Setting".into(), setting.into()), ("Spread".into(), spread)];
    all.push(("QuantityStated".into(), stated_frame().into()));
    all.extend(found_frames());
    all
}

impl<K: Kind> PartialSchema for Found<K> {
    fn schema() -> RefOr<Schema> {
        let row = K::ROW;
        let mut units = vec![row.inch.0.spelling()];
        if row.metric.0 != row.inch.0 {
            units.push(row.metric.0.spelling());
        }
        if row.setting == Setting::Never {
            let about = format!("A result: {}.", row.dimension().words());
            return with_unit("QuantityFound", units, &about, &[]).into();
        }
        let more = [
            ("set_to", referred("Setting", "What to set on a readout or dial of the resolution asked for.")),
            ("left_over", referred("Setting", "What that leaves over: the value less the setting.")),
        ];
        with_unit("QuantityFound", units, "A length that is set or read on a machine.", &more).into()
    }
}

impl<K: Kind> ToSchema for Found<K> {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed(found_name(K::ROW))
    }

    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        parts.extend(shared());
    }
}
