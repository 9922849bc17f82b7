//! A second reader of the tables that shares no code with the gate (csv only): both must agree.

use std::collections::BTreeSet;

const PROCESSES: &str = include_str!("../../../../data/process/processes.csv");
const FOODS: &str = include_str!("../../../../data/process/foods.csv");
const DOUBTFUL: &str = include_str!("../../../../data/process/doubtful.csv");

/// Jars by volume in microlitres, smallest first.
const JARS: [(&str, u32); 9] = [
    ("half-pint", 236_588),
    ("250-ml", 250_000),
    ("12-ounce", 354_882),
    ("pint", 473_176),
    ("500-ml", 500_000),
    ("pint-and-half", 709_765),
    ("quart", 946_353),
    ("1-litre", 1_000_000),
    ("half-gallon", 1_892_706),
];

/// Foods whose printed pack label takes either pack.
const EITHER: [&str; 7] = [
    "pickled-jalapeno-rings",
    "pickled-yellow-pepper-rings",
    "pickled-dilled-okra",
    "crab-king-and-dungeness",
    "oysters",
    "smoked-fish",
    "tuna",
];

struct Row {
    food: String,
    pack: String,
    jar: String,
    method: String,
    low: i64,
    high: Option<i64>,
    minutes: u32,
    psi: Option<u32>,
    option: u8,
    key: String,
}

pub struct Oracle {
    rows: Vec<Row>,
    pub foods: Vec<String>,
    low_acid: BTreeSet<String>,
    show_only: BTreeSet<String>,
    unreadable: BTreeSet<String>,
}

/// Minutes, pressure, row key, and whether the permit has a condition.
pub type Answer = Option<(u32, Option<u32>, String, bool)>;

fn table(text: &str) -> Vec<Vec<String>> {
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .map(|record| record.expect("row").iter().map(str::to_owned).collect())
        .collect()
}

impl Oracle {
    pub fn read() -> Oracle {
        let rows = table(PROCESSES)
            .into_iter()
            .map(|r| Row {
                key: format!(
                    "{}/{}/{}/{}/{}-{}/{}",
                    r[0], r[2], r[3], r[4], r[5], r[6], r[9]
                ),
                food: r[0].clone(),
                pack: r[2].clone(),
                jar: r[3].clone(),
                method: r[4].clone(),
                low: r[5].parse().expect("low"),
                high: r[6].parse().ok(),
                minutes: r[7].parse().expect("minutes"),
                psi: r[8].parse().ok(),
                option: r[9].parse().expect("option"),
            })
            .collect();
        let foods = table(FOODS);
        let doubts: Vec<Vec<String>> = table(DOUBTFUL)
            .into_iter()
            .filter(|d| d[4] == "show-only" && d[5].is_empty())
            .collect();
        let keys = |name: &str| {
            let of = doubts.iter().filter(|d| d[0] == name);
            of.map(|d| d[1].clone()).collect::<BTreeSet<_>>()
        };
        Oracle {
            rows,
            low_acid: foods
                .iter()
                .filter(|f| f[3] == "low-acid")
                .map(|f| f[0].clone())
                .collect(),
            foods: foods.iter().map(|f| f[0].clone()).collect(),
            show_only: keys("processes"),
            unreadable: keys("recipes")
                .iter()
                .map(|key| key.split('/').next().unwrap_or_default().to_owned())
                .collect(),
        }
    }

    /// The answer for a household in good order; `tenths` are tenths of a foot.
    pub fn ask(&self, food: &str, pack: &str, jar: &str, canner: &str, tenths: i64) -> Answer {
        let pressure = canner.ends_with("gauge");
        if self.unreadable.contains(food) || (self.low_acid.contains(food) && !pressure) {
            return None;
        }
        let method = if canner == "steam" {
            "boiling-water"
        } else {
            canner
        };
        let size = |jar: &str| JARS.iter().find(|j| j.0 == jar).map_or(0, |j| j.1);
        let fits = |r: &&Row| {
            r.food == food
                && r.method == method
                && (r.pack == pack || r.pack == "any" || EITHER.contains(&food))
        };
        let row_jar = self
            .rows
            .iter()
            .filter(fits)
            .map(|r| size(&r.jar))
            .filter(|s| *s >= size(jar))
            .min()?;
        let place = if tenths == 10_000 {
            10_010
        } else {
            tenths.max(0)
        };
        let row = self
            .rows
            .iter()
            .filter(fits)
            .filter(|r| size(&r.jar) == row_jar && !self.show_only.contains(&r.key))
            .filter(|r| r.low * 10 - 10 < place && r.high.is_none_or(|high| place <= high * 10))
            .filter(|r| canner != "steam" || r.minutes <= 45)
            .min_by_key(|r| (r.psi, r.option))?;
        let condition = canner == "steam"
            || (!pressure && row.minutes < 10)
            || (place > 80_000 && row.high.is_none());
        Some((row.minutes, row.psi, row.key.clone(), condition))
    }
}
