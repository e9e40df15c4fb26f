//! The files that pages need beside their HTML, all inside the binary. Each is at an address that
//! holds the hash of its bytes, so that it can be kept for ever; the service worker alone must stay at one.

use std::sync::LazyLock;
use twox_hash::XxHash3_64;

/// A file.
#[derive(Debug)]
pub struct Asset {
    /// Where it is.
    pub address: String,
    /// What it is.
    pub media_type: &'static str,
    /// The file.
    pub text: String,
    /// Whether its address changes with its bytes.
    pub for_ever: bool,
}

/// The address of the service worker, which reaches as far as its folder.
pub const WORKER: &str = "/service-worker.js";
/// The page that stands in for one that cannot be had.
pub const OFFLINE: &str = "/offline";

/// Every file.
pub fn all() -> &'static [Asset] {
    static ALL: LazyLock<Vec<Asset>> = LazyLock::new(|| {
        let style = kept("style", "css", "text/css; charset=utf-8", include_str!("style.css"));
        let script = [include_str!("script.js"), include_str!("boxes.js")].concat();
        let script = kept("script", "js", "text/javascript; charset=utf-8", &script);
        let icon = kept("icon", "svg", "image/svg+xml", include_str!("icon.svg"));
        let listed = include_str!("manifest.json").replace("ICON", &icon.address);
        let manifest = kept("manifest", "json", "application/manifest+json", &listed);
        let practice = kept("practice", "css", "text/css; charset=utf-8", include_str!("practice.css"));
        let search = kept("search", "js", "text/javascript; charset=utf-8", include_str!("search.js"));
        let home = kept("home", "css", "text/css; charset=utf-8", include_str!("home.css"));
        let shell: Vec<&str> = [&style, &script, &icon, &manifest, &practice, &search, &home]
            .iter()
            .map(|asset| asset.address.as_str())
            .collect();
        let shell = serde_json::to_string(&shell).unwrap_or_default();
        // A new version of anything is a new cache, which the worker fills before it drops the old one.
        let cache = format!("pages-{}-{:08x}", crate::VERSION, XxHash3_64::oneshot(shell.as_bytes()) as u32);
        let worker = include_str!("worker.js").replace("SHELL_FILES", &shell).replace("CACHE_NAME", &cache);
        let worker = Asset {
            address: WORKER.to_owned(),
            media_type: "text/javascript; charset=utf-8",
            text: worker,
            for_ever: false,
        };
        // For those who write programs, who have a connection.
        let reference = kept("reference", "css", "text/css; charset=utf-8", include_str!("reference.css"));
        let drawing = kept("reference", "js", "text/javascript; charset=utf-8", include_str!("reference.js"));
        vec![style, script, icon, manifest, practice, worker, reference, drawing, search, home]
    });
    &ALL
}

fn kept(name: &str, ending: &str, media_type: &'static str, text: &str) -> Asset {
    let hash = XxHash3_64::oneshot(text.as_bytes()) as u32;
    let address = format!("/assets/{name}-{hash:08x}.{ending}");
    Asset { address, media_type, text: text.to_owned(), for_ever: true }
}

fn address(at: usize) -> &'static str {
    all().get(at).map_or("", |asset| &asset.address)
}

/// The address of the style sheet.
pub fn style() -> &'static str {
    address(0)
}

/// The address of the script.
pub fn script() -> &'static str {
    address(1)
}

/// The address of the icon.
pub fn icon() -> &'static str {
    address(2)
}

/// The address of the manifest, by which a device can keep the page like a program.
pub fn manifest() -> &'static str {
    address(3)
}

/// The address of what practice adds to the style sheet, mostly for paper.
pub fn practice_style() -> &'static str {
    address(4)
}

/// The address of what the published description adds to the style sheet.
pub fn reference_style() -> &'static str {
    address(6)
}

/// The address of the script that draws the published description.
pub fn reference_script() -> &'static str {
    address(7)
}

/// The address of the script of the first page.
pub fn search_script() -> &'static str {
    address(8)
}

/// The address of what the first page adds to the style sheet.
pub fn home_style() -> &'static str {
    address(9)
}
