//! What a calculator writes once and uses many times: the declaration of its fields
//! ([`Asks`], [`Gives`]) and the formulas of its working ([`step!`]).

mod declared;
mod formula;
mod step;

use proc_macro::TokenStream;

/// Declares what is asked for: from one struct come the reader, the schema, the tree, the rules between
/// fields and the defaults.
///
/// - `#[asks(check = function)]` on the struct: a rule between fields, `fn(&Self) -> Result<(), ValidationError>`;
///   several are checked one and all.
/// - `#[group]` on a field: the fields of another struct that derives `Asks` stand here, in their order.
/// - `#[absent("118 deg", "Reason.")]` on an `Option`: what is taken where the field is not given, as text that
///   the field's own type reads. It ends the first sentence of the description, and a method of the field's name
///   gives the value and puts the default on record.
/// - `#[label("Minor diameter, greatest")]`: what a person calls the field, wherever one reads of it; its name in words
///   where nothing is said. On a list a second text is one of its rows: `#[label("Holes", "hole")]`. An empty label, on
///   a record, leaves the labels of its own members to stand alone.
/// - `#[bounds(1, 100)]` on a plain count and `#[pattern("…")]` on words: what the description says of this field
///   beside its type.
/// - `#[absent("0", like = diameter, "Reason.")]`: the same in the unit of another field.
/// - `#[absent("the words", value = expression, "Reason.")]`: the same, where the value depends on `self`.
#[proc_macro_derive(Asks, attributes(asks, group, absent, bounds, pattern, label))]
pub fn asks(input: TokenStream) -> TokenStream {
    declared::derive(input.into(), declared::Side::Asked).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Declares what is given: from one struct come the schema, the tree and the columns of tables. `#[group]` and
/// `#[label]` as for [`Asks`]; on an `Option`, all its fields are absent together. `#[needs(material, radial_depth | axial_depth)]` on an
/// `Option` names the fields without which it is absent; it ends the first sentence of the description, and an answer
/// without the result says which of them it lacks.
#[proc_macro_derive(Gives, attributes(group, label, needs))]
pub fn gives(input: TokenStream) -> TokenStream {
    declared::derive(input.into(), declared::Side::Given).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// One step of the working, computed and shown from one expression:
///
/// ```ignore
/// let h: FoundExtent = step!(record, "Length of the point",
///     h: point_length = (D - w) / (2.0 * tan(σ / 2.0)), D = diameter, w = tip_flat, σ = point_angle);
/// ```
///
/// Before `=` stands the symbol found and the field that takes it. After the expression each symbol is given
/// its field and its value: `D = diameter` where a variable has the field's name, `D = diameter: size` where it
/// has another, `x = "points.x": place` where the field is a path, `k = const FACTOR` for a cited constant.
/// A field in parentheses is an expression that gives its name.
///
/// The expression is Rust over the symbols and the functions of `working::formula`. `π` is the number. A
/// `squared(x)` is shown as `x^2`, `root(x)` as `√(x)`, and what changes only the type, `ratio(x)`, `radians(x)`
/// and `number(x)`, is not shown at all.
#[proc_macro]
pub fn step(input: TokenStream) -> TokenStream {
    step::expand(input.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}
