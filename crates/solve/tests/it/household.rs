//! Random households of the usual size: grades, two canners, freezer, dryer, a week.

use jiff::civil::date;
use plan::allocation::{
    ContainerLimit, DayLimit, Good, IngredientLimit, Input, Lot, Outlet, Prices, Problem,
};

/// A small generator of numbers, so that the households are the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    /// A whole number between two others, both included.
    pub fn roll(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let wide = (self.0 >> 33) as i64;
        from + wide % (to - from + 1)
    }
}

/// An outlet that asks for nothing and makes nothing; tests fill in what they are about.
pub fn outlet(name: &str, classes: Vec<usize>, grams: i64) -> Outlet {
    Outlet {
        key: name.replace(' ', "-"),
        name: name.to_string(),
        route: "fresh".to_string(),
        good: None,
        yields: 0,
        inputs: vec![Input { classes, grams }],
        min_per_day: 1,
        max_per_day: 3,
        setup_minutes: 0,
        minutes_per_batch: 0,
        canner: None,
        loads_hundredths: 0,
        containers: Vec::new(),
        ingredients: Vec::new(),
        freezer_ml: 0,
        freeze_grams: 0,
        dryer_trays: 0,
        days_allowed: None,
        value_points: 0,
    }
}

/// Two days, one class, one lot, plenty of everything; tests take away what they are about.
pub fn small_house() -> Problem {
    let day = DayLimit {
        hands_minutes: 600,
        canner_loads: vec![4],
        freeze_grams: 10_000,
        dryer_trays: 8,
    };
    Problem {
        first_day: date(2031, 9, 1),
        days: vec![day.clone(), day],
        classes: vec!["pears".to_string(), "quinces".to_string()],
        lots: vec![Lot {
            id: 1,
            name: "pears from the crate".to_string(),
            kind: 0,
            grams: 5_000,
            first_day: 0,
            last_day: 1,
            waste_points_per_kg: 100,
        }],
        outlets: Vec::new(),
        containers: vec![ContainerLimit {
            name: "pint jars".to_string(),
            available: 20,
        }],
        ingredients: vec![IngredientLimit {
            name: "sugar".to_string(),
            available: 5_000,
            unit: "g".to_string(),
        }],
        freezer_room_ml: 20_000,
        canners: vec!["kettle".to_string()],
        goods: Vec::new(),
        prices: Prices {
            points_per_hour: 60,
            points_per_batch_day: 1,
            points_per_setup_minute: 0,
        },
    }
}

/// A household with `lots` lots and `outlets` outlets over a week. Every second class is a second
/// grade of the one before: it may go to fewer uses.
pub fn household(seed: u64, lots: i64, outlets: i64) -> Problem {
    let mut dice = Dice(seed);
    let crops = dice.roll(3, 7);
    let classes = 2 * crops;
    let goods = dice.roll(6, 12);
    let mut problem = small_house();
    problem.classes = (0..classes).map(|class| format!("class {class}")).collect();
    problem.canners = vec!["kettle".to_string(), "pressure canner".to_string()];
    problem.days = (0..7)
        .map(|_| DayLimit {
            hands_minutes: dice.roll(0, 6) * 60,
            canner_loads: vec![dice.roll(0, 4), dice.roll(0, 2)],
            freeze_grams: dice.roll(1, 6) * 1_000,
            dryer_trays: dice.roll(0, 8),
        })
        .collect();
    problem.lots = (0..lots)
        .map(|id| {
            let first_day = dice.roll(-2, 4);
            Lot {
                id,
                name: format!("lot {id}"),
                kind: dice.roll(0, classes - 1) as usize,
                grams: dice.roll(300, 20_000),
                first_day,
                last_day: first_day + dice.roll(0, 10),
                waste_points_per_kg: dice.roll(0, 30) * 10,
            }
        })
        .collect();
    problem.goods = (0..goods)
        .map(|good| {
            let worth = dice.roll(50, 400);
            Good {
                name: format!("good {good}"),
                unit: "jar".to_string(),
                steps: vec![
                    (dice.roll(2, 12), worth),
                    (dice.roll(2, 12), worth / 2),
                    (dice.roll(5, 30), worth / 8),
                ],
            }
        })
        .collect();
    problem.containers = (0..3)
        .map(|size| ContainerLimit {
            name: format!("size {size}"),
            available: dice.roll(0, 60),
        })
        .collect();
    problem.ingredients = (0..3)
        .map(|index| IngredientLimit {
            name: format!("ingredient {index}"),
            available: dice.roll(0, 3_000),
            unit: "g".to_string(),
        })
        .collect();
    problem.freezer_room_ml = dice.roll(0, 30_000);
    problem.prices = Prices {
        points_per_hour: dice.roll(0, 200),
        points_per_batch_day: dice.roll(0, 5),
        points_per_setup_minute: 0,
    };
    problem.outlets = (0..outlets)
        .map(|index| random_outlet(&mut dice, index, crops, goods))
        .collect();
    problem
}

fn random_outlet(dice: &mut Dice, index: i64, crops: i64, goods: i64) -> Outlet {
    // The sound grade alone, or both grades of a crop.
    let pick = |dice: &mut Dice| {
        let sound = 2 * dice.roll(0, crops - 1) as usize;
        if dice.roll(0, 1) == 0 {
            vec![sound]
        } else {
            vec![sound, sound + 1]
        }
    };
    let classes = pick(dice);
    let grams = dice.roll(2, 60) * 100;
    let mut outlet = outlet(&format!("outlet {index}"), classes, grams);
    if dice.roll(0, 3) == 0 {
        outlet.inputs.push(Input {
            classes: pick(dice),
            grams: dice.roll(1, 10) * 100,
        });
    }
    outlet.min_per_day = dice.roll(0, 2);
    outlet.max_per_day = dice.roll(0, 6);
    outlet.minutes_per_batch = dice.roll(2, 60);
    if dice.roll(0, 5) == 0 {
        outlet.days_allowed = Some((0..7).map(|_| dice.roll(0, 1) == 0).collect());
    }
    match dice.roll(0, 3) {
        0 => {
            outlet.canner = Some(dice.roll(0, 1) as usize);
            outlet.loads_hundredths = dice.roll(20, 130);
            outlet.setup_minutes = dice.roll(0, 45);
            outlet.containers = vec![(dice.roll(0, 2) as usize, dice.roll(1, 8))];
            outlet.ingredients = vec![(dice.roll(0, 2) as usize, dice.roll(0, 400))];
        }
        1 => {
            outlet.freezer_ml = grams + dice.roll(0, 500);
            outlet.freeze_grams = grams;
            outlet.setup_minutes = dice.roll(0, 15);
            outlet.containers = vec![(dice.roll(0, 2) as usize, dice.roll(1, 4))];
        }
        2 => outlet.dryer_trays = dice.roll(1, 4),
        _ => outlet.value_points = dice.roll(-20, 120),
    }
    if dice.roll(0, 4) > 0 {
        outlet.good = Some(dice.roll(0, goods - 1) as usize);
        outlet.yields = dice.roll(1, 8);
    }
    outlet
}
