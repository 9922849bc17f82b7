//! The house is stated anew.

use super::Done;
use crate::error::AppError;
use crate::house::{Canner, House};
use crate::request::Now;
use crate::{App, balance, dates, gauge, house_fields};
use jiff::civil::Date;
use reference::Jar;

impl App {
    /// States the house as it is from now on; the earlier statement stays in the record.
    ///
    /// # Errors
    /// A field that is not understood, named by its path. Nothing is written then.
    pub fn set_house(&self, now: &Now, mut house: House, token: &str) -> Result<Done, AppError> {
        house_fields::nameless(&house, &House::default(), &[])?;
        house_fields::tidy(&mut house);
        self.validate_house(&house, now.date)?;
        gauge::settle(&mut house);
        let content = serde_json::to_string(&house).map_err(|error| {
            AppError::failed(format!("The house cannot be written down: {error}."), "")
        })?;
        let (entry, ()) = self.write(now, "house", "", token, |writer| {
            writer.add_house(&content)?;
            Ok(())
        })?;
        let words = match balance::elevation(&house)? {
            None => "The house is written down. Without an elevation no process time can be given."
                .to_owned(),
            Some(elevation) => format!(
                "The house is written down: {}, elevation {}.",
                if house.name.is_empty() {
                    "no name"
                } else {
                    &house.name
                },
                quantity::show::elevation(&elevation)
            ),
        };
        Ok(Done {
            entry,
            id: None,
            words,
        })
    }

    fn validate_house(&self, house: &House, today: Date) -> Result<(), AppError> {
        balance::elevation(house)?;
        crate::read::printed_labels::sound_address(&house.address)?;
        for (row, canner) in house.canners.iter().enumerate() {
            let field = |name: &str| format!("canners.{row}.{name}");
            crate::read::house::canner_facts(canner, &field(""))?;
            if canner.quarts + canner.pints + canner.half_pints == 0 {
                return Err(AppError::input(
                    &field("quarts"),
                    format!("How many jars «{}» takes a load was not said.", canner.name),
                    "Count them on its rack: quarts, pints, half-pints.",
                ));
            }
            gauge_tests(canner, &field, today)?;
        }
        for (row, animal) in house.animals.iter().enumerate() {
            kitchen::feeding::known_animal(animal).map_err(|error| {
                AppError::input(
                    "animals",
                    error.to_string(),
                    format!(
                        "Animal {} of the list: write one of those, or leave it out.",
                        row + 1
                    ),
                )
            })?;
        }
        for (row, jar) in house.jars.iter().enumerate() {
            jar.jar.parse::<Jar>().map_err(|error| {
                AppError::input(
                    &format!("jars.{row}.jar"),
                    error.to_string(),
                    "Choose a jar from the list.",
                )
            })?;
            if !matches!(jar.mouth.as_str(), "" | "regular" | "wide") {
                return Err(AppError::input(
                    &format!("jars.{row}.mouth"),
                    format!("«{}» is no mouth of a jar.", jar.mouth),
                    "Write regular or wide.",
                ));
            }
        }
        for (row, pot) in house.pots.iter().enumerate() {
            number(&format!("pots.{row}.litres"), &pot.litres)?;
        }
        for (row, known) in house.crates.iter().enumerate() {
            super::picking::known_crate(known).map_err(|error| AppError {
                field: format!("crates.{row}.litres"),
                ..error
            })?;
        }
        for (row, need) in house.needs.iter().enumerate() {
            if self.recipes.get(&need.product).is_err() {
                return Err(AppError::input(
                    &format!("needs.{row}.product"),
                    format!("There is no recipe «{}».", need.product),
                    "Choose a product from the list of recipes.",
                ));
            }
            if !matches!(need.priority.as_str(), "must" | "want" | "nice") {
                return Err(AppError::input(
                    &format!("needs.{row}.priority"),
                    format!("«{}» is no priority.", need.priority),
                    "Write must, want or nice.",
                ));
            }
        }
        for (row, ingredient) in house.ingredients.iter().enumerate() {
            crate::read::house::smallest_units(&ingredient.amount).map_err(|error| AppError {
                field: format!("ingredients.{row}.amount"),
                ..error
            })?;
        }
        if let Some(freezer) = &house.freezer
            && freezer.free_litres > freezer.litres
        {
            return Err(AppError::input(
                "freezer.free_litres",
                format!(
                    "{} litres cannot be free in a freezer of {}.",
                    freezer.free_litres, freezer.litres
                ),
                "Give the litres that are free now.",
            ));
        }
        number("fresh_pounds_a_day", &house.fresh_pounds_a_day)?;
        number("hour_worth_pounds", &house.hour_worth_pounds)?;
        crate::day::hours::of_house(house)?;
        Ok(())
    }
}

/// The tests of a canner's gauge: whole, on days that have been.
fn gauge_tests(
    canner: &Canner,
    field: &dyn Fn(&str) -> String,
    today: Date,
) -> Result<(), AppError> {
    let entered = [
        (
            "gauge_tested_on",
            &canner.gauge_tested_on,
            "the day of the test",
        ),
        (
            "gauge_error_psi",
            &canner.gauge_error_psi,
            "what the dial showed",
        ),
    ];
    let some = entered.iter().any(|(_, text, _)| !text.trim().is_empty())
        || !canner.gauge_tested_by.trim().is_empty();
    if let (true, Some((name, _, what))) = (
        some,
        entered.iter().find(|(_, text, _)| text.trim().is_empty()),
    ) {
        return Err(AppError::input(
            &field(name),
            format!("A gauge test of «{}» without {what}.", canner.name),
            "Enter the day and what the dial showed minus what was true, 0 when it was right.",
        ));
    }
    if some {
        one_test(
            &canner.gauge_tested_on,
            &canner.gauge_error_psi,
            &|name| field(&format!("gauge_{name}")),
            today,
        )?;
    }
    for (index, test) in canner.gauge_tests.iter().enumerate() {
        one_test(
            &test.on,
            &test.error_psi,
            &|name| {
                let name = if name == "tested_on" { "on" } else { name };
                field(&format!("gauge_tests.{index}.{name}"))
            },
            today,
        )?;
    }
    Ok(())
}

fn one_test(
    on: &str,
    error_psi: &str,
    field: &dyn Fn(&str) -> String,
    today: Date,
) -> Result<(), AppError> {
    crate::read::house::gauge_error(error_psi, &field("error_psi"))?;
    let tested: Date = on.trim().parse().map_err(|_| {
        AppError::input(
            &field("tested_on"),
            format!("«{on}» is not a date."),
            "Write it as 2026-05-04.",
        )
    })?;
    if dates::days_between(tested, today) < 0 {
        return Err(AppError::input(
            &field("tested_on"),
            format!("{} is still to come.", dates::plain(tested)),
            "Enter the test after it was done.",
        ));
    }
    Ok(())
}

/// A number that may be left empty, and is not below zero.
fn number(field: &str, text: &str) -> Result<(), AppError> {
    if text.trim().is_empty() {
        return Ok(());
    }
    quantity::parse::number(text).map(|_| ()).map_err(|error| {
        AppError::input(
            field,
            error.to_string(),
            "Write a number such as «12» or «2 1/2».",
        )
    })
}
