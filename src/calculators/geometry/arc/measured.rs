//! An arc as it is measured on a part: three points along it, or a gauge whose legs stand on it and whose rod shows the
//! rise between them. Either gives the radius and the central angle.

use super::ArcSizes;
use super::angle;
use crate::arithmetic::directions::angle_of;
use crate::arithmetic::touching::{Pair, take};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

choice! {
    /// What the gauge stands on: `two` legs or a straightedge, or `three` legs at equal distances, as for a ball.
    Legs {
        /// Two legs, or a straightedge.
        Two = "two",
        /// Three legs at equal distances.
        Three = "three",
    }
}

choice! {
    /// How the work curves under the gauge: `raised` in the middle, as a rim or a ball, or `hollow`, as a bore or a bowl.
    Surface {
        /// Raised in the middle.
        Raised = "raised",
        /// Hollow.
        Hollow = "hollow",
    }
}

/// A gauge with legs and a rod between them that reads zero on a flat.
#[derive(Clone, Copy, Debug, Asks)]
pub struct LegGauge {
    /// Distance from leg to leg of the gauge, or the length of the straightedge from end to end; needs the rise.
    #[label("Gauge, leg to leg")]
    pub leg_spacing: Option<Size>,
    /// How far the rod between the legs moves from where it stands on a flat.
    #[label("Gauge, rise or depth")]
    pub rise: Option<Size>,
    /// How many legs the gauge has: two, or three at equal distances.
    #[label("Gauge, legs")]
    #[absent("two", "The gauge is assumed to have two legs, with the rod halfway between them.")]
    pub legs: Option<Legs>,
    /// Radius of the ball or round tip of a leg; it matters with the way the work curves.
    #[label("Gauge, radius of a tip")]
    #[absent("0", like = rise, "The legs are assumed to end in points.")]
    pub leg_tip_radius: Option<Extent>,
    /// How the work curves under the gauge: raised in the middle or hollow; needed with round tips.
    #[label("Work under the gauge")]
    pub surface: Option<Surface>,
}

impl LegGauge {
    /// Whether anything of it is given.
    pub fn is_given(&self) -> bool {
        let Self { leg_spacing, rise, legs, leg_tip_radius, surface } = self;
        leg_spacing.is_some() || rise.is_some() || legs.is_some() || leg_tip_radius.is_some() || surface.is_some()
    }

    fn tip(&self) -> f64 {
        self.leg_tip_radius.map_or(0.0, |tip| tip.si())
    }
}

rules! { pub check_gauge(LegGauge) {
    never(|gauge| gauge.is_given() && gauge.leg_spacing.is_none(), Code::FieldMissing, leg_spacing = "2 in"):
        "Give the distance from leg to leg of the gauge too.";
    needs(leg_spacing => rise = "0.05 in"): "Give how far the rod moves from where it stands on a flat too.";
    never(|gauge| gauge.tip() > 0.0 && gauge.surface.is_none(), Code::FieldMissing, surface = "raised"):
        "Say whether the work is raised or hollow under the gauge: with round tips the radius depends on it.";
} }

/// Radius and angle of the arc between the legs.
pub fn by_gauge(gauge: &LegGauge, record: &mut Record) -> Result<ArcSizes, Refusal> {
    let (Some(spacing), Some(rise)) = (gauge.leg_spacing, gauge.rise) else { return Ok(ArcSizes::default()) };
    let legs = gauge.legs(record);
    let tip = gauge.leg_tip_radius(record);
    let arm: FoundSize = match legs {
        Legs::Two => {
            step!(record, "From the rod to a leg, two legs", a: "gauge.arm" = s / 2.0, s = leg_spacing: spacing)
        }
        Legs::Three => {
            step!(record, "From the rod to a leg, three legs", a: "gauge.arm" = s / root(3.0), s = leg_spacing: spacing)
        }
    };
    if rise.si() > arm.si() {
        let says =
            "The rod cannot rise by more than its distance from a leg: then the work would be past half a circle.";
        return Err(Refusal(vec![
            Wrong::new("rise", Code::Conflict, says, value(0.2 * arm.si(), rise.quantity().unit, Way::Down)),
            Wrong::new("leg_spacing", Code::Conflict, says, value(4.0 * rise.si(), spacing.quantity().unit, Way::Up)),
        ]));
    }
    let centers: FoundSize = step!(record, "Radius through the middles of the tips",
        q: "gauge.centers" = squared(a) / (2.0 * h) + h / 2.0, a = "gauge.arm": arm, h = rise);
    let radius = match gauge.surface {
        Some(Surface::Raised) if centers.si() - tip.si() < TINY => {
            let says =
                "The tips are as large as the circle itself. Check their radius, and whether the work is hollow.";
            return Err(Refusal(vec![
                Wrong::new(
                    "leg_tip_radius",
                    Code::Conflict,
                    says,
                    value(0.2 * centers.si(), tip.quantity().unit, Way::Down),
                ),
                Wrong::new("surface", Code::Conflict, says, "hollow"),
            ]));
        }
        Some(Surface::Raised) => step!(record, "Radius of the raised work", r: radius = q - t,
            q = "gauge.centers": centers, t = leg_tip_radius: tip),
        _ => {
            step!(record, "Radius of the work", r: radius = q + t, q = "gauge.centers": centers, t = leg_tip_radius: tip)
        }
    };
    let radius: FoundSize = radius;
    let degrees = text::tidy(4.0 * (rise.si() / arm.si()).atan().to_degrees());
    let step = record.step("Angle between the legs", "θ = 4 × atan(h / a)").with("h", "rise", rise);
    step.with("a", "gauge.arm", arm).gives("angle", FoundArcAngle::stated(degrees, Unit::Degree));
    record.note(
        "zero_on_a_flat",
        "Set the rod to zero on a surface plate first, and hold the gauge square to the axis; on a ball it needs no aim.",
    );
    if (rise.get() / spacing.get()).value < 0.05 {
        record.note(
            "shallow_height",
            "The rise is small beside the gauge: a rise off by one percent puts the radius off by one percent too. \
             Use a gauge with the legs farther apart, or read the rise finer.",
        );
    }
    Ok(radius_and_angle(radius, degrees))
}

fn radius_and_angle(radius: FoundSize, degrees: f64) -> ArcSizes {
    let radius = Size::stated(radius.quantity().value, radius.quantity().unit);
    ArcSizes { radius: Some(radius), angle: Some(ArcAngle::stated(degrees, Unit::Degree)), ..ArcSizes::default() }
}

/// Refuses all but three points.
pub fn check_points(points: Option<&Points>) -> Result<(), ValidationError> {
    match points {
        Some(points) if points.0.len() != 3 => {
            let says = "Give three points along the arc: one end, a point between, the other end.";
            Err(rule_broken(Code::ValueOutOfRange, says, &[("points", "0 in,0 in;1 in,0.5 in;2 in,0 in")]))
        }
        _ => Ok(()),
    }
}

/// Radius and angle of the arc from the first point through the second to the third.
pub fn by_points(points: &Points, record: &mut Record) -> Result<ArcSizes, Refusal> {
    let names = [["point_1.x", "point_1.y"], ["point_2.x", "point_2.y"], ["point_3.x", "point_3.y"]];
    let of = ["points.x", "points.y"];
    let [a, b, c] = [0, 1, 2].map(|at| take(&points.0, at, of, names[at], record));
    let mut leg =
        |what: &'static str, from: &Pair<Place>, to: &Pair<Place>, of: [&'static str; 2]| -> [FoundPlace; 2] {
            [0, 1].map(
            |on| step!(record, what, p: (of[on]) = b - a, a = (from.of[on]): from.on[on], b = (to.of[on]): to.on[on]),
        )
        };
    let [p, q] = leg("From the first point to the second", &a, &b, ["leg_1.x", "leg_1.y"]);
    let [s, t] = leg("From the second point to the third", &b, &c, ["leg_2.x", "leg_2.y"]);
    let along = p.si() * s.si() + q.si() * t.si();
    let across = (p.si() * t.si() - q.si() * s.si()).abs();
    let lengths = p.si().hypot(q.si()) * s.si().hypot(t.si());
    let whole = (p.si() + s.si()).hypot(q.si() + t.si());
    // As flat as a circle of ten thousand times the spread, or points in one place.
    if across.is_nan() || across * 1e4 <= lengths || whole <= 1e-9 * lengths.sqrt() {
        let says =
            "The three points lie on a straight line or nearly, or two are in one place, so no arc goes through them.";
        return Err(Refusal::no_answer(says, &[("points", "0 in,0 in;1 in,0.5 in;2 in,0 in".into())]));
    }
    let (turn, formula) = angle_of(along, across);
    let square = |value: f64| FoundArea::stated(Unit::SquareMillimetre.of_si(value), Unit::SquareMillimetre);
    let pairs = [("p", "leg_1.x", p), ("q", "leg_1.y", q), ("s", "leg_2.x", s), ("t", "leg_2.y", t)];
    let mut product = |what: &'static str, formula: &'static str, of: &'static str, value: f64| {
        let step = record.step(what, formula);
        pairs.iter().fold(step, |step, (symbol, of, place)| step.with(symbol, of, *place)).gives(of, square(value));
    };
    product("The second leg along the first, times its length", "u = p × s + q × t", "turn.along", along);
    product("The second leg across the first, times its length", "v = abs(p × t - q × s)", "turn.across", across);
    let step = record.step("Turn from the first leg to the second", formula).with("u", "turn.along", square(along));
    step.with("v", "turn.across", square(across)).gives("turn", FoundAngle::stated(turn, Unit::Degree));
    let degrees = text::tidy(2.0 * turn);
    let step = record.step("Central angle, twice that turn", "θ = 2 × α").with(
        "α",
        "turn",
        FoundAngle::stated(turn, Unit::Degree),
    );
    step.gives("angle", FoundArcAngle::stated(degrees, Unit::Degree));
    let radius = FoundSize::of_si(whole / angle::chord(degrees));
    let step = record.step("Radius", "r = √((p + s)^2 + (q + t)^2) / (2 × sin(θ / 2))");
    let step = pairs.iter().fold(step, |step, (symbol, of, place)| step.with(symbol, of, *place));
    step.with("θ", "angle", FoundArcAngle::stated(degrees, Unit::Degree)).gives("radius", radius);
    record.note(
        "nothing_checks",
        "Any three points fit an arc, so nothing checks them. Measure a fourth, or measure again with the middle point \
         elsewhere.",
    );
    Ok(radius_and_angle(radius, degrees))
}
