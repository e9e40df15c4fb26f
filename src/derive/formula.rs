//! A Rust expression as the working shows it.

use syn::{BinOp, Error, Expr, Lit, Result, UnOp};

/// Functions that change a value's type only, or take off what rounding did.
const UNSEEN: [&str; 5] = ["ratio", "radians", "number", "si", "not_negative"];

/// The text of an expression.
pub fn shown(expr: &Expr) -> Result<String> {
    Ok(match expr {
        Expr::Binary(binary) => {
            let sign = match binary.op {
                BinOp::Add(_) => "+",
                BinOp::Sub(_) => "-",
                BinOp::Mul(_) => "×",
                BinOp::Div(_) => "/",
                _ => return Err(Error::new_spanned(binary.op, "a formula has +, -, * and /")),
            };
            let (left, right) = (shown(&binary.left)?, shown(&binary.right)?);
            let rank = rank(&binary.op);
            // On the right of - and / an equal rank is another sum or product.
            let strict = matches!(binary.op, BinOp::Sub(_) | BinOp::Div(_));
            let left = kept_together(&binary.left, left, |inner| inner < rank);
            let right = kept_together(&binary.right, right, |inner| inner < rank || (strict && inner == rank));
            format!("{left} {sign} {right}")
        }
        Expr::Unary(unary) if matches!(unary.op, UnOp::Neg(_)) => {
            format!("-{}", kept_together(&unary.expr, shown(&unary.expr)?, |inner| inner < 2))
        }
        Expr::Paren(paren) => format!("({})", shown(&paren.expr)?),
        Expr::Group(group) => shown(&group.expr)?,
        Expr::Lit(lit) => match &lit.lit {
            Lit::Int(whole) => whole.base10_digits().to_owned(),
            Lit::Float(number) => number.base10_digits().trim_end_matches('0').trim_end_matches('.').to_owned(),
            other => return Err(Error::new_spanned(other, "a formula has numbers and symbols")),
        },
        Expr::Path(path) => {
            path.path.get_ident().ok_or_else(|| Error::new_spanned(path, "a symbol is one word"))?.to_string()
        }
        Expr::Call(call) => {
            let name = shown(&call.func)?;
            let arguments = call.args.iter().map(shown).collect::<Result<Vec<_>>>()?;
            match (name.as_str(), arguments.as_slice()) {
                (name, [one]) if UNSEEN.contains(&name) => one.clone(),
                ("squared", [one]) => format!("{}^2", raised(&call.args[0], one)),
                ("power", [one, to]) => format!("{}^{}", raised(&call.args[0], one), raised(&call.args[1], to)),
                ("root", [one]) => format!("√({one})"),
                _ => format!("{name}({})", arguments.join(", ")),
            }
        }
        other => return Err(Error::new_spanned(other, "a formula has numbers, symbols, signs and functions")),
    })
}

/// Products bind closer than sums.
fn rank(op: &BinOp) -> u8 {
    if matches!(op, BinOp::Mul(_) | BinOp::Div(_)) { 2 } else { 1 }
}

/// The text of an operand. A function that is not shown no longer holds its inside together, so parentheses do
/// where it would come apart.
fn kept_together(operand: &Expr, text: String, comes_apart: impl Fn(u8) -> bool) -> String {
    let mut inside = operand;
    while let Expr::Call(call) = inside
        && matches!(&*call.func, Expr::Path(path) if UNSEEN.iter().any(|name| path.path.is_ident(name)))
        && let Some(argument) = call.args.first()
    {
        inside = argument;
    }
    match inside {
        Expr::Binary(binary) if comes_apart(rank(&binary.op)) => format!("({text})"),
        _ => text,
    }
}

/// What is raised to a power stands alone or in parentheses.
fn raised(expr: &Expr, text: &str) -> String {
    match expr {
        Expr::Path(_) | Expr::Lit(_) | Expr::Paren(_) => text.to_owned(),
        _ => format!("({text})"),
    }
}

#[cfg(test)]
mod tests {
    use super::shown;

    #[test]
    fn an_expression_is_shown_as_a_formula() {
        for (code, text) in [
            ("(D - w) / (2.0 * tan(σ / 2.0))", "(D - w) / (2 × tan(σ / 2))"),
            ("root(squared(a) + squared(b - c))", "√(a^2 + (b - c)^2)"),
            ("0.25 * -p", "0.25 × -p"),
            ("ratio(q / s) - 1.0", "q / s - 1"),
            ("number(a + b) * c - ratio(d - e)", "(a + b) × c - (d - e)"),
            ("a / number(b / c) + -number(d - e)", "a / (b / c) + -(d - e)"),
            ("C * power(t1 / T, n)", "C × (t1 / T)^n"),
            ("root(not_negative(squared(D) - max(u, si(0.0))))", "√(D^2 - max(u, 0))"),
        ] {
            let expr = syn::parse_str(code).expect("an expression");
            assert_eq!(shown(&expr).expect("a formula"), text);
        }
    }
}
