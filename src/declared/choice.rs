//! Choices of words.

/// Declares a choice of words, read and written in snake case, with its schema. A word may have
/// others that are read for it: `XAxis = "x_axis" | "x"`.
#[macro_export]
macro_rules! choice {
    ($(#[doc = $doc:literal])* $name:ident {
        $($(#[doc = $vdoc:literal])* $variant:ident = $text:literal $(| $alias:literal)*),* $(,)?
    }) => {
        $(#[doc = $doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize)]
        pub enum $name { $($(#[doc = $vdoc])* #[serde(rename = $text $(, alias = $alias)*)] $variant),* }

        impl $crate::declared::FieldType for $name {
            const TYPE: $crate::declared::TypeFacts = $crate::declared::TypeFacts::named::<Self>($crate::declared::Shape::Choice(&[$($text),*]));
        }

        // By hand: the derive neither sees a macro's words nor keeps the sentences of the variants.
        impl utoipa::PartialSchema for $name {
            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::Schema> {
                $crate::declared::choice_schema(concat!($($doc),*), &[$($text),*])
            }
        }

        impl utoipa::ToSchema for $name {}

        impl $name {
            /// The word.
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$variant => $text),* }
            }
        }

        impl $crate::declared::OfText for $name {
            fn of_text(text: &'static str) -> Self {
                match text {
                    $($text => Self::$variant,)*
                    _ => panic!("{text} is not one of the words"),
                }
            }
        }

        impl $crate::tree::IntoTree for $name {
            fn tree(&self) -> Option<$crate::tree::Node> {
                Some($crate::tree::Node::Text(std::borrow::Cow::Borrowed(self.as_str()), None))
            }
        }
    };
}
