//! What results that were left out lack: one note, from what the declaration of each says that it needs.

use super::Record;
use crate::declared::{Declaration, Member, in_sentence, label_of, one_after_another};
use crate::tree::Node;

impl Record {
    /// Notes the results that are absent for want of a field, with the fields that they lack.
    pub fn tell_lacking(&mut self, asked: &Declaration, output: &Declaration, inputs: &Node, result: &Node) {
        if self.only_result {
            return;
        }
        let given =
            |name: &str| inputs.member(name).is_some() || self.assumed.iter().any(|assumed| assumed.field == name);
        let lacking = |member: &Member| {
            let unmet = member.group_needs.iter().chain(member.needs).filter(|any| !any.iter().any(|one| given(one)));
            let called = |name: &&str| in_sentence(&label_of(asked.members, name));
            let mut unmet: Vec<String> =
                unmet.map(|any| any.iter().map(called).collect::<Vec<_>>().join(" or ")).collect();
            unmet.dedup();
            one_after_another(&unmet, "and")
        };
        let mut left_out: Vec<(String, Vec<String>)> = Vec::new();
        for member in output.members.iter().filter(|member| result.member(member.name).is_none()) {
            let lacks = lacking(member);
            if lacks.is_empty() {
                continue;
            }
            let name = in_sentence(member.label);
            match left_out.iter_mut().find(|(same, _)| *same == lacks) {
                // A result that only says again what would have been given is not missed.
                _ if lacks == name => {}
                Some((_, names)) => names.push(name),
                None => left_out.push((lacks, vec![name])),
            }
        }
        if left_out.is_empty() {
            return;
        }
        let says = left_out.iter().map(|(lacks, names)| {
            format!("{} {} {lacks}", one_after_another(names, "and"), if names.len() == 1 { "needs" } else { "need" })
        });
        self.note("left_out", format!("Not worked out: {}.", says.collect::<Vec<_>>().join("; ")));
    }
}
