//! The fields that every calculator's request may carry beside its own. Their names are used by no
//! calculator as inputs.

use crate::declared::Asks;
use crate::quantity::{Resolution, System};

/// The names.
pub const RESERVED: &[&str] = &[
    "units", "working", "digits", "pick", "refusals", "resolution", "z_plus", "x_reads", "machine", "solve_for",
    "wanted", "measured", "correct", "separator",
];

/// The form in which an answer is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// The whole answer.
    Json,
    /// One value for a cell, `.txt`.
    Cell,
    /// A table, `.csv`.
    Table,
    /// A table of requests, sent to `.csv`.
    Sheet,
    /// The drawing, `.svg`.
    Drawing,
}

impl Form {
    /// Which reserved names mean something in this form.
    pub const fn names(self) -> &'static [&'static str] {
        match self {
            Form::Json => &[
                "units", "working", "resolution", "z_plus", "x_reads", "machine", "solve_for", "wanted", "measured",
                "correct",
            ],
            Form::Cell => &[
                "pick", "units", "digits", "refusals", "resolution", "z_plus", "x_reads", "machine", "solve_for",
                "wanted", "measured", "correct",
            ],
            Form::Table => &["units", "resolution", "z_plus", "x_reads", "machine", "separator"],
            Form::Sheet => &["units", "resolution", "z_plus", "x_reads", "machine", "separator", "pick"],
            Form::Drawing => &["units", "machine"],
        }
    }
}

crate::choice! {
    /// Digits of a cell: `full`, every digit there is, or `shop`, rounded as the trade writes it.
    Digits {
        /// Every digit.
        Full = "full",
        /// Rounded as the trade writes it.
        Shop = "shop",
    }
}

crate::choice! {
    /// How a cell is told of a refusal: `text` answers 200 with REFUSED and the words.
    RefusalsAs {
        /// In words.
        Text = "text",
    }
}

crate::choice! {
    /// Which way a depth counts on the readout: `up` or `down`.
    ZPlus {
        /// Readings grow as the tool goes up.
        Up = "up",
        /// Readings grow as the tool goes down.
        Down = "down",
    }
}

crate::choice! {
    /// What a lathe's cross slide counts on its scale: `radius` or `diameter`.
    XReads {
        /// Readings change by as much as the slide moves.
        Radius = "radius",
        /// Readings change by twice as much, as the diameter does.
        Diameter = "diameter",
    }
}

crate::choice! {
    /// What parts the columns of a table: `comma`, or `semicolon` for tables with decimal commas.
    Separator {
        /// Commas, with decimal points.
        Comma = "comma",
        /// Semicolons, with decimal commas.
        Semicolon = "semicolon",
    }
}

/// The reserved fields as a request has them.
#[derive(Clone, Debug, Default, Asks)]
pub struct Reserved {
    /// System of the answer: inch or metric. If absent, that of the first input that has one.
    pub units: Option<System>,
    /// Whether the working is in the answer: true (if absent) or false.
    pub working: Option<bool>,
    /// What the cell shows: the name of a result, or with a leading slash a JSON Pointer into the answer.
    pub pick: Option<String>,
    /// Digits of the cell: full (if absent) or shop.
    pub digits: Option<Digits>,
    /// With text, a refusal is answered as 200 with REFUSED and its words.
    pub refusals: Option<RefusalsAs>,
    /// The smallest step of the readout or dial: lengths that are set then carry set_to and left_over.
    pub resolution: Option<Resolution>,
    /// Which way depths count on the readout: up or down. Needs resolution.
    pub z_plus: Option<ZPlus>,
    /// What the scale of a lathe's cross slide counts: radius or diameter; as the answer counts if absent. Needs resolution.
    pub x_reads: Option<XReads>,
    /// A machine by its name in the shop's file: its fields stand in for those not stated. Needs a service started with --shop.
    pub machine: Option<String>,
    /// What parts the columns: comma (if absent) or semicolon, which also writes decimal commas.
    pub separator: Option<Separator>,
    /// An input that is not stated and is to be found so that the result in wanted comes out.
    pub solve_for: Option<String>,
    /// The result that solve_for is to give, as name:value, such as point_length:0.152 in.
    #[pattern("^[^:]+:.*[0-9½¼¾⅛⅜⅝⅞⅓⅔]")]
    pub wanted: Option<String>,
    /// A result as it was measured on the part, as name:value; correct names the input to be corrected by it.
    #[pattern("^[^:]+:.*[0-9½¼¾⅛⅜⅝⅞⅓⅔]")]
    pub measured: Option<String>,
    /// The input that is to be corrected by what was measured.
    pub correct: Option<String>,
}

/// A good value for a reserved field.
pub fn good(name: &str) -> Option<&'static str> {
    Some(match name {
        "units" => "inch",
        "working" => "false",
        "pick" => "point_length",
        "digits" => "shop",
        "refusals" => "text",
        "resolution" => "0.0005 in",
        "z_plus" => "down",
        "x_reads" => "radius",
        "machine" => "mill",
        "separator" => "comma",
        "solve_for" | "correct" => "diameter",
        "wanted" | "measured" => "point_length:0.152 in",
        _ => return None,
    })
}
