//! Sheets of labels: where each label lies on its paper, in millimetres from the upper left corner.

use crate::error::PrintError;
use crate::paper::{INCH, Paper};

/// A place on the paper, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// From the left edge.
    pub left: f64,
    /// From the upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Area {
    /// Right edge.
    pub fn right(self) -> f64 {
        self.left + self.width
    }

    /// Lower edge.
    pub fn bottom(self) -> f64 {
        self.top + self.height
    }

    /// The area without a margin on every side; never less than nothing.
    #[must_use]
    pub fn without(self, margin: f64) -> Self {
        Self {
            left: self.left + margin,
            top: self.top + margin,
            width: (self.width - 2.0 * margin).max(0.0),
            height: (self.height - 2.0 * margin).max(0.0),
        }
    }

    /// What two areas share.
    #[must_use]
    pub fn within(self, other: Self) -> Self {
        let left = self.left.max(other.left);
        let top = self.top.max(other.top);
        Self {
            left,
            top,
            width: (self.right().min(other.right()) - left).max(0.0),
            height: (self.bottom().min(other.bottom()) - top).max(0.0),
        }
    }
}

/// How a sheet is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// Name that commands and forms take.
    pub key: &'static str,
    /// As it is said.
    pub title: &'static str,
    /// Its paper.
    pub paper: Paper,
    /// Labels side by side.
    pub columns: usize,
    /// Labels one below another.
    pub rows: usize,
    /// Width of a label.
    pub width: f64,
    /// Height of a label.
    pub height: f64,
    /// From the left edge of the paper to the first label.
    pub left: f64,
    /// From the upper edge to the first label.
    pub top: f64,
    /// From the left edge of one label to that of the next.
    pub across: f64,
    /// From the upper edge of one label to that of the next.
    pub down: f64,
    /// Plain paper: lines to cut along are printed.
    pub cut: bool,
}

/// The sheets. The die-cut ones have the measures that are usual for sheets of their number: those
/// of the 30-up sheet are from memory, those of the 24-up sheet fill the paper; both are to be held
/// against the sheet in hand with the outline page. The sheets to cut are our own division.
pub const SHEETS: [Sheet; 4] = [
    Sheet {
        key: "30-letter",
        title: "30 labels on US letter, 2 5/8 by 1 inch, die-cut",
        paper: Paper::Letter,
        columns: 3,
        rows: 10,
        width: 2.625 * INCH,
        height: 1.0 * INCH,
        left: 0.1875 * INCH,
        top: 0.5 * INCH,
        across: 2.75 * INCH,
        down: 1.0 * INCH,
        cut: false,
    },
    Sheet {
        key: "24-a4",
        title: "24 labels on A4, 70 by 37 mm, die-cut",
        paper: Paper::A4,
        columns: 3,
        rows: 8,
        width: 70.0,
        height: 37.0,
        left: 0.0,
        top: 0.5,
        across: 70.0,
        down: 37.0,
        cut: false,
    },
    Sheet {
        key: "cut-letter",
        title: "24 labels on plain US letter, to cut, 2 1/2 by 1 1/4 inch",
        paper: Paper::Letter,
        columns: 3,
        rows: 8,
        width: 2.5 * INCH,
        height: 1.25 * INCH,
        left: 0.5 * INCH,
        top: 0.5 * INCH,
        across: 2.5 * INCH,
        down: 1.25 * INCH,
        cut: true,
    },
    Sheet {
        key: "cut-a4",
        title: "24 labels on plain A4, to cut, 63 by 34 mm",
        paper: Paper::A4,
        columns: 3,
        rows: 8,
        width: 63.0,
        height: 34.0,
        left: 10.5,
        top: 12.5,
        across: 63.0,
        down: 34.0,
        cut: true,
    },
];

/// No printer is off by more than this many millimetres; a larger wish is a slipped digit (our
/// decision).
pub const MOST_OFFSET: f64 = 10.0;

/// Where and how labels are laid on a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laying {
    /// The sheet.
    pub sheet: Sheet,
    /// The first label to use, counted from one along the rows: for a sheet that is part used.
    pub from: usize,
    /// Everything is moved this many millimetres to the right.
    pub offset_x: f64,
    /// Everything is moved this many millimetres down.
    pub offset_y: f64,
}

impl Laying {
    /// A whole sheet without offset.
    ///
    /// # Errors
    /// No sheet of that name.
    pub fn on(sheet: &str) -> Result<Self, PrintError> {
        Ok(Self {
            sheet: Sheet::named(sheet)?,
            from: 1,
            offset_x: 0.0,
            offset_y: 0.0,
        })
    }

    /// Holds the wish against the sheet.
    ///
    /// # Errors
    /// A first label beyond the sheet, or an offset no printer needs.
    pub fn check(&self) -> Result<(), PrintError> {
        let labels = self.sheet.labels();
        if self.from < 1 || self.from > labels {
            return Err(PrintError::BeyondSheet {
                from: self.from,
                labels,
            });
        }
        for offset in [self.offset_x, self.offset_y] {
            // A text that is no number has no place between the two.
            if !(-MOST_OFFSET..=MOST_OFFSET).contains(&offset) {
                return Err(PrintError::OffsetTooLarge(format!("{offset}")));
            }
        }
        Ok(())
    }

    /// Page (from nought) and area of the n-th label to print (from nought).
    pub fn place(&self, nth: usize) -> (usize, Area) {
        let at = nth + self.from.saturating_sub(1);
        let labels = self.sheet.labels();
        let mut area = self.sheet.area(at % labels);
        area.left += self.offset_x;
        area.top += self.offset_y;
        (at / labels, area)
    }
}

impl Sheet {
    /// A sheet by its name.
    ///
    /// # Errors
    /// No sheet of that name.
    pub fn named(key: &str) -> Result<Self, PrintError> {
        SHEETS
            .into_iter()
            .find(|sheet| sheet.key == key.trim())
            .ok_or_else(|| PrintError::UnknownSheet(key.trim().to_owned()))
    }

    /// How many labels it has.
    pub const fn labels(&self) -> usize {
        self.columns * self.rows
    }

    /// Area of a label by its position from nought, along the rows.
    pub fn area(&self, position: usize) -> Area {
        let (row, column) = (position / self.columns, position % self.columns);
        Area {
            left: self.left + self.across * column as f64,
            top: self.top + self.down * row as f64,
            width: self.width,
            height: self.height,
        }
    }
}
