//! The table from above with zero to the right: where its holes or stops lie, counted counterclockwise on the work.

use super::{RotaryTableInput, RotaryTableResult};
use crate::drawing::{Drawing, Ink, Reach, Words, every, on_circle, words};
use crate::hole_pattern::TableSetting;

/// The radius where none is given, in meters.
const USUAL: f64 = 0.05;

/// Draws an answer.
pub fn draw(input: &RotaryTableInput, result: &RotaryTableResult) -> Drawing {
    let mut about = words!("{} settings of a rotary table.": result.table.len());
    for setting in result.table.iter().take(12) {
        about = about.then(words!(" {}: {} from zero.": setting.number, setting.turned));
    }
    let mut drawing = Drawing::new("Rotary table", about);
    let radius = input.radius.map_or(USUAL, |radius| radius.si());
    drawing.circle(Ink::Centre, (0.0, 0.0), radius);
    drawing.cross((0.0, 0.0), 0.0);
    for setting in &result.table {
        let at = on_circle((0.0, 0.0), radius, setting.turned.degrees());
        drawing.dot(at);
        drawing
            .line(Ink::Thin, on_circle((0.0, 0.0), 0.2 * radius, setting.turned.degrees()), at)
            .of("table")
            .number(setting.number);
    }
    for setting in result.table.iter().step_by(every(result.table.len())) {
        let degrees = setting.turned.degrees();
        let at = on_circle((0.0, 0.0), radius, degrees);
        drawing.note_near(at, 0.0, degrees, Words::from(setting.number));
    }
    if let Some(step) = result.step_angle.filter(|step| step.degrees() < 360.0) {
        drawing.angle((0.0, 0.0), 0.0, step.degrees(), Reach::Model(0.4 * radius), step).of("step_angle");
    }
    let turned = |setting: &&TableSetting| (1.0..360.0).contains(&setting.turned.degrees());
    if let (None, Some(first)) = (result.step_angle, result.table.iter().find(turned)) {
        let reach = Reach::Model(0.4 * radius);
        let mark = drawing.angle((0.0, 0.0), 0.0, first.turned.degrees(), reach, first.turned);
        mark.of("table.turned").number(first.number);
    }
    if let Some(given) = input.radius {
        let directions = [250.0, 200.0, 160.0, 290.0, 110.0].to_vec();
        drawing.radius((0.0, 0.0), radius, directions, words!("R {}": given)).of("radius");
    }
    drawing
}
