//! Where food is, where it came from, or how it left.

use crate::LedgerError;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// A place food can be moved from or to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// Source of everything picked.
    Garden,
    /// Source of everything bought: vinegar, salt, sugar, a crate from a neighbour.
    Bought,
    /// On the counter, not yet cooked.
    Counter,
    /// In the cold room.
    ColdRoom,
    /// In the fridge.
    Fridge,
    /// On the shelf.
    Shelf,
    /// In the freezer.
    Freezer,
    /// In a crock, fermenting or curing.
    Crock,
    /// In the dryer.
    Dryer,
    /// In work: the batch on the stove. Filled containers are counted out of here.
    Pot,
    /// Eaten by the household.
    Eaten,
    /// Given away.
    Given,
    /// Fed to animals.
    Animals,
    /// On the compost.
    Compost,
    /// Kept as seed.
    Seed,
    /// Peel, cores, stems.
    Trimmings,
    /// Water driven off by heat or drying air.
    CookedOff,
    /// Thrown away, for example a jar past its clock.
    Discarded,
    /// What nobody can explain, in either direction.
    Unaccounted,
}

impl Place {
    /// Every place, in the order a balance is printed.
    pub const ALL: [Self; 19] = [
        Self::Garden,
        Self::Bought,
        Self::Counter,
        Self::ColdRoom,
        Self::Fridge,
        Self::Shelf,
        Self::Freezer,
        Self::Crock,
        Self::Dryer,
        Self::Pot,
        Self::Eaten,
        Self::Given,
        Self::Animals,
        Self::Compost,
        Self::Seed,
        Self::Trimmings,
        Self::CookedOff,
        Self::Discarded,
        Self::Unaccounted,
    ];

    /// The name used in files, addresses and commands.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Garden => "garden",
            Self::Bought => "bought",
            Self::Counter => "counter",
            Self::ColdRoom => "cold-room",
            Self::Fridge => "fridge",
            Self::Shelf => "shelf",
            Self::Freezer => "freezer",
            Self::Crock => "crock",
            Self::Dryer => "dryer",
            Self::Pot => "pot",
            Self::Eaten => "eaten",
            Self::Given => "given",
            Self::Animals => "animals",
            Self::Compost => "compost",
            Self::Seed => "seed",
            Self::Trimmings => "trimmings",
            Self::CookedOff => "cooked-off",
            Self::Discarded => "discarded",
            Self::Unaccounted => "unaccounted",
        }
    }

    /// Food here can be put a hand on, so its balance can never be below zero.
    #[must_use]
    pub const fn is_touchable(self) -> bool {
        !self.is_source() && !self.is_end()
    }

    /// Containers here can be counted. They are filled in the pot, so the pot is where they come
    /// from and no place to count them.
    #[must_use]
    pub const fn holds_containers(self) -> bool {
        self.is_touchable() && !matches!(self, Self::Pot)
    }

    /// Food comes from here and its balance runs below zero.
    #[must_use]
    pub const fn is_source(self) -> bool {
        matches!(self, Self::Garden | Self::Bought)
    }

    /// Food that came here has left the house's holdings.
    #[must_use]
    pub const fn is_end(self) -> bool {
        matches!(
            self,
            Self::Eaten
                | Self::Given
                | Self::Animals
                | Self::Compost
                | Self::Seed
                | Self::Trimmings
                | Self::CookedOff
                | Self::Discarded
                | Self::Unaccounted
        )
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl FromStr for Place {
    type Err = LedgerError;

    fn from_str(text: &str) -> Result<Self, LedgerError> {
        Self::ALL
            .into_iter()
            .find(|place| place.as_str() == text)
            .ok_or_else(|| LedgerError::UnknownPlace(text.to_owned()))
    }
}
