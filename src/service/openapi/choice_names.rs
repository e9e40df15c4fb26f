//! Names for words to choose from that no program could have as a name, such as `in²` or `holes/drill-point`: generators
//! of clients take them from `x-enum-varnames`.

use serde_json::{Value, json};

/// Gives the choices within `value` names, where a word holds a sign that is in no name.
pub fn name(value: &mut Value) {
    match value {
        Value::Object(map) => {
            let words: Vec<&str> =
                map.get("enum").and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_str).collect();
            if words.iter().any(|word| word.contains(|c: char| !c.is_ascii_alphanumeric() && !"-_".contains(c))) {
                let names: Vec<String> = words.into_iter().map(of_word).collect();
                map.insert("x-enum-varnames".to_owned(), json!(names));
            }
            map.values_mut().for_each(name);
        }
        Value::Array(list) => list.iter_mut().for_each(name),
        _ => {}
    }
}

fn of_word(word: &str) -> String {
    let sign = |c: char| match c {
        '²' => '2',
        '³' => '3',
        'µ' => 'U',
        c if c.is_ascii_alphanumeric() => c.to_ascii_uppercase(),
        _ => '_',
    };
    word.chars().map(sign).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_with_an_odd_word_gets_names_and_any_other_none() {
        let mut schema =
            json!({"unit": {"enum": ["µin", "N/mm²"]}, "at": [{"enum": ["tip", "lead_angle", "bolt-circle"]}]});
        name(&mut schema);
        assert_eq!(schema["unit"]["x-enum-varnames"], json!(["UIN", "N_MM2"]));
        assert_eq!(schema["at"], json!([{"enum": ["tip", "lead_angle", "bolt-circle"]}]));
    }
}
