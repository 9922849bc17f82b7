//! Routes without heat: what holds for every one of them.

use reference::Reference;
use safety::{Answer, FoodKind, FoodState, KeepRoute, RouteQuestion, judge_route};

const ROUTES: [KeepRoute; 7] = [
    KeepRoute::Freezer,
    KeepRoute::Dryer,
    KeepRoute::Crock,
    KeepRoute::Fridge,
    KeepRoute::ColdRoom,
    KeepRoute::Fresh,
    KeepRoute::Shelf,
];
const KINDS: [FoodKind; 4] = [
    FoodKind::Acid,
    FoodKind::LowAcid,
    FoodKind::Mixed,
    FoodKind::Unknown,
];
const STATES: [FoodState; 4] = [
    FoodState::Whole,
    FoodState::Prepared,
    FoodState::JarOpened,
    FoodState::JarDoubtful,
];
const ANSWERS: [Answer; 3] = [Answer::Yes, Answer::No, Answer::Unknown];

fn every_question() -> Vec<RouteQuestion> {
    let mut all = Vec::new();
    for route in ROUTES {
        for kind in KINDS {
            for state in STATES {
                for oil in ANSWERS {
                    for vacuum in ANSWERS {
                        let mut q = RouteQuestion::new(route, "beans");
                        q.kind = kind;
                        q.state = state;
                        q.under_oil = oil;
                        q.vacuum_packed = vacuum;
                        all.push(q);
                    }
                }
            }
        }
    }
    all
}

#[test]
fn the_fridge_always_names_a_last_day() {
    let r = Reference::embedded();
    for q in every_question()
        .iter()
        .filter(|q| q.route == KeepRoute::Fridge)
    {
        let verdict = judge_route(r, q);
        assert_eq!(verdict.allowed, verdict.eat_within_days.is_some(), "{q:?}");
        assert!(
            verdict.eat_within_days.is_none_or(|days| days <= 3),
            "{q:?}"
        );
    }
}

#[test]
fn low_acid_food_under_oil_or_vacuum_goes_to_the_freezer_only() {
    let r = Reference::embedded();
    for q in every_question() {
        let shut = q.under_oil == Answer::Yes || q.vacuum_packed == Answer::Yes;
        if shut && q.kind != FoodKind::Acid && q.route == KeepRoute::Fridge {
            assert!(!judge_route(r, &q).allowed, "{q:?}");
        }
        if q.route == KeepRoute::Freezer && q.state != FoodState::JarDoubtful {
            assert!(judge_route(r, &q).allowed, "{q:?}");
        }
    }
}

#[test]
fn a_doubtful_jar_goes_nowhere_and_no_boiling_is_offered_as_a_cure() {
    let r = Reference::embedded();
    for q in every_question()
        .iter()
        .filter(|q| q.state == FoodState::JarDoubtful)
    {
        let verdict = judge_route(r, q);
        assert!(!verdict.allowed && verdict.code == "discard", "{q:?}");
        let text = format!("{verdict:?}").to_lowercase();
        assert!(!text.contains("boil"), "{text}");
    }
}

#[test]
fn nothing_goes_on_a_shelf_without_a_permit() {
    let r = Reference::embedded();
    for q in every_question()
        .iter()
        .filter(|q| q.route == KeepRoute::Shelf)
    {
        assert!(!judge_route(r, q).allowed, "{q:?}");
    }
}

#[test]
fn every_answer_has_a_reason_and_a_source_and_every_no_a_way_out() {
    let r = Reference::embedded();
    for q in every_question() {
        let verdict = judge_route(r, &q);
        assert!(
            !verdict.reason.is_empty() && !verdict.source.is_empty(),
            "{q:?}"
        );
        assert!(verdict.allowed || !verdict.instead.is_empty(), "{q:?}");
        let known = safety::codes::CODES
            .iter()
            .any(|info| info.code == verdict.code);
        assert_eq!(verdict.allowed, !known, "{}", verdict.code);
    }
}
