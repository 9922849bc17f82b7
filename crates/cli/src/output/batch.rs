//! A batch and the list of batches as text.

use super::{heading, pad};
use app::view::Choice;
use app::view::batch::{BatchListView, BatchView, VerdictView};
use app::view::factor::FactorView;
use app::view::load::LoadView;

/// One line a batch.
pub fn batches(view: &BatchListView) -> String {
    let mut out = String::new();
    heading(&mut out, "Batches");
    out.push_str(&format!("{}\n", view.answer));
    for batch in &view.batches {
        out.push_str(&format!(
            "{} {} {} {} {}\n",
            pad(&format!("#{}", batch.id), 5),
            pad(&batch.title, 34),
            pad(&batch.day, 24),
            pad(&batch.state, 10),
            batch.makes
        ));
    }
    out
}

/// One line a recipe: the name that commands take, and the title.
pub fn recipes(list: &[Choice]) -> String {
    list.iter()
        .map(|recipe| format!("{} {}\n", pad(&recipe.key, 36), recipe.title))
        .collect()
}

/// The batch card.
pub fn batch(view: &BatchView) -> String {
    let mut out = String::new();
    let number = view
        .id
        .map_or_else(|| "trial".to_owned(), |id| format!("#{id}"));
    heading(
        &mut out,
        &format!(
            "Batch {number}: {} ({}), {}",
            view.title, view.state, view.day
        ),
    );
    out.push_str(&format!("{}\n{}\n\n", view.answer, view.lead));
    // A jar past help shows the disposal card and no process that might be taken for a cure.
    if !view.disposal_only {
        out.push_str(&verdict(&view.verdict));
    }
    for ask in &view.asks {
        let choices: Vec<&str> = ask
            .choices
            .iter()
            .map(|choice| choice.key.as_str())
            .collect();
        let option = ask.name.strip_prefix("answers.").map_or_else(
            || "--acid KEY".to_owned(),
            |question| format!("--answer {question}=KEY"),
        );
        out.push_str(&format!(
            "asks  {} {option}: {}\n",
            ask.question,
            choices.join(", ")
        ));
    }
    for take in &view.takes {
        out.push_str(&format!("takes {take}\n"));
    }
    if !view.lines.is_empty() {
        out.push_str("\nIngredients\n");
        for line in &view.lines {
            out.push_str(&format!(
                "  {} {} {} {} {}\n",
                pad(&line.kitchen, 22),
                pad(&line.metric, 12),
                pad(&line.name, 30),
                line.role,
                line.short
            ));
            if !line.per_jar.is_empty() {
                out.push_str(&format!("      {}\n", line.per_jar));
            }
        }
    }
    if let Some(acid) = &view.acid {
        out.push_str("\nAcid, one of these, whole\n");
        for choice in &acid.choices {
            out.push_str(&format!("  {choice}\n"));
        }
        out.push_str(&format!("  {}\n", acid.source));
    }
    if let Some(jars) = &view.jars {
        out.push_str(&format!(
            "
Jars: {}. {}
",
            jars.words, jars.lids
        ));
        if !jars.partial.is_empty() {
            out.push_str(&format!("  {}\n", jars.partial));
        }
        for basis in &jars.basis {
            out.push_str(&format!("  {basis}\n"));
        }
    }
    for line in &view.scaling {
        out.push_str(&format!("> {line}\n"));
    }
    for (name, value) in [("Headspace", &view.headspace), ("Loads", &view.loads)] {
        if let Some(value) = value {
            out.push_str(&format!("{name}: {value}\n"));
        }
    }
    if !view.steps.is_empty() {
        out.push_str("\nSteps\n");
        for (index, step) in view.steps.iter().enumerate() {
            out.push_str(&format!("  {}. {} ({})\n", index + 1, step.text, step.time));
            if !step.stop.is_empty() {
                out.push_str(&format!("     {}\n", step.stop));
            }
        }
    }
    if !view.ticks.is_empty() {
        out.push_str("\nTo tick before the clock of a load starts (--tick KEY)\n");
        for tick in &view.ticks {
            let done = if tick.done.is_empty() {
                String::new()
            } else {
                format!(" ({})", tick.done)
            };
            out.push_str(&format!("  {} {}{done}\n", pad(&tick.key, 10), tick.text));
        }
    }
    if let Some(outcome) = &view.outcome {
        out.push_str(&format!(
            "\nCame out: {}\n  {}\n  {}\n",
            outcome.words, outcome.against, outcome.factor
        ));
        if !outcome.seals.is_empty() {
            out.push_str(&format!("  {}\n", outcome.seals));
        }
    }
    for aside in &view.aside {
        out.push_str(&format!("\n{aside}\n"));
    }
    if !view.late.is_empty() {
        let keys: Vec<&str> = view.late.iter().map(|tick| tick.key.as_str()).collect();
        out.push_str(&format!(
            "\nTo be answered later (batch late): {}\n",
            keys.join(", ")
        ));
    }
    for incident in &view.incidents {
        out.push_str(&format!(
            "\nWent wrong (incident {}): {}\n  {} {} {}\n",
            incident.entry.unwrap_or_default(),
            incident.title,
            incident.now,
            incident.until,
            incident.left
        ));
    }
    if view.disposal_only {
        out.push_str("\nOnly the disposal card is left for these jars: `stillroom disposal`.\n");
    }
    for caution in &view.cautions {
        out.push_str(&format!("! {caution}\n"));
    }
    out.push_str(&format!("{}\n", view.source));
    out
}

/// The batches that wait for a canner, and the answer for those chosen.
pub fn load(view: &LoadView) -> String {
    let mut out = String::new();
    super::heading(&mut out, "One canner load");
    for line in &view.batches {
        let mark = if line.chosen { ">" } else { " " };
        out.push_str(&format!(
            "{mark} {:>3}  {} ({})\n",
            line.id, line.title, line.words
        ));
    }
    match &view.verdict {
        Some(answer) => out.push_str(&format!("\n{}", verdict(answer))),
        None if view.batches.is_empty() => {
            out.push_str("No batch waits for a canner.\n");
        }
        None => out.push_str("Name the batches that are to share a canner run.\n"),
    }
    out
}

/// The gate's answer as text.
pub fn verdict(view: &VerdictView) -> String {
    let mut out = format!("{}\n", view.top);
    match view.kind.as_str() {
        "refusal" => {
            out.push_str(&format!("REFUSED [{}]: {}\n", view.code, view.reason));
            out.push_str(&format!("Instead: {}\n", view.instead));
        }
        "route" => out.push_str(&format!("{} {}\n", view.reason, view.instead)),
        kind => {
            let name = match kind {
                "look-up" => "LOOK-UP, not a permit",
                "permit-if" => "PERMIT on conditions",
                _ => "PERMIT",
            };
            let minutes = view
                .minutes
                .map_or_else(String::new, |m| format!("{m} minutes"));
            let psi = view
                .psi
                .as_ref()
                .map_or_else(String::new, |psi| format!(" at {psi} psi"));
            out.push_str(&format!("{name}: {minutes}{psi}\n"));
            for pair in &view.other_pairs {
                out.push_str(&format!("  {pair}\n"));
            }
            out.push_str(&format!("  Band used: {}\n", view.band));
            for condition in &view.conditions {
                out.push_str(&format!("  Only if: {condition}\n"));
            }
            if !view.count_from.is_empty() {
                out.push_str(&format!("  {}\n", view.count_from));
            }
        }
    }
    if !view.source.is_empty() {
        out.push_str(&format!("  Read in: {}\n", view.source));
    }
    for line in &view.keep_to {
        out.push_str(&format!("  Keep to: {line}\n"));
    }
    for note in &view.notes {
        out.push_str(&format!("  Note: {note}\n"));
    }
    for unknown in &view.cannot_know {
        out.push_str(&format!("  Cannot know: {unknown}\n"));
    }
    out
}

/// A recipe's own factor, with the batches behind it.
pub fn factor(view: &FactorView) -> String {
    let mut out = String::new();
    super::heading(&mut out, &format!("Pounds a quart: {}", view.title));
    out.push_str(&format!("{}\n", view.words));
    for batch in &view.batches {
        out.push_str(&format!(
            "#{:<4} {}  {:.2} lb gave {:.2} quarts: {:.2}{}{}{}\n",
            batch.id,
            pad(&batch.day, 24),
            batch.pounds,
            batch.quarts,
            batch.ratio,
            if batch.unusual { ", unusual" } else { "" },
            if batch.note.is_empty() { "" } else { "; " },
            batch.note
        ));
    }
    out
}
