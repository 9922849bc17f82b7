//! Recipe cards: only published terms go out, and nothing of a recipe is lost on the way back.

use crate::household::at;
use app::App;
use app::read_recipe;
use app::request::{KeepRecipe, ReadRecipe};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use store::Store;

const TERMS: &str = include_str!("schema_terms/recipe.txt");

/// The terms below a head of the list.
fn terms(kinds: &[&str]) -> BTreeSet<&'static str> {
    let mut found = BTreeSet::new();
    let mut wanted = false;
    for line in TERMS.lines().filter(|line| !line.starts_with('#')) {
        match line
            .strip_prefix('[')
            .and_then(|line| line.strip_suffix(']'))
        {
            Some(kind) => wanted = kinds.contains(&kind),
            None if wanted => {
                found.insert(line);
            }
            None => {}
        }
    }
    assert!(found.len() > 10);
    found
}

/// Every key of the object that its type does not have.
fn strangers(value: &Value) -> Vec<String> {
    let Some(object) = value.as_object() else {
        return Vec::new();
    };
    let known = match object["@type"].as_str().unwrap() {
        "Recipe" => terms(&["Recipe", "HowTo", "CreativeWork", "Thing"]),
        "HowToStep" | "CreativeWork" => terms(&["CreativeWork", "Thing"]),
        "Person" => terms(&["Thing"]),
        other => panic!("{other} is no type of a card"),
    };
    let mut found = Vec::new();
    for (key, value) in object {
        if !key.starts_with('@') && !known.contains(key.as_str()) {
            found.push(key.clone());
        }
        let inner = value
            .as_array()
            .map_or(std::slice::from_ref(value), Vec::as_slice);
        found.extend(inner.iter().flat_map(strangers));
    }
    found
}

const TEXT: &str = "Bench pickle\nBy: Wren\nFrom: invented\nMakes: 3 pints\n\n2 lb cucumbers\n½ lb onions\n  (smudge) \n\nSlice.\nCool.\n";

fn app() -> App {
    App::new(Store::open_in_memory().unwrap())
}

#[test]
fn a_card_has_published_terms_only_and_comes_back_whole() {
    let app = app();
    let now = at("2026-08-27", 480);
    let request = KeepRecipe {
        text: TEXT.to_owned(),
        ..KeepRecipe::default()
    };
    app.keep_recipe(&now, &request).unwrap();
    let text = app.export_recipe("bench-pickle", "json-ld").unwrap();
    let card: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(strangers(&card), Vec::<String>::new());
    assert_eq!(card["@context"], "https://schema.org");
    assert_eq!(
        card["creativeWorkStatus"],
        "household-trial".to_owned().as_str()
    );
    let back = read_recipe(&ReadRecipe {
        text,
        ..ReadRecipe::default()
    })
    .unwrap();
    let lines: Vec<&str> = back.lines.iter().map(|line| line.text.as_str()).collect();
    assert_eq!(lines, ["2 lb cucumbers", "½ lb onions", "(smudge)"]);
    assert_eq!(back.steps, ["Slice.", "Cool."]);
    assert_eq!(
        (
            back.title.as_str(),
            back.by.as_str(),
            back.from.as_str(),
            back.makes.as_str()
        ),
        ("Bench pickle", "Wren", "invented", "3 pints")
    );
}

#[test]
fn every_tested_recipe_has_a_card_of_published_terms_with_all_its_lines() {
    let app = app();
    let mut seen = 0;
    for sheet in reference::Reference::embedded().recipes() {
        let Ok(text) = app.export_recipe(&sheet.key, "json-ld") else {
            continue;
        };
        let card: Value = serde_json::from_str(&text).unwrap();
        assert_eq!(strangers(&card), Vec::<String>::new(), "{}", sheet.key);
        let rows = reference::Reference::embedded()
            .recipe_rows(&sheet.key)
            .len();
        assert_eq!(
            card["recipeIngredient"].as_array().unwrap().len(),
            rows,
            "{}",
            sheet.key
        );
        assert_eq!(card["isBasedOn"]["@type"], "CreativeWork");
        let back = read_recipe(&ReadRecipe {
            text,
            ..ReadRecipe::default()
        })
        .unwrap();
        assert_eq!(back.lines.len(), rows);
        seen += 1;
    }
    assert!(seen > 80, "{seen}");
}

#[test]
fn cards_of_other_shapes_are_read_and_what_has_no_place_is_named() {
    let card = r#"{"@context": "https://schema.org", "@graph": [{"@type": "WebPage"}, {
        "@type": ["Recipe", "Thing"], "name": "Bench pickle", "recipeYield": 3,
        "author": [{"@type": "Person", "name": "Wren"}, "Ida"],
        "recipeIngredient": ["2 lb cucumbers", "1 lb onions\nsalt to taste"],
        "recipeInstructions": [{"@type": "HowToSection", "name": "Brine",
            "itemListElement": [{"@type": "HowToStep", "text": "Boil."}]}, "Cool."],
        "prepTime": "PT20M", "image": "x.jpg"}]}"#;
    let view = read_recipe(&ReadRecipe {
        text: card.to_owned(),
        ..ReadRecipe::default()
    })
    .unwrap();
    assert_eq!((view.by.as_str(), view.makes.as_str()), ("Wren, Ida", "3"));
    assert_eq!(view.lines.len(), 3);
    assert_eq!(view.steps, ["Brine", "Boil.", "Cool."]);
    assert_eq!(view.not_kept, ["image", "prepTime"]);
    let odd = r#"{"@type": "Recipe", "name": "x", "recipeIngredient": true}"#;
    let view = read_recipe(&ReadRecipe {
        text: odd.to_owned(),
        ..ReadRecipe::default()
    })
    .unwrap();
    assert_eq!(view.not_kept, ["recipeIngredient"]);
}

#[test]
fn a_recipe_of_a_tested_name_gets_a_key_of_its_own_and_no_permit() {
    let app = app();
    let now = at("2026-08-27", 480);
    let title = &reference::Reference::embedded()
        .recipes()
        .iter()
        .find(|sheet| sheet.key == "apple-butter")
        .unwrap()
        .title;
    let request = KeepRecipe {
        text: format!("{title}\n\n2 cups onions"),
        answers: BTreeMap::from([("cup".to_owned(), "us".to_owned())]),
        token: String::new(),
    };
    let done = app.keep_recipe(&now, &request).unwrap();
    assert_eq!(app.recipe_key_of(done.entry).unwrap(), "own-apple-butter");
    let view = app.household_recipe(&now, "own-apple-butter").unwrap();
    assert_ne!(view.state, "tested");
    assert!(view.cold.is_some());
}
