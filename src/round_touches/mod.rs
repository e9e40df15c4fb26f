//! The circle that touches round a bore or a boss lie on: what is asked, its steps, how sure its center is, and its
//! drawing; for every calculator that is given such touches.

mod drawing;
mod hold;
mod steps;

pub use drawing::draw_touches;

use crate::arithmetic::circle_fit::{Circle, Xy, fit, through};
use crate::arithmetic::touching::{Feature, across, metres};
use crate::declared::{Asks, Gives, HasUnit, step};
use crate::fields::Points;
use crate::quantity::{
    Extent, Found, FoundAngle, FoundDifference, FoundExtent, FoundSize, SiValue, Size, System, TINY, Unit,
};
use crate::refusal::{Code, Refusal, Wrong};
use crate::rules;
use crate::suggestion::{Way, value};
use crate::working::Record;
use hold::find_hold;
use steps::{Seen, prove_fit, prove_pair, prove_through};

/// Touches round a bore or a boss.
#[derive(Clone, Debug, Asks)]
pub struct RoundTouches {
    /// X and Y of the tip's center at each touch; three touches or more, best spread all round.
    #[label("Touches", "touch")]
    pub points: Points,
    /// Diameter of the tip; 0 if absent, for points on the wall itself.
    #[label("Tip diameter")]
    #[absent(
        "0",
        like = points,
        "The points are assumed to lie on the wall itself. The center is right with any tip; the diameter needs the \
         tip's."
    )]
    pub tip_diameter: Option<Extent>,
    /// What was touched: a bore, from inside, or a boss, from outside; needed with a tip diameter.
    #[label("Bore or boss")]
    pub feature: Option<Feature>,
    /// How far a touch may be off, as one standard deviation.
    #[label("Error of one touch")]
    #[absent(
        "0.0005 in or 0.01 mm", value = self.usual_error(),
        "A careful touch repeats to about this. Touch one face a few times to see what yours does."
    )]
    pub touch_error: Option<Size>,
}

/// What touches tell of a circle beside its center.
#[derive(Clone, Debug, Gives)]
pub struct RoundFound {
    /// Diameter of the bore or boss.
    pub diameter: FoundSize,
    /// How far each touch lies from the circle found, outside positive, in the order given; all 0 for three touches.
    #[label("Off the circle", "off the circle, touch")]
    pub residuals: Vec<FoundDifference>,
    /// Spread of the touches in and out of the circle; absent for three touches, which always fit a circle.
    #[label("Out of round by")]
    pub out_of_round: Option<FoundExtent>,
    /// How far the error of the touches moves the center in its worst direction, as one standard deviation.
    #[label("Center may be off by")]
    pub center_uncertainty: FoundExtent,
    /// The arc that the touches span: a full turn less the widest gap between neighbors.
    #[label("Arc touched")]
    pub arc_angle: FoundAngle,
    /// How far that arc of the tip's path rises over its chord: the smaller the rise, the less sure the center.
    #[label("Rise of that arc")]
    pub arc_height: FoundExtent,
}

/// Touches that make a circle.
pub const ROUND: &str = "1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in";

rules! { pub(crate) check_enough(RoundTouches) {
    never(|input| input.points.0.len() < 3, Code::ValueOutOfRange, points = ROUND):
        "Give three touches or more; fewer do not make a circle.";
} }

rules! { pub(crate) check_feature(RoundTouches) {
    never(|input| across(input.tip_diameter) > 0.0 && input.feature.is_none(), Code::Conflict,
        feature = "bore", tip_diameter = "leave out"):
        "Say what was touched, a bore from inside or a boss from outside: with a tip diameter the size depends on it.";
} }

impl RoundTouches {
    fn usual_error(&self) -> Size {
        match self.points.unit().system() {
            Some(System::Metric) => Size::stated(0.01, Unit::Millimetre),
            _ => Size::stated(0.0005, Unit::Inch),
        }
    }

    fn metres(&self) -> Vec<Xy> {
        self.points.0.iter().map(metres).collect()
    }

    /// The circle of three touches or more.
    pub fn find_circle(&self, record: &mut Record) -> Result<(Circle, RoundFound), Refusal> {
        let touches = &self.points.0;
        let points = self.metres();
        let exact = <[Xy; 3]>::try_from(points.as_slice()).ok();
        let circle = exact.map_or_else(|| fit(&points), |points| Ok(through(points)))?;
        let circle = circle.filter(|c| points.iter().all(|p| (p.0 - c.x).hypot(p.1 - c.y) >= TINY)).ok_or_else(flat)?;
        record.look_up("Number of touches", "how many are given").gives("count", points.len() as f64);
        let seen = if exact.is_some() {
            record.source("geometry", "circle through three points: the place equally far from all of them");
            prove_through(touches, circle, record)
        } else {
            record.source("circle_fit", "geometric fit: least sum of squares of the distances from the circle");
            prove_fit(touches, circle, record)
        };
        if exact.is_some() {
            record.note(
                "nothing_checks",
                "Any three touches fit a circle, so nothing checks them: a slip in one moves the center unseen. Touch \
                 at a fourth place.",
            );
        }
        let path = FoundExtent::of_si(circle.r);
        let residuals = find_residuals(&seen, path, exact.is_some(), record);
        let out_of_round = exact.is_none().then(|| find_form(&residuals, record));
        let tip = self.tip_diameter(record);
        let diameter = find_diameter(self.feature, tip, path, record)?;
        let error = self.touch_error(record);
        let (center_uncertainty, arc_angle, arc_height) =
            find_hold(&seen, path, error, false, record).ok_or_else(flat)?;
        if let Some(worst) = worst_of(&residuals, error) {
            record.note(
                "touch_off_circle",
                format!(
                    "Touch {worst} is off the circle by more than three times the error of one touch. Touch there \
                     again; if it repeats, the work is not round."
                ),
            );
        }
        Ok((circle, RoundFound { diameter, residuals, out_of_round, center_uncertainty, arc_angle, arc_height }))
    }

    /// The two circles of a known radius through two touches: that with its center left of the way from the first
    /// touch to the second, and the center right of it.
    pub fn find_pair(&self, radius: Size, record: &mut Record) -> Result<(Circle, Xy, RoundFound), Refusal> {
        let points = self.metres();
        let tip = self.tip_diameter(record);
        record.look_up("Number of touches", "how many are given").gives("count", points.len() as f64);
        record.source(
            "geometry",
            "right triangle of half the chord, the radius and the center's distance from the chord",
        );
        let path = find_path(self.feature, tip, radius, record)?;
        let [a, b] = [points[0], points[1]];
        let chord = (b.0 - a.0).hypot(b.1 - a.1);
        if chord < TINY {
            let says = "Both touches are in one place. Touch the circle again farther round.";
            return Err(Refusal::no_answer(says, &[("points", "1 in,0 in;0 in,1 in".into())]));
        }
        let (half, r) = (chord / 2.0, path.get().si());
        if r < half * (1.0 + 1e-9) {
            let says = "The touches lie as far apart as the circle is wide, or farther: no center is sure. Check the \
                radius, or touch at a third place and leave the radius out.";
            let tip = across(self.tip_diameter) / 2.0;
            let least = match self.feature {
                Some(Feature::Bore) => half + tip,
                Some(Feature::Boss) => (half - tip).max(half * 0.01),
                None => half,
            };
            let wider = value(1.05 * least, radius.quantity().unit, Way::Up);
            return Err(Refusal::no_answer(says, &[("radius", wider)]));
        }
        let (circle, other, seen) = prove_pair(&self.points.0, path, record);
        let residuals = find_residuals(&seen, path, true, record);
        let diameter: FoundSize = step!(record, "Diameter", D: diameter = 2.0 * R, R = radius);
        let error = self.touch_error(record);
        let (center_uncertainty, arc_angle, arc_height) =
            find_hold(&seen, path, error, true, record).ok_or_else(flat)?;
        let found = RoundFound { diameter, residuals, out_of_round: None, center_uncertainty, arc_angle, arc_height };
        Ok((circle, other, found))
    }
}

fn flat() -> Refusal {
    let says = "The touches lie on a straight line or nearly, or in fewer than three places, so no circle goes \
        through them. Touch farther round.";
    Refusal::no_answer(says, &[("points", ROUND.into())])
}

fn find_residuals(seen: &Seen, path: FoundExtent, exact: bool, record: &mut Record) -> Vec<FoundDifference> {
    let left_over = |d: &FoundExtent| if exact { 0.0 } else { d.get().si() - path.get().si() };
    let residuals: Vec<FoundDifference> = seen.distances.iter().map(|d| Found::of_si(left_over(d))).collect();
    record
        .step("How far each touch lies outside the circle", "e = d - R")
        .with("d", "distances", seen.distances.clone())
        .with("R", "path_radius", path)
        .gives("residuals", residuals.clone());
    residuals
}

fn find_path(feature: Option<Feature>, tip: Extent, radius: Size, record: &mut Record) -> Result<FoundExtent, Refusal> {
    let path: FoundExtent = match feature {
        Some(Feature::Bore) => step!(record, "Radius of the circle that the tip's center ran on",
            P: path_radius = R - d / 2.0, R = radius, d = tip_diameter: tip),
        Some(Feature::Boss) => step!(record, "Radius of the circle that the tip's center ran on",
            P: path_radius = R + d / 2.0, R = radius, d = tip_diameter: tip),
        None => step!(record, "Radius of the circle that the points lie on", P: path_radius = R, R = radius),
    };
    if path.get().si() < TINY {
        let says = "The tip fills the bore. Give a tip smaller than the bore.";
        let smaller = value(radius.get().si(), tip.quantity().unit, Way::Down);
        return Err(Refusal(vec![Wrong::new("tip_diameter", Code::Conflict, says, smaller)]));
    }
    Ok(path)
}

fn find_form(residuals: &[FoundDifference], record: &mut Record) -> FoundExtent {
    let si = || residuals.iter().map(|residual| residual.get().si());
    let form = FoundExtent::of_si(si().fold(f64::NEG_INFINITY, f64::max) - si().fold(f64::INFINITY, f64::min));
    record
        .step("Out of round", "f = greatest(e) - least(e)")
        .with("e", "residuals", residuals.to_vec())
        .gives("out_of_round", form);
    form
}

fn find_diameter(
    feature: Option<Feature>,
    tip: Extent,
    path: FoundExtent,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    let diameter: FoundSize = match feature {
        Some(Feature::Bore) => step!(record, "Diameter",
            D: diameter = 2.0 * R + d, R = path_radius: path, d = tip_diameter: tip),
        Some(Feature::Boss) => step!(record, "Diameter",
            D: diameter = 2.0 * R - d, R = path_radius: path, d = tip_diameter: tip),
        None => step!(record, "Diameter", D: diameter = 2.0 * R, R = path_radius: path),
    };
    if diameter.get().si() < TINY {
        let says = "The tip is as large as the circle its center ran on, which leaves no boss. Check the tip, and \
         whether it is a bore.";
        let smaller = value(path.get().si(), tip.quantity().unit, Way::Down);
        return Err(Refusal(vec![
            Wrong::new("tip_diameter", Code::Conflict, says, smaller),
            Wrong::new("feature", Code::Conflict, says, "bore"),
        ]));
    }
    Ok(diameter)
}

/// The number of the touch that lies farthest off, if it lies beyond three errors.
fn worst_of(residuals: &[FoundDifference], error: Size) -> Option<usize> {
    let size = |residual: &FoundDifference| residual.get().si().abs();
    let (at, worst) = residuals.iter().enumerate().max_by(|a, b| size(a.1).total_cmp(&size(b.1)))?;
    (size(worst) > 3.0 * error.get().si()).then_some(at + 1)
}
