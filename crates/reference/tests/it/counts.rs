//! The embedded tables are whole: counts, marks, sources, a few printed cells.

use reference::{DoubtVerdict, Mark, Method, Reference, table_check};

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
