//! How long it takes to scale a recipe and fit its jars: every recipe in every jar it serves.
//!
//! `cargo run --release -p kitchen --example bench_scale`; the aim is under 1 ms each.

use kitchen::{recipes, scale};
use quantity::Exact;
use reference::Reference;
use std::time::Instant;

fn main() {
    let book = recipes(Reference::embedded());
    let mut micros = Vec::new();
    for recipe in book.all() {
        let jars = recipe.jar_choices.iter().copied().map(Some);
        let by = if recipe.may_multiply {
            Exact::new(31, 7)
        } else {
            Exact::from_integer(3)
        };
        for jar in jars.chain(recipe.jar_choices.is_empty().then_some(None)) {
            let begun = Instant::now();
            let card = scale(recipe, by, jar).and_then(|card| card.with_canner(7));
            let took = begun.elapsed();
            match card {
                Ok(_) => micros.push(took.as_secs_f64() * 1e6),
                Err(error) => println!("{} in {jar:?}: {error}", recipe.key),
            }
        }
    }
    micros.sort_by(f64::total_cmp);
    let at = |share: f64| micros[((micros.len() - 1) as f64 * share) as usize];
    println!(
        "{} cards: half under {:.0} us, 99 of 100 under {:.0} us, longest {:.0} us",
        micros.len(),
        at(0.5),
        at(0.99),
        at(1.0)
    );
}
