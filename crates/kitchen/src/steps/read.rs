//! Reads `steps.csv`, `holds.csv` and `waits.csv`, and fills in figures of the practice table.

use std::collections::BTreeMap;
use std::sync::Arc;

use quantity::{Exact, exact_text, parse};
use reference::Reference;
use serde::Deserialize;

use super::{
    CannerKind, CannerRoutines, HoldTemplate, Loads, ResourceKind, Routine, Scope, StepTemplate,
    Stretch, WaitTemplate,
};

const STEPS: &str = include_str!("../../../../data/kitchen/steps.csv");
const HOLDS: &str = include_str!("../../../../data/kitchen/holds.csv");
const WAITS: &str = include_str!("../../../../data/kitchen/waits.csv");

#[derive(Deserialize)]
struct StepRow {
    form: String,
    key: String,
    title: String,
    text: String,
    scope: String,
    fixed_low: String,
    fixed: String,
    per_kg: String,
    per_jar: String,
    per_lot: String,
    lot_kg: String,
    attended: String,
    hands: u8,
    uses: String,
    after: String,
    tight: String,
    stop_point: String,
    source: String,
}

#[derive(Deserialize)]
struct HoldRow {
    form: String,
    resource: String,
    amount: u8,
    from_step: String,
    to_step: String,
    loads: String,
    source: String,
}

#[derive(Deserialize)]
struct WaitRow {
    key: String,
    forms: String,
    from_step: String,
    to_step: String,
    max_minutes: i64,
    kind: String,
    points_per_minute: i64,
    source: String,
    why: String,
}

/// Every form of work by its key.
#[derive(Debug, Clone, Default)]
pub struct Routines {
    forms: BTreeMap<String, Arc<Routine>>,
}

impl Routines {
    /// Reads the three tables; the message names the line that is wrong.
    pub fn read(reference: &Reference) -> Result<Self, String> {
        let mut forms: BTreeMap<String, Routine> = BTreeMap::new();
        for row in rows::<StepRow>("steps", STEPS)? {
            let place = format!("steps {}/{}", row.form, row.key);
            let step = step(reference, &row).map_err(|problem| format!("{place}: {problem}"))?;
            forms.entry(row.form).or_default().steps.push(step);
        }
        for row in rows::<HoldRow>("holds", HOLDS)? {
            let place = format!("holds {}/{}", row.form, row.from_step);
            if row.source.is_empty() {
                return Err(format!("{place}: no source"));
            }
            let routine = forms
                .get_mut(&row.form)
                .ok_or(format!("{place}: no such form"))?;
            for key in [&row.from_step, &row.to_step] {
                if !routine.steps.iter().any(|step| step.key == *key) {
                    return Err(format!("{place}: no step {key}"));
                }
            }
            routine.holds.push(HoldTemplate {
                resource: ResourceKind::from_word(&row.resource)
                    .ok_or(format!("{place}: resource {}", row.resource))?,
                amount: row.amount,
                from_step: row.from_step,
                to_step: row.to_step,
                loads: match row.loads.as_str() {
                    "all" => Loads::All,
                    "first" => Loads::First,
                    "later" => Loads::Later,
                    other => return Err(format!("{place}: loads `{other}`")),
                },
            });
        }
        for row in rows::<WaitRow>("waits", WAITS)? {
            add_wait(&mut forms, &row)
                .map_err(|problem| format!("waits {}: {problem}", row.key))?;
        }
        Ok(Self {
            forms: forms
                .into_iter()
                .map(|(form, routine)| (form, Arc::new(routine)))
                .collect(),
        })
    }

    /// The routine of a form. Error: unknown form.
    pub(crate) fn get(&self, form: &str) -> Result<Arc<Routine>, String> {
        self.forms
            .get(form)
            .cloned()
            .ok_or(format!("no steps for the form `{form}`"))
    }

    /// The routines of the canners.
    pub(crate) fn canners(&self) -> Arc<CannerRoutines> {
        let of = |kind: CannerKind| self.forms.get(kind.form()).cloned().unwrap_or_default();
        Arc::new(CannerRoutines {
            boiling_water: of(CannerKind::BoilingWater),
            steam: of(CannerKind::Steam),
            pressure: of(CannerKind::Pressure),
        })
    }
}

fn rows<T: serde::de::DeserializeOwned>(table: &str, text: &str) -> Result<Vec<T>, String> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .map_err(|error| format!("{table}: {error}"))
}

/// A wait without a published source may only cost points (ruling 19).
fn add_wait(forms: &mut BTreeMap<String, Routine>, row: &WaitRow) -> Result<(), String> {
    let safety = match row.kind.as_str() {
        "safety" => true,
        "quality" => false,
        other => return Err(format!("kind `{other}`")),
    };
    if row.source.is_empty() || (safety && row.source.starts_with("common practice")) {
        return Err("a longest wait without a source cannot be a rule".to_owned());
    }
    let mut found = 0;
    for (form, routine) in forms.iter_mut() {
        let named = row.forms == "*" || row.forms.split(';').any(|known| known == form);
        let has = |key: &str| routine.steps.iter().any(|step| step.key == key);
        // `fill` belongs to the recipe's form, the canner's steps to the canner's.
        let reached = has(&row.to_step) && (has(&row.from_step) || row.from_step == "fill");
        if named && reached {
            found += 1;
            routine.waits.push(WaitTemplate {
                key: row.key.clone(),
                from_step: row.from_step.clone(),
                to_step: row.to_step.clone(),
                most: row.max_minutes,
                safety,
                points_per_minute: row.points_per_minute,
                source: row.source.clone(),
                why: row.why.clone(),
            });
        }
    }
    if found == 0 {
        return Err("no form has both steps".to_owned());
    }
    Ok(())
}

fn step(reference: &Reference, row: &StepRow) -> Result<StepTemplate, String> {
    let mut sources = Vec::new();
    let fixed = stretch(reference, &row.fixed, &mut sources)?;
    let fixed_low = if row.fixed_low.is_empty() {
        fixed
    } else {
        stretch(reference, &row.fixed_low, &mut sources)?
    };
    let source = match row.source.as_str() {
        "" => return Err("no source".to_owned()),
        "practice" => {
            sources.sort();
            sources.dedup();
            sources.join("; ")
        }
        "permit" => "the permit of this batch".to_owned(),
        text => text.to_owned(),
    };
    Ok(StepTemplate {
        key: row.key.clone(),
        title: row.title.clone(),
        text: row.text.clone(),
        scope: match row.scope.as_str() {
            "batch" => Scope::Batch,
            "each" => Scope::Each,
            "load" => Scope::Load,
            "first-load" => Scope::FirstLoad,
            other => return Err(format!("scope `{other}`")),
        },
        fixed_low,
        fixed,
        per_kg: number(&row.per_kg)?,
        per_jar: number(&row.per_jar)?,
        per_lot: match row.per_lot.as_str() {
            "" => None,
            text => Some(stretch(reference, text, &mut Vec::new())?),
        },
        lot_kg: number(&row.lot_kg)?,
        attended: row.attended == "yes",
        hands: row.hands,
        uses: row
            .uses
            .split(';')
            .filter(|word| !word.is_empty())
            .map(|word| ResourceKind::from_word(word).ok_or(format!("resource `{word}`")))
            .collect::<Result<_, _>>()?,
        after: row
            .after
            .split(';')
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect(),
        tight: row.tight == "yes",
        stop_point: row.stop_point == "yes",
        source,
    })
}

fn number(cell: &str) -> Result<Exact, String> {
    if cell.is_empty() {
        return Ok(Exact::from_integer(0));
    }
    parse::number(cell)
        .or_else(|_| exact_text::from_text(cell))
        .map_err(|error| error.to_string())
}

/// "12", "practice:KEY", "process", "blanch", "dry", ...
fn stretch(
    reference: &Reference,
    cell: &str,
    sources: &mut Vec<String>,
) -> Result<Stretch, String> {
    if let Some(key) = cell.strip_prefix("practice:") {
        let row = reference
            .practice(key)
            .ok_or(format!("no practice row {key}"))?;
        sources.push(row.source.clone());
        let minutes = row.number().ok_or(format!("practice {key} is no number"))?;
        return Ok(Stretch::Minutes(minutes));
    }
    Ok(match cell {
        "process" => Stretch::Process,
        "blanch" => Stretch::Blanch,
        "dry-low" => Stretch::DryLow,
        "dry" => Stretch::DryHigh,
        "ferment-low" => Stretch::FermentLow,
        "ferment" => Stretch::FermentHigh,
        text => Stretch::Minutes(number(text)?),
    })
}
