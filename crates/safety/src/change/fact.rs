//! An edit taken apart into the plain facts that published rules speak of: more of this, less of
//! that, this for that, a larger jar.

use super::Case;
use super::edit::{Amount, ChangeError, Edit};
use super::line::{self, Line};
use crate::numbers::{house_rule, limit};
use quantity::{Exact, checked_sub, whole};
use reference::{IngredientKind, Jar, Method, Pack, QuestionEffect, TablePack};

/// What answers a fact that no rule names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Silence {
    /// It is as the recipe prints it.
    AsPrinted,
    /// It is untested.
    Untested,
}

/// One fact of an edit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fact {
    /// Words for what is done; a rule is called by any of them.
    pub edits: Vec<&'static str>,
    /// Words for what it is done to.
    pub of: Vec<String>,
    /// Words for what comes in its place; one empty word where nothing does.
    pub to: Vec<String>,
    /// What answers where no rule does.
    pub silence: Silence,
}

impl Fact {
    fn of_kind(edit: &'static str, kind: Option<IngredientKind>) -> Fact {
        Fact {
            edits: vec![edit],
            of: words(kind),
            to: vec![String::new()],
            silence: Silence::Untested,
        }
    }

    fn plain(edit: &'static str, of: &str, silence: Silence) -> Fact {
        Fact {
            edits: vec![edit],
            of: vec![of.to_owned()],
            to: vec![String::new()],
            silence,
        }
    }
}

/// The words under which rules may speak of an ingredient.
fn words(kind: Option<IngredientKind>) -> Vec<String> {
    let mut words = vec!["any".to_owned()];
    if let Some(kind) = kind {
        words.push(kind.to_string());
        let groups = [
            (kind.is_low_acid(), "low-acid"),
            (kind.is_acid(), "acid"),
            (kind.is_food(), "food"),
        ];
        words.extend(
            groups
                .iter()
                .filter(|(is, _)| *is)
                .map(|(_, word)| (*word).to_owned()),
        );
    }
    words
}

/// Takes one edit apart and makes it on the working lines.
///
/// # Errors
/// What is not understood, by its field.
pub(super) fn take_apart(
    case: &Case<'_>,
    edit: &Edit,
    number: usize,
    now: &mut Vec<Line>,
) -> Result<Vec<Fact>, ChangeError> {
    let field = |name: &str| format!("edits.{number}.{name}");
    Ok(match edit {
        Edit::Amount { line, amount } => {
            let printed = line::find_one(&case.printed, line, &field("line"))?;
            line::fits(printed, amount, &field("amount"))?;
            for line in working(now, printed) {
                line.low = amount.size;
                line.high = amount.size;
            }
            amount_fact(printed, amount.size).into_iter().collect()
        }
        Edit::LeaveOut { line } => {
            let mut facts = Vec::new();
            for printed in line::find(&case.printed, line, &field("line"))? {
                working(now, printed).for_each(Line::nothing);
                let fact = leave_out(case, printed, now);
                if !facts.contains(&fact) {
                    facts.push(fact);
                }
            }
            facts
        }
        Edit::Add { ingredient, amount } => {
            let name = named(ingredient, &field("ingredient"))?;
            line::above_zero(amount, &field("amount"))?;
            let line = line::put_in(case.reference, name, amount, "batch");
            let fact = Fact::of_kind("add", line.kind);
            now.push(line);
            vec![fact]
        }
        Edit::Swap {
            line,
            replaced,
            with,
            amount,
        } => swap(
            case,
            (line, replaced.as_ref()),
            (with, amount.as_ref()),
            number,
            now,
        )?,
        Edit::Scale { times } => scale(*times, &field("times"))?,
        Edit::Jar { jar } => vec![jar_fact(case, *jar)],
        Edit::Pack { pack } => vec![pack_fact(case, *pack)],
        Edit::Canner { canner } => vec![canner_fact(case, *canner)],
        Edit::Vinegar { percent, diluted } => {
            vec![Fact::plain(
                "vinegar-strength",
                strength(case, *percent, *diluted),
                Silence::Untested,
            )]
        }
        Edit::Manner { manner } => vec![manner_fact(case, manner, &field("manner"))?],
    })
}

/// The name of an ingredient.
///
/// # Errors
/// None is given.
pub(super) fn named<'n>(name: &'n str, field: &str) -> Result<&'n str, ChangeError> {
    let name = name.trim();
    if name.is_empty() {
        return Err(ChangeError::new(
            field,
            "No ingredient is named.",
            "Name it as people say it, such as «red onions» or «bottled lime juice».",
        ));
    }
    Ok(name)
}

/// The working copy of a printed line.
fn working<'n>(now: &'n mut [Line], printed: &Line) -> impl Iterator<Item = &'n mut Line> {
    let number = printed.number;
    now.iter_mut().filter(move |line| line.number == number)
}

/// Whether an alternative that the recipe prints for this line still stands whole.
fn alternative_stands(
    case: &Case<'_>,
    printed: &Line,
    now: &[Line],
    wanted: impl Fn(&Line) -> bool,
) -> bool {
    let stands = |other: &Line| {
        now.iter()
            .any(|line| line.number == other.number && line.low >= other.low)
    };
    case.printed
        .iter()
        .filter(|other| !other.choice.is_empty() && other.choice == printed.choice)
        .filter(|other| other.per == printed.per && other.number != printed.number)
        .any(|other| wanted(other) && stands(other))
}

/// More, less, or another amount within the printed range; nothing where the amount is as printed.
fn amount_fact(printed: &Line, size: Exact) -> Option<Fact> {
    let edit = if size > printed.high {
        "more"
    } else if size < printed.low {
        "less"
    } else if printed.low == printed.high {
        return None;
    } else {
        "within"
    };
    let mut fact = Fact::of_kind(edit, printed.kind);
    if edit == "within" {
        fact.silence = Silence::AsPrinted;
    }
    Some(fact)
}

fn leave_out(case: &Case<'_>, printed: &Line, now: &[Line]) -> Fact {
    if printed.optional {
        return Fact::of_kind("leave-out-optional", printed.kind);
    }
    if alternative_stands(case, printed, now, |_| true) {
        return Fact::plain("leave-out-alternative", "any", Silence::AsPrinted);
    }
    Fact::of_kind("leave-out", printed.kind)
}

/// One ingredient for another: the line and how much of it goes, what comes and how much of that.
fn swap(
    case: &Case<'_>,
    (line, replaced): (&str, Option<&Amount>),
    (with, amount): (&str, Option<&Amount>),
    number: usize,
    now: &mut Vec<Line>,
) -> Result<Vec<Fact>, ChangeError> {
    let field = |name: &str| format!("edits.{number}.{name}");
    let printed = line::find_one(&case.printed, line, &field("line"))?;
    let name = named(with, &field("with"))?;
    for (given, name) in [(replaced, "replaced"), (amount, "amount")] {
        if let Some(given) = given {
            line::fits(printed, given, &field(name))?;
        }
    }
    let (low, high) = replaced.map_or((printed.low, printed.high), |part| (part.size, part.size));
    if high > printed.high {
        return Err(ChangeError::new(
            field("replaced"),
            format!("More is replaced than the line has: {}.", printed.text),
            format!(
                "Write at most {}, or leave it out for all of it.",
                printed.text
            ),
        ));
    }
    let offered = alternative_stands(case, printed, now, |other| {
        case.reference.same_ingredient(&other.ingredient, name)
    });
    // What stays of the line after this and earlier swaps.
    let mut stays = printed.low;
    for line in working(now, printed) {
        line.less(high)?;
        stays = line.low;
    }
    if amount.is_none() && offered {
        // The recipe offers it already, in its own printed amount, which stays on its own line.
        return Ok(vec![Fact::plain(
            "leave-out-alternative",
            "any",
            Silence::AsPrinted,
        )]);
    }
    let same = Amount::count(high, printed.measure, printed.text.clone());
    let mut line = line::put_in(case.reference, name, amount.unwrap_or(&same), &printed.per);
    if amount.is_none() {
        line.low = low;
    }
    // All that was swapped so far; what cannot be counted is the whole.
    let gone = checked_sub(printed.low, stays).unwrap_or(printed.low);
    let part = if high.max(gone) <= stays {
        "swap-half"
    } else {
        "swap-most"
    };
    let way = if printed.measure.is_count() {
        "swap-by-count"
    } else {
        "swap"
    };
    let mut facts = vec![Fact {
        edits: vec![way, part],
        of: words(printed.kind),
        to: words(line.kind),
        silence: Silence::Untested,
    }];
    if line.high > high {
        facts.push(Fact::of_kind("more", line.kind));
    }
    if line.low < low {
        facts.push(Fact::of_kind("less", printed.kind));
    }
    now.push(line);
    Ok(facts)
}

fn scale(times: Exact, field: &str) -> Result<Vec<Fact>, ChangeError> {
    if times <= whole(0) {
        return Err(ChangeError::new(
            field,
            "A batch cannot be made no times or fewer.",
            "Write how many times, such as 2 or 1/2.",
        ));
    }
    let word = if times > whole(1) { "more" } else { "less" };
    Ok(vec![Fact::plain("scale", word, Silence::AsPrinted)])
}

fn jar_fact(case: &Case<'_>, jar: Jar) -> Fact {
    let listed: Vec<Jar> = case.processes().iter().map(|row| row.jar).collect();
    let largest = listed.iter().map(|jar| jar.volume()).max();
    let (word, silence) = match largest {
        None => ("unlisted", Silence::Untested),
        Some(largest) if jar.volume() > largest => ("larger", Silence::Untested),
        Some(_) if listed.contains(&jar) => ("listed", Silence::AsPrinted),
        Some(_) => ("smaller", Silence::Untested),
    };
    Fact::plain("jar", word, silence)
}

fn pack_fact(case: &Case<'_>, pack: Pack) -> Fact {
    let rows = case.processes();
    let printed = |label| rows.iter().any(|row| row.pack == label);
    let (any, raw, hot) = (
        printed(TablePack::Any),
        printed(TablePack::Raw),
        printed(TablePack::Hot),
    );
    let either = (any && !raw && !hot)
        || case
            .reference
            .questions_for(case.food_key())
            .iter()
            .any(|question| question.effect == QuestionEffect::EitherPack);
    let (own, other) = match pack {
        Pack::Raw => (raw || any, hot),
        Pack::Hot => (hot || any, raw),
    };
    let word = match (pack, own) {
        (Pack::Raw, true) => "raw-listed",
        (Pack::Raw, false) => "raw-unlisted",
        (Pack::Hot, true) => "hot-listed",
        (Pack::Hot, false) => "hot-unlisted",
    };
    // The only pack that is printed is no other pack.
    if either || (own && !other) {
        return Fact::plain("pack", "as-printed", Silence::AsPrinted);
    }
    Fact::plain("pack", word, Silence::Untested)
}

fn canner_fact(case: &Case<'_>, canner: Method) -> Fact {
    let listed = case.processes().iter().any(|row| row.method == canner);
    let (word, silence) = match (canner, listed) {
        (Method::Steam, _) => ("steam", Silence::Untested),
        (Method::BoilingWater, true) => ("boiling-listed", Silence::AsPrinted),
        (Method::BoilingWater, false) => ("boiling-unlisted", Silence::Untested),
        (_, true) => ("pressure-listed", Silence::AsPrinted),
        (_, false) => ("pressure-unlisted", Silence::Untested),
    };
    Fact::plain("canner", word, silence)
}

/// How strong the vinegar is; a number missing from the tables leaves it unknown.
fn strength(case: &Case<'_>, percent: Option<Exact>, diluted: bool) -> &'static str {
    let least = limit(case.reference, "group:pickle", "vinegar-5pct");
    let most = house_rule(case.reference, "vinegar-dilution-max");
    match (percent, least, most) {
        (Some(percent), Ok(least), Ok(most)) => {
            if percent < least.value {
                "below"
            } else if percent > most.value {
                "too-strong"
            } else if diluted {
                "diluted"
            } else {
                "plain"
            }
        }
        _ => "unknown",
    }
}

fn manner_fact(case: &Case<'_>, manner: &str, field: &str) -> Result<Fact, ChangeError> {
    let manner = manner.trim();
    let word = if manner == "low-temperature" {
        if case.reference.low_temp_for(case.food_key()).is_empty() {
            "low-temperature-unlisted"
        } else {
            "low-temperature-listed"
        }
    } else {
        manner
    };
    if !case.manners().contains(&word) {
        return Err(ChangeError::new(
            field,
            format!("«{manner}» is not a manner that any rule names."),
            format!(
                "Choose one of: {}.",
                super::manners(case.reference).join(", ")
            ),
        ));
    }
    Ok(Fact::plain("manner", word, Silence::Untested))
}
