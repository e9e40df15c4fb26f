//! The stock to leave for a reamer, from charts by the reamer's diameter, and the hole before reaming.

use crate::declared::{Gives, step};
use crate::quantity::{FoundExtent, FoundSize, SiValue, Size, Unit, text};
use crate::reference::drilling::{hand_reaming_stock, reaming_stock};
use crate::working::Record;

/// The stock to leave, and the hole before reaming.
#[derive(Clone, Copy, Debug, Gives)]
pub struct Stock {
    /// Least stock on the diameter to leave for the reamer; absent outside the chart.
    #[label("Stock to leave, least")]
    pub stock_low: FoundExtent,
    /// Most stock on the diameter to leave for the reamer.
    #[label("Stock to leave, most")]
    pub stock_high: FoundExtent,
    /// Smallest diameter of the hole before reaming.
    #[label("Drilled hole, smallest")]
    pub drill_low: FoundSize,
    /// Largest diameter of the hole before reaming.
    #[label("Drilled hole, largest")]
    pub drill_high: FoundSize,
}

impl Stock {
    /// For a machine reamer; noted where the chart has no row.
    pub fn for_machine(diameter: Size, record: &mut Record) -> Option<Self> {
        let Some((low, high)) = reaming_stock(diameter.get().si()) else {
            record.note("no_stock", "The chart of reaming stock has no row for this diameter.");
            return None;
        };
        record.source("reamer_chart", "stock on the diameter by size of hole");
        let table = "reaming_stock.csv; a diameter on an edge belongs to the smaller band";
        Some(Self::of(diameter, (low, high, Unit::Inch), table, record))
    }

    /// For a hand reamer; in tough or light metal half as much again.
    pub fn for_hand(diameter: Size, is_more: bool, record: &mut Record) -> Option<Self> {
        let Some((low, high)) = hand_reaming_stock(diameter.get().si()) else {
            record.note("no_stock", "The table of stock for hand reamers has no row for this diameter.");
            return None;
        };
        record.source("manual_reaming_course", "undersize of holes before hand reaming");
        let times = if is_more { 1.5 } else { 1.0 };
        let table = match is_more {
            false => "hand_reaming_stock.csv; a diameter on an edge belongs to the smaller band",
            true => "hand_reaming_stock.csv, half as much again in tough or light metal",
        };
        let stock = (text::tidy(low * times), text::tidy(high * times), Unit::Millimetre);
        Some(Self::of(diameter, stock, table, record))
    }

    fn of(diameter: Size, (low, high, unit): (f64, f64, Unit), table: &'static str, record: &mut Record) -> Self {
        let (stock_low, stock_high) = (FoundExtent::stated(low, unit), FoundExtent::stated(high, unit));
        record
            .look_up("Least stock on the diameter", table)
            .with("D", "diameter", diameter)
            .gives("stock_low", stock_low);
        record
            .look_up("Most stock on the diameter", table)
            .with("D", "diameter", diameter)
            .gives("stock_high", stock_high);
        let drill_low =
            step!(record, "Smallest hole before reaming", d: drill_low = D - s, D = diameter, s = stock_high);
        let drill_high =
            step!(record, "Largest hole before reaming", d: drill_high = D - s, D = diameter, s = stock_low);
        Self { stock_low, stock_high, drill_low, drill_high }
    }
}
