//! Many questions to the gate at once, one JSON object a line: for checking the gate against
//! another reader of the tables, and for other programs.
//!
//! Each line describes the whole household it asks for; nothing is taken from the file. The format
//! is `docs/guide/process-questions.md`.

mod line;

use crate::error::AppError;
use line::{Line, acid, facts, history};
use reference::{Jar, Method, Pack, Reference};
use safety::{HeatQuestion, LookUp, Permit, Refusal, Statement, Verdict};
use serde::Serialize;

/// The answer to one line.
#[derive(Debug, Clone, Serialize)]
#[serde(untagged)]
pub enum Answered {
    /// The gate or the tables answered.
    Verdict(Box<VerdictLine>),
    /// The line is no question.
    Error(ErrorLine),
}

/// What the gate or the tables say.
#[derive(Debug, Clone, Serialize)]
pub struct VerdictLine {
    /// Line of the file, from 1.
    pub line: usize,
    /// permit, permit-if, look-up or refusal.
    pub verdict: &'static str,
    /// Minutes, as printed.
    pub minutes: Option<u32>,
    /// Pressure as printed, pounds per square inch.
    pub psi: Option<u32>,
    /// What the dial must show, the gauge's error added, as an exact fraction.
    pub dial_shows_psi: Option<String>,
    /// Key of the row.
    pub row: Option<String>,
    /// Keys of every whole pair that is open.
    pub pairs: Vec<String>,
    /// Code of the refusal.
    pub code: Option<&'static str>,
    /// Keys of what must hold for the permit.
    pub conditions: Vec<String>,
    /// Keys of the marks that go to the card.
    pub marks: Vec<String>,
    /// Why it is refused.
    pub reason: Option<String>,
    /// What to do instead.
    pub instead: Option<String>,
    /// Where the figure, or the reason, was read.
    pub source: String,
}

/// A line that is no question.
#[derive(Debug, Clone, Serialize)]
pub struct ErrorLine {
    /// Line of the file, from 1.
    pub line: usize,
    /// `error`.
    pub verdict: &'static str,
    /// The field that is wrong; empty where the line is no object at all.
    pub field: String,
    /// What is wrong and what to do, with the line's number.
    pub error: String,
}

impl Answered {
    /// Whether the line was no question.
    pub fn is_error(&self) -> bool {
        matches!(self, Self::Error(_))
    }
}

/// Answers one line; `line` is its number. `on` is the day of the question where the line names
/// none. Reads nothing but the tables.
pub fn answer(line: usize, text: &str, on: &str) -> Answered {
    match verdict(line, text, on) {
        Ok(verdict) => Answered::Verdict(Box::new(verdict)),
        Err(error) => Answered::Error(ErrorLine {
            line,
            verdict: "error",
            error: format!("line {line}: {} {}", error.cause, error.action)
                .trim_end()
                .to_owned(),
            field: error.field,
        }),
    }
}

fn verdict(line: usize, text: &str, on: &str) -> Result<VerdictLine, AppError> {
    let asked: Line = serde_json::from_str(text).map_err(|error| {
        // Every line is a document of its own: the library's line number is always 1.
        let said = error.to_string();
        let said = said
            .split(" at line ")
            .next()
            .unwrap_or_default()
            .to_owned();
        AppError::input(
            "",
            format!("not a question: {said} (column {}).", error.column()),
            "Compare it with the guide to process questions.",
        )
    })?;
    let reference = Reference::embedded();
    let pack: Pack = word(&asked.pack, "pack")?;
    let jar: Jar = word(&asked.jar, "jar")?;
    let elevation = match asked.elevation.as_deref().map(str::trim) {
        None | Some("") => None,
        Some(text) => Some(quantity::parse::elevation(text).map_err(|error| {
            AppError::input(
                "elevation",
                error.to_string(),
                "Write it as «2500 ft» or «305 m».",
            )
        })?),
    };
    if asked.look_up {
        let method: Method = match (&asked.method, &asked.canner) {
            (Some(method), _) => word(method, "method")?,
            (None, Some(canner)) => facts(canner)?.method(),
            (None, None) => {
                return Err(AppError::input(
                    "method",
                    "a look-up without a method.",
                    "Name a method or a canner.",
                ));
            }
        };
        return Ok(
            match safety::look_up(reference, &asked.food, pack, jar, method, elevation) {
                Ok(found) => looked_up(line, &found),
                Err(refusal) => refused(line, &refusal),
            },
        );
    }
    let Some(canner) = &asked.canner else {
        return Err(AppError::input(
            "canner",
            "no canner, so there is nothing to permit.",
            "Describe the canner, or say \"look_up\": true.",
        ));
    };
    if asked.method.is_some() {
        return Err(AppError::input(
            "method",
            "a method beside a canner: the canner says it.",
            "Leave \"method\" to look-ups.",
        ));
    }
    let day = asked.on.clone().unwrap_or_else(|| on.to_owned());
    let mut question = HeatQuestion::new(&asked.food, pack, jar, facts(canner)?, &day);
    question.recipe = asked.recipe;
    question.canner_holds_quart_jars = canner.holds_quart_jars;
    question.canner_volume_quarts = canner.volume_quarts;
    question.elevation = elevation;
    question.acid = acid(asked.acid.as_ref(), asked.vinegar.as_ref())?;
    question.history = history(asked.history.as_ref())?;
    question.metric_jars_setting = asked.metric_jars;
    question.low_temperature = asked.low_temperature;
    question.jars_sterilised = asked.jars_sterilised;
    question.answers = asked.answers;
    question.option = asked.option;
    Ok(match safety::judge_heat(reference, &question) {
        Verdict::Permit(permit) => permitted(line, &permit),
        Verdict::Refusal(refusal) => refused(line, &refusal),
    })
}

fn word<T: std::str::FromStr>(text: &str, field: &str) -> Result<T, AppError>
where
    T::Err: std::fmt::Display,
{
    text.trim().parse().map_err(|error: T::Err| {
        AppError::input(field, format!("{error}."), "Write one of those words.")
    })
}

fn keys(statements: &[Statement]) -> Vec<String> {
    statements.iter().map(|line| line.key.clone()).collect()
}

fn permitted(line: usize, permit: &Permit) -> VerdictLine {
    VerdictLine {
        line,
        verdict: if permit.conditions().is_empty() {
            "permit"
        } else {
            "permit-if"
        },
        minutes: Some(permit.minutes()),
        psi: permit.psi(),
        dial_shows_psi: permit.dial_shows_psi().map(|psi| psi.to_string()),
        row: Some(permit.chosen().row_key.clone()),
        pairs: permit.row_keys().into_iter().map(str::to_owned).collect(),
        code: None,
        conditions: keys(permit.conditions()),
        marks: keys(permit.marks()),
        reason: None,
        instead: None,
        source: permit.source().to_owned(),
    }
}

fn looked_up(line: usize, found: &LookUp) -> VerdictLine {
    let first = found
        .pairs
        .iter()
        .find(|shown| shown.pair.minutes == found.minutes && shown.pair.psi == found.psi);
    VerdictLine {
        line,
        verdict: "look-up",
        minutes: Some(found.minutes),
        psi: found.psi,
        dial_shows_psi: None,
        row: first.map(|shown| shown.pair.row_key.clone()),
        pairs: found
            .pairs
            .iter()
            .map(|shown| shown.pair.row_key.clone())
            .collect(),
        code: None,
        conditions: Vec::new(),
        marks: first
            .filter(|shown| !shown.marks.is_empty())
            .map(|_| "doubtful".to_owned())
            .into_iter()
            .collect(),
        reason: None,
        instead: None,
        source: found.source.clone(),
    }
}

fn refused(line: usize, refusal: &Refusal) -> VerdictLine {
    VerdictLine {
        line,
        verdict: "refusal",
        minutes: None,
        psi: None,
        dial_shows_psi: None,
        row: None,
        pairs: Vec::new(),
        code: Some(refusal.code),
        conditions: Vec::new(),
        marks: Vec::new(),
        reason: Some(refusal.reason.clone()),
        instead: Some(refusal.instead.clone()),
        source: refusal.source.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn json(text: &str) -> serde_json::Value {
        serde_json::to_value(answer(7, text, "2026-08-27")).unwrap()
    }

    #[test]
    fn a_whole_household_gets_a_permit_with_its_row() {
        let told = json(
            r#"{"food":"tomato-juice","pack":"hot","jar":"quart","elevation":"2500 ft",
                "canner":{"kind":"dial-gauge","error_psi":"1/2","tested_on":"2026-05-01","holds_quart_jars":7},
                "acid":"citric-acid","history":"sound"}"#,
        );
        assert_eq!(
            (&told["line"], &told["verdict"]),
            (&7.into(), &"permit".into())
        );
        // AIB 539 (2015), p. 3-6: 20 minutes at 7 psi between 2,001 and 4,000 ft.
        assert_eq!((&told["minutes"], &told["psi"]), (&20.into(), &7.into()));
        assert_eq!(told["dial_shows_psi"], "15/2");
        assert_eq!(told["row"], "tomato-juice/hot/quart/dial-gauge/2001-4000/1");
    }

    #[test]
    fn what_is_not_told_is_not_assumed() {
        let line = |rest: &str| {
            json(&format!(
                r#"{{"food":"tomato-juice","pack":"hot","jar":"quart","elevation":"800 ft"{rest}}}"#
            ))
        };
        let kettle = r#","canner":{"kind":"boiling-water"}"#;
        assert_eq!(line("")["verdict"], "error");
        assert_eq!(line("")["field"], "canner");
        assert_eq!(line(kettle)["code"], "history-unknown");
        assert_eq!(
            line(&format!(r#"{kettle},"history":"sound""#))["code"],
            "acid-not-chosen"
        );
        let look = line(r#","method":"boiling-water","look_up":true"#);
        assert_eq!(
            (&look["verdict"], &look["minutes"]),
            (&"look-up".into(), &40.into())
        );
        assert_eq!(line(r#","look_up":true"#)["field"], "method");
    }

    #[test]
    fn a_bad_line_names_itself_and_its_field() {
        for (text, field, says) in [
            ("{", "", "line 7: not a question: EOF"),
            ("[]", "", "line 7: not a question: "),
            (r#"{"food":"kale"}"#, "", "missing field `pack`"),
            (
                r#"{"food":"a","pack":"hot","jar":"quart","jam":1}"#,
                "",
                "unknown field `jam`",
            ),
            (
                r#"{"food":"a","pack":"warm","jar":"quart","look_up":true}"#,
                "pack",
                "`warm` is not a known pack style",
            ),
            (
                r#"{"food":"a","pack":"hot","jar":"bucket","look_up":true}"#,
                "jar",
                "`bucket` is not a known jar size",
            ),
            (
                r#"{"food":"a","pack":"hot","jar":"quart","elevation":"high","look_up":true}"#,
                "elevation",
                "line 7: \"high\" is not a number",
            ),
            (
                r#"{"food":"a","pack":"hot","jar":"quart","canner":{"kind":"oven"}}"#,
                "canner.kind",
                "«oven» is no kind of canner",
            ),
        ] {
            let told = json(text);
            assert_eq!(
                (&told["verdict"], &told["field"]),
                (&"error".into(), &field.into()),
                "{text}"
            );
            let error = told["error"].as_str().unwrap();
            assert!(
                error.starts_with("line 7: ") && error.contains(says),
                "{error}"
            );
        }
    }
}
