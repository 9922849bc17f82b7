//! What people type is understood or refused with the reason; what is shown reads as people talk.

use proptest::prelude::*;
use quantity::{
    Elevation, Exact, Mass, MassUnit, QuantityError, Volume, VolumeUnit, exact, parse, show, whole,
};

fn fraction(n: i128, d: i128) -> Exact {
    exact(n, d).expect("a test writes no zero below the line")
}

#[test]
fn numbers_as_people_write_them() {
    for (text, value) in [
        ("2 1/4", fraction(9, 4)),
        ("1/3", fraction(1, 3)),
        ("2.25", fraction(9, 4)),
        (".5", fraction(1, 2)),
        (" 7 ", whole(7)),
        ("\u{bd}", fraction(1, 2)),
        ("2\u{bd}", fraction(5, 2)),
        ("2 \u{be}", fraction(11, 4)),
    ] {
        assert_eq!(parse::number(text), Ok(value), "{text}");
    }
}

#[test]
fn weights_as_people_write_them() {
    for (text, ounces) in [
        ("24 lb", whole(384)),
        ("24lb", whole(384)),
        ("3 lb 4 oz", whole(52)),
        ("3 lb + 4 oz", whole(52)),
        ("2 1/4 pounds", whole(36)),
        ("4 oz", whole(4)),
    ] {
        assert_eq!(
            parse::mass(text).map(|m| m.in_unit(MassUnit::Ounce)),
            Ok(ounces),
            "{text}"
        );
    }
    assert_eq!(parse::mass("10.5kg"), Ok(Mass::from_grams(10_500)));
    assert_eq!(parse::mass("0 lb"), Ok(Mass::ZERO));
}

#[test]
fn volumes_as_people_write_them() {
    for (text, teaspoons) in [
        ("2 1/4 cups", whole(108)),
        ("6 tbsp + 2 tsp", whole(20)),
        ("1 cup and 2 tbsp", whole(54)),
        ("1 fl. oz", whole(6)),
        ("2 QUARTS", whole(384)),
    ] {
        assert_eq!(
            parse::volume(text).map(|v| v.in_unit(VolumeUnit::Teaspoon)),
            Ok(teaspoons),
            "{text}"
        );
    }
    assert_eq!(parse::volume("500 ml"), parse::volume("2 metric cups"));
    assert_eq!(parse::volume("5 dl"), parse::volume("0.5 L"));
}

#[test]
fn bad_weights_are_refused_with_the_reason_and_a_text_that_works() {
    let message = |text: &str| parse::picking_mass(text).unwrap_err().to_string();
    assert!(message("24 stone").contains("\"stone\""));
    assert!(message("-3 lb").contains("below zero"));
    assert!(message("0 kg").contains("is nothing"));
    assert!(message("20000 lb").contains("2,000 lb"));
    assert!(message("2000.1 lb").contains("2,000 lb"));
    assert!(message("24").contains("no unit"));
    assert!(message("3 cups").contains("measures volume"));
    assert!(message("1,500 lb").contains("comma"));
    assert!(message("1/0 lb").contains("divides by zero"));
    assert!(message("").contains("nothing was typed"));
    assert!(message("heavy").contains("not a number"));
    assert!(message("12345678901234567890 lb").contains("fewer digits"));
    assert!(message("1.2.3 kg").contains("not a number"));
    assert!(message("3 lb 4").contains("no unit"));
    for text in [
        "24 stone", "-3 lb", "0 kg", "20000 lb", "24", "3 cups", "heavy", "",
    ] {
        assert!(message(text).contains("24 lb"), "no example for {text:?}");
    }
    assert!(parse::picking_mass("2000 lb").is_ok());
    assert!(matches!(
        parse::volume("3 lb"),
        Err(QuantityError::WrongKind { .. })
    ));
}

#[test]
fn a_tablespoon_is_never_guessed_from_a_letter() {
    // "T" and "t" differ by a factor of three and only by case.
    assert!(matches!(
        parse::volume("2 T"),
        Err(QuantityError::UnknownUnit { .. })
    ));
}

#[test]
fn elevations() {
    assert_eq!(parse::elevation("2500ft"), Ok(Elevation::feet(whole(2500))));
    for text in [
        "950+-60 ft",
        "950 ft \u{b1} 60",
        "950 ft +/- 60 ft",
        "950 +- 60 feet",
    ] {
        assert_eq!(
            parse::elevation(text),
            Ok(Elevation {
                low_ft: whole(890),
                high_ft: whole(1010)
            }),
            "{text}"
        );
    }
    assert_eq!(parse::elevation("-10 ft"), Ok(Elevation::feet(whole(-10))));
    // 305 m lies above 1,000 ft: the exact feet decide the row.
    let metric = parse::elevation("305 m").unwrap();
    assert!(metric.high_ft > fraction(100_065, 100) && metric.high_ft < fraction(100_066, 100));
    assert_eq!(metric.high_ft * fraction(3048, 10_000), whole(305));
    for text in ["2500", "40000 ft", "ft", "2500 yards", "950 +- ft"] {
        assert!(parse::elevation(text).is_err(), "{text}");
    }
}

#[test]
fn temperatures_minutes_and_strengths() {
    assert_eq!(
        parse::temperature("21 C").map(|t| t.fahrenheit()),
        Ok(fraction(349, 5))
    );
    assert_eq!(
        parse::temperature("70F").map(|t| t.celsius()),
        Ok(fraction(190, 9))
    );
    assert_eq!(
        parse::temperature("-4 \u{b0}F").map(|t| t.celsius()),
        Ok(whole(-20))
    );
    assert!(parse::temperature("70").is_err());
    assert!(parse::temperature("-500 F").is_err());

    for (text, minutes) in [
        ("1h30", 90),
        ("1 h 25 min", 85),
        ("45 min", 45),
        ("45", 45),
        ("1.5 h", 90),
        ("2 hours", 120),
    ] {
        assert_eq!(parse::minutes(text), Ok(minutes), "{text}");
    }
    assert!(parse::minutes("1/3 min").is_err());
    assert!(parse::minutes("soon").is_err());
    assert!(parse::minutes("99999999999999 days").is_ok());
    assert!(parse::minutes("999999999999999 days").is_ok());

    for text in ["5%", "5 %", "5 percent", "5"] {
        assert_eq!(
            parse::percent(text).map(|p| p.number()),
            Ok(whole(5)),
            "{text}"
        );
    }
    assert!(parse::percent("120%").is_err());
}

#[test]
fn amounts_are_shown_in_both_systems() {
    let lb = |n| Mass::of(n, MassUnit::Pound);
    assert_eq!(lb(24).to_string(), "24 lb (10.9 kg)");
    assert_eq!(lb(300).to_string(), "300 lb (136 kg)");
    assert_eq!(
        Mass::of(52, MassUnit::Ounce).to_string(),
        "3 1/4 lb (1.47 kg)"
    );
    assert_eq!(
        Mass::of(53, MassUnit::Ounce).to_string(),
        "3 lb 5 oz (1.5 kg)"
    );
    assert_eq!(Mass::of(4, MassUnit::Ounce).to_string(), "4 oz (113 g)");
    assert_eq!(Mass::from_grams(10_500).to_string(), "23 lb 2 oz (10.5 kg)");
    assert_eq!(Mass::from_grams(3).to_string(), "under 1/4 oz (3 g)");
    // Rounding up to sixteen ounces makes the next pound, never "23 lb 16 oz".
    assert_eq!(show::mass(Mass::from_grams(10_885)).us, "24 lb");

    let acid = Volume::of(14, VolumeUnit::Tablespoon);
    assert_eq!(acid.to_string(), "3/4 cup + 2 tbsp (207 mL)");
    assert_eq!(
        Volume::of(7, VolumeUnit::Quart).to_string(),
        "7 qt (6.62 L)"
    );
    assert_eq!(
        show::volume(Volume::of(30, VolumeUnit::Cup)).us,
        "7 qt + 2 cups"
    );
}

#[test]
fn numbers_times_and_places_are_shown_as_people_talk() {
    assert_eq!(show::number(fraction(9, 4)), "2 1/4");
    assert_eq!(show::number(fraction(1, 3)), "1/3");
    assert_eq!(show::number(fraction(96, 13)), "7.38");
    assert_eq!(show::number(fraction(-5, 2)), "-2 1/2");
    assert_eq!(show::decimal(fraction(1999, 1000), 2), "2");
    assert_eq!(show::decimal(fraction(1, 20), 2), "0.05");
    assert_eq!(show::decimal(fraction(-1, 1000), 2), "0");
    assert_eq!(show::minutes(85), "1 h 25 min");
    assert_eq!(show::minutes(45), "45 min");
    assert_eq!(show::minutes(120), "2 h");
    let place = parse::elevation("620 ft").unwrap();
    assert_eq!(show::elevation(&place).to_string(), "620 ft (189 m)");
    let unsure = parse::elevation("950 +- 60 ft").unwrap();
    assert_eq!(show::elevation(&unsure).us, "890 to 1010 ft");
    // Above the edge stays above the edge in words.
    assert_eq!(
        show::elevation(&parse::elevation("305 m").unwrap()).us,
        "1000.66 ft"
    );
}

proptest! {
    #[test]
    fn what_is_shown_is_read_back_the_same(whole_part in 0_i128..100_000, sixteenths in 0_i128..16) {
        let value = Exact::new(whole_part * 16 + sixteenths, 16);
        prop_assert_eq!(parse::number(&show::number(value)), Ok(value));
        let thirds = Exact::new(whole_part * 3 + sixteenths % 3, 3);
        prop_assert_eq!(parse::number(&show::number(thirds)), Ok(thirds));
    }

    #[test]
    fn minutes_are_read_back_the_same(minutes in 0_i64..10_000) {
        prop_assert_eq!(parse::minutes(&show::minutes(minutes)), Ok(minutes));
    }

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,30}") {
        let _ = parse::number(&text);
        let _ = parse::mass(&text);
        let _ = parse::volume(&text);
        let _ = parse::elevation(&text);
        let _ = parse::temperature(&text);
        let _ = parse::minutes(&text);
        let _ = parse::percent(&text);
    }

    #[test]
    fn nearly_right_texts_never_panic(text in "[-+0-9 ./\u{bd}\u{b1}]{0,14}(lb|oz|ft|m|h|cups|fl oz|%)?[0-9 ]{0,4}") {
        let _ = parse::mass(&text).map(|m| m.to_string());
        let _ = parse::volume(&text).map(|v| v.to_string());
        let _ = parse::elevation(&text).map(|e| show::elevation(&e));
        let _ = parse::minutes(&text).map(show::minutes);
    }
}
