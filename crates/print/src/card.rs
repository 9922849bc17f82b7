//! Cards for the kitchen: a column of headings, lines, ticks and blanks on as many pages as it
//! takes. Nothing is split within a block, and no block stands on another.

use crate::canvas::{Canvas, POINTS, Side, Wish};
use crate::error::PrintError;
use crate::fit::wrap;
use crate::font::{ASCENT, Face, LINE};
use crate::paper::Paper;
use crate::qr::Square;
use crate::sheet::Area;
use serde::Serialize;

/// A card as plain words.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Card {
    /// What it is: "Tomato juice".
    pub title: String,
    /// Below it: "Batch 4 · Thursday 27 August".
    pub subtitle: String,
    /// Its code, with which it is typed in later; empty for none.
    pub code: String,
    /// Address of its page in the home network; empty for none.
    pub address: String,
    /// What stands on it, from the top.
    pub blocks: Vec<Block>,
    /// At the foot of every page: where figures come from.
    pub foot: String,
}

/// One piece of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Block {
    /// A heading; it never stands alone at the foot of a page.
    Heading(String),
    /// The words that must be seen first.
    Large(String),
    /// Running text.
    Text(String),
    /// Small text: sources, notes.
    Small(String),
    /// What is taken, in kitchen measures, in metric, and a note.
    Amount {
        /// "bottled lemon juice".
        name: String,
        /// "14 tbsp".
        kitchen: String,
        /// "207 mL".
        metric: String,
        /// "2 tbsp a jar; acid: never less".
        note: String,
    },
    /// A box to tick.
    Tick(String),
    /// Blanks to write in, side by side: what is asked, and what helps to answer.
    Blanks(Vec<Blank>),
    /// A line for a clock: what is timed, and the times to note.
    Timer {
        /// "Load 1: 45 minutes in boiling water".
        words: String,
        /// "boils at", "out at".
        times: Vec<String>,
    },
    /// Free lines.
    Lines(usize),
}

/// One blank.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Blank {
    /// "Jars out: quarts".
    pub label: String,
    /// "as counted"; empty for none.
    pub hint: String,
}

/// Margin on every side, in millimetres.
const MARGIN: f64 = 15.0;

/// Height of the foot line, in millimetres.
const FOOT: f64 = 8.0;

/// Height of a blank: enough for a wet hand with a pencil, in millimetres.
const BLANK: f64 = 11.0;

/// Sizes in points.
const BODY: f64 = 10.5;
const SMALL: f64 = 8.0;

/// A card as PDF bytes.
///
/// # Errors
/// An address too long for a square.
pub fn card(card: &Card, paper: Paper) -> Result<Vec<u8>, PrintError> {
    let mut flow = Flow::new(card, paper)?;
    flow.head()?;
    for (index, block) in card.blocks.iter().enumerate() {
        // A heading takes the height of what follows it along.
        let follows = match (block, card.blocks.get(index + 1)) {
            (Block::Heading(_), Some(next)) => flow.height(next),
            _ => 0.0,
        };
        flow.block(block, follows);
    }
    flow.finish()
}

struct Flow<'a> {
    card: &'a Card,
    canvas: Canvas,
    left: f64,
    width: f64,
    at: f64,
    bottom: f64,
}

impl<'a> Flow<'a> {
    fn new(card: &'a Card, paper: Paper) -> Result<Self, PrintError> {
        let title = format!("{} {}", card.title, card.code);
        Ok(Self {
            card,
            canvas: Canvas::new(paper, &title)?,
            left: MARGIN,
            width: paper.width() - 2.0 * MARGIN,
            at: MARGIN,
            bottom: paper.height() - MARGIN - FOOT,
        })
    }

    fn area(&self, height: f64) -> Area {
        Area {
            left: self.left,
            top: self.at,
            width: self.width,
            height,
        }
    }

    /// Title, subtitle, code and square on the first page.
    fn head(&mut self) -> Result<(), PrintError> {
        let side = 24.0;
        let right = if self.card.address.is_empty() {
            0.0
        } else {
            let square = Square::of(&self.card.address)?;
            let mut area = self.area(side);
            area.left = self.left + self.width - side;
            area.width = side;
            square.draw(&mut self.canvas, area);
            side + square.quiet(side)
        };
        let mut words = self.area(side);
        words.width -= right;
        let code = if self.card.code.is_empty() { 0.0 } else { 40.0 };
        let row = |top: f64, height: f64| Area {
            top: words.top + top,
            height,
            ..words
        };
        let narrow = |area: Area| Area {
            width: area.width - code,
            ..area
        };
        self.canvas.text(
            narrow(row(0.0, 16.0)),
            &self.card.title,
            Wish::new(Face::Bold, 22.0, 11.0),
        );
        self.canvas.text(
            narrow(row(16.5, 7.0)),
            &self.card.subtitle,
            Wish::new(Face::Plain, 11.0, 8.0),
        );
        if code > 0.0 {
            let at = |top: f64, height: f64| Area {
                left: words.left + words.width - code,
                top: words.top + top,
                width: code,
                height,
            };
            let wish = Wish::new(Face::Bold, 17.0, 10.0).to(Side::Right);
            self.canvas.text(at(0.0, 8.0), &self.card.code, wish);
            let wish = Wish::new(Face::Plain, SMALL, 6.0).to(Side::Right);
            let words = "code of this card: type it in to enter what was written";
            self.canvas.text(at(8.0, 8.0), words, wish);
        }
        self.at += side + 3.0;
        Ok(())
    }

    fn foot(&mut self) {
        let page = self.canvas.pages();
        let top = self.bottom + 3.0;
        let number = Area {
            left: self.left + self.width - 30.0,
            top,
            width: 30.0,
            height: FOOT - 3.0,
        };
        let name = if self.card.code.is_empty() {
            &self.card.title
        } else {
            &self.card.code
        };
        let text = format!("{name} · page {page}");
        let wish = Wish::new(Face::Plain, SMALL, 5.0).to(Side::Right);
        self.canvas.text(number, &text, wish);
        let words = Area {
            left: self.left,
            width: self.width - 32.0,
            ..number
        };
        self.canvas
            .text(words, &self.card.foot, Wish::new(Face::Plain, 7.0, 5.0));
    }

    fn turn(&mut self) {
        self.foot();
        self.canvas.turn();
        self.at = MARGIN;
    }

    /// Height of a block in millimetres, the gap after it included.
    fn height(&self, block: &Block) -> f64 {
        match block {
            Block::Heading(_) => 10.0,
            Block::Large(text) => self.lines(text, Face::Bold, 15.0, self.width).1 + 2.0,
            Block::Text(text) => self.lines(text, Face::Plain, BODY, self.width).1 + 1.2,
            Block::Small(text) => self.lines(text, Face::Plain, SMALL, self.width).1 + 1.0,
            Block::Amount {
                name,
                kitchen,
                metric,
                note,
            } => {
                let [a, b, c, d] = self.columns();
                let main = self
                    .lines(kitchen, Face::Bold, BODY, a.1)
                    .1
                    .max(self.lines(metric, Face::Plain, BODY, b.1).1)
                    .max(self.lines(name, Face::Plain, BODY, c.1).1)
                    .max(self.lines(note, Face::Plain, SMALL, d.1).1);
                main + 1.6
            }
            Block::Tick(text) => {
                (self.lines(text, Face::Plain, BODY, self.width - TICK).1 + 2.0).max(TICK)
            }
            Block::Blanks(blanks) => {
                let rows = blanks.len().div_ceil(BESIDE);
                rows as f64 * (BLANK + 1.0)
            }
            Block::Timer { words, .. } => {
                self.lines(words, Face::Bold, BODY, self.width).1 + BLANK + 2.0
            }
            Block::Lines(count) => *count as f64 * 9.0,
        }
    }

    fn lines(&self, text: &str, face: Face, size: f64, width: f64) -> (Vec<String>, f64) {
        let text = crate::font::one_line(text);
        let lines = wrap(self.canvas.ruler(face), &text, size, width * POINTS);
        let height = lines.len() as f64 * size * LINE / POINTS;
        (lines, height)
    }

    /// Left edges and widths of the columns of an amount.
    fn columns(&self) -> [(f64, f64); 4] {
        let gap = 3.0;
        let mut left = self.left;
        [0.22, 0.16, 0.27, 0.35].map(|share| {
            let column = (left, self.width * share - gap);
            left += self.width * share;
            column
        })
    }

    /// Draws a text from the top of an area, line by line.
    fn put(&mut self, left: f64, width: f64, top: f64, text: &str, face: Face, size: f64) {
        let (lines, height) = self.lines(text, face, size, width);
        let area = Area {
            left,
            top,
            width,
            height,
        };
        for (row, line) in lines.iter().enumerate() {
            let base = top + (row as f64 * LINE + ASCENT) * size / POINTS;
            self.canvas
                .line_of_text(area, base, line, size, Wish::new(face, size, size));
        }
    }

    /// A text longer than a page is drawn piece by piece; every other block is shorter than one.
    fn block(&mut self, block: &Block, follows: f64) {
        let height = self.height(block);
        let page = self.bottom - MARGIN;
        if self.at + (height + follows).min(page) > self.bottom && self.at > MARGIN {
            self.turn();
        }
        let (left, width, top) = (self.left, self.width, self.at);
        match block {
            Block::Heading(text) => {
                self.put(left, width, top + 2.5, text, Face::Bold, 12.0);
                let line = top + 8.6;
                self.canvas
                    .line((left, line), (left + width, line), 0.3, None);
            }
            Block::Large(text) => return self.running(text, Face::Bold, 15.0, 2.0),
            Block::Text(text) => return self.running(text, Face::Plain, BODY, 1.2),
            Block::Small(text) => return self.running(text, Face::Plain, SMALL, 1.0),
            Block::Amount {
                name,
                kitchen,
                metric,
                note,
            } => {
                let [a, b, c, d] = self.columns();
                self.put(a.0, a.1, top, kitchen, Face::Bold, BODY);
                self.put(b.0, b.1, top, metric, Face::Plain, BODY);
                self.put(c.0, c.1, top, name, Face::Plain, BODY);
                self.put(d.0, d.1, top + 0.6, note, Face::Plain, SMALL);
                let line = top + height - 0.6;
                self.canvas
                    .line((left, line), (left + width, line), 0.1, None);
            }
            Block::Tick(text) => {
                let side = 4.5;
                self.canvas.edges(
                    Area {
                        left,
                        top: top + 0.4,
                        width: side,
                        height: side,
                    },
                    0.4,
                );
                self.put(
                    left + TICK,
                    width - TICK,
                    top + 0.4,
                    text,
                    Face::Plain,
                    BODY,
                );
            }
            Block::Blanks(blanks) => self.blanks(blanks),
            Block::Timer { words, times } => {
                self.put(left, width, top, words, Face::Bold, BODY);
                self.at += self.lines(words, Face::Bold, BODY, width).1;
                let blanks: Vec<Blank> = times
                    .iter()
                    .map(|time| Blank {
                        label: time.clone(),
                        hint: String::new(),
                    })
                    .collect();
                self.blanks(&blanks);
                self.at = top;
            }
            Block::Lines(count) => {
                for line in 1..=*count {
                    let at = top + line as f64 * 9.0 - 1.5;
                    self.canvas.line((left, at), (left + width, at), 0.2, None);
                }
            }
        }
        self.at += height;
    }

    fn running(&mut self, text: &str, face: Face, size: f64, gap: f64) {
        let (lines, _) = self.lines(text, face, size, self.width);
        let step = size * LINE / POINTS;
        for line in lines {
            if self.at + step > self.bottom {
                self.turn();
            }
            let area = self.area(step);
            let base = self.at + ASCENT * size / POINTS;
            self.canvas
                .line_of_text(area, base, &line, size, Wish::new(face, size, size));
            self.at += step;
        }
        self.at += gap;
    }

    fn blanks(&mut self, blanks: &[Blank]) {
        let gap = 4.0;
        let beside = blanks.len().clamp(1, BESIDE);
        let width = (self.width - gap * (beside as f64 - 1.0)) / beside as f64;
        for (row, blanks) in blanks.chunks(BESIDE).enumerate() {
            let top = self.at + row as f64 * (BLANK + 1.0);
            for (column, blank) in blanks.iter().enumerate() {
                let left = self.left + column as f64 * (width + gap);
                let line = top + BLANK - 1.0;
                let label = Area {
                    left,
                    top: top + 0.5,
                    width,
                    height: 4.0,
                };
                let text = if blank.hint.is_empty() {
                    blank.label.clone()
                } else {
                    format!("{} ({})", blank.label, blank.hint)
                };
                self.canvas
                    .text(label, &text, Wish::new(Face::Plain, SMALL, 5.5));
                self.canvas
                    .line((left, line), (left + width, line), 0.3, None);
            }
        }
    }

    fn finish(mut self) -> Result<Vec<u8>, PrintError> {
        self.foot();
        self.canvas.finish()
    }
}

/// Width of a tick's column, in millimetres.
const TICK: f64 = 7.0;

/// Blanks that stand side by side.
const BESIDE: usize = 3;
