//! How long the gate takes: reading all tables, one verdict, one look-up,
//! one recipe change, one household recipe. Run it in release.

use quantity::{Elevation, Exact};
use reference::{Jar, Method, Pack, Reference};
use safety::{
    Amount, Answer, CannerFacts, Edit, HeatQuestion, HouseholdLine, HouseholdRecipe, Measure,
    ProduceHistory, RecipeChange,
};
use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() {
    let mut loads: Vec<Duration> = (0..21)
        .map(|_| {
            let start = Instant::now();
            let files = reference::embedded::files();
            black_box(Reference::read(&files));
            start.elapsed()
        })
        .collect();
    loads.sort();
    println!(
        "all tables read: median {:.1} ms of {} runs, longest {:.1} ms",
        loads[loads.len() / 2].as_secs_f64() * 1e3,
        loads.len(),
        loads[loads.len() - 1].as_secs_f64() * 1e3
    );

    let r = Reference::embedded();
    let mut questions = Vec::new();
    for food in r.foods() {
        for pack in Pack::ALL {
            for jar in Jar::ALL {
                for method in Method::ALL {
                    for feet in [500, 1500, 2500, 6000, 8500] {
                        questions.push(question(&food.food, *pack, *jar, *method, feet));
                    }
                }
            }
        }
    }
    let permits = questions
        .iter()
        .filter(|q| safety::judge_heat(r, q).permit().is_some())
        .count();
    let mut times: Vec<Duration> = questions
        .iter()
        .map(|question| {
            let start = Instant::now();
            black_box(safety::judge_heat(r, question));
            start.elapsed()
        })
        .collect();
    let mut permit_times: Vec<Duration> = questions
        .iter()
        .zip(&times)
        .filter(|(q, _)| safety::judge_heat(r, q).permit().is_some())
        .map(|(_, time)| *time)
        .collect();
    say("one verdict", &mut times);
    say("one permit", &mut permit_times);
    println!("{} questions, {permits} permits", questions.len());
    let mut looks: Vec<Duration> = questions
        .iter()
        .map(|q| {
            let start = Instant::now();
            let method = q.canner.method();
            let _ = black_box(safety::look_up(
                r,
                &q.food,
                q.pack,
                q.jar,
                method,
                q.elevation,
            ));
            start.elapsed()
        })
        .collect();
    say("one look-up", &mut looks);
    changes(r);
    households(r);
}

/// Every line of every tested recipe in twice its amount.
fn changes(r: &Reference) {
    let mut times = Vec::new();
    for sheet in r.recipes() {
        for (index, row) in sheet.rows.iter().enumerate() {
            let Ok(mut amount) = Amount::from_table(row.amount.high(), &row.unit) else {
                continue;
            };
            amount.size += amount.size;
            let change = RecipeChange {
                recipe: sheet.key.clone(),
                edits: vec![Edit::Amount {
                    line: (index + 1).to_string(),
                    amount,
                }],
            };
            let start = Instant::now();
            let _ = black_box(safety::judge_change(r, &change));
            times.push(start.elapsed());
        }
    }
    println!("{} changes", times.len());
    say("one change", &mut times);
}

/// Every tested recipe as a household's own: as printed, and with one line more.
fn households(r: &Reference) {
    let mut times = Vec::new();
    for sheet in r.recipes() {
        let mut lines = Vec::new();
        for row in &sheet.rows {
            if let Ok(amount) = Amount::from_table(row.amount.high(), &row.unit) {
                lines.push(HouseholdLine {
                    name: row.ingredient.replace('-', " "),
                    amount,
                    per: row.per.clone(),
                });
            }
        }
        let mut recipe = HouseholdRecipe {
            title: "Own recipe".to_owned(),
            lines,
            jar: None,
            pack: None,
            canner: None,
        };
        for name in ["sweet corn", "moon turnips"] {
            let start = Instant::now();
            let _ = black_box(safety::judge_household_recipe(r, &recipe));
            times.push(start.elapsed());
            recipe.lines.push(HouseholdLine {
                name: name.to_owned(),
                amount: Amount::count(Exact::from_integer(3), Measure::Each, "3 each"),
                per: "batch".to_owned(),
            });
        }
    }
    println!("{} household recipes", times.len());
    say("one household recipe", &mut times);
}

fn say(what: &str, times: &mut [Duration]) {
    times.sort();
    let at = |share: f64| {
        let index = ((times.len() - 1) as f64 * share) as usize;
        times[index].as_secs_f64() * 1e6
    };
    println!(
        "{what}: median {:.1} us, 99 of 100 within {:.1} us, longest {:.1} us",
        at(0.5),
        at(0.99),
        at(1.0)
    );
}

fn question(food: &str, pack: Pack, jar: Jar, method: Method, feet: i128) -> HeatQuestion {
    let canner = match method {
        Method::DialGauge => CannerFacts::Dial {
            error_psi: Some(Exact::from_integer(1)),
            tested_on: Some("2026-05-01".to_owned()),
        },
        Method::WeightedGauge => CannerFacts::Weighted {
            weights_psi: vec![5, 10, 15],
        },
        other => CannerFacts::unknown(other),
    };
    let mut q = HeatQuestion::new(food, pack, jar, canner, "2026-08-15");
    q.canner_holds_quart_jars = Some(7);
    q.canner_volume_quarts = Some(22);
    q.elevation = Some(Elevation::feet(Exact::from_integer(feet)));
    q.history = ProduceHistory::sound();
    q.jars_sterilised = Answer::Yes;
    q.acid = Some(safety::AcidUse {
        vinegar: safety::AcidUse::vinegar(Exact::from_integer(5)).vinegar,
        ..match Reference::embedded().acid_for(food).first() {
            Some(row) => safety::AcidUse::whole(&row.acid),
            None => safety::AcidUse::default(),
        }
    });
    q
}
