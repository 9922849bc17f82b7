//! A recipe as text: the dry run, the questions, keeping, showing and exporting it.

use crate::household::{Household, golden, root};
use serde_json::{Value, json};

const ANSWERS: [&str; 10] = [
    "--answer",
    "big-t=tablespoon",
    "--answer",
    "small-t=teaspoon",
    "--answer",
    "cup=us",
    "--answer",
    "spoon=us",
    "--who",
    "Wren",
];

fn odd() -> String {
    root()
        .join("examples/recipe/twelve-odd-lines.txt")
        .to_str()
        .unwrap()
        .to_owned()
}

fn with<'a>(first: &[&'a str]) -> Vec<&'a str> {
    [first, &ANSWERS].concat()
}

#[test]
fn twelve_odd_lines_are_shown_two_of_them_unreadable_and_none_is_lost() {
    let household = Household::empty();
    let shown = household.run(&["recipe", "read", &odd()]).fine();
    golden("twelve_odd_lines.txt", &shown.out);
    let view = household
        .run(&["recipe", "read", &odd(), "--json"])
        .fine()
        .json();
    let lines = view["lines"].as_array().unwrap();
    let unread: Vec<&Value> = lines
        .iter()
        .filter(|line| line["state"] == "unreadable")
        .collect();
    assert_eq!((lines.len(), unread.len()), (12, 2), "{view}");
    let text = std::fs::read_to_string(odd()).unwrap();
    for line in lines {
        let words = line["text"].as_str().unwrap();
        assert!(
            text.lines().any(|one| one == words),
            "«{words}» is not as written"
        );
    }
    assert!(!household.file().exists(), "a dry run makes no file");
}

#[test]
fn it_is_kept_only_when_nothing_is_open_and_then_shown_with_its_answers() {
    let household = Household::empty();
    let refused = household.run(&["recipe", "keep", &odd()]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("capital T"), "{}", refused.err);
    assert!(
        refused
            .err
            .contains("--answer big-t=tablespoon or teaspoon"),
        "{}",
        refused.err
    );
    assert!(
        household
            .run(&["recipe", "list"])
            .fine()
            .out
            .contains("No recipe")
    );

    let kept = household.run(&with(&["recipe", "keep", &odd()])).fine();
    assert!(kept.out.contains("back-step-pepper-relish"), "{}", kept.out);
    let view = household
        .run(&["recipe", "show", "back-step-pepper-relish", "--json"])
        .fine()
        .json();
    assert_eq!(view["questions"], json!([]));
    assert_eq!(view["lines"][6]["amount"], "2 1/4 cups = 532.32 mL");
    assert_eq!(view["lines"][6]["role"], "acid");
    assert_eq!(view["lines"][6]["strength"], "5 %");
    assert_ne!(view["state"], "tested");
    assert_eq!(view["cold"]["fridge_days"], 3);
    let list = household.run(&["recipe", "list"]).fine().out;
    assert!(list.contains("refrigerator or freezer only"), "{list}");

    // The same once more writes nothing; another wording is a new version beside the old.
    let before = household.rows();
    household.run(&with(&["recipe", "keep", &odd()])).fine();
    assert_eq!(household.rows(), before);
    let text = std::fs::read_to_string(odd())
        .unwrap()
        .replace("3/4 c.", "1 c.");
    let file = household.folder().join("again.txt");
    std::fs::write(&file, text).unwrap();
    household
        .run(&with(&["recipe", "keep", file.to_str().unwrap()]))
        .fine();
    let view = household
        .run(&["recipe", "show", "back-step-pepper-relish", "--json"])
        .fine()
        .json();
    assert_eq!(view["kept"]["versions"], 2);
    assert_eq!(view["lines"][9]["amount"], "1 c. = 236.59 mL");

    // Undone, the version before it stands again.
    household.run(&["undo"]).fine();
    let view = household
        .run(&["recipe", "show", "back-step-pepper-relish", "--json"])
        .fine()
        .json();
    assert_eq!(view["kept"]["versions"], 1);
    household.run(&["check"]).fine();
}

#[test]
fn a_card_comes_back_with_every_line_and_step() {
    let household = Household::empty();
    household.run(&with(&["recipe", "keep", &odd()])).fine();
    for form in ["json-ld", "text"] {
        let out = household
            .run(&["recipe", "export", "back-step-pepper-relish", "--as", form])
            .fine()
            .out;
        let file = household.folder().join("card");
        std::fs::write(&file, out).unwrap();
        let read = |path: &str| {
            household
                .run(&["recipe", "read", path, "--json"])
                .fine()
                .json()
        };
        let (was, is) = (read(&odd()), read(file.to_str().unwrap()));
        for part in [
            "title",
            "by",
            "from",
            "makes",
            "lines",
            "steps",
            "questions",
        ] {
            assert_eq!(was[part], is[part], "{form}: {part}");
        }
    }
}

#[test]
fn what_is_not_understood_is_named_with_what_to_do() {
    let household = Household::empty();
    let file = household.folder().join("card.json");
    for (text, arguments, words) in [
        ("{", &[][..], "no JSON"),
        (
            r#"{"@type": "Person"}"#,
            &[],
            "No recipe stands in this JSON",
        ),
        (
            "Relish\n\n1 cup onions\n",
            &["--answer", "cup=big"],
            "us or metric or imperial",
        ),
        (
            "Relish\n\n1 cup onions\n",
            &["--answer", "bowl=us"],
            "The questions are",
        ),
        (
            "Relish\n\n1 cup onions\n",
            &["--answer", "cup"],
            "has no «=»",
        ),
        ("", &[], "no title"),
        ("Relish\n\n", &[], "no ingredient lines"),
    ] {
        std::fs::write(&file, text).unwrap();
        let name = file.to_str().unwrap();
        let answer = household.run(&[&["recipe", "keep", name], arguments].concat());
        assert_eq!(answer.code, 2, "{text}: {}", answer.out);
        assert!(answer.err.contains(words), "«{words}»: {}", answer.err);
    }
    for arguments in [
        &["recipe", "show", "nothing"][..],
        &["recipe", "export", "nothing"],
        &["recipe", "read", "nowhere.txt"],
        &[
            "recipe",
            "export",
            "tomato-salsa-paste-tomatoes",
            "--as",
            "film",
        ],
    ] {
        assert_eq!(household.run(arguments).code, 2, "{arguments:?}");
    }
    let kept = household
        .rows()
        .iter()
        .filter(|row| row.starts_with("household_recipe"))
        .count();
    assert_eq!(kept, 0);
}
