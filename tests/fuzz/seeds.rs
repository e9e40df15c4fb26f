//! Writes what the fuzzer begins with: the examples of the register.

use shop_reckoner::calculators::REGISTER;
use std::fs;
use std::path::Path;

fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| "corpus".into());
    let folder = Path::new(&folder);
    for target in ["quantity", "designation", "query", "json"] {
        fs::create_dir_all(folder.join(target))?;
    }
    for (at, entry) in REGISTER.iter().enumerate() {
        for (number, example) in entry.examples.iter().enumerate() {
            let name = format!("{at}-{number}");
            let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(example.fields).finish();
            let members: serde_json::Map<String, serde_json::Value> =
                example.fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).into())).collect();
            let json = serde_json::Value::Object(members).to_string();
            for (target, text) in [("query", query), ("json", json)] {
                let mut bytes = vec![at as u8];
                bytes.extend(text.bytes());
                fs::write(folder.join(target).join(&name), bytes)?;
            }
            for (field, value) in example.fields {
                let target = if field.contains("thread") { "designation" } else { "quantity" };
                fs::write(folder.join(target).join(format!("{name}-{field}")), value)?;
            }
        }
    }
    Ok(())
}
