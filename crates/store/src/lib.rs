//! The SQLite file: migrations, reads, appends, backup.
//!
//! One household, one file. Facts are appended in entries, never changed: [`Store::append`] is the
//! only way to write, one transaction per entry, and the file itself refuses anything else. JSON
//! columns are plain text here; what they mean is the caller's business.
//!
//! Two connections never share a lock: one writer behind a mutex, a small pool of readers that see
//! the last finished entry. Every acknowledged entry has reached the disk (write-ahead log with
//! `synchronous = FULL`).

mod backup;
mod books;
mod connection;
mod error;
mod migrate;
mod reader;
mod record;
mod restore;
mod rows;
mod shortcuts;
mod store;
mod writer;

pub use backup::{BackupReport, KEPT_DAILY_BACKUPS};
pub use books::{CheckRows, FileCheck};
pub use connection::{APPLICATION_ID, Settings};
pub use error::StoreError;
pub use migrate::{schema_version, schema_versions};
pub use reader::Reader;
pub use record::{
    BatchEvent, BatchEventKind, BatchRecord, EntryRecord, HarvestPlanRecord, HouseRecord,
    HouseholdRecipeRecord, LotRecord, LotStatement, NewBatch, NewEntry, NewLot, TimetableRecord,
};
pub use restore::{RestoreReport, restore};
pub use store::Store;
pub use writer::Writer;
