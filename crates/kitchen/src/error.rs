//! What can be wrong with a batch as asked, said so that the next try works.

use quantity::QuantityError;

/// A question about a recipe or batch that has no answer as asked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum KitchenError {
    /// No recipe of that key.
    #[error("there is no recipe \"{text}\"{hint}")]
    UnknownRecipe {
        /// The key as asked.
        text: String,
        /// "; did you mean ...", or nothing.
        hint: String,
    },
    /// A jar for which neither this recipe's table nor a larger jar of it has a line.
    #[error(
        "{recipe} has no tested process for a {jar} jar; its tables serve {choices}. A larger jar than tested is never used"
    )]
    JarNotServed {
        /// The recipe's title.
        recipe: String,
        /// The jar as asked.
        jar: String,
        /// The jars that may be asked for.
        choices: String,
    },
    /// A jar is needed and none was named.
    #[error("{recipe} goes into jars; say which: {choices}")]
    NoJar {
        /// The recipe's title.
        recipe: String,
        /// The jars that may be asked for.
        choices: String,
    },
    /// A multiplier that is zero, below zero or beyond any household.
    #[error("\"{text}\" batches of {recipe}: write a number above 0 and at most {most}")]
    Multiplier {
        /// The recipe's title.
        recipe: String,
        /// The multiplier as asked.
        text: String,
        /// The most that is believed.
        most: i64,
    },
    /// Part of a gel.
    #[error(
        "{recipe} is cooked batch by batch and never in part: write whole batches, not {text}. Larger or divided batches often stay soft"
    )]
    WholeBatchesOnly {
        /// The recipe's title.
        recipe: String,
        /// The multiplier as asked.
        text: String,
    },
    /// A recipe that is not reckoned by the weight of its produce.
    #[error("{recipe} is reckoned by {basis}, not by {asked}")]
    Basis {
        /// The recipe's title.
        recipe: String,
        /// What it is reckoned by.
        basis: &'static str,
        /// What was asked for.
        asked: &'static str,
    },
    /// An ingredient the recipe does not name.
    #[error("{recipe} has no ingredient \"{text}\"; it has {known}")]
    UnknownIngredient {
        /// The recipe's title.
        recipe: String,
        /// The ingredient as asked.
        text: String,
        /// The ingredients it has.
        known: String,
    },
    /// A weight given where a volume is needed, or the like.
    #[error("{ingredient} is measured by {needed} in this recipe; give {needed}")]
    WrongMeasure {
        /// The ingredient.
        ingredient: String,
        /// "weight", "volume" or "number".
        needed: &'static str,
    },
    /// A canner that holds nothing.
    #[error("a canner that holds no {jar} jars cannot be loaded; give how many it holds")]
    EmptyCanner {
        /// The jar.
        jar: String,
    },
    /// A bag, a recipe or a session of nothing.
    #[error("bags are reckoned from amounts above 0; give what there is and what a bag holds")]
    BagAmount,
    /// A brine or jars of nothing.
    #[error("a brine is reckoned from amounts above 0; give its vinegar, its water and the jars")]
    BrineAmount,
    /// A weight to be shared over bags measured by volume, or the like.
    #[error("give the food and the bag both by weight or both by volume")]
    BagMeasure,
    /// Recipe weights that share no useful divisor.
    #[error(
        "no bag of an ounce or more goes into {recipes} a whole number of times; weigh these recipes in the same unit"
    )]
    NoCommonBag {
        /// The weights as asked.
        recipes: String,
    },
    /// More bags than are believed.
    #[error("{asked} bags at once: at most {most} are believed; see whether the units are right")]
    TooManyBags {
        /// The most that is believed.
        most: i128,
        /// The bags it would take.
        asked: String,
    },
    /// A number of jars that is nought.
    #[error("no jars were asked for; write a number above 0")]
    NoJarsAsked,
    /// A pot that does not hold the least that may be cooked.
    #[error(
        "{recipe}: a pot of {pot}, filled to three quarters, does not hold the least that can be cooked of a batch of {batch}; take a larger pot"
    )]
    PotTooSmall {
        /// The recipe's title.
        recipe: String,
        /// The pot.
        pot: String,
        /// What a batch makes.
        batch: String,
    },
    /// An amount that does not compute.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
