//! The tables that travel inside the program.

use crate::table::Files;

macro_rules! tables {
    ($($name:literal),+ $(,)?) => {
        /// Name under `data/` and bytes of every embedded table.
        pub const TABLES: &[(&str, &[u8])] = &[$(($name, include_bytes!(concat!("../../../data/", $name)))),+];
    };
}

tables!(
    "process/acid_additions.csv",
    "process/acidity.csv",
    "process/canner_steam.csv",
    "process/change_triggers.csv",
    "process/changes.csv",
    "process/constants.csv",
    "process/disposal.csv",
    "process/doubtful.csv",
    "process/elevation.csv",
    "process/foods.csv",
    "process/frozen_before.csv",
    "process/house_rules.csv",
    "process/incident_ways.csv",
    "process/incidents.csv",
    "process/ingredient_kinds.csv",
    "process/jam_no_pectin.csv",
    "process/jar_sizes.csv",
    "process/jelly_no_pectin.csv",
    "process/jelly_point.csv",
    "process/limit_touches.csv",
    "process/limits.csv",
    "process/low_temp_pasteurize.csv",
    "process/measures.csv",
    "process/not_recommended.csv",
    "process/practice.csv",
    "process/pressure_bands.csv",
    "process/processes.csv",
    "process/questions.csv",
    "process/recipes.csv",
    "process/sources.csv",
    "process/syrups.csv",
    "garden/bulk_weights.csv",
    "garden/drying.csv",
    "garden/feeding.csv",
    "garden/freezer.csv",
    "garden/freezing.csv",
    "garden/fresh_storage.csv",
    "garden/household.csv",
    "garden/q10.csv",
    "garden/respiration.csv",
    "garden/ripening.csv",
    "garden/ripening_grid.csv",
    "garden/seeds.csv",
    "garden/yields.csv",
);

/// The embedded tables as owned bytes, for the table check and for patched copies in tests.
pub fn files() -> Files {
    TABLES
        .iter()
        .map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec()))
        .collect()
}
