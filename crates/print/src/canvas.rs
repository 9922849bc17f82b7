//! Drawing on pages in millimetres, and the pages as PDF bytes.
//!
//! The file holds no date and no chance: the same drawing gives the same bytes.

use crate::error::PrintError;
use crate::fit::{Fitted, Frame, fit};
use crate::font::{ASCENT, Face, LINE, Ruler, one_line};
use crate::paper::{INCH, Paper};
use crate::sheet::Area;
use krilla::Document;
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

/// Points in a millimetre: 72 to the inch.
pub(crate) const POINTS: f64 = 72.0 / INCH;

/// One thing drawn; all places in millimetres, sizes of text in points.
enum Drawn {
    Text {
        left: f64,
        base: f64,
        size: f64,
        face: Face,
        text: String,
    },
    Filled(Vec<Area>),
    Line {
        from: (f64, f64),
        to: (f64, f64),
        width: f64,
        dash: Option<f64>,
    },
}

/// How a text lies in its box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Left,
    Right,
    Middle,
}

/// How a text is wanted.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wish {
    pub face: Face,
    /// Points.
    pub size: f64,
    /// The smallest that is still read, in points.
    pub floor: f64,
    pub side: Side,
    /// Running text is wrapped before it is shrunk; a name is shrunk first.
    pub running: bool,
}

impl Wish {
    pub const fn new(face: Face, size: f64, floor: f64) -> Self {
        Self {
            face,
            size,
            floor,
            side: Side::Left,
            running: false,
        }
    }

    pub const fn running(mut self) -> Self {
        self.running = true;
        self
    }

    pub const fn to(mut self, side: Side) -> Self {
        self.side = side;
        self
    }
}

/// Pages being drawn.
pub(crate) struct Canvas {
    paper: Paper,
    title: String,
    pages: Vec<Vec<Drawn>>,
    plain: Ruler,
    bold: Ruler,
}

impl Canvas {
    /// An empty first page.
    ///
    /// # Errors
    /// Fonts that cannot be read.
    pub fn new(paper: Paper, title: &str) -> Result<Self, PrintError> {
        Ok(Self {
            paper,
            title: one_line(title),
            pages: vec![Vec::new()],
            plain: Ruler::new(Face::Plain)?,
            bold: Ruler::new(Face::Bold)?,
        })
    }

    /// The paper.
    pub const fn paper(&self) -> Paper {
        self.paper
    }

    /// Number of pages so far.
    pub fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Begins another page; what is drawn from now on stands on it.
    pub fn turn(&mut self) {
        self.pages.push(Vec::new());
    }

    /// The ruler of a face.
    pub const fn ruler(&self, face: Face) -> &Ruler {
        match face {
            Face::Plain => &self.plain,
            Face::Bold => &self.bold,
        }
    }

    fn draw(&mut self, drawn: Drawn) {
        // There is always a first page.
        if let Some(page) = self.pages.last_mut() {
            page.push(drawn);
        }
    }

    /// Fits a text into an area and draws it there from the top; gives how it was set.
    pub fn text(&mut self, area: Area, text: &str, wish: Wish) -> Fitted {
        let frame = Frame {
            width: area.width * POINTS,
            height: area.height * POINTS,
            size: wish.size,
            floor: wish.floor,
            running: wish.running,
        };
        let fitted = fit(self.ruler(wish.face), text, frame);
        for (row, line) in fitted.lines.iter().enumerate() {
            let base = area.top + (row as f64 * LINE + ASCENT) * fitted.size / POINTS;
            self.line_of_text(area, base, line, fitted.size, wish);
        }
        fitted
    }

    /// Draws one line of text at its base, as it is.
    pub fn line_of_text(&mut self, area: Area, base: f64, text: &str, size: f64, wish: Wish) {
        let free = area.width - self.ruler(wish.face).width(text, size) / POINTS;
        let left = match wish.side {
            Side::Left => area.left,
            Side::Right => area.left + free,
            Side::Middle => area.left + free / 2.0,
        };
        self.draw(Drawn::Text {
            left,
            base,
            size,
            face: wish.face,
            text: text.to_owned(),
        });
    }

    /// Black rectangles.
    pub fn fill(&mut self, areas: &[Area]) {
        self.draw(Drawn::Filled(areas.to_vec()));
    }

    /// A line; `width` and the length of a dash in millimetres.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), width: f64, dash: Option<f64>) {
        self.draw(Drawn::Line {
            from,
            to,
            width,
            dash,
        });
    }

    /// The four edges of an area as lines.
    pub fn edges(&mut self, area: Area, width: f64) {
        let (left, top, right, bottom) = (area.left, area.top, area.right(), area.bottom());
        for (from, to) in [
            ((left, top), (right, top)),
            ((right, top), (right, bottom)),
            ((right, bottom), (left, bottom)),
            ((left, bottom), (left, top)),
        ] {
            self.line(from, to, width, None);
        }
    }

    /// The bytes of the file.
    ///
    /// # Errors
    /// A fault of the writer.
    pub fn finish(self) -> Result<Vec<u8>, PrintError> {
        let failed = |what: &str| PrintError::Failed(what.to_owned());
        let font = |face: Face| {
            Font::new(face.bytes().into(), 0).ok_or_else(|| failed("a font cannot be read"))
        };
        let fonts = (font(Face::Plain)?, font(Face::Bold)?);
        let (width, height) = (points(self.paper.width()), points(self.paper.height()));
        let mut document = Document::new();
        document.set_metadata(
            Metadata::new()
                .title(self.title.clone())
                .language("en".to_owned()),
        );
        for drawn in &self.pages {
            let settings =
                PageSettings::from_wh(width, height).ok_or_else(|| failed("a page has no size"))?;
            let mut page = document.start_page_with(settings);
            let mut surface = page.surface();
            for one in drawn {
                self.put(&mut surface, one, &fonts);
            }
            surface.finish();
            page.finish();
        }
        document
            .finish()
            .map_err(|error| PrintError::Failed(format!("{error:?}")))
    }

    fn put(&self, surface: &mut Surface<'_>, drawn: &Drawn, fonts: &(Font, Font)) {
        match drawn {
            Drawn::Text {
                left,
                base,
                size,
                face,
                text,
            } => {
                surface.set_stroke(None);
                surface.set_fill(Some(Fill::default()));
                let glyphs: Vec<KrillaGlyph> = self
                    .ruler(*face)
                    .set(text)
                    .into_iter()
                    .map(|set| {
                        KrillaGlyph::new(
                            GlyphId::new(set.glyph),
                            set.advance as f32,
                            0.0,
                            0.0,
                            0.0,
                            set.at..set.at + set.bytes,
                            None,
                        )
                    })
                    .collect();
                let font = match face {
                    Face::Plain => fonts.0.clone(),
                    Face::Bold => fonts.1.clone(),
                };
                let start = Point::from_xy(points(*left), points(*base));
                surface.draw_glyphs(start, &glyphs, font, text, *size as f32, false);
            }
            Drawn::Filled(areas) => {
                let mut path = PathBuilder::new();
                for area in areas {
                    if let Some(rect) = Rect::from_xywh(
                        points(area.left),
                        points(area.top),
                        points(area.width),
                        points(area.height),
                    ) {
                        path.push_rect(rect);
                    }
                }
                surface.set_stroke(None);
                surface.set_fill(Some(Fill::default()));
                if let Some(path) = path.finish() {
                    surface.draw_path(&path);
                }
            }
            Drawn::Line {
                from,
                to,
                width,
                dash,
            } => {
                surface.set_fill(None);
                surface.set_stroke(Some(Stroke {
                    width: points(*width),
                    dash: dash.map(|dash| StrokeDash {
                        array: vec![points(dash), points(dash)],
                        offset: 0.0,
                    }),
                    ..Stroke::default()
                }));
                if let Some(path) = straight(*from, *to) {
                    surface.draw_path(&path);
                }
            }
        }
    }
}

fn straight(from: (f64, f64), to: (f64, f64)) -> Option<Path> {
    let mut path = PathBuilder::new();
    path.move_to(points(from.0), points(from.1));
    path.line_to(points(to.0), points(to.1));
    path.finish()
}

/// Millimetres as points, in the writer's own kind of number.
fn points(millimetres: f64) -> f32 {
    (millimetres * POINTS) as f32
}
