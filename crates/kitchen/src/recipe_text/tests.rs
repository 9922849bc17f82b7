//! Lines as people write them, and what is made of them.

use super::*;
use crate::recipe::{Amount, CountWord, Role};
use proptest::prelude::*;
use quantity::{Exact, MassUnit, VolumeUnit, show, whole};
use safety::RecipeState;

fn answers(pairs: &[(&str, &str)]) -> Answers {
    Answers::from_pairs(pairs.iter().copied()).unwrap()
}

fn us() -> Answers {
    answers(&[
        ("big-t", "tablespoon"),
        ("small-t", "teaspoon"),
        ("cup", "us"),
        ("pint", "us"),
        ("spoon", "us"),
        ("ounce", "us"),
        ("vinegar", "5"),
    ])
}

fn reading(lines: &[&str], answers: &Answers) -> Reading {
    let recipe = WrittenRecipe {
        title: "Shed relish".to_owned(),
        lines: lines.iter().map(|line| (*line).to_owned()).collect(),
        ..WrittenRecipe::default()
    };
    read(Reference::embedded(), &recipe, answers)
}

fn one(line: &str, answers: &Answers) -> ReadLine {
    reading(&[line], answers).lines.remove(0)
}

/// Low, high, name, note and role in one text.
fn said(line: &str) -> String {
    let line = one(line, &us());
    let size = |amount: Option<Amount>| match amount {
        None => "-".to_owned(),
        Some(Amount::Mass(mass)) => format!("{} oz", show::number(mass.in_unit(MassUnit::Ounce))),
        Some(Amount::Volume(volume)) => {
            format!("{} tsp", show::number(volume.in_unit(VolumeUnit::Teaspoon)))
        }
        Some(Amount::Count { number, of }) => format!("{} {of:?}", show::number(number)),
    };
    let role = line.role.map_or("no role", Role::as_str);
    let codes: Vec<&str> = line.troubles.iter().map(|trouble| trouble.code).collect();
    format!(
        "{}..{} | {} | {} | {role} | {}",
        size(line.low),
        size(line.high),
        line.name,
        line.note,
        codes.join(" ")
    )
}

#[test]
fn lines_are_read_as_people_write_them() {
    for (line, wanted) in [
        (
            "2 1/4 cups cider vinegar, 5 %",
            "108 tsp..108 tsp | cider vinegar |  | acid | ",
        ),
        ("3 T salt", "9 tsp..9 tsp | salt |  | salt | "),
        ("½ t turmeric", "1/2 tsp..1/2 tsp | turmeric |  | spice | "),
        (
            "1-2 cloves garlic, minced",
            "1 Clove..2 Clove | garlic | minced | produce | ",
        ),
        (
            "24 lb paste tomatoes",
            "384 oz..384 oz | paste tomatoes |  | produce | ",
        ),
        ("salt to taste", "-..- | salt | to taste | salt | "),
        (
            "2½ cups sugar",
            "120 tsp..120 tsp | sugar |  | sweetener | ",
        ),
        (
            "1-1/2 cups sugar",
            "72 tsp..72 tsp | sugar |  | sweetener | ",
        ),
        (
            "1/2–3/4 cup sugar",
            "24 tsp..36 tsp | sugar |  | sweetener | ",
        ),
        (
            "1 to 1 1/2 cups sugar",
            "48 tsp..72 tsp | sugar |  | sweetener | ",
        ),
        ("3 lb 4 oz onions", "52 oz..52 oz | onions |  | produce | "),
        (
            "1 cup plus 2 tbsp sugar",
            "54 tsp..54 tsp | sugar |  | sweetener | ",
        ),
        (
            "• 2 medium onions, chopped",
            "2 Each..2 Each | medium onions | chopped | produce | ",
        ),
        (
            "half a cup of water",
            "24 tsp..24 tsp | water |  | liquid | ",
        ),
        (
            "1 (14 oz) can tomatoes",
            "14 oz..14 oz | tomatoes |  | produce | ",
        ),
        (
            "8 oz cider vinegar",
            "48 tsp..48 tsp | cider vinegar |  | acid | ",
        ),
        ("8 oz onions", "8 oz..8 oz | onions |  | produce | "),
        (
            "2 # onions (about 6)",
            "32 oz..32 oz | onions | about 6 | produce | ",
        ),
        (
            "2 fl. oz. bottled lemon juice",
            "12 tsp..12 tsp | bottled lemon juice |  | acid | ",
        ),
        ("-2 cups sugar", "-..- | sugar |  | sweetener | below-zero"),
        ("0 cups sugar", "-..- | sugar |  | sweetener | zero"),
        ("0-2 cups sugar", "0 tsp..96 tsp | sugar |  | sweetener | "),
        ("3-2 cups sugar", "-..- | sugar |  | sweetener | range"),
        ("1,000 g sugar", "-..- | sugar |  | sweetener | comma"),
        ("1/0 cup sugar", "-..- | sugar |  | sweetener | number"),
        ("3 glugs olive oil", "-..- | olive oil |  | fat | unit"),
        (
            "2 firkins onions",
            "-..- | firkins onions |  | produce | unit",
        ),
        (
            "2 cups or 480 ml sugar",
            "-..- | or 480 ml sugar |  | no role | second-number no-role",
        ),
        (
            "2 cups moon dust",
            "96 tsp..96 tsp | moon dust |  | no role | no-role",
        ),
        (
            "2 c##s of th~ usual",
            "-..- | c##s of th~ usual |  | no role | signs",
        ),
        ("sugar", "-..- | sugar |  | sweetener | no-amount"),
    ] {
        assert_eq!(said(line), wanted, "«{line}»");
    }
}

#[test]
fn metric_amounts_with_a_comma_are_exact() {
    let line = one("1,5 kg onions", &us());
    assert_eq!(
        line.low,
        Some(Amount::Mass(quantity::Mass::of(1500, MassUnit::Gram)))
    );
    let line = one("2,5 dl water", &us());
    assert_eq!(
        line.low,
        Some(Amount::Volume(quantity::Volume::of(
            250,
            VolumeUnit::Millilitre
        )))
    );
}

#[test]
fn what_is_open_is_asked_once_with_its_lines() {
    let read = reading(
        &[
            "3 T salt",
            "1 T sugar",
            "2 cups water",
            "1 pint onions",
            "2 cups cider vinegar",
        ],
        &Answers::default(),
    );
    let open: Vec<(&str, Vec<usize>)> = read
        .open
        .iter()
        .map(|(ask, lines)| (ask.key(), lines.clone()))
        .collect();
    assert_eq!(
        open,
        vec![
            ("big-t", vec![1, 2]),
            ("cup", vec![3, 5]),
            ("pint", vec![4]),
            ("vinegar", vec![5])
        ]
    );
    assert!(
        read.lines.iter().all(|line| line.low.is_none()),
        "nothing is guessed"
    );
    assert!(
        reading(&["2 US cups water", "1 metric cup sugar"], &us())
            .open
            .is_empty()
    );
}

#[test]
fn the_answer_decides_the_size_and_a_foreign_recipe_is_asked_for_its_spoons() {
    let cup = |answer| match one("1 cup water", &answers(&[("cup", answer)])).low {
        Some(Amount::Volume(volume)) => volume.exact(),
        other => panic!("{other:?}"),
    };
    assert_eq!(cup("metric"), whole(250));
    assert_eq!(cup("us"), Exact::new(2_365_882_365, 10_000_000));
    assert_eq!(cup("imperial"), Exact::new(284_130_625, 1_000_000));
    let pint = one("1 pint water", &answers(&[("pint", "imperial")]));
    let Some(Amount::Volume(pint)) = pint.low else {
        panic!("{pint:?}")
    };
    assert_eq!(pint.exact(), Exact::new(56_826_125, 100_000));
    let spoons = |lines: &[&str], given: &[(&str, &str)]| {
        let read = reading(lines, &answers(given));
        read.open.iter().any(|(ask, _)| *ask == Ask::Spoon)
    };
    assert!(!spoons(&["1 tbsp salt"], &[]));
    assert!(spoons(&["1 tbsp salt", "500 g onions"], &[]));
    assert!(spoons(
        &["1 tbsp salt", "1 cup water"],
        &[("cup", "metric")]
    ));
    assert!(!spoons(&["1 tbsp salt", "1 cup water"], &[("cup", "us")]));
}

#[test]
fn a_wrong_answer_is_named_with_its_choices() {
    let error = Answers::from_pairs([("cup", "big")]).unwrap_err();
    assert!(
        error.example.contains("us or metric or imperial"),
        "{error:?}"
    );
    assert!(
        Answers::from_pairs([("bowl", "us")])
            .unwrap_err()
            .example
            .contains("big-t")
    );
    assert!(Answers::from_pairs([("vinegar", "6.5")]).is_ok());
    assert!(Answers::from_pairs([("vinegar", "500")]).is_err());
}

#[test]
fn the_strength_of_a_vinegar_is_read_answered_or_unknown() {
    let strength = |line: &str, answers: &Answers| {
        let line = one(line, answers);
        (line.strength, line.kind.map(|kind| kind.as_str()))
    };
    let five = Some(whole(5));
    let none = Answers::default();
    assert_eq!(
        strength("1 US cup vinegar, 5% acidity", &none),
        (five, Some("vinegar"))
    );
    assert_eq!(
        strength("1 US cup cider vinegar (5 percent)", &none),
        (five, Some("cider-vinegar"))
    );
    assert_eq!(
        strength("1 US cup 5% cider vinegar", &none),
        (five, Some("cider-vinegar"))
    );
    assert_eq!(
        strength("1 US cup cider vinegar", &us()),
        (five, Some("cider-vinegar"))
    );
    let unknown = answers(&[("vinegar", "unknown")]);
    assert_eq!(
        strength("1 US cup cider vinegar", &unknown),
        (None, Some("unknown-vinegar"))
    );
    let four = one("1 US cup vinegar, 4,5 %", &none);
    assert_eq!(four.strength, Some(Exact::new(9, 2)));
    assert_eq!(four.role, Some(Role::Acid));
    assert!(
        Reference::embedded().ingredient(&four.known_as).is_none(),
        "a strength no table lists is no vinegar of 5 percent: {}",
        four.known_as
    );
}

#[test]
fn an_ingredient_in_the_note_is_not_passed_over() {
    assert_eq!(one("1 lb mushrooms, in oil", &us()).role, None);
    assert_eq!(
        one("1 lb tomatoes, cut into eighths", &us()).role,
        Some(Role::Produce)
    );
}

#[test]
fn nothing_of_the_text_file_is_lost() {
    let text = "\nShed relish\nBy: Wren\nMakes: 4 pints\n\n2 cups onions\nFrom: here: there\n\n\nChop.\n\nBoil.\n";
    let recipe = WrittenRecipe::from_text(text);
    assert_eq!(recipe.title, "Shed relish");
    assert_eq!(
        (recipe.by.as_str(), recipe.makes.as_str()),
        ("Wren", "4 pints")
    );
    assert_eq!(recipe.lines, ["2 cups onions", "From: here: there"]);
    assert_eq!(recipe.steps, ["Chop.", "Boil."]);
    assert_eq!(WrittenRecipe::from_text(&recipe.to_text()), recipe);
}

/// The lines of a tested recipe as a household would write them.
fn as_written(key: &str) -> Option<Vec<String>> {
    let rows = Reference::embedded().recipe_rows(key);
    let fits = rows
        .iter()
        .all(|row| row.per == "batch" && row.choice.is_empty() && row.unit != "unit");
    fits.then(|| {
        rows.iter()
            .map(|row| {
                let high = row.amount_high.as_ref().map_or(String::new(), |high| {
                    format!("-{}", show::number(high.high()))
                });
                let unit = match row.unit.as_str() {
                    "each" => "",
                    "fl-oz" => "fl oz",
                    unit => unit,
                };
                let name = row
                    .ingredient
                    .replace("5pct", "5 percent")
                    .replace('-', " ");
                format!("{}{high} {unit} {name}", show::number(row.amount.low()))
            })
            .collect()
    })
}

#[test]
fn every_printed_line_is_read_back_to_its_amount() {
    let mut seen = 0;
    for sheet in Reference::embedded().recipes() {
        let Some(lines) = as_written(&sheet.key) else {
            continue;
        };
        let texts: Vec<&str> = lines.iter().map(String::as_str).collect();
        let read = reading(&texts, &us());
        for (line, row) in read
            .lines
            .iter()
            .zip(Reference::embedded().recipe_rows(&sheet.key))
        {
            let Ok(Some(low)) = Amount::from_table(row.amount.low(), &row.unit) else {
                continue;
            };
            // An ounce of liquid was answered as a measure.
            if row.unit == "oz" && line.role != Some(Role::Produce) {
                continue;
            }
            assert_eq!(line.low, Some(low), "{}: {line:?}", sheet.key);
            seen += 1;
        }
    }
    assert!(seen > 300, "{seen}");
}

#[test]
fn a_tested_recipe_written_down_is_tested_and_with_one_unread_line_never() {
    let mut tested = 0;
    for sheet in Reference::embedded().recipes() {
        let Some(lines) = as_written(&sheet.key) else {
            continue;
        };
        let mut texts: Vec<&str> = lines.iter().map(String::as_str).collect();
        let state = |texts: &[&str]| {
            state_of_testing(Reference::embedded(), &reading(texts, &us()))
                .unwrap()
                .state
        };
        if state(&texts) != RecipeState::Tested {
            continue;
        }
        tested += 1;
        for hole in ["a smudge", "salt to taste"] {
            texts.push(hole);
            assert_ne!(
                state(&texts),
                RecipeState::Tested,
                "{} with «{hole}»",
                sheet.key
            );
            texts.pop();
        }
    }
    assert!(tested > 20, "{tested}");
}

#[test]
fn with_a_question_open_no_recipe_is_tested() {
    let lines = as_written("tomato-salsa-paste-tomatoes");
    let lines = lines.unwrap_or_else(|| vec!["2 cups onions".to_owned()]);
    let texts: Vec<&str> = lines.iter().map(String::as_str).collect();
    let read = reading(&texts, &Answers::default());
    assert!(!read.open.is_empty());
    let verdict = state_of_testing(Reference::embedded(), &read).unwrap();
    assert_ne!(verdict.state, RecipeState::Tested);
    assert!(verdict.cold_only.is_some());
}

#[test]
fn a_count_of_cloves_stays_a_count() {
    assert_eq!(
        one("3 cloves garlic", &us()).low,
        Some(Amount::Count {
            number: whole(3),
            of: CountWord::Clove
        })
    );
}

proptest! {
    #[test]
    fn any_text_is_read_without_a_panic_and_kept(
        lines in proptest::collection::vec("[0-9a-zA-Z½¼⅓ ./,()%#:;–⁄äß漢-]{0,40}", 1..6),
    ) {
        let texts: Vec<&str> = lines.iter().map(String::as_str).collect();
        for answers in [Answers::default(), us()] {
            let read = reading(&texts, &answers);
            let kept: Vec<&str> = read.lines.iter().map(|line| line.text.as_str()).collect();
            prop_assert_eq!(&kept, &texts);
            for line in &read.lines {
                let sized = line.low.is_some() && line.high.is_some();
                prop_assert_eq!(line.low.is_some(), line.high.is_some());
                if sized {
                    prop_assert!(!line.high.unwrap().is_zero(), "{:?}", line);
                }
                let whole = line.state == LineState::Understood;
                prop_assert!(!whole || (line.troubles.is_empty() && line.asks.is_empty() && line.role.is_some()), "{:?}", line);
            }
            let nothing = read.lines.iter().all(|line| {
                line.state == LineState::Heading || line.low.is_some_and(Amount::is_zero)
            });
            prop_assert!(nothing || state_of_testing(Reference::embedded(), &read).is_ok());
        }
    }

    #[test]
    fn any_bytes_of_a_file_are_a_recipe_with_all_its_lines(text in "\\PC{0,200}") {
        let recipe = WrittenRecipe::from_text(&text.replace(['|', 'e'], "\n"));
        let _ = read(Reference::embedded(), &recipe, &us());
        prop_assert_eq!(WrittenRecipe::from_text(&recipe.to_text()).lines, recipe.lines);
    }
}
