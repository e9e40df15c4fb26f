//! What a calculator takes from the shop, or says of it, where the request leaves it open: change gears,
//! taps, reamers.

use super::inventory::{Shop, installed};
use crate::quantity::{SiValue, Size, text};
use crate::reference::threads::Thread;
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::Record;

/// The change gears to choose from: those of the request, else the shop's, which is put on record as assumed.
pub fn change_gears(given: Option<&[u32]>, good: &str, record: &mut Record) -> Result<Vec<u32>, Refusal> {
    gears_of(given, installed(), good, record)
}

fn gears_of(given: Option<&[u32]>, shop: Option<&Shop>, good: &str, record: &mut Record) -> Result<Vec<u32>, Refusal> {
    match (given, shop.filter(|shop| !shop.change_gears.is_empty())) {
        (Some(given), _) => Ok(given.to_vec()),
        (None, Some(shop)) => {
            record.assume("gears", &shop.change_gears, format!("The change gears of {}.", shop.name));
            Ok(shop.change_gears.clone())
        }
        (None, None) => Err(Refusal::one(Wrong::new(
            "gears",
            Code::FieldMissing,
            "List your change gears: this service has no shop file that lists any.",
            good,
        ))),
    }
}

/// Says whether the shop has a tap for the thread; nothing where no shop with taps is set.
pub fn tell_tap(thread: &Thread, record: &mut Record) {
    if let Some(shop) = installed().filter(|shop| !(shop.taps.is_empty() && shop.forming_taps.is_empty())) {
        record.note("shop_tap", tap_words(shop, thread));
    }
}

fn tap_words(shop: &Shop, thread: &Thread) -> String {
    let hand = if thread.left_hand { " left-hand" } else { "" };
    let same = |tap: &Thread| {
        tap.designation == thread.designation && tap.left_hand == thread.left_hand && tap.starts == thread.starts
    };
    let (name, designation) = (&shop.name, &thread.designation);
    const LARGER: &str = "A forming tap needs its own, larger hole: drill the hole for the tap you use.";
    match (shop.taps.iter().any(same), shop.forming_taps.iter().any(same)) {
        (true, false) => format!("{name} has a{hand} tap for {designation}."),
        (true, true) => format!("{name} has a cutting and a forming{hand} tap for {designation}. {LARGER}"),
        (false, true) => format!("{name} has a forming{hand} tap for {designation}, but no cutting tap. {LARGER}"),
        (false, false) => format!("{name} lists no{hand} tap for {designation}."),
    }
}

/// Says whether the shop has a reamer of that diameter; nothing where no shop with reamers is set.
pub fn tell_reamer(diameter: &Size, record: &mut Record) {
    if let Some(shop) = installed().filter(|shop| !shop.reamers.is_empty()) {
        record.note("shop_reamer", reamer_words(shop, diameter));
    }
}

fn reamer_words(shop: &Shop, diameter: &Size) -> String {
    let wanted = diameter.get().si();
    let off = |size: &Size| (size.get().si() - wanted).abs();
    let stated = |size: &Size| {
        let quantity = size.quantity();
        format!("{} {}", text::full(text::tidy(quantity.value)), quantity.unit.spelling())
    };
    let nearest = shop.reamers.iter().map(|reamer| &reamer.size).min_by(|a, b| off(a).total_cmp(&off(b)));
    match nearest {
        // A nanometre is no difference between reamers.
        Some(size) if off(size) < 1e-9 => format!("{} has a reamer of {}.", shop.name, stated(size)),
        Some(size) => {
            format!("{} lists no reamer of {}; its nearest is {}.", shop.name, stated(diameter), stated(size))
        }
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::threads::read;

    fn shop() -> Shop {
        let file = "name = \"Tern Point Works\"\ntaps = [\"1/4-20 UNC\", \"M8\"]\nforming_taps = [\"M8\", \"M5\"]\nreamers = [\"1/2 in\", \"12 mm\"]\n\
                    change_gears = [20, 40, 40, 127]\n";
        Shop::read(file).expect("a sound file")
    }

    #[test]
    fn the_request_goes_before_the_shop_and_the_shop_before_a_refusal() {
        let shop = shop();
        let mut record = Record::new(true);
        assert_eq!(gears_of(Some(&[30, 60]), Some(&shop), "20,40", &mut record).unwrap(), [30, 60]);
        assert!(record.assumed.is_empty());
        assert_eq!(gears_of(None, Some(&shop), "20,40", &mut record).unwrap(), [20, 40, 40, 127]);
        assert_eq!(record.assumed[0].says, "The change gears of Tern Point Works.");
        let refused = gears_of(None, None, "20,40", &mut record).unwrap_err();
        assert_eq!((refused.0[0].field.as_str(), refused.0[0].code), ("/gears", Code::FieldMissing));
    }

    #[test]
    fn a_tap_is_owned_for_its_own_thread_and_hand() {
        let shop = shop();
        assert_eq!(tap_words(&shop, &read("1/4-20 UNC").unwrap()), "Tern Point Works has a tap for 1/4-20 UNC.");
        let words = |text: &str| tap_words(&shop, &read(text).unwrap());
        assert!(words("M8-6H").starts_with("Tern Point Works has a cutting and a forming tap for M8. "));
        assert!(words("M5").starts_with("Tern Point Works has a forming tap for M5, but no cutting tap. "));
        assert_eq!(tap_words(&shop, &read("M8x1").unwrap()), "Tern Point Works lists no tap for M8x1.");
        assert_eq!(tap_words(&shop, &read("M8-LH").unwrap()), "Tern Point Works lists no left-hand tap for M8.");
    }

    #[test]
    fn a_reamer_is_owned_by_its_size_in_either_unit() {
        let shop = shop();
        let words = |text: &str| reamer_words(&shop, &Size::read(text).unwrap());
        assert_eq!(words("12.7 mm"), "Tern Point Works has a reamer of 0.5 in.");
        assert_eq!(words("10 mm"), "Tern Point Works lists no reamer of 10 mm; its nearest is 12 mm.");
    }
}
