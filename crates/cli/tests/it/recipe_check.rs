//! `recipe check`: the documented file, its answers, and files that are not understood.

use crate::household::{Answer, Household, root};
use serde_json::{Value, json};

/// The first block of the guide with this head.
fn block(head: &str) -> String {
    let guide = std::fs::read_to_string(root().join("docs/guide/recipe-changes.md")).unwrap();
    let start = guide.find(&format!("```json {head}\n")).unwrap() + head.len() + 9;
    let end = guide[start..].find("```").unwrap();
    guide[start..start + end].to_owned()
}

fn check(text: &str, json: bool) -> Answer {
    let household = Household::empty();
    let file = household.folder().join("change.json");
    std::fs::write(&file, text).unwrap();
    let file = file.to_str().unwrap().to_owned();
    let mut command = vec!["recipe", "check", &file];
    if json {
        command.push("--json");
    }
    household.run(&command)
}

#[test]
fn the_example_of_the_guide_is_answered_as_the_guide_says() {
    let answered = check(&block("change"), true);
    assert_eq!(answered.code, 3, "{}", answered.err);
    let view = answered.json();
    let edits: Vec<&Value> = view["answer"]["edits"].as_array().unwrap().iter().collect();
    let said = json!({
        "answer": view["answer"]["answer"],
        "edits": edits.iter().map(|edit| &edit["answer"]).collect::<Vec<_>>(),
    });
    let documented: Value = serde_json::from_str(&block("answer")).unwrap();
    assert_eq!(said, documented);
    for edit in edits {
        for finding in edit["findings"].as_array().unwrap() {
            assert_ne!(finding["rule"], "");
            assert_ne!(finding["source"], "");
        }
    }
    assert_eq!(view["cold"]["fridge_days"], 3);
}

#[test]
fn the_text_names_rule_source_and_what_to_do_instead() {
    let said = check(&block("change"), false).out;
    for words in [
        "REFUSE: No: changed like this it has no shelf.",
        "[pepper-kind-same-total] allow:",
        "p. 3-20",
        "Instead: Keep to",
        "Instead of the shelf",
        "eat within 3 days",
    ] {
        assert!(said.contains(words), "«{words}» is missing:\n{said}");
    }
}

#[test]
fn the_household_recipe_of_the_guide_has_a_state_and_a_nearest() {
    let view = check(&block("household"), true).fine().json();
    assert_eq!(view["state"], "tested", "{view}");
    assert_eq!(view["nearest"]["recipe"], "tomato-salsa-paste-tomatoes");
    assert_eq!(view["not_known"], json!([]));
}

#[test]
fn without_edits_the_lines_are_listed_and_nothing_is_judged() {
    let listed = check(r#"{"recipe": "piccalilli"}"#, false).fine().out;
    assert!(listed.contains(" 1  "), "{listed}");
    assert!(!listed.contains("ALLOW"), "{listed}");
}

#[test]
fn what_is_not_understood_is_named_with_an_example() {
    for (text, words) in [
        ("{", "no question about a recipe"),
        (r#"{"recipe": "tomato-salsa"}"#, "Is one of these meant"),
        (
            r#"{"recipe": "piccalilli", "edits": [{"kind": "stir"}]}"#,
            "is no kind of edit",
        ),
        (
            r#"{"recipe": "piccalilli", "edits": [{"kind": "leave-out", "line": "moonshine"}]}"#,
            "moonshine",
        ),
        (
            r#"{"recipe": "piccalilli", "edits": [{"kind": "amount", "line": "1", "amount": "-2 cups"}]}"#,
            "-2 cups",
        ),
        (
            r#"{"recipe": "piccalilli", "edits": [{"kind": "add", "with": "honey", "amount": "0 cups"}]}"#,
            "0 cups",
        ),
        (
            r#"{"recipe": "piccalilli", "edits": [{"kind": "amount", "line": "1", "amount": "2 lb"}]}"#,
            "2 lb",
        ),
        (r#"{"recipe": "piccalilli", "stir": true}"#, "stir"),
        (
            r#"{"title": "x", "lines": [{"name": "", "amount": "1 cup"}]}"#,
            "names no ingredient",
        ),
    ] {
        let answered = check(text, false);
        assert_eq!(
            answered.code, 2,
            "{text}: {} {}",
            answered.out, answered.err
        );
        assert!(answered.err.contains(words), "{text}: {}", answered.err);
    }
    let missing = Household::empty().run(&["recipe", "check", "nowhere.json"]);
    assert_eq!(missing.code, 2);
    assert!(missing.err.contains("nowhere.json"), "{}", missing.err);
}
