//! The codes: what can be wrong with a request, as it is sent and in a sentence.

macro_rules! codes {
    ($($(#[doc = $doc:literal])* $name:ident = $text:literal;)*) => {
        /// What is wrong. The field is data beside it, not part of the code.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Code { $($(#[doc = $doc])* $name,)* }

        impl Code {
            /// Every code.
            pub const ALL: &[Code] = &[$(Code::$name,)*];

            /// The code as it is sent.
            pub const fn as_str(self) -> &'static str {
                match self { $(Code::$name => $text,)* }
            }

            /// What the code means, in a sentence.
            pub const fn about(self) -> &'static str {
                match self { $(Code::$name => concat!($($doc),*).trim_ascii(),)* }
            }
        }
    };
}

codes! {
    /// The request itself cannot be read: broken JSON, percent-encoding or UTF-8.
    RequestUnreadable = "request_unreadable";
    /// The calculator has no such field.
    FieldUnknown = "field_unknown";
    /// A field that is needed is not there.
    FieldMissing = "field_missing";
    /// A field is there more than once.
    FieldRepeated = "field_repeated";
    /// A field is there without a value.
    ValueEmpty = "value_empty";
    /// The value is not of the form this field takes.
    ValueUnreadable = "value_unreadable";
    /// The value can be meant in more than one way.
    ValueAmbiguous = "value_ambiguous";
    /// The value lies outside its bounds.
    ValueOutOfRange = "value_out_of_range";
    /// A number stands without its unit.
    UnitMissing = "unit_missing";
    /// The unit is not known here.
    UnitUnknown = "unit_unknown";
    /// The unit measures something else.
    UnitWrong = "unit_wrong";
    /// The unit has the right dimension but belongs to another kind of quantity.
    KindWrong = "kind_wrong";
    /// Fields contradict each other, or one lacks another it depends on.
    Conflict = "conflict";
    /// What was named is not in the tables.
    NotFound = "not_found";
    /// The inputs are sound, but no answer exists for them.
    NoAnswer = "no_answer";
    /// Known, but not offered here.
    NotOffered = "not_offered";
    /// The answer takes longer to work out than a request may.
    TooMuchWork = "too_much_work";
    /// The service has too much to do at the moment; the same request can be sent again a little later.
    Busy = "busy";
    /// The request, or a part of it, is larger or more than is taken here.
    TooLarge = "too_large";
    /// The address is not asked by this method.
    MethodWrong = "method_wrong";
    /// The body is of a media type or an encoding that is not read here.
    MediaWrong = "media_wrong";
    /// The request did not come, or could not be answered, in its time.
    TooSlow = "too_slow";
    /// The caller asks more often than is allowed.
    TooOften = "too_often";
    /// The service takes no requests now.
    NotReady = "not_ready";
    /// The service failed, by a fault of its own.
    Failed = "failed";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique_and_explained() {
        let mut seen = std::collections::HashSet::new();
        for code in Code::ALL {
            assert!(seen.insert(code.as_str()));
            assert!(code.about().ends_with('.'), "{}", code.as_str());
        }
    }
}
