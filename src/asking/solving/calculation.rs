//! One calculation: the calculator's own answer, put into the units and onto the resolution asked for.

use super::answer::{Answer, Body};
use super::filled_by_machine::FilledByMachine;
use super::system::system_of;
use super::{resolution, tolerance};
use crate::asking::describing::Reserved;
use crate::budget::go_on;
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::refusal::Refusal;
use crate::working::Record;

/// One calculation, in the units and on the resolution asked for.
pub fn one(
    entry: &'static Entry,
    fields: &Fields,
    reserved: &Reserved,
    filled: &FilledByMachine,
    working: bool,
) -> Result<Answer, Refusal> {
    on_record(entry, fields, reserved, filled, Record::new(working))
}

/// The same, on a record begun.
pub fn on_record(
    entry: &'static Entry,
    fields: &Fields,
    reserved: &Reserved,
    filled: &FilledByMachine,
    mut record: Record,
) -> Result<Answer, Refusal> {
    go_on()?;
    let solved = (entry.solve)(fields, &mut record).map_err(|refusal| filled.explain(refusal))?;
    let (inputs, mut result) = (solved.inputs, solved.result);
    filled.tell(&inputs, &mut record);
    let system = system_of(reserved.units, &inputs, filled, &mut record);
    let mut inward = false;
    result.each_quantity(&mut |leaf| {
        inward |= leaf.quantity.rounds_in(system);
        leaf.quantity = leaf.quantity.in_system(system);
    });
    if inward {
        record.round_limits(system);
    }
    for assumed in &mut record.assumed {
        assumed.value.each_quantity(&mut |leaf| {
            // A zero has no unit of its own to keep.
            if leaf.quantity.value == 0.0 {
                leaf.quantity = leaf.quantity.in_system(system);
            }
        });
    }
    tolerance::apply(entry, &inputs, system, &mut result, &mut record)?;
    resolution::apply(reserved, filled, &mut result, &mut record);
    filled.tell_unused(&mut record);
    Ok(Answer { entry, system, inputs, body: Body::Result(result), record, link: None })
}
