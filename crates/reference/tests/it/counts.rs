//! The embedded tables are whole: counts, marks, sources, a few printed cells.

use quantity::VolumeUnit;
use reference::{DoubtVerdict, Exact, Jar, Mark, Method, Printed, Reference, table_check};

#[test]
fn the_embedded_tables_have_no_fault() {
    let found = table_check::problems(&reference::embedded::files());
    let text: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert!(found.is_empty(), "{}", text.join("\n"));
}

#[test]
fn the_counts_are_those_of_the_transcription() {
    let r = Reference::embedded();
    assert_eq!(r.processes().len(), 1526);
    let by = |m: Method| r.processes().iter().filter(|p| p.method == m).count();
    assert_eq!(by(Method::BoilingWater), 664);
    assert_eq!(by(Method::DialGauge), 564);
    assert_eq!(by(Method::WeightedGauge), 298);
    assert_eq!(r.recipes().len(), 118);
    assert_eq!(r.all_recipe_rows().len(), 885);
    assert_eq!(r.foods().len(), 154);
}

#[test]
fn every_older_copy_cell_stands_in_the_doubtful_list() {
    let r = Reference::embedded();
    let older: Vec<_> = r
        .processes()
        .iter()
        .filter(|p| p.mark != Mark::Text2015)
        .collect();
    assert_eq!(older.len(), 27);
    assert!(older.iter().all(|p| p.mark == Mark::OlderCopy));
    let verdict = |verdict: DoubtVerdict| {
        older
            .iter()
            .filter(|p| {
                let doubts = r.doubts("processes", &p.key());
                doubts
                    .iter()
                    .any(|d| d.only_if().is_none() && d.verdict == verdict)
            })
            .count()
    };
    assert_eq!(verdict(DoubtVerdict::ShowOnly), 8 + 3);
    assert_eq!(verdict(DoubtVerdict::PermitMarked), 27 - 8 - 3);
}

#[test]
fn doubtful_cells_of_other_tables_name_lines_that_exist() {
    let r = Reference::embedded();
    let mut seen = 0;
    for doubt in r.doubtful().iter().filter(|d| d.table == "recipes") {
        let (recipe, ingredient) = doubt.key.split_once('/').unwrap_or((&doubt.key, ""));
        let rows = r.recipe_rows(recipe);
        assert!(!rows.is_empty(), "{recipe}");
        let known = ingredient.is_empty() || rows.iter().any(|row| row.ingredient == ingredient);
        assert!(known, "{}", doubt.key);
        seen += 1;
    }
    assert_eq!(seen, 11);
    // Recipe lines from memory or older copies are in the list, or in that of the acid additions.
    for row in r
        .all_recipe_rows()
        .iter()
        .filter(|row| row.mark != Mark::Text2015)
    {
        let listed = r.doubtful().iter().any(|d| {
            d.table == "recipes"
                && (d.key == row.recipe || d.key == format!("{}/{}", row.recipe, row.ingredient))
        });
        let acid = row.ingredient == "vinegar-5pct" && row.per == "jar-pint";
        assert!(listed || acid, "{} {}", row.recipe, row.ingredient);
    }
}

#[test]
fn rows_know_their_line_and_a_source_fit_to_show() {
    let r = Reference::embedded();
    let row = r
        .processes()
        .iter()
        .find(|p| p.key() == "tomato-juice/hot/quart/boiling-water/1001-3000/1")
        .expect("the row");
    assert_eq!(row.minutes, 45);
    assert_eq!(
        row.source,
        "USDA, Complete Guide to Home Canning (AIB 539, revised 2015), p. 3-6"
    );
    let file = String::from_utf8(reference::embedded::files()["process/processes.csv"].clone())
        .expect("text");
    let line = file.lines().nth(row.line as usize - 1).expect("the line");
    assert!(line.starts_with("tomato-juice,Tomato juice,hot,quart,boiling-water,1001,3000,45"));
    assert_eq!(
        r.source_text("nchfp-steam").as_deref(),
        Some("National Center for Home Food Preservation, steam canner fact sheet")
    );
    assert_eq!(r.source_text("nobody"), None);
}

#[test]
fn jars_are_exact_and_ordered_by_volume() {
    let r = Reference::embedded();
    for pair in Jar::ALL.windows(2) {
        assert!(
            pair[0].volume() < pair[1].volume(),
            "{} {}",
            pair[0],
            pair[1]
        );
    }
    for size in r.jar_sizes() {
        let millilitres = size.jar.volume().in_unit(VolumeUnit::Millilitre);
        assert_eq!(size.millilitres.single(), Some(millilitres), "{}", size.jar);
    }
    assert_eq!(r.jar_sizes().len(), Jar::ALL.len());
}

#[test]
fn printed_numbers_are_kept_exactly() {
    let read = |text: &str| Printed::parse(text).map(|p| (p.low(), p.high()));
    let e = Exact::new;
    assert_eq!(read("0.25"), Some((e(1, 4), e(1, 4))));
    assert_eq!(read("8-12"), Some((e(8, 1), e(12, 1))));
    assert_eq!(read("1.25-1.5"), Some((e(5, 4), e(3, 2))));
    assert_eq!(read("-10"), Some((e(-10, 1), e(-10, 1))));
    assert_eq!(read("0.3333"), Some((e(1, 3), e(1, 3))));
    assert_eq!(read("3.6667"), Some((e(11, 3), e(11, 3))));
    assert_eq!(read("0.3125"), Some((e(5, 16), e(5, 16))));
    for bad in [
        "",
        "x",
        "4 / 2",
        "1.",
        ".5",
        "12-8",
        "1e3",
        "9999999999999999",
        "1-2-3",
    ] {
        assert_eq!(read(bad), None, "{bad}");
    }
}

#[test]
fn the_scopes_of_limits_reach_food_group_class_and_all() {
    let r = Reference::embedded();
    let rules: Vec<&str> = r
        .limits_for("tomato-juice")
        .iter()
        .map(|l| l.rule.as_str())
        .collect();
    for rule in ["acid-in-each-jar", "acid-not-reduced", "table-jar-only"] {
        assert!(rules.contains(&rule), "{rule}");
    }
    assert!(!rules.contains(&"pressure-canner-only"));
    // A recipe reaches the limits of its food.
    let rules: Vec<&str> = r
        .limits_for("squash-bread-and-butter-pickles")
        .iter()
        .map(|l| l.rule.as_str())
        .collect();
    assert!(rules.contains(&"squash-for-cucumber-ok"));
}

#[test]
fn a_slip_of_the_pen_finds_the_food() {
    let r = Reference::embedded();
    let first = |text: &str| r.suggest_food(text).first().map(|f| f.food.as_str());
    assert_eq!(first("tomatoe juice"), Some("tomato-juice"));
    assert_eq!(first("lima"), Some("lima-beans-shelled"));
    assert_eq!(first("aple sauce"), Some("applesauce"));
    assert_eq!(first("xyzzy"), None);
    assert_eq!(first(""), None);
}

#[test]
fn the_edition_changes_with_any_byte_of_the_process_tables() {
    let mut files = reference::embedded::files();
    let before = Reference::read(&files).0.edition().to_owned();
    let text = String::from_utf8(files["process/processes.csv"].clone()).expect("text");
    files.insert(
        "process/processes.csv".to_owned(),
        text.replacen(",40,", ",41,", 1).into_bytes(),
    );
    assert_ne!(Reference::read(&files).0.edition(), before);
    assert_eq!(Reference::embedded().edition(), before);
}
