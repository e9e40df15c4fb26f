//! How a cutter's circle meets a straight cut, and how thick the chip is there: plane geometry. One
//! side of the cut lies at the rim, or its middle lies a stated way off the cutter's axis.

use super::HoldChip;
use crate::calculators::prelude::*;
use crate::working::StepDraft;

/// Where the chip is thickest.
enum Thickest {
    /// Where the tooth crosses the feed squarely.
    Square,
    /// Where the tooth meets the uncut face of a light cut at the rim.
    Rim,
    /// At the side nearer to the axis, this share of the radius off it.
    Side(f64),
}

/// The engagement of one cut.
pub struct Engagement {
    /// Radial depth over diameter, above 0 and up to 1.
    share: f64,
    /// Angle that a tooth turns through while it cuts.
    pub angle: FoundAngle,
    edge: EdgeAngle,
    thickest: Thickest,
}

impl Engagement {
    /// Works out the engagement; records the steps that give `radial_share` and `engagement_angle`.
    pub fn of(
        (radial_depth, diameter): (Size, Size),
        offset: Option<Difference>,
        edge: EdgeAngle,
        record: &mut Record,
    ) -> Self {
        // A full slot stated in two units may come out a hair above 1.
        let share = (radial_depth.get().si() / diameter.get().si()).min(1.0);
        record
            .step("Width of cut as a share of the diameter", "x = ae / D")
            .with("ae", "radial_depth", radial_depth)
            .with("D", "diameter", diameter)
            .gives("radial_share", share);
        if let Some(offset) = offset {
            return Self::off_axis(share, (radial_depth, diameter), offset, edge, record);
        }
        // The half-angle keeps its figures in a light cut, where 1 - 2x does not.
        let degrees = text::tidy((2.0 * share.sqrt().asin()).to_degrees());
        let found = FoundAngle::stated(degrees, Unit::Degree);
        record
            .step("Angle of engagement", "φ = 2 × asin(√(x))")
            .with("x", "radial_share", share)
            .gives("engagement_angle", found);
        let thickest = if share < 0.5 { Thickest::Rim } else { Thickest::Square };
        Self { share, angle: found, edge, thickest }
    }

    fn off_axis(
        share: f64,
        (radial_depth, diameter): (Size, Size),
        offset: Difference,
        edge: EdgeAngle,
        record: &mut Record,
    ) -> Self {
        let (width, across, off) = (radial_depth.get().si(), diameter.get().si(), offset.get().si());
        // A side at the rim may come out a hair beyond it.
        let one = ((2.0 * off - width) / across).clamp(-1.0, 1.0);
        let other = ((2.0 * off + width) / across).clamp(-1.0, 1.0);
        for (what, formula, field, value) in [
            ("One side of the cut from the axis, as a share of the radius", "u1 = (2 × c - ae) / D", "near_side", one),
            ("The other side of the cut from the axis", "u2 = (2 × c + ae) / D", "far_side", other),
        ] {
            record
                .step(what, formula)
                .with("c", "cut_offset", offset)
                .with("ae", "radial_depth", radial_depth)
                .with("D", "diameter", diameter)
                .gives(field, value);
        }
        let found = FoundAngle::stated(text::tidy((other.asin() - one.asin()).to_degrees()), Unit::Degree);
        record
            .step("Angle of engagement", "φ = asin(u2) - asin(u1)")
            .with("u1", "near_side", one)
            .with("u2", "far_side", other)
            .gives("engagement_angle", found);
        let thickest = if one <= 0.0 && other >= 0.0 {
            Thickest::Square
        } else {
            let side = one.abs().min(other.abs());
            record
                .step("Side of the cut nearer to the axis", "u = min(abs(u1), abs(u2))")
                .with("u1", "near_side", one)
                .with("u2", "far_side", other)
                .gives("nearer_side", side);
            Thickest::Side(side)
        };
        Self { share, angle: found, edge, thickest }
    }

    fn sine(&self) -> f64 {
        angle::sin(self.edge.degrees())
    }

    /// The greatest chip for a feed per tooth of one, as a part of that, and how a formula writes it.
    fn greatest(&self) -> (f64, &'static str) {
        let (radial, words) = match self.thickest {
            Thickest::Square => (1.0, "sin(κ)"),
            Thickest::Rim => (2.0 * (self.share * (1.0 - self.share)).sqrt(), "(sin(κ) × 2 × √(x × (1 - x)))"),
            Thickest::Side(u) => ((1.0 - u * u).sqrt(), "(sin(κ) × √(1 - u × u))"),
        };
        (self.sine() * radial, words)
    }

    /// Adds what the words of the greatest chip need.
    fn with_greatest<'r>(&self, step: StepDraft<'r>) -> StepDraft<'r> {
        let step = step.with("κ", "cutting_edge_angle", self.edge);
        match self.thickest {
            Thickest::Square => step,
            Thickest::Rim => step.with("x", "radial_share", self.share),
            Thickest::Side(u) => step.with("u", "nearer_side", u),
        }
    }

    /// The angle of the edge.
    pub fn edge(&self) -> EdgeAngle {
        self.edge
    }

    /// The same in degrees.
    pub fn edge_degrees(&self) -> f64 {
        self.edge.degrees()
    }

    /// By what the edge's angle alone makes the chip thinner than the feed.
    pub fn edge_factor(&self) -> f64 {
        1.0 / self.sine()
    }

    /// By what the feed must be multiplied so that the chip held is as thick as the feed asked for;
    /// none where the greatest chip vanishes.
    pub fn factor_to_hold(&self, hold: HoldChip, record: &mut Record) -> Option<f64> {
        const WHAT: &str = "Factor on the feed that makes the chip as thick as asked";
        let factor = match hold {
            HoldChip::None => return None,
            HoldChip::Greatest => {
                let (part, words) = self.greatest();
                let step = record.step(WHAT, format!("k = 1 / {words}"));
                self.with_greatest(step).gives("chip_factor", 1.0 / part);
                1.0 / part
            }
            HoldChip::Mean => {
                let factor = self.angle.get().si() / (self.sine() * 2.0 * self.share);
                record
                    .step(WHAT, "k = φ / (sin(κ) × 2 × x)")
                    .with("κ", "cutting_edge_angle", self.edge)
                    .with("x", "radial_share", self.share)
                    .with("φ", "engagement_angle", self.angle)
                    .gives("chip_factor", factor);
                factor
            }
        };
        Some(factor)
    }

    /// The mean chip thickness over the engagement; records the step that gives `mean_chip`.
    pub fn mean_chip(&self, feed: FoundFeedPerTooth, record: &mut Record) -> FoundChipThickness {
        step!(record, "Mean chip thickness over the engagement", hm: mean_chip = fz * sin(κ) * 2.0 * x / φ,
            fz = feed_per_tooth: feed, κ = cutting_edge_angle: self.edge, x = radial_share: self.share,
            φ = engagement_angle: self.angle)
    }

    /// The greatest chip thickness; records the step that gives `greatest_chip`.
    pub fn greatest_chip(&self, feed: FoundFeedPerTooth, record: &mut Record) -> FoundChipThickness {
        let (part, words) = self.greatest();
        let chip = FoundChipThickness::of(feed.get() * part);
        let what = match self.thickest {
            Thickest::Square => "Greatest chip thickness, where the tooth crosses the feed squarely",
            Thickest::Rim => "Greatest chip thickness, where the tooth meets the uncut face",
            Thickest::Side(_) => "Greatest chip thickness, at the side nearer to the axis",
        };
        let step = record.step(what, format!("h = fz × {words}")).with("fz", "feed_per_tooth", feed);
        self.with_greatest(step).gives("greatest_chip", chip);
        chip
    }
}
