//! Prints the schemas of a calculator.
fn main() {
    let id = std::env::args().nth(1).unwrap();
    let e = shop_reckoner::calculators::find(&id).unwrap();
    let (n, s) = (e.input)();
    println!("{n} {}", serde_json::to_string_pretty(&s).unwrap());
    let (n, s) = (e.output)();
    println!("{n} {}", serde_json::to_string_pretty(&s).unwrap());
    let mut p = vec![];
    (e.parts)(&mut p);
    for (n, s) in p { println!("{n} {}", serde_json::to_string(&s).unwrap()); }
}
