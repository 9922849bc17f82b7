//! `docs/first_day.sh`: a household's first day by commands only, the same at every run.

use crate::household::{first_day, golden, run_first_day};

#[test]
fn the_first_day_prints_what_it_printed_before() {
    golden("first_day.txt", &first_day().printed);
}

#[test]
fn a_second_run_in_another_folder_prints_the_same() {
    let again = run_first_day().printed;
    for (line, (once, twice)) in first_day().printed.lines().zip(again.lines()).enumerate() {
        assert_eq!(once, twice, "line {}", line + 1);
    }
    assert_eq!(first_day().printed.len(), again.len());
}

#[test]
fn the_first_day_goes_all_the_way_and_holds_two_refusals() {
    let printed = &first_day().printed;
    for command in [
        "house", "pick", "counter", "process", "plan", "batch", "day", "stores", "take", "undo",
        "count", "check",
    ] {
        assert!(
            printed.contains(&format!("\n$ stillroom {command}")),
            "{command}"
        );
    }
    assert_eq!(printed.matches("\n$ stillroom pick ").count(), 3);
    assert_eq!(
        printed.matches("[refused: exit ").count(),
        2,
        "no other command fails"
    );
    for refusal in ["REFUSED [no-elevation]", "REFUSED [jar-too-large]"] {
        assert!(printed.contains(refusal), "{refusal}");
    }
    assert!(
        printed.contains("unaccounted 1.5 %"),
        "the balance per crop"
    );
}
