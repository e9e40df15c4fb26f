//! Hardness conversion tables for steel, from data/hardness.csv: linear between the rows of one table, never outside.

use super::{rows_of, source_key};
use serde::Deserialize;
use std::sync::LazyLock;

/// A column of the tables.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Rockwell C.
    RockwellC,
    /// Rockwell B.
    RockwellB,
    /// Vickers.
    Vickers,
    /// Brinell.
    Brinell,
    /// Tensile strength in megapascals.
    Tensile,
}

impl Scale {
    /// Every column, in the order of the tables.
    pub const ALL: [Scale; 5] = [Scale::RockwellC, Scale::RockwellB, Scale::Vickers, Scale::Brinell, Scale::Tensile];

    /// What one digit of the tables is worth on this scale.
    pub const fn digit(self) -> f64 {
        match self {
            Scale::RockwellC | Scale::RockwellB => 0.1,
            _ => 1.0,
        }
    }
}

#[derive(Debug, Deserialize)]
struct Row {
    table: String,
    hrc: Option<f64>,
    hrb: Option<f64>,
    hv: Option<f64>,
    hb: Option<f64>,
    tensile_mpa: Option<f64>,
    source: String,
    trust: String,
}

impl Row {
    fn on(&self, scale: Scale) -> Option<f64> {
        match scale {
            Scale::RockwellC => self.hrc,
            Scale::RockwellB => self.hrb,
            Scale::Vickers => self.hv,
            Scale::Brinell => self.hb,
            Scale::Tensile => self.tensile_mpa,
        }
    }
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows_of(include_str!("../../data/hardness.csv")).collect());

/// What one table says of a value.
#[derive(Debug)]
pub struct Converted {
    /// The table.
    pub table: &'static str,
    /// The value on each scale that the table has there, to the digits of the tables.
    on: [Option<f64>; 5],
    /// Sources and trust of the rows used.
    pub sources: Vec<(&'static str, &'static str)>,
}

impl Converted {
    /// The value on a scale.
    pub fn on(&self, scale: Scale) -> Option<f64> {
        self.on[scale as usize]
    }

    /// Whether one of the rows used is recalled.
    pub fn is_from_memory(&self) -> bool {
        self.sources.iter().any(|(_, trust)| *trust == "from memory")
    }
}

fn tables() -> Vec<&'static [Row]> {
    ROWS.chunk_by(|a, b| a.table == b.table).collect()
}

/// The value between two rows at which `from` is met, for one other scale.
fn between(rows: &[&'static Row], from: (Scale, f64), to: Scale) -> Option<(f64, [&'static Row; 2])> {
    let mut both: Vec<(f64, f64, &'static Row)> =
        rows.iter().filter_map(|row| Some((row.on(from.0)?, row.on(to)?, *row))).collect();
    both.sort_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((_, is, row)) = both.iter().find(|(at, ..)| *at == from.1) {
        return Some(((*is / to.digit()).round() * to.digit(), [row, row]));
    }
    let pair = both.windows(2).find(|pair| pair[0].0 < from.1 && from.1 < pair[1].0)?;
    let share = (from.1 - pair[0].0) / (pair[1].0 - pair[0].0);
    let is = pair[0].1 + share * (pair[1].1 - pair[0].1);
    Some(((is / to.digit()).round() * to.digit(), [pair[0].2, pair[1].2]))
}

/// What every table that covers a value says of it.
pub fn convert(from: Scale, value: f64) -> Vec<Converted> {
    let mut all = Vec::new();
    for rows in tables() {
        let rows: Vec<&'static Row> = rows.iter().collect();
        let mut found = Converted { table: &rows[0].table, on: [None; 5], sources: Vec::new() };
        for to in Scale::ALL.into_iter().filter(|to| *to != from) {
            let Some((is, used)) = between(&rows, (from, value), to) else { continue };
            found.on[to as usize] = Some(crate::quantity::text::tidy(is));
            for row in used {
                let source = (source_key(&row.source), row.trust.as_str());
                if !found.sources.contains(&source) {
                    found.sources.push(source);
                }
            }
        }
        if !found.sources.is_empty() {
            all.push(found);
        }
    }
    all
}

/// The least and the greatest value that the tables have on a scale.
pub fn covered(scale: Scale) -> (f64, f64) {
    let values = ROWS.iter().filter_map(|row| row.on(scale));
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| (least.min(value), most.max(value)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_met_and_nothing_is_said_outside() {
        let at_60 = convert(Scale::RockwellC, 60.0);
        let e140 = at_60.iter().find(|one| one.table.contains("E140")).expect("a table");
        assert_eq!((e140.on(Scale::Vickers), e140.on(Scale::Brinell)), (Some(697.0), None));
        assert!(convert(Scale::RockwellC, 69.0).is_empty());
        assert!(convert(Scale::RockwellC, 19.0).is_empty());
        assert_eq!(covered(Scale::RockwellC), (20.0, 68.0));
    }

    #[test]
    fn every_table_rises_on_every_scale() {
        for rows in tables() {
            for from in Scale::ALL {
                let mut both: Vec<_> =
                    rows.iter().filter_map(|row| Some((row.on(Scale::Vickers)?, row.on(from)?))).collect();
                both.sort_by(|a, b| a.0.total_cmp(&b.0));
                assert!(
                    both.windows(2).all(|pair| pair[0].1 < pair[1].1 || from == Scale::Vickers),
                    "{from:?} {}",
                    rows[0].table
                );
            }
        }
    }
}
