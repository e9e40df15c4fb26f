//! JSON as people read and compare it: what fits on a line stands on one line, in the order it was made.

use serde_json::Value;

/// The longest line, but for what cannot be broken.
const WIDTH: usize = 120;

/// `value` as text, with a line end behind it.
pub fn text(value: &Value) -> String {
    let mut out = String::new();
    write(value, 0, 0, &mut out);
    out.push('\n');
    out
}

/// Writes `value` behind `taken` characters of a line that is indented by `indent`.
fn write(value: &Value, indent: usize, taken: usize, out: &mut String) {
    let start = out.len();
    on_one_line(value, out);
    // One more for the comma.
    if taken + out[start..].chars().count() < WIDTH {
        return;
    }
    let inner = indent + 1;
    let open = |out: &mut String, at: usize, name: Option<&str>| {
        out.push_str(if at > 0 { ",\n" } else { "\n" });
        let begun = out.len();
        out.push_str(&" ".repeat(inner));
        if let Some(name) = name {
            out.push_str(&quoted(name));
            out.push_str(": ");
        }
        out[begun..].chars().count()
    };
    match value {
        Value::Object(map) if !map.is_empty() => {
            out.truncate(start);
            out.push('{');
            for (at, (name, value)) in map.iter().enumerate() {
                let taken = open(out, at, Some(name));
                write(value, inner, taken, out);
            }
            out.push_str(&format!("\n{}}}", " ".repeat(indent)));
        }
        Value::Array(list) if !list.is_empty() => {
            out.truncate(start);
            out.push('[');
            for (at, value) in list.iter().enumerate() {
                let taken = open(out, at, None);
                write(value, inner, taken, out);
            }
            out.push_str(&format!("\n{}]", " ".repeat(indent)));
        }
        _ => {}
    }
}

fn on_one_line(value: &Value, out: &mut String) {
    let between = |out: &mut String, at: usize| out.push_str(if at > 0 { ", " } else { "" });
    match value {
        Value::Object(map) => {
            out.push('{');
            for (at, (name, value)) in map.iter().enumerate() {
                between(out, at);
                out.push_str(&quoted(name));
                out.push_str(": ");
                on_one_line(value, out);
            }
            out.push('}');
        }
        Value::Array(list) => {
            out.push('[');
            for (at, value) in list.iter().enumerate() {
                between(out, at);
                on_one_line(value, out);
            }
            out.push(']');
        }
        value => out.push_str(&value.to_string()),
    }
}

fn quoted(text: &str) -> String {
    Value::from(text).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_fits_stands_on_one_line_and_reads_back_the_same() {
        let long = "x".repeat(70);
        let value = json!({"a": [1, {"b": "é"}], "c": {"d": long, "e": [long, {}]}, "f": [], "g": null});
        let text = text(&value);
        assert_eq!(serde_json::from_str::<Value>(&text).ok(), Some(value));
        assert!(text.contains("\n \"a\": [1, {\"b\": \"é\"}],\n") && text.ends_with("\"g\": null\n}\n"), "{text}");
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
    }
}
