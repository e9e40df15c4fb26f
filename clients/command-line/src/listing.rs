//! Which calculators there are, and what one asks for and gives, from the service's list.

use crate::failure::Failure;
use crate::service::{Request, Service};
use crate::shown::{columns, print};
use serde_json::{Value, json};

fn calculators(service: &Service) -> Result<Vec<Value>, Failure> {
    let list = service.document(&Request::get("/v1/calculators", "application/json"))?;
    Ok(list["calculators"].as_array().cloned().unwrap_or_default())
}

fn text<'v>(value: &'v Value, name: &str) -> &'v str {
    value[name].as_str().unwrap_or_default()
}

/// Prints the calculators in which all words occur.
pub fn find(service: &Service, words: &[String]) -> Result<(), Failure> {
    let all = calculators(service)?;
    let fits = |one: &&Value| {
        let said = format!("{} {} {} {}", text(one, "id"), text(one, "title"), text(one, "about"), one["words"])
            .to_lowercase();
        words.iter().all(|word| said.contains(&word.to_lowercase()))
    };
    let found: Vec<&Value> = all.iter().filter(fits).collect();
    if found.is_empty() {
        let detail = format!("no calculator has {}. Try fewer words, or `reckon find` for all.", words.join(" and "));
        return Err(Failure::Refused(json!({ "detail": detail })));
    }
    print(&columns(found.iter().map(|one| vec![text(one, "id").into(), text(one, "title").into()])));
    Ok(())
}

/// Prints what a calculator asks for and gives, and its first example as a command.
pub fn fields(service: &Service, id: &str) -> Result<(), Failure> {
    let all = calculators(service)?;
    let Some(one) = all.iter().find(|one| one["id"] == id) else {
        let detail = format!("there is no calculator {id}. `reckon find` lists them.");
        return Err(Failure::Refused(json!({ "detail": detail })));
    };
    let list = |name: &str| one[name].as_array().cloned().unwrap_or_default();
    print(&format!("{}: {}\n\nAsks for", text(one, "title"), text(one, "about")));
    print(&columns(list("fields").iter().map(|field| {
        let needed = if field["required"] == true { "needed" } else { "" };
        vec![text(field, "name").into(), needed.into(), text(field, "about").into()]
    })));
    print("\nGives");
    print(&columns(list("results").iter().map(|field| vec![text(field, "name").into(), text(field, "about").into()])));
    if let Some(inputs) = one["examples"][0]["inputs"].as_object() {
        let fields = inputs.iter().map(|(name, value)| format!("'{name}={}'", value.as_str().unwrap_or_default()));
        print(&format!("\nFor example\nreckon ask {id} {}", fields.collect::<Vec<_>>().join(" ")));
    }
    Ok(())
}
