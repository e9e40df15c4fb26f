//! The codes: what can be wrong with a request, as it is sent, in a sentence, and what to do about it.

macro_rules! codes {
    ($($(#[doc = $doc:literal])* $name:ident = $text:literal, $way_out:literal;)*) => {
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

            /// What to do about it, in a sentence or two.
            pub const fn way_out(self) -> &'static str {
                match self { $(Code::$name => $way_out,)* }
            }
        }
    };
}

codes! {
    /// The request itself cannot be read: broken JSON, percent-encoding or UTF-8.
    RequestUnreadable = "request_unreadable",
        "Check the JSON and the percent-encoding: a space is `%20`, `#` is `%23`, `+` is `%2B`.";
    /// The calculator has no such field.
    FieldUnknown = "field_unknown",
        "Check the spelling. The error names the nearest field; `/v1/calculators` lists them all.";
    /// A field that is needed is missing.
    FieldMissing = "field_missing",
        "Give the field. The error shows a good value.";
    /// A field is there more than once.
    FieldRepeated = "field_repeated",
        "Give the field once. To ask for several values, put them in one field with `|` between.";
    /// A field is there but has no value.
    ValueEmpty = "value_empty",
        "Give a value, or leave the field out.";
    /// The value is not in a form that this field takes.
    ValueUnreadable = "value_unreadable",
        "Write the value in the form that the error shows.";
    /// The value can mean more than one thing.
    ValueAmbiguous = "value_ambiguous",
        "Say which one you mean. The error shows how to write it.";
    /// The value is outside its bounds.
    ValueOutOfRange = "value_out_of_range",
        "Give a value inside the bounds that the error states.";
    /// A number has no unit.
    UnitMissing = "unit_missing",
        "Put the unit behind the number: `0.5 in`, not `0.5`.";
    /// The service does not know the unit.
    UnitUnknown = "unit_unknown",
        "Use a unit that the error lists.";
    /// The unit measures another kind of thing.
    UnitWrong = "unit_wrong",
        "Use a unit of the right kind: a length in `in` or `mm`, an angle in `deg`.";
    /// The unit fits, but it belongs to another kind of quantity.
    KindWrong = "kind_wrong",
        "Check which field the value belongs to, and use the unit that the error shows.";
    /// Fields contradict each other, or one needs another that is not there.
    Conflict = "conflict",
        "Change or leave out one of the fields that the error names, or add the one that is lacking.";
    /// What was asked for by name does not exist here: an address, a calculator, or an entry of the tables.
    NotFound = "not_found",
        "Check the spelling. The error gives the nearest names.";
    /// Each input is good by itself, but together they have no answer.
    NoAnswer = "no_answer",
        "Change one of the fields that the error names. It shows a value that gives an answer.";
    /// The service knows this but does not offer it here.
    NotOffered = "not_offered",
        "Ask for something that is offered. The error says what.";
    /// The answer takes longer to work out than a request may.
    TooMuchWork = "too_much_work",
        "Ask for fewer rows or points, a wider step, or one thing at a time. Sending the same again does not help.";
    /// The service has too much work right now.
    Busy = "busy",
        "Send the same request again after the seconds in `Retry-After`.";
    /// The request, or a part of it, is too large.
    TooLarge = "too_large",
        "Send less at once. Put a long address into a JSON body by POST; send many rows as a table or as lines.";
    /// The address does not take this method.
    MethodWrong = "method_wrong",
        "Use a method that the `Allow` header names.";
    /// The service does not read this media type or encoding of the body.
    MediaWrong = "media_wrong",
        "Send `application/json`, or `text/csv` to a `.csv` address, not compressed.";
    /// The request took too long to arrive or to answer.
    TooSlow = "too_slow",
        "Send the whole request in one go, or a smaller one.";
    /// The caller asks more often than this service allows.
    TooOften = "too_often",
        "Wait the seconds in `Retry-After`, or send many requests in one to `/v1/batch`.";
    /// The service is starting or stopping and takes no requests.
    NotReady = "not_ready",
        "Ask another copy of the service, or this one again in a minute.";
    /// The service failed. The fault is its own, not the request's.
    Failed = "failed",
        "Try another value, and tell whoever runs the service, with the `X-Request-Id` of the response.";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique_and_explained() {
        let mut seen = std::collections::HashSet::new();
        for code in Code::ALL {
            assert!(seen.insert(code.as_str()));
            assert!(code.about().ends_with('.') && code.way_out().ends_with('.'), "{}", code.as_str());
        }
    }
}
