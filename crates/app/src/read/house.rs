//! The House's read model, and its canners as the gate wants them.

use crate::error::AppError;
use crate::house::{Canner, House};
use crate::read::here;
use crate::request::Now;
use crate::view::Choice;
use crate::view::house::{GaugeView, HouseView};
use crate::{App, balance, gauge};
use jiff::civil::Date;
use quantity::{Elevation, Mass, Volume};
use reference::{Jar, Reference};
use safety::CannerFacts;

/// Kinds of canner with their words.
pub const CANNER_KINDS: [(&str, &str); 5] = [
    ("boiling-water", "boiling-water canner"),
    ("steam", "steam canner (atmospheric)"),
    ("dial-gauge", "pressure canner with a dial"),
    ("weighted-gauge", "pressure canner with a weight"),
    ("dial-with-weight", "pressure canner with dial and weight"),
];

impl App {
    /// The house as it stands now.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn house(&self, now: &Now) -> Result<HouseView, AppError> {
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let elevation = balance::elevation(&house)?;
        let mut ingredients: Vec<Choice> = Vec::new();
        for recipe in self.recipes.all().iter().filter(|recipe| recipe.offered) {
            for line in recipe
                .ingredients
                .iter()
                .filter(|line| line.role != kitchen::recipe::Role::Produce)
            {
                if !ingredients.iter().any(|choice| choice.key == line.key) {
                    ingredients.push(Choice::new(&line.key, &line.name));
                }
            }
            for acid in &recipe.acid_choices {
                if !ingredients.iter().any(|choice| choice.key == acid.acid) {
                    ingredients.push(Choice::new(&acid.acid, &acid.name));
                }
            }
        }
        ingredients.sort_by(|a, b| a.title.cmp(&b.title));
        let missing = missing(&house, facts.house.is_some());
        Ok(HouseView {
            answer: answer(&house, elevation.as_ref(), &missing),
            missing,
            known: facts.house.is_some(),
            jars: Jar::ALL
                .iter()
                .map(|jar| Choice::new(jar.as_str(), jar_words(*jar, 1)))
                .collect(),
            canner_kinds: CANNER_KINDS
                .iter()
                .map(|(key, title)| Choice::new(*key, *title))
                .collect(),
            products: self
                .recipes
                .all()
                .iter()
                .filter(|recipe| recipe.offered)
                .map(|recipe| Choice::new(&recipe.key, &recipe.title))
                .collect(),
            ingredients,
            band: elevation.as_ref().map(band_words).unwrap_or_default(),
            facts: elevation
                .as_ref()
                .map(|elevation| here::of_house(self.reference, &house, elevation))
                .unwrap_or_default(),
            gauges: gauges(self.reference, &house, now.date),
            reminders: crate::gauge::reminders(self.reference, &house, now.date),
            house,
        })
    }
}

fn missing(house: &House, known: bool) -> Vec<String> {
    let mut missing = Vec::new();
    if house.elevation.trim().is_empty() {
        missing.push("No elevation: no process time can be given.".to_owned());
    }
    if house.canners.is_empty() {
        missing.push("No canner: nothing can be heat-processed.".to_owned());
    }
    if known
        && house
            .people
            .iter()
            .all(|person| person.minutes.iter().sum::<u32>() == 0)
    {
        missing.push("Nobody has hours: no plan can be made.".to_owned());
    }
    missing
}

/// The dials of the house with their tests.
fn gauges(reference: &Reference, house: &House, today: Date) -> Vec<GaugeView> {
    house
        .canners
        .iter()
        .filter(|canner| gauge::has_dial(canner))
        .map(|canner| GaugeView {
            canner: canner.name.clone(),
            state: gauge::state(reference, canner, today).key().to_owned(),
            tests: canner.gauge_tests.iter().map(gauge::words).collect(),
        })
        .collect()
}

fn answer(house: &House, elevation: Option<&Elevation>, missing: &[String]) -> String {
    match elevation {
        None => "Where the kitchen stands is not known yet.".to_owned(),
        Some(elevation) => format!(
            "{} at {}, with {}.{}",
            if house.name.is_empty() {
                "The house"
            } else {
                &house.name
            },
            quantity::show::elevation(elevation),
            match house.canners.len() {
                0 => "no canner".to_owned(),
                1 => "one canner".to_owned(),
                count => format!("{count} canners"),
            },
            if missing.is_empty() {
                ""
            } else {
                " Something is missing."
            }
        ),
    }
}

/// How the gate will read an elevation.
pub fn band_words(elevation: &Elevation) -> String {
    let both = quantity::show::elevation(elevation);
    if elevation.is_certain() {
        format!("The tables are read at {both}.")
    } else {
        format!(
            "The tables are read at the upper end of {both}: near an edge the stricter row is used."
        )
    }
}

/// The canner as the gate asks about it.
///
/// # Errors
/// A kind that does not exist, or a gauge error that is not understood; `path` leads the field.
pub fn canner_facts(canner: &Canner, path: &str) -> Result<CannerFacts, AppError> {
    match canner.kind.as_str() {
        "boiling-water" => Ok(CannerFacts::BoilingWater),
        "steam" => Ok(CannerFacts::Steam),
        "weighted-gauge" => Ok(CannerFacts::Weighted {
            weights_psi: canner.weights_psi.clone(),
        }),
        "dial-with-weight" => Ok(CannerFacts::DialWithWeight {
            weights_psi: canner.weights_psi.clone(),
        }),
        "dial-gauge" => {
            let latest = crate::gauge::latest(canner);
            Ok(CannerFacts::Dial {
                error_psi: match &latest {
                    None => None,
                    Some(test) => Some(gauge_error(
                        &test.error_psi,
                        &format!("{path}gauge_error_psi"),
                    )?),
                },
                tested_on: latest.map(|test| test.on),
            })
        }
        "" => Err(AppError::input(
            &format!("{path}kind"),
            format!("What kind of canner «{}» is was not said.", canner.name),
            "Choose its kind from the list; an unknown kind permits nothing.",
        )),
        other => Err(AppError::input(
            &format!("{path}kind"),
            format!("«{other}» is no kind of canner."),
            "Choose boiling-water, steam, dial-gauge, weighted-gauge or dial-with-weight.",
        )),
    }
}

/// What a dial shows minus what is true, in psi: "1", "-1/2".
///
/// # Errors
/// A text that is no number; `field` is named.
pub fn gauge_error(text: &str, field: &str) -> Result<quantity::Exact, AppError> {
    let text = text.trim();
    let (sign, number) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1, rest),
        None => (1, text.strip_prefix('+').unwrap_or(text)),
    };
    let number = quantity::parse::number(number).map_err(|error| {
        AppError::input(
            field,
            error.to_string(),
            "Write what the dial showed minus what was true, such as 1 or -1/2.",
        )
    })?;
    quantity::checked_mul(number, quantity::whole(sign)).map_err(|error| {
        AppError::input(
            field,
            error.to_string(),
            "Write fewer digits, such as 1 or -1/2.",
        )
    })
}

/// Jars of one size that a canner takes a load; a smaller jar than a half-pint does not exist here.
pub fn jars_per_load(canner: &Canner, jar: Jar) -> i64 {
    i64::from(match jar {
        Jar::HalfPint | Jar::Ounce12 | Jar::Ml250 => canner.half_pints,
        Jar::Pint | Jar::Ml500 => canner.pints,
        Jar::PintAndHalf | Jar::Quart | Jar::Litre1 => canner.quarts,
        Jar::HalfGallon => canner.quarts / 2,
    })
}

/// An amount of the pantry in the smallest units: microlitres for volumes, milligrams for weights.
///
/// # Errors
/// A text that is neither.
pub fn smallest_units(text: &str) -> Result<i64, AppError> {
    let volume = quantity::parse::volume(text).and_then(Volume::microlitres);
    let mass = quantity::parse::mass(text).and_then(Mass::milligrams);
    volume.or(mass).map_err(|_| {
        AppError::input(
            "amount",
            format!("«{text}» is neither a volume nor a weight."),
            "Write it as «11 cups», «2 quarts», «750 ml» or «4 lb».",
        )
    })
}

/// "quart", "quarts".
pub fn jar_words(jar: Jar, count: i64) -> String {
    let word = match jar {
        Jar::Ounce12 => "12-ounce jar",
        Jar::PintAndHalf => "pint-and-a-half",
        // Only one jar is said otherwise than several.
        jar => return kitchen::jars::jar_name(jar, u32::from(count != 1) + 1),
    };
    if count == 1 {
        word.to_owned()
    } else {
        format!("{word}s")
    }
}

/// A container key in words, jar or bag.
pub fn container_words(key: &str, count: i64) -> String {
    if let Ok(jar) = key.parse::<Jar>() {
        return jar_words(jar, count);
    }
    let word = match key {
        "pint-bag" => "pint bag",
        "quart-bag" => "quart bag",
        "partial-jar" => "part-filled jar",
        other => return other.replace('-', " "),
    };
    if count == 1 {
        word.to_owned()
    } else {
        format!("{word}s")
    }
}
