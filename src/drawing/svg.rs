//! A sheet as SVG. All looks are attributes with `currentColor`, which a page's strict policy allows
//! and a page's colors reach; only a drawing that stands alone brings a style, for its own colors.

use super::layout::LaidOut;
use super::sheet::{Item, Tag};
use super::spot::{HEAD, LEADING, LETTERS, Spot, on_circle};
use super::{Ink, On, Stands};
use crate::quantity::text;
use maud::{Markup, PreEscaped, html};

/// Colors of a drawing by itself: ink on paper by day, light on dark by night, black on white in print.
const STYLE: &str = "svg{color:#1d1b16;background:#fbf9f3}text{stroke:#fbf9f3}\
    @media (prefers-color-scheme:dark){svg{color:#ece7da;background:#191713}text{stroke:#191713}}\
    @media print{svg{color:#000;background:#fff}text{stroke:#fff}}\
    text{stroke-width:3px;stroke-linejoin:round;paint-order:stroke}";

/// Writes a sheet.
pub fn write(title: &str, about: &str, sheet: &LaidOut, stands: Stands) -> String {
    let view = format!("0 0 {} {}", number(sheet.width), number(sheet.height));
    let move_to = |(x, y): Spot| (x + sheet.zero.0, y + sheet.zero.1);
    html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img" aria-labelledby="drawing-title drawing-about"
            data-scale=(text::full(sheet.scale)) data-zero-x=(number(sheet.zero.0)) data-zero-y=(number(sheet.zero.1))
            fill="none" stroke="currentColor" stroke-linecap="round" stroke-linejoin="round" {
            title id="drawing-title" { (title) }
            desc id="drawing-about" { (about) }
            @if stands == Stands::Alone { style { (PreEscaped(STYLE)) } }
            (items(&mut sheet.items.iter(), &move_to))
        }
    }
    .into_string()
}

fn items<'i>(left: &mut impl Iterator<Item = &'i Item>, move_to: &impl Fn(Spot) -> Spot) -> Markup {
    let mut out = Vec::new();
    while let Some(item) = left.next() {
        match item {
            Item::End => break,
            Item::Begin { a, tag: Tag { field, number: count }, on: Some(on), .. } => {
                let (x, y) = move_to(*a);
                let axis = if *on == On::X { "x" } else { "y" };
                out.push(html! {
                    g data-reading=[*field] data-number=[*count] data-axis=(axis) data-x=(number(x)) data-y=(number(y)) {
                        (items(left, move_to))
                    }
                });
            }
            Item::Begin { a, b, tag: Tag { field, number: count }, on: None } => {
                let ((ax, ay), (bx, by)) = (move_to(*a), move_to(*b));
                out.push(html! {
                    g data-dimension=[*field] data-number=[*count] data-x1=(number(ax)) data-y1=(number(ay))
                        data-x2=(number(bx)) data-y2=(number(by)) { (items(left, move_to)) }
                });
            }
            item => out.push(one(item, move_to)),
        }
    }
    html! { @for item in out { (item) } }
}

fn one(item: &Item, move_to: &impl Fn(Spot) -> Spot) -> Markup {
    match item {
        Item::Path { spots, closed, ink, tag } => {
            let spots: Vec<Spot> = spots.iter().map(|spot| move_to(*spot)).collect();
            match (spots.as_slice(), closed) {
                ([(x1, y1), (x2, y2)], false) => html! {
                    line x1=(number(*x1)) y1=(number(*y1)) x2=(number(*x2)) y2=(number(*y2)) stroke-width=(width(*ink))
                        stroke-dasharray=[dashes(*ink)] data-field=[tag.field] data-number=[tag.number] {}
                },
                _ => {
                    let mut d = String::new();
                    for (at, (x, y)) in spots.iter().enumerate() {
                        d.push_str(if at == 0 { "M" } else { "L" });
                        d.push_str(&format!("{} {}", number(*x), number(*y)));
                    }
                    if *closed {
                        d.push('Z');
                    }
                    drawn(&d, *ink, *tag)
                }
            }
        }
        Item::Circle { centre, radius, ink, tag } => {
            let (x, y) = move_to(*centre);
            html! {
                circle cx=(number(x)) cy=(number(y)) r=(number(*radius)) stroke-width=(width(*ink))
                    stroke-dasharray=[dashes(*ink)] data-field=[tag.field] data-number=[tag.number] {}
            }
        }
        Item::Arc { centre, radius, from, sweep, ink, tag } => {
            let (start, end) = (on_circle(*centre, *radius, *from), on_circle(*centre, *radius, from + sweep));
            let ((x1, y1), (x2, y2)) = (move_to(start), move_to(end));
            let r = number(*radius);
            let (large, sense) = (u8::from(sweep.abs() > 180.0), u8::from(*sweep < 0.0));
            let d = format!("M{} {}A{r} {r} 0 {large} {sense} {} {}", number(x1), number(y1), number(x2), number(y2));
            drawn(&d, *ink, *tag)
        }
        Item::Dot { at, tag } => {
            let (x, y) = move_to(*at);
            html! {
                circle cx=(number(x)) cy=(number(y)) r="2.2" fill="currentColor" stroke="none"
                    data-field=[tag.field] data-number=[tag.number] {}
            }
        }
        Item::Head { tip, towards: (ux, uy) } => {
            let (x, y) = move_to(*tip);
            let (bx, by, side) = (x - ux * HEAD, y - uy * HEAD, HEAD * 0.19);
            let spot = |x: f64, y: f64| format!("{} {}", number(x), number(y));
            let d = format!(
                "M{}L{}L{}Z",
                spot(x, y),
                spot(bx - uy * side, by + ux * side),
                spot(bx + uy * side, by - ux * side)
            );
            html! { path d=(d) fill="currentColor" stroke="none" {} }
        }
        Item::Text { middle, lines, turned } => {
            let (x, y) = move_to(*middle);
            let turn = turned.then(|| format!("rotate(-90 {} {})", number(x), number(y)));
            // The first line's foot, so that the capitals stand in the middle.
            let first = y + 0.36 * LETTERS - (lines.len() as f64 - 1.0) * LEADING / 2.0;
            html! {
                text x=(number(x)) y=(number(first)) fill="currentColor" stroke="none" text-anchor="middle"
                    transform=[turn] font-size=(LETTERS) font-family="Helvetica, Arial, 'Liberation Sans', Roboto, sans-serif" {
                    @if let [line] = &**lines { (line) } @else {
                        @for (at, line) in lines.iter().enumerate() {
                            tspan x=(number(x)) y=(number(first + at as f64 * LEADING)) { (line) }
                        }
                    }
                }
            }
        }
        Item::Begin { .. } | Item::End => html! {},
    }
}

fn drawn(d: &str, ink: Ink, tag: Tag) -> Markup {
    let tint = ink == Ink::Tint;
    html! {
        path d=(d) stroke-width=(width(ink)) stroke=[tint.then_some("none")] fill=[tint.then_some("currentColor")]
            fill-opacity=[tint.then_some("0.13")] stroke-dasharray=[dashes(ink)] data-field=[tag.field]
            data-number=[tag.number] {}
    }
}

fn width(ink: Ink) -> &'static str {
    match ink {
        Ink::Outline => "1.9",
        Ink::Dashed => "1.2",
        Ink::Thin | Ink::Centre | Ink::Tint => "0.8",
    }
}

fn dashes(ink: Ink) -> Option<&'static str> {
    match ink {
        Ink::Centre => Some("12 3 1.5 3"),
        Ink::Dashed => Some("5 3.5"),
        _ => None,
    }
}

/// A number with four decimals at most: far below what can be seen, and enough to measure by.
fn number(value: f64) -> String {
    let words = text::fixed(value, 4);
    words.trim_end_matches('0').trim_end_matches('.').to_owned()
}
