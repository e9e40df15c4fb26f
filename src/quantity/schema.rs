//! How quantities stand in the published description: one schema for each kind asked for, one for
//! each way a result is written.

use super::kinds::{Kind, KindRow, Least, Setting};
use super::measure::{Found, Measure};
use super::units::{Dimension, Unit};
use serde_json::json;
use std::borrow::Cow;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{AdditionalProperties, ObjectBuilder, OneOfBuilder, Schema, SchemaType, Type};
use utoipa::{PartialSchema, ToSchema};

/// The unit computed values of a dimension are kept in.
pub(super) fn base_unit(dimension: Dimension, fallback: Unit) -> Unit {
    match dimension {
        Dimension::Length => Unit::Metre,
        Dimension::Angle => Unit::Radian,
        Dimension::Velocity => Unit::MetrePerSecond,
        Dimension::TurningSpeed => Unit::Hertz,
        Dimension::VolumeRate => Unit::CubicMetrePerSecond,
        Dimension::Area => Unit::SquareMetre,
        Dimension::Ratio => Unit::One,
        Dimension::Power => Unit::Watt,
        Dimension::Torque => Unit::NewtonMetre,
        Dimension::Force => Unit::Newton,
        Dimension::Pressure => Unit::Pascal,
        Dimension::Time => Unit::Second,
        Dimension::Mass => Unit::Kilogram,
        // A feed's dimension is a length per turn or tooth, which counts as a length.
        Dimension::FeedPerRev => Unit::MillimetrePerRev,
        Dimension::FeedPerTooth => Unit::MillimetrePerTooth,
        Dimension::Temperature => fallback,
    }
}

/// A pattern that every text of this kind matches and that the reader takes: a number or fraction
/// and one of the kind's units. The reader also takes more (typographic signs, aliases).
pub fn pattern(row: &KindRow) -> String {
    let number = match row.least {
        Least::Any => r"[+-]?[0-9]{1,6}(\.[0-9]{1,9})?",
        _ => r"[0-9]{1,6}(\.[0-9]{1,9})?",
    };
    let units = row.units.iter().map(|unit| unit.row().ascii.replace('.', r"\.")).collect::<Vec<_>>().join("|");
    format!("^{number} ?({units})$")
}

impl<K: Kind> PartialSchema for Measure<K> {
    fn schema() -> RefOr<Schema> {
        let row = K::ROW;
        let units: Vec<&str> = row.units.iter().map(|unit| unit.spelling()).collect();
        let number = text_schema(row);
        let object = ObjectBuilder::new()
            .property("value", ObjectBuilder::new().schema_type(Type::Number).description(Some("The number.")))
            .property(
                "unit",
                ObjectBuilder::new()
                    .schema_type(Type::String)
                    .enum_values(Some(units.clone()))
                    .description(Some("The unit of the number.")),
            )
            .property(
                "plus",
                ObjectBuilder::new()
                    .schema_type(Type::Number)
                    .minimum(Some(0.0))
                    .description(Some("Tolerance above the value, in the same unit.")),
            )
            .property(
                "minus",
                ObjectBuilder::new()
                    .schema_type(Type::Number)
                    .minimum(Some(0.0))
                    .description(Some("Tolerance below the value, as a positive amount.")),
            )
            .required("value")
            .required("unit")
            .description(Some("The same as an object; a quantity of an answer can be sent back as it is."));
        OneOfBuilder::new()
            .item(number)
            .item(object)
            .description(Some(format!("{} Units: {}.", row.about, units.join(", "))))
            .examples([json!(row.example)])
            .into()
    }
}

/// The text form alone, as a query parameter takes it.
fn text_schema(row: &KindRow) -> ObjectBuilder {
    ObjectBuilder::new()
        .schema_type(Type::String)
        .min_length(Some(1))
        .max_length(Some(super::LONGEST))
        .description(Some("A number or fraction and a unit."))
        .examples([json!(row.example)])
}

impl<K: Kind> ToSchema for Measure<K> {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed(K::ROW.name)
    }
}

/// Which of the result schemas a kind uses: those that are set on a machine have two more fields.
fn found_name(row: &KindRow) -> &'static str {
    match (row.dimension(), row.setting) {
        (Dimension::Length, Setting::Never) => "LengthFound",
        (Dimension::Length, _) => "SettingFound",
        (Dimension::Angle, _) => "AngleFound",
        (Dimension::Velocity, _) if row.inch.0 == Unit::InchPerMinute => "FeedRateFound",
        (Dimension::Velocity, _) => "CuttingSpeedFound",
        (Dimension::FeedPerRev, _) => "FeedPerRevFound",
        (Dimension::FeedPerTooth, _) => "FeedPerToothFound",
        (Dimension::TurningSpeed, _) => "SpindleSpeedFound",
        (Dimension::VolumeRate, _) => "VolumeRateFound",
        (Dimension::Area, _) => "AreaFound",
        (Dimension::Ratio, _) => "PercentFound",
        (Dimension::Power, _) => "PowerFound",
        (Dimension::Torque, _) => "TorqueFound",
        (Dimension::Force, _) => "ForceFound",
        (Dimension::Pressure, _) => "PressureFound",
        (Dimension::Time, _) => "TimeFound",
        (Dimension::Mass, _) => "MassFound",
        (Dimension::Temperature, _) => "TemperatureFound",
    }
}

impl<K: Kind> PartialSchema for Found<K> {
    fn schema() -> RefOr<Schema> {
        let row = K::ROW;
        let mut units = vec![row.inch.0.spelling()];
        if row.metric.0 != row.inch.0 {
            units.push(row.metric.0.spelling());
        }
        let plain = |about: &str| {
            ObjectBuilder::new()
                .property(
                    "value",
                    ObjectBuilder::new().schema_type(Type::Number).description(Some("The number in full.")),
                )
                .property(
                    "unit",
                    ObjectBuilder::new()
                        .schema_type(Type::String)
                        .enum_values(Some(units.clone()))
                        .description(Some("The unit of the number.")),
                )
                .property(
                    "text",
                    ObjectBuilder::new()
                        .schema_type(SchemaType::Type(Type::String))
                        .description(Some("Rounded as the trade writes it, with the unit.")),
                )
                .required("value")
                .required("unit")
                .required("text")
                .additional_properties(Some(AdditionalProperties::FreeForm(false)))
                .description(Some(about.to_owned()))
        };
        let plain_with_range = |about: &str| {
            let number =
                |about: &str| ObjectBuilder::new().schema_type(Type::Number).description(Some(about.to_owned()));
            plain(about)
                .property("least", number("The least that the inputs' tolerances allow."))
                .property("greatest", number("The greatest that the inputs' tolerances allow."))
                .property(
                    "plus_minus",
                    ObjectBuilder::new()
                        .schema_type(Type::Object)
                        .description(Some(
                            "How the inputs' tolerances spread: worst_case {minus, plus}, root_sum_square, most_from, \
                             method (derivatives or corners).",
                        ))
                        .additional_properties(Some(AdditionalProperties::FreeForm(true))),
                )
        };
        let example = json!({"value": 1.5, "unit": units[0], "text": format!("1.5{}", row.inch.0.row().suffix)});
        let about = format!("A result: {}.", row.dimension().words());
        if row.setting == Setting::Never {
            return plain_with_range(&about).examples([example]).into();
        }
        plain_with_range("A length that is set or read on a machine.")
            .property("set_to", plain("What to set on a readout or dial of the resolution asked for."))
            .property("left_over", plain("What that leaves over: the value less the setting."))
            .examples([example])
            .into()
    }
}

impl<K: Kind> ToSchema for Found<K> {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed(found_name(K::ROW))
    }
}
