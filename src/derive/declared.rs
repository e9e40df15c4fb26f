//! The expansion of the derives: a declaration as data, with the code that reads it and turns it into a tree.

use proc_macro2::TokenStream;
use quote::{format_ident, quote};
use syn::ext::IdentExt;
use syn::parse::ParseStream;
use syn::punctuated::Punctuated;
use syn::spanned::Spanned;
use syn::{Attribute, Data, DeriveInput, Error, Expr, Fields, GenericArgument, Ident, LitStr, PathArguments};
use syn::{Meta, Result, Token, Type};

/// Whether a struct is asked for or given.
#[derive(Clone, Copy, PartialEq)]
pub enum Side {
    Asked,
    Given,
}

/// What is taken where a field is not given.
struct Absent {
    shown: LitStr,
    value: AbsentValue,
    reason: LitStr,
}

enum AbsentValue {
    OfText,
    Like(Ident),
    Is(Box<Expr>),
}

struct Member {
    name: Ident,
    about: String,
    /// What a person calls it, and one row of it.
    label: (String, String),
    group: bool,
    optional: bool,
    /// The type, without `Option`.
    of: Type,
    absent: Option<Absent>,
    /// What narrows its type.
    narrowed: Option<TokenStream>,
    /// The fields that a result needs; each by itself, or one of several.
    needs: Vec<Vec<Ident>>,
}

pub fn derive(input: TokenStream, side: Side) -> Result<TokenStream> {
    let input: DeriveInput = syn::parse2(input)?;
    let about = about(&input.attrs);
    let members = members(&input)?;
    let ident = &input.ident;
    let schema_name = ident.to_string();
    let mut checks = Vec::new();
    for attr in input.attrs.iter().filter(|attr| attr.path().is_ident("asks")) {
        attr.parse_nested_meta(|meta| {
            if meta.path.is_ident("check") {
                checks.push(meta.value()?.parse::<syn::Path>()?);
            } else {
                return Err(meta.error("a struct has checks"));
            }
            Ok(())
        })?;
    }
    let facts: Vec<TokenStream> = members.iter().map(facts).collect();
    let trees = members.iter().map(|member| {
        let (name, text) = (&member.name, plain(&member.name));
        if member.group && member.optional {
            quote!(if let Some(group) = &self.#name { crate::declared::Declared::push_tree(group, members); })
        } else if member.group {
            quote!(crate::declared::Declared::push_tree(&self.#name, members);)
        } else {
            quote!(crate::declared::push(members, #text, &self.#name);)
        }
    });
    let closed = side == Side::Asked;
    if let Some(group) = members.iter().find(|member| closed && member.group && member.optional) {
        return Err(Error::new_spanned(&group.name, "only a group of results can be absent as a whole"));
    }
    let declared = quote! {
        impl crate::declared::FieldType for #ident {
            const TYPE: crate::declared::TypeFacts = crate::declared::TypeFacts::named::<Self>(
                crate::declared::Shape::Record(<Self as crate::declared::Declared>::DECLARATION.members),
            );
        }

        impl crate::declared::Declared for #ident {
            const DECLARATION: crate::declared::Declaration = {
                const PARTS: &[&[crate::declared::Member]] = &[#(#facts),*];
                const COUNT: usize = crate::declared::count(PARTS);
                const ALL: [crate::declared::Member; COUNT] = crate::declared::joined(PARTS);
                crate::declared::Declaration { name: #schema_name, about: #about, closed: #closed, members: &ALL }
            };

            fn push_tree(&self, members: &mut Vec<(&'static str, crate::tree::Node)>) {
                #(#trees)*
            }
        }

        impl crate::tree::IntoTree for #ident {
            fn tree(&self) -> Option<crate::tree::Node> {
                Some(crate::declared::tree_of(self))
            }
        }

        impl utoipa::PartialSchema for #ident {
            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::Schema> {
                <Self as crate::declared::Declared>::DECLARATION.schema()
            }
        }

        impl utoipa::ToSchema for #ident {
            fn name() -> std::borrow::Cow<'static, str> {
                std::borrow::Cow::Borrowed(#schema_name)
            }

            fn schemas(parts: &mut Vec<(String, utoipa::openapi::RefOr<utoipa::openapi::Schema>)>) {
                <Self as crate::declared::Declared>::DECLARATION.collect(parts);
            }
        }
    };
    if side == Side::Given {
        return Ok(declared);
    }
    let read = reader(ident, &members);
    let defaults = members.iter().filter_map(default).collect::<Vec<_>>();
    Ok(quote! {
        #declared
        #read

        impl validator::Validate for #ident {
            fn validate(&self) -> Result<(), validator::ValidationErrors> {
                let mut errors = None;
                #(crate::declared::add_broken(&mut errors, #checks(self));)*
                errors.map_or(Ok(()), Err)
            }
        }

        impl #ident {
            #(#defaults)*
        }
    })
}

/// The sentences of a documented item in one line.
fn about(attrs: &[Attribute]) -> String {
    let mut lines = Vec::new();
    for attr in attrs {
        if let Meta::NameValue(doc) = &attr.meta
            && doc.path.is_ident("doc")
            && let Expr::Lit(lit) = &doc.value
            && let syn::Lit::Str(text) = &lit.lit
        {
            lines.push(text.value().trim().to_owned());
        }
    }
    lines.join(" ").trim().to_owned()
}

fn members(input: &DeriveInput) -> Result<Vec<Member>> {
    let Data::Struct(data) = &input.data else {
        return Err(Error::new_spanned(input, "a declaration is a struct"));
    };
    let Fields::Named(fields) = &data.fields else {
        return Err(Error::new_spanned(input, "a declaration names its fields"));
    };
    let mut members = Vec::new();
    for field in &fields.named {
        let Some(name) = field.ident.clone() else { continue };
        let mut member = Member {
            about: about(&field.attrs),
            label: label(&plain(&name), &field.attrs)?,
            group: field.attrs.iter().any(|attr| attr.path().is_ident("group")),
            optional: inner(&field.ty).is_some(),
            of: inner(&field.ty).unwrap_or(&field.ty).clone(),
            absent: None,
            narrowed: None,
            needs: Vec::new(),
            name,
        };
        for attr in field.attrs.iter().filter(|attr| attr.path().is_ident("absent")) {
            if !member.optional {
                return Err(Error::new_spanned(attr, "only an Option can be absent"));
            }
            let absent = attr.parse_args_with(absent)?;
            member.about = with_default(&member.about, &absent.shown.value());
            member.absent = Some(absent);
        }
        for (word, variant) in [("bounds", format_ident!("Count")), ("pattern", format_ident!("Pattern"))] {
            if let Some(attr) = field.attrs.iter().find(|attr| attr.path().is_ident(word)) {
                let by: TokenStream = attr.parse_args()?;
                member.narrowed = Some(quote!(crate::declared::Narrowed::#variant(#by)));
            }
        }
        if let Some(attr) = field.attrs.iter().find(|attr| attr.path().is_ident("needs")) {
            if !member.optional {
                return Err(Error::new_spanned(attr, "only what may be absent has needs"));
            }
            member.needs = attr.parse_args_with(needs)?;
            if !member.group {
                member.about = with_needs(&member.about, &member.needs);
            }
        }
        if member.about.is_empty() && !member.group {
            return Err(Error::new(field.span(), "a field needs a sentence"));
        }
        members.push(member);
    }
    Ok(members)
}

fn absent(input: ParseStream) -> Result<Absent> {
    let shown: LitStr = input.parse()?;
    input.parse::<Token![,]>()?;
    let mut value = AbsentValue::OfText;
    if !input.peek(LitStr) {
        let word: Ident = input.parse()?;
        input.parse::<Token![=]>()?;
        value = match word.to_string().as_str() {
            "like" => AbsentValue::Like(input.parse()?),
            "value" => AbsentValue::Is(Box::new(input.parse()?)),
            _ => return Err(Error::new_spanned(word, "the value is `like` another field's or `value = expression`")),
        };
        input.parse::<Token![,]>()?;
    }
    let reason = input.parse()?;
    input.parse::<Option<Token![,]>>()?;
    Ok(Absent { shown, value, reason })
}

/// What a person calls a field: what its `#[label]` says, else its name in words; and one row of a list.
fn label(name: &str, attrs: &[Attribute]) -> Result<(String, String)> {
    let attr = attrs.iter().find(|attr| attr.path().is_ident("label"));
    let said = |input: ParseStream| Punctuated::<LitStr, Token![,]>::parse_separated_nonempty(input);
    let said: Vec<String> = match attr {
        Some(attr) => attr.parse_args_with(said)?.iter().map(LitStr::value).collect(),
        None => Vec::new(),
    };
    let words = name.replace('_', " ");
    let one = match words.strip_suffix("ies") {
        Some(stem) => format!("{stem}y"),
        None => words.strip_suffix('s').unwrap_or(&words).to_owned(),
    };
    let mut capital = words.chars();
    let capital = capital.next().map(|first| first.to_uppercase().chain(capital).collect()).unwrap_or_default();
    let mut said = said.into_iter();
    Ok((said.next().unwrap_or(capital), said.next().unwrap_or(one)))
}

/// Puts the default at the end of the first sentence, unless the sentence says it in its own way.
fn with_default(about: &str, shown: &str) -> String {
    if about.contains("if absent") {
        return about.to_owned();
    }
    match about.split_once(". ") {
        Some((first, rest)) => format!("{first}; {shown} if absent. {rest}"),
        None => format!("{}; {shown} if absent.", about.trim_end_matches('.')),
    }
}

/// Fields parted by commas; where one of several will do, those by `|`.
fn needs(input: ParseStream) -> Result<Vec<Vec<Ident>>> {
    let any = |input: ParseStream| -> Result<Vec<Ident>> {
        Ok(Punctuated::<Ident, Token![|]>::parse_separated_nonempty(input)?.into_iter().collect())
    };
    Ok(Punctuated::<Vec<Ident>, Token![,]>::parse_terminated_with(input, any)?.into_iter().collect())
}

/// Puts what a result needs at the end of its first sentence, unless the sentence says it in its own way.
fn with_needs(about: &str, needs: &[Vec<Ident>]) -> String {
    if about.contains("needs ") {
        return about.to_owned();
    }
    let any = |names: &Vec<Ident>| names.iter().map(plain).collect::<Vec<_>>().join(" or ");
    let all = needs.iter().map(any).collect::<Vec<_>>().join(" and ");
    match about.split_once(". ") {
        Some((first, rest)) => format!("{first}; needs {all}. {rest}"),
        None => format!("{}; needs {all}.", about.trim_end_matches('.')),
    }
}

/// A name without its `r#`.
fn plain(name: &Ident) -> String {
    name.unraw().to_string()
}

/// The type inside an `Option`.
fn inner(of: &Type) -> Option<&Type> {
    let Type::Path(path) = of else { return None };
    let last = path.path.segments.last().filter(|last| last.ident == "Option")?;
    let PathArguments::AngleBracketed(arguments) = &last.arguments else { return None };
    match arguments.args.first() {
        Some(GenericArgument::Type(of)) => Some(of),
        _ => None,
    }
}

/// A member as data; a group as those of its struct.
fn facts(member: &Member) -> TokenStream {
    let Member { name, about, of, optional, .. } = member;
    let needs = member.needs.iter().map(|any| {
        let any = any.iter().map(plain);
        quote!(&[#(#any),*])
    });
    let needs = quote!(&[#(#needs),*]);
    if member.group {
        let members = quote!(<#of as crate::declared::Declared>::DECLARATION.members);
        return if *optional {
            quote!(&crate::declared::optional::<{ #members.len() }>(#members, #needs))
        } else {
            members
        };
    }
    let name = plain(name);
    let (label, row) = &member.label;
    let narrowed = match &member.narrowed {
        Some(narrowed) => quote!(Some(#narrowed)),
        None => quote!(None),
    };
    let absent = match &member.absent {
        Some(Absent { shown, reason, value }) => {
            let taken = match value {
                AbsentValue::OfText => {
                    quote!(crate::tree::IntoTree::tree(&<#of as crate::declared::OfText>::of_text(#shown)))
                }
                AbsentValue::Like(_) => {
                    quote!(crate::tree::IntoTree::tree(&<#of>::in_unit_of(&crate::quantity::Unit::Inch, #shown)))
                }
                AbsentValue::Is(_) => quote!(None),
            };
            quote!(Some(crate::declared::Absent { shown: #shown, reason: #reason, taken: || #taken }))
        }
        None => quote!(None),
    };
    quote! {
        &[crate::declared::Member {
            name: #name,
            label: #label,
            row: #row,
            about: #about,
            optional: #optional,
            of: &<#of as crate::declared::FieldType>::TYPE,
            absent: #absent,
            narrowed: #narrowed,
            needs: #needs,
            group_needs: &[],
        }]
    }
}

/// What reads the fields: a place for each, filled one after the other in any order.
fn reader(ident: &Ident, members: &[Member]) -> TokenStream {
    let places = format_ident!("{ident}Places");
    let mut held = Punctuated::<TokenStream, Token![,]>::new();
    let mut puts = Vec::new();
    let mut ends = Vec::new();
    let mut before = quote!(0usize);
    for member in members {
        let Member { name, of, .. } = member;
        let text = plain(name);
        if member.group {
            held.push(quote!(#name: <#of as crate::declared::Asked>::Places));
            let (from, length) =
                (before.clone(), quote!(<#of as crate::declared::Declared>::DECLARATION.members.len()));
            puts.push(quote! {
                if at < #from + #length {
                    return <#of as crate::declared::Asked>::put(&mut places.#name, at - (#from), map);
                }
            });
            ends.push(quote!(#name: <#of as crate::declared::Asked>::end(places.#name)?));
            before = quote!(#before + #length);
        } else {
            held.push(quote!(#name: Option<#of>));
            puts.push(quote! {
                if at == #before {
                    return crate::declared::put(&mut places.#name, #text, map);
                }
            });
            ends.push(if member.optional {
                quote!(#name: places.#name)
            } else {
                quote!(#name: crate::declared::needed(places.#name, #text)?)
            });
            before = quote!(#before + 1);
        }
    }
    quote! {
        #[doc(hidden)]
        #[derive(Default)]
        pub struct #places { #held }

        impl crate::declared::Asked for #ident {
            type Places = #places;
            const NAMES: &'static [&'static str] = {
                const COUNT: usize = <#ident as crate::declared::Declared>::DECLARATION.members.len();
                const ALL: [&str; COUNT] = crate::declared::names(<#ident as crate::declared::Declared>::DECLARATION.members);
                &ALL
            };

            fn put<'de, A: serde::de::MapAccess<'de>>(
                places: &mut #places,
                at: usize,
                map: &mut A,
            ) -> Result<(), A::Error> {
                #(#puts)*
                Ok(())
            }

            fn end<E: serde::de::Error>(places: #places) -> Result<Self, E> {
                Ok(Self { #(#ends),* })
            }
        }

        impl<'de> serde::Deserialize<'de> for #ident {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                crate::declared::read(deserializer)
            }
        }
    }
}

/// The method that gives a field or its default.
fn default(member: &Member) -> Option<TokenStream> {
    let Member { name, of, .. } = member;
    let Absent { value, reason, shown } = member.absent.as_ref()?;
    let text = plain(name);
    let taken = match value {
        AbsentValue::OfText => quote! {{
            static TAKEN: std::sync::OnceLock<#of> = std::sync::OnceLock::new();
            *TAKEN.get_or_init(|| <#of as crate::declared::OfText>::of_text(#shown))
        }},
        AbsentValue::Like(other) => quote!(<#of>::in_unit_of(&self.#other, #shown)),
        AbsentValue::Is(value) => quote!(#value),
    };
    let about = format!("`{name}`, or what is taken where it is not given, which then stands on record.");
    Some(quote! {
        #[doc = #about]
        fn #name(&self, record: &mut crate::working::Record) -> #of {
            match &self.#name {
                Some(given) => Clone::clone(given),
                None => {
                    let taken: #of = #taken;
                    record.assume(#text, &taken, #reason);
                    taken
                }
            }
        }
    })
}
