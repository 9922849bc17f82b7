//! Changes under tables with a row gone or a figure beyond counting: refused or an error, never
//! loosened.

use crate::change_file;
use reference::{ChangeAnswer, Files, Reference};
use safety::{ChangeError, ChangeVerdict, RecipeChange};

fn asked(tables: &Reference, recipe: &str, edits: &str) -> Result<ChangeVerdict, ChangeError> {
    let change = RecipeChange {
        recipe: recipe.to_owned(),
        edits: edits.split(" & ").map(change_file::edit).collect(),
    };
    safety::judge_change(tables, &change)
}

/// The tables without the rows of this file that begin so.
fn without(file: &str, begins: &str) -> Reference {
    let mut files: Files = reference::embedded::files();
    let text = String::from_utf8(files[file].clone()).expect("text");
    let left: Vec<&str> = text
        .lines()
        .filter(|line| !line.starts_with(begins))
        .collect();
    assert!(left.len() < text.lines().count(), "{begins} in {file}");
    files.insert(file.to_owned(), (left.join("\n") + "\n").into_bytes());
    Reference::read(&files).0
}

#[test]
fn a_rule_whose_row_is_gone_refuses() {
    let allowed = "swap onions-chopped -> red onions";
    let salsa = "tomato-salsa-paste-tomatoes";
    let sound_salsa = asked(Reference::embedded(), salsa, allowed).expect("a verdict");
    assert_eq!(sound_salsa.answer, ChangeAnswer::Allow);
    let gone = without("process/changes.csv", "onion-colour,");
    let judged = asked(&gone, salsa, allowed).expect("a verdict");
    assert_eq!(judged.answer, ChangeAnswer::Refuse);
    let finding = &judged.edits[0].findings[0];
    assert_eq!(finding.rule, "onion-colour");
    assert!(finding.text.contains("no row for this rule"), "{finding:?}");
    assert_eq!(finding.source, "process/changes.csv");

    // A limit that is gone does not leave the change to a milder rule.
    let gone = without(
        "process/limits.csv",
        "mixed-vegetables,proportions-may-change,",
    );
    let judged = asked(&gone, "mixed-vegetables", "amount 1 = 5 cup").expect("a verdict");
    assert_eq!(judged.answer, ChangeAnswer::Refuse);
    assert!(
        format!("{judged:?}").contains("process/limits.csv"),
        "{judged:?}"
    );
}

#[test]
fn an_ingredient_of_a_recipe_that_no_table_knows_counts_as_low_acid() {
    let gone = without("process/ingredient_kinds.csv", "green-tomatoes-chopped,");
    let gone_too = {
        let mut files: Files = reference::embedded::files();
        files.insert(
            "process/ingredient_kinds.csv".to_owned(),
            b"ingredient,kind,source\nonion,onion,common-practice\n".to_vec(),
        );
        Reference::read(&files).0
    };
    let more = "amount 1 = 7 cup";
    for tables in [&gone, &gone_too] {
        let judged = asked(tables, "piccalilli", more).expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Refuse);
    }
    let rules: Vec<String> = asked(&gone_too, "piccalilli", more)
        .expect("a verdict")
        .whole
        .into_iter()
        .map(|finding| finding.rule)
        .collect();
    assert!(rules.contains(&"low-acid-total".to_owned()), "{rules:?}");
}

#[test]
fn without_the_list_of_sources_our_decision_is_named_by_its_key() {
    let mut files: Files = reference::embedded::files();
    files.insert(
        "process/sources.csv".to_owned(),
        b"key,title,kind\n".to_vec(),
    );
    let tables = Reference::read(&files).0;
    let judged = asked(&tables, "piccalilli", "add honey = 1 cup").expect("a verdict");
    let source = &judged.edits[0].findings[0].source;
    assert!(!source.is_empty());
    let printed = asked(&tables, "piccalilli", "amount 1 = 6 cup").expect("a verdict");
    assert_eq!(printed.edits[0].findings[0].source, "our-decision");
}

#[test]
fn without_the_figure_for_vinegar_no_strength_is_good_enough() {
    for (file, begins) in [
        ("process/limits.csv", "group:pickle,vinegar-5pct,"),
        ("process/house_rules.csv", "vinegar-dilution-max,"),
    ] {
        let gone = without(file, begins);
        let judged = asked(&gone, "piccalilli", "vinegar 5").expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Refuse, "{begins}");
    }
    let sound = asked(Reference::embedded(), "piccalilli", "vinegar 5").expect("a verdict");
    assert_eq!(sound.answer, ChangeAnswer::Allow);
}

#[test]
fn a_food_without_processes_lists_no_jar_no_pack_and_no_canner() {
    for edits in [
        "jar pint",
        "pack hot",
        "canner boiling-water",
        "canner dial-gauge",
    ] {
        let judged = asked(Reference::embedded(), "pickled-horseradish-sauce", edits);
        let judged = judged.expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Refuse, "{edits}");
    }
}

#[test]
fn a_process_printed_for_any_pack_takes_either() {
    for pack in ["pack raw", "pack hot"] {
        let judged = asked(Reference::embedded(), "succotash", pack).expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Allow, "{pack}: {judged:?}");
    }
}

/// The tables with other lines in the salsa of chiles: ingredient, amount, unit, choice, per.
fn with_lines(recipe: &str, lines: &[(&str, &str, &str, &str, &str)]) -> Reference {
    let mut files: Files = reference::embedded::files();
    let text = String::from_utf8(files["process/recipes.csv"].clone()).expect("text");
    let begins = format!("{recipe},");
    let mut rows: Vec<String> = text
        .lines()
        .filter(|line| !line.starts_with(&begins))
        .map(str::to_owned)
        .collect();
    rows.extend(lines.iter().map(|(name, amount, unit, choice, per)| {
        format!(
            "{recipe},A recipe,{recipe},4,,pint,{name},{amount},,{unit},produce,acid,no,{choice},,{per},,3,3-20,2015-text"
        )
    }));
    files.insert(
        "process/recipes.csv".to_owned(),
        (rows.join("\n") + "\n").into_bytes(),
    );
    let tables = Reference::read(&files).0;
    assert_eq!(tables.recipe_rows(recipe).len(), lines.len());
    tables
}

#[test]
fn printed_sums_beyond_counting_are_an_error() {
    let (huge, tiny) = ("999999999999999", "0.00000000000001");
    let batch = |name, amount, unit| (name, amount, unit, "", "batch");
    for (what, lines, edits) in [
        (
            "low-acid",
            vec![batch("onions", huge, "gal"), batch("onions", tiny, "cup")],
            "add thyme = 1 tsp",
        ),
        (
            "acid",
            vec![
                batch("vinegar-5pct", huge, "gal"),
                batch("vinegar-5pct", tiny, "cup"),
            ],
            "add thyme = 1 tsp",
        ),
        (
            "acid, where one of several is gone",
            vec![
                batch("vinegar-5pct", huge, "gal"),
                batch("vinegar-5pct", tiny, "cup"),
                ("citric-acid", "1", "tsp", "acid", "jar-pint"),
            ],
            "out citric-acid",
        ),
        (
            "food",
            vec![
                batch("tomatoes", huge, "gal"),
                batch("tomatoes", tiny, "cup"),
                batch("vinegar-5pct", "1", "cup"),
            ],
            "add thyme = 1 tsp",
        ),
    ] {
        let tables = with_lines("chile-salsa", &lines);
        let error = asked(&tables, "chile-salsa", edits).expect_err(what);
        assert_eq!(error.field, "edits", "{what}");
    }
}
