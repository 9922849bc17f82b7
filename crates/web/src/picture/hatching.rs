//! Hatchings: one way of drawing lines for each place, so that a place is known without colour.

use crate::part::Place;
use maud::{Markup, html};

/// (place, width and height of the repeated piece, strokes).
const PLACES: [(Place, u8, u8, &str); 11] = [
    (Place::Shelf, 6, 6, "M1.5 0V6M4.5 0V6"),
    (Place::Freezer, 9, 9, "M0 0L9 9M9 0L0 9"),
    (
        Place::ColdRoom,
        14,
        10,
        "M0 .7H14M0 5.7H14M3.5 .7V5.7M10.5 5.7V10.7",
    ),
    (Place::Crock, 14, 7, "M0 3.5Q3.5 -1 7 3.5T14 3.5"),
    (Place::Dryer, 7, 7, "M-1 8L8 -1M-1 1L1 -1M6 8L8 6"),
    (Place::Seed, 10, 10, "M2 3.6l1.6-2.2M7 8.6l1.6-2.2"),
    (
        Place::Eaten,
        12,
        8,
        "M0 8A6 6 0 0 1 12 8M-6 4A6 6 0 0 1 6 4M6 4A6 6 0 0 1 18 4",
    ),
    (Place::Animals, 10, 7, "M0 6L2.5 2 5 6 7.5 2 10 6"),
    (Place::Compost, 9, 9, "M2 2h3M6.5 5.5v3M1 7l2-1"),
    (Place::Counter, 5, 5, "M0 2.5H5"),
    (Place::Discarded, 8, 8, "M2 2l4 4M6 2L2 6"),
];

/// Hatchings that tell age rather than place: name, whose ink, width, height, strokes.
const AGES: [(&str, Place, u8, u8, &str); 4] = [
    ("young", Place::Shelf, 7, 5, "M0 2.5H7"),
    ("dense", Place::Shelf, 4, 6, "M2 0V6"),
    ("cold-young", Place::Freezer, 9, 9, "M0 0L9 9"),
    ("held", Place::Crock, 8, 8, "M-1 9L9 -1"),
];

/// The hatchings that a page paints with, to be put into its sprite once.
pub fn defs(page: &str) -> Markup {
    let places = PLACES
        .into_iter()
        .map(|(place, width, height, strokes)| (place.key(), place, width, height, strokes));
    html! {
        @for (name, ink, width, height, strokes) in places.chain(AGES).filter(|hatching| page.contains(&format!("(#h-{})", hatching.0))) {
            pattern id=(format!("h-{name}")) class=(ink.ink()) width=(width) height=(height) patternUnits="userSpaceOnUse" {
                rect.hb width=(width) height=(height) {}
                path.h d=(strokes) {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::defs;
    use crate::part::Place;

    #[test]
    fn every_place_finds_its_hatching() {
        for place in Place::ALL {
            let defs = defs(&place.hatching()).into_string();
            let id = place
                .hatching()
                .replace("url(#", "id=\"")
                .replace(')', "\"");
            assert!(defs.contains(&id), "{place:?}: {id}");
        }
    }
}
