//! Spoons and cups: the words a cook expects and the direction a recipe needs.

use proptest::prelude::*;
use quantity::kitchen_measure::{measure, weigh};
use quantity::{Exact, Mass, MassUnit, Rounding, Volume, VolumeUnit, exact, parse};

fn tsp(n: i128, d: i128) -> Volume {
    let number = exact(n, d).expect("a test writes no zero below the line");
    Volume::new(number, VolumeUnit::Teaspoon).expect("test volumes are small")
}

fn up(volume: Volume) -> String {
    measure(volume, Rounding::Up).to_string()
}

#[test]
fn scaled_spoons_are_spoons_of_the_drawer() {
    let four = Volume::of(4, VolumeUnit::Teaspoon);
    let twenty = four.checked_mul(Exact::from_integer(5)).unwrap();
    let shown = measure(twenty, Rounding::Exact);
    assert_eq!(shown.to_string(), "6 tbsp + 2 tsp");
    assert!(shown.is_exact());
    assert_eq!(up(tsp(10, 1)), "3 tbsp + 1 tsp");
    assert_eq!(up(Volume::of(10, VolumeUnit::Cup)), "10 cups");
    assert_eq!(
        up(Volume::new(exact(5, 2).unwrap(), VolumeUnit::Cup).unwrap()),
        "2 1/2 cups"
    );
    assert_eq!(
        up(Volume::of(14, VolumeUnit::Tablespoon)),
        "3/4 cup + 2 tbsp"
    );
    assert_eq!(up(Volume::of(4, VolumeUnit::Tablespoon)), "1/4 cup");
    assert_eq!(up(tsp(16, 1)), "1/3 cup");
    assert_eq!(up(Volume::of(20, VolumeUnit::Cup)), "5 qt");
    assert_eq!(up(Volume::of(18, VolumeUnit::Cup)), "4 qt + 2 cups");
    assert_eq!(up(tsp(3, 4)), "3/4 tsp");
    assert_eq!(up(tsp(1, 8)), "1/8 tsp");
    assert_eq!(up(tsp(9, 2)), "1 1/2 tbsp");
    assert_eq!(up(tsp(3, 2)), "1/2 tbsp");
}

#[test]
fn acid_of_metric_jars_goes_up_to_a_spoon_of_the_drawer() {
    let acid = |millilitres: i64| {
        let jar = Volume::from_millilitres(millilitres);
        measure(
            jar.checked_div(Exact::from_integer(32)).unwrap(),
            Rounding::Up,
        )
    };
    let litre = acid(1000);
    assert_eq!(litre.exact.microlitres(), Ok(31_250));
    assert_eq!(litre.to_string(), "2 tbsp + 1/2 tsp");
    assert_eq!(litre.volume.microlitres(), Ok(32_038));
    assert_eq!(acid(500).to_string(), "1 tbsp + 1/4 tsp");
    assert_eq!(acid(500).volume.microlitres(), Ok(16_019));
    assert_eq!(acid(250).to_string(), "1 3/4 tsp");
    assert_eq!(acid(250).volume.microlitres(), Ok(8_626));
}

#[test]
fn down_never_invents_a_spoonful() {
    assert_eq!(
        measure(tsp(1, 16), Rounding::Down).to_string(),
        "under 1/8 tsp"
    );
    assert!(measure(tsp(1, 16), Rounding::Down).volume.is_zero());
    assert_eq!(measure(Volume::ZERO, Rounding::Up).to_string(), "none");
    assert_eq!(measure(tsp(1, 16), Rounding::Up).to_string(), "1/8 tsp");
}

#[test]
fn exact_never_rounds() {
    let odd = Volume::new(exact(7, 19).unwrap(), VolumeUnit::Teaspoon).unwrap();
    let shown = measure(odd, Rounding::Exact);
    assert_eq!(shown.volume, odd);
    assert_eq!(shown.to_string(), "0.37 tsp");
}

#[test]
fn a_scale_weight_never_passes_its_direction() {
    let third = Mass::new(exact(10, 3).unwrap(), MassUnit::Pound).unwrap();
    assert_eq!(weigh(third, Rounding::Down).to_string(), "3 lb 5 oz");
    assert_eq!(weigh(third, Rounding::Up).to_string(), "3 lb 6 oz");
    let quarter = Mass::new(exact(9, 4).unwrap(), MassUnit::Pound).unwrap();
    assert_eq!(weigh(quarter, Rounding::Down).to_string(), "2 1/4 lb");
    assert!(weigh(quarter, Rounding::Up).is_exact());
}

proptest! {
    #[test]
    fn scale_weights_go_their_stated_way(n in 1_i128..100_000, d in 1_i128..997) {
        let mass = Mass::new(exact(n, d).unwrap(), MassUnit::Ounce).unwrap();
        prop_assert!(weigh(mass, Rounding::Up).mass >= mass);
        prop_assert!(weigh(mass, Rounding::Down).mass <= mass);
    }

    #[test]
    fn rounding_goes_its_stated_way(n in 0_i128..2_000_000, d in 1_i128..997) {
        let volume = tsp(n, d);
        prop_assert!(measure(volume, Rounding::Up).volume >= volume);
        prop_assert!(measure(volume, Rounding::Down).volume <= volume);
        let near = measure(volume, Rounding::Nearest).volume;
        prop_assert!(near >= measure(volume, Rounding::Down).volume);
        prop_assert!(near <= measure(volume, Rounding::Up).volume);
    }

    #[test]
    fn the_words_say_what_the_measure_holds(eighths in 1_i128..40_000) {
        let shown = measure(tsp(eighths, 8), Rounding::Up);
        let read = parse::volume(&shown.to_string());
        prop_assert_eq!(read, Ok(shown.volume), "{}", shown);
        // Never more than a quart count, a cup measure, tablespoons and teaspoons.
        prop_assert!(shown.to_string().matches('+').count() <= 3);
    }

    #[test]
    fn rounding_stays_near(n in 12_i128..200_000, d in 1_i128..7) {
        let volume = tsp(n, d);
        prop_assume!(volume >= tsp(3, 1));
        let up = measure(volume, Rounding::Up).volume;
        let over = up.ratio(volume).unwrap();
        prop_assert!(over <= exact(109, 100).unwrap(), "{} for {}", over, n);
    }

    #[test]
    fn quarter_teaspoons_are_never_rounded(quarters in 1_i128..4000) {
        for rounding in [Rounding::Up, Rounding::Down, Rounding::Nearest, Rounding::Exact] {
            prop_assert!(measure(tsp(quarters, 4), rounding).is_exact());
        }
    }
}
