//! How quantities stand in the published description: one schema for each kind asked for, one for
//! each way a result is written.

use super::kinds::{Kind, KindRow, Setting};
use super::measure::{Found, Measure};
use super::pattern::pattern;
use super::units::{Dimension, Unit};
use serde_json::json;
use std::borrow::Cow;
use utoipa::openapi::schema::{AdditionalProperties, ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// The name of the schema of a kind's text form, which is also what a query takes.
pub(crate) fn text_name(row: &KindRow) -> String {
    format!("{}Text", row.name)
}

/// The name of the schema of a kind's object form.
pub(crate) fn value_name(row: &KindRow) -> String {
    format!("{}Value", row.name)
}

/// The name of the schema of a kind's units, which kinds of one sort share.
fn unit_name(row: &KindRow) -> String {
    match found_name(row).trim_end_matches("Found") {
        _ if row.units.contains(&Unit::ThreadsPerInch) => "PitchUnit".into(),
        "Setting" => "LengthUnit".into(),
        sort => format!("{sort}Unit"),
    }
}

fn units(row: &KindRow) -> String {
    row.units.iter().map(|unit| unit.spelling()).collect::<Vec<_>>().join(", ")
}

/// The text form.
fn text_schema(row: &KindRow) -> Schema {
    ObjectBuilder::new()
        .schema_type(Type::String)
        .pattern(Some(pattern(row)))
        .description(Some(format!(
            "{} Written as a number and a unit: {}. {}Several separated by |, or a range such as 1..3 step 1 mm, give a table.",
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

/// The object form.
fn value_schema(row: &KindRow) -> Schema {
    let number = |about: &str| ObjectBuilder::new().schema_type(Type::Number).description(Some(about.to_owned()));
    let ignored = |of: Type, about: &str| ObjectBuilder::new().schema_type(of).description(Some(about.to_owned()));
    let (example, unit) = (row.example.split_once(' ')).unwrap_or((row.example, row.inch.0.row().ascii));
    let spelling = Unit::named(unit).map_or(unit, Unit::spelling);
    let mut object = ObjectBuilder::new()
        .property("value", number("The number."))
        .property("unit", referred(&unit_name(row), "The unit of the number."))
        .property("plus", number("Tolerance above the value, in the same unit.").minimum(Some(0.0)))
        .property("minus", number("Tolerance below the value, as a positive amount.").minimum(Some(0.0)))
        .property("plus_minus", referred("Spread", "As an answer has it: its worst case is taken as the tolerance."))
        .property("least", number("As an answer has it; not read."))
        .property("greatest", number("As an answer has it; not read."))
        .property("text", ignored(Type::String, "As an answer has it; not read."))
        .property("name", ignored(Type::String, "As an answer has it; not read."))
        .required("value")
        .required("unit")
        .additional_properties(Some(AdditionalProperties::FreeForm(false)))
        .description(Some(format!("{} As an object: a quantity of an answer can be sent back as it is.", row.about)))
        .examples([json!({"value": example.parse::<f64>().unwrap_or(1.0), "unit": spelling})]);
    if row.dimension() == Dimension::Length {
        for name in ["set_to", "left_over"] {
            object = object.property(name, referred("Setting", "As an answer has it; not read."));
        }
    }
    object.into()
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
            forms = forms.item(ObjectBuilder::new().schema_type(Type::Number).description(Some(says)));
        }
        forms.description(Some(format!("{} Units: {}.", row.about, units(row)))).examples([json!(row.example)]).into()
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
        (Dimension::Pressure, ..) => "PressureFound",
        (Dimension::UnitPower, ..) => "UnitPowerFound",
        (Dimension::Time, _, Unit::Second) => "SecondsFound",
        (Dimension::Time, ..) => "TimeFound",
        (Dimension::Mass, ..) => "MassFound",
        (Dimension::Temperature, ..) => "TemperatureFound",
    }
}

/// A value, its unit and its text: what every quantity of an answer has.
fn plain(units: Vec<&'static str>, about: &str) -> ObjectBuilder {
    let text = |about: &str| ObjectBuilder::new().schema_type(Type::String).description(Some(about.to_owned()));
    ObjectBuilder::new()
        .property("value", ObjectBuilder::new().schema_type(Type::Number).description(Some("The number in full.")))
        .property("unit", text("The unit of the number.").enum_values(Some(units)))
        .property("text", text("Rounded as the trade writes it, with the unit."))
        .required("value")
        .required("unit")
        .required("text")
        .additional_properties(Some(AdditionalProperties::FreeForm(false)))
        .description(Some(about.to_owned()))
}

/// What the results' schemas refer to.
fn shared() -> [(String, RefOr<Schema>); 2] {
    let length = super::kinds::kind::Resolution::ROW.units.iter().map(|unit| unit.spelling()).collect();
    let setting =
        plain(length, "A setting of a readout or dial, or what it leaves over, in the unit of its resolution.");
    let spread = json!({
        "type": "object",
        "description": "How the tolerances of the inputs spread to a result, in its unit.",
        "required": ["worst_case", "root_sum_square", "most_from", "method"],
        "additionalProperties": false,
        "properties": {
            "worst_case": {
                "type": "object", "description": "All inputs at their worst together.",
                "required": ["minus", "plus"], "additionalProperties": false,
                "properties": {
                    "minus": {"type": "number", "description": "How far below the value."},
                    "plus": {"type": "number", "description": "How far above the value."},
                }
            },
            "root_sum_square": {"type": "number", "description": "The likely spread, either way."},
            "most_from": {"type": "string", "description": "The input that adds most."},
            "method": {"type": "string", "enum": ["derivatives", "corners", "inside"],
                       "description": "Whether slopes were enough, the corners are the worst, or an extreme lies inside the tolerances."},
        }
    });
    let spread = serde_json::from_value(spread).unwrap_or_else(|_| RefOr::T(Schema::default()));
    [("Setting".into(), setting.into()), ("Spread".into(), spread)]
}

impl<K: Kind> PartialSchema for Found<K> {
    fn schema() -> RefOr<Schema> {
        let row = K::ROW;
        let mut units = vec![row.inch.0.spelling()];
        if row.metric.0 != row.inch.0 {
            units.push(row.metric.0.spelling());
        }
        let number = |about: &str| ObjectBuilder::new().schema_type(Type::Number).description(Some(about.to_owned()));
        let example = json!({"value": 1.5, "unit": units[0], "text": format!("1.5{}", row.inch.0.row().suffix)});
        let about = match row.setting {
            Setting::Never => format!("A result: {}.", row.dimension().words()),
            _ => "A length that is set or read on a machine.".to_owned(),
        };
        let found = plain(units, &about)
            .property("least", number("The least that the inputs' tolerances allow."))
            .property("greatest", number("The greatest that the inputs' tolerances allow."))
            .property(
                "plus_minus",
                referred("Spread", "How the inputs' tolerances spread; only where one has a tolerance."),
            );
        if row.setting == Setting::Never {
            return found.examples([example]).into();
        }
        found
            .property("set_to", referred("Setting", "What to set on a readout or dial of the resolution asked for."))
            .property("left_over", referred("Setting", "What that leaves over: the value less the setting."))
            .examples([example])
            .into()
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
