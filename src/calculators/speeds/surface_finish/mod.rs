//! The roughness that a tool's nose leaves by its geometry: height and mean deviation from feed, and the
//! feed for either, by the exact arc and by the usual rule of the shop.

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::working::formula::Symbol;
use uom::si::f64::Length;

mod arc;
mod drawing;

/// The calculator.
pub struct SurfaceFinish;

choice! {
    /// Which formulas to use: `exact`, the height and the mean deviation of the arc itself, or `usual`, the shop's f²/8r and f²/32r.
    FinishMethod {
        /// Of the arc itself.
        Exact = "exact",
        /// As most books and shops reckon.
        Usual = "usual",
    }
}

/// What the surface finish calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct SurfaceFinishInput {
    /// Radius of the tool's nose.
    #[label("Nose radius of the tool")]
    pub nose_radius: Size,
    /// Feed per revolution. Give this, the height from peak to valley or the roughness Ra.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// Height from peak to valley. Give this, the feed per revolution or the roughness Ra.
    #[label("Height, peak to valley")]
    pub theoretical_height: Option<Roughness>,
    /// Roughness Ra, the mean deviation. Give this, the feed per revolution or the height from peak to valley.
    #[label("Roughness Ra")]
    pub roughness_ra: Option<Roughness>,
    /// Which formulas to use: exact or usual.
    #[label("Exact or usual formulas")]
    #[absent("exact", "The arc is calculated exactly; the usual rules give a little less.")]
    pub method: Option<FinishMethod>,
    /// How many times as rough the real surface is as its geometry, 1 or more; the expected Ra needs it.
    #[label("Real over ideal roughness")]
    pub surface_ratio: Option<PlainNumber>,
}

/// What the surface finish calculator gives.
#[derive(Debug, Gives)]
pub struct SurfaceFinishResult {
    /// Feed per revolution.
    #[label("Feed per revolution")]
    pub feed_per_rev: FoundFeedPerRev,
    /// Height from peak to valley.
    #[label("Height, peak to valley")]
    pub theoretical_height: FoundRoughness,
    /// Roughness Ra of the geometry, the mean deviation.
    #[label("Roughness Ra")]
    pub roughness_ra: FoundRoughness,
    /// Roughness Ra to expect of the real surface.
    #[label("Expected roughness Ra")]
    #[needs(surface_ratio)]
    pub expected_ra: Option<FoundRoughness>,
}

fn check(input: &SurfaceFinishInput) -> Result<(), ValidationError> {
    let fields = stated!(input: feed_per_rev = "0.2 mm/rev", theoretical_height = "6.3 um", roughness_ra = "1.6 um");
    let says =
        "Give one of the feed per revolution, the height from peak to valley and the roughness Ra; the others follow.";
    match to_leave_out(&fields) {
        given if given.is_empty() => return Err(rule_broken(Code::FieldMissing, says, &to_give(&fields))),
        given if given.len() > 1 => return Err(rule_broken(Code::Conflict, says, &given)),
        _ => {}
    }
    if input.surface_ratio.is_some_and(|ratio| ratio.get() < 1.0) {
        let says = "A real surface is no smoother than its geometry. Give a ratio of 1 or more.";
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("surface_ratio", "1.25")]));
    }
    Ok(())
}

impl Calculator for SurfaceFinish {
    const ID: &'static str = "speeds/surface-finish";
    const TITLE: &'static str = "Surface finish by feed";
    const ABOUT: &'static str = "The roughness that a rounded tool leaves at a feed, and the feed for a wanted roughness, by \
        geometry.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Compare the surface by eye and fingernail with a roughness specimen of the same process.";
    const WORDS: &'static str = "roughness, Ra, Rt, nose radius, insert, finish, microinch, feed for finish";
    const EXAMPLES: &'static [Example] = examples! {
        "A pump shaft is finished with a 0.8 mm nose at 0.2 mm a turn.":
            nose_radius = "0.8 mm", feed_per_rev = "0.2 mm/rev", surface_ratio = "1.25";
        "What feed gives Ra 1.6 µm on a winch journal with a 0.75 mm nose, by the usual rule?":
            nose_radius = "0.75 mm", roughness_ra = "1.6 um", method = "usual";
        "What feed leaves no more than 250 µin from peak to valley with a 1/32 in nose?":
            nose_radius = "1/32 in", theoretical_height = "250 uin";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A tool with a {nose_radius} nose feeds {feed_per_rev}. By f²/8r, how high are the ridges it leaves?"
            => "theoretical_height":
            { nose_radius = "1/64 in" | "1/32 in" | "3/64 in", feed_per_rev = "0.004 in/rev" | "0.005 in/rev" | "0.006 in/rev",
              method = "usual", units = "inch" }
            { nose_radius = "0.4 mm" | "0.8 mm" | "1.2 mm", feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev" | "0.2 mm/rev",
              method = "usual", units = "metric" };
        2 "A pump journal is to have Ra {roughness_ra}, and the tool has a {nose_radius} nose. By f²/32r, what feed gives \
            that?" => "feed_per_rev":
            { roughness_ra = "32 µin" | "63 µin" | "125 µin", nose_radius = "1/64 in" | "1/32 in" | "3/64 in",
              method = "usual", units = "inch" }
            { roughness_ra = "0.8 µm" | "1.6 µm" | "3.2 µm", nose_radius = "0.4 mm" | "0.8 mm" | "1.2 mm",
              method = "usual", units = "metric" };
        2 "A tool with a {nose_radius} nose finishes a shaft at {feed_per_rev}. By f²/32r, what Ra does that leave?"
            => "roughness_ra":
            { nose_radius = "1/64 in" | "1/32 in" | "3/64 in", feed_per_rev = "0.004 in/rev" | "0.005 in/rev" | "0.006 in/rev",
              method = "usual", units = "inch" }
            { nose_radius = "0.4 mm" | "0.8 mm" | "1.2 mm", feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev" | "0.2 mm/rev",
              method = "usual", units = "metric" };
        3 "In this steel a turned surface comes out {surface_ratio} times as rough as f²/32r says. What Ra do you expect from \
            a {nose_radius} nose at {feed_per_rev}?" => "expected_ra":
            { surface_ratio = "1.25" | "1.5" | "2", nose_radius = "1/64 in" | "1/32 in", feed_per_rev = "0.004 in/rev" | "0.006 in/rev",
              method = "usual", units = "inch" }
            { surface_ratio = "1.25" | "1.5" | "2", nose_radius = "0.4 mm" | "0.8 mm", feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev",
              method = "usual", units = "metric" };
    };
    type Input = SurfaceFinishInput;
    type Output = SurfaceFinishResult;
    const LEADS: &'static [&'static str] = &["feed_per_rev", "roughness_ra"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "arcs of the nose, a feed apart");
        record.caution(cautions::ROUGHNESS);
        let method = input.method(record);
        if method == FinishMethod::Usual {
            record.source("groover_memory", "chapter 24, ideal roughness by f squared over 32 r");
        }
        let feed_per_rev = feed(input, method, record)?;
        let (theoretical_height, roughness_ra) = match input.feed_per_rev {
            Some(stated) => roughness(input.nose_radius, stated, method, record),
            None => roughness(input.nose_radius, feed_per_rev, method, record),
        };
        if input.feed_per_rev.is_some() {
            let step = record.choose("Feed per revolution", "as stated").with("f", "feed_per_rev", feed_per_rev);
            step.gives("feed_per_rev", feed_per_rev);
        }
        let expected_ra = input.surface_ratio.map(|ratio| {
            step!(record, "Ra to expect", Re: expected_ra = Ra * k,
                Ra = roughness_ra, k = surface_ratio: ratio.get())
        });
        Ok(SurfaceFinishResult { feed_per_rev, theoretical_height, roughness_ra, expected_ra })
    }
}

/// Height and mean deviation at a feed, stated or found.
fn roughness(
    nose_radius: Size,
    feed_per_rev: impl Symbol<Value = Length> + Into<Shown> + Copy,
    method: FinishMethod,
    record: &mut Record,
) -> (FoundRoughness, FoundRoughness) {
    const HEIGHT: &str = "Height from peak to valley";
    match method {
        FinishMethod::Exact => {
            let (radius, feed) = (nose_radius.si(), feed_per_rev.symbol().si());
            let height = FoundRoughness::of(SiValue::from_si(arc::height(radius, feed)));
            record
                .step(HEIGHT, "h = r - √(r × r - f × f / 4)")
                .with("r", "nose_radius", nose_radius)
                .with("f", "feed_per_rev", feed_per_rev)
                .gives("theoretical_height", height);
            let mean = arc::tell_mean_deviation((nose_radius, feed_per_rev), record);
            tell_usual((radius, feed), (height, mean), record);
            (height, mean)
        }
        FinishMethod::Usual => (
            step!(record, HEIGHT, h: theoretical_height = squared(f) / (8.0 * r), f = feed_per_rev, r = nose_radius),
            step!(record, arc::MEAN, Ra: roughness_ra = squared(f) / (32.0 * r), f = feed_per_rev, r = nose_radius),
        ),
    }
}

/// Notes how far the rule of the shop lies from the arc.
fn tell_usual((radius, feed): (f64, f64), (height, mean): (FoundRoughness, FoundRoughness), record: &mut Record) {
    let square = feed * feed / radius;
    let off = |usual: f64, exact: FoundRoughness| {
        let percent = text::round(100.0 * (usual / exact.si() - 1.0), 1);
        let way = if percent < 0.0 { "less" } else { "more" };
        format!("{} percent {way}", text::full(percent.abs()))
    };
    record.note(
        "usual_rule",
        format!(
            "The usual rules, f²/8r and f²/32r, replace the arc by a parabola. Here they would give {} height and {} mean \
             deviation.",
            off(square / 8.0, height),
            off(square / 32.0, mean)
        ),
    );
}

/// How high the groove has risen so far from its middle.
fn rise(method: FinishMethod, radius: f64, from_middle: f64) -> f64 {
    let square = from_middle * from_middle;
    match method {
        FinishMethod::Exact => square / (radius + (radius * radius - square).max(0.0).sqrt()),
        FinishMethod::Usual => square / (2.0 * radius),
    }
}

/// The feed, stated or found from a roughness.
fn feed(input: &SurfaceFinishInput, method: FinishMethod, record: &mut Record) -> Result<FoundFeedPerRev, Refusal> {
    let nose_radius = input.nose_radius;
    let radius = nose_radius.si();
    let too_wide = |field: &'static str, try_this: String| {
        let says = "The grooves would be wider than the tool's nose, where its arc ends. Give a smaller value, or a larger nose radius.";
        let wider = value(radius * 4.0, nose_radius.quantity().unit, Way::Up);
        Err(Refusal::no_answer(says, &[(field, try_this), ("nose_radius", wider)]))
    };
    if let Some(feed) = input.feed_per_rev {
        if feed.si() > 2.0 * radius {
            return too_wide("feed_per_rev", value(radius / 4.0, feed.quantity().unit, Way::Down));
        }
        return Ok(feed.found());
    }
    let (what, of, stated) = match (input.theoretical_height, input.roughness_ra) {
        (Some(height), _) => ("Feed for that height", "theoretical_height", height),
        (None, Some(mean)) => ("Feed for that Ra", "roughness_ra", mean),
        (None, None) => return too_wide("feed_per_rev", "0.2 mm/rev".to_owned()),
    };
    let of_height = input.theoretical_height.is_some();
    let finer = value(radius / 20.0, stated.quantity().unit, Way::Down);
    if of_height && stated.si() > radius {
        return too_wide(of, finer);
    }
    let feed: FoundFeedPerRev = match (method, of_height) {
        (FinishMethod::Exact, true) => step!(record, what, f: feed_per_rev = 2.0 * root(h * (2.0 * r - h)),
            h = (of): stated, r = nose_radius),
        (FinishMethod::Usual, true) => step!(record, what, f: feed_per_rev = root(8.0 * r * h),
            h = (of): stated, r = nose_radius),
        (FinishMethod::Exact, false) => match arc::feed_for(radius, stated.si()) {
            Some(feed) => {
                let found = FoundFeedPerRev::of(SiValue::from_si(feed));
                record
                    .look_up(what, "by search: the feed at which the arc has the wanted mean deviation")
                    .with("Ra", of, stated)
                    .with("r", "nose_radius", nose_radius)
                    .gives("feed_per_rev", found);
                found
            }
            None => return too_wide(of, finer),
        },
        (FinishMethod::Usual, false) => step!(record, what, f: feed_per_rev = root(32.0 * r * h),
            h = (of): stated, r = nose_radius),
    };
    if feed.si() > 2.0 * radius { too_wide(of, finer) } else { Ok(feed) }
}
