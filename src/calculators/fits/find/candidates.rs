//! The preferred fits at a size with their limits, ranked by what is wanted.

use super::{FindFitInput, FitFound};
use crate::calculators::prelude::*;
use crate::fitting::{FitBasis, FitKind, PartLimits, clearances};
use crate::reference::fits::ToleranceClass;
use crate::reference::inch_fits::{InchFitClass, row};
use crate::reference::preferred_fits::{FitJob, FitStandard, PreferredFit, preferred_fits};
use crate::sources::Trust;

/// How many fits are listed.
const LISTED: usize = 6;

/// What is wanted of a fit; clearances in meters.
pub struct Wanted {
    job: Option<FitJob>,
    least: Option<f64>,
    greatest: Option<f64>,
}

impl Wanted {
    /// What a request wants.
    pub fn of(input: &FindFitInput) -> Self {
        Self {
            job: input.job,
            least: input.least_clearance.map(|least| least.si()),
            greatest: input.greatest_clearance.map(|most| most.si()),
        }
    }

    /// Whether any clearance is wanted.
    pub fn has_clearance(&self) -> bool {
        self.least.is_some() || self.greatest.is_some()
    }

    /// By how much a fit goes beyond the clearances wanted.
    fn beyond(&self, fit: &FitFound) -> f64 {
        let below = self.least.map_or(0.0, |least| least - fit.least_clearance.si());
        let above = self.greatest.map_or(0.0, |most| fit.greatest_clearance.si() - most);
        // What unit conversion leaves is no difference.
        [below, above].into_iter().filter(|by| *by > 1e-10).sum()
    }
}

/// Limits of both parts, with the source of each and the words for it.
struct Limits {
    hole: PartLimits,
    shaft: PartLimits,
    cited: Vec<(&'static str, String, Trust)>,
}

fn iso_limits(fit: &PreferredFit, basis: FitBasis, size: f64) -> Option<Limits> {
    let (hole, shaft) = fit.name.split_once('/')?;
    let (hole, shaft) = (ToleranceClass::read(hole)?, ToleranceClass::read(shaft)?);
    let of_basis = if basis == FitBasis::Hole { &hole } else { &shaft };
    if of_basis.letter() != "h" {
        return None;
    }
    let mut cited = Vec::new();
    let mut part = |class: ToleranceClass| {
        let limits = class.limits(size).ok()?;
        cited.push((
            limits.source,
            format!("{class}, sizes over {} to {} mm", limits.band.0, limits.band.1),
            limits.trust,
        ));
        Some(PartLimits::of(None, size, (limits.upper / 1000.0, limits.lower / 1000.0), Unit::Millimetre))
    };
    Some(Limits { hole: part(hole)?, shaft: part(shaft)?, cited })
}

fn inch_limits(fit: &PreferredFit, basis: FitBasis, size: f64) -> Option<Limits> {
    let class = InchFitClass::ALL.into_iter().find(|class| class.as_str() == fit.name)?;
    let row = row(class, size)?;
    let moved = row.moved(basis);
    let part = |(upper, lower): (f64, f64)| {
        PartLimits::of(None, size, ((upper + moved) / 1000.0, (lower + moved) / 1000.0), Unit::Inch)
    };
    let cited = vec![(row.source, format!("{} over {} to {} in", fit.name, row.over, row.to), row.trust)];
    Some(Limits { hole: part((row.hole_upper, 0.0)), shaft: part(row.shaft_limits), cited })
}

fn found(fit: &PreferredFit, limits: &Limits) -> FitFound {
    let (hole, shaft) = (&limits.hole, &limits.shaft);
    let (least, most) = clearances(hole, shaft);
    FitFound {
        name: fit.name.to_owned(),
        least_clearance: least,
        greatest_clearance: most,
        kind: FitKind::of(least.quantity().value, most.quantity().value),
        within: None,
        hole_greatest: hole.greatest,
        hole_least: hole.least,
        shaft_greatest: shaft.greatest,
        shaft_least: shaft.least,
        good_for: fit.says,
    }
}

/// The fits that may do at a size, best first, on record.
pub fn candidates(
    size: Size,
    (standard, basis): (FitStandard, FitBasis),
    wanted: &Wanted,
    record: &mut Record,
) -> Result<Vec<FitFound>, Refusal> {
    let unit = if standard == FitStandard::Iso { Unit::Millimetre } else { Unit::Inch };
    let at = size.quantity().in_unit(unit);
    let mut all: Vec<(FitFound, &PreferredFit, Limits)> = preferred_fits(standard)
        .filter(|fit| wanted.job.is_none_or(|job| fit.job == job))
        .filter_map(|fit| {
            let limits = match standard {
                FitStandard::Iso => iso_limits(fit, basis, at)?,
                FitStandard::Ansi => inch_limits(fit, basis, at)?,
            };
            Some((found(fit, &limits), fit, limits))
        })
        .collect();
    if all.is_empty() {
        return Err(refuse(size, standard));
    }
    if wanted.has_clearance() {
        let width = |fit: &FitFound| fit.greatest_clearance.si() - fit.least_clearance.si();
        let rank = |fit: &FitFound| match wanted.beyond(fit) {
            0.0 => (0.0, -width(fit)),
            beyond => (beyond, 0.0),
        };
        all.sort_by(|a, b| {
            let (a, b) = (rank(&a.0), rank(&b.0));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        });
        all.truncate(LISTED);
        all.iter_mut().for_each(|(fit, ..)| fit.within = Some(wanted.beyond(fit) == 0.0));
    }
    for (_, fit, limits) in &all {
        record.source_trusted(fit.source, "which fits are preferred, and for which job", fit.trust);
        for (source, place, trust) in &limits.cited {
            record.source_trusted(source, place.clone(), *trust);
        }
        if standard == FitStandard::Ansi && basis == FitBasis::Shaft {
            record.source_trusted("ansi_b41_recalled", "the rule for fits with a basic shaft", Trust::FromMemory);
        }
    }
    let fits: Vec<FitFound> = all.into_iter().map(|(fit, ..)| fit).collect();
    tell(&fits, standard, wanted, record);
    Ok(fits)
}

fn refuse(size: Size, standard: FitStandard) -> Refusal {
    let (says, good) = match standard {
        FitStandard::Iso => ("ISO 286 has no preferred fit for that job at this size.", "25 mm"),
        FitStandard::Ansi => ("ANSI B4.1 has fits up to 19.69 in; this size is larger.", "1 in"),
    };
    let other = if standard == FitStandard::Iso { FitStandard::Ansi } else { FitStandard::Iso };
    let small = size.quantity().in_unit(Unit::Millimetre) <= ToleranceClass::LARGEST;
    let mut ways = vec![("size", good.to_owned())];
    if standard == FitStandard::Ansi && small {
        ways.push(("standard", other.as_str().to_owned()));
    }
    Refusal::no_answer(says, &ways)
}

fn tell(fits: &[FitFound], standard: FitStandard, wanted: &Wanted, record: &mut Record) {
    let rows = match standard {
        FitStandard::Iso => "preferred fits and limits of ISO 286, rows of those names",
        FitStandard::Ansi => "limits of ANSI B4.1, rows of those names",
    };
    let texts = |of: fn(&FitFound) -> String| column(fits, of);
    tell!(record.look_up("Preferred fits that may do", "by the job and the clearances wanted")
        => "fits.name": texts(|fit| fit.name.clone()));
    tell!(record.look_up("What they are for", rows) => "fits.good_for": column(fits, |fit| fit.good_for));
    tell!(record.look_up("Their largest holes", rows) => fits.hole_greatest);
    tell!(record.look_up("Their smallest holes", rows) => fits.hole_least);
    tell!(record.look_up("Their largest shafts", rows) => fits.shaft_greatest);
    tell!(record.look_up("Their smallest shafts", rows) => fits.shaft_least);
    tell!(record.step("Least clearance", "c = D - d"), D = fits.hole_least, d = fits.shaft_greatest
        => fits.least_clearance);
    tell!(record.step("Most clearance", "C = D - d"), D = fits.hole_greatest, d = fits.shaft_least
        => fits.greatest_clearance);
    tell!(record.look_up("Kind of fit", "by the signs of both clearances")
        => "fits.kind": column(fits, |fit| fit.kind.as_str()));
    if wanted.has_clearance() {
        tell!(record.look_up("Whether it keeps within the clearances wanted", "both clearances compared with those wanted")
            => fits.within);
    }
}
