//! The sources of an answer, each with the version of the rows taken from it.

use crate::reference::versions::from_source;
use crate::working::Used;
use serde::ser::{Serialize, SerializeSeq, SerializeStruct, Serializer};

/// The sources used, each with the version of its rows.
pub struct Sources<'a>(pub &'a [Used]);

impl Serialize for Sources<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut list = serializer.serialize_seq(Some(self.0.len()))?;
        for used in self.0 {
            list.serialize_element(&Receipted(used))?;
        }
        list.end()
    }
}

struct Receipted<'a>(&'a Used);

impl Serialize for Receipted<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut used = serializer.serialize_struct("Used", 5)?;
        used.serialize_field("key", self.0.source.key)?;
        used.serialize_field("title", self.0.source.title)?;
        used.serialize_field("where", &self.0.place)?;
        used.serialize_field("trust", self.0.trust.as_str())?;
        match from_source(self.0.source.key) {
            Some(rows) => used.serialize_field("data_version", &rows.version)?,
            None => used.skip_field("data_version")?,
        }
        used.end()
    }
}
