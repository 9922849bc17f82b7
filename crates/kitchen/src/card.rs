//! The batch card: what stands on the paper by the stove.

use quantity::{Exact, KitchenMeasure, Rounding, Volume, VolumeUnit, checked_mul, exact_text};
use quantity::{kitchen_measure::measure, show};
use reference::{Jar, Reference};
use serde::{Deserialize, Serialize};

use crate::error::KitchenError;
use crate::jars::{JarsExpected, LoadPlan, PartJar, loads};
use crate::recipe::{AcidChoice, Amount, Fact, Recipe, acid_choices};

/// A recipe scaled for one day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchCard {
    /// Recipe key.
    pub recipe: String,
    /// Title.
    pub title: String,
    /// How many times the recipe.
    #[serde(with = "exact_text")]
    pub multiplier: Exact,
    /// Set for gels: so many pots, one after the other, each with the amounts of one batch.
    pub separate_batches: Option<u32>,
    /// The jar; none for routes without jars.
    pub jar: Option<Jar>,
    /// Ingredients, each for the whole card (for gels: for one pot).
    pub lines: Vec<CardLine>,
    /// Jars to expect; none without a jar or a printed yield.
    pub jars: Option<JarsExpected>,
    /// Containers of routes without jars: "8 to 10 pint bags".
    pub makes: Option<String>,
    /// Canner loads, once a canner is known.
    pub loads: Option<LoadPlan>,
    /// Acid for each jar: one of these, whole.
    pub acid: Vec<AcidLine>,
    /// "1/2 inch (13 mm)".
    pub headspace: Option<String>,
    /// Headspace in inches.
    #[serde(with = "exact_text::option")]
    pub headspace_in: Option<Exact>,
    /// What to do with a part jar.
    pub part_jar: Option<PartJar>,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// Cautions that belong to this batch.
    pub cautions: Vec<String>,
    /// Facts with their sources.
    pub facts: Vec<Fact>,
    /// Where the recipe was read.
    pub source: String,
}

/// One ingredient of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CardLine {
    /// Key of the ingredient.
    pub key: String,
    /// Name.
    pub name: String,
    /// Exact amount, the lower end of a range.
    pub low: Amount,
    /// Exact amount, the upper end.
    pub high: Amount,
    /// The amount to measure, after rounding in the safe direction.
    pub measured: Amount,
    /// Exact amount in words: "20 tsp".
    pub exact: String,
    /// In the spoons, cups and scale of the kitchen: "6 tbsp + 2 tsp".
    pub kitchen: String,
    /// Metric.
    pub metric: String,
    /// Role and direction: "acid: never less".
    pub role: String,
    /// Which way it was allowed to be rounded.
    pub rounding: Rounding,
    /// Is the measure exactly the amount?
    pub is_exact: bool,
    /// Exact amount by the scale, where a spoon cannot say it.
    pub weigh: Option<String>,
    /// Per jar, where it helps.
    pub per_jar: Option<String>,
    /// May be left out.
    pub optional: bool,
    /// One of several with the same word.
    pub choice: Option<String>,
    /// Poured off again.
    pub drained_off: bool,
    /// Printed note.
    pub note: String,
}

/// One acid for the jars of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AcidLine {
    /// Key of the acid.
    pub acid: String,
    /// Name.
    pub name: String,
    /// What each jar gets, exactly.
    pub exact_per_jar: Volume,
    /// What each jar gets in spoons, never less.
    pub measured_per_jar: Volume,
    /// "2 tbsp (29.57 mL)".
    pub per_jar: String,
    /// All jars together.
    pub total_volume: Volume,
    /// "14 tbsp = 7/8 cup (207 mL)".
    pub total: String,
    /// Set when the jar is not printed: "computed from the printed ratio".
    pub computed: bool,
    /// Marks of doubt.
    pub mark: String,
    /// Where it was read.
    pub source: String,
}

impl BatchCard {
    /// The same card with its canner loads: `capacity` jars of the card's size fit at once.
    /// Error: the canner holds none.
    pub fn with_canner(mut self, capacity: u32) -> Result<Self, KitchenError> {
        if let (Some(jars), Some(jar)) = (&self.jars, self.jar) {
            self.loads = Some(loads(jars.full, capacity, jar)?);
        }
        Ok(self)
    }

    /// The same card with the headspace of its permit, which may hang on an answer (small or large
    /// beans); a text that is no number leaves the card as it is.
    #[must_use]
    pub fn with_headspace(mut self, inches: Option<&str>) -> Self {
        if let Some(inches) = inches.and_then(|text| quantity::parse::number(text).ok()) {
            self.headspace = Some(headspace_words(inches));
            self.headspace_in = Some(inches);
        }
        self
    }

    /// Jars to wash and heat.
    pub fn jars_to_heat(&self) -> Option<u32> {
        self.jars.as_ref().map(|jars| jars.heat)
    }
}

/// The acid for `jars` jars of one size. A printed jar takes its printed amount; any other jar
/// its share of the printed ratio, rounded up to a spoon (ruling 9). Error: overflow.
pub fn acid_line(choice: &AcidChoice, jar: Jar, jars: u32) -> Result<AcidLine, KitchenError> {
    let printed = choice
        .printed
        .iter()
        .find(|(known, _)| *known == jar)
        .map(|(_, volume)| *volume);
    let exact = match printed {
        Some(volume) => volume,
        None => jar.volume().checked_mul(choice.share)?,
    };
    let each = measure(exact, Rounding::Up);
    let number = Exact::from_integer(i128::from(jars));
    let total = each.volume.checked_mul(number)?;
    Ok(AcidLine {
        acid: choice.acid.clone(),
        name: choice.name.clone(),
        exact_per_jar: exact,
        measured_per_jar: each.volume,
        per_jar: format!("{each} ({})", metric_volume(each.volume, Rounding::Up)),
        total_volume: total,
        total: total_words(total, &each),
        computed: printed.is_none(),
        mark: match (printed.is_none(), choice.older_copy.contains(&jar)) {
            (true, _) => "computed from the printed ratio".to_owned(),
            (false, true) => "printed in full only in an older edition".to_owned(),
            (false, false) => String::new(),
        },
        source: choice.source.clone(),
    })
}

/// Every acid that the tables print for a food, for one jar of this size: printed where the jar
/// is, else computed from the printed ratio. Empty where the food needs none.
/// Error: an amount in the tables that is no volume.
pub fn acid_for_jar(reference: &Reference, food: &str, jar: Jar) -> Result<Vec<AcidLine>, String> {
    let Some(food) = reference.food(food) else {
        return Ok(Vec::new());
    };
    acid_choices(reference, food)?
        .iter()
        .map(|choice| acid_line(choice, jar, 1).map_err(|error| error.to_string()))
        .collect()
}

/// "14 tbsp = 7/8 cup (207 mL)": the spoons that are counted out, and the cup they make.
fn total_words(total: Volume, each: &KitchenMeasure) -> String {
    let metric = metric_volume(total, Rounding::Up);
    let spoons = total.in_unit(VolumeUnit::Tablespoon);
    let cups = total.in_unit(VolumeUnit::Cup);
    let by_spoon = each.to_string().ends_with("tbsp") && spoons.is_integer();
    let half_cup = Exact::new(1, 2);
    if by_spoon && cups >= half_cup && *cups.denom() <= 16 {
        let many = cups > Exact::from_integer(1);
        return format!(
            "{spoons} tbsp = {} {} ({metric})",
            show::number(cups),
            VolumeUnit::Cup.short(many)
        );
    }
    format!("{} ({metric})", measure(total, Rounding::Up))
}

/// Millilitres or litres, fine enough that the last figure is under a thousandth wherever a
/// spoon could tell. A rounding of more than that goes in the stated direction.
pub(crate) fn metric_volume(volume: Volume, rounding: Rounding) -> String {
    let millilitres = volume.exact();
    let from = |limit: i128| millilitres >= Exact::from_integer(limit);
    if from(1000) {
        let places = if from(10_000) { 2 } else { 3 };
        let litres = volume.in_unit(VolumeUnit::Litre);
        return format!("{} L", directed(litres, places, rounding));
    }
    let places = if from(100) { 1 } else { 2 };
    format!("{} mL", directed(millilitres, places, rounding))
}

fn directed(value: Exact, places: u32, rounding: Rounding) -> String {
    let scale = Exact::from_integer(10_i128.pow(places));
    let Ok(fine) = checked_mul(value, scale) else {
        return show::decimal(value, places);
    };
    let near = Exact::from_integer(quantity::round_half_away(fine));
    let slip = if near > fine {
        near - fine
    } else {
        fine - near
    };
    let close = checked_mul(slip, Exact::from_integer(1000)).is_ok_and(|slip| slip <= fine);
    let rounded = match rounding {
        _ if close => near,
        Rounding::Up => Exact::from_integer(quantity::ceil(fine)),
        Rounding::Down => Exact::from_integer(quantity::floor(fine)),
        Rounding::Nearest | Rounding::Exact => near,
    };
    show::decimal(rounded / scale, places)
}

/// "1/2 inch (13 mm)".
pub(crate) fn headspace_words(inches: Exact) -> String {
    let one = Exact::from_integer(1);
    let word = if inches > one { "inches" } else { "inch" };
    let millimetres = checked_mul(inches, Exact::new(254, 10))
        .map(quantity::round_half_away)
        .unwrap_or(0);
    format!("{} {word} ({millimetres} mm)", show::number(inches))
}

/// The texts of a recipe's steps, in order.
pub(crate) fn step_texts(recipe: &Recipe) -> Vec<String> {
    recipe
        .routine
        .steps
        .iter()
        .map(|step| step.text.clone())
        .collect()
}
