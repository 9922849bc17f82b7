//! Grades: what the first pass over the crates decides, and what each grade may become.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::closest::{closeness, normal};
use crate::crop::{CropRow, crop, either, list};
use crate::lot_error::LotError;
use crate::recipe::Route;

/// Whether a grade may take a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MayUse {
    /// Yes.
    Yes,
    /// After the bad part is cut away generously, the same day.
    Trimmed,
    /// Only in something cooked.
    Cooked,
    /// No.
    No,
}

impl MayUse {
    /// Whether the route is open at all.
    pub fn is_open(self) -> bool {
        self != MayUse::No
    }
}

/// What a grade may become; safety's own rules may still close a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct GradeUses {
    /// Jars that are heated.
    pub jars: MayUse,
    /// Freezer.
    pub freezer: MayUse,
    /// Dryer.
    pub dryer: MayUse,
    /// Crock.
    pub crock: MayUse,
    /// Eaten fresh.
    pub fresh: MayUse,
    /// Seed.
    pub seed: MayUse,
}

impl GradeUses {
    /// What the grade table says of a route. The fridge is judged as eating fresh, the cold room
    /// takes what can be eaten fresh untrimmed; animals are left to the feeding table, and
    /// compost takes everything.
    pub fn may(&self, route: Route) -> MayUse {
        match route {
            Route::Heat => self.jars,
            Route::Freezer => self.freezer,
            Route::Dryer => self.dryer,
            Route::Crock => self.crock,
            Route::Fridge | Route::Fresh => self.fresh,
            Route::Seed => self.seed,
            // Trimmed or cooked produce does not store.
            Route::ColdRoom if self.fresh == MayUse::Yes => MayUse::Yes,
            Route::ColdRoom => MayUse::No,
            Route::Animals | Route::Compost => MayUse::Yes,
        }
    }
}

/// One grade of `data/kitchen/grades.csv` as it applies to one crop or many.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GradeRow {
    /// Such as `red`, `soft`, `sound`.
    pub key: String,
    /// Such as "soft, sound (use today)".
    pub title: String,
    /// Crop keys, `group:NAME`, or `others` (every crop not graded by ripeness).
    pub applies: Vec<String>,
    /// Order of showing.
    pub order: u32,
    /// Stages of the storage table; empty: those of the crop.
    pub storage_stages: Vec<String>,
    /// Ripeness class of the ripening tables.
    pub ripening_class: Option<String>,
    /// Days this grade keeps at room temperature whatever the crop, where it is so.
    pub room_days: Option<(i64, i64)>,
    /// What it may become.
    pub uses: GradeUses,
    /// The part by which the feeding table judges it: `ripe`, `unripe`, `sound`, `mouldy`, ...
    pub feeding_part: String,
    /// What to know about it.
    pub note: String,
    /// Where that was read.
    pub source: String,
    /// Whether all of it was read.
    pub remembered: bool,
}

impl GradeRow {
    fn serves(&self, crop: &CropRow) -> Option<Precision> {
        self.applies
            .iter()
            .filter_map(|scope| match scope.strip_prefix("group:") {
                Some(group) => (group == crop.group).then_some(Precision::Group),
                None if scope == "others" => {
                    (!crop.is_graded_by_ripeness()).then_some(Precision::Others)
                }
                None => (*scope == crop.key).then_some(Precision::Crop),
            })
            .max()
    }
}

/// How closely a line names a crop; the closest line of a grade counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Precision {
    Others,
    Group,
    Crop,
}

#[derive(Deserialize)]
struct GradeLine {
    key: String,
    title: String,
    applies: String,
    order: u32,
    storage_stages: String,
    ripening_class: String,
    days_low: Option<i64>,
    days_high: Option<i64>,
    jars: MayUse,
    freezer: MayUse,
    dryer: MayUse,
    crock: MayUse,
    fresh: MayUse,
    seed: MayUse,
    feeding_part: String,
    note: String,
    source: String,
    basis: String,
}

fn read(text: &str) -> Result<Vec<GradeRow>, csv::Error> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .map(|line| {
            let line: GradeLine = line?;
            Ok(GradeRow {
                applies: list(&line.applies),
                order: line.order,
                storage_stages: list(&line.storage_stages),
                ripening_class: list(&line.ripening_class).into_iter().next(),
                room_days: line.days_low.zip(line.days_high),
                uses: GradeUses {
                    jars: line.jars,
                    freezer: line.freezer,
                    dryer: line.dryer,
                    crock: line.crock,
                    fresh: line.fresh,
                    seed: line.seed,
                },
                remembered: line.basis != "read",
                key: line.key,
                title: line.title,
                feeding_part: line.feeding_part,
                note: line.note,
                source: line.source,
            })
        })
        .collect()
}

static GRADES: LazyLock<Vec<GradeRow>> = LazyLock::new(|| {
    read(include_str!("../../../data/kitchen/grades.csv"))
        // The text is compiled in, and a test reads every line of it.
        .expect("the table of grades is compiled in and read whole by a test")
});

/// Every line of the grade table.
pub fn grade_lines() -> &'static [GradeRow] {
    &GRADES
}

/// The grades of a crop, in the order of showing. Error: `UnknownCrop`.
pub fn grades_for(crop_key: &str) -> Result<Vec<&'static GradeRow>, LotError> {
    Ok(grades_of(crop(crop_key)?))
}

fn grades_of(crop: &CropRow) -> Vec<&'static GradeRow> {
    let mut found: Vec<(Precision, &GradeRow)> = Vec::new();
    for row in grade_lines() {
        let Some(precision) = row.serves(crop) else {
            continue;
        };
        match found.iter_mut().find(|(_, other)| other.key == row.key) {
            Some(other) if other.0 < precision => *other = (precision, row),
            Some(_) => {}
            None => found.push((precision, row)),
        }
    }
    let mut grades: Vec<&GradeRow> = found.into_iter().map(|(_, row)| row).collect();
    grades.sort_by_key(|row| row.order);
    grades
}

/// The grade of a crop by key or title. Errors: `UnknownCrop`, `UnknownGrade` with the grades
/// the crop has.
pub fn grade(crop_key: &str, text: &str) -> Result<&'static GradeRow, LotError> {
    let crop = crop(crop_key)?;
    let grades = grades_of(crop);
    let wanted = normal(text);
    if let Some(found) = grades
        .iter()
        .find(|row| normal(&row.key) == wanted || normal(&row.title) == wanted)
    {
        return Ok(found);
    }
    let near = grades
        .iter()
        .filter_map(|row| closeness(&wanted, &normal(&row.key)).map(|slips| (slips, row)))
        .min_by_key(|&(slips, row)| (slips, row.order));
    let all = either(grades.iter().map(|row| row.key.as_str()));
    let hint = match near {
        Some((_, row)) => format!("did you mean {}? The grades are {all}", row.key),
        None => format!("the grades are {all}"),
    };
    Err(LotError::UnknownGrade {
        plural: crop.plural.clone(),
        text: text.trim().to_owned(),
        hint,
    })
}
