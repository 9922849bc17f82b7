//! Labels and cards as PDF, true to size, black on white, on A4 and US letter.
//!
//! Plain data in, bytes out: this crate knows no batch and no rule, reads no clock and no file, and
//! the same words give the same bytes. The words come from `app`.

mod canvas;
mod card;
mod code;
mod error;
mod fit;
mod font;
mod labels;
mod outline;
mod paper;
mod qr;
mod sheet;

pub use card::{Blank, Block, Card, card};
pub use code::{Code, SIGNS};
pub use error::PrintError;
pub use labels::{GiftLabel, JarLabel, Label, SeedLabel, labels};
pub use outline::outline_page;
pub use paper::{INCH, Paper};
pub use sheet::{Area, Laying, MOST_OFFSET, SHEETS, Sheet};
