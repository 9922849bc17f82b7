//! All tables together, with the look-ups the other crates need.

use crate::kinds::KindIndex;
use crate::problem::TableProblem;
use crate::rows::*;
use crate::sources::Sources;
use crate::suggest;
use crate::table::{Files, read_rows};
use crate::words::{IncidentClock, IncidentPhase, IngredientKind, Jar, Method};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Every table of `data/` as typed rows. States what is printed; decides nothing.
#[derive(Debug, Clone, Default)]
pub struct Reference {
    pub(crate) sources: Sources,
    pub(crate) edition: String,
    pub(crate) processes: Vec<ProcessRow>,
    pub(crate) by_food: BTreeMap<String, Vec<usize>>,
    pub(crate) not_recommended: Vec<NotRecommended>,
    pub(crate) low_temp: Vec<LowTempRow>,
    pub(crate) low_temp_series: Vec<ProcessRow>,
    pub(crate) pressure_bands: Vec<PressureBand>,
    pub(crate) foods: Vec<FoodRow>,
    pub(crate) recipe_rows: Vec<RecipeRow>,
    pub(crate) recipes: Vec<RecipeSheet>,
    pub(crate) acid: Vec<AcidAddition>,
    pub(crate) limits: Vec<LimitRow>,
    pub(crate) limit_touches: Vec<LimitTouch>,
    pub(crate) changes: Vec<ChangeRow>,
    pub(crate) ingredient_kinds: Vec<IngredientRow>,
    pub(crate) change_triggers: Vec<ChangeTrigger>,
    pub(crate) kinds: KindIndex,
    pub(crate) practice: Vec<PracticeRow>,
    pub(crate) constants: Vec<ConstantRow>,
    pub(crate) acidity: Vec<AcidityRow>,
    pub(crate) measures: Vec<MeasureRow>,
    pub(crate) boiling: Vec<BoilingRow>,
    pub(crate) canner_steam: Vec<CannerSteamRow>,
    pub(crate) jelly_points: Vec<JellyPointRow>,
    pub(crate) syrups: Vec<SyrupRow>,
    pub(crate) jams: Vec<JamRow>,
    pub(crate) jellies: Vec<JellyRow>,
    pub(crate) jar_sizes: Vec<JarSize>,
    pub(crate) doubtful: Vec<DoubtfulRow>,
    pub(crate) questions: Vec<QuestionRow>,
    pub(crate) house_rules: Vec<HouseRule>,
    pub(crate) frozen_before: Vec<FrozenBefore>,
    pub(crate) incidents: Vec<IncidentRow>,
    pub(crate) incident_ways: Vec<IncidentWayRow>,
    pub(crate) disposal: Vec<DisposalRow>,
    pub(crate) bulk_weights: Vec<BulkWeight>,
    pub(crate) storage: Vec<StorageRow>,
    pub(crate) ripening: Vec<RipeningRow>,
    pub(crate) ripening_grid: Vec<RipeningGridRow>,
    pub(crate) respiration: Vec<RespirationRow>,
    pub(crate) q10: Vec<Q10Row>,
    pub(crate) freezing: Vec<FreezingRow>,
    pub(crate) drying: Vec<DryingRow>,
    pub(crate) freezer: Vec<FreezerRow>,
    pub(crate) household: Vec<HouseholdRow>,
    pub(crate) yields: Vec<YieldRow>,
    pub(crate) seeds: Vec<SeedRow>,
    pub(crate) feeding: Vec<FeedingRow>,
}

static EMBEDDED: LazyLock<Reference> = LazyLock::new(|| {
    let (reference, problems) = Reference::read(&crate::embedded::files());
    // The tables are part of the program and a test reads them all; should one be damaged in
    // building, no table at all is the only safe answer: every question is then refused.
    if problems.is_empty() {
        reference
    } else {
        Reference::default()
    }
});

impl Reference {
    /// The tables inside the program.
    pub fn embedded() -> &'static Reference {
        &EMBEDDED
    }

    /// Reads all tables from bytes; what could not be read is listed, the rest is there.
    /// For the consistency rules on top of reading see [`crate::table_check::problems`].
    pub fn read(files: &Files) -> (Reference, Vec<TableProblem>) {
        let mut problems = Vec::new();
        let p = &mut problems;
        let sources = Sources::read(files, p);
        let s = &sources;
        let mut reference = Reference {
            processes: read_rows(files, s, p),
            not_recommended: read_rows(files, s, p),
            low_temp: read_rows(files, s, p),
            low_temp_series: Vec::new(),
            pressure_bands: read_rows(files, s, p),
            foods: read_rows(files, s, p),
            recipe_rows: read_rows(files, s, p),
            acid: read_rows(files, s, p),
            limits: read_rows(files, s, p),
            limit_touches: read_rows(files, s, p),
            changes: read_rows(files, s, p),
            ingredient_kinds: read_rows(files, s, p),
            change_triggers: read_rows(files, s, p),
            kinds: KindIndex::default(),
            practice: read_rows(files, s, p),
            constants: read_rows(files, s, p),
            acidity: read_rows(files, s, p),
            measures: read_rows(files, s, p),
            boiling: read_rows(files, s, p),
            canner_steam: read_rows(files, s, p),
            jelly_points: read_rows(files, s, p),
            syrups: read_rows(files, s, p),
            jams: read_rows(files, s, p),
            jellies: read_rows(files, s, p),
            jar_sizes: read_rows(files, s, p),
            doubtful: read_rows(files, s, p),
            questions: read_rows(files, s, p),
            house_rules: read_rows(files, s, p),
            frozen_before: read_rows(files, s, p),
            incidents: read_rows(files, s, p),
            incident_ways: read_rows(files, s, p),
            disposal: read_rows(files, s, p),
            bulk_weights: read_rows(files, s, p),
            storage: read_rows(files, s, p),
            ripening: read_rows(files, s, p),
            ripening_grid: read_rows(files, s, p),
            respiration: read_rows(files, s, p),
            q10: read_rows(files, s, p),
            freezing: read_rows(files, s, p),
            drying: read_rows(files, s, p),
            freezer: read_rows(files, s, p),
            household: read_rows(files, s, p),
            yields: read_rows(files, s, p),
            seeds: read_rows(files, s, p),
            feeding: read_rows(files, s, p),
            by_food: BTreeMap::new(),
            recipes: Vec::new(),
            sources: Sources::default(),
            edition: edition(files),
        };
        for (index, row) in reference.processes.iter().enumerate() {
            reference
                .by_food
                .entry(row.food.clone())
                .or_default()
                .push(index);
        }
        reference.kinds = KindIndex::of(&reference.ingredient_kinds);
        reference.low_temp_series = reference.low_temp.iter().map(|row| row.series()).collect();
        reference.recipes = RecipeSheet::group(&reference.recipe_rows);
        reference.sources = sources;
        (reference, problems)
    }

    /// Names this edition of the process tables: any changed byte gives another name.
    pub fn edition(&self) -> &str {
        &self.edition
    }

    /// The text to show for a source key or page of the process tables.
    pub fn source_text(&self, printed: &str) -> Option<String> {
        self.sources.show(printed)
    }

    /// The food with this key.
    pub fn food(&self, key: &str) -> Option<&FoodRow> {
        self.foods.iter().find(|food| food.food == key)
    }

    /// Foods whose key or title resembles `text`, best first, five at most.
    pub fn suggest_food(&self, text: &str) -> Vec<&FoodRow> {
        suggest::best(text, &self.foods, |food| (&food.food, &food.title))
    }

    /// Every printed process of a food, in table order.
    pub fn processes_for(&self, food: &str) -> Vec<&ProcessRow> {
        self.by_food
            .get(food)
            .map(|rows| rows.iter().map(|&i| &self.processes[i]).collect())
            .unwrap_or_default()
    }

    /// Pairs printed as not recommended for a food and method; pairs without method with `None`.
    pub fn not_recommended_for(&self, food: &str, method: Option<Method>) -> Vec<&NotRecommended> {
        self.not_recommended
            .iter()
            .filter(|row| row.food == food && row.method == method)
            .collect()
    }

    /// The 180 to 185 F rows of a food, each beside itself as a process that no elevation changes.
    pub fn low_temp_for(&self, food: &str) -> Vec<(&LowTempRow, &ProcessRow)> {
        self.low_temp
            .iter()
            .zip(&self.low_temp_series)
            .filter(|(row, _)| row.food == food)
            .collect()
    }

    /// The tested recipe with this key.
    pub fn recipe(&self, key: &str) -> Option<&RecipeSheet> {
        self.recipes.iter().find(|sheet| sheet.key == key)
    }

    /// The ingredient lines of a tested recipe; empty when there is none.
    pub fn recipe_rows(&self, key: &str) -> &[RecipeRow] {
        self.recipe(key).map_or(&[], |sheet| &sheet.rows)
    }

    /// Lines of the doubtful list about a recipe or one of its ingredients.
    pub fn recipe_doubts(&self, recipe: &str) -> Vec<&DoubtfulRow> {
        self.doubtful
            .iter()
            .filter(|row| row.table == "recipes" && row.key.split('/').next() == Some(recipe))
            .collect()
    }

    /// The tested recipes that use the process of `food`.
    pub fn recipes_for_food(&self, food: &str) -> Vec<&RecipeSheet> {
        self.recipes
            .iter()
            .filter(|sheet| sheet.food.as_deref() == Some(food))
            .collect()
    }

    /// The acids printed for each jar of a food; empty when the food needs none.
    pub fn acid_for(&self, food: &str) -> Vec<&AcidAddition> {
        self.acid.iter().filter(|row| row.food == food).collect()
    }

    /// Limits whose scope covers a food or recipe key, its group or class, or everything.
    pub fn limits_for(&self, key: &str) -> Vec<&LimitRow> {
        let scopes = self.scopes(key);
        self.limits
            .iter()
            .filter(|row| scopes.contains(&row.scope))
            .collect()
    }

    /// Change rules whose scope covers a food or recipe key, its group or class, or everything.
    pub fn changes_for(&self, key: &str) -> Vec<&ChangeRow> {
        let scopes = self.scopes(key);
        self.changes
            .iter()
            .filter(|row| scopes.contains(&row.scope))
            .collect()
    }

    /// The limit `rule` of exactly this scope (`all`, `group:tomato`, a food key).
    pub fn limit(&self, scope: &str, rule: &str) -> Option<&LimitRow> {
        self.limits
            .iter()
            .find(|row| row.scope == scope && row.rule == rule)
    }

    /// The change rule with this key.
    pub fn change(&self, key: &str) -> Option<&ChangeRow> {
        self.changes.iter().find(|row| row.change == key)
    }

    /// Whether a scope (`all`, `group:salsa`, `class:acid`, a food or recipe key) covers a food or
    /// recipe key.
    pub fn covers(&self, scope: &str, key: &str) -> bool {
        self.scopes(key).iter().any(|covered| covered == scope)
    }

    /// Whether a limit touches a recipe that has these kinds of ingredients, followed as printed.
    pub fn touches(&self, limit: &LimitRow, kinds: &[IngredientKind]) -> bool {
        let touch = self
            .limit_touches
            .iter()
            .find(|row| row.scope == limit.scope && row.rule == limit.rule);
        touch.is_none_or(|row| {
            row.kinds()
                .any(|word| kinds.iter().any(|kind| kind.as_str() == word))
        })
    }

    /// The scopes a food or recipe key falls under, most particular first.
    fn scopes(&self, key: &str) -> Vec<String> {
        let mut scopes = vec![key.to_owned()];
        let food = match self.recipe(key).and_then(|sheet| sheet.food.clone()) {
            Some(food) if food != key => {
                scopes.push(food.clone());
                food
            }
            _ => key.to_owned(),
        };
        if let Some(food) = self.food(&food) {
            scopes.push(format!("group:{}", food.group));
            scopes.push(format!("class:{}", food.acid_class));
        }
        scopes.push("all".to_owned());
        scopes
    }

    /// The practice row with this key.
    pub fn practice(&self, key: &str) -> Option<&PracticeRow> {
        self.practice.iter().find(|row| row.key == key)
    }

    /// The constant with this key.
    pub fn constant(&self, key: &str) -> Option<&ConstantRow> {
        self.constants.iter().find(|row| row.key == key)
    }

    /// Our own number with this key.
    pub fn house_rule(&self, key: &str) -> Option<&HouseRule> {
        self.house_rules.iter().find(|row| row.key == key)
    }

    /// The size row of a jar.
    pub fn jar_size(&self, jar: Jar) -> Option<&JarSize> {
        self.jar_sizes.iter().find(|row| row.jar == jar)
    }

    /// Lines of the doubtful list for a row of a table.
    pub fn doubts(&self, table: &str, key: &str) -> Vec<&DoubtfulRow> {
        self.doubtful
            .iter()
            .filter(|row| row.table == table && row.key == key)
            .collect()
    }

    /// The questions (one row per answer) of a food.
    pub fn questions_for(&self, food: &str) -> Vec<&QuestionRow> {
        self.questions
            .iter()
            .filter(|row| row.food == food)
            .collect()
    }

    /// The row that lets a food be made of produce that has been frozen.
    pub fn frozen_before(&self, food: &str) -> Option<&FrozenBefore> {
        self.frozen_before.iter().find(|row| row.food == food)
    }

    /// The kind of incident with this key.
    pub fn incident(&self, kind: &str) -> Option<&IncidentRow> {
        self.incidents.iter().find(|row| row.kind == kind)
    }

    /// Kinds of incident whose key or title resembles `text`, best first, five at most.
    pub fn suggest_incident(&self, text: &str) -> Vec<&IncidentRow> {
        suggest::best(text, &self.incidents, |row| (&row.kind, &row.title))
    }

    /// The ways out while a clock is in one phase, in table order.
    pub fn ways_out(&self, clock: IncidentClock, phase: IncidentPhase) -> Vec<&IncidentWayRow> {
        self.incident_ways
            .iter()
            .filter(|row| row.clock == clock && row.phase == phase)
            .collect()
    }

    /// The freezer figure with this key.
    pub fn freezer_value(&self, key: &str) -> Option<&FreezerRow> {
        self.freezer.iter().find(|row| row.key == key)
    }

    /// Keeping rows of a crop.
    pub fn storage_for(&self, crop: &str) -> Vec<&StorageRow> {
        self.storage.iter().filter(|row| row.crop == crop).collect()
    }

    /// Freezing rows of a crop.
    pub fn freezing_for(&self, crop: &str) -> Vec<&FreezingRow> {
        self.freezing
            .iter()
            .filter(|row| row.crop == crop)
            .collect()
    }

    /// Drying rows of a crop.
    pub fn drying_for(&self, crop: &str) -> Vec<&DryingRow> {
        self.drying.iter().filter(|row| row.crop == crop).collect()
    }

    /// Yield rows of a crop.
    pub fn yields_for(&self, crop: &str) -> Vec<&YieldRow> {
        self.yields.iter().filter(|row| row.crop == crop).collect()
    }

    /// The seed row of a crop.
    pub fn seed(&self, crop: &str) -> Option<&SeedRow> {
        self.seeds.iter().find(|row| row.crop == crop)
    }

    /// Feeding rows of a crop, those for `any` crop first; empty means compost.
    pub fn feeding_for(&self, crop: &str) -> Vec<&FeedingRow> {
        self.feeding
            .iter()
            .filter(|row| row.crop == "any" || row.crop == crop)
            .collect()
    }
}

/// A fingerprint (FNV-1a, 64 bit) of the process tables; tells editions apart, proves nothing.
fn edition(files: &Files) -> String {
    let mut print: u64 = 0xcbf2_9ce4_8422_2325;
    for (name, bytes) in files
        .iter()
        .filter(|(name, _)| name.starts_with("process/"))
    {
        for byte in name.bytes().chain(bytes.iter().copied()) {
            print = (print ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    format!("aib539-2015-{print:016x}")
}
