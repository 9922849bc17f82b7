//! Runs the named invariants over the household's file.

use crate::App;
use crate::error::AppError;
use crate::facts::{BatchState, PlannedInput};
use crate::request::Now;
use crate::view::check::{CheckView, InvariantLine};
use ledger::invariant::{self, Finding};
use plan::allocation;
use safety::{Again, PermitRecord};
use store::CheckRows;

/// What each of the ledger's and the program's invariants says, by name.
const SAYS: [(&str, &str); 15] = [
    (
        "entry-sums-to-zero",
        "what leaves one place arrives in another",
    ),
    ("entry-is-whole", "no line of an entry was lost"),
    (
        "movement-is-sound",
        "every movement has a weight and two places that can be moved between",
    ),
    (
        "no-place-below-zero",
        "no place that can be touched ever held less than nothing",
    ),
    (
        "no-containers-below-zero",
        "no place ever held fewer than no containers",
    ),
    (
        "balance-per-crop-is-zero",
        "every pound of every crop is somewhere",
    ),
    (
        "count-matches-movements",
        "a shelf count's difference was booked",
    ),
    (
        "lot-weight-matches-movements",
        "each lot came in with the weight it was given",
    ),
    (
        "pot-empty-after-outcome",
        "nothing stays in work after an outcome",
    ),
    (
        "reversal-mirrors-entry",
        "an undone entry is undone exactly and once",
    ),
    ("rows-are-readable", "every row of the file is understood"),
    (
        "file-is-sound",
        "the database engine finds no damage and no dangling reference",
    ),
    (
        "batch-carries-verdict",
        "every batch carries the gate's permit record or its verdict",
    ),
    (
        "permit-still-stands",
        "the gate answers each batch's recorded question as it did then; what changed in the house since is asked at the start",
    ),
    (
        "plan-passes-checker",
        "the accepted harvest plan passes the independent checker",
    ),
];

impl App {
    /// Runs all invariants, or one of them.
    ///
    /// # Errors
    /// A name that is none, or a file that cannot be read at all.
    pub fn check(&self, _now: &Now, only: Option<&str>) -> Result<CheckView, AppError> {
        if let Some(name) = only
            && !SAYS.iter().any(|(known, _)| *known == name)
        {
            let names: Vec<&str> = SAYS.iter().map(|(known, _)| *known).collect();
            return Err(AppError::input(
                "only",
                format!("There is no invariant «{name}»."),
                format!("The names are: {}.", names.join(", ")),
            ));
        }
        let rows: CheckRows = self.store.read(|reader| reader.rows_for_check())?;
        let mut findings = invariant::all(&rows.books);
        findings.push(Finding {
            invariant: "rows-are-readable",
            examined: rows.tried,
            broken: rows.unreadable.clone(),
        });
        findings.push(Finding {
            invariant: "file-is-sound",
            examined: usize::try_from(rows.file.rows).unwrap_or(0),
            broken: rows
                .file
                .integrity
                .iter()
                .chain(&rows.file.foreign_keys)
                .cloned()
                .collect(),
        });
        findings.push(verdicts(&rows));
        findings.push(self.permits(&rows));
        findings.push(self.accepted_plan()?);
        let balance = crate::read::stores::season_balance(&crate::facts::Facts {
            movements: rows.books.movements.clone(),
            ..crate::facts::Facts::default()
        });
        let invariants: Vec<InvariantLine> = findings
            .into_iter()
            .filter(|finding| only.is_none_or(|name| name == finding.invariant))
            .map(|finding| InvariantLine {
                says: SAYS
                    .iter()
                    .find(|(name, _)| *name == finding.invariant)
                    .map_or("", |(_, says)| says)
                    .to_owned(),
                name: finding.invariant.to_owned(),
                examined: finding.examined,
                broken: finding.broken,
            })
            .collect();
        Ok(CheckView {
            holds: invariants.iter().all(|line| line.broken.is_empty()),
            invariants,
            balance,
        })
    }

    /// Asks the gate again for every batch that is not called off (ruling 27).
    fn permits(&self, rows: &CheckRows) -> Finding {
        let mut examined = 0;
        let mut broken = Vec::new();
        for batch in &rows.batches {
            let Some(text) = &batch.permit_record else {
                continue;
            };
            let kinds = rows
                .batch_events
                .iter()
                .filter(|event| event.batch == batch.id && !event.reversed)
                .map(|event| event.kind.as_str());
            let state = crate::facts::state_after(kinds);
            if matches!(state, BatchState::Cancelled | BatchState::Held) {
                continue;
            }
            examined += 1;
            match serde_json::from_str::<PermitRecord>(text) {
                Err(error) => broken.push(format!(
                    "batch {}: its permit record cannot be read: {error}",
                    batch.id
                )),
                Ok(record) => {
                    if let Again::Changed(why) = safety::ask_again(self.reference, &record) {
                        broken.push(format!("batch {}: {why}", batch.id));
                    }
                }
            }
        }
        Finding {
            invariant: "permit-still-stands",
            examined,
            broken,
        }
    }

    fn accepted_plan(&self) -> Result<Finding, AppError> {
        let mut broken = Vec::new();
        let mut examined = 0;
        if let Some(record) = self.store.read(|reader| reader.latest_harvest_plan())? {
            examined = 1;
            let problem: Result<allocation::Problem, _> = serde_json::from_str(&record.problem);
            let plan: Result<allocation::Plan, _> = serde_json::from_str(&record.harvest_plan);
            match (problem, plan) {
                (Ok(problem), Ok(plan)) => {
                    examined = plan.runs.len().max(1);
                    for breach in allocation::check(&problem, &plan) {
                        broken.push(format!(
                            "harvest plan {}: {} {}",
                            record.id, breach.code, breach.text
                        ));
                    }
                }
                (Err(error), _) | (_, Err(error)) => {
                    broken.push(format!(
                        "harvest plan {}: cannot be read: {error}",
                        record.id
                    ));
                }
            }
        }
        Ok(Finding {
            invariant: "plan-passes-checker",
            examined,
            broken,
        })
    }
}

fn verdicts(rows: &CheckRows) -> Finding {
    let mut broken = Vec::new();
    for batch in &rows.batches {
        if batch.permit_record.is_none() && batch.route_verdict.is_none() {
            broken.push(format!(
                "batch {}: neither a permit record nor a verdict",
                batch.id
            ));
        }
        if serde_json::from_str::<Vec<PlannedInput>>(&batch.planned_inputs).is_err() {
            broken.push(format!("batch {}: what goes in cannot be read", batch.id));
        }
    }
    Finding {
        invariant: "batch-carries-verdict",
        examined: rows.batches.len(),
        broken,
    }
}
