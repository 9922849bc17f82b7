//! Lines that sound certain and are not: the stricter reading counts.

use super::*;
use safety::RecipeState;

fn one_line(text: &str) -> ReadLine {
    let recipe = WrittenRecipe {
        lines: vec![text.to_owned()],
        ..WrittenRecipe::default()
    };
    read(Reference::embedded(), &recipe, &Answers::default())
        .lines
        .remove(0)
}

#[test]
fn a_strength_that_is_a_range_or_a_limit_is_no_strength() {
    for text in [
        "2 cups cider vinegar, 4-5 %",
        "2 cups vinegar (4 to 6 %)",
        "1 cup vinegar, under 5 %",
        "1 cup vinegar of about 5 percent",
        "1 cup vinegar, at least 5 %",
    ] {
        let line = one_line(text);
        assert_eq!(line.strength, None, "{text}");
        assert!(line.troubles.iter().any(|t| t.code == "strength"), "{text}");
        assert_ne!(line.state, LineState::Understood, "{text}");
    }
    assert_eq!(
        one_line("2 cups cider vinegar, 5 %").strength,
        Some(quantity::whole(5))
    );
}

#[test]
fn a_second_amount_and_an_amount_of_two_readings_are_named() {
    for (text, code) in [
        ("1 lb onions, plus 2 lb more later", "second-number"),
        ("1 lb onions, then 3 cups", "second-number"),
        ("1.500 g salt", "comma"),
    ] {
        let line = one_line(text);
        assert!(
            line.troubles.iter().any(|t| t.code == code),
            "{text}: {:?}",
            line.troubles
        );
    }
    assert!(
        one_line("1 lb carrots, cut into 1-inch pieces")
            .troubles
            .is_empty()
    );
    assert!(one_line("1 metric pint water").asks.contains(&Ask::Pint));
}

#[test]
fn a_second_group_of_ingredients_behind_an_empty_line_is_not_taken_for_steps() {
    let text = "Rings (invented)\n\n3 lb onions\n\nFor the brine:\n5 cups cider vinegar, 5 %\nBoil for 5 minutes.\n";
    let recipe = WrittenRecipe::from_text(text);
    let answers = Answers::default();
    let reading = read(Reference::embedded(), &recipe, &answers);
    assert_eq!(reading.in_steps, [2]);
    let verdict = state_of_testing(Reference::embedded(), &reading).expect("lines");
    assert_ne!(verdict.state, RecipeState::Tested);
    assert!(
        verdict
            .not_known
            .iter()
            .any(|name| name.contains("cider vinegar"))
    );
}

#[test]
fn acid_that_may_be_left_out_counts_as_left_out() {
    let salsa = |acid: &str| {
        let text = format!(
            "Salsa (invented)\n\n7 quarts paste tomatoes\n4 cups long green chiles\n5 cups onions\n1/2 cup jalapeno peppers\n6 cloves garlic\n{acid}\n"
        );
        let recipe = WrittenRecipe::from_text(&text);
        let answers = Answers::from_pairs([("cup", "us"), ("pint", "us"), ("spoon", "us")])
            .expect("an answer");
        let reading = read(Reference::embedded(), &recipe, &answers);
        state_of_testing(Reference::embedded(), &reading)
            .expect("lines")
            .state
    };
    assert_eq!(salsa("2 cups bottled lemon juice"), RecipeState::Tested);
    assert_ne!(
        salsa("2 cups bottled lemon juice, optional"),
        RecipeState::Tested
    );
}
