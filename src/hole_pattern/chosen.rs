//! Which holes of a pattern are drilled, and in which order: all, some, or all but some.

use crate::declared::Asks;
use crate::refusal::{Code, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// Which holes of a pattern are drilled.
#[derive(Clone, Debug, Asks)]
pub struct ChosenHoles {
    /// Numbers of the holes to list, in the order to drill them; all if absent.
    #[label("Only these holes")]
    pub only: Option<Vec<u32>>,
    /// Numbers of the holes to leave out; none if absent.
    #[label("Leave out these holes")]
    pub skip: Option<Vec<u32>>,
}

impl ChosenHoles {
    /// The numbers of the holes listed.
    pub fn numbers(&self, holes: u32) -> Vec<u32> {
        let skip = self.skip.as_deref().unwrap_or_default();
        let all = || (1..=holes).filter(|number| !skip.contains(number)).collect();
        self.only.clone().unwrap_or_else(all)
    }

    /// Whether every hole of the pattern is listed in its order.
    pub fn is_all(&self) -> bool {
        self.only.is_none() && self.skip.is_none()
    }

    /// Refuses numbers that are not in the pattern, numbers given twice, and nothing left to drill.
    pub fn check(&self, holes: u32) -> Result<(), ValidationError> {
        if self.only.is_some() && self.skip.is_some() {
            let says = "List the holes to drill or the holes to leave out, not both.";
            return Err(rule_broken(Code::Conflict, says, &[("only", "leave out"), ("skip", "leave out")]));
        }
        check_list("only", self.only.as_deref(), holes, holes)?;
        check_list("skip", self.skip.as_deref(), holes, holes.saturating_sub(1))
    }
}

fn check_list(field: &'static str, list: Option<&[u32]>, holes: u32, most: u32) -> Result<(), ValidationError> {
    let Some(list) = list else { return Ok(()) };
    let refuse = |says: String| {
        let mut fit: Vec<u32> = Vec::new();
        for number in list.iter().copied().filter(|number| (1..=holes).contains(number)) {
            if !fit.contains(&number) && fit.len() < most as usize {
                fit.push(number);
            }
        }
        let fit: Vec<String> = fit.iter().map(u32::to_string).collect();
        let try_this = match (fit.is_empty(), most) {
            (_, 0) => "leave out".to_owned(),
            (true, _) => "1".to_owned(),
            _ => fit.join(","),
        };
        Err(rule_broken(Code::ValueOutOfRange, says, &[(field, &try_this)]))
    };
    if list.is_empty() || list.len() > holes as usize {
        return refuse(format!("List 1 to {} holes.", most.max(1)));
    }
    if let Some(number) = list.iter().find(|number| !(1..=holes).contains(*number)) {
        return refuse(format!("There is no hole {number}; the holes are numbered 1 to {holes}."));
    }
    let mut sorted = list.to_vec();
    sorted.sort_unstable();
    if let Some(pair) = sorted.windows(2).find(|pair| pair[0] == pair[1]) {
        return refuse(format!("Hole {} is listed twice.", pair[0]));
    }
    if list.len() > most as usize {
        return refuse("This leaves no hole to drill.".to_owned());
    }
    Ok(())
}

/// The numbers of the holes listed, on record.
pub fn find_numbers(chosen: &ChosenHoles, holes: u32, record: &mut Record) -> Vec<u32> {
    let numbers = chosen.numbers(holes);
    let shown = as_numbers(&numbers);
    const WHAT: &str = "Holes to list";
    let step = match (&chosen.only, &chosen.skip) {
        (Some(_), _) => record.choose(WHAT, "the holes listed").with("o", "only", shown.clone()),
        (None, Some(skip)) => record
            .look_up(WHAT, "every whole number from 1 to the last hole but those left out")
            .with("s", "skip", as_numbers(skip)),
        (None, None) => record.look_up(WHAT, "every whole number from 1 to the last hole"),
    };
    step.gives("positions.number", shown);
    numbers
}

/// Whole numbers as a step shows them.
pub fn as_numbers(numbers: &[u32]) -> Vec<f64> {
    numbers.iter().copied().map(f64::from).collect()
}
