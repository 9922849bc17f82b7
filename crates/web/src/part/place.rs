//! Places as pages show them: an ink, a shape, a hatching and a word, never the colour alone.

use super::mark::Mark;
use maud::{Markup, html};

/// A place where food lies or how it left, as drawn: an ink, a shape, a hatching and a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Place {
    /// Growing or just cut.
    Garden,
    /// Came from a shop.
    Bought,
    /// On the counter, at the heat of the room.
    Counter,
    /// Cold room.
    ColdRoom,
    /// Refrigerator.
    Fridge,
    /// Jars on the shelf.
    Shelf,
    /// Freezer.
    Freezer,
    /// Crock.
    Crock,
    /// Dryer.
    Dryer,
    /// In a pot, in work.
    Pot,
    /// Eaten.
    Eaten,
    /// Given away.
    Given,
    /// Fed to animals.
    Animals,
    /// Compost.
    Compost,
    /// Saved as seed.
    Seed,
    /// Trimmings.
    Trimmings,
    /// Water that boiled or dried away.
    CookedOff,
    /// Thrown away as unfit.
    Discarded,
    /// Nobody knows where it went.
    Unaccounted,
}

impl Place {
    /// Every place, in the order in which a list names them.
    pub const ALL: [Place; 19] = [
        Place::Garden,
        Place::Bought,
        Place::Counter,
        Place::ColdRoom,
        Place::Fridge,
        Place::Shelf,
        Place::Freezer,
        Place::Crock,
        Place::Dryer,
        Place::Pot,
        Place::Eaten,
        Place::Given,
        Place::Animals,
        Place::Compost,
        Place::Seed,
        Place::Trimmings,
        Place::CookedOff,
        Place::Discarded,
        Place::Unaccounted,
    ];

    /// The kebab text that stores and forms use.
    pub fn key(self) -> &'static str {
        match self {
            Place::Garden => "garden",
            Place::Bought => "bought",
            Place::Counter => "counter",
            Place::ColdRoom => "cold-room",
            Place::Fridge => "fridge",
            Place::Shelf => "shelf",
            Place::Freezer => "freezer",
            Place::Crock => "crock",
            Place::Dryer => "dryer",
            Place::Pot => "pot",
            Place::Eaten => "eaten",
            Place::Given => "given",
            Place::Animals => "animals",
            Place::Compost => "compost",
            Place::Seed => "seed",
            Place::Trimmings => "trimmings",
            Place::CookedOff => "cooked-off",
            Place::Discarded => "discarded",
            Place::Unaccounted => "unaccounted",
        }
    }

    /// The place of a kebab text; a text that names none is drawn as unaccounted, never dropped.
    pub fn of(key: &str) -> Place {
        Place::ALL
            .into_iter()
            .find(|place| place.key() == key)
            .unwrap_or(Place::Unaccounted)
    }

    /// The word beside the mark.
    pub fn word(self) -> &'static str {
        match self {
            Place::ColdRoom => "cold room",
            Place::CookedOff => "cooked off",
            other => other.key(),
        }
    }

    /// The class that gives the place's ink to everything inside.
    pub fn ink(self) -> String {
        format!("at-{}", self.key())
    }

    /// Where the place's hatching is drawn, as a paint server. Kin share one hatching.
    pub fn hatching(self) -> String {
        let kin = match self {
            Place::Fridge => Place::ColdRoom,
            Place::Given => Place::Eaten,
            Place::Trimmings | Place::CookedOff => Place::Compost,
            Place::Pot => Place::Crock,
            Place::Garden => Place::Seed,
            Place::Bought | Place::Unaccounted => Place::Counter,
            other => other,
        };
        format!("url(#h-{})", kin.key())
    }

    /// The place's drawn mark alone, for use beside a word.
    pub fn mark(self) -> Mark {
        Mark::At(self)
    }

    /// Mark and word together in the place's ink; `words` may say more than the place's own word.
    pub fn tag(self, words: &str) -> Markup {
        html! {
            span class=(format!("mark place {}", self.ink())) { (self.mark()) span { (words) } }
        }
    }
}
