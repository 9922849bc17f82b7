//! What a food's table says for a recipe: jars it serves, acid for each, pounds to quarts.

use quantity::{Exact, checked_div, show};
use reference::{FoodRow, Jar, Mark, Pack, Printed, Reference, TablePack};

use super::line::shown_name;
use super::{AcidChoice, Amount, Factor, FactorLine};

/// Jars with a printed line for the pack, and every smaller jar: it takes the line of the next
/// larger. A 1-litre jar may be asked for where quarts are listed; the gate answers.
pub(super) fn jar_choices(
    reference: &Reference,
    food: &FoodRow,
    pack: Option<Pack>,
    first: &str,
) -> Result<Vec<Jar>, String> {
    let mut largest: Option<Jar> = None;
    for row in reference.processes_for(&food.food) {
        let fits = row.pack == TablePack::Any || pack.is_none_or(|pack| row.pack.serves(pack));
        if fits && largest.is_none_or(|known| row.jar > known) {
            largest = Some(row.jar);
        }
    }
    let Some(largest) = largest else {
        return Ok(Vec::new());
    };
    let first: Jar = first
        .parse()
        .map_err(|error: reference::UnknownWord| error.to_string())?;
    let mut jars: Vec<Jar> = Jar::ALL
        .iter()
        .copied()
        .filter(|jar| *jar <= largest || (*jar == Jar::Litre1 && largest == Jar::Quart))
        .collect();
    jars.sort_by_key(|jar| (*jar != first, std::cmp::Reverse(*jar)));
    Ok(jars)
}

pub(crate) fn acid_choices(
    reference: &Reference,
    food: &FoodRow,
) -> Result<Vec<AcidChoice>, String> {
    let bad = |error: quantity::QuantityError| error.to_string();
    let mut choices: Vec<AcidChoice> = Vec::new();
    for row in reference.acid_for(&food.food) {
        let amount = match Amount::from_table(row.amount.high(), &row.unit).map_err(bad)? {
            Some(Amount::Volume(volume)) => volume,
            _ => return Err(format!("acid in `{}` is not a volume", row.unit)),
        };
        let share = amount.ratio(row.jar.volume()).map_err(bad)?;
        let older = (row.mark != Mark::Text2015).then_some(row.jar);
        match choices.iter_mut().find(|choice| choice.acid == row.acid) {
            Some(choice) => {
                choice.printed.push((row.jar, amount));
                choice.older_copy.extend(older);
                // Should two printed jars differ, the larger share is the safe one.
                choice.share = choice.share.max(share);
            }
            None => choices.push(AcidChoice {
                acid: row.acid.clone(),
                name: shown_name(&row.acid),
                printed: vec![(row.jar, amount)],
                share,
                older_copy: older.into_iter().collect(),
                source: row.source.clone(),
            }),
        }
    }
    Ok(choices)
}

/// Every printed way from pounds to quarts.
pub(super) fn factors(food: &FoodRow) -> Result<Vec<Factor>, String> {
    let mut factors = Vec::new();
    let mut add = |line, words: String, quarts: (Exact, Exact), pounds: (Exact, Exact)| {
        let low = checked_div(quarts.0, pounds.1).map_err(|error| error.to_string())?;
        let high = checked_div(quarts.1, pounds.0).map_err(|error| error.to_string())?;
        factors.push(Factor {
            line,
            words,
            quarts_per_pound_low: low,
            quarts_per_pound_high: high,
            source: food.source.clone(),
        });
        Ok::<(), String>(())
    };
    let range = |low: &Printed, high: &Option<Printed>| {
        (low.low(), high.as_ref().map_or(low.high(), Printed::high))
    };
    let said = |(low, high): (Exact, Exact)| {
        if low == high {
            show::number(low)
        } else {
            format!("{} to {}", show::number(low), show::number(high))
        }
    };
    let quarts = |number: i128, parts: i128| {
        let value = Exact::new(number, parts);
        (value, value)
    };
    if let Some(printed) = &food.raw_lb_per_7qt {
        let pounds = range(printed, &food.raw_lb_per_7qt_high);
        let words = format!("{} lb for a load of 7 quarts", said(pounds));
        add(FactorLine::LoadOfQuarts, words, quarts(7, 1), pounds)?;
    }
    if let Some(printed) = &food.raw_lb_per_9pt {
        let pounds = range(printed, &food.raw_lb_per_9pt_high);
        let words = format!("{} lb for a load of 9 pints", said(pounds));
        add(FactorLine::LoadOfPints, words, quarts(9, 2), pounds)?;
    }
    if let Some(printed) = &food.raw_lb_per_quart {
        let pounds = range(printed, &food.raw_lb_per_quart_high);
        let words = format!("{} lb a quart", said(pounds));
        add(FactorLine::PerQuart, words, quarts(1, 1), pounds)?;
    }
    if let (Some(pounds), Some(low), Some(high)) = (
        &food.bushel_lb,
        &food.quarts_per_bushel_low,
        &food.quarts_per_bushel_high,
    ) {
        let made = (low.low(), high.high());
        let words = format!("{} quarts from a bushel of {pounds} lb", said(made));
        add(
            FactorLine::Bushel,
            words,
            made,
            (pounds.low(), pounds.high()),
        )?;
    }
    if let (Some(pounds), Some(low), Some(high)) = (
        &food.other_container_lb,
        &food.other_container_quarts_low,
        &food.other_container_quarts_high,
    ) {
        let made = (low.low(), high.high());
        let words = format!(
            "{} quarts from a {} of {pounds} lb",
            said(made),
            food.other_container
        );
        let line = FactorLine::OtherContainer;
        add(line, words, made, (pounds.low(), pounds.high()))?;
    }
    Ok(factors)
}
