//! The roughness that a tool's nose leaves by its geometry: height and mean deviation from feed, and the
//! feed for either, by the exact arc and by the usual rule of the shop.

mod drawing;

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::fields::PlainNumber;
use crate::quantity::{FeedPerRev, FoundFeedPerRev, FoundRoughness, Roughness, SiValue, Size};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct SurfaceFinish;

crate::choice! {
    /// By which formulas: `exact`, the arc's height and the mean deviation of its parabola, or `usual`, the shop's f²/8r and f²/32r.
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
    /// By which formulas: exact or usual; exact if absent.
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
    /// Ra to expect of the real surface; needs surface_ratio.
    pub expected_ra: Option<FoundRoughness>,
}

fn check(input: &SurfaceFinishInput) -> Result<(), ValidationError> {
    let given = [
        ("feed_per_rev", "0.2 mm/rev", input.feed_per_rev.is_some()),
        ("theoretical_height", "6.3 um", input.theoretical_height.is_some()),
        ("roughness_ra", "1.6 um", input.roughness_ra.is_some()),
    ];
    let count = given.iter().filter(|(_, _, given)| *given).count();
    if count != 1 {
        let says = "Give one of feed_per_rev, theoretical_height and roughness_ra; the others follow.";
        let code = if count == 0 { Code::FieldMissing } else { Code::Conflict };
        let ways: Vec<(&'static str, &str)> = given
            .iter()
            .filter(|(_, _, given)| *given == (count > 1))
            .map(|(field, value, _)| (*field, if count > 1 { "leave out" } else { value }))
            .collect();
        return Err(rule_broken(code, says, &ways));
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
    const WORDS: &'static [&'static str] =
        &["roughness", "Ra", "Rt", "nose radius", "insert", "finish", "microinch", "feed for finish"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A pump shaft is finished with a 0.8 mm nose at 0.2 mm a turn.",
            fields: &[("nose_radius", "0.8 mm"), ("feed_per_rev", "0.2 mm/rev"), ("surface_ratio", "1.25")],
        },
        Example {
            says: "What feed gives Ra 1.6 µm on a winch journal with a 0.75 mm nose, by the usual rule?",
            fields: &[("nose_radius", "0.75 mm"), ("roughness_ra", "1.6 um"), ("method", "usual")],
        },
        Example {
            says: "What feed leaves no more than 250 µin from peak to valley with a 1/32 in nose?",
            fields: &[("nose_radius", "1/32 in"), ("theoretical_height", "250 uin")],
        },
    ];
    type Input = SurfaceFinishInput;
    type Output = SurfaceFinishResult;
    const LEADS: &'static [&'static str] = &["feed_per_rev", "roughness_ra"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "arcs of the nose, a feed apart");
        record.caution(cautions::ROUGHNESS);
        let method = record.or_assume(
            input.method,
            "method",
            FinishMethod::Exact,
            "The arc is reckoned exactly; the usual rules give a little less.",
        );
        if method == FinishMethod::Usual {
            record.source("groover_memory", "chapter 24, ideal roughness by f squared over 32 r");
        }
        let radius = input.nose_radius.get().si();
        let (of, feed) = feed(input, method, record)?;
        let shown = feed;
        let f = feed.get().si();
        let theoretical_height = FoundRoughness::of(SiValue::from_si(rise(method, radius, f / 2.0)));
        let formula = match method {
            FinishMethod::Exact => "h = f ^ 2 / (4 × (r + √(r ^ 2 - f ^ 2 / 4)))",
            FinishMethod::Usual => "h = f ^ 2 / (8 × r)",
        };
        let step = record.step("Height from peak to valley", formula);
        let step = match input.feed_per_rev {
            Some(stated) => step.with("f", of, stated),
            None => step.with("f", of, shown),
        };
        step.with("r", "nose_radius", input.nose_radius).gives("theoretical_height", theoretical_height);
        let mean = match method {
            FinishMethod::Exact => f * f / (18.0 * 3f64.sqrt() * radius),
            FinishMethod::Usual => f * f / (32.0 * radius),
        };
        let roughness_ra = FoundRoughness::of(SiValue::from_si(mean));
        let formula = match method {
            FinishMethod::Exact => "Ra = f ^ 2 / (18 × √(3) × r)",
            FinishMethod::Usual => "Ra = f ^ 2 / (32 × r)",
        };
        let step = record.step("Mean deviation Ra", formula);
        let step = match input.feed_per_rev {
            Some(stated) => step.with("f", of, stated),
            None => step.with("f", of, shown),
        };
        step.with("r", "nose_radius", input.nose_radius).gives("roughness_ra", roughness_ra);
        if input.feed_per_rev.is_some() {
            record.choose("Feed per turn", "as stated").with("f", "feed_per_rev", feed).gives("feed_per_rev", feed);
        }
        let expected_ra = input.surface_ratio.map(|ratio| {
            let expected = FoundRoughness::of(roughness_ra.get() * ratio.get());
            record
                .step("Ra to expect", "Re = Ra × k")
                .with("Ra", "roughness_ra", roughness_ra)
                .with("k", "surface_ratio", ratio.get())
                .gives("expected_ra", expected);
            expected
        });
        Ok(SurfaceFinishResult { feed_per_rev: feed, theoretical_height, roughness_ra, expected_ra })
    }
}

/// How high the groove has risen so far from its middle.
fn rise(method: FinishMethod, radius: f64, from_middle: f64) -> f64 {
    let square = from_middle * from_middle;
    match method {
        FinishMethod::Exact => square / (radius + (radius * radius - square).max(0.0).sqrt()),
        FinishMethod::Usual => square / (2.0 * radius),
    }
}

/// The feed, stated or found from a roughness, and the field or step that it comes from.
fn feed(
    input: &SurfaceFinishInput,
    method: FinishMethod,
    record: &mut Record,
) -> Result<(&'static str, FoundFeedPerRev), Refusal> {
    let radius = input.nose_radius.get().si();
    let widest = |field: &'static str, value: String| {
        let says = "The grooves would be wider than the nose: there the geometry of its arc ends.";
        Err(Refusal::no_answer(says, &[(field, value), ("nose_radius", wider(&input.nose_radius))]))
    };
    if let Some(feed) = input.feed_per_rev {
        let f = feed.get().si();
        if f > 2.0 * radius {
            let unit = feed.quantity().unit;
            return widest("feed_per_rev", crate::suggestion::value(radius / 4.0, unit, crate::suggestion::Way::Down));
        }
        return Ok(("feed_per_rev", feed.found()));
    }
    let (what, square, formula, of, stated) = match (input.theoretical_height, input.roughness_ra, method) {
        (Some(height), _, FinishMethod::Exact) => {
            let h = height.get().si();
            (
                "Feed for that height",
                4.0 * h * (2.0 * radius - h),
                "f = 2 × √(h × (2 × r - h))",
                "theoretical_height",
                height,
            )
        }
        (Some(height), _, FinishMethod::Usual) => {
            ("Feed for that height", 8.0 * radius * height.get().si(), "f = √(8 × r × h)", "theoretical_height", height)
        }
        (None, Some(mean), FinishMethod::Exact) => (
            "Feed for that Ra",
            18.0 * 3f64.sqrt() * radius * mean.get().si(),
            "f = √(18 × √(3) × r × h)",
            "roughness_ra",
            mean,
        ),
        (None, Some(mean), FinishMethod::Usual) => {
            ("Feed for that Ra", 32.0 * radius * mean.get().si(), "f = √(32 × r × h)", "roughness_ra", mean)
        }
        (None, None, _) => return widest("feed_per_rev", "0.2 mm/rev".to_owned()),
    };
    let too_high = of == "theoretical_height" && stated.get().si() > radius;
    if too_high || square > 4.0 * radius * radius {
        let unit = stated.quantity().unit;
        return widest(of, crate::suggestion::value(radius / 20.0, unit, crate::suggestion::Way::Down));
    }
    let found = FoundFeedPerRev::of(SiValue::from_si(square.sqrt()));
    record
        .step(what, formula)
        .with("h", of, stated)
        .with("r", "nose_radius", input.nose_radius)
        .gives("feed_per_rev", found);
    Ok(("feed_per_rev", found))
}

fn wider(radius: &Size) -> String {
    let quantity = radius.quantity();
    crate::suggestion::value(quantity.si() * 4.0, quantity.unit, crate::suggestion::Way::Up)
}
