//! Where water boils at an elevation, and how hot steam is under a gauge: information, never a
//! process.
//!
//! The air's pressure is that of the standard atmosphere, the temperature that of saturated steam
//! by IAPWS-IF97. Weather moves the true boiling point by a degree Fahrenheit or so. The gate
//! cannot see this module, and no time or pressure is ever worked out here.

use quantity::{Elevation, Exact, Temperature, exact, to_f64};

/// What stands beside every figure of this module.
pub const MARK: &str = "computed from the standard atmosphere and IF97; information, not a process";

/// Pressure at sea level in the standard atmosphere, kilopascals.
const SEA_LEVEL_KPA: f64 = 101.325;

/// Share of the sea-level temperature lost with each metre: 0.0065 K of 288.15 K.
const LAPSE_PER_METRE: f64 = 0.0065 / 288.15;

/// Exponent of the standard atmosphere's lowest layer.
const EXPONENT: f64 = 5.255_88;

/// Metres in a foot.
const METRES_PER_FOOT: f64 = 0.3048;

/// Kilopascals in a pound per square inch.
const KPA_PER_PSI: f64 = 6.894_757_293_168_361;

/// Lowest and highest pressure answered, kilopascals: more than any kitchen or canner has.
const ANSWERED_KPA: (f64, f64) = (10.0, 500.0);

/// Temperature at which water boils at the upper end of an elevation, open to the air; none where
/// the elevation is beyond the atmosphere's lowest layer.
pub fn boils_at(elevation: &Elevation) -> Option<Temperature> {
    saturation(air_kpa(elevation)?)
}

/// Temperature of steam when a true gauge shows `psi` at the upper end of an elevation.
pub fn steam_at(elevation: &Elevation, psi: Exact) -> Option<Temperature> {
    saturation(air_kpa(elevation)? + to_f64(psi) * KPA_PER_PSI)
}

/// Pressure of the air by the standard atmosphere, kilopascals.
fn air_kpa(elevation: &Elevation) -> Option<f64> {
    let metres = to_f64(elevation.high_ft.max(elevation.low_ft)) * METRES_PER_FOOT;
    // The lowest layer ends at 11 km; the power of what is below nothing is no number.
    let share = 1.0 - LAPSE_PER_METRE * metres;
    (metres.abs() <= 11_000.0).then(|| SEA_LEVEL_KPA * share.powf(EXPONENT))
}

/// Saturation temperature at a pressure. The library answers -9999 for what it cannot do and
/// passes what is no number through, so only a pressure within bounds is asked for and only a
/// temperature between ice and the boiler is believed.
fn saturation(kpa: f64) -> Option<Temperature> {
    let (least, most) = ANSWERED_KPA;
    if !(least..=most).contains(&kpa) {
        return None;
    }
    let celsius = seuif97::px2t(kpa / 1000.0, 0.0);
    if !(1.0..=200.0).contains(&celsius) {
        return None;
    }
    // Finer than a thousandth is beyond what the atmosphere's formula means.
    let thousandths = (celsius * 1000.0).round() as i128;
    Temperature::from_celsius(exact(thousandths, 1000).ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{parse, whole};
    use reference::Reference;

    fn celsius(kpa: f64) -> f64 {
        to_f64(saturation(kpa).unwrap().celsius())
    }

    /// Values worked out beforehand with the same release of the steam tables (x = 0 and x = 1
    /// agree); a thousandth of a degree is our own rounding.
    #[test]
    fn saturation_agrees_with_the_steam_tables() {
        for (kpa, wanted) in [
            (101.325, 99.9743),
            (84.3, 94.9006),
            (101.325 + 10.0 * KPA_PER_PSI, 115.1981),
            (84.3 + 10.0 * KPA_PER_PSI, 111.9941),
            (101.325 + 5.0 * KPA_PER_PSI, 108.3913),
            (101.325 + 15.0 * KPA_PER_PSI, 120.9547),
            (84.3 + 15.0 * KPA_PER_PSI, 118.2200),
            // The check value that the formulation itself publishes: 372.755919 K at 0.1 MPa.
            (100.0, 372.755_919 - 273.15),
        ] {
            assert!(
                (celsius(kpa) - wanted).abs() < 0.0006,
                "{kpa}: {}",
                celsius(kpa)
            );
        }
    }

    #[test]
    fn what_the_library_cannot_answer_is_no_temperature() {
        for kpa in [f64::NAN, f64::INFINITY, -1.0, 0.0, 0.5, 22_064.0, 1e9] {
            assert_eq!(saturation(kpa), None, "{kpa}");
        }
        let beyond = Elevation::feet(whole(60_000));
        assert_eq!(boils_at(&beyond), None);
        assert_eq!(boils_at(&Elevation::feet(whole(i64::MAX))), None);
        let here = Elevation::feet(whole(0));
        assert_eq!(steam_at(&here, whole(1_000_000)), None);
        assert_eq!(steam_at(&here, whole(-40)), None);
    }

    /// The table of our reference was worked out with another vapour formula and rounded to a
    /// tenth; the printed lists are rounded to a tenth or to whole degrees and leave the rounding
    /// at each thousand feet to their makers. Within a fifth of a degree of the computed lines,
    /// half a degree of those read to a tenth, and nine tenths of the one page of whole degrees.
    #[test]
    fn boiling_points_agree_with_the_elevation_table() {
        let mut compared = 0;
        for row in Reference::embedded().boiling_points() {
            let place = Elevation::feet(whole(row.elevation_ft.into()));
            let ours = to_f64(boils_at(&place).unwrap().fahrenheit());
            let theirs = to_f64(row.boiling_f.single().unwrap());
            let whole_degrees = row.source.contains("rounded boiling points");
            let most = match row.basis.as_str() {
                "computed" => 0.2,
                _ if whole_degrees => 0.9,
                _ => 0.5,
            };
            assert!(
                (ours - theirs).abs() <= most,
                "{} ft: {ours:.2}, the table has {theirs} ({})",
                row.elevation_ft,
                row.source
            );
            compared += 1;
        }
        assert!(compared >= 28);
    }

    /// As above: three tenths of a degree to the computed lines (the two vapour formulas part by two
    /// tenths at 216 F, and the table is rounded to a tenth), seven tenths to the whole degrees
    /// that the guide prints (240 F at 10 and at 10.5 psi cannot both be exact).
    #[test]
    fn steam_agrees_with_the_canner_table() {
        let mut compared = 0;
        for row in Reference::embedded().canner_steam() {
            let place = Elevation::feet(whole(row.elevation_ft.into()));
            let ours = to_f64(
                steam_at(&place, row.psi.single().unwrap())
                    .unwrap()
                    .fahrenheit(),
            );
            let theirs = to_f64(row.steam_f.single().unwrap());
            let most = if row.basis == "computed" { 0.3 } else { 0.7 };
            assert!(
                (ours - theirs).abs() <= most,
                "{} psi at {} ft: {ours:.2}, the table has {theirs}",
                row.psi,
                row.elevation_ft
            );
            compared += 1;
        }
        assert!(compared >= 80);
    }

    #[test]
    fn higher_is_cooler_and_the_upper_end_of_an_interval_counts() {
        let place = |text| parse::elevation(text).unwrap();
        let at = |text| boils_at(&place(text)).unwrap();
        assert!(at("-10 ft") > at("0 ft") && at("0 ft") > at("3000 ft"));
        assert_eq!(at("950 ft ± 60"), at("1010 ft"));
        assert!(steam_at(&place("2000 ft"), whole(10)) > steam_at(&place("2000 ft"), whole(5)));
    }
}
