//! The frame of every page.

use super::assets;
use maud::{DOCTYPE, Markup, html};

/// A whole page.
pub fn page(title: &str, body: Markup) -> String {
    page_at(title, None, body)
}

/// A whole page with the address it is best sent and kept by.
pub fn page_at(title: &str, address: Option<&str>, body: Markup) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                // The keyboard of a phone takes its room from the page, so that what stands at its top stays in sight.
                meta name="viewport" content="width=device-width, initial-scale=1, interactive-widget=resizes-content";
                meta name="color-scheme" content="light dark";
                title { (title) @if title != NAME { " · " (NAME) } }
                link rel="stylesheet" href=(assets::style());
                link rel="icon" href=(assets::icon()) type="image/svg+xml";
                link rel="manifest" href=(assets::manifest());
                @if let Some(address) = address { link rel="canonical" href=(address); }
                script src=(assets::script()) defer {}
            }
            body {
                a.skip href="#main" { "To the page" }
                header {
                    a.home href="/" { (NAME) }
                    nav aria-label="Pages" {
                        a href="/practice" { "Practice" } " " a href="/guide" { "Guide" } " " a href="/docs/" { "For programs" }
                    }
                }
                // What the script has to say: no connection, a value copied.
                p #state role="status" hidden {}
                main #main tabindex="-1" { (body) }
            }
        }
    }
    .into_string()
}

/// The service's name.
pub const NAME: &str = "Shop Reckoner";
