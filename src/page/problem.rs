//! The page in place of one that could not be made: what happened, and what to do.

use super::shell;
use crate::refusal::Code;
use maud::html;

/// What a person is told of a problem.
#[derive(Debug)]
pub struct Told<'p> {
    /// What kind of problem; none where it is the fields.
    pub code: Option<Code>,
    /// What is wrong, in words.
    pub says: &'p str,
    /// In how many seconds to ask again, if that helps.
    pub wait: Option<&'p str>,
    /// The address that was asked for.
    pub asked: &'p str,
    /// Where the guide explains it.
    pub explained: &'p str,
}

/// The page.
pub fn page(told: &Told<'_>) -> String {
    let title = told.code.map_or("Not answered", title);
    let body = html! {
        h1 { (title) }
        p.wrong { (what_to_do(told)) }
        p { (told.says) }
        @if told.code.is_some_and(may_be_asked_again) { p { a.tap href=(told.asked) { "Try again" } } }
        @if told.code == Some(Code::TooMuchWork) {
            p { a.tap href=(told.asked.split('?').next().unwrap_or_default()) { "Start over" } }
        }
        p { a href=(told.explained) { "What this means" } }
        p { a href="/" { "All calculators" } }
    };
    shell::page(title, body)
}

fn title(code: Code) -> &'static str {
    match code {
        Code::Busy => "Busy",
        Code::TooOften => "Too many requests",
        Code::NotReady => "Stopping",
        Code::TooSlow | Code::TooMuchWork => "This took too long",
        Code::TooLarge => "Too long",
        Code::NotFound => "No such page",
        Code::RequestUnreadable => "The address cannot be read",
        Code::Failed => "The service failed",
        _ => "Not answered",
    }
}

fn what_to_do(told: &Told<'_>) -> String {
    if let Some(seconds) = told.wait {
        return format!("Try again in {seconds} {}.", if seconds == "1" { "second" } else { "seconds" });
    }
    let words = match told.code {
        Some(Code::NotReady) => "Try again in a minute.",
        Some(Code::TooSlow) => "Try again, or fill in less.",
        Some(Code::TooMuchWork | Code::TooLarge) => "Fill in less.",
        Some(Code::Failed) => "Try another value, and tell whoever runs the service.",
        _ => "Check the address.",
    };
    words.to_owned()
}

/// Whether the same request may be answered another time.
fn may_be_asked_again(code: Code) -> bool {
    matches!(code, Code::Busy | Code::TooOften | Code::NotReady | Code::TooSlow | Code::Failed)
}
