//! Reads the case table of recipe changes: a recipe, edits in a short hand, and the right answer.

use quantity::{Exact, parse};
use reference::Reference;
use safety::{Amount, Edit, Measure, RecipeChange};

/// One row of the table.
pub struct Case {
    pub nr: String,
    pub title: String,
    pub change: RecipeChange,
    pub expect: String,
    pub must_say: String,
}

pub fn read(bytes: &str) -> Vec<Case> {
    let mut reader = csv::Reader::from_reader(bytes.as_bytes());
    reader
        .deserialize::<(String, String, String, String, String, String)>()
        .map(|row| {
            let (nr, title, recipe, edits, expect, must_say) = row.expect("a well-formed row");
            Case {
                nr,
                title,
                change: RecipeChange {
                    recipe,
                    edits: edits
                        .split(" & ")
                        .filter(|e| !e.is_empty())
                        .map(edit)
                        .collect(),
                },
                expect,
                must_say,
            }
        })
        .collect()
}

/// `amount LINE = 4 cup`, `swap LINE -> WITH [of 1 cup] [= 2 cup]`, `out LINE`, `add THING = 1 cup`,
/// `scale 2`, `jar pint`, `pack raw`, `canner steam`, `vinegar 4 [diluted]`, `manner drain`.
pub fn edit(text: &str) -> Edit {
    let (word, rest) = text.split_once(' ').unwrap_or((text, ""));
    let line = rest.to_owned();
    match word {
        "amount" => {
            let (line, much) = rest.split_once(" = ").expect("line = amount");
            Edit::Amount {
                line: line.to_owned(),
                amount: amount(much),
            }
        }
        "add" => {
            let (ingredient, much) = rest.split_once(" = ").expect("ingredient = amount");
            Edit::Add {
                ingredient: ingredient.to_owned(),
                amount: amount(much),
            }
        }
        "swap" => {
            let (line, rest) = rest.split_once(" -> ").expect("line -> other");
            let (rest, much) = match rest.split_once(" = ") {
                Some((rest, much)) => (rest, Some(amount(much))),
                None => (rest, None),
            };
            let (with, replaced) = match rest.split_once(" of ") {
                Some((with, part)) => (with, Some(amount(part))),
                None => (rest, None),
            };
            Edit::Swap {
                line: line.to_owned(),
                replaced,
                with: with.to_owned(),
                amount: much,
            }
        }
        "out" => Edit::LeaveOut { line },
        "scale" => Edit::Scale {
            times: number(rest),
        },
        "jar" => Edit::Jar {
            jar: rest.parse().expect("a jar"),
        },
        "pack" => Edit::Pack {
            pack: rest.parse().expect("a pack"),
        },
        "canner" => Edit::Canner {
            canner: rest.parse().expect("a method"),
        },
        "vinegar" => {
            let (percent, diluted) = match rest.strip_suffix(" diluted") {
                Some(percent) => (percent, true),
                None => (rest, false),
            };
            Edit::Vinegar {
                percent: (percent != "unknown").then(|| number(percent)),
                diluted,
            }
        }
        "manner" => Edit::Manner {
            manner: rest.to_owned(),
        },
        other => panic!("edit `{other}`"),
    }
}

fn number(text: &str) -> Exact {
    parse::number(text).expect("a number")
}

pub fn amount(text: &str) -> Amount {
    let (size, unit) = text.rsplit_once(' ').expect("number and unit");
    let count = |measure| Amount::count(number(size), measure, text);
    match unit {
        "each" => count(Measure::Each),
        "clove" => count(Measure::Clove),
        "drop" => count(Measure::Drop),
        "lb" | "oz" => Amount::mass(parse::mass(text).expect("a weight"), text),
        _ => Amount::volume(parse::volume(text).expect("a volume"), text),
    }
}

/// The strictest word of a verdict, and every rule that acted, for comparing.
pub fn answer(reference: &Reference, change: &RecipeChange) -> (String, String, Vec<String>) {
    let verdict = safety::judge_change(reference, change)
        .unwrap_or_else(|error| panic!("{}: {error}", change.recipe));
    let rules = verdict
        .edits
        .iter()
        .flat_map(|edit| &edit.findings)
        .chain(&verdict.whole)
        .map(|finding| finding.rule.clone())
        .collect();
    (verdict.answer.to_string(), format!("{verdict:?}"), rules)
}
