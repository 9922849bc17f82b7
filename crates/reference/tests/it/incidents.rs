//! The tables about incidents: each kind is there, and each row that is lost is missed.

use reference::{IncidentClock, IncidentHold, Reference, table_check};

/// Every kind the household may meet, by its key.
const KINDS: [&str; 21] = [
    "boil-lost",
    "pressure-lost",
    "power-cut",
    "lid-opened",
    "jar-broken",
    "acid-forgotten",
    "wrong-time",
    "wrong-pressure",
    "wrong-elevation",
    "wrong-jar",
    "wrong-pack",
    "vinegar-weak",
    "restart-skipped",
    "gauge-bad",
    "failed-seal",
    "liquid-lost-less",
    "liquid-lost-more",
    "suspect-jar",
    "found-unsealed-later",
    "jars-frozen",
    "history-unknown",
];

#[test]
fn every_kind_of_incident_is_there() {
    let kinds: Vec<&str> = Reference::embedded()
        .incidents()
        .iter()
        .map(|row| row.kind.as_str())
        .collect();
    assert_eq!(kinds, KINDS);
}

#[test]
fn what_was_wrongly_processed_holds_its_whole_batch() {
    for row in Reference::embedded().incidents() {
        if matches!(
            row.clock,
            IncidentClock::WrongProcess | IncidentClock::Restart
        ) {
            assert_eq!(row.hold, IncidentHold::Batch, "{}", row.kind);
            assert!(!row.right_process, "{}", row.kind);
        }
    }
}

#[test]
fn a_slip_of_the_pen_finds_the_incident() {
    let found = Reference::embedded().suggest_incident("acid forgoten");
    assert_eq!(
        found.first().map(|row| row.kind.as_str()),
        Some("acid-forgotten")
    );
}

#[test]
fn a_clock_that_loses_its_ways_is_a_fault() {
    let files = reference::embedded::files();
    let text = String::from_utf8(files["process/incident_ways.csv"].clone()).expect("text");
    for phase in [
        "restart,in-canner,",
        "wrong-process,open,",
        "wrong-process,over,",
        "failed-seal,open,",
        "failed-seal,over,",
        "liquid-lost,open,",
        "liquid-lost,over,",
        "keep,always,",
        "broken,always,",
        "frozen,sealed,",
        "frozen,unsealed,",
        "frozen,unsure,",
        "discard,always,",
    ] {
        let left: String = text
            .lines()
            .filter(|line| !line.starts_with(phase))
            .map(|line| format!("{line}\n"))
            .collect();
        let mut files = files.clone();
        files.insert("process/incident_ways.csv".to_owned(), left.into_bytes());
        assert!(
            table_check::problems(&files)
                .iter()
                .any(|problem| problem.rule == "incident-without-way"),
            "{phase}"
        );
    }
}
