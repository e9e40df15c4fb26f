//! How a cutter's circle meets a straight cut whose one side lies at its rim, and how thick the
//! chip is there: plane geometry.

use super::HoldChip;
use crate::quantity::{EdgeAngle, FoundAngle, FoundChipThickness, FoundFeedPerTooth, SiValue, Size, Unit, angle, text};
use crate::working::Record;

/// The engagement of one cut.
pub struct Engagement {
    /// Radial depth over diameter, above 0 and up to 1.
    share: f64,
    /// Angle that a tooth turns through while it cuts.
    pub angle: FoundAngle,
    edge: EdgeAngle,
}

impl Engagement {
    /// Works out the engagement; records the steps that give `radial_share` and `engagement_angle`.
    pub fn of(radial_depth: &Size, diameter: &Size, edge: EdgeAngle, record: &mut Record) -> Self {
        // A full slot stated in two units may come out a hair above 1.
        let share = (radial_depth.get().si() / diameter.get().si()).min(1.0);
        record
            .step("Radial depth as a share of the diameter", "x = ae / D")
            .with("ae", "radial_depth", *radial_depth)
            .with("D", "diameter", *diameter)
            .gives("radial_share", share);
        // The half-angle keeps its figures in a light cut, where 1 - 2x does not.
        let degrees = text::tidy((2.0 * share.sqrt().asin()).to_degrees());
        let found = FoundAngle::stated(degrees, Unit::Degree);
        record
            .step("Angle of engagement", "φ = 2 × asin(√(x))")
            .with("x", "radial_share", share)
            .gives("engagement_angle", found);
        Self { share, angle: found, edge }
    }

    fn sine(&self) -> f64 {
        angle::sin(self.edge.degrees())
    }

    fn is_light(&self) -> bool {
        self.share < 0.5
    }

    /// The greatest chip for a feed per tooth of one, as a part of that.
    fn greatest(&self) -> f64 {
        let radial = if self.is_light() { 2.0 * (self.share * (1.0 - self.share)).sqrt() } else { 1.0 };
        self.sine() * radial
    }

    /// The mean chip for a feed per tooth of one, as a part of that.
    fn mean(&self) -> f64 {
        self.sine() * 2.0 * self.share / self.angle.get().si()
    }

    /// By what the feed must be multiplied so that the chip held is as thick as the feed asked for.
    pub fn factor_to_hold(&self, hold: HoldChip, record: &mut Record) -> Option<f64> {
        let (factor, formula) = match hold {
            HoldChip::None => return None,
            HoldChip::Greatest if self.is_light() => (1.0 / self.greatest(), "k = 1 / (sin(κ) × 2 × √(x × (1 - x)))"),
            HoldChip::Greatest => (1.0 / self.greatest(), "k = 1 / sin(κ)"),
            HoldChip::Mean => (1.0 / self.mean(), "k = φ / (sin(κ) × 2 × x)"),
        };
        let mut step = record.step("Factor on the feed that makes the chip as thick as asked", formula).with(
            "κ",
            "cutting_edge_angle",
            self.edge,
        );
        if formula.contains('x') {
            step = step.with("x", "radial_share", self.share);
        }
        if formula.contains('φ') {
            step = step.with("φ", "engagement_angle", self.angle);
        }
        step.gives("chip_factor", factor);
        Some(factor)
    }

    /// The mean chip thickness over the engagement; records the step that gives `mean_chip`.
    pub fn mean_chip(&self, feed: FoundFeedPerTooth, record: &mut Record) -> FoundChipThickness {
        let chip = FoundChipThickness::of(feed.get() * self.mean());
        record
            .step("Mean chip thickness over the engagement", "hm = fz × sin(κ) × 2 × x / φ")
            .with("fz", "feed_per_tooth", feed)
            .with("κ", "cutting_edge_angle", self.edge)
            .with("x", "radial_share", self.share)
            .with("φ", "engagement_angle", self.angle)
            .gives("mean_chip", chip);
        chip
    }

    /// The greatest chip thickness; records the step that gives `greatest_chip`.
    pub fn greatest_chip(&self, feed: FoundFeedPerTooth, record: &mut Record) -> FoundChipThickness {
        let chip = FoundChipThickness::of(feed.get() * self.greatest());
        let (what, formula) = if self.is_light() {
            ("Greatest chip thickness, where the tooth meets the uncut face", "h = fz × sin(κ) × 2 × √(x × (1 - x))")
        } else {
            ("Greatest chip thickness, where the tooth crosses the feed squarely", "h = fz × sin(κ)")
        };
        let mut step =
            record.step(what, formula).with("fz", "feed_per_tooth", feed).with("κ", "cutting_edge_angle", self.edge);
        if self.is_light() {
            step = step.with("x", "radial_share", self.share);
        }
        step.gives("greatest_chip", chip);
        chip
    }
}
