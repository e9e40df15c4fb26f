//! What every blend gives beside its center and its tangent points: its angle, what is measured across it, and where
//! the cutter stands.

use super::{BlendSide, FilletArc, FilletInput};
use crate::arithmetic::plane::ReadoutPoint;
use crate::calculators::prelude::*;

/// An arc that touches both, in meters.
#[derive(Clone, Debug)]
pub struct Blend {
    pub lies: String,
    pub center: (f64, f64),
    pub first: (f64, f64),
    pub second: (f64, f64),
    /// In degrees, where a step has given it.
    pub arc_angle: Option<f64>,
    pub to_tangents: Option<FoundExtent>,
    pub to_arc: Option<FoundExtent>,
}

impl Blend {
    /// One that touches a circle.
    pub fn round(lies: String, center: (f64, f64), first: (f64, f64), second: (f64, f64)) -> Self {
        Self { lies, center, first, second, arc_angle: None, to_tangents: None, to_arc: None }
    }

    /// The angle between the radii to the tangent points, in degrees.
    pub fn arc_degrees(&self) -> f64 {
        let from = |to: (f64, f64)| (to.0 - self.center.0, to.1 - self.center.1);
        let (p, q) = (from(self.first), from(self.second));
        let between = 2.0 * (p.0 - q.0).hypot(p.1 - q.1).atan2((p.0 + q.0).hypot(p.1 + q.1)).to_degrees();
        self.arc_angle.unwrap_or(between)
    }

    fn across(&self) -> f64 {
        (self.second.0 - self.first.0).hypot(self.second.1 - self.first.1)
    }
}

/// The arcs as they are given, and the radius of the cutter's way.
pub fn tell(
    input: &FilletInput,
    blends: Vec<Blend>,
    record: &mut Record,
) -> Result<(Vec<FilletArc>, Option<FoundExtent>), Refusal> {
    record
        .look_up("Where each arc lies", "by the sides on which it touches")
        .gives("fillets.lies", column(&blends, |blend| blend.lies.clone()));
    let place = |of: fn(&Blend) -> f64| column(&blends, move |blend| FoundPlace::of_si(of(blend)));
    record
        .step("From tangent point to tangent point", "t = √((c - a)^2 + (d - b)^2)")
        .with("a", "fillets.first.x", place(|blend| blend.first.0))
        .with("b", "fillets.first.y", place(|blend| blend.first.1))
        .with("c", "fillets.second.x", place(|blend| blend.second.0))
        .with("d", "fillets.second.y", place(|blend| blend.second.1))
        .gives("fillets.across", column(&blends, |blend| FoundExtent::of_si(blend.across())));
    if blends.iter().any(|blend| blend.arc_angle.is_none()) {
        record
            .look_up("Angle of the arc", "between the directions from its center to the two tangent points")
            .gives("fillets.arc_angle", column(&blends, |blend| FoundAngle::stated(blend.arc_degrees(), Unit::Degree)));
    }
    let path = find_path(input, record);
    let cutter = |blend: &Blend, touch: (f64, f64)| {
        let by = path?.si() / input.radius.si();
        let (x, y) = blend.center;
        Some(ReadoutPoint::of((x + (touch.0 - x) * by, y + (touch.1 - y) * by)))
    };
    let fillets: Vec<FilletArc> = blends
        .iter()
        .map(|blend| FilletArc {
            lies: blend.lies.clone(),
            center: ReadoutPoint::of(blend.center),
            first: ReadoutPoint::of(blend.first),
            second: ReadoutPoint::of(blend.second),
            across: Found::of_si(blend.across()),
            arc_angle: FoundAngle::stated(blend.arc_degrees(), Unit::Degree),
            to_tangents: blend.to_tangents,
            to_arc: blend.to_arc,
            first_cutter: cutter(blend, blend.first),
            second_cutter: cutter(blend, blend.second),
        })
        .collect();
    if let Some(path) = path {
        prove_cutter(input, &fillets, path, record);
    }
    Ok((fillets, path))
}

fn find_path(input: &FilletInput, record: &mut Record) -> Option<FoundExtent> {
    let cutter = input.cutter_diameter?;
    let path: FoundExtent = match input.side? {
        BlendSide::Inside => step!(record, "Radius of the way of the cutter's center",
            P: cutter_path_radius = not_negative(r - d / 2.0), r = radius: input.radius, d = cutter_diameter: cutter),
        BlendSide::Outside => step!(record, "Radius of the way of the cutter's center",
            P: cutter_path_radius = r + d / 2.0, r = radius: input.radius, d = cutter_diameter: cutter),
    };
    if path.si() <= TINY {
        record.note(
            "cutter_fills",
            "The cutter is as large as the arc, so it leaves it standing still at the center. It will chatter; a smaller \
             cutter that moves round cuts cleaner.",
        );
    }
    Some(path)
}

/// An end of the arcs: its name, the names of its tangent point and of the cutter's place there, and both.
type End = (&'static str, [&'static str; 2], [&'static str; 2], fn(&FilletArc) -> (ReadoutPoint, Option<ReadoutPoint>));

fn prove_cutter(input: &FilletInput, fillets: &[FilletArc], path: FoundExtent, record: &mut Record) {
    let ends: [End; 2] = [
        (
            "first",
            ["fillets.first.x", "fillets.first.y"],
            ["fillets.first_cutter.x", "fillets.first_cutter.y"],
            |arc| (arc.first, arc.first_cutter),
        ),
        (
            "second",
            ["fillets.second.x", "fillets.second.y"],
            ["fillets.second_cutter.x", "fillets.second_cutter.y"],
            |arc| (arc.second, arc.second_cutter),
        ),
    ];
    for (name, touch, of, ends) in ends {
        for on in [0, 1] {
            let at = |point: ReadoutPoint| [point.x, point.y][on];
            record
                .step(
                    format!("Cutter's center at the {name} tangent point, on {}", ["X", "Y"][on]),
                    "k = x + (z - x) × P / r",
                )
                .with("x", ["fillets.center.x", "fillets.center.y"][on], column(fillets, |arc| at(arc.center)))
                .with("z", touch[on], column(fillets, |arc| at(ends(arc).0)))
                .with("P", "cutter_path_radius", path)
                .with("r", "radius", input.radius)
                .gives(of[on], column(fillets, |arc| ends(arc).1.map(at)));
        }
    }
}
