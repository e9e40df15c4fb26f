//! A declaration with everything that one can have: what is read, refused, taken and described.

use quantity::{Angle, Extent, FoundExtent, Size, SpindleSpeed};
use shop_reckoner::declared::{Asks, Declared, Gives, Shape};
use shop_reckoner::fields::{Count, Fields};
use shop_reckoner::refusal::Refusal;
use shop_reckoner::tree::{IntoTree, Node};
// The derives name these as they stand in the library.
use shop_reckoner::{declared, quantity, tree, working};
use utoipa::PartialSchema;
use validator::Validate;

/// Speeds of a machine.
#[derive(Debug, Default, Asks)]
pub struct Speeds {
    /// Slowest speed.
    slowest: Option<SpindleSpeed>,
    /// Fastest speed.
    fastest: Option<SpindleSpeed>,
}

/// A cut.
#[derive(Debug, Asks)]
#[asks(check = rows, check = odd)]
struct Cut {
    /// Diameter.
    diameter: Size,
    /// The speeds.
    #[group]
    speeds: Speeds,
    /// How far the tool leans. It may lean either way.
    #[absent("30 deg", "Most lean so.")]
    lean: Option<Angle>,
    /// Metal left.
    #[absent("0", like = diameter, "Nothing is left.")]
    left: Option<Extent>,
    /// Depth.
    depth: Option<Extent>,
    /// Teeth.
    teeth: Option<Count<1, 9>>,
}

shop_reckoner::rules! { rows(Cut) {
    not_both(left, depth): "One of them.";
    smaller(depth < diameter, depth = "0.1 in"): "Less deep than wide.";
    needs(teeth => depth = "0.1 in", teeth = "leave out"): "Teeth need a depth.";
} }

fn odd(input: &Cut) -> Result<(), validator::ValidationError> {
    match &input.speeds {
        Speeds { slowest: Some(slowest), fastest: Some(fastest) } if slowest.get() > fastest.get() => {
            let ways = [("slowest", "100 rpm")];
            Err(shop_reckoner::refusal::rule_broken(
                shop_reckoner::refusal::Code::Conflict,
                "The wrong way round.",
                &ways,
            ))
        }
        _ => Ok(()),
    }
}

/// What a cut gives.
#[derive(Debug, Gives)]
struct Given {
    /// Depths.
    depths: Vec<FoundExtent>,
    /// One more.
    #[needs(depth, teeth | left)]
    more: Option<FoundExtent>,
    /// What lies behind it.
    #[group]
    #[needs(lean)]
    behind: Option<Behind>,
}

/// What lies behind a cut.
#[derive(Debug, Gives)]
struct Behind {
    /// The wall.
    wall: FoundExtent,
}

fn read(query: &str) -> Result<Cut, Refusal> {
    let cut: Cut = Fields::of_query(query).expect("a query").read(|_| Some("1 in"))?;
    cut.validate()?;
    Ok(cut)
}

fn refused(query: &str) -> Vec<(String, &'static str)> {
    let refusal = read(query).expect_err(query);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

#[test]
fn the_members_of_a_group_stand_in_their_place() {
    let names: Vec<&str> = Cut::DECLARATION.members.iter().map(|member| member.name).collect();
    assert_eq!(names, ["diameter", "slowest", "fastest", "lean", "left", "depth", "teeth"]);
    let cut = read("teeth=3&fastest=900%20rpm&depth=0.2in&diameter=1in").expect("a cut");
    let tree = cut.tree().expect("a tree");
    let Node::Record(members) = &tree else { panic!("{tree:?}") };
    let there: Vec<&str> = members.iter().map(|(name, _)| *name).collect();
    assert_eq!(there, ["diameter", "fastest", "depth", "teeth"]);
}

#[test]
fn what_is_unknown_repeated_or_missing_is_refused() {
    assert_eq!(refused("diameter=1in&slowist=1rpm"), [("/slowist".to_owned(), "field_unknown")]);
    assert_eq!(refused("diameter=1in&fastest=1rpm&fastest=2rpm"), [("/fastest".to_owned(), "field_repeated")]);
    assert_eq!(refused("fastest=1rpm"), [("/diameter".to_owned(), "field_missing")]);
    assert_eq!(refused("diameter=1in&teeth=12"), [("/teeth".to_owned(), "value_out_of_range")]);
}

#[test]
fn the_first_broken_row_and_every_other_check_are_refused() {
    let rows = refused("diameter=1in&left=0.1in&depth=2in&slowest=9rpm&fastest=3rpm");
    let fields: Vec<&str> = rows.iter().map(|(field, _)| field.as_str()).collect();
    assert_eq!(fields, ["/depth", "/left", "/slowest"]);
    assert_eq!(refused("diameter=1in&depth=1in"), [("/depth".to_owned(), "conflict")]);
    assert_eq!(refused("diameter=1in&teeth=2").len(), 2);
    assert!(read("diameter=1in&depth=0.5in&teeth=2&slowest=9rpm").is_ok());
}

#[test]
fn a_default_is_said_taken_and_put_on_record() {
    let about =
        |name: &str| Cut::DECLARATION.members.iter().find(|member| member.name == name).map(|member| member.about);
    assert_eq!(about("lean"), Some("How far the tool leans; 30 deg if absent. It may lean either way."));
    assert_eq!(about("left"), Some("Metal left; 0 if absent."));
    let cut = read("diameter=25mm&lean=5deg").expect("a cut");
    let mut record = working::Record::new(true);
    assert_eq!(cut.lean(&mut record).degrees(), 5.0);
    assert!(record.assumed.is_empty());
    assert_eq!(cut.left(&mut record).quantity().unit.spelling(), "mm");
    let assumed: Vec<(&str, &str)> = record.assumed.iter().map(|one| (one.field, one.says.as_ref())).collect();
    assert_eq!(assumed, [("left", "Nothing is left.")]);
}

#[test]
fn a_result_that_is_left_out_says_what_it_lacks() {
    let more = Given::DECLARATION.members.iter().find(|member| member.name == "more").expect("a member");
    assert_eq!(more.about, "One more; needs depth and teeth or left.");
    let told = |query: &str, result: &Given| {
        let mut record = working::Record::new(true);
        let inputs = read(query).expect("a cut").tree().expect("a tree");
        record.tell_lacking(&Cut::DECLARATION, &Given::DECLARATION, &inputs, &result.tree().expect("a tree"));
        record.notes.into_iter().map(|note| note.says.into_owned()).collect::<Vec<_>>()
    };
    let none = || Given { depths: Vec::new(), more: None, behind: None };
    assert_eq!(told("diameter=1in", &none()), ["Not worked out: more needs depth and teeth or left; wall needs lean."]);
    assert_eq!(told("diameter=1in&left=0.1in&lean=5deg", &none()), ["Not worked out: more needs depth."]);
    // What is absent for another reason than a field is not spoken of.
    assert!(told("diameter=1in&depth=0.2in&teeth=2&lean=5deg", &none()).is_empty());
}

#[test]
fn a_declaration_is_described_by_its_members() {
    let schema = serde_json::to_value(Cut::schema()).expect("JSON");
    assert_eq!(schema["required"], serde_json::json!(["diameter"]));
    assert_eq!(schema["additionalProperties"], false);
    assert_eq!(schema["properties"]["teeth"]["maximum"], 9);
    assert_eq!(schema["properties"]["fastest"]["description"], "Fastest speed.");
    let given = serde_json::to_value(Given::schema()).expect("JSON");
    assert_eq!(given["properties"]["depths"]["items"]["$ref"], "#/components/schemas/LengthFound");
    assert!(
        matches!(Given::DECLARATION.members[1].of.shape, Shape::Found(_)) && Given::DECLARATION.members[1].optional
    );
}
