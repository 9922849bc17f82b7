//! The house as flat fields: one path and one text each, the same for the page's form and for
//! `stillroom house FIELD=VALUE`, such as `canners.0.kind` = `boiling-water`.

use crate::error::AppError;
use crate::house::{
    Canner, Crate, Freezer, GaugeTest, House, Ingredient, JarCount, Need, Person, Pot,
};

/// Rows a list may have in a form; more is a mistake, and a path like `canners.4000000` must
/// not make the program allocate.
const MOST_ROWS: usize = 60;

/// The names of the weekdays in a person's fields, Monday first.
pub const WEEKDAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

/// Sets each field in turn; lists grow as their paths ask. Rows without a name are dropped by
/// [`tidy`], which is called at the end.
///
/// # Errors
/// The first path that is not known, or value that is not understood, with its path as field.
pub fn apply(house: &mut House, fields: &[(String, String)]) -> Result<(), AppError> {
    let before = house.clone();
    for (path, value) in fields {
        set(house, path, value.trim())?;
    }
    nameless(house, &before, fields)?;
    tidy(house);
    Ok(())
}

/// Rows that say how much and not of what. A row is dropped by emptying its name, so one that had
/// a name before, in the house or among the fields, is meant to go; any other is half a row.
pub(crate) fn nameless(
    house: &House,
    before: &House,
    fields: &[(String, String)],
) -> Result<(), AppError> {
    let named_among_fields = |path: &str| {
        fields
            .iter()
            .any(|(name, value)| name == path && !value.trim().is_empty())
    };
    let check = |path: String, had: bool, says: Option<String>, action: &str| match says {
        Some(cause) if !had && !named_among_fields(&path) => {
            Err(AppError::input(&path, cause, action))
        }
        _ => Ok(()),
    };
    let had = |known: Option<&String>| known.is_some_and(|name| !name.is_empty());
    for (row, line) in house.ingredients.iter().enumerate() {
        check(
            format!("ingredients.{row}.key"),
            had(before.ingredients.get(row).map(|line| &line.key)),
            (line.key.is_empty() && !line.amount.is_empty())
                .then(|| format!("{} of what was not said.", line.amount)),
            "Choose the ingredient, or empty its amount.",
        )?;
    }
    for (row, line) in house.jars.iter().enumerate() {
        check(
            format!("jars.{row}.jar"),
            had(before.jars.get(row).map(|line| &line.jar)),
            (line.jar.is_empty() && line.count > 0)
                .then(|| format!("{} jars of which size was not said.", line.count)),
            "Choose the jar, or set its count to 0.",
        )?;
    }
    for (row, line) in house.needs.iter().enumerate() {
        check(
            format!("needs.{row}.product"),
            had(before.needs.get(row).map(|line| &line.product)),
            (line.product.is_empty() && line.wanted > 0).then(|| {
                format!(
                    "{} of what the winter should have was not said.",
                    line.wanted
                )
            }),
            "Choose the product, or set how many to 0.",
        )?;
    }
    for (row, line) in house.crates.iter().enumerate() {
        check(
            format!("crates.{row}.name"),
            had(before.crates.get(row).map(|line| &line.name)),
            (line.name.is_empty() && (!line.litres.is_empty() || !line.full_weights.is_empty()))
                .then(|| "A crate without a name.".to_owned()),
            "Name the crate, or empty its litres.",
        )?;
    }
    for (row, line) in house.people.iter().enumerate() {
        check(
            format!("people.{row}.name"),
            had(before.people.get(row).map(|line| &line.name)),
            (line.name.is_empty() && line.minutes.iter().any(|minutes| *minutes > 0))
                .then(|| "Hours of whom was not said.".to_owned()),
            "Name the person, or empty the hours.",
        )?;
    }
    for (row, line) in house.canners.iter().enumerate() {
        let says = line.name.is_empty()
            && line.kind.is_empty()
            && line.quarts + line.pints + line.half_pints > 0;
        let known = before.canners.get(row);
        check(
            format!("canners.{row}.kind"),
            known.is_some_and(|canner| !canner.kind.is_empty() || !canner.name.is_empty())
                || named_among_fields(&format!("canners.{row}.name")),
            says.then(|| "What kind of canner it is was not said.".to_owned()),
            "Choose its kind, or set its jars to 0.",
        )?;
    }
    Ok(())
}

/// Drops the empty extra rows that a form offers.
pub fn tidy(house: &mut House) {
    house
        .canners
        .retain(|row| !row.name.is_empty() || !row.kind.is_empty());
    house
        .pots
        .retain(|row| !row.name.is_empty() || !row.litres.is_empty());
    house.people.retain(|row| !row.name.is_empty());
    house.jars.retain(|row| !row.jar.is_empty());
    house.ingredients.retain(|row| !row.key.is_empty());
    house.needs.retain(|row| !row.product.is_empty());
    house.crates.retain(|row| !row.name.is_empty());
    house.animals.retain(|animal| !animal.is_empty());
    for (index, canner) in house.canners.iter_mut().enumerate() {
        if canner.name.is_empty() {
            canner.name = format!("canner {}", index + 1);
        }
        canner.gauge_tests.retain(|test| !test.on.is_empty());
    }
    if house
        .freezer
        .as_ref()
        .is_some_and(|f| f.litres == 0 && f.free_litres == 0)
    {
        house.freezer = None;
    }
}

fn set(house: &mut House, path: &str, value: &str) -> Result<(), AppError> {
    let parts: Vec<&str> = path.split('.').collect();
    match parts.as_slice() {
        ["name"] => house.name = value.to_owned(),
        ["address"] => value.trim_end_matches('/').clone_into(&mut house.address),
        ["elevation"] => house.elevation = value.to_owned(),
        ["burners"] => house.burners = whole(path, value)?,
        ["food_mills"] => house.food_mills = whole(path, value)?,
        ["sinks"] => house.sinks = whole(path, value)?,
        ["dryer_trays"] => house.dryer_trays = whole(path, value)?,
        ["lids_regular"] => house.lids_regular = whole(path, value)?,
        ["lids_wide"] => house.lids_wide = whole(path, value)?,
        ["bags_pint"] => house.bags_pint = whole(path, value)?,
        ["bags_quart"] => house.bags_quart = whole(path, value)?,
        ["fresh_pounds_a_day"] => house.fresh_pounds_a_day = value.to_owned(),
        ["hour_worth_pounds"] => house.hour_worth_pounds = value.to_owned(),
        ["day_starts"] => house.day_starts = value.to_owned(),
        ["day_ends"] => house.day_ends = value.to_owned(),
        ["lunch"] => house.lunch = value.to_owned(),
        ["metric_jars"] => house.metric_jars = yes(path, value)?,
        ["animals"] => {
            house.animals = value
                .split(',')
                .map(|word| word.trim().to_owned())
                .collect();
        }
        ["freezer", "litres"] => {
            house.freezer.get_or_insert_with(Freezer::default).litres = whole(path, value)?;
        }
        ["freezer", "free_litres"] => {
            house
                .freezer
                .get_or_insert_with(Freezer::default)
                .free_litres = whole(path, value)?;
        }
        ["canners", row, "gauge_tests", index, field] => {
            let canner = at::<Canner>(&mut house.canners, path, row)?;
            let test = at::<GaugeTest>(&mut canner.gauge_tests, path, index)?;
            match *field {
                "on" => test.on = value.to_owned(),
                "error_psi" => test.error_psi = value.to_owned(),
                "by" => test.by = value.to_owned(),
                _ => return Err(unknown(path)),
            }
        }
        ["canners", row, field] => {
            set_canner(at(&mut house.canners, path, row)?, path, field, value)?
        }
        ["pots", row, field] => set_pot(at(&mut house.pots, path, row)?, path, field, value)?,
        ["people", row, field] => {
            set_person(at(&mut house.people, path, row)?, path, field, value)?
        }
        ["jars", row, field] => set_jar(at(&mut house.jars, path, row)?, path, field, value)?,
        ["ingredients", row, field] => {
            let ingredient = at::<Ingredient>(&mut house.ingredients, path, row)?;
            match *field {
                "key" => ingredient.key = value.to_owned(),
                "amount" => ingredient.amount = value.to_owned(),
                _ => return Err(unknown(path)),
            }
        }
        ["needs", row, field] => set_need(at(&mut house.needs, path, row)?, path, field, value)?,
        ["crates", row, "full", crop] => {
            let known = at::<Crate>(&mut house.crates, path, row)?;
            if value.is_empty() {
                known.full_weights.remove(*crop);
            } else {
                known
                    .full_weights
                    .insert((*crop).to_owned(), value.to_owned());
            }
        }
        ["crates", row, field] => {
            let known = at::<Crate>(&mut house.crates, path, row)?;
            match *field {
                "name" => known.name = value.to_owned(),
                "litres" => known.litres = value.to_owned(),
                _ => return Err(unknown(path)),
            }
        }
        _ => return Err(unknown(path)),
    }
    Ok(())
}

fn set_canner(canner: &mut Canner, path: &str, field: &str, value: &str) -> Result<(), AppError> {
    match field {
        "name" => canner.name = value.to_owned(),
        "kind" => canner.kind = value.to_owned(),
        "quarts" => canner.quarts = whole(path, value)?,
        "pints" => canner.pints = whole(path, value)?,
        "half_pints" => canner.half_pints = whole(path, value)?,
        "gauge_error_psi" => canner.gauge_error_psi = value.to_owned(),
        "gauge_tested_on" => canner.gauge_tested_on = value.to_owned(),
        "gauge_tested_by" => canner.gauge_tested_by = value.to_owned(),
        "weights_psi" => {
            canner.weights_psi = value
                .split([',', ' '])
                .filter(|word| !word.is_empty())
                .map(|word| whole(path, word))
                .collect::<Result<_, _>>()?;
        }
        _ => return Err(unknown(path)),
    }
    Ok(())
}

fn set_pot(pot: &mut Pot, path: &str, field: &str, value: &str) -> Result<(), AppError> {
    match field {
        "name" => pot.name = value.to_owned(),
        "litres" => pot.litres = value.to_owned(),
        _ => return Err(unknown(path)),
    }
    Ok(())
}

fn set_person(person: &mut Person, path: &str, field: &str, value: &str) -> Result<(), AppError> {
    if field == "name" {
        value.clone_into(&mut person.name);
        return Ok(());
    }
    let day = WEEKDAYS
        .iter()
        .position(|name| *name == field)
        .ok_or_else(|| unknown(path))?;
    let minutes = if value.is_empty() {
        0
    } else {
        minutes_of(path, value)?
    };
    if minutes > 24 * 60 {
        return Err(AppError::input(
            path,
            format!("«{value}» is more than a day has."),
            "Write hours and minutes such as «6 h» or «2 h 30 min».",
        ));
    }
    person.minutes[day] = minutes;
    Ok(())
}

fn set_jar(jar: &mut JarCount, path: &str, field: &str, value: &str) -> Result<(), AppError> {
    match field {
        "jar" => jar.jar = value.to_owned(),
        "count" => jar.count = whole(path, value)?,
        "mouth" => jar.mouth = value.to_owned(),
        _ => return Err(unknown(path)),
    }
    Ok(())
}

fn set_need(need: &mut Need, path: &str, field: &str, value: &str) -> Result<(), AppError> {
    match field {
        "product" => need.product = value.to_owned(),
        "wanted" => need.wanted = whole(path, value)?,
        "unit" => need.unit = value.to_owned(),
        "priority" => need.priority = value.to_owned(),
        _ => return Err(unknown(path)),
    }
    Ok(())
}

/// The row of a list, which grows with empty rows up to it.
fn at<'a, T: Default>(rows: &'a mut Vec<T>, path: &str, row: &str) -> Result<&'a mut T, AppError> {
    let index: usize = row.parse().map_err(|_| unknown(path))?;
    if index >= MOST_ROWS {
        return Err(AppError::input(
            path,
            format!("Row {index} is beyond the {MOST_ROWS} rows a list may have."),
            "Number the rows from 0 without gaps.",
        ));
    }
    while rows.len() <= index {
        rows.push(T::default());
    }
    Ok(&mut rows[index])
}

fn whole(path: &str, value: &str) -> Result<u32, AppError> {
    if value.is_empty() {
        return Ok(0);
    }
    value
        .parse::<u32>()
        .ok()
        .filter(|n| *n <= 100_000)
        .ok_or_else(|| {
            AppError::input(
                path,
                format!("«{value}» is not a whole number from 0 to 100,000."),
                "Write digits only, such as «24».",
            )
        })
}

fn yes(path: &str, value: &str) -> Result<bool, AppError> {
    match value {
        "yes" | "true" | "on" | "1" => Ok(true),
        "no" | "false" | "off" | "0" | "" => Ok(false),
        _ => Err(AppError::input(
            path,
            format!("«{value}» is neither yes nor no."),
            "Write «yes» or «no».",
        )),
    }
}

/// "6", "6 h", "2 h 30 min", "90 min": bare numbers are hours, as people speak of a day's work.
fn minutes_of(path: &str, value: &str) -> Result<u32, AppError> {
    if let Ok(hours) = value.parse::<u32>() {
        return Ok(hours.saturating_mul(60));
    }
    let minutes = quantity::parse::minutes(value).map_err(|error| {
        AppError::input(path, error.to_string(), "Write «6 h» or «2 h 30 min».")
    })?;
    u32::try_from(minutes).map_err(|_| unknown(path))
}

fn unknown(path: &str) -> AppError {
    AppError::input(
        path,
        format!("The house has no field «{path}»."),
        "See `stillroom house --json` for the fields that exist.",
    )
}
