//! The schemas of answers: what all have, and for each calculator its kinds of answer (a result, perhaps with
//! a correction; rows; roots), told apart by what they must have.

use super::parts::{Named, a, list, of, words};
use crate::asking::targets;
use crate::calculators::Entry;
use serde_json::{Value, json};

/// What answers of all calculators share.
pub fn shared() -> Named {
    let frame = json!({
        "type": "object",
        "description": "What every answer has. Beside it stands what was found: result, rows, roots, or result and \
                        correction, as the calculator's own address describes them.",
        "required": ["calculator", "version", "data_version", "inputs", "assumed", "working", "notes", "cautions",
                     "sources", "trust"],
        "properties": {
            "calculator": a("CalculatorId", "The calculator that answered."),
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "link": words("The address that gives this answer again by GET; absent where it would be too long. With \
                           the answer itself it is the receipt that /v1/recheck takes."),
            "shop": a("ShopUsed", "The shop that was answered for; only where the service was started with --shop."),
            "inputs": of("Understood"),
            "assumed": list("Assumed", "Every default that was used."),
            "working": list("Step", "The working, step by step; empty if it is not wanted."),
            "notes": list("Remark", "What to know about the answer."),
            "cautions": list("Remark", "What to beware of."),
            "sources": list("SourceUsed", "The sources used."),
            "trust": a("Trust", "The worst trust of the sources used."),
        }
    });
    let any = json!({"type": "object", "additionalProperties": true, "description": "Fields by their names."});
    let single = [of("Stated"), of("StatedPoint"), json!({"type": "string"}), json!({"type": "number"})];
    let items = [&single[..], &[of("AnyFields")]].concat();
    let values = [&single[..], &[json!({"type": "boolean"}), json!({"type": "array", "items": {"anyOf": items}})]];
    let value = json!({
        "description": "What a field was understood as: a quantity, a point, a word, a number or a list.",
        "anyOf": values.concat() });
    let understood = json!({
        "type": "object", "description": "The inputs by their names as understood, value and unit as stated.",
        "additionalProperties": of("StatedValue") });
    let wrongs = json!({"type": "array", "description": "What is wrong, one by one.", "items": of("Wrong")});
    [("AnswerFrame", frame), ("AnyFields", any), ("StatedValue", value), ("Understood", understood), ("Wrongs", wrongs)]
        .map(|(name, of)| (name.to_owned(), of))
        .into()
}

/// The schemas of a calculator's answers; `stem` begins their names, `result` is that of its result.
pub fn of_calculator(entry: &'static Entry, stem: &str, result: &str) -> Named {
    let name = |part: &str| format!("{stem}{part}");
    let mut all = Named::new();
    let mut kinds = Vec::new();
    let mut kind = |all: &mut Named, part: &str, must: &str, properties: Value| {
        kinds.push(of(&name(part)));
        // Both in allOf: some readers pass over what stands beside a single reference.
        let own = json!({"type": "object", "required": [must], "properties": properties});
        all.push((name(part), json!({"allOf": [of("AnswerFrame"), own]})));
    };
    let found = match targets(entry).next() {
        Some(_) => json!({"result": of(result), "correction": of("Correction")}),
        None => json!({"result": of(result)}),
    };
    kind(&mut all, "OneAnswer", "result", found);
    let rows = json!({
        "rows": list(&name("Case"), "One row for each case."),
        // The second row's result less the first's, where there are two.
        "difference": of("AnyFields"),
    });
    kind(&mut all, "RowsAnswer", "rows", rows);
    let case = json!({
        "type": "object", "required": ["inputs"],
        "properties": {"inputs": of("Understood"), "result": of(result), "errors": of("Wrongs")},
        "additionalProperties": false,
    });
    all.push((name("Case"), case));
    if targets(entry).next().is_some() {
        kind(
            &mut all,
            "RootsAnswer",
            "roots",
            json!({"roots": list(&name("Root"), "Every value that gives what is wanted.")}),
        );
        let root = json!({
            "type": "object", "required": ["value", "inputs", "result"],
            "properties": {
                "value": of("Stated"),
                "up_to": a("Stated", "Only where every value from that one on to this one gives the result."),
                "inputs": of("Understood"),
                "result": of(result),
            },
            "additionalProperties": false,
        });
        all.push((name("Root"), root));
    }
    let about = format!("An answer of {}, by its kind.", entry.id);
    let answer = json!({"description": about, "oneOf": kinds, "unevaluatedProperties": false});
    all.push((name("Answer"), answer));
    all
}
