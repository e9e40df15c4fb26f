//! The work and the tool as a request states them, with the cutting speed where that is stated.

use crate::declared::Asks;
use crate::quantity::{CuttingSpeed, SpindleSpeed};
use crate::reference::cutting_speeds::ToolMaterial;
use crate::reference::material_name::WorkMaterial;

crate::choice! {
    /// Which point of a published range to use: `low`, `middle` or `high`.
    RangePoint {
        /// The lower end.
        Low = "low",
        /// The middle.
        Middle = "middle",
        /// The upper end.
        High = "high",
    }
}

/// The work and the tool, as a request states them.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct WorkAndTool {
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    #[label("Work material")]
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    #[label("Tool material")]
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range to use: low, middle or high; low if absent.
    #[label("Point in published range")]
    pub range_point: Option<RangePoint>,
}

/// The cutting speed wanted, the spindle speed that is set, or the work and the tool that the tables have a speed for,
/// as a request states them.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct SpeedOrWork {
    /// Cutting speed wanted at the diameter; taken from the tables for the work and tool material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// The work and the tool.
    #[group]
    pub work: WorkAndTool,
    /// Spindle speed that is already set, in place of a cutting speed. The answer gives its cutting speed, compared with the published one where work and tool material are given.
    #[label("Spindle speed already set")]
    pub spindle_speed: Option<SpindleSpeed>,
}
