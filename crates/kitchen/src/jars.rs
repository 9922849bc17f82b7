//! How many jars to expect, to heat and to load; what to do with a part jar.

use quantity::{
    Exact, Mass, MassUnit, Rounding, Volume, VolumeUnit, ceil, checked_add, checked_div,
    checked_mul, exact_text, floor, kitchen_measure::measure, show,
};
use reference::Jar;
use serde::{Deserialize, Serialize};

use crate::error::KitchenError;
use crate::recipe::{Basis, Factor, FactorLine, Recipe, Yield};

mod own;

pub use own::OwnRecord;

/// Jars to expect, as a range over every printed factor (ruling 37).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JarsExpected {
    /// The jar counted.
    pub jar: Jar,
    /// Fewest by any printed line.
    #[serde(with = "exact_text")]
    pub low: Exact,
    /// Fewest by the lines that speak of this food by weight (load and per quart).
    #[serde(with = "exact_text")]
    pub likely_low: Exact,
    /// Most by those lines; for whole recipes the middle of the printed yield.
    #[serde(with = "exact_text")]
    pub likely: Exact,
    /// Most by any printed line.
    #[serde(with = "exact_text")]
    pub high: Exact,
    /// Full jars to expect.
    pub full: u32,
    /// Full jars at the low end.
    pub full_low: u32,
    /// Full jars at the high end.
    pub full_high: u32,
    /// Jars to wash and heat: the high end and one more.
    pub heat: u32,
    /// What is over beyond the full jars at the likely figure; nothing where a printed range of
    /// jars is too wide to tell.
    pub over: Volume,
    /// "7 quarts, could be 6 to 8; heat 9".
    pub words: String,
    /// The printed lines behind it.
    pub basis: Vec<JarBasis>,
}

/// One printed line applied to this batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JarBasis {
    /// "23 lb for a load of 7 quarts".
    pub words: String,
    /// Fewest jars by this line.
    #[serde(with = "exact_text")]
    pub low: Exact,
    /// Most jars by this line.
    #[serde(with = "exact_text")]
    pub high: Exact,
    /// Where it was read.
    pub source: String,
}

/// Jars from a weight of produce. Errors: the recipe is not reckoned by weight; overflow.
pub fn jars_expected(
    recipe: &Recipe,
    produce: Mass,
    jar: Jar,
) -> Result<JarsExpected, KitchenError> {
    if recipe.basis != Basis::Pounds || recipe.factors.is_empty() {
        return Err(KitchenError::Basis {
            recipe: recipe.title.clone(),
            basis: basis_words(recipe.basis),
            asked: "the weight of produce",
        });
    }
    let pounds = produce.in_unit(MassUnit::Pound);
    let per_quart = jars_in_a_quart(jar)?;
    let lines: Vec<(FactorLine, JarBasis)> = recipe
        .factors
        .iter()
        .filter(|factor| speaks_of(factor, jar))
        .map(|factor| {
            let made = |per_pound| checked_mul(checked_mul(pounds, per_pound)?, per_quart);
            Ok((
                factor.line,
                JarBasis {
                    words: factor.words.clone(),
                    low: made(factor.quarts_per_pound_low)?,
                    high: made(factor.quarts_per_pound_high)?,
                    source: factor.source.clone(),
                },
            ))
        })
        .collect::<Result<_, KitchenError>>()?;
    let by_weight = |line: &FactorLine| {
        matches!(
            line,
            FactorLine::LoadOfQuarts | FactorLine::LoadOfPints | FactorLine::PerQuart
        )
    };
    let likely_low = ends(&lines, by_weight).or_else(|| ends(&lines, |_| true));
    let lines = lines.into_iter().map(|(_, basis)| basis).collect();
    let (low, high) = likely_low.unwrap_or_default();
    expected(jar, lines, low, high, true)
}

/// Fewest and most jars by the lines that are asked for.
fn ends(
    lines: &[(FactorLine, JarBasis)],
    asked: impl Fn(&FactorLine) -> bool,
) -> Option<(Exact, Exact)> {
    let of = || lines.iter().filter(|(line, _)| asked(line));
    let low = of().map(|(_, basis)| basis.low).min()?;
    let high = of().map(|(_, basis)| basis.high).max()?;
    Some((low, high))
}

/// Jars from whole or part batches of a recipe. Errors: no yield is printed; overflow.
pub fn jars_from_batches(
    recipe: &Recipe,
    multiplier: Exact,
    jar: Jar,
) -> Result<JarsExpected, KitchenError> {
    let Some(made) = &recipe.yields else {
        return Err(KitchenError::Basis {
            recipe: recipe.title.clone(),
            basis: "jar contents, without a printed yield",
            asked: "batches",
        });
    };
    let one = made.volume.ratio(jar.volume())?;
    let jars = |number| checked_mul(checked_mul(number, multiplier)?, one);
    let line = JarBasis {
        words: format!("{} a batch", yield_words(made)),
        low: jars(made.low)?,
        high: jars(made.high)?,
        source: recipe.source.clone(),
    };
    let middle = checked_div(checked_add(line.low, line.high)?, Exact::from_integer(2))?;
    let (low, certain) = (line.low, line.low == line.high);
    expected(jar, vec![line], low, middle, certain)
}

/// A line for pints says nothing about quarts; every other line serves any jar.
fn speaks_of(factor: &Factor, jar: Jar) -> bool {
    factor.line != FactorLine::LoadOfPints || jar.volume() < Jar::Quart.volume()
}

/// `certain`: the likely figure is fine enough to say how much lies beyond the full jars.
fn expected(
    jar: Jar,
    basis: Vec<JarBasis>,
    likely_low: Exact,
    likely: Exact,
    certain: bool,
) -> Result<JarsExpected, KitchenError> {
    let low = basis
        .iter()
        .map(|line| line.low)
        .min()
        .unwrap_or(likely_low);
    let high = basis.iter().map(|line| line.high).max().unwrap_or(likely);
    let full = count(likely);
    let over_jars = if certain {
        quantity::checked_sub(likely, Exact::from_integer(i128::from(full)))?
    } else {
        Exact::from_integer(0)
    };
    let mut found = JarsExpected {
        jar,
        low,
        likely_low,
        likely,
        high,
        full,
        full_low: count(low),
        full_high: count(high),
        heat: count(high).saturating_add(1),
        over: jar.volume().checked_mul(over_jars)?,
        words: String::new(),
        basis,
    };
    found.words = jar_words(&found);
    Ok(found)
}

fn jar_words(found: &JarsExpected) -> String {
    let jars = jar_name(found.jar, found.full);
    if found.full_low == found.full_high {
        format!("{} {jars}; heat {}", found.full, found.heat)
    } else {
        format!(
            "{} {jars}, could be {} to {}; heat {}",
            found.full, found.full_low, found.full_high, found.heat
        )
    }
}

/// Full jars: what is begun is a part jar, not a jar.
fn count(jars: Exact) -> u32 {
    u32::try_from(floor(jars).max(0)).unwrap_or(u32::MAX - 1)
}

fn jars_in_a_quart(jar: Jar) -> Result<Exact, KitchenError> {
    Ok(Jar::Quart.volume().ratio(jar.volume())?)
}

/// "quart" or "quarts"; metric and odd jars are named with "jars".
pub fn jar_name(jar: Jar, number: u32) -> String {
    match jar {
        Jar::HalfPint | Jar::Pint | Jar::Quart | Jar::HalfGallon => {
            let end = if number == 1 { "" } else { "s" };
            format!("{jar}{end}")
        }
        _ => {
            let end = if number == 1 { "jar" } else { "jars" };
            let size = jar.as_str().replace('-', " ");
            // Two numbers do not stand side by side: «7 jars of 250 ml».
            if jar.is_metric() {
                format!("{end} of {size}")
            } else {
                format!("{size} {end}")
            }
        }
    }
}

pub(crate) fn basis_words(basis: Basis) -> &'static str {
    match basis {
        Basis::Pounds => "the weight of its produce",
        Basis::Batch => "whole recipes",
        Basis::Volume => "the volume that was made",
    }
}

fn yield_words(made: &Yield) -> String {
    let (low, high) = (show::number(made.low), show::number(made.high));
    let one = Exact::from_integer(1);
    let container = made.container.replace('-', " ");
    let container = if made.high == one || container.contains(" of ") {
        container
    } else {
        format!("{container}s")
    };
    if low == high {
        format!("{high} {container}")
    } else {
        format!("{low} to {high} {container}")
    }
}

/// Canner loads for a number of jars.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LoadPlan {
    /// Jars to process.
    pub jars: u32,
    /// Jars the canner holds.
    pub capacity: u32,
    /// Loads for all of them: `ceil(jars / capacity)`.
    pub loads: u32,
    /// Jars of the last load.
    pub last_load: u32,
    /// Set when the last load is too small to be worth its fuel and hours.
    pub advice: Option<String>,
}

/// A last load of at most a quarter of the canner is not worth running (common practice, no
/// source). Error: the canner holds none of these jars.
pub fn loads(jars: u32, capacity: u32, jar: Jar) -> Result<LoadPlan, KitchenError> {
    if capacity == 0 {
        return Err(KitchenError::EmptyCanner {
            jar: jar.to_string(),
        });
    }
    let loads = jars.div_ceil(capacity);
    let last_load = jars - loads.saturating_sub(1).saturating_mul(capacity);
    let small = loads > 1 && last_load.saturating_mul(4) <= capacity;
    Ok(LoadPlan {
        jars,
        capacity,
        loads,
        last_load,
        advice: small.then(|| {
            format!(
                "Load {loads} would hold {last_load} of {capacity}: do not run it for that. \
                 Freeze or chill what fills {last_load} {}, or heat it with the next batch \
                 (common practice, no source).",
                jar_name(jar, last_load)
            )
        }),
    })
}

/// What to do with what does not fill the last jar.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartJar {
    /// How much is over.
    pub volume: Volume,
    /// The largest smaller jar of the recipe it fills.
    pub jar: Option<Jar>,
    /// Days the rest keeps in the refrigerator.
    pub fridge_days: i64,
    /// In words.
    pub words: String,
}

/// Advice for a part jar: a smaller jar of the same recipe if it fills one, else the
/// refrigerator with an eat-by, or the freezer. None when less than a quarter cup is over.
pub fn part_jar(recipe: &Recipe, over: Volume, jar: Jar) -> Option<PartJar> {
    let quarter_cup = Volume::of(4, VolumeUnit::Tablespoon);
    if over < quarter_cup {
        return None;
    }
    let smaller = recipe
        .jar_choices
        .iter()
        .copied()
        .filter(|known| known.volume() <= over && known.volume() < jar.volume())
        .max_by_key(|known| known.volume());
    let days = recipe.fridge_days;
    let words = match smaller {
        Some(smaller) => format!(
            "{} over: fill one {} in the same load if the gate permits it; chill the rest and \
             eat it within {days} days, or freeze it.",
            about(over),
            jar_name(smaller, 1)
        ),
        None => format!(
            "{} over: chill it and eat it within {days} days, or freeze it. A part-filled jar is \
             never processed.",
            about(over)
        ),
    };
    Some(PartJar {
        volume: over,
        jar: smaller,
        fridge_days: days,
        words,
    })
}

/// "about 1 1/2 cups (364 mL)": to a quarter cup, because the factor is no finer.
pub fn about(volume: Volume) -> String {
    let quarters = checked_mul(volume.in_unit(VolumeUnit::Cup), Exact::from_integer(4))
        .map(quantity::round_half_away)
        .unwrap_or(0);
    let rounded = Volume::new(Exact::new(quarters, 4), VolumeUnit::Cup).unwrap_or(volume);
    format!(
        "about {} ({})",
        measure(rounded, Rounding::Nearest),
        show::volume(volume).metric
    )
}

/// Whether a brine reaches (common practice for its shares; the ratio is the recipe's own).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BrineReach {
    /// What the jars need.
    pub need: Volume,
    /// What the pot gives after boiling off.
    pub have: Volume,
    /// Does it reach?
    pub reaches: bool,
    /// Whole half batches of brine to make more, at the recipe's own ratio.
    pub half_batches_more: u32,
    /// In words.
    pub words: String,
}

/// What is asked about a brine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BrineQuestion {
    /// Jars to fill.
    pub jars: u32,
    /// Their size.
    pub jar: Jar,
    /// Share of the jar that solid pieces fill (measured by the household, or about 3/5).
    pub solids: Exact,
    /// Share of the jar left empty at the top.
    pub headspace: Exact,
    /// Brine of one batch as mixed.
    pub brine_of_batch: Volume,
    /// Batches of brine made.
    pub batches: Exact,
    /// Share that boils off.
    pub boiled_off: Exact,
}

/// Needs against what is there: `jars x (fill - solids)` against `brine x (1 - boil-off)`. The
/// missing part is made as more brine at the same ratio, never topped up with water.
pub fn brine_reach(question: &BrineQuestion) -> Result<BrineReach, KitchenError> {
    let one = Exact::from_integer(1);
    let taken = checked_add(question.solids, question.headspace)?;
    let open = quantity::checked_sub(one, taken)?.max(Exact::from_integer(0));
    let jars = Exact::from_integer(i128::from(question.jars));
    let need = question
        .jar
        .volume()
        .checked_mul(checked_mul(jars, open)?)?;
    let kept = quantity::checked_sub(one, question.boiled_off)?.max(Exact::from_integer(0));
    let batch = question.brine_of_batch.checked_mul(kept)?;
    let have = batch.checked_mul(question.batches)?;
    let reaches = have >= need;
    let half_batches_more = if reaches || batch.is_zero() {
        0
    } else {
        let halves = checked_div(
            checked_mul(
                need.checked_sub(have)?.ratio(batch)?,
                Exact::from_integer(2),
            )?,
            one,
        )?;
        u32::try_from(ceil(halves)).unwrap_or(u32::MAX)
    };
    let words = if reaches {
        format!(
            "The brine reaches: {} needed, {} there.",
            about(need),
            about(have)
        )
    } else {
        format!(
            "The brine falls short: {} needed, {} there. Make {half_batches_more} half \
             {} more at the same ratio; never top up with water.",
            about(need),
            about(have),
            if half_batches_more == 1 {
                "batch"
            } else {
                "batches"
            }
        )
    };
    Ok(BrineReach {
        need,
        have,
        reaches,
        half_batches_more,
        words,
    })
}
