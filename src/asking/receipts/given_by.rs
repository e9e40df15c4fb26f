//! What an answer is given by: the versions of the service, of its tables, and of the shop's file.

use serde::Serialize;
use serde_json::Value;

/// The versions an answer was given by.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GivenBy {
    /// The version of the service.
    pub version: String,
    /// The version of the tables.
    pub data_version: String,
    /// The hash of the shop's file, where it was given for one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shop: Option<String>,
}

impl GivenBy {
    /// What an old answer says of it.
    pub fn of(old: &Value) -> Self {
        let text = |value: &Value| value.as_str().unwrap_or("unknown").to_owned();
        Self {
            version: text(&old["version"]),
            data_version: text(&old["data_version"]),
            shop: old["shop"]["hash"].as_str().map(str::to_owned),
        }
    }

    /// What answers today.
    pub fn today() -> Self {
        Self {
            version: crate::VERSION.to_owned(),
            data_version: crate::data_version().to_owned(),
            shop: crate::shop::installed().map(|shop| shop.hash.clone()),
        }
    }
}
