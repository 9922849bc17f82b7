//! Feeding: only by a line of the table; the dangerous cases are refused for every animal.

use kitchen::LotError;
use kitchen::crop::crops;
use kitchen::feeding::{ANIMALS, SortOutTo, feeding};
use kitchen::grade::grades_for;
use reference::{FeedVerdict, Reference};

fn to(crop: &str, part: &str, animal: &str) -> SortOutTo {
    feeding(crop, part, animal).unwrap().to
}

#[test]
fn mould_and_doubtful_jars_are_never_fed_whatever_the_crop() {
    for crop in crops() {
        for animal in ANIMALS {
            assert_eq!(to(&crop.key, "mouldy", animal), SortOutTo::Compost);
            assert_eq!(to(&crop.key, "suspect-jar", animal), SortOutTo::Bagged);
        }
    }
}

#[test]
fn the_known_poisons_are_refused_for_every_animal() {
    for (crop, part) in [
        ("potato", "green"),
        ("potato", "leaves"),
        ("rhubarb", "leaves"),
        ("onion", "whole"),
        ("garlic", "whole"),
        ("avocado", "skin"),
        ("avocado", "flesh"),
        ("tomato-paste", "unripe"),
        ("tomato-paste", "leaves"),
        ("eggplant", "leaves"),
        ("lima-bean", "whole"),
        ("peach", "stones"),
        ("cherry-sour", "leaves"),
    ] {
        for animal in ANIMALS {
            let answer = feeding(crop, part, animal).unwrap();
            assert!(!answer.may_feed(), "{crop} {part} to {animal}: {answer:?}");
            assert!(!answer.source.is_empty());
        }
    }
}

#[test]
fn sound_surplus_goes_to_the_animals_the_table_names() {
    for (crop, animal) in [
        ("cucumber", "hens"),
        ("summer-squash", "pigs"),
        ("pumpkin", "goats"),
        ("sweet-corn", "hens"),
        ("apple", "pigs"),
        ("tomato-slicing", "pigs"),
        ("kale", "chickens"),
    ] {
        assert_eq!(
            to(crop, "fruit", animal),
            SortOutTo::Animals,
            "{crop} to {animal}"
        );
    }
}

#[test]
fn cooked_is_another_answer_than_raw() {
    assert_eq!(to("snap-bean", "sound", "hens"), SortOutTo::Compost);
    assert_eq!(to("snap-bean", "cooked", "hens"), SortOutTo::Animals);
    assert_eq!(to("tomato-paste", "ripe", "hens"), SortOutTo::Compost);
    assert_eq!(to("tomato-paste", "cooked", "hens"), SortOutTo::Animals);
}

#[test]
fn no_line_means_compost_and_says_so() {
    let answer = feeding("basil", "roots", "pigs").unwrap();
    assert_eq!(answer.to, SortOutTo::Compost);
    assert_eq!(answer.source, "no line in the feeding table");
    assert_eq!(
        answer.reason,
        "The feeding table has no line for roots basil to pigs: compost it."
    );
}

#[test]
fn unknown_animals_and_crops_are_named() {
    let error = feeding("apple", "sound", "dragon").unwrap_err();
    assert_eq!(
        error.to_string(),
        "the feeding table knows no \"dragon\"; it knows hens, pigs, rabbits or goats"
    );
    assert!(matches!(
        feeding("aple", "sound", "hens"),
        Err(LotError::UnknownCrop { .. })
    ));
    assert!(feeding("any", "sound", "hens").is_err());
}

#[test]
fn every_grade_of_every_crop_has_an_answer_for_every_animal() {
    for crop in crops() {
        for grade in grades_for(&crop.key).unwrap() {
            for animal in ANIMALS {
                let answer = feeding(&crop.key, &grade.feeding_part, animal).unwrap();
                if grade.key == "spoiled" || grade.key == "greened" {
                    assert!(!answer.may_feed(), "{} {}", crop.key, grade.key);
                }
            }
        }
    }
}

#[test]
fn every_line_names_a_known_animal_and_a_source_that_fits_its_basis() {
    let lines = Reference::embedded().feeding();
    assert!(lines.len() > 100);
    for line in lines {
        assert!(
            line.animal == "any" || ANIMALS.contains(&line.animal.as_str()),
            "{}",
            line.animal
        );
        let unread = line.source.contains("from memory") || line.source.contains("common practice");
        if unread {
            assert!(
                line.basis.remembered(),
                "{} {}: {}",
                line.crop,
                line.part,
                line.source
            );
        }
        if line.verdict == FeedVerdict::Never {
            assert!(
                !line.note.is_empty(),
                "{} {}: a refusal says why",
                line.crop,
                line.part
            );
        }
    }
}
