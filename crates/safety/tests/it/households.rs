//! A household's own recipe: tested, a trial, or unknown, by the case table; and what it is told.

use crate::change_file;
use quantity::{Exact, whole};
use reference::{ChangeAnswer, Reference};
use safety::{
    Amount, Edit, HouseholdLine, HouseholdRecipe, HouseholdVerdict, Measure, judge_household_recipe,
};

const CASES: &str = include_str!("../../../../data/cases/households.csv");

/// A line as the table writes it: `onions = 5 cup`, `citric acid = 1/4 tsp @jar-pint`.
pub fn line(text: &str) -> HouseholdLine {
    let (name, much) = text.trim().split_once(" = ").expect("name = amount");
    let (much, per) = much.split_once(" @").unwrap_or((much, "batch"));
    HouseholdLine {
        name: name.to_owned(),
        amount: change_file::amount(much),
        per: per.to_owned(),
    }
}

pub fn recipe(title: &str, lines: &str) -> HouseholdRecipe {
    HouseholdRecipe {
        title: title.to_owned(),
        lines: lines.split(';').map(line).collect(),
        jar: None,
        pack: None,
        canner: None,
    }
}

fn judge(asked: &HouseholdRecipe) -> HouseholdVerdict {
    judge_household_recipe(Reference::embedded(), asked).expect("a recipe that is understood")
}

fn state(found: &HouseholdVerdict) -> String {
    let value = serde_json::to_value(found.state).expect("a word");
    value.as_str().expect("a word").to_owned()
}

#[test]
fn every_household_recipe_gets_its_right_answer() {
    let mut reader = csv::Reader::from_reader(CASES.as_bytes());
    let wrong: Vec<String> = reader
        .deserialize::<[String; 8]>()
        .filter_map(|row| {
            let [case, jar, pack, canner, lines, expect, nearest, must_say] = row.expect("a row");
            let mut asked = recipe(&case, &lines);
            asked.jar = (!jar.is_empty()).then(|| jar.parse().expect("a jar"));
            asked.pack = (!pack.is_empty()).then(|| pack.parse().expect("a pack"));
            asked.canner = (!canner.is_empty()).then(|| canner.parse().expect("a method"));
            let found = judge(&asked);
            let is = found.nearest.as_ref().map_or("", |near| &near.recipe);
            let right = state(&found) == expect
                && (nearest.is_empty() || nearest == is)
                && format!("{found:?}").contains(&must_say);
            (!right).then(|| format!("{case}: {} of {is}: {}", state(&found), told(&found)))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The differences in short.
fn told(found: &HouseholdVerdict) -> String {
    let judged = found.differences.iter();
    let edits = judged.clone().flat_map(|judged| &judged.edits);
    let whole = judged.flat_map(|judged| &judged.whole);
    edits
        .map(|edit| {
            let rules: Vec<&str> = edit.findings.iter().map(|f| f.rule.as_str()).collect();
            format!("{} -> {} {rules:?}", edit.words, edit.answer)
        })
        .chain(whole.map(|finding| finding.rule.clone()))
        .collect::<Vec<_>>()
        .join("; ")
}

const SALSA: &str = "paste tomatoes = 7 qt; long green chiles = 4 cup; onions = 5 cup; jalapeno peppers = 1/2 cup; garlic = 6 clove; bottled lemon or lime juice = 2 cup; salt = 2 tbsp; black pepper = 1 tbsp";

const CHILE: &str = "dried pinto or red kidney beans = 3 cup; water = 5 1/2 cup; salt = 5 tsp; ground beef = 3 lb; onions = 1 1/2 cup; chili powder = 4 tbsp; black pepper = 1 tsp; tomatoes crushed or whole = 2 qt";

#[test]
fn only_what_is_not_tested_is_sent_to_the_cold() {
    let tested = judge(&recipe("Own salsa", SALSA));
    assert!(tested.cold_only.is_none() && tested.not_known.is_empty());
    let nearest = tested.nearest.expect("the tested recipe");
    assert_eq!((nearest.shared, nearest.distance), (8, whole(0)));
    assert!(!nearest.source.is_empty());

    let trial = judge(&recipe(
        "Own salsa",
        &format!("{SALSA}; sweet corn = 1 cup"),
    ));
    let cold = trial.cold_only.expect("refrigerator and freezer");
    assert!(cold.fridge.allowed && cold.freezer.allowed);
    assert!(
        trial.why.contains("not covered by its test"),
        "{}",
        trial.why
    );

    let unknown = judge(&recipe("Moon soup", "moon turnips = 2 cup"));
    assert!(unknown.nearest.is_none() && unknown.differences.is_none());
    assert!(unknown.cold_only.is_some());
    assert_eq!(unknown.not_known, ["moon turnips"]);
}

#[test]
fn food_under_oil_keeps_for_the_days_of_oil() {
    let fridge = |lines: &str| {
        judge(&recipe("Own jar", lines))
            .cold_only
            .expect("cold")
            .fridge
    };
    let plain = fridge("moon turnips = 2 cup");
    let oil = fridge("moon turnips = 2 cup; olive oil = 1 cup");
    assert_ne!(plain, oil);
    assert!(format!("{oil:?}").contains("oil"));
}

#[test]
fn a_scaled_recipe_is_compared_by_one_batch_in_its_own_measures() {
    let trial = judge(&recipe(
        "Three times the salsa",
        "paste tomatoes = 21 qt; long green chiles = 12 cup; onions = 18 cup; jalapeno peppers = 1 1/2 cup; garlic = 18 clove; bottled lemon or lime juice = 6 cup; cilantro = 3 each; sweet corn = 3 lb",
    ));
    let judged = trial.differences.expect("differences");
    assert_eq!(judged.edits[0].edit, Edit::Scale { times: whole(3) });
    let words: Vec<&str> = judged
        .edits
        .iter()
        .map(|edit| edit.words.as_str())
        .collect();
    let told = words.join("; ");
    for said in [
        "onions chopped (5 cup printed): 1 qt + 2 cups to one batch",
        "1 pieces to one batch of cilantro added",
        "1 lb to one batch of sweet corn added",
    ] {
        assert!(told.contains(said), "`{said}` in {told}");
    }
    // What goes into each jar is never scaled.
    let juice = judge(&recipe(
        "Twice the juice",
        "tomatoes = 46 lb; bottled lemon juice = 2 tbsp @jar-quart",
    ));
    assert_eq!(state(&juice), "tested", "{}", told_of(&juice));
    let thin = judge(&recipe(
        "Half the juice",
        "tomatoes = 11.5 lb; bottled lemon juice = 1 tbsp @jar-quart",
    ));
    assert_eq!(state(&thin), "household-trial", "{}", told_of(&thin));
}

fn told_of(found: &HouseholdVerdict) -> String {
    format!("{}: {}", found.why, told(found))
}

#[test]
fn each_difference_is_told_with_its_answer() {
    let trial = judge(&recipe(
        "Own salsa",
        "paste tomatoes = 7 qt; long green chiles = 4 cup; red onions = 5 cup; jalapeno peppers = 1/2 cup; garlic = 6 clove; lemon juice = 2 cup; salt = 1 tbsp",
    ));
    let judged = trial.differences.expect("differences");
    let answers: Vec<(&str, ChangeAnswer)> = judged
        .edits
        .iter()
        .map(|edit| (edit.words.as_str(), edit.answer))
        .collect();
    let of = |part: &str| {
        let found = answers.iter().find(|(words, _)| words.contains(part));
        found.map(|(_, answer)| *answer)
    };
    assert_eq!(of("red onions"), Some(ChangeAnswer::Allow), "{answers:?}");
    assert_eq!(of("lemon juice"), Some(ChangeAnswer::Refuse), "{answers:?}");
    assert_eq!(of("salt"), Some(ChangeAnswer::Allow), "{answers:?}");
    assert_eq!(of("black pepper"), Some(ChangeAnswer::Allow), "{answers:?}");
}

#[test]
fn no_lines_and_no_amounts_are_named_by_their_field() {
    let r = Reference::embedded();
    let mut asked = recipe("Empty", "onions = 1 cup");
    asked.lines.clear();
    let error = judge_household_recipe(r, &asked).expect_err("no lines");
    assert_eq!(error.field, "lines");
    assert!(error.example.contains("onions"), "{error}");
    let mut asked = recipe("Nameless", "tomatoes = 1 cup; onions = 1 cup");
    asked.lines[1].name = " ".to_owned();
    let error = judge_household_recipe(r, &asked).expect_err("no name");
    assert_eq!(error.field, "lines.2.name");
    for size in [whole(0), whole(-1)] {
        let mut asked = recipe("Nothing", "tomatoes = 1 cup; onions = 1 cup");
        asked.lines[1].amount.size = size;
        let error = judge_household_recipe(r, &asked).expect_err("nothing");
        assert_eq!(error.field, "lines.2.amount");
        assert!(error.to_string().contains("1 1/2 cups"), "{error}");
    }
}

#[test]
fn amounts_that_no_fraction_holds_are_an_error_and_never_an_answer() {
    let r = Reference::embedded();
    let size = |top: i128, bottom: i128, measure| Amount {
        size: Exact::new(top, bottom),
        measure,
        text: "very finely divided".to_owned(),
    };
    let most = i128::MAX;
    let cloves = || (0, size(most, 1, Measure::Clove));
    let within = size(50 * 10i128.pow(35) + 1, 10i128.pow(35) - 1, Measure::Volume);
    for (lines, changed) in [
        // Too large to be brought down to one batch.
        ("tomatoes = 23 lb", vec![(0, size(most, 1, Measure::Mass))]),
        // Too fine to be held against the printed amount.
        (SALSA, vec![(2, size(most, 1_000_000_007, Measure::Volume))]),
        (SALSA, vec![(4, size(most - 1, most, Measure::Clove))]),
        // Each fits alone, the two together do not.
        (
            SALSA,
            vec![
                (4, size(1, 3i128.pow(40), Measure::Clove)),
                (2, size(1, 7i128.pow(23), Measure::Volume)),
            ],
        ),
        (
            "tomatoes = 23 lb; bottled lemon juice = 1 tbsp @jar-pint; citric acid = 1/4 tsp @jar-pint",
            vec![
                (1, size(1, most, Measure::Volume)),
                (2, size(1, most - 2, Measure::Volume)),
            ],
        ),
        // Within the printed range, and too fine for another recipe beside it.
        (CHILE, vec![(5, within)]),
        // As far away as can be counted, and one more: a line added, swapped, left out.
        ("garlic = 1 clove; moon turnips = 1 cup", vec![cloves()]),
        (
            "garlic = 1 clove; honey = 1/4 cup; vegetable oil = 1/4 cup",
            vec![cloves()],
        ),
        ("garlic = 1 clove", vec![cloves()]),
        // Two amounts for a jar that are added, and cannot be.
        (
            "tomatoes = 23 lb; citric acid = 1/4 tsp @jar-pint; corn = 1 drop @jar-pint; corn = 1 drop @jar-pint",
            vec![
                (2, size(1, most, Measure::Drop)),
                (3, size(1, most - 2, Measure::Drop)),
            ],
        ),
    ] {
        let mut asked = recipe("Fine", lines);
        for (at, amount) in changed {
            asked.lines[at].amount = amount;
        }
        let error = judge_household_recipe(r, &asked).expect_err("too fine");
        assert_eq!(error.field, "edits");
        assert!(error.example.contains("fewer digits"), "{error}");
    }
}
