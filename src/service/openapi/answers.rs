//! The schemas of answers: what all have, and for each calculator what it finds: a result, perhaps with a
//! correction; or rows; or roots. Which of them is there tells the kinds of answer apart.

use super::parts::{Named, a, list, of, words};
use crate::asking::targets;
use crate::calculators::Entry;
use serde_json::{Value, json};

/// What answers of all calculators share.
pub fn shared() -> Named {
    // Said of a field that is always there, since linters ask a bare `required` for its schema.
    let has = |found: &str| json!({"dependentRequired": {"calculator": [found]}});
    let frame = json!({
        "type": "object",
        "description": "What every answer has. Beside it stands what was found, one of three: result, perhaps with a \
                        correction; rows, one for each case, where several are asked for; roots, every value that gives \
                        what is wanted, where solve_for names an input.",
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
            "correction": of("Correction"),
            "difference": a("AnyFields", "The second row's result less the first's, where there are two rows."),
        },
        "dependentRequired": {"difference": ["rows"], "correction": ["result"]},
        // One of the three, said where readers that make a type of each choice pass over it.
        "dependentSchemas": {
            "calculator": {"oneOf": [has("result"), has("rows"), has("roots")]} },
    });
    let any = json!({"type": "object", "additionalProperties": true, "description": "Fields by their names."});
    let single = [of("Stated"), of("StatedPoint"), json!({"type": "string"}), json!({"type": "number"})];
    let row = json!({
        "type": "object", "additionalProperties": true, "description": "A row of a list, its fields by their names.",
        "not": {"anyOf": [of("Stated"), of("StatedPoint")]} });
    let with = |more: &[Value]| json!([&single[..], more].concat());
    let item = json!({"description": "An item of a list.", "oneOf": with(&[of("StatedRow")])});
    let list_of = json!({"type": "array", "items": of("StatedItem")});
    let value = json!({
        "description": "What a field was understood as: a quantity, a point, a word, a number or a list.",
        "oneOf": with(&[json!({"type": "boolean"}), list_of]) });
    let understood = json!({
        "type": "object", "description": "The inputs by their names as understood, value and unit as stated.",
        "additionalProperties": of("StatedValue") });
    let case = json!({
        "type": "object", "description": "One case of several.", "required": ["inputs"],
        "properties": {"inputs": of("Understood"), "errors": of("Wrongs")} });
    let root = json!({
        "type": "object", "description": "A value that gives what is wanted.", "required": ["value", "inputs"],
        "properties": {
            "value": of("Stated"),
            "up_to": a("Stated", "Only where every value from that one on to this one gives the result."),
            "inputs": of("Understood") } });
    let wrongs = json!({"type": "array", "description": "What is wrong, one by one.", "items": of("Wrong")});
    [
        ("AnswerFrame", frame),
        ("CaseFrame", case),
        ("RootFrame", root),
        ("AnyFields", any),
        ("StatedItem", item),
        ("StatedRow", row),
        ("StatedValue", value),
        ("Understood", understood),
        ("Wrongs", wrongs),
    ]
    .map(|(name, of)| (name.to_owned(), of))
    .into()
}

/// The schemas of a calculator's answers; `stem` begins their names, `result` is that of its result.
pub fn of_calculator(entry: &'static Entry, stem: &str, result: &str) -> Named {
    let name = |part: &str| format!("{stem}{part}");
    let mut all = Named::new();
    // Both in allOf: some readers pass over what stands beside a single reference.
    let more = |frame: &str, required: &[&str], properties: Value| {
        let mut own = json!({"type": "object"});
        if !required.is_empty() {
            own["required"] = json!(required);
        }
        own["properties"] = properties;
        json!({"allOf": [of(frame), own]})
    };
    let mut found = json!({
        "result": of(result),
        "rows": list(&name("Case"), "The cases."),
    });
    all.push((name("Case"), more("CaseFrame", &[], json!({"result": of(result)}))));
    if targets(entry).next().is_some() {
        found["roots"] = list(&name("Root"), "The values found.");
        all.push((name("Root"), more("RootFrame", &["result"], json!({"result": of(result)}))));
    }
    all.push((name("Answer"), more("AnswerFrame", &[], found)));
    all
}
