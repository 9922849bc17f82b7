//! What the elevation does to water and steam, as information beside the tables.

use crate::house::House;
use crate::read::house::canner_facts;
use kitchen::boiling;
use quantity::{Elevation, Exact, show, whole};
use reference::{Method, Reference};

/// Boiling point here, and steam at the pressures that the tables ask of this house's canners.
pub fn of_house(reference: &Reference, house: &House, elevation: &Elevation) -> Vec<String> {
    let methods: Vec<Method> = house
        .canners
        .iter()
        .filter_map(|canner| canner_facts(canner, "").ok())
        .map(|facts| facts.method())
        .collect();
    let mut psi: Vec<u32> = reference
        .pressure_bands()
        .iter()
        .filter(|band| methods.contains(&band.gauge) && holds(band.low_ft, band.high_ft, elevation))
        .map(|band| band.psi)
        .collect();
    psi.sort_unstable();
    psi.dedup();
    let psi: Vec<Exact> = psi.into_iter().map(|psi| whole(psi.into())).collect();
    of_place(elevation, &psi)
}

/// Boiling point at an elevation and steam at some pressures, with the mark that says what these
/// figures are; nothing where they cannot be computed.
pub fn of_place(elevation: &Elevation, psi: &[Exact]) -> Vec<String> {
    let Some(boils) = boiling::boils_at(elevation) else {
        return Vec::new();
    };
    let mut lines = vec![format!("Water boils at {} here.", show::temperature(boils))];
    for psi in psi {
        if let Some(steam) = boiling::steam_at(elevation, *psi) {
            lines.push(format!(
                "Steam at {} psi shown on a true gauge: {}.",
                show::number(*psi),
                show::temperature(steam)
            ));
        }
    }
    let mut mark = boiling::MARK.to_owned();
    if let Some(first) = mark.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    lines.push(format!("{mark}."));
    lines
}

/// Whether a band of whole feet holds the upper end of an elevation.
fn holds(low: u32, high: Option<u32>, elevation: &Elevation) -> bool {
    let feet = elevation.high_ft.max(whole(0));
    whole(low.into()) - whole(1) < feet && high.is_none_or(|high| feet <= whole(high.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_figures_stand_with_their_mark() {
        let place = quantity::parse::elevation("2000 ft").unwrap();
        assert_eq!(
            of_place(&place, &[whole(10)]),
            [
                "Water boils at 208.3 F (97.9 C) here.",
                "Steam at 10 psi shown on a true gauge: 237 F (113.9 C).",
                "Computed from the standard atmosphere and IF97; information, not a process."
            ]
        );
    }
}
