//! One typed row per line of each table. Field names follow the columns; `line` and `source` are ours.

mod change;
mod facts;
mod garden;
mod heat_and_sugar;
mod incident;
mod kept;
mod process;
mod put_up;
mod recipe;

pub use change::*;
pub use facts::*;
pub use garden::*;
pub use heat_and_sugar::*;
pub use incident::*;
pub use kept::*;
pub use process::*;
pub use put_up::*;
pub use recipe::*;

/// Implements [`crate::table::Row`]: the file, its columns and the column that names the source.
macro_rules! row {
    ($name:ident, $file:literal, $printed:ident, [$($column:literal),+ $(,)?]) => {
        impl crate::table::Row for $name {
            const FILE: &'static str = $file;
            const COLUMNS: &'static [&'static str] = &[$($column),+];
            fn printed_source(&self) -> &str {
                &self.$printed
            }
            fn settle(&mut self, line: u64, source: String) {
                self.line = line;
                self.source = source;
            }
        }
    };
}
pub(crate) use row;

/// `yes` and `no` cells.
pub(crate) mod yes_no {
    use serde::{Deserialize, Deserializer, Serializer};

    pub fn serialize<S: Serializer>(value: &bool, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(if *value { "yes" } else { "no" })
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<bool, D::Error> {
        let text = String::deserialize(deserializer)?;
        match text.as_str() {
            "yes" => Ok(true),
            "no" | "" => Ok(false),
            other => Err(serde::de::Error::custom(format!(
                "`{other}` is neither yes nor no"
            ))),
        }
    }
}
