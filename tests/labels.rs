//! What a person reads in place of names: every field and result has a label in words, and within one calculator no two
//! have the same. The golden file is to be read through by a person.

mod common;

use common::golden;
use shop_reckoner::calculators::{REGISTER, find};
use shop_reckoner::declared::{Member, label, label_of};
use std::collections::BTreeMap;

/// Every path below `members`, lists with their first row.
fn paths(members: &[Member], before: &str, all: &mut Vec<String>) {
    for member in members {
        let path = format!("{before}{}", member.name);
        let inside = member.of.shape.members();
        if inside.is_empty() {
            all.push(path);
        } else {
            let row = if member.of.shape.rows().is_some() { "/0" } else { "" };
            paths(inside, &format!("{path}{row}/"), all);
        }
    }
}

#[test]
fn every_field_and_result_has_a_label_of_its_own() {
    let (mut lines, mut wrong) = (Vec::new(), Vec::new());
    for entry in REGISTER {
        lines.push(format!("{}\n", entry.id));
        for (side, members) in [("in", entry.input.members), ("out", entry.output.members)] {
            let mut all = Vec::new();
            paths(members, "", &mut all);
            let mut seen: BTreeMap<String, String> = BTreeMap::new();
            for path in all {
                let says = label(members, &path);
                if says.is_empty() || says.contains('_') || says.chars().count() > 72 {
                    wrong.push(format!("{} {path}: \"{says}\"", entry.id));
                }
                if let Some(other) = seen.insert(says.clone(), path.clone()) {
                    wrong.push(format!("{}: {other} and {path} are both \"{says}\"", entry.id));
                }
                lines.push(format!("  {side:<4}{path}: {says}\n"));
            }
        }
    }
    assert!(wrong.is_empty(), "{} labels:\n{}", wrong.len(), wrong.join("\n"));
    golden("tests/labels.txt", &lines.concat());
}

#[test]
fn a_path_is_said_in_words() {
    let entry = find("patterns/bolt-circle").expect("it is in the register");
    for (path, says) in [
        ("positions/2/x", "Hole 3, X"),
        ("positions.x", "X"),
        ("adjacent_chord", "Center to center"),
        ("nothing_known/4", "Nothing known, 4"),
    ] {
        assert_eq!(label(entry.output.members, path), says);
    }
    assert_eq!(label_of(entry.input.members, "center_x"), "Center, X");
}
