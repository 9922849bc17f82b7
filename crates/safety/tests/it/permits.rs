//! What a permit, a look-up and a refusal carry for the card.

use crate::ask::{self, feet};
use reference::{Jar, Method, Pack, Reference};
use safety::{AcidUse, Again, Answer, HeatQuestion, ProduceHistory};

fn asked(food: &str, pack: Pack, jar: Jar, method: Method, ft: i128) -> HeatQuestion {
    ask::well_answered(Reference::embedded(), food, pack, jar, method, feet(ft, 1))
}

fn permit(question: &HeatQuestion) -> safety::Permit {
    let verdict = safety::judge_heat(Reference::embedded(), question);
    assert!(verdict.refusal().is_none());
    verdict.permit().expect("a permit").clone()
}

#[test]
fn a_permit_carries_what_the_card_needs() {
    let mut q = asked(
        "tomato-juice",
        Pack::Hot,
        Jar::HalfPint,
        Method::DialGauge,
        3_000,
    );
    if let safety::CannerFacts::Dial { error_psi, .. } = &mut q.canner {
        *error_psi = Some(quantity::parse::number("1 1/2").expect("number"));
    }
    let permit = permit(&q);
    assert_eq!(permit.question(), &q);
    assert_eq!(permit.title(), "Tomato juice");
    assert_eq!((permit.minutes(), permit.psi()), (20, Some(7)));
    let shows = quantity::parse::number("8 1/2").expect("number");
    assert_eq!(permit.dial_shows_psi(), Some(shows));
    assert_eq!(permit.row_jar(), Jar::Pint);
    assert_eq!(permit.water(), None);
    assert_eq!(permit.headspace(), Some("0.5"));
    assert_eq!(permit.band(), (2001, Some(4000)));
    assert!(
        permit
            .keep_to()
            .iter()
            .any(|line| line.key == "vent-minutes")
    );
    assert!(
        permit
            .rules()
            .iter()
            .any(|line| line.key == "gauge-reads-high")
    );
    assert!(permit.marks().iter().any(|line| line.key == "gauge-off"));
    assert!(permit.acid().iter().any(|line| line.chosen));
    let notes = permit.notes().join("\n");
    for text in permit.assumed().iter().chain(permit.cannot_know()) {
        assert!(notes.contains(text));
    }
    assert!(notes.contains("a sealed lid does not prove it"));
}

#[test]
fn the_treatment_below_the_boil_names_its_water() {
    let mut q = asked(
        "quick-sweet-pickles",
        Pack::Raw,
        Jar::Pint,
        Method::BoilingWater,
        500,
    );
    q.low_temperature = true;
    let permit = permit(&q);
    let water = permit.water().expect("water kept at a temperature");
    assert_eq!(
        (water.low_f, water.high_f, permit.minutes()),
        (180, 185, 30)
    );
    assert_eq!(permit.page(), "6-12");
    assert_eq!(
        permit.row_keys(),
        ["low-temperature/quick-sweet-pickles/raw/pint"]
    );
    let keys: Vec<&str> = permit
        .keep_to()
        .iter()
        .map(|line| line.key.as_str())
        .collect();
    assert!(keys.contains(&"low-temp-thermometer"), "{keys:?}");
    assert!(!keys.contains(&"restart-if-boil-stops"), "{keys:?}");
    // Never in a larger jar than the treatment prints, whatever the boiling-water rows say.
    q.jar = Jar::HalfGallon;
    let refused = safety::judge_heat(Reference::embedded(), &q);
    assert_eq!(refused.refusal().expect("refusal").code, "jar-too-large");
}

#[test]
fn a_refusal_reads_as_one_line() {
    let mut q = asked(
        "tomato-juice",
        Pack::Hot,
        Jar::Quart,
        Method::BoilingWater,
        500,
    );
    q.elevation = None;
    let verdict = safety::judge_heat(Reference::embedded(), &q);
    assert!(verdict.permit().is_none());
    let line = verdict.refusal().expect("refusal").to_string();
    assert!(
        line.starts_with("no-elevation: Without the elevation"),
        "{line}"
    );
    assert!(line.ends_with("shows it."), "{line}");
}

#[test]
fn asked_again_a_conditional_pressure_permit_stands_or_falls_with_its_row() {
    let r = Reference::embedded();
    let q = asked(
        "snap-and-italian-beans",
        Pack::Hot,
        Jar::Pint,
        Method::WeightedGauge,
        8_200,
    );
    let record = permit(&q).record();
    assert!(!record.conditions.is_empty());
    assert!(matches!(safety::ask_again(r, &record), Again::Same(_)));
    let mut other = record.clone();
    other.chosen.minutes -= 1;
    match safety::ask_again(r, &other) {
        Again::Changed(why) => assert!(why.contains("19 min at 15 psi then"), "{why}"),
        Again::Same(_) => panic!("a changed figure went unnoticed"),
    }
}

#[test]
fn a_look_up_names_what_it_does_not_know() {
    let r = Reference::embedded();
    let place = Some(feet(500, 1));
    let look = |food: &str, pack, jar, method| {
        safety::look_up(r, food, pack, jar, method, place).expect("a row")
    };
    let cherries = look(
        "cherries-whole",
        Pack::Hot,
        Jar::Pint,
        Method::WeightedGauge,
    );
    let asks = |text: &str| {
        cherries
            .does_not_know
            .iter()
            .filter(|t| t.contains(text))
            .count()
    };
    assert_eq!(
        asks("Sweet or sour cherries?"),
        1,
        "{:?}",
        cherries.does_not_know
    );
    assert_eq!(asks("large enough to be a canner"), 1);
    // The doubtful pair is shown with its mark, and never first while another is there.
    let tomatoes = look(
        "tomatoes-whole-in-water",
        Pack::Hot,
        Jar::Pint,
        Method::WeightedGauge,
    );
    assert_eq!(tomatoes.pairs.len(), 3);
    assert!(tomatoes.pairs[2].show_only && !tomatoes.pairs[2].marks.is_empty());
    assert_ne!(tomatoes.minutes, tomatoes.pairs[2].pair.minutes);
    assert!(
        tomatoes
            .acid
            .iter()
            .any(|line| line.contains("bottled-lemon-juice"))
    );
    // Where every pair is doubtful the figure is still shown.
    let relish = look(
        "fall-garden-relish",
        Pack::Hot,
        Jar::Pint,
        Method::BoilingWater,
    );
    assert!(relish.pairs.iter().all(|pair| pair.show_only));
    assert_eq!(relish.minutes, 15);
}

#[test]
fn the_rules_have_names_and_each_name_once() {
    let mut names = safety::rule_names();
    names.extend(safety::load_rule_names());
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
    assert!(names.contains(&"low-acid-under-pressure"));
}

#[test]
fn a_recipe_kept_in_the_refrigerator_lends_no_process() {
    let r = Reference::embedded();
    let none = r.recipes().iter().find(|sheet| sheet.food.is_none());
    let mut q = asked(
        "tomato-juice",
        Pack::Hot,
        Jar::Quart,
        Method::BoilingWater,
        500,
    );
    q.recipe = Some(none.expect("a recipe without process").key.clone());
    q.history = ProduceHistory::sound();
    q.jars_sterilised = Answer::Yes;
    q.acid = Some(AcidUse::whole("citric-acid"));
    let verdict = safety::judge_heat(r, &q);
    let refusal = verdict.refusal().expect("refusal");
    assert_eq!(refusal.code, "recipe-other-food");
    assert!(
        refusal.instead.contains("refrigerate"),
        "{}",
        refusal.instead
    );
}

#[test]
fn a_card_keeps_to_what_touches_its_recipe() {
    let keys = |food: &str, pack| {
        let q = asked(food, pack, Jar::Pint, Method::BoilingWater, 1_500);
        let permit = permit(&q);
        let lines = permit.keep_to().iter();
        lines.map(|line| line.key.clone()).collect::<Vec<_>>()
    };
    let has = |keys: &[String], key: &str| keys.iter().any(|k| k == key);
    // A salsa with lemon juice and no vinegar, followed as printed.
    let salsa = keys("tomato-salsa-paste-tomatoes", Pack::Hot);
    assert!(
        has(&salsa, "no-fresh-lemon") && has(&salsa, "do-not-drain-tomatoes"),
        "{salsa:?}"
    );
    assert!(
        !has(&salsa, "vinegar-5pct") && !has(&salsa, "pepper-swap-same-total"),
        "{salsa:?}"
    );
    // A pickle with vinegar and no lime.
    let beans = keys("pickled-dilled-beans", Pack::Raw);
    assert!(
        has(&beans, "vinegar-5pct") && !has(&beans, "lime-rinse-three-soaks"),
        "{beans:?}"
    );
    // Plain juice: every acid that is listed for the jars is named.
    let juice = keys("tomato-juice", Pack::Hot);
    for key in [
        "acid-in-each-jar",
        "vinegar-alternative",
        "no-dead-or-frosted-vine-fruit",
    ] {
        assert!(has(&juice, key), "{key}: {juice:?}");
    }
}
