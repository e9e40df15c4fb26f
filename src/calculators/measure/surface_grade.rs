//! Roughness grade numbers against Ra in both systems, which grade a value comes to, and which processes usually leave
//! it (a university table; processes recalled from ASME B46.1).

use crate::arithmetic::measured::MeasuredWithin;
use crate::arithmetic::verdict::{Verdict, tell_verdict};
use crate::calculators::prelude::*;
use crate::reference::surface_grades::{GradeRow, grades, nearest, processes};
use crate::suggestion::{Way, value};

/// The calculator.
pub struct SurfaceGrade;

choice! {
    /// A roughness grade number of ISO 1302:1992, from N1, the finest, to N12.
    RoughnessGrade {
        /// Ra 0.025 µm.
        N1 = "N1" | "n1",
        /// Ra 0.05 µm.
        N2 = "N2" | "n2",
        /// Ra 0.1 µm.
        N3 = "N3" | "n3",
        /// Ra 0.2 µm.
        N4 = "N4" | "n4",
        /// Ra 0.4 µm.
        N5 = "N5" | "n5",
        /// Ra 0.8 µm.
        N6 = "N6" | "n6",
        /// Ra 1.6 µm.
        N7 = "N7" | "n7",
        /// Ra 3.2 µm.
        N8 = "N8" | "n8",
        /// Ra 6.3 µm.
        N9 = "N9" | "n9",
        /// Ra 12.5 µm.
        N10 = "N10" | "n10",
        /// Ra 25 µm.
        N11 = "N11" | "n11",
        /// Ra 50 µm.
        N12 = "N12" | "n12",
    }
}

/// What the surface grade calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct SurfaceGradeInput {
    /// Grade number on the drawing. Give this or the Ra.
    #[label("Grade on the drawing")]
    pub grade: Option<RoughnessGrade>,
    /// Ra on the drawing, the most allowed.
    #[label("Ra on the drawing")]
    pub ra: Option<Roughness>,
    /// Ra that was measured, to be judged.
    #[label("Ra measured")]
    pub measured_ra: Option<Roughness>,
    /// How far off the measured Ra may be.
    #[group]
    pub within: MeasuredWithin,
}

/// What a process usually leaves.
#[derive(Debug, Gives)]
pub struct SurfaceProcess {
    /// The process.
    pub process: &'static str,
    /// The finest Ra it usually leaves.
    #[label("Finest Ra")]
    pub finest: FoundRoughness,
    /// The roughest Ra it usually leaves.
    #[label("Roughest Ra")]
    pub roughest: FoundRoughness,
}

/// What the surface grade calculator gives.
#[derive(Debug, Gives)]
pub struct SurfaceGradeResult {
    /// The grade nearest to the Ra, by ratio.
    #[label("Nearest grade")]
    pub grade: &'static str,
    /// Ra asked about.
    #[label("Roughness Ra")]
    pub ra: FoundRoughness,
    /// Its Ra in micrometers.
    #[label("Its Ra in micrometers")]
    pub micrometers: f64,
    /// Its Ra in microinches, a conventional pair.
    #[label("Its Ra in microinches")]
    pub microinches: f64,
    /// How much rougher the Ra is; negative if finer.
    #[label("Rougher than the grade by")]
    pub rougher_by: FoundDeviation,
    /// The roughest grade that does not exceed the Ra.
    #[label("Grade to work to")]
    pub work_to: Option<&'static str>,
    /// The next finer grade.
    #[label("Next finer grade")]
    pub finer: Option<&'static str>,
    /// The next coarser grade.
    #[label("Next coarser grade")]
    pub coarser: Option<&'static str>,
    /// What is left to the Ra allowed; negative if rougher.
    #[label("Left to the limit")]
    #[needs(measured_ra)]
    pub left: Option<FoundRoughnessDifference>,
    /// Whether the measured Ra passes.
    #[needs(measured_ra)]
    pub verdict: Option<Verdict>,
    /// Processes that usually leave it.
    #[label("Processes that usually leave it", "process")]
    pub processes: Vec<SurfaceProcess>,
}

rules! { check(SurfaceGradeInput) {
    one_of(grade = "N7", ra = "1.6 um"): "Give the grade number or the Ra on the drawing.";
    not_both(grade, ra): "Give the grade number or the Ra, not both.";
    never(|input| input.within.uncertainty.is_some() && input.measured_ra.is_none(), Code::Conflict,
        measured_ra = "1.4 um", uncertainty = "leave out"): "How far off the measurement may be needs the measured Ra.";
} }

impl Calculator for SurfaceGrade {
    const ID: &'static str = "measure/surface-grade";
    const TITLE: &'static str = "Surface roughness grades";
    const ABOUT: &'static str = "The roughness grade N1 to N12 of an Ra and back, the processes that usually leave it, and \
        whether a measured Ra passes.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Draw a fingernail across the part and across a comparison plate of the same \
        process: turned against turned, ground against ground.";
    const WORDS: &'static str = "surface finish, roughness, Ra, AA, CLA, N grade, N7, microinch, micron finish, \
        finish symbol, comparator, ISO 1302, 63 finish, 125 finish";
    const EXAMPLES: &'static [Example] = examples! {
        "An old drawing of a pump shaft calls for N7 on the seal seat: what is that in microinches?": grade = "N7";
        "A print from overseas asks for Ra 3.2 µm on a winch drum; a comparison plate says about 100 µin.":
            ra = "3.2 um", measured_ra = "100 uin", uncertainty = "20 uin";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An old drawing says {grade}. What Ra is that?" => "ra":
            { grade = "N5" | "N6" | "N7" | "N8" | "N9", units = "metric" };
        1 "A drawing in microinches asks for {ra}. What is that in micrometers?" => "ra":
            { ra = "16 uin" | "32 uin" | "63 uin" | "125 uin" | "250 uin", units = "metric" };
        2 "The seal seat of a pump shaft is to be {grade}, and the tester reads {measured_ra}. How much is left, minus \
            if it is too rough?" => "left":
            { grade = "N6", measured_ra = "0.6 um" | "0.7 um" | "0.95 um", units = "metric" }
            { grade = "N8", measured_ra = "2.5 um" | "2.9 um" | "3.6 um", units = "metric" };
        3 "The drawing says {ra}, which is no grade. How much rougher is that than the nearest grade?" => "rougher_by":
            { ra = "2 um" | "4 um" | "1 um" | "0.5 um", units = "metric" };
    };
    type Input = SurfaceGradeInput;
    type Output = SurfaceGradeResult;
    const LEADS: &'static [&'static str] = &["grade", "ra"];
    const CONTEXT: &'static [&'static str] = &["Ra {micrometers} µm or {microinches} µin", "{verdict}"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let (ra, limit): (FoundRoughness, f64) = match (input.grade, input.ra) {
            (Some(grade), _) => {
                let row = &grades()[grade as usize];
                let ra = FoundRoughness::stated(row.ra_um, Unit::Micrometre);
                tell!(record.look_up("Ra of the grade", "roughness grades"), N = grade: grade.as_str() => ra);
                (ra, row.most())
            }
            (None, Some(ra)) => {
                let found = ra.found();
                tell!(record.choose("Ra asked about", "as given"), r = ra => ra: found);
                (found, ra.si())
            }
            (None, None) => return Err(Refusal::no_answer("Give a grade or an Ra.", &[("grade", "N7".into())])),
        };
        check_range(input, ra.si())?;
        let near = nearest(ra.si());
        record.source_of_row(
            crate::sources::source(&near.source).map_or("", |source| source.key),
            format!("grades {} to {}", grades()[0].grade, grades()[grades().len() - 1].grade),
            &near.trust,
        );
        let (micrometers, microinches) = (near.ra_um, near.ra_uin);
        let grade: &'static str = &near.grade;
        tell!(record.look_up("Nearest grade", "roughness grades, nearest by ratio"), r = ra => grade);
        let row = "roughness grades, row of the nearest";
        tell!(record.look_up("Its Ra in micrometers", row) => micrometers);
        tell!(record.look_up("Its Ra in microinches, as it is paired", row) => microinches);
        let grade_ra = FoundRoughness::stated(micrometers, Unit::Micrometre);
        tell!(record.look_up("Ra of the nearest grade", row) => grade_ra);
        let rougher_by: FoundDeviation = step!(record, "How much rougher than the nearest grade",
            d: rougher_by = (r - g) / g, r = ra, g = grade_ra);
        let at = grades().iter().position(|one| one.grade == near.grade).unwrap_or(0);
        let work_to = grades().iter().rev().find(|one| keeps_within(one, limit)).map(|one| one.grade.as_str());
        let finer = at.checked_sub(1).map(|at| grades()[at].grade.as_str());
        let coarser = grades().get(at + 1).map(|one| one.grade.as_str());
        for (what, field, name) in [
            ("Roughest grade that keeps within it", "work_to", work_to),
            ("Next finer grade", "finer", finer),
            ("Next coarser grade", "coarser", coarser),
        ] {
            if let Some(name) = name {
                record.look_up(what, "roughness grades").gives(field, name);
            }
        }
        let left = input.measured_ra.map(|measured| judge(input, (measured, limit), record));
        notes!(record =>
            superseded: "The grade numbers are those of ISO 1302:1992, which later standards no longer have; on a new \
                drawing write Ra. The two values of a grade are a conventional pair, not an exact conversion.";
            not_rz: "Ra does not convert to Rz, Rt or RMS: the ratio changes with the surface. If the drawing says Rz, \
                measure Rz.");
        Ok(SurfaceGradeResult {
            grade,
            ra,
            micrometers,
            microinches,
            rougher_by,
            work_to,
            finer,
            coarser,
            left: left.map(|(left, _)| left),
            verdict: left.map(|(_, verdict)| verdict),
            processes: list_processes(ra, record),
        })
    }
}

/// Whether the finer of a grade's two values does not exceed the limit.
fn keeps_within(grade: &GradeRow, limit: f64) -> bool {
    grade.ra().min(grade.ra_uin * 0.0254 / 1e6) <= limit * (1.0 + 1e-9)
}

fn check_range(input: &SurfaceGradeInput, ra: f64) -> Result<(), Refusal> {
    let Some(stated) = input.ra else { return Ok(()) };
    let (least, most) = (grades()[0].ra() * 0.5, grades()[grades().len() - 1].ra() * 2.0);
    if (least..=most).contains(&ra) {
        return Ok(());
    }
    let good = if ra < least { grades()[0].ra() } else { grades()[grades().len() - 1].ra() };
    let says = "No grade is near this Ra: the grades run from N1, Ra 0.025 µm or 1 µin, to N12, Ra 50 µm or 2000 µin.";
    Err(Refusal::no_answer(says, &[("ra", value(good, stated.quantity().unit, Way::Near))]))
}

/// What is left to the limit, and the verdict.
fn judge(
    input: &SurfaceGradeInput,
    (measured, limit): (Roughness, f64),
    record: &mut Record,
) -> (FoundRoughnessDifference, Verdict) {
    let limit = FoundRoughness::of_si(limit);
    let from = "the Ra given; of a grade the greater of its two paired values";
    tell!(record.look_up("Ra allowed", from) => allowed_ra: limit);
    let left: FoundRoughnessDifference = step!(record, "Left to the limit",
        l: left = a - m, a = allowed_ra: limit, m = measured_ra: measured);
    let uncertainty = input.within.off_by(record);
    let verdict = tell_verdict(record, ["left", "verdict"], left, ("uncertainty", uncertainty));
    notes!(record => sixteen_percent: "Without \"max\" on the drawing, ISO standards let 16 percent of the readings over \
        the surface exceed the Ra. One reading over it is a reason to measure more places.");
    (left, verdict)
}

fn list_processes(ra: FoundRoughness, record: &mut Record) -> Vec<SurfaceProcess> {
    let found = |um: f64| FoundRoughness::stated(um, Unit::Micrometre);
    let rows: Vec<_> = processes(ra.si()).collect();
    if let Some(first) = rows.first() {
        let key = crate::sources::source(&first.source).map_or("", |source| source.key);
        record.source_of_row(key, "usual ranges of processes", &first.trust);
    }
    let processes: Vec<SurfaceProcess> = rows
        .into_iter()
        .map(|row| SurfaceProcess {
            process: &row.process,
            finest: found(row.finest_um),
            roughest: found(row.roughest_um),
        })
        .collect();
    if processes.is_empty() {
        record.note("no_process", "No process of the list usually leaves such an Ra.");
        return processes;
    }
    let table = "usual roughness by process";
    tell!(record.look_up("Processes whose usual range holds it", table), r = ra => processes.process);
    tell!(record.look_up("Finest Ra they usually leave", table) => processes.finest);
    tell!(record.look_up("Roughest Ra they usually leave", table) => processes.roughest);
    processes
}
