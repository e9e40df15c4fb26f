//! Band sawing: band speed by material and section, teeth in the cut, feed and time, by kinematics of a
//! band; speeds from Machinery's Handbook, 31st edition, p. 1245.

use crate::calculators::prelude::*;
use crate::machine::{RangePoint, Tooling, Wanted};
use crate::reference::cutting_speeds::Operation;
use crate::reference::material_name::WorkMaterial;
use crate::reference::sawing::section_change;

/// The calculator.
pub struct Sawing;

/// Fewer teeth than this catch on the work.
const FEWEST: f64 = 3.0;
/// More teeth than this clog.
const MOST: f64 = 24.0;
/// So many in the cut are usual in solid work.
const USUAL: f64 = 12.0;
/// The teeth an inch of the bands that are sold.
const BANDS: [f64; 10] = [2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 14.0, 18.0, 24.0, 32.0];

/// What the sawing calculator asks for.
#[derive(Debug, Asks)]
pub struct SawingInput {
    /// Thickness of the work along the band, where the band runs through it.
    #[label("Thickness along the band")]
    pub section: Size,
    /// Distance from one tooth of the band to the next, such as 1/10 in for 10 teeth per inch; the feed needs it.
    #[label("Tooth pitch of the band")]
    pub tooth_pitch: Option<Size>,
    /// Band speed; taken from the tables for the work material and its thickness if absent.
    #[label("Band speed")]
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed.
    #[label("Work material")]
    pub material: Option<WorkMaterial>,
    /// Which point of a published range to use: low, middle or high; low if absent.
    #[label("Point in published range")]
    pub range_point: Option<RangePoint>,
    /// Advance of each tooth; taken from the feed tables if absent.
    pub feed_per_tooth: Option<FeedPerTooth>,
    /// How far the band goes down through the work; the time of the cut needs it.
    #[label("Depth of the saw cut")]
    pub travel: Option<Size>,
    /// Diameter of the saw's wheels; their speed needs it.
    #[label("Diameter of the wheels")]
    pub wheel_diameter: Option<Size>,
}

/// What the sawing calculator gives.
#[derive(Debug, Gives)]
pub struct SawingResult {
    /// Teeth per inch of a usual band for that thickness.
    pub teeth_per_inch: f64,
    /// Fewest teeth per inch; with fewer, the teeth catch.
    pub fewest_teeth_per_inch: f64,
    /// Most teeth per inch; with more, the gullets clog.
    pub most_teeth_per_inch: f64,
    /// Band speed to set.
    #[label("Band speed")]
    #[needs(cutting_speed | material)]
    pub cutting_speed: Option<FoundCuttingSpeed>,
    /// How much the published band speed, which is for 4 in thick work, is changed for the thickness.
    #[label("Change for thickness")]
    pub section_change: Option<FoundDeviation>,
    /// Teeth that cut at once.
    #[label("Teeth in the cut")]
    #[needs(tooth_pitch)]
    pub teeth_in_cut: Option<f64>,
    /// Advance of each tooth.
    #[needs(feed_per_tooth | material)]
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// How fast the band goes down through the work.
    #[needs(tooth_pitch, cutting_speed | material, feed_per_tooth | material)]
    pub feed_rate: Option<FoundFeedRate>,
    /// Time of the cut.
    #[needs(travel, tooth_pitch, cutting_speed | material, feed_per_tooth | material)]
    pub cutting_time: Option<FoundWorkTime>,
    /// Speed of the saw's wheels.
    #[needs(wheel_diameter, cutting_speed | material)]
    pub wheel_speed: Option<FoundSpindleSpeed>,
}

impl SawingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: None,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            turns: None,
            operation: Operation::Sawing,
        }
    }
}

/// The band speed, changed for the section where it comes from the tables; none without speed and material.
fn speed(
    input: &SawingInput,
    record: &mut Record,
) -> Result<(Option<FoundCuttingSpeed>, Option<FoundDeviation>), Refusal> {
    if input.cutting_speed.is_none() && input.material.is_none() {
        return Ok((None, None));
    }
    let Wanted::Cutting(wanted) = input.tooling().speed(record)? else { return Ok((None, None)) };
    let (of, speed) = (wanted.of, wanted.speed);
    if input.cutting_speed.is_some() {
        record.choose("Band speed", "as stated").with("V", of, speed).gives("cutting_speed", speed.found());
        return Ok((Some(speed.found()), None));
    }
    let (percent, outside) = section_change(input.section.si());
    let change = FoundDeviation::stated(text::tidy(percent), Unit::Percent);
    record.source("mh31", "p. 1245, change of the band speed with the section");
    record
        .look_up("Change for the thickness", "saw_section_factors.csv, linear between its rows")
        .with("s", "section", input.section)
        .gives("section_change", change);
    if outside {
        record.note("section_outside", "The work is outside the 1/4 to 8 in of the table, so its nearest row is used.");
    }
    record.note(
        "coolant",
        "The published band speeds are for a bimetal band with coolant. Run 30 to 50 percent slower when dry, and at half \
         with a carbon steel band.",
    );
    let found = step!(record, "Band speed for the thickness", V: cutting_speed = V4 * (ratio(1.0) + c),
        V4 = (of): speed, c = section_change: change);
    Ok((Some(found), Some(change)))
}

/// The teeth an inch for a section.
fn teeth(section: Size, record: &mut Record) -> (f64, f64, f64) {
    record.source("common_practice", "three to twenty-four teeth in the cut, about twelve in solid work");
    let inch = Size::stated(1.0, Unit::Inch);
    let fewest: f64 = step!(record, "Fewest teeth per inch, three in the cut",
        N1: fewest_teeth_per_inch = number(3.0 * i1 / s), i1 = "constant:one_inch": inch, s = section);
    let most: f64 = step!(record, "Most teeth per inch, twenty-four in the cut",
        N2: most_teeth_per_inch = number(24.0 * i1 / s), i1 = "constant:one_inch": inch, s = section);
    let wanted = fewest * USUAL / FEWEST;
    let off = |band: &f64| (band / wanted).ln().abs();
    let band = BANDS.into_iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(BANDS[0]);
    record
        .look_up(
            "Teeth per inch of a usual band",
            "of 2, 3, 4, 6, 8, 10, 14, 18, 24 and 32, the nearest to twelve teeth in the cut",
        )
        .with("s", "section", section)
        .gives("teeth_per_inch", band);
    if !(fewest..=most).contains(&band) {
        record.note(
            "no_band_fits",
            "No usual band has three to twenty-four teeth in work this thick: clamp thin work flat or in a stack, so that \
             more of it is along the band.",
        );
    }
    (band, fewest, most)
}

impl Calculator for Sawing {
    const ID: &'static str = "speeds/sawing";
    const TITLE: &'static str = "Band sawing";
    const ABOUT: &'static str = "Band speed for a material and its thickness, the teeth in the cut, the feed and the time \
        of the cut.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Count the teeth of the band that are in the work: there should be three or more.";
    const WORDS: &'static str = "band saw, saw, blade, band speed, teeth per inch, tpi, cut off, stock";
    const EXAMPLES: &'static [Example] = examples! {
        "A 2 in bar of annealed 4140 for winch pins is sawn with a band of 10 teeth an inch.":
            section = "2 in", tooth_pitch = "1/10 in", material = "4140 annealed", travel = "2 in",
            wheel_diameter = "14 in";
        "A plate of bronze for a pump is sawn at a band speed that is known.":
            section = "20 mm", tooth_pitch = "2.5 mm", cutting_speed = "60 m/min", material = "c93200",
            range_point = "high", feed_per_tooth = "0.005 mm/tooth";
        "What band for a 1 in bar of a winch, on a saw that runs at 200 ft/min?":
            section = "1 in", cutting_speed = "200 ft/min", wheel_diameter = "12 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A saw with {wheel_diameter} wheels is to run its band at {cutting_speed}. How fast must the wheels turn?"
            => "wheel_speed":
            { wheel_diameter = "12 in" | "14 in" | "16 in", cutting_speed = "150 ft/min" | "200 ft/min" | "250 ft/min",
              section = "2 in" }
            { wheel_diameter = "300 mm" | "350 mm" | "400 mm", cutting_speed = "45 m/min" | "60 m/min" | "75 m/min",
              section = "50 mm" };
        2 "A band with 10 teeth per inch runs at {cutting_speed} and takes {feed_per_tooth}. How fast does it go down through \
            the bar?" => "feed_rate":
            { cutting_speed = "150 ft/min" | "200 ft/min" | "250 ft/min", feed_per_tooth = "0.0001 in/tooth" | "0.0002 in/tooth",
              section = "2 in", tooth_pitch = "0.1 in", units = "inch" };
        2 "The teeth of a band are {tooth_pitch} apart. It runs at {cutting_speed} and takes {feed_per_tooth}. How fast does it \
            go down through the plate?" => "feed_rate":
            { tooth_pitch = "2.5 mm" | "4 mm", feed_per_tooth = "0.003 mm/tooth" | "0.005 mm/tooth",
              cutting_speed = "45 m/min" | "50 m/min" | "60 m/min", section = "40 mm", units = "metric" };
        3 "A band with 10 teeth per inch runs at {cutting_speed} and takes {feed_per_tooth}. How long does it take through \
            {travel} square bar?" => "cutting_time":
            { travel = "1 in", section = "1 in", cutting_speed = "150 ft/min" | "200 ft/min" | "250 ft/min",
              feed_per_tooth = "0.0001 in/tooth" | "0.0002 in/tooth", tooth_pitch = "0.1 in" }
            { travel = "2 in", section = "2 in", cutting_speed = "150 ft/min" | "200 ft/min" | "250 ft/min",
              feed_per_tooth = "0.0001 in/tooth" | "0.0002 in/tooth", tooth_pitch = "0.1 in" };
    };
    type Input = SawingInput;
    type Output = SawingResult;
    const LEADS: &'static [&'static str] = &["cutting_speed", "teeth_per_inch"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "teeth of a band that runs through the work");
        record.caution(cautions::SAWING);
        let tooling = input.tooling();
        tooling.warn(record);
        let (cutting_speed, section_change) = speed(input, record)?;
        let SawingInput { section, tooth_pitch, travel, wheel_diameter, .. } = *input;
        let (teeth_per_inch, fewest_teeth_per_inch, most_teeth_per_inch) = teeth(section, record);
        let teeth_in_cut: Option<f64> = tooth_pitch.map(|pitch| {
            step!(record, "Teeth in the cut", zc: teeth_in_cut = number(s / p), s = section, p = tooth_pitch: pitch)
        });
        let teeth = teeth_in_cut.map_or(USUAL, text::tidy);
        if teeth < FEWEST {
            record.note(
                "too_few_teeth",
                "Fewer than three teeth are in the cut: they catch and break. Use a finer band.",
            );
        } else if teeth > MOST {
            record.note("too_many_teeth", "More than 24 teeth are in the cut: their gullets clog. Use a coarser band.");
        }
        let feed = tooling.feed(input.feed_per_tooth, "feed_per_tooth", Operation::Sawing, None, record);
        let feed_per_tooth = feed.map(|feed| {
            const ADVANCE: &str = "Advance of each tooth";
            let step = match input.feed_per_tooth {
                None => record.look_up(ADVANCE, "feeds.csv, sawing"),
                Some(_) => record.choose(ADVANCE, "as stated").with("fz", "feed_per_tooth", feed.feed),
            };
            step.gives("feed_per_tooth", feed.feed.found());
            feed.feed.found()
        });
        let feed_rate = feed_per_tooth.zip(cutting_speed).zip(tooth_pitch).map(|((feed, speed), pitch)| {
            let rate = FoundFeedRate::of(speed.get() * (feed.get() / pitch.get()));
            let step = record.step("Feed down through the work", "vf = fz × V / p");
            let step = step.with("fz", "feed_per_tooth", feed).with("V", "cutting_speed", speed);
            step.with("p", "tooth_pitch", pitch).gives("feed_rate", rate);
            rate
        });
        let cutting_time = travel.zip(feed_rate).map(
            |(travel, rate)| step!(record, "Time of the cut", t: cutting_time = H / vf, H = travel, vf = feed_rate: rate),
        );
        let wheel_speed = wheel_diameter.zip(cutting_speed).map(|(wheel, speed)| {
            step!(record, "Speed of the wheels", n: wheel_speed = V / (π * D),
                V = cutting_speed: speed, D = wheel_diameter: wheel)
        });
        record.caution(cautions::TIMES);
        Ok(SawingResult {
            teeth_per_inch,
            fewest_teeth_per_inch,
            most_teeth_per_inch,
            cutting_speed,
            section_change,
            teeth_in_cut,
            feed_per_tooth,
            feed_rate,
            cutting_time,
            wheel_speed,
        })
    }
}
