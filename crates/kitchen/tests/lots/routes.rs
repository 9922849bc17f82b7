//! Recipes and grades agree on what may go where.

use kitchen::crop::{crop, crops};
use kitchen::grade::{MayUse, grade, grades_for};
use kitchen::recipe::{Route, recipes};
use reference::Reference;

#[test]
fn every_recipe_asks_for_crops_and_grades_that_exist_and_may_go_its_way() {
    let book = recipes(Reference::embedded());
    let mut asked = 0;
    for recipe in book.all() {
        for part in &recipe.uses {
            for key in part.crops.iter().filter(|key| *key != "*") {
                crop(key).unwrap();
                for grade_key in &part.grades {
                    let found = grade(key, grade_key).unwrap();
                    assert!(
                        found.uses.may(recipe.route).is_open(),
                        "{} takes {grade_key} {key}, which may not go to {}",
                        recipe.key,
                        recipe.route
                    );
                    asked += 1;
                }
            }
        }
    }
    assert!(asked > 200, "{asked}");
}

#[test]
fn every_grade_of_every_crop_has_somewhere_to_go() {
    for row in crops() {
        for grade in grades_for(&row.key).unwrap() {
            let uses = &grade.uses;
            assert_eq!(uses.may(Route::Compost), MayUse::Yes);
            if uses.may(Route::ColdRoom).is_open() {
                assert!(
                    uses.may(Route::Fresh).is_open(),
                    "{} {}",
                    row.key,
                    grade.key
                );
            }
        }
    }
    let red = grade("tomato-slicing", "red").unwrap().uses;
    assert_eq!(red.may(Route::Heat), MayUse::Yes);
    let damaged = grade("tomato-slicing", "damaged").unwrap().uses;
    assert_eq!(damaged.may(Route::Freezer), MayUse::Trimmed);
    assert_eq!(damaged.may(Route::ColdRoom), MayUse::No);
}
