//! Yields held against a second typing of the guide, from memory and not from the tables: pounds for a canner load
//! of 7 quarts and of 9 pints, and quarts from a bushel, crate or lug (USDA Complete Guide to Home
//! Canning, 2015). Also the small sums a cook does at the stove.

use kitchen::{Amount, jars_expected, recipes, scale};
use quantity::{
    Exact, Mass, MassUnit, Rounding, Volume, VolumeUnit, kitchen_measure::measure, whole,
};
use reference::{Jar, Reference};

/// A line of the second typing.
type Line = (&'static str, i128, i128, Option<(i128, i128, i128)>);

/// Food, half pounds for 7 quarts, quarter pounds for 9 pints, and quarts from a measure of so
/// many pounds: fewest and most.
const PRINTED: [Line; 22] = [
    ("apples-sliced", 38, 49, Some((48, 16, 19))),
    ("applesauce", 42, 54, Some((48, 14, 19))),
    ("apricots", 32, 40, Some((50, 20, 25))),
    ("berries-whole", 24, 32, Some((36, 18, 24))),
    ("cherries-whole", 35, 44, Some((25, 8, 12))),
    ("peaches", 35, 44, Some((48, 16, 24))),
    ("pears-halved", 35, 44, Some((50, 16, 25))),
    ("plums", 28, 36, Some((56, 22, 36))),
    ("tomato-juice", 46, 56, Some((53, 15, 18))),
    ("tomatoes-crushed", 44, 56, Some((53, 17, 20))),
    ("tomato-sauce", 70, 84, Some((53, 10, 12))),
    ("tomatoes-whole-in-water", 42, 52, Some((53, 15, 21))),
    ("tomatoes-whole-in-juice", 42, 52, Some((53, 15, 21))),
    ("tomatoes-whole-raw-no-liquid", 42, 52, Some((53, 15, 21))),
    ("asparagus", 49, 64, Some((31, 7, 12))),
    ("lima-beans-shelled", 56, 72, Some((32, 6, 10))),
    ("snap-and-italian-beans", 28, 36, Some((30, 12, 20))),
    ("beets", 42, 54, Some((52, 15, 20))),
    ("carrots", 35, 44, Some((50, 17, 25))),
    ("corn-whole-kernel", 63, 80, Some((35, 6, 11))),
    ("peas-green-shelled", 63, 80, Some((30, 5, 10))),
    ("okra", 22, 28, Some((26, 16, 18))),
];

#[test]
fn printed_loads_and_bushels_come_out_as_printed() {
    let reference = Reference::embedded();
    for (key, half_pounds, quarter_pounds, bushel) in PRINTED {
        let food = reference
            .food(key)
            .unwrap_or_else(|| panic!("no food {key}"));
        let low = |printed: &Option<reference::Printed>| printed.as_ref().map(|p| p.low());
        assert_eq!(
            low(&food.raw_lb_per_7qt),
            Some(Exact::new(half_pounds, 2)),
            "{key}, pounds for 7 quarts"
        );
        assert_eq!(
            low(&food.raw_lb_per_9pt),
            Some(Exact::new(quarter_pounds, 4)),
            "{key}, pounds for 9 pints"
        );
        let Some((pounds, fewest, most)) = bushel else {
            continue;
        };
        let expected = [pounds, fewest, most].map(|n| Some(Exact::from_integer(n)));
        let bushel = [
            low(&food.bushel_lb),
            low(&food.quarts_per_bushel_low),
            low(&food.quarts_per_bushel_high),
        ];
        let crate_or_lug = [
            low(&food.other_container_lb),
            low(&food.other_container_quarts_low),
            low(&food.other_container_quarts_high),
        ];
        assert!(
            [bushel, crate_or_lug].contains(&expected),
            "{key}, quarts from a measure: {bushel:?} or {crate_or_lug:?}, not {expected:?}"
        );
    }
}

/// The recipes that are reckoned by pounds make one printed load of one printed load.
#[test]
fn a_printed_load_of_produce_makes_a_printed_load_of_jars() {
    let book = recipes(Reference::embedded());
    let mut seen = 0;
    for (key, half_pounds, _, _) in PRINTED {
        for recipe in book.all().iter().filter(|recipe| {
            recipe.food.as_deref() == Some(key)
                && recipe.basis == kitchen::Basis::Pounds
                && recipe.jar_choices.contains(&Jar::Quart)
        }) {
            let load = Mass::new(Exact::new(half_pounds, 2), MassUnit::Pound).unwrap();
            let found = jars_expected(recipe, load, Jar::Quart).unwrap();
            assert_eq!(
                found.likely_low.min(whole(7)),
                found.likely_low,
                "{}",
                recipe.key
            );
            assert!(found.likely >= whole(7), "{}: {}", recipe.key, found.likely);
            assert!(found.heat > 7, "{}", recipe.key);
            seen += 1;
        }
    }
    assert!(seen >= 8, "{seen} recipes reckoned by pounds");
}

/// Common practice, no source, unless named.
#[test]
fn sums_at_the_stove() {
    let tsp = |n: i128, d: i128| Volume::new(Exact::new(n, d), VolumeUnit::Teaspoon).unwrap();
    let cups = |n: i128, d: i128| Volume::new(Exact::new(n, d), VolumeUnit::Cup).unwrap();
    let in_tsp = |volume: Volume| volume.in_unit(VolumeUnit::Teaspoon);
    // 4 tsp a batch, five batches.
    let five = tsp(4, 1).checked_mul(whole(5)).unwrap();
    assert_eq!(in_tsp(five), whole(20));
    assert_eq!(measure(five, Rounding::Exact).to_string(), "6 tbsp + 2 tsp");
    // Half a cup over 8 and over 7 jars.
    let over = |jars| cups(1, 2).checked_mul(Exact::new(1, jars)).unwrap();
    assert_eq!(over(8), Volume::of(1, VolumeUnit::Tablespoon));
    assert_eq!(in_tsp(over(7)), Exact::new(24, 7));
    // A sweet-leaf powder at 1 to 1 1/4 tsp a cup of sugar.
    let half = |a_cup: Volume| in_tsp(a_cup.checked_mul(Exact::new(1, 2)).unwrap());
    assert_eq!(
        (half(tsp(1, 1)), half(tsp(5, 4))),
        (Exact::new(1, 2), Exact::new(5, 8))
    );
    // Bottled lemon juice at 2 tbsp a US quart is 1 part in 32 (USDA).
    let share = Volume::of(2, VolumeUnit::Tablespoon)
        .ratio(Volume::of(1, VolumeUnit::Quart))
        .unwrap();
    assert_eq!(share, Exact::new(1, 32));
    let lemon = |litres| {
        Volume::of(litres, VolumeUnit::Litre)
            .checked_mul(share)
            .unwrap()
    };
    let millilitres = |volume: Volume| volume.in_unit(VolumeUnit::Millilitre);
    assert_eq!(millilitres(lemon(8)), whole(250));
    assert_eq!(lemon(8), Volume::of(1, VolumeUnit::MetricCup));
    assert_eq!(millilitres(lemon(7)), Exact::new(875, 4));
    let tenths = |value: Exact| (value * whole(10)).round().to_integer();
    let cup = cups(1, 1);
    assert_eq!(tenths(cup.ratio(lemon(8)).unwrap() * whole(100)), 946);
    assert_eq!(tenths(millilitres(lemon(8).checked_sub(cup).unwrap())), 134);
    // 24 lb at 3 1/4 lb a quart (USDA), and 20 lb by the same line: 8 L of raw juice from two
    // passes were 2.5 lb a litre.
    let book = recipes(Reference::embedded());
    let juice = book.get("tomato-juice").unwrap();
    let quarts = |pounds| {
        let produce = Mass::of(pounds, MassUnit::Pound);
        jars_expected(juice, produce, Jar::Quart).unwrap().likely
    };
    let litres = |quarts| {
        Volume::new(quarts, VolumeUnit::Quart)
            .unwrap()
            .in_unit(VolumeUnit::Litre)
    };
    let hundredths = |value: Exact| (value * whole(100)).round().to_integer();
    assert_eq!(hundredths(quarts(24)), 738);
    assert_eq!(hundredths(litres(quarts(24))), 699);
    assert_eq!(hundredths(litres(quarts(20))), 582);
}

/// The brine of the rings is 6 1/4 cups, 1478.7 mL (common practice, no source).
#[test]
fn a_scale_of_nothing_or_of_too_much_is_refused() {
    let book = recipes(Reference::embedded());
    let rings = book.get("pickled-yellow-pepper-rings").unwrap();
    for times in [whole(0), whole(-2), whole(501)] {
        assert!(scale(rings, times, Some(Jar::Pint)).is_err(), "{times}");
    }
    let brine = kitchen::scale::mixed(kitchen::scale::brine(rings).unwrap()).unwrap();
    let millilitres = brine.in_unit(VolumeUnit::Millilitre);
    assert_eq!((millilitres * whole(10)).round().to_integer(), 14787);
    assert!(kitchen::scale::batches_for_jars(rings, 0, Jar::Pint).is_err());
    let cup = Volume::of(1, VolumeUnit::Cup);
    assert!(kitchen::scale::batches_for_pot(rings, cup).is_err());
    assert_eq!(
        kitchen::scale::batches_for_jars(rings, 6, Jar::Pint).unwrap(),
        Exact::new(3, 2)
    );
    let jam = book.get("jam-without-added-pectin-berry").unwrap();
    let ten = kitchen::scale::batches_for_jars(jam, 10, Jar::HalfPint).unwrap();
    assert!(ten.is_integer(), "a gel is cooked in whole batches: {ten}");
    let gallon = Volume::of(3, VolumeUnit::Gallon);
    assert_eq!(
        kitchen::scale::batches_for_pot(jam, gallon).unwrap(),
        whole(1)
    );
    assert!(matches!(rings.ingredients[0].high, Amount::Mass(_)));
}

#[test]
fn jars_by_own_record_say_what_is_likely_and_keep_the_printed_range() {
    let book = recipes(Reference::embedded());
    let juice = book.get("tomato-juice").unwrap();
    let printed = jars_expected(juice, Mass::of(24, MassUnit::Pound), Jar::Quart).unwrap();
    let own = kitchen::jars::OwnRecord {
        likely: Exact::new(615, 100),
        low: Exact::new(57, 10),
        high: Exact::new(65, 10),
        words: "3 batches of your own".to_owned(),
    };
    let found = printed.clone().with_own(&own).unwrap();
    assert_eq!(found.full, 6);
    assert_eq!((found.full_low, found.full_high), (5, printed.full_high));
    assert_eq!(
        found.heat, printed.heat,
        "more jars are heated, never fewer"
    );
}
