//! The steps of a day: durations, order, and what is kept between steps.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use kitchen::recipe::RecipeBook;
use kitchen::steps::{
    CannerKind, CannerUse, DayQuestion, DaySteps, HouseRates, ResourceKind, canner_minutes,
    steps_for,
};
use kitchen::{Recipe, Route, recipes};
use quantity::{Exact, Mass, MassUnit};
use reference::Reference;

static BOOK: LazyLock<RecipeBook> = LazyLock::new(|| recipes(Reference::embedded()));

fn recipe(key: &str) -> &'static Recipe {
    BOOK.get(key).expect("the test names a recipe of the book")
}

fn question(pounds: i64, jars: u32, canner: Option<CannerUse>) -> DayQuestion {
    DayQuestion {
        batches: 1,
        produce: Mass::of(pounds, MassUnit::Pound),
        jars,
        canner,
        rates: HouseRates::default(),
        after_rest: false,
    }
}

fn canner(kind: CannerKind, process_minutes: u32, capacity: u32) -> Option<CannerUse> {
    Some(CannerUse {
        kind,
        process_minutes,
        capacity,
    })
}

fn count(day: &DaySteps, key: &str) -> usize {
    day.steps.iter().filter(|step| step.key == key).count()
}

/// Earliest starts that keep every least lag; none when they chase each other in a circle.
fn earliest(day: &DaySteps) -> Option<Vec<i64>> {
    let mut starts = vec![0_i64; day.steps.len()];
    for _ in 0..=day.steps.len() {
        let mut moved = false;
        for lag in &day.lags {
            let wanted = starts[lag.from] + lag.min;
            if starts[lag.to] < wanted {
                starts[lag.to] = wanted;
                moved = true;
            }
        }
        if !moved {
            return Some(starts);
        }
    }
    None
}

#[test]
fn a_load_keeps_the_canner_as_long_as_the_tables_say() {
    let canners = &recipe("tomato-juice").canners;
    assert_eq!(
        canner_minutes(canners, CannerKind::BoilingWater, 40),
        (65, 75)
    );
    assert_eq!(canner_minutes(canners, CannerKind::Pressure, 25), (72, 115));
}

#[test]
fn juice_in_one_load() {
    let juice = recipe("tomato-juice");
    let day = steps_for(
        juice,
        &question(24, 7, canner(CannerKind::BoilingWater, 40, 7)),
    )
    .unwrap();
    for key in [
        "wash",
        "cut-and-heat",
        "mill",
        "fill",
        "to-boil",
        "process",
        "rest",
        "lift",
    ] {
        assert_eq!(count(&day, key), 1, "{key}");
    }
    let step = |key: &str| day.steps.iter().find(|step| step.key == key).unwrap();
    assert_eq!(step("process").minutes, 40);
    assert!(!step("process").attended && step("process").hands == 0);
    assert_eq!(
        (step("to-boil").minutes_low, step("to-boil").minutes),
        (20, 30)
    );
    assert!(step("mill").uses.contains(&ResourceKind::Mill));
    assert_eq!(step("process").source, "the permit of this batch");
    assert!(step("mill").source.contains("no source"));
    // The pot is kept from the first heating to the last filling, the canner until the lifting.
    let names: Vec<(ResourceKind, &str, &str)> = day
        .holds
        .iter()
        .map(|hold| {
            (
                hold.resource,
                day.steps[hold.from_step].key.as_str(),
                day.steps[hold.to_step].key.as_str(),
            )
        })
        .collect();
    assert_eq!(
        names,
        vec![
            (ResourceKind::Pot, "cut-and-heat", "fill"),
            (ResourceKind::Canner, "warm-canner", "lift"),
        ]
    );
    // The process starts the very minute the water boils.
    let at = |key: &str| day.steps.iter().position(|step| step.key == key).unwrap();
    let tight = day
        .lags
        .iter()
        .find(|lag| lag.from == at("to-boil") && lag.to == at("process"))
        .unwrap();
    assert_eq!((tight.min, tight.max), (30, Some(30)));
    assert!(tight.max_is_safety);
}

#[test]
fn two_loads_keep_the_canner_one_after_the_other() {
    let juice = recipe("tomato-juice");
    let day = steps_for(
        juice,
        &question(45, 13, canner(CannerKind::BoilingWater, 40, 7)),
    )
    .unwrap();
    assert_eq!(count(&day, "process"), 2);
    assert_eq!(
        count(&day, "warm-canner"),
        1,
        "the water of the second load is hot"
    );
    let canner_holds: Vec<_> = day
        .holds
        .iter()
        .filter(|hold| hold.resource == ResourceKind::Canner)
        .collect();
    assert_eq!(canner_holds.len(), 2, "each load keeps the canner once");
    let fills: Vec<&str> = day
        .steps
        .iter()
        .filter(|step| step.key == "fill")
        .map(|step| step.title.as_str())
        .collect();
    assert_eq!(
        fills,
        vec!["fill and lid, load 1 of 2", "fill and lid, load 2 of 2"]
    );
    assert_eq!(day.steps.iter().filter_map(|step| step.load).max(), Some(2));
}

#[test]
fn jam_is_boiled_pot_by_pot() {
    let jam = recipe("jam-without-added-pectin-berry");
    let mut asked = question(9, 12, canner(CannerKind::BoilingWater, 10, 7));
    asked.batches = 4;
    let day = steps_for(jam, &asked).unwrap();
    assert_eq!(count(&day, "boil"), 4);
    assert_eq!(count(&day, "fill"), 4);
    assert_eq!(count(&day, "process"), 2);
    assert!(earliest(&day).is_some());
}

#[test]
fn every_recipe_makes_a_day_that_can_be_worked() {
    for recipe in BOOK.all() {
        let in_jars = recipe.route == Route::Heat;
        let loads = in_jars
            .then(|| canner(CannerKind::BoilingWater, 15, 7))
            .flatten();
        let day = steps_for(recipe, &question(20, if in_jars { 9 } else { 0 }, loads)).unwrap();
        assert!(!day.steps.is_empty(), "{}", recipe.key);
        assert!(
            earliest(&day).is_some(),
            "{}: steps wait in a circle",
            recipe.key
        );
        let mut seen: BTreeMap<usize, ()> = BTreeMap::new();
        for step in &day.steps {
            assert!(step.minutes >= step.minutes_low && step.minutes_low >= 0);
            assert!(!step.source.is_empty(), "{} {}", recipe.key, step.key);
            assert_eq!(step.attended, step.hands > 0, "{} {}", recipe.key, step.key);
            // A step may not claim by itself what a hold already keeps for it.
            assert!(!step.uses.contains(&ResourceKind::Canner));
        }
        for lag in &day.lags {
            assert!(lag.max.is_none_or(|max| max >= lag.min), "{}", recipe.key);
            assert!(!lag.source.is_empty());
            if lag.max_is_safety {
                assert!(
                    !lag.source.contains("common practice") || lag.max == Some(lag.min),
                    "{}: a wait without a source is a rule",
                    recipe.key
                );
            }
            seen.insert(lag.to, ());
        }
        for hold in &day.holds {
            assert!(hold.from_step <= hold.to_step, "{}", recipe.key);
        }
        if in_jars {
            let process = day
                .steps
                .iter()
                .position(|step| step.key == "process")
                .unwrap();
            assert!(seen.contains_key(&process), "{}", recipe.key);
            let fill = day
                .steps
                .iter()
                .position(|step| step.key == "fill")
                .unwrap();
            assert!(
                seen.contains_key(&fill),
                "{}: filled out of nothing",
                recipe.key
            );
        }
    }
}

#[test]
fn a_slow_house_takes_longer_but_the_canner_does_not() {
    let juice = recipe("tomato-juice");
    let mut asked = question(24, 7, canner(CannerKind::BoilingWater, 40, 7));
    let book = steps_for(juice, &asked).unwrap();
    asked.rates = HouseRates {
        pace: Exact::from_integer(2),
    };
    let slow = steps_for(juice, &asked).unwrap();
    let minutes = |day: &DaySteps, key: &str| {
        day.steps
            .iter()
            .find(|step| step.key == key)
            .map(|step| step.minutes)
    };
    assert!(minutes(&slow, "mill") > minutes(&book, "mill"));
    for key in ["to-boil", "process", "rest"] {
        assert_eq!(minutes(&slow, key), minutes(&book, key), "{key}");
    }
}

#[test]
fn blanching_goes_by_portions_of_the_pot() {
    let beans = recipe("freeze-snap-beans");
    let day = steps_for(beans, &question(10, 0, None)).unwrap();
    let blanch = day.steps.iter().find(|step| step.key == "blanch").unwrap();
    // 4.54 kg in portions of 0.9 kg: six portions of 3 minutes and one for the boil to return.
    assert_eq!(blanch.minutes, 24);
    assert!(
        day.holds
            .iter()
            .any(|hold| hold.resource == ResourceKind::Pot)
    );
    assert_eq!(count(&day, "process"), 0);
}

#[test]
fn work_may_go_on_after_an_overnight_soak() {
    let dills = recipe("quick-fresh-pack-dill-pickles");
    let mut asked = question(8, 8, canner(CannerKind::BoilingWater, 10, 9));
    let whole_day = steps_for(dills, &asked).unwrap();
    assert_eq!(count(&whole_day, "salt"), 1);
    asked.after_rest = true;
    let morning = steps_for(dills, &asked).unwrap();
    assert_eq!(count(&morning, "salt") + count(&morning, "wash"), 0);
    assert_eq!(count(&morning, "pack"), 1);
    assert!(earliest(&morning).is_some());
    // Broth strained yesterday: today it is only heated, filled and processed.
    let broth = recipe("chicken-or-turkey-stock");
    let mut asked = question(0, 7, canner(CannerKind::Pressure, 25, 7));
    asked.after_rest = true;
    let today = steps_for(broth, &asked).unwrap();
    assert_eq!(count(&today, "simmer"), 0);
    let pot = today
        .holds
        .iter()
        .find(|hold| hold.resource == ResourceKind::Pot)
        .unwrap();
    assert_eq!(today.steps[pot.from_step].key, "reheat");
    assert_eq!(count(&today, "vent"), 1);
}
