//! Batches come out of the tables with the numbers a cook can check by hand.

use std::sync::LazyLock;

use kitchen::recipe::{Acidity, RecipeBook};
use kitchen::scale::scale_to_produce;
use kitchen::{
    Amount, KitchenError, Recipe, Role, Route, batches_possible, jars, jars_expected, loads,
    recipes, scale,
};
use proptest::prelude::*;
use quantity::{Exact, Mass, MassUnit, Rounding, Volume, VolumeUnit, whole};
use reference::{Jar, Reference};

static BOOK: LazyLock<RecipeBook> = LazyLock::new(|| recipes(Reference::embedded()));

fn recipe(key: &str) -> &'static Recipe {
    BOOK.get(key).expect("the test names a recipe of the book")
}

fn pounds(n: i64) -> Mass {
    Mass::of(n, MassUnit::Pound)
}

fn near(value: Exact, hundredths: i128) -> bool {
    (value * Exact::from_integer(100)).round() == Exact::from_integer(hundredths)
}

fn line(card: &kitchen::BatchCard, key: &str) -> kitchen::CardLine {
    card.lines
        .iter()
        .find(|line| line.key == key)
        .unwrap_or_else(|| panic!("no line {key} in {}", card.title))
        .clone()
}

#[test]
fn every_line_of_the_household_tables_is_understood() {
    assert_eq!(BOOK.problems, Vec::<String>::new());
}

#[test]
fn all_tested_recipes_are_in_the_book_with_every_ingredient() {
    let reference = Reference::embedded();
    assert_eq!(reference.recipes().len(), 118);
    for sheet in reference.recipes() {
        let recipe = recipe(&sheet.key);
        assert_eq!(recipe.ingredients.len(), sheet.rows.len(), "{}", sheet.key);
        assert!(!recipe.source.is_empty(), "{}", sheet.key);
    }
}

#[test]
fn every_use_names_a_crop_and_a_grade_the_household_knows() {
    for recipe in BOOK.all() {
        for one in &recipe.uses {
            assert!(!one.source.is_empty(), "{} {}", recipe.key, one.ingredient);
            assert!(
                one.low <= one.high && one.low > Mass::ZERO,
                "{}",
                recipe.key
            );
            for crop in one.crops.iter().filter(|crop| *crop != "*") {
                assert!(kitchen::crop(crop).is_ok(), "{}: crop {crop}", recipe.key);
                for grade in &one.grades {
                    let known = one
                        .crops
                        .iter()
                        .any(|crop| kitchen::grade(crop, grade).is_ok());
                    assert!(known, "{}: grade {grade} of {crop}", recipe.key);
                }
            }
        }
    }
}

#[test]
fn a_heat_recipe_asks_the_gate_for_a_food_and_pack_the_tables_print() {
    let reference = Reference::embedded();
    for recipe in BOOK
        .all()
        .iter()
        .filter(|recipe| recipe.route == Route::Heat)
    {
        let food = recipe.food.as_deref().expect("a heat recipe has a food");
        let pack = recipe.pack.expect("a heat recipe has a pack");
        let printed = reference
            .processes_for(food)
            .iter()
            .any(|row| row.pack.serves(pack));
        assert!(
            printed,
            "{}: no printed process for {food} {pack}",
            recipe.key
        );
        assert!(!recipe.jar_choices.is_empty(), "{}", recipe.key);
    }
}

#[test]
fn first_canner_day() {
    let juice = recipe("tomato-juice");
    let found = jars_expected(juice, pounds(24), Jar::Quart).unwrap();
    // 24 / (23/7) and 24 / 3.25; the bushel line 24 x 15/53 to 24 x 18/53.
    assert!(near(found.likely_low, 730), "{}", found.likely_low);
    assert!(near(found.likely, 738), "{}", found.likely);
    assert!(near(found.low, 679) && near(found.high, 815));
    assert_eq!(
        found.basis.len(),
        3,
        "the line for pints says nothing about quarts"
    );
    assert_eq!((found.full, found.full_low, found.full_high), (7, 6, 8));
    assert_eq!(found.heat, 9, "the high end and one more");
    assert_eq!(found.words, "7 quarts, could be 6 to 8; heat 9");
    assert!(jars::about(found.over).starts_with("about 1 1/2 cups"));

    let (card, left) = scale_to_produce(juice, pounds(24), Some(Jar::Quart)).unwrap();
    assert!(left.is_zero());
    assert_eq!(card.jars.as_ref().map(|jars| jars.full), Some(7));
    let lemon = card
        .acid
        .iter()
        .find(|acid| acid.acid == "bottled-lemon-juice")
        .unwrap();
    assert_eq!(lemon.per_jar, "2 tbsp (29.57 mL)");
    assert_eq!(lemon.total, "14 tbsp = 7/8 cup (207 mL)");
    assert_eq!(lemon.total_volume, Volume::of(14, VolumeUnit::Tablespoon));
    assert!(!lemon.computed);
    assert_eq!(card.acid.len(), 3);
    let part = card.part_jar.as_ref().unwrap();
    assert_eq!(part.jar, Some(Jar::Ounce12));
    assert!(part.words.contains("within 3 days"), "{}", part.words);
    assert_eq!(card.headspace.as_deref(), Some("1/2 inch (13 mm)"));
    let card = card.with_canner(7).unwrap();
    assert_eq!(card.loads.map(|plan| plan.loads), Some(1));
}

#[test]
fn pepper_rings_at_height() {
    let rings = recipe("pickled-yellow-pepper-rings");
    let cups = |n| Amount::Volume(Volume::of(n, VolumeUnit::Cup));
    let at_hand = [
        ("yellow-peppers".to_owned(), Amount::Mass(pounds(7))),
        ("cider-vinegar-5pct".to_owned(), cups(11)),
    ];
    let possible = batches_possible(rings, &at_hand).unwrap();
    assert_eq!(possible.whole, 2);
    assert_eq!(possible.limited_by, "cider-vinegar-5pct");
    assert_eq!(possible.limits[0].batches, Exact::new(7, 3));
    assert_eq!(possible.limits[1].batches, Exact::new(11, 5));
    assert_eq!(possible.left[0].1, Amount::Mass(pounds(1)));
    assert_eq!(possible.left[1].1, cups(1));

    let card = scale(rings, whole(2), Some(Jar::Pint)).unwrap();
    assert_eq!(line(&card, "yellow-peppers").kitchen, "5 lb to 6 lb");
    assert_eq!(line(&card, "cider-vinegar-5pct").kitchen, "10 cups");
    assert_eq!(line(&card, "water").kitchen, "2 1/2 cups");
    assert_eq!(line(&card, "canning-salt").kitchen, "3 tbsp + 1 tsp");
    assert_eq!(line(&card, "mustard-seed").kitchen, "1/2 cup");
    assert_eq!(
        line(&card, "mustard-seed").per_jar.as_deref(),
        Some("about 1 tbsp a pint")
    );
    let found = card.jars.clone().unwrap();
    assert_eq!((found.full, found.full_low, found.full_high), (8, 8, 8));
    assert_eq!(card.part_jar, None);
    let one_load = card.with_canner(9).unwrap().loads.unwrap();
    assert_eq!((one_load.loads, one_load.advice), (1, None));

    // In 250 ml jars: 8 pints are 3785.4 mL, so 15.1 jars.
    let metric = scale(rings, whole(2), Some(Jar::Ml250)).unwrap();
    let found = metric.jars.unwrap();
    assert!(near(found.likely, 1514));
    assert_eq!(found.full, 15);

    let (card, left) = scale_to_produce(rings, pounds(7), Some(Jar::Pint)).unwrap();
    assert_eq!(card.multiplier, whole(2));
    assert_eq!(left, pounds(1));
}

#[test]
fn broth_and_an_awkward_remainder() {
    let broth = recipe("chicken-or-turkey-stock");
    let card = scale(broth, Exact::new(17, 2), Some(Jar::Quart)).unwrap();
    let found = card.jars.clone().unwrap();
    assert_eq!(found.full, 8);
    assert_eq!(found.over, Volume::of(1, VolumeUnit::Pint));
    let plan = card.with_canner(7).unwrap().loads.unwrap();
    assert_eq!((plan.loads, plan.last_load), (2, 1));
    let advice = plan.advice.unwrap();
    assert!(
        advice.contains("do not run it") && advice.contains("1 quart"),
        "{advice}"
    );
    // A canner that is half full is worth running.
    assert_eq!(loads(11, 7, Jar::Quart).unwrap().advice, None);
    assert_eq!(loads(14, 7, Jar::Quart).unwrap().loads, 2);
    assert_eq!(loads(0, 7, Jar::Quart).unwrap().loads, 0);
    assert!(matches!(
        loads(3, 0, Jar::Quart),
        Err(KitchenError::EmptyCanner { .. })
    ));
}

#[test]
fn acid_for_jars_that_no_table_prints() {
    let juice = recipe("tomato-juice");
    let lemon = |jar: Jar| {
        let card = scale(juice, whole(1), Some(jar)).unwrap();
        card.acid
            .into_iter()
            .find(|acid| acid.acid == "bottled-lemon-juice")
            .unwrap()
    };
    for (jar, words, computed) in [
        (Jar::Quart, "2 tbsp (29.57 mL)", false),
        (Jar::Pint, "1 tbsp (14.79 mL)", false),
        (Jar::HalfPint, "1/2 tbsp (7.39 mL)", true),
        (Jar::PintAndHalf, "1 1/2 tbsp (22.18 mL)", true),
        (Jar::Ml250, "1 3/4 tsp (8.63 mL)", true),
        (Jar::Ml500, "1 tbsp + 1/4 tsp (16.02 mL)", true),
        (Jar::Litre1, "2 tbsp + 1/2 tsp (32.04 mL)", true),
    ] {
        let acid = lemon(jar);
        assert_eq!(acid.per_jar, words, "{jar}");
        assert_eq!(acid.computed, computed, "{jar}");
        assert_eq!(
            acid.mark.contains("computed from the printed ratio"),
            computed
        );
        let ratio = acid.measured_per_jar.ratio(jar.volume()).unwrap();
        assert!(ratio >= Exact::new(1, 32), "{jar} has too little acid");
    }
}

#[test]
fn a_printed_range_of_jars_is_kept_as_a_range() {
    let dills = recipe("quick-fresh-pack-dill-pickles");
    let card = scale(dills, whole(2), Some(Jar::Pint)).unwrap();
    let found = card.jars.unwrap();
    assert_eq!((found.full_low, found.full, found.full_high), (14, 16, 18));
    assert_eq!(found.heat, 19);
    assert_eq!(card.part_jar, None, "a range says nothing about a part jar");
}

#[test]
fn vinegar_and_water_of_one_measure_read_the_same_in_metric() {
    let beans = recipe("pickled-dilled-beans");
    let card = scale(beans, Exact::new(5, 4), Some(Jar::Pint)).unwrap();
    assert_eq!(line(&card, "white-vinegar-5pct").metric, "1.183 L");
    assert_eq!(line(&card, "water").metric, "1.183 L");
}

#[test]
fn a_jar_that_no_table_serves_is_refused() {
    let juice = recipe("tomato-juice");
    let error = scale(juice, whole(1), Some(Jar::HalfGallon)).unwrap_err();
    assert!(error.to_string().contains("half-gallon"), "{error}");
    assert!(error.to_string().contains("never used"), "{error}");
    let salsa = recipe("mango-salsa");
    assert!(scale(salsa, whole(1), Some(Jar::Ml250)).is_err());
    assert!(scale(salsa, whole(1), Some(Jar::HalfPint)).is_ok());
    assert!(matches!(
        scale(juice, whole(1), None),
        Err(KitchenError::NoJar { .. })
    ));
    assert!(scale(juice, whole(0), Some(Jar::Quart)).is_err());
    assert!(scale(juice, whole(-1), Some(Jar::Quart)).is_err());
}

#[test]
fn gels_are_cooked_batch_by_batch() {
    let jam = recipe("jam-without-added-pectin-berry");
    let card = scale(jam, whole(3), Some(Jar::HalfPint)).unwrap();
    assert_eq!(card.separate_batches, Some(3));
    assert_eq!(
        line(&card, "sugar").kitchen,
        "4 cups",
        "the amounts of one pot"
    );
    assert!(
        card.cautions
            .iter()
            .any(|text| text.contains("separate batches"))
    );
    let found = card.jars.unwrap();
    assert_eq!((found.full_low, found.full_high), (9, 12));
    assert!(matches!(
        scale(jam, Exact::new(1, 2), Some(Jar::HalfPint)),
        Err(KitchenError::WholeBatchesOnly { .. })
    ));
    for recipe in BOOK.all() {
        assert_eq!(
            recipe.may_multiply,
            !recipe.is_gel() && !recipe.key.contains("spread"),
            "{}",
            recipe.key
        );
    }
}

#[test]
fn ferments_weigh_their_salt_and_never_lose_any() {
    let kraut = recipe("sauerkraut");
    let card = scale(kraut, Exact::new(1, 7), Some(Jar::Quart)).unwrap();
    let salt = card
        .lines
        .iter()
        .find(|line| line.role.starts_with("salt"))
        .unwrap();
    assert_eq!(salt.rounding, Rounding::Up);
    assert!(salt.role.ends_with("never less"));
    assert!(
        salt.weigh
            .as_deref()
            .is_some_and(|text| text.ends_with("g by the scale"))
    );
}

#[test]
fn a_third_of_a_cup_is_a_third() {
    // The table writes 0.3333: three batches make one cup, not 0.9999.
    let jam = recipe("pear-apple-jam");
    let lemon = jam
        .ingredients
        .iter()
        .find(|one| one.key == "bottled-lemon-juice")
        .unwrap();
    let cup = lemon.high.times(whole(3)).unwrap();
    assert_eq!(cup, Amount::Volume(Volume::of(1, VolumeUnit::Cup)));
}

#[test]
fn freezing_takes_its_figures_from_the_table() {
    let beans = recipe("freeze-snap-beans");
    assert_eq!(beans.times.blanch, Some(whole(3)));
    let card = scale(beans, whole(2), None).unwrap();
    // 10 lb at 2/3 to 1 lb a pint.
    assert_eq!(card.makes.as_deref(), Some("10 to 15 pint bags"));
    assert!(card.facts.iter().all(|fact| !fact.source.is_empty()));
    for crop in [
        "tomato-slicing",
        "pepper-sweet",
        "pepper-hot",
        "snap-bean",
        "lima-bean",
        "kale",
        "chard",
        "spinach",
        "sweet-corn",
        "strawberry",
        "raspberry",
        "blueberry",
    ] {
        let frozen = BOOK
            .for_crop(crop)
            .iter()
            .any(|recipe| recipe.route == Route::Freezer);
        assert!(frozen, "no way into the freezer for {crop}");
    }
    for (key, route) in [
        ("dry-basil", Route::Dryer),
        ("dry-apples", Route::Dryer),
        ("seed-tomato", Route::Seed),
        ("fresh", Route::Fresh),
        ("cold-room", Route::ColdRoom),
        ("animals", Route::Animals),
        ("compost", Route::Compost),
    ] {
        assert_eq!(recipe(key).route, route);
    }
}

#[test]
fn brine_that_falls_short_is_made_again_at_its_ratio() {
    let question = |batches: i64| kitchen::jars::BrineQuestion {
        jars: 8,
        jar: Jar::Pint,
        solids: Exact::new(3, 5),
        headspace: Exact::new(1, 20),
        brine_of_batch: Volume::of(25, VolumeUnit::FluidOunce),
        batches: whole(batches),
        boiled_off: Exact::new(1, 10),
    };
    // 8 pints, 35 % open: 5.6 cups. One batch of 25 fl oz less a tenth: 2.8 cups.
    let short = kitchen::jars::brine_reach(&question(1)).unwrap();
    assert!(!short.reaches);
    assert_eq!(short.half_batches_more, 2);
    assert!(short.words.contains("never top up with water"));
    assert!(kitchen::jars::brine_reach(&question(2)).unwrap().reaches);
}

#[test]
fn an_unknown_recipe_is_answered_with_the_nearest() {
    let error = BOOK.get("tomato-jus").unwrap_err().to_string();
    assert!(error.contains("tomato-juice"), "{error}");
}

proptest! {
    #[test]
    fn scaling_is_linear(at in 0_usize..175, n in 1_i128..60, d in 1_i128..12, k in 1_i128..8) {
        let recipe = &BOOK.all()[at % BOOK.all().len()];
        prop_assume!(recipe.may_multiply);
        let jar = recipe.jar_choices.first().copied();
        let by = Exact::new(n, d);
        let one = scale(recipe, by, jar).unwrap();
        let many = scale(recipe, by * Exact::from_integer(k), jar).unwrap();
        for (small, large) in one.lines.iter().zip(&many.lines) {
            // Amounts per jar follow the jars, which come whole.
            if recipe.ingredients.iter().any(|i| i.key == small.key && i.per_jar.is_some()) {
                continue;
            }
            prop_assert_eq!(small.high.times(Exact::from_integer(k)).unwrap(), large.high);
            prop_assert_eq!(small.low.times(Exact::from_integer(k)).unwrap(), large.low);
        }
        if let (Some(a), Some(b)) = (&one.jars, &many.jars) {
            prop_assert_eq!(a.likely * Exact::from_integer(k), b.likely);
        }
    }

    #[test]
    fn rounding_never_moves_a_ratio_the_unsafe_way(at in 0_usize..175, n in 1_i128..500, d in 1_i128..97) {
        let recipe = &BOOK.all()[at % BOOK.all().len()];
        let by = if recipe.may_multiply { Exact::new(n, d) } else { whole(1) };
        let jar = recipe.jar_choices.first().copied();
        let Ok(card) = scale(recipe, by, jar) else { return Ok(()) };
        for line in &card.lines {
            let source = recipe.ingredients.iter().find(|i| i.key == line.key).unwrap();
            let ratio = line.measured.ratio(line.high).unwrap();
            let Some(ratio) = ratio.filter(|_| !line.high.is_zero()) else { continue };
            if line.drained_off { continue }
            let ferment = recipe.is_ferment();
            match source.role {
                Role::Acid => prop_assert!(ratio >= whole(1), "{} acid {}", recipe.key, ratio),
                Role::Produce if source.acidity == Some(Acidity::LowAcid) =>
                    prop_assert!(ratio <= whole(1), "{} produce {}", recipe.key, line.key),
                Role::Liquid | Role::Thickener | Role::Fat =>
                    prop_assert!(ratio <= whole(1), "{} {}", recipe.key, line.key),
                Role::Salt if ferment => prop_assert!(ratio >= whole(1), "{} salt", recipe.key),
                Role::Sweetener if recipe.is_gel() => prop_assert!(ratio >= whole(1)),
                _ => {}
            }
            prop_assert_eq!(line.is_exact, line.measured == line.high);
        }
        for acid in &card.acid {
            prop_assert!(acid.measured_per_jar >= acid.exact_per_jar);
        }
    }

    #[test]
    fn more_produce_never_makes_fewer_jars(a in 1_i64..400, b in 1_i64..400) {
        let juice = recipe("tomato-juice");
        let (less, more) = (a.min(b), a.max(b));
        let small = jars_expected(juice, pounds(less), Jar::Pint).unwrap();
        let large = jars_expected(juice, pounds(more), Jar::Pint).unwrap();
        prop_assert!(small.full <= large.full && small.heat <= large.heat);
        prop_assert!(small.low <= small.likely_low && small.likely <= small.high);
        prop_assert!(small.heat > small.full);
    }
}
