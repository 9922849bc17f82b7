//! Runs the case tables: the nasty cases and the gallery of refusals with their permitted twins.

use crate::case_file::{self, Answered, Case};
use reference::Reference;
use std::collections::BTreeSet;

const NASTY: &str = include_str!("../../../../data/cases/nasty.csv");
const GALLERY: &str = include_str!("../../../../data/cases/gallery.csv");

fn run(text: &str) -> (Vec<Case>, Vec<String>) {
    let reference = Reference::embedded();
    let cases = case_file::read(text);
    let wrong = cases
        .iter()
        .filter_map(|case| {
            let answered = case_file::answer(reference, &case.ask);
            fault(case, &answered)
                .map(|what| format!("{} ({}): {what}\n  {answered:?}", case.nr, case.title))
        })
        .collect();
    (cases, wrong)
}

/// What is wrong with an answer, if anything.
fn fault(case: &Case, answered: &Answered) -> Option<String> {
    let text = format!("{answered:?}");
    for said in case.must_say.split("; ").filter(|s| !s.is_empty()) {
        if !text.to_lowercase().contains(&said.to_lowercase()) {
            return Some(format!("does not say `{said}`"));
        }
    }
    let figure = |minutes: u32, psi: Option<u32>| {
        let psi = psi.map(|p| p.to_string()).unwrap_or_default();
        (minutes.to_string() != case.minutes || psi != case.psi).then(|| {
            format!(
                "{minutes} min {psi} psi, expected {} min {} psi",
                case.minutes, case.psi
            )
        })
    };
    match (answered, case.expect.as_str()) {
        (Answered::Heat(verdict), "refusal") => match verdict.refusal() {
            Some(refusal) if refusal.code != case.code => Some(format!("code {}", refusal.code)),
            Some(refusal) if refusal.instead.is_empty() || refusal.source.is_empty() => {
                Some("a refusal without a way out or a source".to_owned())
            }
            Some(_) => None,
            None => Some("permitted".to_owned()),
        },
        (Answered::Heat(verdict), expect) => {
            let Some(permit) = verdict.permit() else {
                return Some("refused".to_owned());
            };
            let keys = |list: &[safety::Statement]| {
                list.iter()
                    .map(|s| s.key.clone())
                    .collect::<Vec<_>>()
                    .join(" ")
            };
            let (conditions, marks) = (keys(permit.conditions()), keys(permit.marks()));
            let as_expected = match expect {
                "permit" => conditions.is_empty(),
                "permit-if" => conditions.split(' ').any(|k| k == case.code),
                "permit-mark" => marks.split(' ').any(|k| k == case.code),
                other => panic!("expect `{other}`"),
            };
            if !as_expected {
                return Some(format!("conditions [{conditions}], marks [{marks}]"));
            }
            figure(permit.minutes(), permit.psi())
        }
        (Answered::Change(verdict), expect) => {
            let refused = verdict.answer == reference::ChangeAnswer::Refuse;
            let rules = verdict.edits.iter().flat_map(|edit| &edit.findings);
            if refused != (expect == "refusal") {
                Some(format!("{:?}", verdict.answer))
            } else if !rules.clone().any(|finding| finding.rule == case.code) {
                Some(format!("{:?}", rules.collect::<Vec<_>>()))
            } else {
                None
            }
        }
        (Answered::Load(verdict), "refusal") => match verdict.refusal() {
            Some(refusal) => (refusal.code != case.code).then(|| format!("code {}", refusal.code)),
            None => Some("permitted".to_owned()),
        },
        (Answered::Load(verdict), _) => match verdict.permit() {
            Some(permit) => figure(permit.minutes(), permit.record().psi),
            None => Some("refused".to_owned()),
        },
        (Answered::LookUp(Ok(found)), "look-up") => figure(found.minutes, found.psi),
        (Answered::Route(verdict), expect) => {
            if verdict.allowed != (expect == "allowed") {
                return Some(format!("allowed: {}", verdict.allowed));
            }
            if !verdict.allowed && verdict.code != case.code {
                return Some(format!("code {}", verdict.code));
            }
            let days = verdict
                .eat_within_days
                .map(|d| d.to_string())
                .unwrap_or_default();
            (days != case.minutes).then(|| format!("{days} days, expected {}", case.minutes))
        }
        (Answered::Incident(Ok(answer)), "disposal-only") => {
            let held = answer.hold.as_str();
            (!answer.disposal_only || held != case.code).then(|| format!("hold: {held}"))
        }
        (Answered::Later, "later") => None,
        (_, expect) => Some(format!("expected {expect}")),
    }
}

#[test]
fn the_nasty_cases_get_their_right_answer() {
    let (cases, wrong) = run(NASTY);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let numbers: BTreeSet<u32> = cases
        .iter()
        .map(|case| {
            case.nr
                .trim_end_matches(char::is_alphabetic)
                .parse()
                .expect("a number")
        })
        .collect();
    assert_eq!(numbers, (1..=25).collect());
    let later = cases.iter().filter(|case| case.expect == "later").count();
    assert_eq!(later, 0, "no case is left for later");
}

#[test]
fn every_refusal_code_has_a_refused_case_and_a_permitted_twin() {
    let (cases, wrong) = run(GALLERY);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // Sound tables never lead here; `faulty_tables` tests them with patched ones.
    let by_patched_tables = ["above-table", "no-single-row", "table-number-missing"];
    for info in safety::codes::CODES {
        // Loads have a table of their own, see `loads`.
        let elsewhere = info.code.starts_with("load-");
        if elsewhere || by_patched_tables.contains(&info.code) {
            continue;
        }
        let of_code = |refused: bool| {
            cases
                .iter()
                .any(|case| case.nr == info.code && (case.expect == "refusal") == refused)
        };
        assert!(of_code(true), "{}: no refused case", info.code);
        assert!(of_code(false), "{}: no permitted twin", info.code);
    }
}
