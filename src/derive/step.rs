//! The expansion of `step!`.

use crate::formula::shown;
use proc_macro2::TokenStream;
use quote::{format_ident, quote, quote_spanned};
use syn::parse::{Parse, ParseStream};
use syn::spanned::Spanned;
use syn::visit_mut::{self, VisitMut};
use syn::{Expr, Ident, LitStr, Result, Token, parenthesized, token};

/// The name of a field, as code that gives it.
struct FieldName {
    name: TokenStream,
    /// Where the field is one word: the variable of that name.
    variable: Option<Ident>,
}

impl Parse for FieldName {
    fn parse(input: ParseStream) -> Result<Self> {
        if input.peek(LitStr) {
            let path: LitStr = input.parse()?;
            return Ok(Self { name: quote!(#path), variable: None });
        }
        if input.peek(token::Paren) {
            let inside;
            parenthesized!(inside in input);
            let name: Expr = inside.parse()?;
            return Ok(Self { name: quote!(#name), variable: None });
        }
        let variable: Ident = input.parse()?;
        let name = variable.to_string();
        Ok(Self { name: quote!(#name), variable: Some(variable) })
    }
}

/// A symbol, the field it stands for and its value.
enum Symbol {
    Value { symbol: Ident, field: TokenStream, value: Expr },
    Constant { symbol: Ident, value: Expr },
}

impl Parse for Symbol {
    fn parse(input: ParseStream) -> Result<Self> {
        let symbol: Ident = input.parse()?;
        input.parse::<Token![=]>()?;
        if input.parse::<Option<Token![const]>>()?.is_some() {
            return Ok(Self::Constant { symbol, value: input.parse()? });
        }
        let FieldName { name, variable } = input.parse()?;
        let value = match input.parse::<Option<Token![:]>>()? {
            Some(_) => input.parse()?,
            None => {
                let variable = variable.ok_or_else(|| input.error("a path needs its value: `x = \"a.b\": value`"))?;
                syn::parse_quote!(#variable)
            }
        };
        Ok(Self::Value { symbol, field: name, value })
    }
}

struct Step {
    record: Expr,
    what: Expr,
    symbol: Ident,
    field: TokenStream,
    formula: Expr,
    symbols: Vec<Symbol>,
}

impl Parse for Step {
    fn parse(input: ParseStream) -> Result<Self> {
        let record = input.parse()?;
        input.parse::<Token![,]>()?;
        let what = input.parse()?;
        input.parse::<Token![,]>()?;
        let symbol = input.parse()?;
        input.parse::<Token![:]>()?;
        let FieldName { name: field, .. } = input.parse()?;
        input.parse::<Token![=]>()?;
        let formula = input.parse()?;
        let mut symbols = Vec::new();
        while input.parse::<Option<Token![,]>>()?.is_some() && !input.is_empty() {
            symbols.push(input.parse()?);
        }
        Ok(Self { record, what, symbol, field, formula, symbols })
    }
}

/// Gives the symbols names that no lint minds and no variable has.
struct Renamed<'s>(&'s [(Ident, Ident)]);

impl VisitMut for Renamed<'_> {
    fn visit_expr_path_mut(&mut self, path: &mut syn::ExprPath) {
        if let Some(ident) = path.path.get_ident()
            && let Some((_, new)) = self.0.iter().find(|(old, _)| old == ident)
        {
            path.path = new.clone().into();
        }
        visit_mut::visit_expr_path_mut(self, path);
    }
}

pub fn expand(input: TokenStream) -> Result<TokenStream> {
    let Step { record, what, symbol, field, mut formula, symbols } = syn::parse2(input)?;
    let text = format!("{symbol} = {}", shown(&formula)?);
    let mut names = Vec::new();
    let mut values = Vec::new();
    let mut bound = Vec::new();
    let mut with = Vec::new();
    for (at, one) in symbols.iter().enumerate() {
        let (kept, local) = (format_ident!("kept_{at}"), format_ident!("symbol_{at}"));
        let (symbol, value) = match one {
            Symbol::Value { symbol, value, .. } | Symbol::Constant { symbol, value } => (symbol, value),
        };
        let word = symbol.to_string();
        match one {
            Symbol::Value { field, .. } => {
                values.push(quote_spanned!(value.span()=> let #kept = #value;));
                with.push(quote!(.with(#word, #field, #kept)));
            }
            Symbol::Constant { .. } => {
                values.push(quote_spanned!(value.span()=> let #kept = &#value;));
                with.push(quote!(.constant(#word, #kept)));
            }
        }
        bound.push(quote!(let #local = crate::working::formula::Symbol::symbol(&#kept);));
        names.push((symbol.clone(), local));
    }
    Renamed(&names).visit_expr_mut(&mut formula);
    Ok(quote! {{
        #(#values)*
        let found = {
            #[allow(unused_imports)]
            use crate::working::formula::*;
            #(#bound)*
            crate::quantity::OfFormula::of_formula(#formula)
        };
        #record.step(#what, #text) #(#with)* .gives(#field, found);
        found
    }})
}
