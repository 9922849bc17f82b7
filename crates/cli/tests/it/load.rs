//! One canner run for several batches, by command.

use crate::household::Household;

fn two_batches(second: &[&'static str]) -> Household {
    let household = Household::with_tomatoes();
    let juice = ["batch", "new", "tomato-juice", "--acid", "citric-acid"];
    let produce = ["--produce", "8 lb"];
    let first: Vec<&str> = juice
        .iter()
        .chain(&produce)
        .chain(&["--jar", "quart"])
        .copied()
        .collect();
    household.run(&first).fine();
    let other: Vec<&str> = juice
        .iter()
        .chain(&produce)
        .chain(second)
        .copied()
        .collect();
    household.run(&other).fine();
    household
}

#[test]
fn pints_and_quarts_of_one_juice_share_a_canner_on_a_condition() {
    let household = two_batches(&["--jar", "pint"]);
    let list = household.run(&["load"]).fine().out;
    assert!(list.contains("1  ") && list.contains("2  "), "{list}");
    assert!(list.contains("Name the batches"), "{list}");
    let said = household.run(&["load", "1", "2"]).fine().out;
    assert!(said.contains("PERMIT on conditions: 45 minutes"), "{said}");
    assert!(said.contains("No published rule found"), "{said}");
    assert!(said.contains("pints: its own line is 40 minutes"), "{said}");
    let json = household.run(&["load", "1", "2", "--json"]).fine().out;
    let view: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(view["verdict"]["kind"], "permit-if");
    assert_eq!(view["batches"][0]["chosen"], true);
}

#[test]
fn one_batch_alone_needs_no_condition_of_a_load() {
    let household = two_batches(&["--jar", "pint"]);
    let said = household.run(&["load", "2"]).fine().out;
    assert!(said.contains("PERMIT: 40 minutes"), "{said}");
}

#[test]
fn what_is_no_batch_of_jars_is_named() {
    let household = two_batches(&["--jar", "pint"]);
    let missing = household.run(&["load", "1", "9"]);
    assert_ne!(missing.code, 0);
    assert!(missing.err.contains('9'), "{}", missing.err);
    household.run(&["batch", "start", "1"]).fine();
    household
        .run(&[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=2",
            "--minutes",
            "45",
        ])
        .fine();
    let done = household.run(&["load", "1"]);
    assert_ne!(done.code, 0);
    assert!(done.err.contains("no jars that wait"), "{}", done.err);
}
