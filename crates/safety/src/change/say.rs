//! Edits in words, and what to do instead of a refused one.

use super::edit::Edit;
use super::line::Line;
use quantity::show;
use reference::Pack;

/// A key of the tables as people say it.
pub(super) fn plain(key: &str) -> String {
    key.trim().replace('-', " ")
}

/// The line that an edit names, as it is printed.
fn printed<'l>(lines: &'l [Line], name: &str) -> Option<&'l Line> {
    let number = name.trim().parse::<usize>().ok();
    lines
        .iter()
        .find(|line| line.ingredient == name.trim() || Some(line.number) == number)
}

fn line_words(lines: &[Line], name: &str) -> String {
    printed(lines, name)
        .map(|line| format!("{} ({} printed)", plain(&line.ingredient), line.text))
        .unwrap_or(plain(name))
}

/// The edit as a person would say it.
pub(super) fn edit(lines: &[Line], edit: &Edit) -> String {
    match edit {
        Edit::Amount { line, amount } => format!("{}: {}", line_words(lines, line), amount.text),
        Edit::Swap {
            line,
            replaced,
            with,
            amount,
        } => {
            let part = replaced.as_ref().map(|part| format!("{} of ", part.text));
            let much = amount.as_ref().map_or_else(
                || "the same amount of ".to_owned(),
                |amount| format!("{} of ", amount.text),
            );
            format!(
                "{}{} replaced by {much}{}",
                part.unwrap_or_default(),
                line_words(lines, line),
                plain(with)
            )
        }
        Edit::LeaveOut { line } => format!("{} left out", line_words(lines, line)),
        Edit::Add { ingredient, amount } => {
            format!("{} of {} added", amount.text, plain(ingredient))
        }
        Edit::Scale { times } => format!("The whole recipe, {} times", show::number(*times)),
        Edit::Jar { jar } => format!("Filled into {} jars", plain(jar.as_str())),
        Edit::Pack { pack } => format!("Packed {}", pack.as_str()),
        Edit::Canner { canner } => format!("Processed by {}", plain(canner.as_str())),
        Edit::Vinegar { percent, diluted } => {
            let strength = percent.map_or_else(
                || "of unknown strength".to_owned(),
                |percent| format!("of {} percent", show::number(percent)),
            );
            let diluted = if *diluted { ", diluted at home" } else { "" };
            format!("Vinegar {strength}{diluted}")
        }
        Edit::Manner { manner } => format!("Manner: {}", plain(manner)),
    }
}

/// What to do instead of a refused edit.
pub(super) fn instead(lines: &[Line], edit: &Edit) -> String {
    let keep = |name: &str| {
        printed(lines, name)
            .map(|line| (line.text.as_str(), plain(&line.ingredient)))
            .map(|(much, of)| format!("Keep to {much} {of} as printed."))
            .unwrap_or("Keep to the recipe as printed.".to_owned())
    };
    match edit {
        Edit::Amount { line, .. } | Edit::Swap { line, .. } | Edit::LeaveOut { line } => keep(line),
        Edit::Add { ingredient, .. } => {
            format!(
                "Leave {} out; add it, if at all, when the jar is opened and served.",
                plain(ingredient)
            )
        }
        Edit::Scale { .. } => "Make one batch after another, each as printed.".to_owned(),
        Edit::Jar { .. } => "Use a jar that the process table lists, or a smaller one.".to_owned(),
        Edit::Pack { pack } => match pack {
            Pack::Raw => "Pack it hot, as its table is printed.".to_owned(),
            Pack::Hot => "Pack it raw, as its table is printed.".to_owned(),
        },
        Edit::Canner { .. } => "Use a canner that the process table lists for it.".to_owned(),
        Edit::Vinegar { .. } => {
            "Use bought vinegar with 5 percent on its label, in the printed volume.".to_owned()
        }
        Edit::Manner { .. } => "Do it as the recipe and its process print it.".to_owned(),
    }
}
