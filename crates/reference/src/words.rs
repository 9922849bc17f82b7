//! The closed vocabularies of the tables: jar, pack, method, acid class, marks.

use quantity::{Volume, VolumeUnit};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A word that is not in its vocabulary.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not a known {kind}; one of: {known}")]
pub struct UnknownWord {
    /// What was typed or printed.
    pub text: String,
    /// The vocabulary, such as `jar`.
    pub kind: &'static str,
    /// All its words, for the message.
    pub known: String,
}

macro_rules! vocabulary {
    ($(#[$meta:meta])* $name:ident, $kind:literal, { $($(#[$vmeta:meta])* $variant:ident = $text:literal),+ $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vmeta])* $variant),+ }

        impl $name {
            /// Every word, in the order of the declaration.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];

            /// The word as the tables write it.
            pub fn as_str(self) -> &'static str {
                match self { $($name::$variant => $text),+ }
            }
        }

        impl std::str::FromStr for $name {
            type Err = UnknownWord;
            fn from_str(text: &str) -> Result<Self, UnknownWord> {
                match text {
                    $($text => Ok($name::$variant),)+
                    _ => Err(UnknownWord {
                        text: text.to_owned(),
                        kind: $kind,
                        known: [$($text),+].join(", "),
                    }),
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.as_str())
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.as_str())
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = String::deserialize(deserializer)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}

mod incident;
pub use incident::*;
mod change;
pub use change::{ChangeAnswer, IngredientKind};

vocabulary!(
    /// A jar size. The order is by volume.
    Jar, "jar size", {
        /// 8 US fluid ounces.
        HalfPint = "half-pint",
        /// 250 ml, larger than a half-pint.
        Ml250 = "250-ml",
        /// 12 US fluid ounces.
        Ounce12 = "12-ounce",
        /// 16 US fluid ounces.
        Pint = "pint",
        /// 500 ml, larger than a pint.
        Ml500 = "500-ml",
        /// 24 US fluid ounces.
        PintAndHalf = "pint-and-half",
        /// 32 US fluid ounces.
        Quart = "quart",
        /// 1 litre, larger than a quart.
        Litre1 = "1-litre",
        /// 64 US fluid ounces.
        HalfGallon = "half-gallon",
    }
);

impl Jar {
    /// Brim volume, exact.
    pub fn volume(self) -> Volume {
        match self {
            Jar::HalfPint => Volume::of(1, VolumeUnit::Cup),
            Jar::Ounce12 => Volume::of(12, VolumeUnit::FluidOunce),
            Jar::Pint => Volume::of(1, VolumeUnit::Pint),
            Jar::PintAndHalf => Volume::of(3, VolumeUnit::Cup),
            Jar::Quart => Volume::of(1, VolumeUnit::Quart),
            Jar::HalfGallon => Volume::of(2, VolumeUnit::Quart),
            Jar::Ml250 => Volume::of(250, VolumeUnit::Millilitre),
            Jar::Ml500 => Volume::of(500, VolumeUnit::Millilitre),
            Jar::Litre1 => Volume::of(1, VolumeUnit::Litre),
        }
    }

    /// By how many percent this jar holds more than `other`; negative when it holds less.
    pub fn percent_larger_than(self, other: Jar) -> quantity::Exact {
        let share = self.volume().in_unit(VolumeUnit::Millilitre)
            / other.volume().in_unit(VolumeUnit::Millilitre);
        (share - quantity::whole(1)) * quantity::whole(100)
    }

    /// Whether the jar is a metric one, which no federal table lists.
    pub fn is_metric(self) -> bool {
        matches!(self, Jar::Ml250 | Jar::Ml500 | Jar::Litre1)
    }
}

vocabulary!(
    /// How the cook packs the jar.
    Pack, "pack style", {
        /// Raw food, boiling liquid.
        Raw = "raw",
        /// Food heated before it is packed.
        Hot = "hot",
    }
);

vocabulary!(
    /// The pack a table line is printed for.
    TablePack, "pack style of a table", {
        /// Raw pack only.
        Raw = "raw",
        /// Hot pack only.
        Hot = "hot",
        /// Raw and hot on one line, or no pack printed.
        Any = "any",
    }
);

impl TablePack {
    /// Whether a line for this pack serves food packed as `pack`.
    pub fn serves(self, pack: Pack) -> bool {
        match self {
            TablePack::Any => true,
            TablePack::Raw => pack == Pack::Raw,
            TablePack::Hot => pack == Pack::Hot,
        }
    }
}

vocabulary!(
    /// A way of heating filled jars.
    Method, "method", {
        /// Jars under boiling water.
        BoilingWater = "boiling-water",
        /// Pressure canner read on a dial.
        DialGauge = "dial-gauge",
        /// Pressure canner held by a weight.
        WeightedGauge = "weighted-gauge",
        /// Atmospheric steam canner; no table of its own.
        Steam = "steam",
    }
);

impl Method {
    /// Whether the method works under pressure.
    pub fn is_pressure(self) -> bool {
        matches!(self, Method::DialGauge | Method::WeightedGauge)
    }
}

vocabulary!(
    /// The acidity class of a food of the tables.
    AcidClass, "acid class", {
        /// Acid by nature or by fermentation.
        Acid = "acid",
        /// Made acid by what the recipe adds.
        Acidified = "acidified",
        /// Not acid: pressure only.
        LowAcid = "low-acid",
        /// Kept by sugar and acid: jam, jelly.
        SugarPreserve = "sugar-preserve",
    }
);

vocabulary!(
    /// How a cell of the process tables was read.
    Mark, "reading mark", {
        /// Read in the 2015 text.
        Text2015 = "2015-text",
        /// Unreadable there; taken from an older edition or a page derived from it.
        OlderCopy = "older-copy",
        /// Read nowhere.
        Memory = "memory",
    }
);

vocabulary!(
    /// What a line of the doubtful list allows.
    DoubtVerdict, "verdict of the doubtful list", {
        /// Shown with the mark, never a permit.
        ShowOnly = "show-only",
        /// May carry a permit, with the mark and the reason.
        PermitMarked = "permit-marked",
    }
);

vocabulary!(
    /// What an answer to a food's question does.
    QuestionEffect, "effect of an answer", {
        /// The answer must be given; this one opens the table.
        Ask = "ask",
        /// This answer closes the table.
        Refuse = "refuse",
        /// This answer sets the headspace.
        Headspace = "headspace",
        /// Nothing to ask: the printed pack label takes either pack.
        EitherPack = "either-pack",
    }
);

vocabulary!(
    /// Whether a limit of the publication binds.
    Severity, "severity", {
        /// Binding.
        Must = "must",
        /// Advice.
        Should = "should",
    }
);

vocabulary!(
    /// What a published change rule says.
    ChangeVerdict, "verdict of a change rule", {
        /// Allowed.
        Safe = "safe",
        /// Allowed under its condition.
        OnlyIf = "only-if",
        /// Refused.
        Unsafe = "unsafe",
    }
);

vocabulary!(
    /// Whether animals may have a sort-out.
    FeedVerdict, "feeding verdict", {
        /// May be fed.
        Feed = "feed",
        /// Never.
        Never = "never",
    }
);

/// How a garden figure was come by: the `basis` column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// The kind of reading.
    pub kind: BasisKind,
    /// Marked doubtful.
    pub doubtful: bool,
    /// Another source says otherwise.
    pub contradiction: bool,
}

vocabulary!(
    /// Where a garden figure came from.
    BasisKind, "basis", {
        /// Seen on the page named.
        Read = "read",
        /// Remembered.
        Memory = "memory",
        /// Remembered, one point confirmed on a page.
        MemoryChecked = "memory_checked",
        /// Some fields read, some remembered; the source text says which.
        Mixed = "mixed",
        /// Worked out from other figures.
        Derived = "derived",
        /// Read, then converted to other units.
        ReadConverted = "read_converted",
    }
);

impl Basis {
    /// Whether any part of the figure is remembered rather than read.
    pub fn remembered(self) -> bool {
        matches!(
            self.kind,
            BasisKind::Memory | BasisKind::MemoryChecked | BasisKind::Mixed
        )
    }
}

impl std::str::FromStr for Basis {
    type Err = UnknownWord;
    fn from_str(text: &str) -> Result<Self, UnknownWord> {
        let (rest, doubtful) = match text.strip_suffix("_doubtful") {
            Some(rest) => (rest, true),
            None => (text, false),
        };
        let (rest, contradiction) = match rest.strip_suffix("_contradiction") {
            Some(rest) => (rest, true),
            None => (rest, false),
        };
        Ok(Basis {
            kind: rest.parse()?,
            doubtful,
            contradiction,
        })
    }
}

impl std::fmt::Display for Basis {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.kind.as_str())?;
        if self.contradiction {
            f.write_str("_contradiction")?;
        }
        if self.doubtful {
            f.write_str("_doubtful")?;
        }
        Ok(())
    }
}

impl Serialize for Basis {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Basis {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}
