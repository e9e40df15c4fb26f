//! The sources of an answer, each with the version of the rows taken from it.

use crate::json::{Json, ToJson};
use crate::reference::versions::from_source;
use crate::working::Used;

/// The sources used, each with the version of its rows.
pub struct Sources<'a>(pub &'a [Used]);

impl ToJson for Sources<'_> {
    fn write(&self, json: &mut Json) {
        json.list(self.0, |json, used| {
            json.object(|json| {
                json.member("key", used.source.key);
                json.member("title", used.source.title);
                json.member("where", &used.place);
                json.member("trust", used.trust.as_str());
                json.member_if_some("data_version", from_source(used.source.key).map(|rows| &rows.version));
            });
        });
    }
}
