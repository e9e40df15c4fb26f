//! Speed and feed of a tool that feeds by the turn: drilling, reaming, turning, boring,
//! countersinking. A quill's feeds are steps a turn, a table's steps a minute; both are taken.

use super::{
    CutDiameter, Feeds, Limit, Spindle, Toward, WantedSpeed, as_stated, cutting_speed_at, exact_speed, fall, to_try,
};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{
    FeedPerRev, FeedRate, FoundCuttingSpeed, FoundFeedPerRev, FoundFeedRate, FoundPercentage, FoundSpindleSpeed, Kind,
    Quantity, SiValue, Unit, kind, pattern::pattern_of, shown, text, value_name,
};
use crate::refusal::{Code, Refusal, Unread, carry, rule_broken};
use crate::tree::{IntoTree, Node};
use crate::working::{Record, Shown};
use serde::de::{Deserialize, Deserializer, Error, IgnoredAny, MapAccess, Visitor};
use std::borrow::Cow;
use std::fmt;
use utoipa::openapi::schema::{ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};
use validator::ValidationError;

/// One step of a feed gear, a turn or a minute.
#[derive(Clone, Copy, Debug)]
pub enum FeedStep {
    /// A feed per turn.
    PerRev(FeedPerRev),
    /// A feed per minute.
    PerMinute(FeedRate),
}

impl FeedStep {
    fn read(text: &str) -> Result<Self, Unread> {
        match FeedRate::read(text) {
            Ok(rate) => Ok(Self::PerMinute(rate)),
            Err(_) => FeedPerRev::read(text).map(Self::PerRev),
        }
    }

    fn quantity(&self) -> Quantity {
        match self {
            Self::PerRev(feed) => feed.quantity(),
            Self::PerMinute(rate) => rate.quantity(),
        }
    }
}

struct StepVisitor;

impl<'de> Visitor<'de> for StepVisitor {
    type Value = FeedStep;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a feed such as \"0.1 mm/rev\" or \"100 mm/min\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<FeedStep, E> {
        FeedStep::read(text).map_err(carry)
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<FeedStep, E> {
        self.visit_str(&text::full(value))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<FeedStep, A::Error> {
        let (mut value, mut unit) = (None, String::new());
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "value" => value = Some(map.next_value::<f64>()?),
                "unit" => unit = map.next_value::<String>()?,
                // An answer's quantity can be sent back as it is.
                "text" => {
                    map.next_value::<IgnoredAny>()?;
                }
                other => {
                    let says = format!("\"{}\" is no part of a feed step; it has value and unit.", shown(other));
                    let example = "0.1 mm/rev".into();
                    return Err(carry(Unread { code: Code::ValueUnreadable, says, try_this: example }));
                }
            }
        }
        self.visit_str(&format!("{} {unit}", value.map(text::full).unwrap_or_default()))
    }
}

impl<'de> Deserialize<'de> for FeedStep {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(StepVisitor)
    }
}

impl IntoTree for FeedStep {
    fn tree(&self) -> Option<Node> {
        Some(self.quantity().into())
    }
}

/// The name of the schema of the text form, by which an answer's description knows a quantity.
const TEXT: &str = "FeedStepText";

impl FieldType for FeedStep {
    const TYPE: TypeFacts =
        TypeFacts::named::<Self>(Shape::QuantityOrName(None)).with_text(|| Ref::from_schema_name(TEXT).into());
}

impl PartialSchema for FeedStep {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(Ref::from_schema_name(TEXT))
            .item(Ref::from_schema_name(value_name(kind::FeedPerRev::ROW)))
            .item(Ref::from_schema_name(value_name(kind::FeedRate::ROW)))
            .description(Some("A step of the machine's feed, a turn (`0.1 mm/rev`) or a minute (`100 mm/min`)."))
            .into()
    }
}

impl ToSchema for FeedStep {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("FeedStep")
    }

    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        let text = ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(pattern_of(&[kind::FeedPerRev::ROW, kind::FeedRate::ROW])))
            .description(Some("A step of the machine's feed, a turn (`0.1 mm/rev`) or a minute (`100 mm/min`)."))
            .examples([serde_json::json!("0.1 mm/rev"), serde_json::json!("100 mm/min")]);
        parts.push((TEXT.to_owned(), text.into()));
        FeedPerRev::schemas(parts);
        FeedRate::schemas(parts);
    }
}

/// A cut that feeds by the turn, on the machine as a request states it.
pub struct TurnCut<'a> {
    /// The cutting speed wanted.
    pub wanted: WantedSpeed,
    /// The diameter at which it counts.
    pub across: CutDiameter,
    /// The feed wanted, and the field or step it comes from.
    pub feed: (&'static str, FeedPerRev),
    /// The spindle's speeds.
    pub spindle: Spindle<'a>,
    /// The fastest feed.
    pub fastest_feed: Option<FeedRate>,
    /// The feeds that the machine has.
    pub available_feeds: Option<&'a [FeedStep]>,
}

/// What is set.
#[derive(Clone, Debug)]
pub struct TurnSet {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// The exact speed.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn.
    pub feed_per_rev: FoundFeedPerRev,
    /// What does not allow the exact speed or the feed asked for.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
    /// What the limits were held against.
    pub held: Vec<(&'static str, &'static str, Shown)>,
}

/// Refuses limits that leave no speed or no feed.
pub fn check_turn(
    spindle: &Spindle,
    fastest_feed: Option<&FeedRate>,
    feeds: Option<&[FeedStep]>,
) -> Result<(), ValidationError> {
    spindle.check()?;
    let Some(feeds) = feeds else { return Ok(()) };
    let rates: Vec<FeedRate> = feeds.iter().filter_map(rate).collect();
    if feeds.is_empty() || (!rates.is_empty() && rates.len() < feeds.len()) {
        return Err(rule_broken(
            Code::Conflict,
            "available_feeds lists the machine's feeds, all a turn or all a minute.",
            &[("available_feeds", "0.1 mm/rev,0.2 mm/rev")],
        ));
    }
    if rates.is_empty() { Ok(()) } else { Feeds::of(fastest_feed.copied(), Some(&rates)).check() }
}

fn rate(step: &FeedStep) -> Option<FeedRate> {
    match step {
        FeedStep::PerMinute(rate) => Some(*rate),
        FeedStep::PerRev(_) => None,
    }
}

impl TurnCut<'_> {
    /// Chooses speed and feed; records the steps that give `exact_speed`, `spindle_speed`,
    /// `cutting_speed`, `feed_rate`, `feed_per_rev`, `speed_fall` and `feed_fall`.
    pub fn set(&self, record: &mut Record) -> Result<TurnSet, Refusal> {
        let exact = exact_speed(self.wanted, self.across, record)?;
        let chosen = self.spindle.choose(exact, record);
        let spindle_speed = chosen
            .speed
            .ok_or_else(|| self.spindle.no_speed((exact, chosen.above), &self.wanted.speed, self.across))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), self.across, record);
        let (of, asked) = self.feed;
        let rates = self.rates(spindle_speed, record);
        let feeds = Feeds { list_of: rates.0, ..Feeds::of(self.fastest_feed, rates.1.as_deref()) };
        let name = feeds.wanted_field();
        let wanted = FoundFeedRate::of(asked.get() * spindle_speed.get());
        record
            .step("Feed rate for that feed per turn", "vf = f × n")
            .with("f", of, asked)
            .with("n", "spindle_speed", spindle_speed)
            .gives(name, wanted);
        let feed = feeds.choose(wanted, record);
        let feed_rate = feed.rate.ok_or_else(|| self.no_feed(wanted))?;
        let unit = asked.quantity().unit;
        let per_rev: uom::si::f64::Length = feed_rate.get() / spindle_speed.get();
        let feed_per_rev = FoundFeedPerRev::stated(unit.of_si(per_rev.si()), unit);
        record
            .step("Feed per turn at that feed rate", "f = vf / n")
            .with("vf", "feed_rate", feed_rate)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_per_rev", feed_per_rev);
        let mut limited_by = chosen.limited_by;
        let mut held = vec![("n", "exact_speed", exact.into())];
        let share = 1.0 - (spindle_speed.get() / exact.get()).si();
        let speed_fall =
            fall("speed_fall", ("exact_speed", exact.into()), ("spindle_speed", spindle_speed.into()), share, record);
        let mut feed_fall = None;
        if !feed.limited_by.is_empty() {
            held.push(("v", name, wanted.into()));
            limited_by.extend(feed.limited_by);
            let share = 1.0 - (feed_rate.get() / wanted.get()).si();
            feed_fall = fall("feed_fall", (name, wanted.into()), ("feed_rate", feed_rate.into()), share, record);
        }
        Ok(TurnSet {
            spindle_speed,
            exact_speed: exact,
            cutting_speed,
            feed_rate,
            feed_per_rev,
            limited_by,
            speed_fall,
            feed_fall,
            held,
        })
    }

    /// The machine's feeds as rates at the spindle's speed, and the field or step they come from.
    fn rates(&self, speed: FoundSpindleSpeed, record: &mut Record) -> (&'static str, Option<Vec<FeedRate>>) {
        let Some(steps) = self.available_feeds else { return ("available_feeds", None) };
        let own: Vec<FeedRate> = steps.iter().filter_map(rate).collect();
        if own.len() == steps.len() {
            return ("available_feeds", Some(own));
        }
        let rates: Vec<FeedRate> = steps
            .iter()
            .map(|step| {
                let rate = step.quantity().si() * speed.get().si();
                FeedRate::stated(Unit::MillimetrePerMinute.of_si(rate), Unit::MillimetrePerMinute)
            })
            .collect();
        record
            .step("The machine's feeds at that speed", "vf = f × n")
            .with("f", "available_feeds", Shown::StatedList(steps.iter().map(FeedStep::quantity).collect()))
            .with("n", "spindle_speed", speed)
            .gives("available_feed_rates", Shown::Quantities(rates.iter().map(|rate| rate.quantity()).collect()));
        ("available_feed_rates", Some(rates))
    }

    /// Not even the slowest feed will do.
    fn no_feed(&self, wanted: FoundFeedRate) -> Refusal {
        let says = "The slowest feed of the machine is above the one asked for, and may be too much for the tool.";
        let slowest = self
            .available_feeds
            .unwrap_or_default()
            .iter()
            .min_by(|a, b| a.quantity().si().total_cmp(&b.quantity().si()));
        let mut ways = Vec::with_capacity(2);
        match slowest {
            Some(FeedStep::PerRev(step)) => ways.push(("feed_per_rev", as_stated(step))),
            Some(FeedStep::PerMinute(step)) => {
                let finer = to_try::<kind::FeedRate>(wanted.get().si(), step.quantity().unit, Toward::Less);
                if let Some(finer) = finer {
                    ways.push(("available_feeds", format!("{finer},{}", as_stated(step))));
                }
            }
            None => {}
        }
        if ways.is_empty() {
            ways.push(("available_feeds", "leave out".to_owned()));
        }
        Refusal::no_answer(says, &ways)
    }
}

/// A share of a cutting speed, as a step that gives `of`.
pub fn reduced_speed(
    wanted: WantedSpeed,
    (share_of, share): (&'static str, FoundPercentage),
    of: &'static str,
    record: &mut Record,
) -> WantedSpeed {
    let unit = wanted.speed.quantity().unit;
    let speed = crate::quantity::CuttingSpeed::stated(
        text::tidy(wanted.speed.quantity().value * (1.0 - share.get().si())),
        unit,
    );
    record
        .step("Cutting speed after the reduction", "Vr = V × (1 - r)")
        .with("V", wanted.of, wanted.speed)
        .with("r", share_of, share)
        .gives(of, speed);
    WantedSpeed { of, speed }
}
