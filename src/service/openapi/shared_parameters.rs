//! Parameters that several operations have alike, moved to the components and referred to.

use super::parts::reference;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// Replaces every parameter that is there more than once, word for word, by a reference, and puts it into `shared`.
pub fn share(paths: &mut Map<String, Value>, shared: &mut Map<String, Value>) {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    each(paths, |parameter| *counts.entry(parameter.to_string()).or_default() += 1);
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    each(paths, |parameter| {
        let text = parameter.to_string();
        if parameter.get("$ref").is_some() || counts.get(&text).is_none_or(|count| *count < 2) {
            return;
        }
        let name = names.entry(text).or_insert_with(|| {
            let name = parameter["name"].as_str().unwrap_or_default();
            let free = |name: &String| !shared.contains_key(name);
            let mut tries = std::iter::once(name.to_owned()).chain((2..).map(|number| format!("{name}.{number}")));
            let name = tries.find(free).unwrap_or_default();
            shared.insert(name.clone(), parameter.clone());
            name
        });
        *parameter = reference("parameters", name);
    });
}

fn each(paths: &mut Map<String, Value>, mut see: impl FnMut(&mut Value)) {
    let operations = paths.values_mut().filter_map(Value::as_object_mut).flat_map(|item| item.values_mut());
    for operation in operations {
        operation.get_mut("parameters").and_then(Value::as_array_mut).into_iter().flatten().for_each(&mut see);
    }
}
