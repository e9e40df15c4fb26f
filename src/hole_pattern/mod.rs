//! What every pattern of holes begins with and ends in: where it stands on the part, which of its holes are drilled,
//! places and moves, what checks the spacing, the drawing, and the settings of a rotary table.

mod chosen;
mod circle;
mod circle_drawing;
mod circle_spacing;
mod edges;
mod hole;
mod reach;
mod rotary;
mod row_drawing;
mod row_spacing;
mod rows;
mod steps_of_rows;

pub use chosen::{ChosenHoles, find_numbers};
pub use circle::{CircleWords, HoleCircle, Start, start_through};
pub use circle_drawing::{CircleView, draw_circle};
pub use circle_spacing::{Distances, find_distances, gap, least_separation};
pub use edges::EdgeDistance;
pub use hole::{PatternCheck, PatternHole};
pub use reach::{TableReach, TableTravel};
pub use rotary::{RotaryTable, TableSetting, find_settings, settings_of};
pub use row_drawing::draw_rows;
pub use rows::{LaidRows, RowPattern, RowsOnPart, lay_out};
pub use steps_of_rows::{GridNumbers, Numbering, Spaced, find_grid, find_spacing, spaced};

/// Most holes of one pattern.
pub const MOST_HOLES: u32 = 1000;
