//! Cards run over as many pages as they need and leave nothing out.

use crate::page::pages;
use print::{Blank, Block, Card, Paper, card};

fn blank(label: &str) -> Blank {
    Blank {
        label: label.to_owned(),
        hint: String::new(),
    }
}

fn one(blocks: Vec<Block>) -> Card {
    Card {
        title: "Tomato juice".into(),
        subtitle: "Batch 4".into(),
        code: "226-22K".into(),
        blocks,
        foot: "Read in: the tables".into(),
        ..Card::default()
    }
}

#[test]
fn a_short_card_is_one_page_and_a_long_one_is_several_with_nothing_below_the_foot() {
    for paper in Paper::ALL {
        let short = pages(&card(&one(vec![Block::Tick("Rims are wiped".into())]), paper).unwrap());
        assert_eq!(short.len(), 1);
        let mut blocks = Vec::new();
        for step in 0..60 {
            blocks.push(Block::Heading(format!("Step {step}")));
            blocks.push(Block::Text(
                "Wash in cold water and sort out what is soft. ".repeat(4),
            ));
            blocks.push(Block::Blanks(vec![
                blank("from"),
                blank("to"),
                blank("by"),
                blank("note"),
            ]));
        }
        let long = pages(&card(&one(blocks), paper).unwrap());
        assert!(long.len() > 5);
        for page in &long {
            assert!((page.width - paper.width()).abs() < 0.02);
            for text in &page.texts {
                assert!(text.base < paper.height() - 10.0 && text.base > 10.0);
                assert!(text.left >= 14.9 && text.left < paper.width() - 14.9);
            }
            for line in &page.lines {
                assert!(line.to.0 <= paper.width() - 14.9 && line.to.1 < paper.height() - 10.0);
            }
        }
    }
}

#[test]
fn a_text_longer_than_a_page_goes_on_overleaf() {
    let text = "Keep the pot at a boil and stir. ".repeat(600);
    let all = pages(&card(&one(vec![Block::Text(text.clone())]), Paper::A4).unwrap());
    let short = pages(&card(&one(Vec::new()), Paper::A4).unwrap());
    let lines =
        |pages: &[crate::page::Page]| pages.iter().map(|page| page.texts.len()).sum::<usize>();
    assert!(all.len() >= 3, "{}", all.len());
    // 19,800 signs at some 110 a line.
    assert!(lines(&all) - lines(&short) > 140);
}

#[test]
fn every_blank_has_a_line_to_write_on() {
    let blanks: Vec<Blank> = (0..7).map(|nth| blank(&format!("blank {nth}"))).collect();
    let with = pages(&card(&one(vec![Block::Blanks(blanks)]), Paper::Letter).unwrap());
    let without = pages(&card(&one(Vec::new()), Paper::Letter).unwrap());
    assert_eq!(with[0].lines.len() - without[0].lines.len(), 7);
    assert_eq!(with[0].texts.len() - without[0].texts.len(), 7);
    let mut ends: Vec<(i64, i64, i64)> = with[0]
        .lines
        .iter()
        .map(|line| (line.from.1 as i64, line.from.0 as i64, line.to.0 as i64))
        .collect();
    ends.sort_unstable();
    for pair in ends.windows(2) {
        assert!(
            pair[0].0 != pair[1].0 || pair[0].2 < pair[1].1,
            "two lines run into each other"
        );
    }
}
