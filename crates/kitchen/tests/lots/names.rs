//! Crops and grades: names people type, and what each grade may become.

use std::collections::{BTreeMap, BTreeSet};

use kitchen::LotError;
use kitchen::crop::{crop, crops, find_crop, suggest_crop};
use kitchen::grade::{MayUse, grade, grade_lines, grades_for};
use reference::Reference;

#[test]
fn the_crops_a_household_grows_are_there() {
    for key in [
        "tomato-slicing",
        "tomato-paste",
        "tomato-cherry",
        "pepper-sweet",
        "pepper-hot",
        "snap-bean",
        "lima-bean",
        "cucumber",
        "sweet-corn",
        "summer-squash",
        "winter-squash",
        "beet",
        "carrot",
        "cabbage",
        "kale",
        "chard",
        "spinach",
        "onion",
        "garlic",
        "potato",
        "apple",
        "pear",
        "peach",
        "plum",
        "strawberry",
        "raspberry",
        "blueberry",
        "cherry-sour",
        "rhubarb",
        "basil",
        "parsley",
        "pea",
        "pumpkin",
        "grape",
        "tomatillo",
        "eggplant",
        "okra",
        "broccoli",
        "cauliflower",
        "turnip",
    ] {
        assert_eq!(crop(key).unwrap().key, key);
    }
}

#[test]
fn every_name_means_one_crop() {
    let mut owners: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    for row in crops() {
        for name in [&row.key, &row.title, &row.plural]
            .into_iter()
            .chain(&row.also)
        {
            owners
                .entry(name.replace('-', " "))
                .or_default()
                .insert(&row.key);
        }
    }
    for (name, keys) in owners {
        assert_eq!(keys.len(), 1, "\"{name}\" is claimed by {keys:?}");
    }
}

#[test]
fn every_crop_points_at_lines_that_exist() {
    let tables = Reference::embedded();
    for row in crops() {
        for stage in &row.storage_stages {
            assert!(
                tables
                    .storage()
                    .iter()
                    .any(|line| line.crop == row.storage_crop && line.stage == *stage),
                "{}: no storage line {} / {stage}",
                row.key,
                row.storage_crop
            );
        }
        assert!(
            !row.storage_stages.is_empty(),
            "{} keeps by no line",
            row.key
        );
        for name in &row.bulk {
            assert!(
                tables
                    .bulk_weights()
                    .iter()
                    .any(|line| line.commodity == *name && line.bulk_density_kg_per_l.is_some()),
                "{}: no bulk weight for {name}",
                row.key
            );
        }
        if let Some(name) = &row.respiration {
            assert!(
                tables.respiration().iter().any(|line| line.crop == *name),
                "{}: no respiration line {name}",
                row.key
            );
        }
        assert!(
            tables.feeding().iter().any(|line| line.crop == row.feeding),
            "{}: no feeding line {}",
            row.key,
            row.feeding
        );
    }
}

#[test]
fn people_may_type_any_usual_name() {
    for (typed, key) in [
        ("Zucchini", "summer-squash"),
        ("aubergine", "eggplant"),
        ("green beans", "snap-bean"),
        ("green bean", "snap-bean"),
        ("swiss chard", "chard"),
        ("Paste Tomatoes", "tomato-paste"),
        ("tomato paste", "tomato-paste"),
        ("plums", "plum"),
        ("corn", "sweet-corn"),
    ] {
        assert_eq!(
            find_crop(typed).map(|row| row.key.as_str()),
            Ok(key),
            "{typed}"
        );
    }
}

#[test]
fn a_misspelt_crop_is_answered_with_what_was_meant() {
    let Err(error) = find_crop("tomatoe") else {
        panic!("tomatoe is no crop");
    };
    let said = error.to_string();
    assert!(said.contains("no crop called \"tomatoe\""), "{said}");
    assert!(said.contains("did you mean"), "{said}");
    assert!(
        said.contains("tomato-slicing") && said.contains("tomato-paste"),
        "{said}"
    );
    assert_eq!(suggest_crop("strawbery")[0].key, "strawberry");
    assert_eq!(suggest_crop("cucmber")[0].key, "cucumber");
    assert_eq!(suggest_crop("brocolli")[0].key, "broccoli");
}

#[test]
fn an_unknown_crop_says_what_a_crop_looks_like() {
    let said = find_crop("wheelbarrow").unwrap_err().to_string();
    assert_eq!(
        said,
        "there is no crop called \"wheelbarrow\"; write a crop such as tomato-paste, snap-bean or apple"
    );
    assert!(find_crop("").is_err());
    assert!(matches!(find_crop("  "), Err(LotError::UnknownCrop { .. })));
}

#[test]
fn a_name_that_several_crops_share_asks_which() {
    let Err(LotError::AmbiguousCrop { choices, .. }) = find_crop("tomatoes") else {
        panic!("tomatoes are three crops");
    };
    assert_eq!(choices, "tomato-slicing, tomato-paste or tomato-cherry");
}

#[test]
fn tomatoes_are_graded_by_ripeness_and_nothing_else_is() {
    let keys = |key: &str| -> Vec<&str> {
        grades_for(key)
            .unwrap()
            .iter()
            .map(|row| row.key.as_str())
            .collect()
    };
    assert_eq!(
        keys("tomato-paste"),
        [
            "green",
            "breakers",
            "turning",
            "pink",
            "light-red",
            "red",
            "soft",
            "overripe",
            "damaged",
            "immature",
            "spoiled"
        ]
    );
    assert!(keys("snap-bean").contains(&"sound"));
    assert!(!keys("snap-bean").contains(&"red"));
    assert!(keys("lima-bean").contains(&"shelled"));
    assert!(keys("potato").contains(&"greened"));
    let Err(LotError::UnknownGrade { hint, .. }) = grade("tomato-paste", "sound") else {
        panic!("a tomato is never just sound");
    };
    assert!(hint.contains("green, breakers, turning"), "{hint}");
    let Err(LotError::UnknownGrade { hint, .. }) = grade("tomato-paste", "brakers") else {
        panic!("brakers is no grade");
    };
    assert!(hint.starts_with("did you mean breakers?"), "{hint}");
}

#[test]
fn every_crop_has_grades_with_one_line_each() {
    for row in crops() {
        let grades = grades_for(&row.key).unwrap();
        let mut seen = BTreeSet::new();
        assert!(grades.len() >= 4, "{}", row.key);
        assert!(
            grades.iter().all(|grade| seen.insert(&grade.key)),
            "{}",
            row.key
        );
        assert!(grades.windows(2).all(|pair| pair[0].order <= pair[1].order));
    }
}

#[test]
fn jars_take_firm_sound_produce_only() {
    for row in crops() {
        for grade in grades_for(&row.key).unwrap() {
            if ["soft", "overripe", "damaged", "spoiled", "greened"].contains(&grade.key.as_str()) {
                assert_eq!(grade.uses.jars, MayUse::No, "{} {}", row.key, grade.key);
            }
        }
    }
    assert_eq!(
        grade("tomato-slicing", "red").unwrap().uses.jars,
        MayUse::Yes
    );
    // Young fruit that the ripening rules call too young to ripen is of no use at all.
    assert_eq!(
        grade("tomato-slicing", "immature").unwrap().uses.fresh,
        MayUse::No
    );
}

#[test]
fn what_is_spoiled_goes_nowhere_but_the_compost() {
    for row in crops() {
        let spoiled = grade(&row.key, "spoiled").unwrap();
        let uses = spoiled.uses;
        for route in [
            uses.jars,
            uses.freezer,
            uses.dryer,
            uses.crock,
            uses.fresh,
            uses.seed,
        ] {
            assert!(!route.is_open(), "{}", row.key);
        }
        assert_eq!(spoiled.feeding_part, "mouldy");
    }
}

#[test]
fn every_grade_says_where_it_was_read() {
    for row in grade_lines() {
        assert!(
            !row.source.is_empty() && !row.note.is_empty(),
            "{}",
            row.key
        );
        if let Some((low, high)) = row.room_days {
            assert!(
                low <= high && row.remembered,
                "{}: days are common practice",
                row.key
            );
        }
    }
}

#[test]
fn the_closest_line_of_a_grade_counts() {
    assert_eq!(
        grade("pepper-sweet", "sound").unwrap().uses.seed,
        MayUse::Yes
    );
    assert_eq!(grade("carrot", "sound").unwrap().uses.seed, MayUse::No);
}
