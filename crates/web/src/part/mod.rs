//! Pieces that pages are put together from: the shell, heads, plates, fields, tables.

pub mod address;
pub mod amount;
pub mod field;
pub mod mark;
pub mod place;
pub mod plate;
pub mod shell;
pub mod table;

pub use address::asking;
pub use amount::{amount, fractions};
pub use mark::Mark;
pub use place::Place;
pub use shell::{Opening, Page, Section, notice, opening, page, refusal_notice, spread};
