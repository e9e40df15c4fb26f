//! What every calculator is written in, in one import.

pub use super::exercise::Exercise;
pub use super::{Calculator, Draw, Example, Task};
pub use crate::cautions;
pub use crate::declared::{Asks, Gives, Stated, step, to_give, to_leave_out};
pub(crate) use crate::declared::{notes, stated};
pub use crate::fields::{Count, PlainNumber, Point, Points, Rows};
pub use crate::quantity::*;
pub use crate::reference::drill_diameter::DrillDiameter;
pub use crate::reference::threads::{Designation, ExternalClass, InternalClass};
pub use crate::refusal::{Code, Refusal, Wrong, rule_broken};
pub use crate::working::{Constant, Record, Shown, column};
pub use crate::{choice, examples, exercises, rules, tell};
pub use std::f64::consts::PI;
pub use validator::ValidationError;
