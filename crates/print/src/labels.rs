//! Labels of all kinds on a sheet: what each shows, and where on the label it stands.

use crate::canvas::{Canvas, POINTS, Side, Wish};
use crate::error::PrintError;
use crate::font::{Face, LINE};
use crate::qr::{QUIET, Square};
use crate::sheet::{Area, Laying};
use serde::Serialize;

/// One label as plain words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Label {
    /// For a jar or bag that stands in a place.
    Jar(JarLabel),
    /// For a jar that is given away.
    Gift(GiftLabel),
    /// For seed kept for another year.
    Seed(SeedLabel),
}

/// What stands on a jar or bag. Empty texts are left out.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct JarLabel {
    /// What is in it.
    pub product: String,
    /// "Quart 3 of 7".
    pub container: String,
    /// "Batch 4, load 1".
    pub batch: String,
    /// "Made 13 August 2026".
    pub made: String,
    /// "Ripens until 10 September 2026".
    pub ripen_until: String,
    /// "Best by 13 August 2027".
    pub best: String,
    /// "Shelf".
    pub place: String,
    /// Its short code.
    pub code: String,
    /// Address of its page in the home network; empty for none.
    pub address: String,
}

/// What stands on a jar that is given away.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct GiftLabel {
    /// What is in it.
    pub product: String,
    /// Who made it and when.
    pub made: String,
    /// "Contains: tomatoes, sugar, bottled lemon juice".
    pub ingredients: String,
    /// What some people must know: "Contains celery.", "Honey: not for infants under 12 months."
    pub flags: Vec<String>,
    /// How to keep it.
    pub keep: String,
    /// Its short code.
    pub code: String,
}

/// What stands on a packet of seed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SeedLabel {
    /// "Paste tomato".
    pub crop: String,
    /// The household's own name for the sort.
    pub variety: String,
    /// "Saved 27 August 2026".
    pub saved: String,
    /// How much.
    pub amount: String,
    /// "Sow within about 5 years", with whatever else helps.
    pub notes: Vec<String>,
    /// Where it lies.
    pub place: String,
}

/// White kept between a label's edge and what stands on it, in millimetres.
const PADDING: f64 = 2.5;

/// White kept along the paper's edge, where many printers do not reach, in millimetres (common
/// practice, no source).
const UNPRINTED: f64 = 5.0;

/// Longest side of the square on a label, in millimetres.
const SQUARE: f64 = 20.0;

/// A sheet of labels as PDF bytes; as many pages as it takes. With `outline`, the edges of each
/// label are drawn too.
///
/// # Errors
/// A first label beyond the sheet, an offset no printer needs, an address too long for a square.
pub fn labels(labels: &[Label], laying: &Laying, outline: bool) -> Result<Vec<u8>, PrintError> {
    laying.check()?;
    let mut canvas = Canvas::new(laying.sheet.paper, title(labels))?;
    if laying.sheet.cut && !labels.is_empty() {
        cut_lines(&mut canvas, laying);
    }
    for (nth, label) in labels.iter().enumerate() {
        let (page, cell) = laying.place(nth);
        while canvas.pages() <= page {
            canvas.turn();
            if laying.sheet.cut {
                cut_lines(&mut canvas, laying);
            }
        }
        if outline {
            canvas.edges(cell, HAIR);
        }
        let inner = printable(&canvas, cell);
        match label {
            Label::Jar(jar) => jar_label(&mut canvas, inner, jar)?,
            Label::Gift(gift) => gift_label(&mut canvas, inner, gift),
            Label::Seed(seed) => seed_label(&mut canvas, inner, seed),
        }
    }
    canvas.finish()
}

/// A thin line, in millimetres.
pub(crate) const HAIR: f64 = 0.2;

fn title(labels: &[Label]) -> &'static str {
    match labels.first() {
        Some(Label::Gift(_)) => "Gift labels",
        Some(Label::Seed(_)) => "Seed packets",
        Some(Label::Jar(_)) | None => "Labels",
    }
}

/// The part of a label that is printed on: inside its own padding and off the paper's edge.
fn printable(canvas: &Canvas, cell: Area) -> Area {
    let paper = Area {
        left: 0.0,
        top: 0.0,
        width: canvas.paper().width(),
        height: canvas.paper().height(),
    };
    cell.without(PADDING).within(paper.without(UNPRINTED))
}

/// Dashed lines between the labels of a sheet that is cut.
fn cut_lines(canvas: &mut Canvas, laying: &Laying) {
    let sheet = laying.sheet;
    let left = sheet.left + laying.offset_x;
    let top = sheet.top + laying.offset_y;
    let right = left + sheet.across * sheet.columns as f64;
    let bottom = top + sheet.down * sheet.rows as f64;
    for column in 0..=sheet.columns {
        let at = left + sheet.across * column as f64;
        canvas.line((at, top), (at, bottom), HAIR, Some(1.0));
    }
    for row in 0..=sheet.rows {
        let at = top + sheet.down * row as f64;
        canvas.line((left, at), (right, at), HAIR, Some(1.0));
    }
}

/// Cuts an area from the top by height; gives the cut and leaves the rest.
fn take_top(area: &mut Area, height: f64) -> Area {
    let height = height.min(area.height);
    let cut = Area { height, ..*area };
    area.top += height;
    area.height -= height;
    cut
}

fn jar_label(canvas: &mut Canvas, inner: Area, label: &JarLabel) -> Result<(), PrintError> {
    let mut words = inner;
    if !label.address.is_empty() {
        let square = Square::of(&label.address)?;
        let side = inner.height.min(SQUARE).min(inner.width / 2.0);
        let area = Area {
            left: inner.right() - side,
            top: inner.top + (inner.height - side) / 2.0,
            width: side,
            height: side,
        };
        square.draw(canvas, area);
        debug_assert!(square.quiet(side) <= QUIET);
        words.width = (inner.width - side - square.quiet(side)).max(0.0);
    }
    let code_height = inner.height * 0.2;
    let code = Area {
        top: words.bottom() - code_height,
        height: code_height,
        ..words
    };
    words.height -= code_height;
    let height = words.height;
    let product = take_top(&mut words, height * 0.44);
    canvas.text(product, &label.product, Wish::new(Face::Bold, 13.0, 7.0));
    lines(
        canvas,
        words,
        &[
            &[&label.container, &label.batch],
            &[&label.made, &label.place],
            &[&label.ripen_until],
            &[&label.best],
        ],
    );
    canvas.text(code, &label.code, Wish::new(Face::Bold, 12.0, 7.0));
    Ok(())
}

/// Lines of equal height, each of the texts that are not empty, with a dot between them.
fn lines(canvas: &mut Canvas, area: Area, rows: &[&[&String]]) {
    let texts: Vec<String> = rows
        .iter()
        .map(|parts| {
            parts
                .iter()
                .filter(|part| !part.is_empty())
                .map(|part| part.as_str())
                .collect::<Vec<_>>()
                .join(" · ")
        })
        .filter(|text| !text.is_empty())
        .collect();
    let mut rest = area;
    let height = area.height / texts.len().max(1) as f64;
    for text in &texts {
        let row = take_top(&mut rest, height);
        canvas.text(row, text, Wish::new(Face::Plain, 8.5, 5.0));
    }
}

fn gift_label(canvas: &mut Canvas, inner: Area, label: &GiftLabel) {
    let mut rest = inner;
    let product = take_top(&mut rest, inner.height * 0.26);
    canvas.text(product, &label.product, Wish::new(Face::Bold, 13.0, 7.0));
    let foot = inner.height * 0.14;
    let bottom = Area {
        top: rest.bottom() - foot,
        height: foot,
        ..rest
    };
    rest.height -= foot;
    // What some people must know comes before what it is made of, and is never the part that is cut.
    if !label.flags.is_empty() {
        let share = if label.ingredients.is_empty() {
            1.0
        } else {
            0.55
        };
        let flags = Area {
            height: rest.height * share,
            ..rest
        };
        let set = canvas.text(
            flags,
            &label.flags.join(" "),
            Wish::new(Face::Bold, 8.0, 3.5).running(),
        );
        // What the flags do not need is left to the ingredients.
        let used = set.lines.len() as f64 * set.size * LINE / POINTS + 0.8;
        take_top(&mut rest, used.min(flags.height));
    }
    let text = [label.ingredients.as_str(), label.keep.as_str()]
        .iter()
        .filter(|text| !text.is_empty())
        .copied()
        .collect::<Vec<_>>()
        .join(" ");
    canvas.text(rest, &text, Wish::new(Face::Plain, 7.5, 4.0).running());
    let half = Area {
        width: bottom.width * 0.7,
        ..bottom
    };
    canvas.text(half, &label.made, Wish::new(Face::Plain, 7.0, 5.0));
    let code = Area {
        left: half.right(),
        width: bottom.width * 0.3,
        ..bottom
    };
    let wish = Wish::new(Face::Plain, 7.0, 5.0).to(Side::Right);
    canvas.text(code, &label.code, wish);
}

fn seed_label(canvas: &mut Canvas, inner: Area, label: &SeedLabel) {
    let mut rest = inner;
    let crop = take_top(&mut rest, inner.height * 0.28);
    canvas.text(crop, &label.crop, Wish::new(Face::Bold, 13.0, 7.0));
    if !label.variety.is_empty() {
        let variety = take_top(&mut rest, inner.height * 0.2);
        canvas.text(variety, &label.variety, Wish::new(Face::Plain, 10.0, 6.0));
    }
    let line = take_top(&mut rest, inner.height * 0.17);
    lines(
        canvas,
        line,
        &[&[&label.saved, &label.amount, &label.place]],
    );
    canvas.text(
        rest,
        &label.notes.join(" "),
        Wish::new(Face::Plain, 7.5, 4.0).running(),
    );
}
