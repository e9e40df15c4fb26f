//! Whole jobs on simulated machines, done from the answers alone: axes wired either way, screws with
//! play, readouts and dials that show whole steps, tools of any length. A person at such a machine sees
//! readings, sets them, turns wheels and changes tools; the tool must end up where it was promised.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;

/// An answer, and what is needed of it.
struct Told(Value);

fn ask(id: &str, query: &str) -> Told {
    let entry = find(id).unwrap_or_else(|| panic!("no {id}"));
    Told(asked(entry, query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))["result"].clone())
}

impl Told {
    /// What to set or to go to, as the scale shows it; `None` where the answer has nothing there.
    fn set(&self, pointer: &str) -> Option<f64> {
        self.0.pointer(pointer)?["set_to"]["value"].as_f64()
    }

    fn must_set(&self, pointer: &str) -> f64 {
        self.set(pointer).unwrap_or_else(|| panic!("nothing to set at {pointer}: {}", self.0))
    }

    /// What the setting leaves over of the value promised.
    fn left_over(&self, pointer: &str) -> f64 {
        self.0.pointer(pointer).expect(pointer)["left_over"]["value"].as_f64().expect("a remainder")
    }

    fn count(&self, pointer: &str) -> f64 {
        self.0.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("no count at {pointer}"))
    }
}

/// One slide: a wheel drives it through a nut with play.
#[derive(Clone, Copy, Debug)]
struct Axis {
    /// 1 where readings grow with the slide's true place, -1 where they fall.
    wired: f64,
    /// Play of the nut.
    play: f64,
    /// Where the wheel has taken the screw.
    wheel: f64,
    /// True place of the slide.
    slide: f64,
    /// Step of the scale or the dial.
    step: f64,
    /// What is added to the counts so that a set reading shows.
    shown: f64,
    /// The scale is on the slide; on a dial machine it is on the wheel.
    scale_on_slide: bool,
    /// Where between two counts a person stops who sees only whole ones, from -1/2 to 1/2.
    stops_at: f64,
}

impl Axis {
    fn new(machine: Machine, wired: bool, place: f64) -> Self {
        let wired = if wired { 1.0 } else { -1.0 };
        let Machine { play, step, stops_at, scale_on_slide } = machine;
        Self { wired, play, wheel: place, slide: place, step, shown: 0.0, scale_on_slide, stops_at }
    }

    fn turn(&mut self, to: f64) {
        self.wheel = to;
        self.slide = self.slide.clamp(to - self.play / 2.0, to + self.play / 2.0);
    }

    /// Moves the slide to a true place, as where something is touched.
    fn bring(&mut self, to: f64) {
        let push = if to >= self.slide { self.play / 2.0 } else { -self.play / 2.0 };
        self.turn(to + push);
    }

    fn counted(&self) -> f64 {
        let place = if self.scale_on_slide { self.slide } else { self.wheel };
        (self.wired * place / self.step).round() * self.step
    }

    fn reading(&self) -> f64 {
        self.counted() + self.shown
    }

    fn set(&mut self, reading: f64) {
        self.shown = reading - self.counted();
    }

    /// Turns the wheel until the reading shows.
    fn go(&mut self, reading: f64) {
        let to = self.wired * (reading - self.shown + self.stops_at * self.step);
        if self.scale_on_slide { self.bring(to) } else { self.turn(to) }
    }

    /// Comes up to a true place from a side and says what the reading did on the way.
    fn touch(&mut self, place: f64, from_below: bool) -> &'static str {
        let clear = if from_below { place - 20.0 * self.step } else { place + 20.0 * self.step };
        self.bring(clear);
        let before = self.reading();
        self.bring(place);
        if self.reading() > before { "growing" } else { "falling" }
    }
}

/// What the axes of one machine have in common.
#[derive(Clone, Copy, Debug)]
struct Machine {
    play: f64,
    step: f64,
    stops_at: f64,
    scale_on_slide: bool,
}

fn any_machine(scale_on_slide: bool) -> impl Strategy<Value = Machine> {
    (0.0f64..0.6, prop_oneof![Just(0.005), Just(0.01), Just(0.001)], -0.49f64..0.49)
        .prop_map(move |(play, step, stops_at)| Machine { play, step, stops_at, scale_on_slide })
}

/// Work with two edges, a place for each on the drawing, and how an edge is found.
#[derive(Clone, Copy, Debug)]
struct Edge {
    face: f64,
    from_below: bool,
    place: f64,
}

fn any_edge() -> impl Strategy<Value = Edge> {
    (-200.0f64..200.0, any::<bool>(), -50.0f64..50.0).prop_map(|(face, from_below, place)| Edge {
        face,
        from_below,
        place,
    })
}

/// Touches the edge and sets the reading told; gives what that setting left over.
fn find_zero(axis: &mut Axis, edge: Edge, tip: f64) -> f64 {
    let way = if edge.from_below { -1.0 } else { 1.0 };
    let was = axis.touch(edge.face + way * tip / 2.0, edge.from_below);
    let told = ask(
        "datum/touch-off",
        &format!(
            "reading_was={was}&tip_diameter={tip} mm&face_position={} mm&resolution={} mm&working=false",
            edge.place, axis.step
        ),
    );
    axis.set(told.must_set("/set_reading"));
    told.left_over("/set_reading")
}

/// The true place that a place on the drawing has, the edge being where it is.
fn promised(axis: &Axis, edge: Edge, place: f64) -> f64 {
    edge.face + axis.wired * (place - edge.place)
}

/// A quill or a knee with a tool over the work.
#[derive(Clone, Copy, Debug)]
struct Height {
    axis: Axis,
    knee: bool,
}

impl Height {
    /// True place of the slide with the tip so far above the table.
    fn place(&self, length: f64, tip: f64) -> f64 {
        if self.knee { 500.0 - length - tip } else { length + tip }
    }

    fn tip(&self, length: f64) -> f64 {
        if self.knee { 500.0 - length - self.axis.slide } else { self.axis.slide - length }
    }

    /// Brings the tool down to, or the work up to, a face.
    fn touch(&mut self, length: f64, face: f64) -> (&'static str, f64) {
        let was = self.axis.touch(self.place(length, face), self.knee);
        (was, self.axis.reading())
    }
}

fn listed(points: &[(f64, f64)]) -> String {
    points.iter().map(|(x, y)| format!("{x} mm,{y} mm")).collect::<Vec<_>>().join(";")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn holes_are_where_and_as_deep_as_promised_with_every_tool(
        machine in any_machine(true), wired: [bool; 3], edges in [any_edge(), any_edge()], tip in 1.0f64..12.0,
        knee: bool, z_up: bool, face in 20.0f64..80.0, thicker in 0.0f64..30.0,
        tools in proptest::collection::vec(30.0f64..150.0, 1..5), reference in 0usize..5,
        holes in proptest::collection::vec((-80.0f64..80.0, -80.0f64..80.0, 0usize..5, 1u32..4000), 1..6),
    ) {
        let step = machine.step;
        let mut axes = [Axis::new(machine, wired[0], 3.0), Axis::new(machine, wired[1], -7.0)];
        let mut lost = [0.0; 2];
        for (at, (axis, edge)) in axes.iter_mut().zip(edges).enumerate() {
            lost[at] = find_zero(axis, edge, tip).abs();
        }

        // Every tool touches the top of the work, and the first one again on thicker work.
        let reference = reference % tools.len();
        let mut height = Height { axis: Axis::new(machine, wired[2], 260.0), knee };
        let touched: Vec<(&str, f64)> = tools.iter().map(|length| height.touch(*length, face)).collect();
        let face = face + thicker;
        let (was, now) = height.touch(tools[reference], face);
        let rows: Vec<String> = touched.iter().enumerate().map(|(at, (_, r))| format!("T{at},{r:.4} mm")).collect();
        let told = ask("datum/tool-setting", &format!(
            "tools={}&reference=T{reference}&moved={}&reading_was={was}&reference_now={now:.4} mm\
             &resolution={step} mm&z_plus={}&working=false",
            rows.join(";"), if knee { "knee" } else { "quill" }, if z_up { "up" } else { "down" },
        ));
        for at in 0..tools.len() {
            // Two readings are behind each of these, and each is sure to half a step.
            let longer = told.0["offsets"][at]["longer_by"]["value"].as_f64().expect("a length");
            prop_assert!((longer - (tools[at] - tools[reference])).abs() <= step * 1.001);
        }
        // The reference tool stands on the work as it is now: that is made zero.
        let zero = ask("datum/touch-off", &format!("reading_was={was}&tip_diameter=0&resolution={step} mm"));
        height.axis.set(zero.must_set("/set_reading"));

        let points: Vec<(f64, f64)> = holes.iter().map(|hole| (hole.0, hole.1)).collect();
        let moves = ask("datum/move-list", &format!(
            "points={}&resolution={step} mm&backlash={} mm&working=false", listed(&points), machine.play
        ));
        for (at, (x, y, tool, depth)) in holes.iter().enumerate() {
            for ((axis, name), (place, which)) in axes.iter_mut().zip(["x", "y"]).zip([(*x, 0), (*y, 1)]) {
                if let Some(past) = moves.set(&format!("/moves/{at}/past_{name}")) {
                    axis.go(past);
                }
                let field = format!("/moves/{at}/{name}");
                axis.go(moves.must_set(&field));
                let off = (axis.slide - promised(axis, edges[which], place)).abs();
                // Half a step in the touch, half in stopping, and what the answers said they left over.
                let allowed = step + lost[which] + moves.left_over(&field).abs();
                prop_assert!(off <= allowed + 1e-9, "{name} is {off} off, {allowed} allowed");
            }
            let tool = tool % tools.len();
            let depth = f64::from(*depth) * step;
            let offset = told.must_set(&format!("/offsets/{tool}/offset"));
            height.axis.go(offset + if was == "growing" { depth } else { -depth });
            // Half a step each: this tool's reading, the reference's, the setting of zero, and stopping.
            let off = (height.tip(tools[tool]) - (face - depth)).abs();
            prop_assert!(off <= 2.0 * step + 1e-9, "the tip is {off} off");
        }
    }

    #[test]
    fn by_dials_alone_the_play_of_the_screws_does_not_enter(
        machine in any_machine(false), wired: [bool; 2], edges in [any_edge(), any_edge()], tip in 1.0f64..12.0,
        growing: bool, holes in proptest::collection::vec((-80.0f64..80.0, -80.0f64..80.0), 1..8),
    ) {
        let step = machine.step;
        let way = if growing { "growing" } else { "falling" };
        let mut axes = [Axis::new(machine, wired[0], 3.0), Axis::new(machine, wired[1], -7.0)];
        let mut lost = [0.0; 2];
        let mut edges = edges;
        for (at, (axis, edge)) in axes.iter_mut().zip(&mut edges).enumerate() {
            // A dial is set from the side from which every place is come up to.
            edge.from_below = wired[at] == growing;
            lost[at] = find_zero(axis, *edge, tip).abs();
        }
        // From the datum's zero, come up to from that side too.
        for axis in &mut axes {
            let back = if growing { -2.0 } else { 2.0 } * machine.play.max(step);
            axis.go(back);
            axis.go(0.0);
        }
        let moves = ask("datum/move-list", &format!(
            "points={}&resolution={step} mm&backlash={} mm&approach={way}&working=false", listed(&holes), machine.play
        ));
        let mut dial = [0.0; 2];
        for (at, hole) in holes.iter().enumerate() {
            for (which, (axis, name)) in axes.iter_mut().zip(["x", "y"]).enumerate() {
                let next = dial[which] + moves.must_set(&format!("/moves/{at}/d{name}"));
                if let Some(past) = moves.set(&format!("/moves/{at}/past_{name}")) {
                    // As the answer's note says, by two divisions at least.
                    let least = 2.0 * step;
                    axis.go(if growing { past.min(next - least) } else { past.max(next + least) });
                }
                // Told as moves, not as places: the dial goes on from where it stands.
                dial[which] = next;
                axis.go(dial[which]);
                let place = [hole.0, hole.1][which];
                let off = (axis.slide - promised(axis, edges[which], place)).abs();
                let allowed = step + lost[which] + moves.left_over(&format!("/moves/{at}/{name}")).abs();
                prop_assert!(off <= allowed + 1e-9, "{name} is {off} off, {allowed} allowed");
            }
        }
    }

    #[test]
    fn counted_turns_and_divisions_take_the_slide_the_distance(
        play in 0.0f64..0.5, wired: bool, turn in prop_oneof![Just(2.5), Just(4.0), Just(5.0)],
        divisions in prop_oneof![Just(100u32), Just(125), Just(200), Just(250)], growing: bool,
        distances in proptest::collection::vec(-60.0f64..60.0, 1..6),
    ) {
        let division = turn / f64::from(divisions);
        let machine = Machine { play, step: division, stops_at: 0.0, scale_on_slide: false };
        let mut axis = Axis::new(machine, wired, 0.0);
        let way = if growing { 1.0 } else { -1.0 };
        axis.go(-2.0 * way * play);
        axis.go(0.0);
        let mut dial = 0.0;
        for distance in distances {
            let told = ask("datum/handwheel", &format!(
                "distance={distance} mm&travel_per_turn={turn} mm&divisions={divisions}&dial_now={} mm\
                 &backlash={play} mm&approach={}&working=false",
                f64::rem_euclid(dial, turn).min(turn), if growing { "growing" } else { "falling" },
            ));
            let before = axis.slide;
            let counted = told.count("/nearest/turns") * turn + told.count("/nearest/divisions") * division;
            let way = if told.0["figures"] == "growing" { 1.0 } else { -1.0 };
            let past = told.0["overshoot"]["value"].as_f64().expect("an overshoot");
            axis.go(dial + way * (counted + past));
            dial += way * counted;
            axis.go(dial);
            let moved = axis.wired * (axis.slide - before);
            prop_assert!((moved - distance).abs() <= division / 2.0 + 1e-9, "{moved} for {distance}");
            // What the dial was promised to show, but for the part of a division judged by eye.
            let shows = told.0["dial_reading"]["value"].as_f64().expect("a reading");
            let off = f64::rem_euclid(shows - dial, turn);
            prop_assert!(off.min(turn - off) <= division / 2.0 + 1e-9);
        }
    }

    #[test]
    fn a_block_is_halved_and_a_pocket_in_it_has_its_walls_where_promised(
        machine in any_machine(true), wired: bool, low in -100.0f64..100.0, width in 60.0f64..120.0, tip in 1.0f64..10.0,
        first_low: bool, inside: bool, half_pocket in 10.0f64..28.0, cutter in 3.0f64..16.0, allowance in 0.05f64..1.5,
    ) {
        prop_assume!(cutter + 2.0 * allowance < 2.0 * half_pocket);
        let step = machine.step;
        let mut axis = Axis::new(machine, wired, 0.0);
        // The tip comes from outside a block or from within a slot.
        let off = if inside { -tip / 2.0 } else { tip / 2.0 };
        let mut faces = [(low - off, !inside), (low + width + off, inside)];
        if !first_low {
            faces.reverse();
        }
        let readings = faces.map(|(place, from_below)| {
            axis.touch(place, from_below);
            axis.reading()
        });
        let told = ask("datum/between-faces", &format!(
            "first={:.4} mm&second={:.4} mm&tip_diameter={tip} mm&touched={}&resolution={step} mm",
            readings[0], readings[1], if inside { "inside" } else { "outside" },
        ));
        let found = told.0["width"]["value"].as_f64().expect("a width");
        prop_assert!((found - width).abs() <= step * 1.001 + 1e-9);
        axis.set(told.must_set("/set_here"));
        axis.go(0.0);
        let middle = low + width / 2.0;
        let lost = told.left_over("/set_here").abs();
        // Two readings, the setting and the stopping, half a step each; two of them halved in the middle.
        prop_assert!((axis.slide - middle).abs() <= 1.5 * step + lost + 1e-9);

        let stops = ask("datum/wall-stops", &format!(
            "walls=x_axis,{} mm,minus;x_axis,{half_pocket} mm,plus&cutter_diameter={cutter} mm\
             &finish_allowance={allowance} mm&resolution={step} mm",
            -half_pocket,
        ));
        for (at, to_metal) in [(0, -1.0), (1, 1.0)] {
            for (cut, left) in [("rough", allowance), ("finish", 0.0)] {
                let field = format!("/stops/{at}/{cut}");
                axis.go(stops.must_set(&field));
                // The cutter's edge on the drawing, seen from the middle.
                let edge = axis.wired * (axis.slide - middle) + to_metal * cutter / 2.0;
                let wall = to_metal * (half_pocket - left);
                let allowed = 1.5 * step + lost + stops.left_over(&field).abs();
                prop_assert!((edge - wall).abs() <= allowed + 1e-9, "{cut}: {edge}, wall {wall}");
            }
        }
    }

    #[test]
    fn a_shaft_or_a_bore_comes_to_its_diameter(
        machine in any_machine(false), counts_diameter: bool, wired: bool, inside: bool, x_reads in proptest::option::of(any::<bool>()),
        cut_at in 10.0f64..40.0, deeper in 0.02f64..4.0,
    ) {
        let step = machine.step;
        // The place of the slide is the radius that the tool turns; the scale shows it once or twice.
        let scale = if x_reads.unwrap_or(counts_diameter) { 2.0 } else { 1.0 };
        let word = |diameter: bool| if diameter { "diameter" } else { "radius" };
        let mut axis = Axis::new(Machine { step: step / scale, ..machine }, wired, 0.0);
        let grows = if inside { 1.0 } else { -1.0 };
        axis.bring(cut_at - grows);
        axis.bring(cut_at);
        let (measured, target) = (2.0 * cut_at, 2.0 * (cut_at + grows * deeper));
        let reads = x_reads.map(|diameter| format!("&x_reads={}", word(diameter))).unwrap_or_default();
        let told = ask("datum/lathe-touch-off", &format!(
            "measured_diameter={measured} mm&target_diameter={target} mm&dial={}&surface={}&resolution={step} mm{reads}",
            word(counts_diameter), if inside { "inside" } else { "outside" },
        ));
        // The axis shows the place; its scale shows as many times that.
        let show = |reading: f64| reading / scale;
        let lost = (told.left_over("/set_reading").abs() + told.left_over("/target_reading").abs()) / scale;
        if wired {
            axis.set(show(told.must_set("/set_reading")));
            axis.go(show(told.must_set("/target_reading")));
        } else {
            // Its figures run against the diameter, so it is set to 0 and goes on by what is left.
            axis.set(0.0);
            axis.go(-grows * show(told.must_set("/infeed_left")));
        }
        // Half a step in setting and half in stopping.
        let off = (axis.slide - target / 2.0).abs();
        prop_assert!(off <= step / scale + lost + 1e-9, "{off} off");
    }
}
