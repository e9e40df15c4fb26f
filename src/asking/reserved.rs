//! The fields that every calculator's request may carry beside its own. Their names are used by no
//! calculator as inputs.

use super::backwards;
use super::machine::{self, StoodIn};
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::quantity::{Resolution, System};
use crate::refusal::{Code, Refusal, Wrong};
use serde::Deserialize;
use utoipa::ToSchema;

/// The names.
pub const RESERVED: &[&str] = &[
    "units",
    "working",
    "digits",
    "pick",
    "refusals",
    "resolution",
    "z_plus",
    "x_reads",
    "machine",
    "solve_for",
    "wanted",
    "measured",
    "correct",
    "separator",
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
                "units",
                "working",
                "resolution",
                "z_plus",
                "x_reads",
                "machine",
                "solve_for",
                "wanted",
                "measured",
                "correct",
            ],
            Form::Cell => &[
                "pick",
                "units",
                "digits",
                "refusals",
                "resolution",
                "z_plus",
                "x_reads",
                "machine",
                "solve_for",
                "wanted",
                "measured",
                "correct",
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
#[derive(Clone, Debug, Default, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
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
    #[schema(pattern = "^[^:]+:.*[0-9½¼¾⅛⅜⅝⅞⅓⅔]")]
    pub wanted: Option<String>,
    /// A result as it was measured on the part, as name:value; correct names the input to be corrected by it.
    #[schema(pattern = "^[^:]+:.*[0-9½¼¾⅛⅜⅝⅞⅓⅔]")]
    pub measured: Option<String>,
    /// The input that is to be corrected by what was measured.
    pub correct: Option<String>,
    /// The machine's fields that stand in for those not stated.
    #[serde(skip)]
    #[schema(ignore)]
    pub stood_in: StoodIn,
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

impl Reserved {
    /// Takes the reserved fields out of a request and reads them.
    pub fn take(entry: &'static Entry, fields: &mut Fields, form: Form) -> Result<Self, Refusal> {
        let mut own = Fields::default();
        fields.0.retain(|(name, value)| {
            let reserved = RESERVED.contains(&name.as_ref());
            if reserved {
                own.0.push((name.clone(), value.clone()));
            }
            !reserved
        });
        if own.0.is_empty() {
            return Ok(Self::default());
        }
        let mut wrongs = Vec::new();
        own.0.retain(|(name, _)| {
            if form.names().contains(&name.as_ref()) {
                return true;
            }
            let forms = [
                (Form::Json, "the plain address"),
                (Form::Cell, ".txt"),
                (Form::Table, ".csv"),
                (Form::Sheet, "a table sent to .csv"),
                (Form::Drawing, ".svg"),
            ];
            let homes: Vec<&str> =
                forms.iter().filter(|(form, _)| form.names().contains(&name.as_ref())).map(|(_, is)| *is).collect();
            let says = format!("{name} belongs to {}.", homes.join(" and "));
            wrongs.push(Wrong::new(name, Code::NotOffered, says, "leave out"));
            false
        });
        let read = match own.read::<Self>(good) {
            Ok(read) => read,
            Err(refusal) => {
                wrongs.extend(refusal.0);
                return Err(Refusal(wrongs));
            }
        };
        let machine = read.machine.as_deref().map(machine::find).transpose().unwrap_or_else(|wrong| {
            wrongs.push(wrong);
            None
        });
        let has_resolution = read.resolution.is_some() || machine.is_some_and(|m| m.field("resolution").is_some());
        let counting = [("z_plus", read.z_plus.is_some()), ("x_reads", read.x_reads.is_some())];
        if let (Some((name, _)), false) = (counting.iter().find(|(_, given)| *given), has_resolution) {
            let says = format!("{name} says how a setting counts; settings need the resolution of the readout.");
            wrongs.push(Wrong::new("resolution", Code::FieldMissing, says, "0.0005 in"));
        }
        for (one, is, other, also) in [
            ("solve_for", &read.solve_for, "wanted", &read.wanted),
            ("correct", &read.correct, "measured", &read.measured),
        ] {
            let (missing, there) = match (is, also) {
                (Some(_), None) => (other, one),
                (None, Some(_)) => (one, other),
                _ => continue,
            };
            if backwards::targets(entry).next().is_none() {
                wrongs.push(backwards::no_target(there));
                continue;
            }
            let says = format!("{there} needs {missing} beside it.");
            let good = match missing {
                "wanted" | "measured" => backwards::good_goal(entry),
                _ => backwards::targets(entry).next().map(str::to_owned),
            };
            wrongs.push(Wrong::new(missing, Code::FieldMissing, says, good.unwrap_or_default()));
        }
        if read.solve_for.is_some() && read.correct.is_some() {
            let says = "A request is solved backwards or corrected, not both.";
            wrongs.push(Wrong::new("correct", Code::Conflict, says, "leave out"));
        }
        if !wrongs.is_empty() {
            return Err(Refusal(wrongs));
        }
        Ok(read)
    }
}
