//! The SQLite file: migrations, reads, appends, backup.
