//! What is ticked by command counts, whether at the start or with the outcome.

use crate::household::Household;

const TICKS: [&str; 4] = ["acid", "bubbles", "rim", "covered"];

fn ticks(names: &[&'static str]) -> Vec<&'static str> {
    names.iter().flat_map(|name| ["--tick", name]).collect()
}

fn finish(household: &Household, made: &[&'static str]) -> String {
    let mut command = vec![
        "batch",
        "finish",
        "1",
        "--out",
        "quart=7",
        "--minutes",
        "45",
    ];
    command.extend(ticks(made));
    household.run(&command).fine().out
}

fn start(household: &Household, made: &[&'static str]) {
    let mut command = vec!["batch", "start", "1"];
    command.extend(ticks(made));
    household.run(&command).fine();
}

#[test]
fn the_card_names_every_tick_and_what_was_ticked() {
    let household = Household::with_juice();
    let card = household.run(&["batch", "show", "1"]).fine().out;
    for key in TICKS {
        assert!(
            card.lines().any(|line| line.trim_start().starts_with(key)),
            "{key}: {card}"
        );
    }
    start(&household, &["acid"]);
    let card = household.run(&["batch", "show", "1"]).fine().out;
    let line = card
        .lines()
        .find(|line| line.trim_start().starts_with("acid "))
        .unwrap();
    assert!(line.contains("ticked"), "{line}");
}

#[test]
fn ticks_made_at_the_start_and_with_the_outcome_count_together() {
    let household = Household::with_juice();
    start(&household, &TICKS[..2]);
    let said = finish(&household, &TICKS[2..]);
    assert!(!said.contains("hold"), "{said}");
}

#[test]
fn one_tick_that_was_never_made_holds_the_batch() {
    let household = Household::with_juice();
    start(&household, &TICKS[..1]);
    let said = finish(&household, &TICKS[2..]);
    assert!(said.contains("On hold: not ticked: air bubbles"), "{said}");
    assert_eq!(household.run(&["take", "1", "quart"]).code, 3);
}
