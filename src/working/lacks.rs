//! What results that were left out lack: one note, from what the declaration of each says that it needs.

use super::Record;
use crate::declared::{Declaration, Member};
use crate::tree::Node;

impl Record {
    /// Notes the results that are absent for want of a field, with the fields that they lack.
    pub fn tell_lacking(&mut self, output: &Declaration, inputs: &Node, result: &Node) {
        if self.only_result {
            return;
        }
        let given =
            |name: &str| inputs.member(name).is_some() || self.assumed.iter().any(|assumed| assumed.field == name);
        let lacking = |member: &Member| {
            let unmet = member.group_needs.iter().chain(member.needs).filter(|any| !any.iter().any(|one| given(one)));
            let mut unmet: Vec<String> = unmet.map(|any| any.join(" or ")).collect();
            unmet.dedup();
            unmet.join(" and ")
        };
        let mut left_out: Vec<(String, Vec<&str>)> = Vec::new();
        for member in output.members.iter().filter(|member| result.member(member.name).is_none()) {
            let lacks = lacking(member);
            match left_out.iter_mut().find(|(same, _)| *same == lacks) {
                _ if lacks.is_empty() => {}
                Some((_, names)) => names.push(member.name),
                None => left_out.push((lacks, vec![member.name])),
            }
        }
        if left_out.is_empty() {
            return;
        }
        let says = left_out.iter().map(|(lacks, names)| {
            format!("{} {} {lacks}", names.join(", "), if names.len() == 1 { "needs" } else { "need" })
        });
        self.note("left_out", format!("Left out: {}.", says.collect::<Vec<_>>().join("; ")));
    }
}
