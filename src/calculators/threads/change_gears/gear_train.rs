//! A train of change gears as a person writes it down: pairs of a driver over the gear it drives, `40/60 x 50/30`.

use crate::arithmetic::gear_trains::TEETH;
use crate::calculators::prelude::*;
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::refusal::{Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// Most pairs of one train.
const MOST_PAIRS: usize = 4;
/// A train that is always right.
const GOOD: &str = "40/60 x 50/30";

/// Pairs of driver and driven gear, from the stud to the lead screw.
#[derive(Clone, Debug, PartialEq)]
pub struct GearTrain {
    /// Driver and driven gear of each pair.
    pub pairs: Vec<(u32, u32)>,
}

impl GearTrain {
    /// Reads `40/60`, `40/60 x 50/30`, `40/60, 50/30`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let refuse = |code, says| Err(Unread { code, says, try_this: GOOD.into() });
        let unreadable =
            || format!("\"{}\" cannot be read as a train. Write each driver over the gear it drives.", shown(text));
        let parts = text.split(|c: char| "x×*,;".contains(c.to_ascii_lowercase())).map(str::trim);
        let mut pairs = Vec::new();
        for part in parts {
            let pair = part.split_once(['/', ':']).and_then(|(driver, driven)| {
                Some((driver.trim().parse::<u32>().ok()?, driven.trim().parse::<u32>().ok()?))
            });
            let Some((driver, driven)) = pair else { return refuse(Code::ValueUnreadable, unreadable()) };
            if let Some(wrong) = [driver, driven].into_iter().find(|teeth| !TEETH.contains(teeth)) {
                return refuse(Code::ValueOutOfRange, format!("Gears have 8 to 400 teeth; this one has {wrong}."));
            }
            pairs.push((driver, driven));
        }
        if pairs.len() > MOST_PAIRS {
            return refuse(Code::ValueOutOfRange, format!("A train may have up to {MOST_PAIRS} pairs of gears."));
        }
        Ok(Self { pairs })
    }

    /// The train in one spelling.
    pub fn text(&self) -> String {
        let pairs: Vec<String> = self.pairs.iter().map(|(driver, driven)| format!("{driver}/{driven}")).collect();
        pairs.join(" × ")
    }

    /// Turns of the last gear for one turn of the first.
    pub fn ratio(&self) -> f64 {
        let product = |of: fn(&(u32, u32)) -> u32| self.pairs.iter().map(|pair| f64::from(of(pair))).product::<f64>();
        product(|pair| pair.0) / product(|pair| pair.1)
    }
}

impl<'de> Deserialize<'de> for GearTrain {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for GearTrain {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.text().into(), None))
    }
}

impl FieldType for GearTrain {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for GearTrain {
    fn schema() -> RefOr<Schema> {
        let pair = "[0-9]{1,3} ?[/:] ?[0-9]{1,3}";
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(crate::quantity::pattern::listed(&format!("{pair}(?: ?[x×*,;] ?{pair}){{0,3}}"))))
            .description(Some(
                "A train of gears: drivers over driven gears from the stud on, as 40/60 or 40/60 x 50/30; or several \
                 separated by |.",
            ))
            .examples([serde_json::json!(GOOD)])
            .into()
    }
}

impl ToSchema for GearTrain {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_train_is_read_however_its_pairs_are_parted() {
        for text in ["40/60 x 50/30", "40/60×50/30", "40/60, 50/30", "40:60 * 50:30"] {
            assert_eq!(GearTrain::read(text).unwrap().pairs, [(40, 60), (50, 30)], "{text}");
        }
        let train = GearTrain::read("40/60").unwrap();
        assert_eq!((train.text(), train.ratio()), ("40/60".to_owned(), 40.0 / 60.0));
    }

    #[test]
    fn what_is_no_train_is_refused_with_one() {
        for text in ["", "40", "40/", "40/60 50/30", "40/7", "401/60", "40/60x40/60x40/60x40/60x40/60"] {
            let unread = GearTrain::read(text).unwrap_err();
            assert!(GearTrain::read(&unread.try_this).is_ok(), "{text}");
        }
    }
}
