//! JSON as people compare it, small: what fits on a line stands on one line, in the order it was made, and so does each
//! parameter and property, however long, and a list of references. A difference shows which of them is another. Nothing
//! is indented, and what ends stands behind what it ends with.

use serde_json::Value;

/// The longest line, but for what is not broken.
const WIDTH: usize = 120;

/// What holds things that stand on one line each.
const LISTS: [&str; 5] = ["parameters", "properties", "responses", "content", "headers"];

/// `value` as text, with a line end behind it.
pub fn text(value: &Value) -> String {
    let mut out = String::new();
    write(value, "", &mut out);
    out.push('\n');
    out
}

/// Writes `value`, which stands under `name`.
fn write(value: &Value, name: &str, out: &mut String) {
    let line = value.to_string();
    let (pairs, ends) = match value {
        _ if name.chars().count() + line.chars().count() < WIDTH => return out.push_str(&line),
        Value::Object(map) if map.values().all(is_reference) => return out.push_str(&line),
        Value::Object(map) => (map.iter().map(|(name, value)| (Some(name), value)).collect(), ['{', '}']),
        Value::Array(list) => (list.iter().map(|value| (None, value)).collect::<Vec<_>>(), ['[', ']']),
        _ => return out.push_str(&line),
    };
    out.push(ends[0]);
    for (at, (inner, value)) in pairs.into_iter().enumerate() {
        out.push_str(if at > 0 { ",\n" } else { "\n" });
        if let Some(inner) = inner {
            out.push_str(&format!("{}:", Value::from(inner.as_str())));
        }
        if LISTS.contains(&name) {
            out.push_str(&value.to_string());
        } else {
            write(value, inner.map_or("", String::as_str), out);
        }
    }
    out.push(ends[1]);
}

fn is_reference(value: &Value) -> bool {
    value.as_object().is_some_and(|map| map.len() == 1 && map.contains_key("$ref"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_fits_stands_on_one_line_and_reads_back_the_same() {
        let long = "x".repeat(70);
        let listed = json!({"one": [long, long], "two": 2});
        let value = json!({"a": [1, {"b": "é"}], "c": {"d": long, "e": [long, {}]}, "f": [], "properties": listed});
        let text = text(&value);
        assert_eq!(serde_json::from_str::<Value>(&text).ok(), Some(value));
        assert!(
            text.contains("{\n\"a\":[1,{\"b\":\"é\"}],\n\"c\":{\n\"d\":") && text.ends_with("\"two\":2}}\n"),
            "{text}"
        );
        let too_long: Vec<&str> = text.lines().filter(|line| line.chars().count() > WIDTH).collect();
        assert_eq!(too_long, [format!("\"one\":[\"{long}\",\"{long}\"],")]);
    }
}
