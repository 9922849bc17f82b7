//! Whole tables as slices.

use crate::rows::*;
use crate::tables::Reference;

macro_rules! lists {
    ($($(#[$meta:meta])* $method:ident => $field:ident: $row:ty),+ $(,)?) => {
        impl Reference {
            $($(#[$meta])* pub fn $method(&self) -> &[$row] { &self.$field })+
        }
    };
}

lists! {
    /// All printed processes.
    processes => processes: ProcessRow,
    /// All pairs printed as not recommended, and refrigerator-only foods.
    not_recommended => not_recommended: NotRecommended,
    /// All 180 to 185 F rows.
    low_temp => low_temp: LowTempRow,
    /// Pressure by gauge, class and band.
    pressure_bands => pressure_bands: PressureBand,
    /// All foods.
    foods => foods: FoodRow,
    /// All tested recipes.
    recipes => recipes: RecipeSheet,
    /// All recipe lines.
    all_recipe_rows => recipe_rows: RecipeRow,
    /// All acid additions.
    acid_additions => acid: AcidAddition,
    /// All limits.
    limits => limits: LimitRow,
    /// Which recipes a limit of a group touches.
    limit_touches => limit_touches: LimitTouch,
    /// All change rules.
    changes => changes: ChangeRow,
    /// What ingredients are.
    ingredient_kinds => ingredient_kinds: IngredientRow,
    /// Which edit calls which change rule.
    change_triggers => change_triggers: ChangeTrigger,
    /// All practice rows.
    practices => practice: PracticeRow,
    /// All constants.
    constants => constants: ConstantRow,
    /// pH lists.
    acidity => acidity: AcidityRow,
    /// Weights of household measures.
    measures => measures: MeasureRow,
    /// Boiling points by elevation.
    boiling_points => boiling: BoilingRow,
    /// Steam temperatures by pressure and elevation.
    canner_steam => canner_steam: CannerSteamRow,
    /// Jelling temperatures by elevation.
    jelly_points => jelly_points: JellyPointRow,
    /// Syrups.
    syrups => syrups: SyrupRow,
    /// Jams without added pectin.
    jams => jams: JamRow,
    /// Jellies without added pectin.
    jellies => jellies: JellyRow,
    /// Jar sizes.
    jar_sizes => jar_sizes: JarSize,
    /// The doubtful list.
    doubtful => doubtful: DoubtfulRow,
    /// Questions foods ask.
    questions => questions: QuestionRow,
    /// Our own numbers.
    house_rules => house_rules: HouseRule,
    /// Foods that may be made of frozen produce.
    foods_from_frozen => frozen_before: FrozenBefore,
    /// Kinds of incident.
    incidents => incidents: IncidentRow,
    /// Ways out of an incident.
    incident_ways => incident_ways: IncidentWayRow,
    /// Steps of the disposal card.
    disposal_steps => disposal: DisposalRow,
    /// Bulk weights.
    bulk_weights => bulk_weights: BulkWeight,
    /// Fresh keeping.
    storage => storage: StorageRow,
    /// Tomato ripeness classes.
    ripening => ripening: RipeningRow,
    /// Days to red by class and temperature.
    ripening_grid => ripening_grid: RipeningGridRow,
    /// Respiration.
    respiration => respiration: RespirationRow,
    /// General factor of decay.
    q10 => q10: Q10Row,
    /// Freezing.
    freezing => freezing: FreezingRow,
    /// Drying.
    drying => drying: DryingRow,
    /// Freezer figures.
    freezer => freezer: FreezerRow,
    /// Household use.
    household => household: HouseholdRow,
    /// Yields.
    yields => yields: YieldRow,
    /// Seed saving.
    seeds => seeds: SeedRow,
    /// Feeding.
    feeding => feeding: FeedingRow,
}
