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
    /// By which formulas: `exact`, the height and the mean deviation of the arc itself, or `usual`, the shop's f²/8r and f²/32r.
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
    pub nose_radius: Size,
    /// Feed per turn; one of the three is given.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Height from peak to valley; one of the three is given.
    pub theoretical_height: Option<Roughness>,
    /// Mean deviation Ra; one of the three is given.
    pub roughness_ra: Option<Roughness>,
    /// By which formulas: exact or usual.
    #[absent("exact", "The arc is reckoned exactly; the usual rules give a little less.")]
    pub method: Option<FinishMethod>,
    /// How much rougher the real surface is than its geometry, from 1 up; not reckoned with if absent.
    pub surface_ratio: Option<PlainNumber>,
}

/// What the surface finish calculator gives.
#[derive(Debug, Gives)]
pub struct SurfaceFinishResult {
    /// Feed per turn.
    pub feed_per_rev: FoundFeedPerRev,
    /// Height from peak to valley.
    pub theoretical_height: FoundRoughness,
    /// Mean deviation Ra of the geometry.
    pub roughness_ra: FoundRoughness,
    /// Ra to expect of the real surface.
    #[needs(surface_ratio)]
    pub expected_ra: Option<FoundRoughness>,
}

fn check(input: &SurfaceFinishInput) -> Result<(), ValidationError> {
    let fields = stated!(input: feed_per_rev = "0.2 mm/rev", theoretical_height = "6.3 um", roughness_ra = "1.6 um");
    let says = "Give one of feed_per_rev, theoretical_height and roughness_ra; the others follow.";
    match to_leave_out(&fields) {
        given if given.is_empty() => return Err(rule_broken(Code::FieldMissing, says, &to_give(&fields))),
        given if given.len() > 1 => return Err(rule_broken(Code::Conflict, says, &given)),
        _ => {}
    }
    if input.surface_ratio.is_some_and(|ratio| ratio.get() < 1.0) {
        let says = "A real surface is no smoother than its geometry: the ratio is 1 or more.";
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
            let step = record.choose("Feed per turn", "as stated").with("f", "feed_per_rev", feed_per_rev);
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
            "Here the usual rule, f²/8r and f²/32r, which takes the arc for a parabola, would give a height of {} and a mean \
             deviation of {}.",
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
        let says = "The grooves would be wider than the nose: there the geometry of its arc ends.";
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
                    .look_up(what, "by search: the feed at which the mean deviation of the arc is the one wanted")
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
