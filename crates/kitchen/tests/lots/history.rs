//! What a lot has been through closes routes, and the gate is told the worst of a mix.

use jiff::civil::date;
use kitchen::LotError;
use kitchen::crop::crops;
use kitchen::history::{
    History, Question, answer, answer_word, closes, produce_history, route_limits,
};
use kitchen::recipe::Route;
use safety::{Answer, ProduceHistory};

fn told(question: Question, answer: Answer) -> History {
    History::clean().with(question, answer)
}

fn closed(crop: &str, history: &History, route: Route) -> bool {
    closes(crop, history, None, route).unwrap()
}

#[test]
fn tomatoes_from_a_dead_or_frosted_vine_never_go_into_jars() {
    for crop in [
        "tomato-slicing",
        "tomato-paste",
        "tomato-cherry",
        "tomatillo",
    ] {
        let frosted = told(Question::DeadOrFrostedVine, Answer::Yes);
        assert!(closed(crop, &frosted, Route::Heat));
        assert!(!closed(crop, &frosted, Route::Freezer));
        assert!(!closed(crop, &frosted, Route::Fresh));
    }
    let limits = route_limits(
        "tomato-paste",
        &told(Question::DeadOrFrostedVine, Answer::Yes),
        None,
    )
    .unwrap();
    assert_eq!(limits[0].source, "USDA AIB 539 (2015) p. 3-5");
    assert!(!limits[0].until_answered);
}

#[test]
fn tomatoes_of_unknown_history_are_not_for_jars_until_answered() {
    let silent = History::default();
    assert!(closed("tomato-slicing", &silent, Route::Heat));
    let limits = route_limits("tomato-slicing", &silent, None).unwrap();
    assert!(limits.iter().all(|limit| limit.until_answered));
    assert!(!closed("tomato-slicing", &silent, Route::Freezer));
    for question in Question::ALL {
        let one_open = told(question, Answer::Unknown);
        assert_eq!(
            closed("tomato-slicing", &one_open, Route::Heat),
            question != Question::CutOrCooked,
            "{question:?}"
        );
    }
    assert!(!closed("tomato-slicing", &History::clean(), Route::Heat));
}

#[test]
fn other_crops_are_not_held_up_by_silence() {
    for crop in crops().iter().filter(|crop| !crop.is_tomato_like()) {
        assert_eq!(
            route_limits(&crop.key, &History::default(), None),
            Ok(vec![]),
            "{}",
            crop.key
        );
    }
}

#[test]
fn disease_closes_jars_animals_and_seed_for_every_crop() {
    let diseased = told(Question::Diseased, Answer::Yes);
    for crop in crops() {
        for route in [
            Route::Heat,
            Route::Crock,
            Route::Animals,
            Route::Seed,
            Route::ColdRoom,
        ] {
            assert!(
                closed(&crop.key, &diseased, route),
                "{} {route:?}",
                crop.key
            );
        }
        assert!(!closed(&crop.key, &diseased, Route::Compost));
    }
}

#[test]
fn split_tomatoes_are_not_for_jars_and_split_apples_are_trimmed() {
    let split = told(Question::SplitOrBruised, Answer::Yes);
    assert!(closed("tomato-paste", &split, Route::Heat));
    assert!(!closed("apple", &split, Route::Heat));
    let limits = route_limits("apple", &split, None).unwrap();
    let heat = limits
        .iter()
        .find(|limit| limit.route == Route::Heat)
        .unwrap();
    assert!(!heat.closed && heat.reason.contains("Cut bruises and splits away"));
}

#[test]
fn frozen_tomatoes_may_become_juice_and_are_told_so() {
    let frozen = told(Question::FrozenBefore, Answer::Yes);
    let limits = route_limits("tomato-paste", &frozen, None).unwrap();
    let heat = limits
        .iter()
        .find(|limit| limit.route == Route::Heat)
        .unwrap();
    assert!(!heat.closed);
    assert!(
        heat.reason
            .contains("only as juice, sauce or well-cooked crushed")
    );
    assert!(closed("pea", &frozen, Route::ColdRoom));
}

#[test]
fn cut_food_has_two_hours_unless_it_was_chilled() {
    let cut = History {
        cut_or_cooked_at: Some(date(2031, 8, 20).at(14, 0, 0, 0)),
        ..told(Question::CutOrCooked, Answer::Yes)
    };
    let at = |hour, minute| Some(date(2031, 8, 20).at(hour, minute, 0, 0));
    let fresh = |history: &History, now| closes("apple", history, now, Route::Fresh).unwrap();
    assert!(!fresh(&cut, at(14, 0)));
    assert!(!fresh(&cut, at(16, 0)));
    assert!(fresh(&cut, at(16, 1)));
    assert!(fresh(&cut, None), "without a clock nothing is known");
    assert!(fresh(&cut, at(13, 59)), "cut in the future is a slip");
    let chilled = History {
        chilled_since: true,
        ..cut.clone()
    };
    assert!(!fresh(&chilled, at(20, 0)));
    assert!(closes("apple", &chilled, at(20, 0), Route::ColdRoom).unwrap());
    let unsaid = told(Question::CutOrCooked, Answer::Yes);
    assert!(
        route_limits("apple", &unsaid, at(14, 0))
            .unwrap()
            .iter()
            .any(|limit| limit.until_answered && limit.route == Route::Fresh)
    );
}

#[test]
fn the_gate_is_told_the_worst_of_a_mix() {
    let clean = History::clean();
    assert_eq!(produce_history([&clean]), ProduceHistory::sound());
    assert_eq!(produce_history([]), ProduceHistory::unknown());
    let fallen = told(Question::Fallen, Answer::Yes);
    let mixed = produce_history([&clean, &fallen]);
    assert_eq!(mixed.split_or_fallen, Answer::Yes);
    assert_eq!(mixed.diseased, Answer::No);
    let silent = History::default();
    let mixed = produce_history([&clean, &silent]);
    assert_eq!(mixed, ProduceHistory::unknown());
    let mixed = produce_history([&silent, &told(Question::DeadOrFrostedVine, Answer::Yes)]);
    assert_eq!(mixed.dead_or_frosted_vine, Answer::Yes);
    assert_eq!(mixed.frozen_before, Answer::Unknown);
}

#[test]
fn questions_and_answers_go_through_their_words() {
    for question in Question::ALL {
        assert_eq!(Question::from_key(question.key()), Ok(question));
        assert!(question.text().ends_with('?'));
    }
    for given in [Answer::Yes, Answer::No, Answer::Unknown] {
        assert_eq!(answer(answer_word(given)), Ok(given));
    }
    assert_eq!(
        answer("maybe").unwrap_err().to_string(),
        "\"maybe\" is no answer here; write yes, no or unknown"
    );
    assert!(matches!(
        Question::from_key("smelly"),
        Err(LotError::UnknownQuestion { .. })
    ));
}

#[test]
fn every_limit_gives_a_sentence_and_a_source() {
    for crop in crops() {
        for question in Question::ALL {
            for limit in route_limits(&crop.key, &told(question, Answer::Yes), None).unwrap() {
                assert!(limit.reason.ends_with(['.', '?']), "{}", limit.reason);
                assert!(!limit.source.is_empty());
            }
        }
    }
}
