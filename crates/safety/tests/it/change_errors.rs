//! What is not understood in a change to a recipe: named by its field, with a text that works.

use crate::change_file::{self, amount};
use quantity::{Exact, MassUnit, whole};
use reference::{ChangeAnswer, Reference};
use safety::{Amount, ChangeError, ChangeVerdict, Edit, Measure, RecipeChange};

fn judge(recipe: &str, edits: Vec<Edit>) -> Result<ChangeVerdict, ChangeError> {
    let change = RecipeChange {
        recipe: recipe.to_owned(),
        edits,
    };
    safety::judge_change(Reference::embedded(), &change)
}

/// Edits in the short hand of the case tables, joined by ` & `.
fn asked(recipe: &str, edits: &str) -> Result<ChangeVerdict, ChangeError> {
    judge(recipe, edits.split(" & ").map(change_file::edit).collect())
}

#[test]
fn every_misunderstood_edit_is_named_by_its_field_with_an_example() {
    for (recipe, edits, field, cause, example) in [
        (
            "piccalily",
            "scale 2",
            "recipe",
            "no tested recipe",
            "piccalilli",
        ),
        (
            "zzzz",
            "scale 2",
            "recipe",
            "no tested recipe",
            "tomato-salsa-paste-tomatoes",
        ),
        (
            "piccalilli",
            "amount turnips = 1 cup",
            "edits.1.line",
            "no line",
            "4 onions-chopped",
        ),
        (
            "piccalilli",
            "out 12",
            "edits.1.line",
            "no line",
            "9 brown-sugar",
        ),
        (
            "piccalilli",
            "swap 0 -> corn",
            "edits.1.line",
            "no line",
            "1 green-tomatoes-chopped",
        ),
        (
            "peaches",
            "out sugar",
            "edits.1.line",
            "no line",
            "less-salt",
        ),
        (
            "tomato-juice",
            "amount bottled-lemon-juice = 1 tbsp",
            "edits.1.line",
            "more than one line",
            "2 (1 tbsp for each jar-pint) or 5 (2 tbsp for each jar-quart)",
        ),
        (
            "piccalilli",
            "scale 2 & amount 4 = 0 cup",
            "edits.2.amount",
            "nothing",
            "1 1/2 cups",
        ),
        (
            "piccalilli",
            "amount 4 = 2 lb",
            "edits.1.amount",
            "measured by weight",
            "1 1/2 cups",
        ),
        (
            "apple-butter",
            "amount apples = 8 cup",
            "edits.1.amount",
            "by volume",
            "2 lb",
        ),
        (
            "spiced-apple-rings",
            "amount cinnamon-sticks = 8 clove",
            "edits.1.amount",
            "measured by cloves",
            "by pieces, such as 4 each",
        ),
        (
            "pickled-hot-peppers",
            "amount garlic = 2 drop",
            "edits.1.amount",
            "measured by drops",
            "by cloves, such as 3 cloves",
        ),
        (
            "apple-pie-filling-7-quart",
            "amount yellow-food-colouring = 1 each",
            "edits.1.amount",
            "measured by pieces",
            "by drops, such as 5 drops",
        ),
        (
            "piccalilli",
            "add   = 1 cup",
            "edits.1.ingredient",
            "No ingredient",
            "red onions",
        ),
        (
            "piccalilli",
            "add corn = 0 lb",
            "edits.1.amount",
            "nothing",
            "2 lb",
        ),
        (
            "piccalilli",
            "swap 4 ->  ",
            "edits.1.with",
            "No ingredient",
            "red onions",
        ),
        (
            "piccalilli",
            "swap 4 -> corn = 0 cup",
            "edits.1.amount",
            "nothing",
            "1 1/2 cups",
        ),
        (
            "piccalilli",
            "swap 4 -> corn of 1 lb",
            "edits.1.replaced",
            "by weight",
            "1 1/2 cups",
        ),
        (
            "piccalilli",
            "swap 4 -> corn of 3 cup",
            "edits.1.replaced",
            "More is",
            "at most",
        ),
        ("piccalilli", "scale 0", "edits.1.times", "no times", "1/2"),
        (
            "piccalilli",
            "manner stir-left",
            "edits.1.manner",
            "no manner|not a manner",
            "thicken",
        ),
    ] {
        let error = asked(recipe, edits).expect_err(edits);
        let said = error.to_string();
        assert_eq!(error.field, field, "{edits}: {said}");
        let causes: Vec<&str> = cause.split('|').collect();
        assert!(
            causes.iter().any(|c| error.cause.contains(c)),
            "{edits}: {said}"
        );
        assert!(error.example.contains(example), "{edits}: {said}");
    }
}

#[test]
fn a_negative_amount_is_nothing_too() {
    let size = |size| Amount {
        size,
        ..amount("1 cup")
    };
    let line = || "1".to_owned();
    for (edit, field) in [
        (
            Edit::Amount {
                line: line(),
                amount: size(whole(-1)),
            },
            "edits.1.amount",
        ),
        (
            Edit::Add {
                ingredient: "corn".to_owned(),
                amount: size(whole(-1)),
            },
            "edits.1.amount",
        ),
        (Edit::Scale { times: whole(-2) }, "edits.1.times"),
        (
            Edit::Swap {
                line: line(),
                replaced: Some(size(whole(-1))),
                with: "corn".to_owned(),
                amount: None,
            },
            "edits.1.replaced",
        ),
    ] {
        let error = judge("piccalilli", vec![edit]).expect_err("below nothing");
        assert_eq!(error.field, field, "{error}");
    }
    // Every line of the batch, evenly below nothing, is no even scaling either.
    let one = Edit::Amount {
        line: line(),
        amount: Amount {
            size: whole(-1),
            ..amount("1 lb")
        },
    };
    let error = judge("tomato-juice", vec![one]).expect_err("below nothing");
    assert_eq!(error.field, "edits.1.amount");
}

#[test]
fn single_amounts_that_scale_evenly_are_one_scaling_and_keep_their_numbers() {
    let twice = "amount 1 = 12 cup & amount 2 = 3 cup & amount 3 = 3 cup & amount 4 = 4 1/2 cup & amount 5 = 15 cup & amount 6 = 1 cup & amount 7 = 6 tbsp & amount 8 = 9 cup & amount 9 = 6 cup";
    let judged = asked("piccalilli", twice).expect("a verdict");
    assert_eq!(judged.answer, ChangeAnswer::Allow);
    assert_eq!(judged.edits[0].edit, Edit::Scale { times: whole(2) });
    assert_eq!(judged.edits.len(), 1);

    // One of them uneven: each is judged by itself.
    let uneven = twice.replace("amount 4 = 4 1/2", "amount 4 = 5");
    let judged = asked("piccalilli", &uneven).expect("a verdict");
    assert_eq!(
        (judged.answer, judged.edits.len()),
        (ChangeAnswer::Refuse, 9)
    );

    // An error beside them has the number it was asked under.
    let error = asked("piccalilli", &format!("{twice} & manner stir-left")).expect_err("no manner");
    assert_eq!(error.field, "edits.10.manner");

    // A part that is swapped is a part of one batch: beside it nothing is gathered.
    let beside = format!("{twice} & swap 4 -> red onions of 2 cup");
    assert_eq!(
        asked("piccalilli", &beside).expect("a verdict").edits.len(),
        10
    );
    let beside = format!("{twice} & swap 4 -> red onions = 2 cup");
    assert_eq!(
        asked("piccalilli", &beside).expect("a verdict").edits.len(),
        10
    );
    let beside = format!("{twice} & swap 4 -> red onions");
    assert_eq!(
        asked("piccalilli", &beside).expect("a verdict").edits.len(),
        2
    );

    // An amount for each jar, or in another measure, is no part of it.
    let jar = asked("tomato-juice", "amount 1 = 46 lb & amount 2 = 2 tbsp");
    assert_eq!(jar.expect("a verdict").edits.len(), 2);
    let error = asked("tomato-juice", "amount 1 = 46 cup").expect_err("another measure");
    assert_eq!(error.field, "edits.1.amount");
}

#[test]
fn numbers_too_finely_divided_are_an_error_and_never_an_answer() {
    let fine = |top: i128, bottom: i128, measure| Amount {
        size: Exact::new(top, bottom),
        measure,
        text: "very finely divided".to_owned(),
    };
    let more = |line: &str, amount| Edit::Amount {
        line: line.to_owned(),
        amount,
    };
    let add = |ingredient: &str, amount| Edit::Add {
        ingredient: ingredient.to_owned(),
        amount,
    };
    let swap = |line: &str, replaced| Edit::Swap {
        line: line.to_owned(),
        replaced: Some(replaced),
        with: "dill seed".to_owned(),
        amount: None,
    };
    let (most, near) = (i128::MAX, i128::MAX / 9 * 2);
    let two = |of: &str, measure| {
        vec![
            add(of, fine(1, most, measure)),
            add(of, fine(1, most - 2, measure)),
        ]
    };
    let no_acid = (2..8).map(|line| Edit::LeaveOut {
        line: line.to_string(),
    });
    for (what, recipe, edits) in [
        (
            "an even factor",
            "tomato-juice",
            vec![more("1", fine(most, 1, Measure::Mass))],
        ),
        (
            "a part of a line",
            "piccalilli",
            vec![swap("4", fine(1, most, Measure::Volume))],
        ),
        (
            "a part of a range: it fits the lower edge, and not the upper one",
            "dill-pickles-fermented",
            vec![swap("9", fine(1, near, Measure::Each))],
        ),
        ("low-acid produce", "piccalilli", two("corn", Measure::Drop)),
        (
            "onions of low-acid food",
            "chile-con-carne",
            two("onions", Measure::Drop),
        ),
        ("acid", "piccalilli", two("vinegar 5%", Measure::Drop)),
        (
            "acid where another acid is gone",
            "tomato-juice",
            no_acid.chain(two("vinegar 5%", Measure::Drop)).collect(),
        ),
        (
            "food beside acid",
            "piccalilli",
            two("tomatoes", Measure::Drop),
        ),
        (
            "food times acid",
            "piccalilli",
            vec![add("tomatoes", fine(most, 1, Measure::Mass))],
        ),
        (
            "acid times food",
            "piccalilli",
            vec![more("8", fine(10i128.pow(38), 1, Measure::Volume))],
        ),
    ] {
        let error = judge(recipe, edits).expect_err(what);
        assert_eq!(error.field, "edits", "{what}: {error}");
        assert!(error.example.contains("fewer digits"), "{what}: {error}");
    }
}

#[test]
fn table_amounts_are_exact_or_an_error() {
    let huge = Exact::from_integer(i128::MAX);
    for unit in ["lb", "oz", "tsp", "gal"] {
        assert!(Amount::from_table(huge, unit).is_err(), "{unit}");
    }
    let each = Amount::from_table(huge, "each").expect("a count");
    assert_eq!((each.size, each.measure), (huge, Measure::Each));
    let pound = Amount::from_table(whole(1), "lb").expect("a weight");
    assert_eq!(pound.size, quantity::Mass::of(1, MassUnit::Pound).exact());
}

#[test]
fn what_stands_only_once_cannot_be_left_out_twice() {
    // Either dill alone may go, both together may not.
    for edits in ["out dill-seed", "out dill-heads-fresh-or-dry"] {
        let judged = asked("dill-pickles-fermented", edits).expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Allow, "{edits}");
    }
    for edits in [
        "out dill-seed & out dill-heads-fresh-or-dry",
        "out dill-heads-fresh-or-dry & swap dill-seed -> dill-heads-fresh-or-dry",
        "swap dill-seed -> dill-heads-fresh-or-dry & out dill-heads-fresh-or-dry",
    ] {
        let judged = asked("dill-pickles-fermented", edits).expect("a verdict");
        assert_eq!(judged.answer, ChangeAnswer::Refuse, "{edits}");
    }
    // The same for the meat of a pie filling.
    let meat = asked("festive-mincemeat-pie-filling", "out 2 & out 11").expect("a verdict");
    assert_eq!(meat.answer, ChangeAnswer::Refuse);
}

#[test]
fn two_halves_are_a_whole() {
    let half = "swap sugar -> honey of 1/4 cup";
    let recipe = "mixed-fruit-cocktail";
    let once = asked(recipe, "swap sugar -> honey of 1 1/2 cup").expect("a verdict");
    assert_eq!(once.answer, ChangeAnswer::AllowIf, "{once:?}");
    let more = asked(
        recipe,
        &format!("swap sugar -> honey of 1 1/2 cup & {half}"),
    );
    assert_eq!(more.expect("a verdict").answer, ChangeAnswer::Refuse);
}
