//! Answers under tables that were changed in one place: faults the sound tables never show.

use crate::ask::{self, feet};
use crate::patched::{patched, patched_all};
use reference::{Jar, Method, Pack, Reference};
use safety::{CannerFacts, HeatQuestion, KeepRoute, RouteQuestion};

fn code(tables: &Reference, question: &HeatQuestion) -> String {
    match safety::judge_heat(tables, question) {
        safety::Verdict::Permit(permit) => format!("permit {}", permit.minutes()),
        safety::Verdict::Refusal(refusal) => refusal.code.to_owned(),
    }
}

fn asked(food: &str, jar: Jar, method: Method, ft: i128) -> HeatQuestion {
    ask::well_answered(
        Reference::embedded(),
        food,
        Pack::Hot,
        jar,
        method,
        feet(ft, 1),
    )
}

#[test]
fn a_pressure_limit_below_every_pair_leaves_none() {
    let q = asked("tomato-juice", Jar::Quart, Method::DialGauge, 500);
    assert_eq!(code(Reference::embedded(), &q), "permit 20");
    let low = patched("process/practice.csv", "max-psi,15,", "max-psi,5,");
    assert_eq!(code(&low, &q), "over-max-pressure");
    let verdict = safety::judge_heat(&low, &q);
    let reason = &verdict.refusal().expect("refusal").reason;
    assert!(
        reason.contains("show 6 psi"),
        "the least of the pairs: {reason}"
    );
}

#[test]
fn a_gauge_test_at_the_end_of_the_calendar_serves_nobody() {
    let mut q = asked("tomato-juice", Jar::Quart, Method::DialGauge, 500);
    for day in ["9999-12-31", "never", "2026-13-01"] {
        q.canner = CannerFacts::Dial {
            error_psi: Some(quantity::whole(0)),
            tested_on: Some(day.to_owned()),
        };
        assert_eq!(code(Reference::embedded(), &q), "gauge-test-old", "{day}");
    }
}

#[test]
fn a_memory_amount_without_a_line_in_the_doubtful_list_still_closes_the_recipe() {
    let q = asked(
        "golden-pepper-jelly",
        Jar::HalfPint,
        Method::BoilingWater,
        500,
    );
    assert_eq!(code(Reference::embedded(), &q), "recipe-doubtful");
    let unlisted = patched(
        "process/doubtful.csv",
        "recipes,golden-pepper-jelly/",
        "recipes,another-jelly/",
    );
    assert_eq!(code(&unlisted, &q), "recipe-doubtful");
}

#[test]
fn a_food_without_any_row_has_no_method() {
    let gone = patched(
        "process/not_recommended.csv",
        "pickled-horseradish-sauce,",
        "another-sauce,",
    );
    let q = asked(
        "pickled-horseradish-sauce",
        Jar::HalfPint,
        Method::BoilingWater,
        500,
    );
    assert_eq!(code(Reference::embedded(), &q), "refrigerator-only");
    assert_eq!(code(&gone, &q), "method-not-listed");
}

#[test]
fn a_printed_warning_holds_in_its_own_band_only() {
    // Pair 3 of the juice ends at 1,000 ft; the warning is printed from there on.
    let mut q = asked("tomato-juice", Jar::Quart, Method::WeightedGauge, 1_500);
    q.option = Some(3);
    assert_eq!(code(Reference::embedded(), &q), "pair-not-recommended");
    let text =
        String::from_utf8(reference::embedded::files()["process/not_recommended.csv"].clone())
            .expect("text");
    let line = text
        .lines()
        .find(|line| line.starts_with("tomato-juice,") && line.contains(",quart,"))
        .expect("the warning")
        .to_owned();
    let mut fields: Vec<String> = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(line.as_bytes())
        .records()
        .next()
        .expect("row")
        .expect("row")
        .iter()
        .map(str::to_owned)
        .collect();
    let headers: Vec<&str> = text.lines().next().expect("headers").split(',').collect();
    let at = |name: &str| headers.iter().position(|h| *h == name).expect("column");
    let write = |fields: &[String]| {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(fields).expect("write");
        let bytes = writer.into_inner().expect("written");
        String::from_utf8(bytes)
            .expect("text")
            .trim_end()
            .to_owned()
    };
    fields[at("elevation_high_ft")] = "1200".to_owned();
    let narrow = patched("process/not_recommended.csv", &line, &write(&fields));
    assert_eq!(code(&narrow, &q), "above-table");
    fields[at("elevation_high_ft")] = "2000".to_owned();
    fields[at("minutes")].clear();
    fields[at("psi")].clear();
    let bare = patched("process/not_recommended.csv", &line, &write(&fields));
    let verdict = safety::judge_heat(&bare, &q);
    let refusal = verdict.refusal().expect("refusal");
    assert_eq!(refusal.code, "pair-not-recommended");
    assert!(refusal.reason.contains("this pair"), "{}", refusal.reason);
    // Without the warning the pair simply ends, and the others are offered without it.
    q.option = None;
    let permit = safety::judge_heat(&narrow, &q);
    let rules = permit.permit().expect("permit").rules().to_vec();
    let ended = rules.iter().find(|rule| rule.key == "pair-ended");
    assert!(
        ended.is_some_and(|rule| rule.text.contains("Pair 3 ends")),
        "{rules:?}"
    );
}

#[test]
fn a_look_up_refuses_where_two_rows_hold_the_place() {
    let overlap = patched(
        "process/processes.csv",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,0,1000,40,",
        "tomato-juice,Tomato juice,hot,quart,boiling-water,0,2600,40,",
    );
    let place = Some(feet(2_500, 1));
    let found = safety::look_up(
        &overlap,
        "tomato-juice",
        Pack::Hot,
        Jar::Quart,
        Method::BoilingWater,
        place,
    );
    assert_eq!(found.expect_err("two rows").code, "no-single-row");
}

#[test]
fn words_stand_in_for_sources_that_the_list_lacks_and_missing_lines_are_left_out() {
    let mut q = asked("pickled-dilled-beans", Jar::Pint, Method::Steam, 1_500);
    q.pack = Pack::Raw;
    q.history.split_or_fallen = safety::Answer::Yes;
    let tables = patched_all(&[
        (
            "process/sources.csv",
            "common-practice,",
            "no-such-practice,",
        ),
        ("process/practice.csv", "steam-canner-2015-text,", "a,"),
        ("process/practice.csv", "steam-canner-later-advice,", "b,"),
        ("process/practice.csv", "restart-if-boil-stops,", "c,"),
    ]);
    let verdict = safety::judge_heat(&tables, &q);
    let permit = verdict.permit().expect("permit");
    let split = permit.conditions().iter().find(|c| c.key == "split-fruit");
    assert_eq!(split.expect("condition").source, "common-practice");
    assert!(permit.conditions().iter().all(|c| c.key != "steam"));
    assert!(permit.marks().iter().all(|m| m.key != "steam-disagreement"));
    assert!(
        permit
            .keep_to()
            .iter()
            .all(|k| k.key != "restart-if-boil-stops")
    );
    // A limit without a row still has a name to show.
    let mut q = asked(
        "snap-and-italian-beans",
        Jar::Pint,
        Method::BoilingWater,
        500,
    );
    q.elevation = None;
    let gone = patched(
        "process/limits.csv",
        "class:low-acid,pressure-canner-only,",
        "x,y,",
    );
    let verdict = safety::judge_heat(&gone, &q);
    let refusal = verdict.refusal().expect("refusal");
    assert_eq!(refusal.code, "low-acid-needs-pressure");
    assert!(
        refusal.source.contains("pressure-canner-only"),
        "{}",
        refusal.source
    );
}

#[test]
fn without_a_metric_row_the_house_setting_changes_nothing() {
    let mut q = asked("tomato-juice", Jar::Litre1, Method::BoilingWater, 500);
    q.metric_jars_setting = true;
    assert_eq!(code(Reference::embedded(), &q), "permit 40");
    let gone = patched(
        "process/jar_sizes.csv",
        "1-litre,1 litre,1000,",
        "2-litre,x,1000,",
    );
    assert_eq!(code(&gone, &q), "jar-too-large");
}

#[test]
fn a_printed_refrigerator_time_stands_only_where_it_can_be_read() {
    let mut q = RouteQuestion::new(KeepRoute::Fridge, "pickled-pepper-onion-relish");
    let days =
        |tables: &Reference, q: &RouteQuestion| safety::judge_route(tables, q).eat_within_days;
    let sound = Reference::embedded();
    assert_eq!(days(sound, &q), Some(3), "no recipe named: the strict days");
    q.recipe = Some("pickled-pepper-onion-relish".to_owned());
    assert!(days(sound, &q) > Some(3), "a month is printed for it");
    q.recipe = Some("grandmother".to_owned());
    assert_eq!(days(sound, &q), Some(3), "not a tested recipe");
    q.recipe = Some("tomato-ketchup".to_owned());
    assert_eq!(
        days(sound, &q),
        Some(3),
        "a tested recipe without such a time"
    );
    q.recipe = Some("pickled-pepper-onion-relish".to_owned());
    let unread = patched(
        "process/limits.csv",
        "longer storage needs processing,must,6-30,1,months",
        "longer storage needs processing,must,6-30,,",
    );
    assert_eq!(
        days(&unread, &q),
        Some(3),
        "a time that cannot be read serves nobody"
    );
}

#[test]
fn the_freezer_line_without_its_temperature_is_common_practice() {
    let q = RouteQuestion::new(KeepRoute::Freezer, "peas");
    let gone = patched("garden/freezer.csv", "target_temperature,", "target,");
    let verdict = safety::judge_route(&gone, &q);
    assert!(verdict.allowed && verdict.conditions.is_empty());
    assert!(
        verdict.source.contains("common practice"),
        "{}",
        verdict.source
    );
    assert!(
        !safety::judge_route(Reference::embedded(), &q)
            .conditions
            .is_empty()
    );
}

#[test]
fn empty_jars_are_boiled_longer_higher_up_whatever_row_asks_for_it() {
    // No printed row above 1,000 ft is so short; were one, the jars would be boiled longer.
    let short = patched(
        "process/processes.csv",
        "pickled-dilled-beans,Pickled dilled beans,raw,pint,boiling-water,1001,6000,10,",
        "pickled-dilled-beans,Pickled dilled beans,raw,pint,boiling-water,1001,6000,6,",
    );
    let mut q = asked(
        "pickled-dilled-beans",
        Jar::Pint,
        Method::BoilingWater,
        2_500,
    );
    q.pack = Pack::Raw;
    let verdict = safety::judge_heat(&short, &q);
    let conditions = verdict.permit().expect("permit").conditions();
    let said = conditions.iter().find(|c| c.key == "sterile-jars");
    let text = &said.expect("a condition").text;
    assert!(text.contains("boiled 13 minutes"), "{text}");
}
