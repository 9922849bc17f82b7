//! The rules of a load, each of which narrows the pairs, adds a condition or refuses.

use super::{Draft, Run};
use crate::codes::{
    LOAD_EMPTY, LOAD_OWN_RUN, LOAD_PRESSURE_DIFFERS, LOAD_START_DIFFERS, LOAD_TWO_CANNERS,
};
use crate::numbers::{limit_source, practice};
use crate::permit::{Permit, Statement};
use crate::refusal::Refusal;
use reference::{LimitRow, Pack, TablePack};

/// One rule of a load.
#[derive(Clone, Copy)]
pub(crate) struct Rule {
    pub name: &'static str,
    pub check: fn(&Run<'_>, &mut Draft) -> Result<(), Refusal>,
}

/// The rules, in the order they are asked.
pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "some-jars",
        check: some_jars,
    },
    Rule {
        name: "one-canner",
        check: one_canner,
    },
    Rule {
        name: "own-run",
        check: own_run,
    },
    Rule {
        name: "same-start",
        check: same_start,
    },
    Rule {
        name: "same-pressure",
        check: same_pressure,
    },
    Rule {
        name: "mixed",
        check: mixed,
    },
];

/// Limits of a food that give its canner a start of its own.
const OWN_START: &[&str] = &["special-venting", "water-4-quarts-cool"];

const OURS: &str = "our decision; no published rule on mixed loads was found";

fn fired(draft: &mut Draft, key: &str, text: String, source: String) {
    draft.rules.push(Statement {
        key: key.to_owned(),
        text,
        source,
    });
}

/// A load holds at least one kind of jar.
fn some_jars(run: &Run<'_>, _draft: &mut Draft) -> Result<(), Refusal> {
    if run.permits.is_empty() {
        return Err(Refusal::new(
            LOAD_EMPTY,
            "No jars were named for this load.",
            "Name the jars that are to go into the canner.",
            OURS,
        ));
    }
    Ok(())
}

/// One run is one canner in one kitchen on one day.
fn one_canner(run: &Run<'_>, _draft: &mut Draft) -> Result<(), Refusal> {
    let facts: Vec<_> = run
        .permits
        .iter()
        .map(|permit| {
            let q = permit.question();
            (
                &q.canner,
                q.canner_holds_quart_jars,
                q.elevation,
                q.on.as_str(),
            )
        })
        .collect();
    if facts.iter().any(|one| facts.first() != Some(one)) {
        return Err(Refusal::new(
            LOAD_TWO_CANNERS,
            "The jars are not asked for one canner, in one place, on one day.",
            "Ask again with the same canner for all of them, or run two loads.",
            OURS,
        ));
    }
    Ok(())
}

/// The limit that gives the food of a permit a start of its own, if there is one.
fn own_start<'a>(run: &Run<'a>, permit: &Permit) -> Option<&'a LimitRow> {
    run.reference
        .limits_for(&permit.question().food)
        .into_iter()
        .find(|limit| OWN_START.contains(&limit.rule.as_str()))
}

/// Fish in quarts, smoked fish and the 180 to 185 F treatment share a canner with nothing else.
fn own_run(run: &Run<'_>, _draft: &mut Draft) -> Result<(), Refusal> {
    let foods: Vec<_> = run
        .permits
        .iter()
        .map(|p| (&p.question().food, p.question().low_temperature))
        .collect();
    if foods.iter().all(|one| foods.first() == Some(one)) {
        return Ok(());
    }
    for permit in &run.permits {
        let alone = if permit.question().low_temperature {
            Some((
                "its water is kept below the boil".to_owned(),
                limit_source(run.reference, "group:pickle", "low-temp-only-where-listed"),
            ))
        } else {
            own_start(run, permit).map(|limit| {
                (
                    format!("its canner is started in its own way ({})", limit.detail),
                    limit.source.clone(),
                )
            })
        };
        if let Some((why, source)) = alone {
            return Err(Refusal::new(
                LOAD_OWN_RUN,
                format!("{} goes into a canner alone: {why}.", permit.title()),
                "Run it as a load of its own.",
                source,
            ));
        }
    }
    Ok(())
}

/// The pack whose start water the jars need: the one printed, or told where either is printed.
fn start(run: &Run<'_>, permit: &Permit, row_key: &str) -> Pack {
    let printed = run
        .reference
        .processes_for(&permit.question().food)
        .into_iter()
        .find(|row| row.key() == row_key)
        .map(|row| row.pack);
    match printed {
        Some(TablePack::Raw) => Pack::Raw,
        Some(TablePack::Hot) => Pack::Hot,
        Some(TablePack::Any) | None => permit.question().pack,
    }
}

/// Hot packs start in hotter water than raw packs, so a load is all of one or all of the other.
fn same_start(run: &Run<'_>, draft: &mut Draft) -> Result<(), Refusal> {
    let packs: Vec<Pack> = run
        .permits
        .iter()
        .map(|permit| start(run, permit, &permit.chosen().row_key))
        .collect();
    let hot = practice(run.reference, "preheat-water-hot-pack")?;
    let raw = practice(run.reference, "preheat-water-raw-pack")?;
    if packs.iter().any(|pack| packs.first() != Some(pack)) {
        let named: Vec<String> = run
            .permits
            .iter()
            .zip(&packs)
            .map(|(permit, pack)| format!("{} ({pack})", permit.title()))
            .collect();
        return Err(Refusal::new(
            LOAD_START_DIFFERS,
            format!(
                "Raw packs start in water of {} F and hot packs in water of {} F; one canner cannot be both: {}.",
                raw.shown(),
                hot.shown(),
                named.join(", ")
            ),
            "Run the hot packs and the raw packs as two loads.",
            hot.source,
        ));
    }
    fired(
        draft,
        "same-start",
        "All jars are of one pack and start in the same water.".to_owned(),
        hot.source,
    );
    Ok(())
}

/// A pair printed for every jar: the same number and the same pressure. The least pressure is
/// taken where several are shared; each jar's minutes are read at it.
fn same_pressure(run: &Run<'_>, draft: &mut Draft) -> Result<(), Refusal> {
    let marks = |permit: &Permit| -> Vec<_> {
        let pairs = permit.pairs().iter();
        pairs.map(|pair| (pair.psi, pair.option)).collect()
    };
    let mut shared = run.permits.first().map(marks).unwrap_or_default();
    for permit in &run.permits {
        let own = marks(permit);
        shared.retain(|mark| own.contains(mark));
    }
    let Some(taken) = shared.into_iter().min() else {
        let named: Vec<String> = run
            .permits
            .iter()
            .map(|permit| {
                let pairs: Vec<String> = permit
                    .pairs()
                    .iter()
                    .map(|pair| match pair.psi {
                        Some(psi) => {
                            format!("pair {}, {} min at {psi} psi", pair.option, pair.minutes)
                        }
                        None => format!("{} min", pair.minutes),
                    })
                    .collect();
                format!("{}: {}", permit.title(), pairs.join(" or "))
            })
            .collect();
        return Err(Refusal::new(
            LOAD_PRESSURE_DIFFERS,
            format!(
                "The jars share no printed pair of one pressure. {}.",
                named.join("; ")
            ),
            "Run them as separate loads, each by its own line.",
            limit_source(run.reference, "all", "pressure-pair-not-mixed"),
        ));
    };
    draft.pairs = run
        .permits
        .iter()
        .flat_map(|permit| permit.pairs())
        .filter(|pair| (pair.psi, pair.option) == taken)
        .cloned()
        .collect();
    Ok(())
}

/// Jars of more than one row: the load runs the longest time, and says that no rule was read.
fn mixed(_run: &Run<'_>, draft: &mut Draft) -> Result<(), Refusal> {
    let mut neighbours = draft.pairs.iter().zip(draft.pairs.iter().skip(1));
    if neighbours.all(|(one, next)| one.row_key == next.row_key) {
        return Ok(());
    }
    draft.conditions.push(Statement {
        key: "mixed-load".to_owned(),
        text: "No published rule found for jars of different lines in one load; every jar gets at least its own printed time at its own printed pressure.".to_owned(),
        source: OURS.to_owned(),
    });
    let times: Vec<String> = draft
        .pairs
        .iter()
        .map(|pair| pair.minutes.to_string())
        .collect();
    fired(
        draft,
        "longest-time",
        format!(
            "The load runs the longest of {} minutes; more minutes cost quality, never safety.",
            times.join(", ")
        ),
        OURS.to_owned(),
    );
    Ok(())
}
