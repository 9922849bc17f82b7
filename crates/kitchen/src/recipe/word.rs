//! The closed vocabularies of recipes: route, basis, role, acidity.

use serde::{Deserialize, Serialize};

/// A word that is not in its vocabulary.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not a known {kind}")]
pub struct UnknownWord {
    /// The word.
    pub text: String,
    /// The vocabulary.
    pub kind: &'static str,
}

macro_rules! words {
    ($(#[$meta:meta])* $name:ident, $kind:literal, { $($(#[$vmeta:meta])* $variant:ident = $text:literal),+ $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum $name { $($(#[$vmeta])* #[serde(rename = $text)] $variant),+ }

        impl $name {
            /// Every word, in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];

            /// The word as the tables and the store write it.
            pub fn as_str(self) -> &'static str {
                match self { $($name::$variant => $text),+ }
            }
        }

        impl std::str::FromStr for $name {
            type Err = UnknownWord;
            fn from_str(text: &str) -> Result<Self, UnknownWord> {
                match text {
                    $($text => Ok($name::$variant),)+
                    _ => Err(UnknownWord { text: text.to_owned(), kind: $kind }),
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.as_str())
            }
        }
    };
}

words!(
    /// Which kind of keeping, or end, a recipe is.
    Route, "route", {
        /// Heat-processed jars: needs a permit.
        Heat = "heat",
        /// The freezer.
        Freezer = "freezer",
        /// The dryer.
        Dryer = "dryer",
        /// A ferment in the crock.
        Crock = "crock",
        /// The refrigerator, always with an eat-by.
        Fridge = "fridge",
        /// Eaten fresh.
        Fresh = "fresh",
        /// Kept for seed.
        Seed = "seed",
        /// Fed to animals.
        Animals = "animals",
        /// Compost.
        Compost = "compost",
        /// Kept whole in the cold room.
        ColdRoom = "cold-room",
    }
);

words!(
    /// What a batch is reckoned by.
    Basis, "basis", {
        /// Pounds of produce; a batch is one canner load of the book.
        Pounds = "pounds",
        /// Whole recipes.
        Batch = "batch",
        /// Volume of a liquid already made.
        Volume = "volume",
    }
);

words!(
    /// What an ingredient does in the jar; rounding follows from it.
    Role, "role", {
        /// Vegetables and fruit.
        Produce = "produce",
        /// Vinegar, lemon juice, citric acid.
        Acid = "acid",
        /// Water and other diluting liquid.
        Liquid = "liquid",
        /// Salt.
        Salt = "salt",
        /// Sugar and honey.
        Sweetener = "sweetener",
        /// Spices, dried or in small amounts.
        Spice = "spice",
        /// Starch and flour.
        Thickener = "thickener",
        /// Added fat.
        Fat = "fat",
        /// Pectin, colour, meat and the rest.
        Other = "other",
    }
);

words!(
    /// How acid a produce ingredient is.
    Acidity, "acidity", {
        /// Acid by nature.
        Acid = "acid",
        /// Near the line: tomatoes, figs.
        Borderline = "borderline",
        /// Low in acid.
        LowAcid = "low-acid",
    }
);
