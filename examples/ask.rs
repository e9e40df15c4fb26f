//! Asks a calculator from the shell: `cargo run --example ask -- holes/drill-point 'diameter=0.5 in'`.
use shop_reckoner::asking::{Form, ask, table};
use shop_reckoner::calculators::find;
use shop_reckoner::fields::Fields;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let entry = find(&args[1]).expect("a calculator");
    let fields = Fields::of_query(&args[2]).expect("a query");
    match ask(entry, fields.clone(), Form::Json) {
        Ok((answer, reserved)) => {
            println!("{}", serde_json::to_string_pretty(&answer).unwrap());
            println!("{}", table(&answer, &reserved));
        }
        Err(refusal) => println!("{}", serde_json::to_string_pretty(&refusal.0).unwrap()),
    }
}
