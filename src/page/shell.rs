//! The frame of every page and its one style sheet.

use maud::{DOCTYPE, Markup, html};

/// The style sheet.
pub const STYLE: &str = include_str!("style.css");

/// Where the style sheet is; the name changes with the version, so that it can be kept for ever.
pub const STYLE_ADDRESS: &str = concat!("/assets/style-", env!("CARGO_PKG_VERSION"), ".css");

/// A whole page.
pub fn page(title: &str, body: Markup) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                link rel="stylesheet" href=(STYLE_ADDRESS);
                link rel="icon" href="data:,";
            }
            body { main { (body) } }
        }
    }
    .into_string()
}
