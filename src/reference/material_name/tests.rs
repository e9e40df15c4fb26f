//! Which names mean a material, and what is said of the others.

use super::*;

fn id(text: &str) -> &'static str {
    WorkMaterial::read(text).unwrap_or_else(|unread| panic!("{text}: {unread:?}")).0.id
}

fn refused(text: &str) -> Unread {
    WorkMaterial::read(text).expect_err(text)
}

#[test]
fn another_name_of_the_same_alloy_means_it() {
    for (text, wanted) in [
        ("S235JR", "s235"),
        ("1.0038", "s235"),
        ("Ti64", "ti-6al-4v"),
        ("TI-6AL-4V", "ti-6al-4v"),
        ("17-4 PH", "17-4ph"),
        ("AISI 630", "17-4ph"),
        ("En 8", "en8"),
        ("EN8", "en8"),
        ("080M40", "en8"),
        ("silver steel", "silver-steel"),
        ("1.2210", "silver-steel"),
        ("PEEK", "peek"),
        ("Delrin", "acetal"),
        ("3003", "3003"),
        ("EN AW-6082", "6082"),
        ("AlMg1SiCu", "6061"),
        ("S31603", "316l"),
        ("316 L", "316l"),
        ("UNS C36000", "c36000"),
        ("Ms58", "c38500"),
        ("POM", "acetal"),
        ("PA6", "nylon"),
        ("100Cr6", "52100"),
        ("Inconel 625", "n06625"),
        ("6061-T6", "6061"),
        ("4140 prehard", "4140-prehardened"),
    ] {
        assert_eq!(id(text), wanted, "{text}");
    }
}

#[test]
fn a_near_designation_is_refused_and_says_what_it_is_near() {
    let unread = refused("1.7225");
    assert_eq!((unread.code, unread.try_this.as_str()), (Code::NotFound, "4140-prehardened"));
    assert_eq!(
        unread.says,
        "\"1.7225\" is near 4140-annealed and 4140-prehardened, not the same: give 4140-annealed or 4140-prehardened if \
         that will do."
    );
    for (text, near) in [
        ("CK45", "1045-normalised"),
        ("1.4404", "316l"),
        ("X5CrNi18-10", "304"),
        ("AlMgSi0.5", "6063"),
        ("En24", "4340"),
    ] {
        assert!(refused(text).says.contains(near), "{text}: {}", refused(text).says);
    }
}

#[test]
fn a_word_that_leaves_it_open_is_asked_about() {
    for (text, says) in [
        ("inconel", "Which number, annealed or aged?"),
        ("monel", "400, R-405 or K-500?"),
        ("Titanium", "Pure (grade 1-4) or 6Al-4V?"),
        ("660", "SAE 660 bronze or AISI 660"),
        ("G41400", "4140-annealed or 4140-prehardened: which?"),
        ("4140", "4140-annealed or 4140-prehardened: which?"),
        ("brass", "c36000"),
        ("stainless steel", "more: which?"),
    ] {
        let unread = refused(text);
        assert_eq!(unread.code, Code::ValueAmbiguous, "{text}");
        assert!(unread.says.contains(says), "{text}: {}", unread.says);
        let tried = unread.try_this == "leave out" || WorkMaterial::read(&unread.try_this).is_ok();
        assert!(tried, "{text}: {}", unread.try_this);
    }
    assert_eq!(refused("titanium").try_this, "ti-6al-4v", "the harder to cut is the careful one");
    assert_eq!(refused("monel").try_this, "leave out", "the tables have only one of several");
}

#[test]
fn an_unknown_name_is_never_another_metal() {
    for text in ["unobtainium", "tantalum", "wolfram", "aluminiumm", "H1", "P2", "A3", "43", "9", "inconell", "CK4", ""]
    {
        let unread = refused(text);
        assert_eq!((unread.code, unread.try_this.as_str()), (Code::NotFound, "leave out"), "{text}: {}", unread.says);
        assert!(unread.says.contains("/v1/tables/materials"), "{}", unread.says);
    }
    for (text, number) in [("4140-anealed", "4140-annealed"), ("7075-T651", "7075"), ("17-4 PH H900", "17-4ph")] {
        assert_eq!(refused(text).try_this, number, "{text}");
    }
}

#[test]
fn what_is_only_known_by_name_says_so() {
    let unread = refused("C83600");
    assert_eq!((unread.code, unread.try_this.as_str()), (Code::NotOffered, "leave out"));
    assert!(unread.says.starts_with("\"C83600\" is known, leaded gunmetal, but the tables have no speeds for it."));
    for text in ["Hastelloy C-276", "gunmetal", "LG2", "5160"] {
        assert_eq!(refused(text).try_this, "leave out", "{text}");
    }
}
