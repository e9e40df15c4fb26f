//! Slopes and arcs in steps: the cut surface traced from the places of the answer stands off the
//! profile by no more than the ridge it promises, and never cuts in.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

type Plane = (f64, f64);

fn answer(query: &str) -> Result<Value, Refusal> {
    asked(find("datum/stepped-profile").expect("the calculator"), query)
}

fn solved(query: &str) -> Value {
    answer(query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"))
}

/// The same where a name hides the function.
fn asked_again(query: &str) -> Result<Value, Refusal> {
    answer(query)
}

fn number(answer: &Value, pointer: &str) -> f64 {
    let at = answer["result"].pointer(pointer).unwrap_or_else(|| panic!("nothing at {pointer}"));
    at["value"].as_f64().or(at.as_f64()).expect("a number")
}

fn places(answer: &Value) -> Vec<Plane> {
    let count = answer["result"]["points"].as_array().expect("points").len();
    (0..count)
        .map(|at| (number(answer, &format!("/points/{at}/x")), number(answer, &format!("/points/{at}/y"))))
        .collect()
}

/// A profile built here on its own: for an arc the center is found from the two ends by turning.
#[derive(Clone, Copy, Debug)]
struct Case {
    from: Plane,
    to: Plane,
    arc: Option<(f64, bool)>,
    left: bool,
    flat: bool,
    diameter: f64,
}

impl Case {
    fn query(&self, rest: &str) -> String {
        let arc = self.arc.map(|(radius, counter)| {
            format!("&radius={radius} mm&sense={}", if counter { "counterclockwise" } else { "clockwise" })
        });
        format!(
            "from={} mm,{} mm&to={} mm,{} mm{}&cutter={}&diameter={} mm&side={}&{rest}&working=false",
            self.from.0,
            self.from.1,
            self.to.0,
            self.to.1,
            arc.unwrap_or_default(),
            if self.flat { "flat" } else { "ball" },
            self.diameter,
            if self.left { "left" } else { "right" },
        )
    }

    /// The point a part of the way along, and the direction towards the cutter there.
    fn at(&self, part: f64) -> (Plane, Plane) {
        let (dx, dy) = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        let chord = dx.hypot(dy);
        let side = if self.left { 1.0 } else { -1.0 };
        let Some((radius, counter)) = self.arc else {
            let point = (self.from.0 + part * dx, self.from.1 + part * dy);
            return (point, (-side * dy / chord, side * dx / chord));
        };
        let turn = if counter { 1.0 } else { -1.0 };
        // The direction at the start leaves the chord by half the angle turned through.
        let half = (chord / 2.0 / radius).min(1.0).asin();
        let heading = dy.atan2(dx) - turn * half + turn * 2.0 * half * part;
        let start = dy.atan2(dx) - turn * half;
        // Along an arc the place is the sum of headings: their sines and cosines integrated.
        let point = (
            self.from.0 + turn * radius * (heading.sin() - start.sin()),
            self.from.1 - turn * radius * (heading.cos() - start.cos()),
        );
        (point, (-side * heading.sin(), side * heading.cos()))
    }

    /// How far along the direction towards the cutter a cut is met; less than zero where the cut goes in.
    fn met(&self, (point, out): (Plane, Plane), place: Plane) -> Option<f64> {
        let half = self.diameter / 2.0;
        let (x, y) = (point.0 - place.0, point.1 - place.1);
        let (enter, leave) = if self.flat {
            // One way for the whole profile: at the end of a quarter round the direction has no Y but rounding.
            let body = if self.at(0.5).1.1 >= 0.0 { 1.0 } else { -1.0 };
            let mut span = (f64::NEG_INFINITY, f64::INFINITY);
            for (speed, room) in [(out.0, x + half), (-out.0, half - x), (body * out.1, body * y)] {
                if speed.abs() < 1e-12 {
                    if room < -1e-9 {
                        return None;
                    }
                } else if speed > 0.0 {
                    span.0 = span.0.max(-room / speed);
                } else {
                    span.1 = span.1.min(-room / speed);
                }
            }
            span
        } else {
            let along = x * out.0 + y * out.1;
            let under = half * half - (x * x + y * y - along * along);
            if under < 0.0 {
                return None;
            }
            (-along - under.sqrt(), -along + under.sqrt())
        };
        (enter <= leave + 1e-9 && leave > 0.0).then_some(enter)
    }

    /// Least and greatest height left by cuts at the places.
    fn traced(&self, places: &[Plane]) -> (f64, f64) {
        let steps = places.len() - 1;
        let (mut least, mut greatest) = (f64::INFINITY, 0.0f64);
        for sample in 0..=steps * 40 {
            let foot = self.at(sample as f64 / (steps * 40) as f64);
            let near = sample / 40;
            let cuts = &places[near.saturating_sub(3)..(near + 4).min(places.len())];
            let height = cuts.iter().filter_map(|place| self.met(foot, *place)).fold(f64::INFINITY, f64::min);
            least = least.min(height);
            greatest = greatest.max(height);
        }
        (least, greatest)
    }
}

fn any_case() -> impl Strategy<Value = Case> {
    let place = || (-60.0f64..60.0, -60.0f64..60.0);
    let arc = proptest::option::of((1.0001f64..6.0, any::<bool>()));
    (place(), place(), arc, any::<bool>(), any::<bool>(), 2.0f64..25.0).prop_map(
        |(from, to, arc, left, flat, diameter)| {
            let chord = (to.0 - from.0).hypot(to.1 - from.1);
            Case { from, to, arc: arc.map(|(wide, counter)| (chord / 2.0 * wide, counter)), left, flat, diameter }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, max_global_rejects: 20_000, ..ProptestConfig::default() })]

    #[test]
    fn ridges_are_as_high_as_promised_and_nothing_is_cut_into(case in any_case(), step in 0.3f64..3.0) {
        let chord = (case.to.0 - case.from.0).hypot(case.to.1 - case.from.1);
        prop_assume!(chord > 4.0 * step);
        let Ok(answer) = answer(&case.query(&format!("step={step} mm"))) else {
            return Err(TestCaseError::reject("no such profile"));
        };
        let places = places(&answer);
        prop_assert_eq!(places.len() as f64, number(&answer, "/steps") + 1.0);
        prop_assert!(number(&answer, "/step") <= step * (1.0 + 1e-8));
        let cusp = number(&answer, "/cusp");
        let (least, greatest) = case.traced(&places);
        prop_assert!(least > -1e-6, "{case:?} cut in by {least}");
        prop_assert!(greatest <= cusp + 1e-6, "{case:?}: {greatest} left, {cusp} promised");
        prop_assert!(greatest >= 0.93 * cusp - 1e-6, "{case:?}: {greatest} left, {cusp} promised");
    }

    #[test]
    fn a_corner_is_cut_as_by_its_points_and_nothing_beside_it_is_cut_into(
        (x, y) in (-60.0f64..60.0, -60.0f64..60.0), right in any::<bool>(), up in any::<bool>(), inside in any::<bool>(),
        size in 2.0f64..12.0, lean in proptest::option::of(10.0f64..80.0), flat in any::<bool>(), diameter in 1.0f64..20.0,
    ) {
        let named = format!("{}_{}", if up { "upper" } else { "lower" }, if right { "right" } else { "left" });
        let (kind, cutter) = (if inside { "inside" } else { "outside" }, if flat { "flat" } else { "ball" });
        let what = match lean {
            Some(lean) => format!("chamfer={size} mm&chamfer_angle={lean} deg"),
            None => format!("radius={size} mm"),
        };
        let query = format!(
            "corner_at={named}&corner_kind={kind}&corner_point={x} mm,{y} mm&{what}&cutter={cutter}&diameter={diameter} mm\
             &step=0.4 mm&working=false"
        );
        let Ok(by_corner) = answer(&query) else { return Err(TestCaseError::reject("no such corner")) };
        // Back from the corner along both edges.
        let back = (if right { -1.0 } else { 1.0 }, if up { -1.0 } else { 1.0 });
        let height = lean.map_or(size, |lean| size * lean.to_radians().tan());
        // Of all ways to state it by points, the one that leaves the metal and bows to the corner.
        let counter = back.0 * back.1 < 0.0;
        let case = Case {
            from: (x + back.0 * size, y),
            to: (x, y + back.1 * height),
            arc: lean.is_none().then_some((size, counter)),
            left: counter == inside,
            flat,
            diameter,
        };
        let (bow, out) = case.at(0.5);
        let chord = ((case.from.0 + case.to.0) / 2.0, (case.from.1 + case.to.1) / 2.0);
        let away = if inside { back } else { (-back.0, -back.1) };
        prop_assert!(out.0 * away.0 + out.1 * away.1 > 0.0);
        prop_assert!((bow.0 - chord.0) * back.0 + (bow.1 - chord.1) * back.1 <= 1e-9);
        let (places, by_points) = (places(&by_corner), solved(&case.query("step=0.4 mm")));
        for (one, other) in places.iter().zip(self::places(&by_points)) {
            prop_assert!((one.0 - other.0).hypot(one.1 - other.1) < 1e-6);
        }
        prop_assert_eq!(number(&by_corner, "/steps"), number(&by_points, "/steps"));
        let (least, greatest) = case.traced(&places);
        prop_assert!(least > -1e-6 && greatest <= number(&by_corner, "/cusp") + 1e-6);
        // Points of both edges beyond the profile, and how far a place reaches into them.
        for beyond in [0.0, 0.1, 1.0, 5.0, 20.0] {
            let on_x = ((case.from.0 + back.0 * beyond, y), (0.0, away.1));
            let on_y = ((x, case.to.1 + back.1 * beyond), (away.0, 0.0));
            for edge in [on_x, on_y] {
                let cut = places.iter().filter_map(|place| case.met(edge, *place)).fold(0.0, f64::min);
                prop_assert!(cut > -1e-6, "{query} cuts {cut} into an edge");
            }
        }
    }

    #[test]
    fn the_ridge_asked_for_is_kept_with_the_fewest_steps(case in any_case(), cusp in 0.002f64..0.5) {
        let Ok(answer) = answer(&case.query(&format!("cusp={cusp} mm"))) else {
            return Err(TestCaseError::reject("no such profile"));
        };
        prop_assert!(number(&answer, "/cusp") <= cusp * (1.0 + 1e-12));
        let steps = number(&answer, "/steps");
        if steps > 1.0 {
            let longer = number(&answer, "/length") / (steps - 1.0);
            if let Ok(fewer) = asked_again(&case.query(&format!("step={longer} mm"))) {
                prop_assert!(number(&fewer, "/cusp") > cusp);
            }
        }
    }
}

#[test]
fn a_quarter_round_by_an_end_mill_begins_and_ends_beside_its_ends() {
    let answer = solved(
        "from=20 mm,0 mm&to=0 mm,20 mm&radius=20 mm&sense=counterclockwise&cutter=ball&diameter=10 mm&side=right\
         &cusp=0.02 mm",
    );
    let places = places(&answer);
    assert_eq!((places[0], places[places.len() - 1]), ((25.0, 0.0), (0.0, 25.0)));
}

#[test]
fn a_slope_of_a_square_cutter_steps_up_beside_its_corner() {
    let query = "from=0 mm,0 mm&to=40 mm,30 mm&cutter=flat&diameter=10 mm&side=left&step=5 mm";
    let up = solved(query);
    assert_eq!(places(&up)[..3], [(-5.0, 0.0), (-1.0, 3.0), (3.0, 6.0)]);
    // 5 × 4/5 × 3/5.
    assert_eq!(number(&up, "/cusp"), 2.4);
    // From the other end and the other side it is the same cut.
    let down = solved("from=40 mm,30 mm&to=0 mm,0 mm&cutter=flat&diameter=10 mm&side=right&step=5 mm");
    let mut turned = places(&down);
    turned.reverse();
    assert_eq!(turned, places(&up));
    assert_eq!(
        number(&solved("from=0 mm,0 mm&to=40 mm,0 mm&cutter=flat&diameter=10 mm&side=left&step=5 mm"), "/cusp"),
        0.0
    );
}

#[test]
fn a_corner_says_what_was_assumed_and_shows_where_its_profile_runs() {
    let answer = solved("corner_at=upper_right&chamfer=2 mm&cutter=flat&diameter=10 mm&step=0.5 mm");
    let assumed: Vec<&str> =
        answer["assumed"].as_array().expect("a list").iter().filter_map(|a| a["field"].as_str()).collect();
    for field in ["corner_kind", "corner_point", "chamfer_angle"] {
        assert!(assumed.contains(&field), "{field} not in {assumed:?}");
    }
    let end = |name: &str| (number(&answer, &format!("/{name}/x")), number(&answer, &format!("/{name}/y")));
    assert_eq!((end("first_point"), end("last_point")), ((-2.0, 0.0), (0.0, -2.0)));
    let gives: Vec<&str> = answer["working"]
        .as_array()
        .expect("steps")
        .iter()
        .filter_map(|step| step["gives"]["field"].as_str())
        .collect();
    assert!(gives.contains(&"side") && gives.contains(&"chamfer_height"), "{gives:?}");
    let by_points = solved("from=-2 mm,0 mm&to=0 mm,-2 mm&side=left&cutter=flat&diameter=10 mm&step=0.5 mm");
    assert_eq!(places(&answer), places(&by_points));
    assert!(by_points["result"].get("first_point").is_none());
}

#[test]
fn what_cannot_be_cut_is_refused_with_what_can() {
    for query in [
        "from=0 mm,0 mm&to=0 mm,0 mm&cutter=ball&diameter=6 mm&side=left&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&radius=10 mm&sense=clockwise&cutter=ball&diameter=6 mm&side=left&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&radius=20 mm&cutter=ball&diameter=6 mm&side=left&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&sense=clockwise&cutter=ball&diameter=6 mm&side=left&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&radius=20 mm&sense=clockwise&cutter=ball&diameter=50 mm&side=right&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&radius=20 mm&sense=clockwise&cutter=flat&diameter=6 mm&side=left&step=1 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&cutter=ball&diameter=6 mm&side=left",
        "from=0 mm,0 mm&to=30 mm,0 mm&cutter=ball&diameter=6 mm&side=left&step=1 mm&cusp=1 mm",
        "from=0 mm,0 mm&to=70 mm,0 mm&cutter=ball&diameter=6 mm&side=left&step=7 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&cutter=ball&diameter=6 mm&side=left&step=0.001 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&cutter=ball&diameter=6 mm&side=left&cusp=0.00000001 mm",
        "from=0 mm,0 mm&to=300 mm,0 mm&cutter=ball&diameter=0.1 mm&side=left&cusp=0.01 mm",
        "from=0 mm,0 mm&to=30 mm,0 mm&side=left&corner_at=upper_left&cutter=ball&diameter=6 mm&step=1 mm",
        "radius=9 mm&corner_kind=outside&cutter=ball&diameter=6 mm&step=1 mm",
        "corner_at=upper_left&cutter=ball&diameter=6 mm&step=0.5 mm",
        "corner_at=upper_left&radius=9 mm&chamfer=2 mm&cutter=ball&diameter=6 mm&step=0.5 mm",
        "corner_at=upper_left&chamfer=2 mm&chamfer_angle=90 deg&cutter=ball&diameter=6 mm&step=0.5 mm",
        "corner_at=upper_left&corner_kind=inside&chamfer=2 mm&cutter=ball&diameter=6 mm&step=0.5 mm",
        "corner_at=upper_left&corner_kind=inside&radius=3 mm&cutter=ball&diameter=6 mm&step=0.5 mm",
        "corner_at=upper_left&corner_kind=inside&radius=2 mm&cutter=ball&diameter=6 mm&step=0.5 mm",
    ] {
        for wrong in answer(query).expect_err(query).0 {
            let (name, value) = (wrong.field.trim_start_matches('/').to_owned(), wrong.try_this.expect("a way out"));
            let mut pairs: Vec<&str> = query.split('&').filter(|pair| !pair.starts_with(&format!("{name}="))).collect();
            let added = format!("{name}={value}");
            if value != "leave out" {
                pairs.push(&added);
            }
            solved(&pairs.join("&"));
        }
    }
}
