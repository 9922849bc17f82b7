//! The gate's answers as plates.

use crate::read::house::jar_words;
use crate::view::batch::VerdictView;
use quantity::{Exact, show};
use reference::{Method, Reference};
use safety::{Pair, PermitRecord, Refusal, Statement};

/// A method in words.
pub fn method_words(method: Method) -> &'static str {
    match method {
        Method::BoilingWater => "boiling water",
        Method::DialGauge => "pressure, dial gauge",
        Method::WeightedGauge => "pressure, weighted gauge",
        Method::Steam => "steam canner",
    }
}

/// An empty plate of a kind.
pub fn plate(kind: &str, top: String) -> VerdictView {
    VerdictView {
        kind: kind.to_owned(),
        top,
        minutes: None,
        psi: None,
        other_pairs: Vec::new(),
        band: String::new(),
        band_low_ft: None,
        band_high_ft: None,
        source: String::new(),
        conditions: Vec::new(),
        keep_to: Vec::new(),
        notes: Vec::new(),
        cannot_know: Vec::new(),
        count_from: String::new(),
        reason: String::new(),
        instead: String::new(),
        code: String::new(),
        eat_within_days: None,
        water_over: None,
    }
}

/// A permit as it was granted. `elevation` is what the household typed.
pub fn permit(record: &PermitRecord, elevation: &str) -> VerdictView {
    let chosen = &record.chosen;
    let kind = if record.conditions.is_empty() {
        "permit"
    } else {
        "permit-if"
    };
    let top = format!(
        "{}, {} pack, {}, {}",
        record.title,
        record.question.pack.as_str(),
        jar_words(record.question.jar, 2),
        method_words(record.question.canner.method())
    );
    VerdictView {
        minutes: Some(i64::from(chosen.minutes)),
        psi: pressure(chosen),
        other_pairs: record
            .pairs
            .iter()
            .filter(|pair| pair.option != chosen.option)
            .map(|pair| format!("or, as a whole: {}", pair_words(pair)))
            .collect(),
        band: band_words(chosen.band_low_ft, chosen.band_high_ft, elevation),
        band_low_ft: Some(i64::from(chosen.band_low_ft)),
        band_high_ft: chosen.band_high_ft.map(i64::from),
        source: chosen.source.clone(),
        conditions: record
            .conditions
            .iter()
            .map(|line| format!("{} ({})", line.text, line.source))
            .collect(),
        keep_to: keep_to_lines(record),
        notes: record
            .marks
            .iter()
            .map(|line| format!("{} ({})", line.text, line.source))
            .collect(),
        cannot_know: record.cannot_know.clone(),
        count_from: count_from(record.row_method),
        water_over: water_over(record.question.canner.method(), chosen.minutes),
        ..plate(kind, top)
    }
}

/// What the publication asks on the way: what is done at the canner first, then the limits of the
/// food.
fn keep_to_lines(record: &PermitRecord) -> Vec<String> {
    let (at_canner, of_food): (Vec<&Statement>, Vec<&Statement>) = record
        .keep_to
        .iter()
        .partition(|line| AT_CANNER.contains(&line.key.as_str()));
    at_canner
        .into_iter()
        .chain(of_food)
        .filter_map(|line| keep_to(line, record))
        .collect()
}

/// Keys of the practice table that say what is done at the canner.
const AT_CANNER: [&str; 7] = [
    "vent-minutes",
    "start-timing-at-pressure",
    "cool-down-natural-only",
    "wait-after-weight-off",
    "water-over-jars-min",
    "water-over-jars-min-over-30-min",
    "wait-after-boiling-process",
];

/// Minutes above which the practice table asks for more water over the jars. Were the row ever
/// gone, every process would count as a long one: more water is the safe side.
fn long_process() -> Exact {
    Reference::embedded()
        .practice("water-over-jars-long-process")
        .and_then(|row| row.number())
        .unwrap_or_else(|| quantity::whole(0))
}

/// Whether a process of so many minutes takes the deeper water.
fn is_long(minutes: u32) -> bool {
    quantity::whole(minutes.into()) > long_process()
}

/// Water over the jars for a process of so many minutes in this vessel, such as "2 in"; none
/// where the jars do not stand under water.
pub fn water_over(method: Method, minutes: u32) -> Option<String> {
    if method != Method::BoilingWater {
        return None;
    }
    let key = if is_long(minutes) {
        "water-over-jars-min-over-30-min"
    } else {
        "water-over-jars-min"
    };
    let row = Reference::embedded().practice(key)?;
    Some(format!("{} {}", row.value, row.unit))
}

/// A line of what the publication asks on the way, as a cook is told it; none where it does not
/// apply to this vessel or length, or where [`count_from`] says it already.
fn keep_to(line: &Statement, record: &PermitRecord) -> Option<String> {
    let (value, rest) = line.text.split_once(": ").unwrap_or(("", &line.text));
    let long = is_long(record.chosen.minutes);
    let steam = record.question.canner.method() == Method::Steam;
    let words = match line.key.as_str() {
        "restart-if-boil-stops" | "restart-if-pressure-drops" => return None,
        "water-over-jars-min" | "water-over-jars-min-over-30-min" if steam => return None,
        "water-over-jars-min" if long => return None,
        "water-over-jars-min-over-30-min" if !long => return None,
        "water-over-jars-min" => format!("{value} of water over the jars, the whole time"),
        "water-over-jars-min-over-30-min" => {
            format!(
                "{value} of water over the jars, because it takes longer than {} minutes",
                show::number(long_process())
            )
        }
        "wait-after-boiling-process" => format!("When the time is up, wait {value}: {rest}"),
        "vent-minutes" => format!("Vent {value}: {rest}"),
        "start-timing-at-pressure" => format!("Start the clock {rest}"),
        "cool-down-natural-only" => format!("Let it cool by itself: {rest}"),
        "wait-after-weight-off" => format!("Wait {value} after the weight is off, {rest}"),
        _ => line.text.trim_end_matches('.').to_owned(),
    };
    // The plate names the book once; a page of the same book is enough here.
    let book = |source: &str| source.rsplit_once(", p. ").map(|(book, _)| book.to_owned());
    let read = match (book(&line.source), book(&record.chosen.source)) {
        (Some(here), Some(row)) if here == row => line.source[here.len() + 2..].to_owned(),
        _ => line.source.clone(),
    };
    Some(format!("{words} ({read})."))
}

/// A refusal, as large as a permit.
pub fn refusal(refused: &Refusal, top: String) -> VerdictView {
    VerdictView {
        reason: refused.reason.clone(),
        instead: refused.instead.clone(),
        code: refused.code.to_owned(),
        source: refused.source.clone(),
        ..plate("refusal", top)
    }
}

/// "40 minutes", "25 minutes at 11 psi".
pub fn pair_words(pair: &Pair) -> String {
    match pressure(pair) {
        None => format!("{} minutes", pair.minutes),
        Some(psi) => format!("{} minutes at {psi} psi", pair.minutes),
    }
}

fn pressure(pair: &Pair) -> Option<String> {
    match (pair.dial_shows_psi, pair.psi) {
        (Some(shown), _) => Some(show::number(shown)),
        (None, psi) => psi.map(|psi| psi.to_string()),
    }
}

/// "1,001 to 3,000 ft; you entered 2500 ft".
pub fn band_words(low: u32, high: Option<u32>, elevation: &str) -> String {
    let band = match high {
        Some(high) => format!("{} to {} ft", thousands(low), thousands(high)),
        None => format!(
            "above {} ft, no ceiling printed",
            thousands(low.saturating_sub(1))
        ),
    };
    if elevation.trim().is_empty() {
        band
    } else {
        format!("{band}; you entered {}", elevation.trim())
    }
}

/// When the clock starts and what a dip means (AIB 539, 2015, p. 1-18 to 1-22, as the practice
/// table has it).
pub fn count_from(method: Method) -> String {
    match method {
        Method::DialGauge | Method::WeightedGauge => {
            "Vent first; count from the moment the pressure is reached. If it ever drops below, bring it back up and start the full time again.".to_owned()
        }
        Method::BoilingWater | Method::Steam => {
            "Count from the full rolling boil (full steam) with the lid on. If the boil is ever lost, bring it back and start the full time again.".to_owned()
        }
    }
}

/// Digits in groups of three.
pub fn thousands(number: u32) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_are_said_with_what_was_entered() {
        assert_eq!(
            band_words(1001, Some(3000), "2500ft"),
            "1,001 to 3,000 ft; you entered 2500ft"
        );
        assert_eq!(
            band_words(6001, None, ""),
            "above 6,000 ft, no ceiling printed"
        );
    }
}
