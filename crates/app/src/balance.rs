//! What the house has now: what it stated, less what was used since.

use crate::error::AppError;
use crate::facts::Facts;
use crate::house::House;
use ledger::Place;
use std::collections::BTreeMap;

/// Litres that one bag takes in the freezer: its volume and a tenth for the gaps between bags
/// (common practice, no source), in millilitres.
pub fn bag_room_ml(container: &str) -> i64 {
    match container {
        "pint-bag" => 520,
        "quart-bag" => 1041,
        "pint" | "500-ml" => 550,
        "quart" => 1050,
        "half-pint" => 280,
        _ => 0,
    }
}

/// Is this container a freezer bag?
pub fn is_bag(container: &str) -> bool {
    container.ends_with("-bag")
}

/// The house with jars, lids, bags and freezer room as they stand now. Jars come back into use
/// only when the household says so: an emptied jar may be chipped or dirty.
pub fn house_now(facts: &Facts) -> House {
    let Some((stated_in, house)) = &facts.house else {
        return House::default();
    };
    let mut house = house.clone();
    let mut filled: BTreeMap<&str, i64> = BTreeMap::new();
    let mut freezer_ml = 0;
    for moved in facts
        .containers
        .iter()
        .filter(|moved| moved.entry > *stated_in)
    {
        if moved.from == Place::Pot {
            *filled.entry(moved.size.as_str()).or_default() += moved.count;
        }
        if moved.to == Place::Pot {
            *filled.entry(moved.size.as_str()).or_default() -= moved.count;
        }
        let room = bag_room_ml(&moved.size) * moved.count;
        if moved.to == Place::Freezer {
            freezer_ml += room;
        }
        if moved.from == Place::Freezer {
            freezer_ml -= room;
        }
    }
    let (mut regular, mut wide) = (0, 0);
    for jar in &mut house.jars {
        let used = filled.get(jar.jar.as_str()).copied().unwrap_or(0);
        jar.count = less(jar.count, used);
        if jar.mouth == "wide" {
            wide += used;
        } else {
            regular += used;
        }
    }
    house.lids_regular = less(house.lids_regular, regular);
    house.lids_wide = less(house.lids_wide, wide);
    house.bags_pint = less(
        house.bags_pint,
        filled.get("pint-bag").copied().unwrap_or(0),
    );
    house.bags_quart = less(
        house.bags_quart,
        filled.get("quart-bag").copied().unwrap_or(0),
    );
    if let Some(freezer) = &mut house.freezer {
        let free = i64::from(freezer.free_litres) * 1000 - freezer_ml;
        freezer.free_litres = u32::try_from((free / 1000).max(0))
            .unwrap_or(0)
            .min(freezer.litres);
    }
    house
}

fn less(stated: u32, used: i64) -> u32 {
    u32::try_from((i64::from(stated) - used).max(0)).unwrap_or(0)
}

/// How many containers of a product stand, over all touchable places and free of any hold.
pub fn standing(facts: &Facts, recipe: &str, container: &str) -> i64 {
    facts
        .batches
        .values()
        .filter(|batch| batch.recipe == recipe)
        .flat_map(|batch| {
            let aside = batch.set_aside();
            facts
                .standing(batch.id)
                .filter(|(size, place, _)| *size == container && !batch.holds(size, *place))
                .map(move |(size, place, count)| {
                    let waits = aside.get(&(size.to_owned(), place)).copied().unwrap_or(0);
                    (count - waits).max(0)
                })
        })
        .sum()
}

/// Parses the elevation of a house.
///
/// # Errors
/// An empty or unreadable elevation, with what to do.
pub fn elevation(house: &House) -> Result<Option<quantity::Elevation>, AppError> {
    if house.elevation.trim().is_empty() {
        return Ok(None);
    }
    quantity::parse::elevation(&house.elevation)
        .map(Some)
        .map_err(|error| {
            AppError::input(
                "elevation",
                error.to_string(),
                "Write it as «950 ft», «305 m» or «950 ft ± 60».",
            )
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house::JarCount;
    use ledger::ContainerMovement;

    #[test]
    fn jars_and_lids_filled_since_the_house_was_stated_are_taken_off() {
        let house = House {
            jars: vec![JarCount {
                jar: "quart".into(),
                count: 20,
                mouth: "wide".into(),
            }],
            lids_wide: 10,
            ..House::default()
        };
        let filled = |entry, count| ContainerMovement {
            entry,
            line: 0,
            on: jiff::civil::date(2026, 8, 27),
            batch: 1,
            size: "quart".into(),
            from: Place::Pot,
            to: Place::Shelf,
            count,
        };
        let facts = Facts {
            house: Some((5, house)),
            containers: vec![filled(4, 9), filled(6, 7)],
            ..Facts::default()
        };
        let now = house_now(&facts);
        assert_eq!((now.jars[0].count, now.lids_wide), (13, 3));
    }
}
