//! The description in parts: the operations of one topic with all that they refer to, whole by itself.

use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// The part of `document` with the operations under the tag `name`.
pub fn part(document: &Value, name: &str) -> Value {
    let is_of = |item: &Value| {
        let operations = item.as_object().into_iter().flat_map(|item| item.values());
        operations.clone().all(|operation| operation["tags"][0] == name)
    };
    let kept = |map: &Value, keeps: &dyn Fn(&str, &Value) -> bool| -> Map<String, Value> {
        let all = map.as_object().into_iter().flatten();
        all.filter(|(name, value)| keeps(name, value)).map(|(name, value)| (name.clone(), value.clone())).collect()
    };
    let paths = Value::from(kept(&document["paths"], &|_, item| is_of(item)));
    let mut used = BTreeSet::new();
    let mut unread = vec![&paths];
    while let Some(value) = unread.pop() {
        refer(value, &mut |to| {
            if used.insert(to)
                && let Some(component) = document.pointer(to.trim_start_matches('#'))
            {
                unread.push(component);
            }
        });
    }
    let of_kind = |(kind, all): (&String, &Value)| {
        let kept = kept(all, &|name, _| used.contains(format!("#/components/{kind}/{name}").as_str()));
        (kind.clone(), Value::from(kept))
    };
    let components: Map<String, Value> =
        document["components"].as_object().into_iter().flatten().map(of_kind).collect();
    let tags: Vec<Value> =
        document["tags"].as_array().into_iter().flatten().filter(|tag| tag["name"] == name).cloned().collect();
    let mut info = document["info"].clone();
    info["title"] = json!(format!("{}: {name}", document["info"]["title"].as_str().unwrap_or_default()));
    // The paths, which are used until here, go in last.
    let mut part = json!({"info": info, "tags": tags, "components": components});
    part["paths"] = paths;
    // In the order of the whole.
    let members = document.as_object().into_iter().flatten();
    members.map(|(key, value)| (key.clone(), part.get_mut(key).map_or_else(|| value.clone(), Value::take))).collect()
}

/// Calls `see` with whatever `value` refers to.
pub fn refer<'v>(value: &'v Value, see: &mut impl FnMut(&'v str)) {
    match value {
        Value::Object(map) => {
            if let Some(Value::String(to)) = map.get("$ref") {
                see(to);
            }
            map.values().for_each(|value| refer(value, see));
        }
        Value::Array(list) => list.iter().for_each(|value| refer(value, see)),
        _ => {}
    }
}
