//! Labels lie where the sheet has them, to a tenth of a millimetre and better.

use crate::page::{Line, Page, pages};
use print::{Area, JarLabel, Label, Laying, Paper, PrintError, SHEETS, labels, outline_page};

/// Half a tenth of what a pair of scissors can do.
const CLOSE: f64 = 0.02;

fn jar(number: usize) -> Label {
    Label::Jar(JarLabel {
        product: "Crushed tomatoes".into(),
        container: format!("Quart {number} of 40"),
        batch: "Batch 4, load 1".into(),
        made: "Made 13 August 2026".into(),
        best: "best within a year".into(),
        place: "Shelf".into(),
        code: "22K-23F".into(),
        address: "http://stillroom.home.arpa:7310/jar/22K-23F".into(),
        ..JarLabel::default()
    })
}

fn has_line(page: &Page, from: (f64, f64), to: (f64, f64)) -> bool {
    let near =
        |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).abs() < CLOSE && (a.1 - b.1).abs() < CLOSE;
    page.lines.iter().any(|line| {
        near(line.from, from) && near(line.to, to) || near(line.from, to) && near(line.to, from)
    })
}

fn has_edges(page: &Page, left: f64, top: f64, width: f64, height: f64) -> bool {
    let (right, bottom) = (left + width, top + height);
    has_line(page, (left, top), (right, top))
        && has_line(page, (right, top), (right, bottom))
        && has_line(page, (left, bottom), (right, bottom))
        && has_line(page, (left, top), (left, bottom))
}

#[test]
fn the_thirty_up_sheet_has_its_labels_where_the_common_die_cuts() {
    let page = &pages(&outline_page(&Laying::on("30-letter").unwrap()).unwrap())[0];
    assert!((page.width - 215.9).abs() < CLOSE && (page.height - 279.4).abs() < CLOSE);
    // 3 x 2 5/8 in with gaps of 1/8 in and margins of 3/16 in; 10 x 1 in with margins of 1/2 in.
    for row in 0..10 {
        for column in 0..3 {
            let left = 25.4 * (3.0 / 16.0 + 2.75 * f64::from(column));
            let top = 25.4 * (0.5 + f64::from(row));
            assert!(has_edges(page, left, top, 66.675, 25.4), "{row} {column}");
        }
    }
}

#[test]
fn the_twenty_four_up_sheet_fills_the_width_of_a4() {
    let page = &pages(&outline_page(&Laying::on("24-a4").unwrap()).unwrap())[0];
    assert!((page.width - 210.0).abs() < CLOSE && (page.height - 297.0).abs() < CLOSE);
    for row in 0..8 {
        for column in 0..3 {
            let (left, top) = (70.0 * f64::from(column), 0.5 + 37.0 * f64::from(row));
            assert!(has_edges(page, left, top, 70.0, 37.0), "{row} {column}");
        }
    }
}

#[test]
fn every_sheet_lies_on_its_paper_and_no_label_on_another() {
    for sheet in SHEETS {
        let areas: Vec<Area> = (0..sheet.labels()).map(|nth| sheet.area(nth)).collect();
        for (index, area) in areas.iter().enumerate() {
            assert!(area.left >= -1e-9 && area.right() <= sheet.paper.width() + 1e-9);
            assert!(area.top >= -1e-9 && area.bottom() <= sheet.paper.height() + 1e-9);
            for other in &areas[..index] {
                let shared = area.within(*other);
                assert!(shared.width * shared.height < 1e-9, "{}", sheet.key);
            }
        }
    }
}

#[test]
fn both_rulers_of_the_test_page_are_as_long_as_they_say() {
    for sheet in SHEETS {
        let page = &pages(&outline_page(&Laying::on(sheet.key).unwrap()).unwrap())[0];
        let level = |line: &&Line| (line.from.1 - line.to.1).abs() < 1e-6;
        let lengths: Vec<f64> = page
            .lines
            .iter()
            .filter(level)
            .map(|line| (line.to.0 - line.from.0).abs())
            .collect();
        for wanted in [100.0, 101.6] {
            let found = lengths.iter().filter(|have| (*have - wanted).abs() < 0.01);
            assert_eq!(found.count(), 1, "{wanted} mm on {}", sheet.key);
        }
    }
}

#[test]
fn an_offset_moves_everything_and_nothing_else() {
    let all: Vec<Label> = (1..=5).map(jar).collect();
    let plain = Laying::on("30-letter").unwrap();
    let moved = Laying {
        offset_x: 0.5,
        offset_y: -0.3,
        ..plain
    };
    let before = &pages(&labels(&all, &plain, true).unwrap())[0];
    let after = &pages(&labels(&all, &moved, true).unwrap())[0];
    assert_eq!(before.filled.len(), after.filled.len());
    assert_eq!(before.texts.len(), after.texts.len());
    for (one, other) in before.lines.iter().zip(&after.lines) {
        assert!((other.from.0 - one.from.0 - 0.5).abs() < 1e-3);
        assert!((other.from.1 - one.from.1 + 0.3).abs() < 1e-3);
    }
}

#[test]
fn a_part_used_sheet_begins_at_the_label_asked_for() {
    let from_seven = Laying {
        from: 7,
        ..Laying::on("30-letter").unwrap()
    };
    let page = &pages(&labels(&[jar(1)], &from_seven, true).unwrap())[0];
    // The seventh label is the first of the third row.
    assert!(has_edges(page, 4.7625, 63.5, 66.675, 25.4));
    assert_eq!(page.lines.len(), 4, "one label only");
    let last_and_over = Laying {
        from: 30,
        ..from_seven
    };
    let both = pages(&labels(&[jar(1), jar(2)], &last_and_over, true).unwrap());
    assert_eq!(both.len(), 2);
    assert!(has_edges(&both[1], 4.7625, 12.7, 66.675, 25.4));
}

#[test]
fn wishes_that_no_sheet_can_meet_are_errors() {
    let on = |from: usize, offset_x: f64| Laying {
        from,
        offset_x,
        ..Laying::on("24-a4").unwrap()
    };
    for (from, offset) in [(0, 0.0), (25, 0.0), (1, 10.5), (1, f64::NAN)] {
        assert!(labels(&[jar(1)], &on(from, offset), false).is_err());
    }
    assert_eq!(
        Laying::on("12-up").unwrap_err(),
        PrintError::UnknownSheet("12-up".into())
    );
    assert!("a5".parse::<Paper>().is_err());
}

#[test]
fn the_same_labels_are_the_same_bytes_and_all_black() {
    let all: Vec<Label> = (1..=30).map(jar).collect();
    let laying = Laying::on("30-letter").unwrap();
    let bytes = labels(&all, &laying, true).unwrap();
    assert_eq!(bytes, labels(&all, &laying, true).unwrap());
    let text = String::from_utf8_lossy(&bytes);
    assert!(!text.contains("CreationDate") && !text.contains("CreateDate"));
    for page in pages(&bytes) {
        assert!(!page.colours.is_empty());
        for colour in &page.colours {
            assert!(
                colour == "0 g" || colour == "0 G" || colour.starts_with("/c"),
                "{colour}"
            );
        }
    }
}

#[test]
fn sheets_to_cut_have_a_line_along_every_label() {
    let laying = Laying::on("cut-a4").unwrap();
    let page = &pages(&labels(&[jar(1)], &laying, false).unwrap())[0];
    for column in 0..=3 {
        let at = 10.5 + 63.0 * f64::from(column);
        assert!(has_line(page, (at, 12.5), (at, 284.5)));
    }
    for row in 0..=8 {
        let at = 12.5 + 34.0 * f64::from(row);
        assert!(has_line(page, (10.5, at), (199.5, at)));
    }
}

#[test]
fn however_long_the_words_no_line_stands_on_another_or_outside_its_label() {
    let long = "Bread-and-butter cucumber and green tomato relish with mustard seed, \
                celery seed and turmeric from the long bed behind the shed "
        .repeat(3);
    let label = Label::Jar(JarLabel {
        product: long.clone(),
        container: long.clone(),
        batch: long.clone(),
        made: long.clone(),
        ripen_until: long.clone(),
        best: long.clone(),
        place: long.clone(),
        code: "22K-23F".into(),
        address: "http://stillroom.home.arpa:7310/jar/22K-23F".into(),
    });
    for sheet in SHEETS {
        let laying = Laying::on(sheet.key).unwrap();
        let page =
            &pages(&labels(&vec![label.clone(); sheet.labels()], &laying, false).unwrap())[0];
        for nth in 0..sheet.labels() {
            let area = sheet.area(nth);
            let mut inside: Vec<_> = page
                .texts
                .iter()
                .filter(|text| {
                    text.left >= area.left
                        && text.left < area.right()
                        && text.base > area.top
                        && text.base <= area.bottom()
                })
                .collect();
            assert!(inside.len() >= 5, "{} {}", sheet.key, inside.len());
            inside.sort_by(|a, b| a.base.total_cmp(&b.base));
            for pair in inside.windows(2) {
                let room = pair[1].base - pair[0].base;
                // Ascent of the lower line and descent of the upper one.
                let need = 0.93 * pair[1].size + 0.23 * pair[0].size;
                assert!(
                    room > need - 0.05,
                    "{} label {nth}: {room} < {need}",
                    sheet.key
                );
            }
        }
    }
}
