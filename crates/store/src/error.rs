//! Everything the store can refuse: each error says the cause and what to do about it.

use ledger::{LedgerError, Place};
use rusqlite::ErrorCode;
use std::fmt;
use std::path::{Path, PathBuf};

/// Why the store did not do what was asked. Whatever the error, nothing was half-written.
///
/// The display text is [`StoreError::cause`] followed by [`StoreError::action`].
#[derive(Debug)]
#[non_exhaustive]
pub enum StoreError {
    /// The same form was sent before; it became this entry. Nothing was written now.
    AlreadyEntered(i64),
    /// The entry was undone before, by this other one.
    AlreadyReversed {
        /// The entry that was to be undone.
        entry: i64,
        /// The entry that undid it.
        by: i64,
    },
    /// An undoing is not itself undone.
    UndoOfUndo(i64),
    /// No row of that number.
    Missing {
        /// What was looked for: "entry", "lot", "batch".
        what: &'static str,
        /// Its number.
        id: i64,
    },
    /// A movement the ledger does not take.
    Ledger(LedgerError),
    /// The entry would take more out of a place than is there.
    NotThatMuch {
        /// What: "tomato-paste of lot 5", "quart of batch 3".
        what: String,
        /// The place.
        place: Place,
        /// By how much: "1200 mg", "2".
        short_by: String,
    },
    /// A rule of the file (a foreign key, a check, a type) does not allow the row.
    Refused(String),
    /// A row in the file cannot be understood.
    BadRow(String),
    /// The store was asked to read or write from inside an append of the same thread.
    InsideAppend,
    /// The folder of the file does not exist.
    MissingFolder(PathBuf),
    /// There is no file of that name.
    MissingFile(PathBuf),
    /// The path names a folder or something else that is no file.
    NotAFile(PathBuf),
    /// The file, or its folder, cannot be written.
    NotWritable {
        /// The file, when known.
        file: Option<PathBuf>,
        /// What the system said.
        detail: String,
    },
    /// The file is no database at all.
    NotADatabase(Option<PathBuf>),
    /// The file is a database of another program.
    NotOurs(PathBuf),
    /// The file was written by a newer program.
    NewerFile {
        /// The file.
        file: PathBuf,
        /// Its schema version.
        found: i64,
        /// The newest schema version this program knows.
        known: i64,
    },
    /// The file is damaged.
    Damaged {
        /// The file, when known.
        file: Option<PathBuf>,
        /// What is wrong with it.
        detail: String,
    },
    /// Another program keeps the file busy.
    Busy(Option<PathBuf>),
    /// No room left.
    DiskFull(Option<PathBuf>),
    /// A migration could not be carried through; the file is as it was.
    MigrationFailed {
        /// The migration.
        name: String,
        /// What the engine said.
        detail: String,
    },
    /// A copy would overwrite something that is no Stillroom file, or the data file itself.
    WouldOverwrite(PathBuf),
    /// Backup and data file are one and the same.
    SameFile(PathBuf),
    /// The system refused something with files.
    Io {
        /// The file or folder.
        file: PathBuf,
        /// What the system said.
        detail: String,
    },
    /// Anything else the engine says.
    Engine(String),
}

impl StoreError {
    /// What went wrong, one sentence.
    #[must_use]
    pub fn cause(&self) -> String {
        match self {
            Self::AlreadyEntered(entry) => {
                format!("This was already taken down as entry {entry}.")
            }
            Self::AlreadyReversed { entry, by } => {
                format!("Entry {entry} was already undone by entry {by}.")
            }
            Self::UndoOfUndo(entry) => {
                format!("Entry {entry} is itself an undoing and cannot be undone.")
            }
            Self::Missing { what, id } => format!("There is no {what} {id}."),
            Self::Ledger(error) => error.to_string(),
            Self::NotThatMuch {
                what,
                place,
                short_by,
            } => {
                format!("There is not that much {what} at {place}: {short_by} short.")
            }
            Self::Refused(detail) => format!("The data file does not take this: {detail}."),
            Self::BadRow(detail) => format!("A row of the data file cannot be read: {detail}."),
            Self::InsideAppend => {
                "The store was used from inside an entry that is still being written.".to_owned()
            }
            Self::MissingFolder(folder) => {
                format!("The folder {} does not exist.", folder.display())
            }
            Self::MissingFile(file) => format!("There is no file {}.", file.display()),
            Self::NotAFile(file) => format!("{} is not a file.", file.display()),
            Self::NotWritable { file, detail } => {
                format!("{} cannot be written ({detail}).", named(file.as_deref()))
            }
            Self::NotADatabase(file) => {
                format!("{} is not a Stillroom data file.", named(file.as_deref()))
            }
            Self::NotOurs(file) => {
                format!("{} belongs to another program.", file.display())
            }
            Self::NewerFile { file, found, known } => format!(
                "{} was written by a newer Stillroom (schema {found}; this one knows up to {known}).",
                file.display()
            ),
            Self::Damaged { file, detail } => {
                format!("{} is damaged: {detail}.", named(file.as_deref()))
            }
            Self::Busy(file) => {
                format!("{} is in use by another program.", named(file.as_deref()))
            }
            Self::DiskFull(file) => {
                format!(
                    "There is no room left to write {}.",
                    lower(&named(file.as_deref()))
                )
            }
            Self::MigrationFailed { name, detail } => {
                format!("The data file could not be brought up to date ({name}: {detail}).")
            }
            Self::WouldOverwrite(file) => {
                format!(
                    "{} is there already and is no copy of this program's.",
                    file.display()
                )
            }
            Self::SameFile(file) => {
                format!("{} is both the backup and the data file.", file.display())
            }
            Self::Io { file, detail } => format!("{}: {detail}.", file.display()),
            Self::Engine(detail) => format!("The data file engine failed: {detail}."),
        }
    }

    /// What to do about it, one sentence.
    #[must_use]
    pub fn action(&self) -> String {
        match self {
            Self::AlreadyEntered(_) => "Nothing was written a second time.".to_owned(),
            Self::AlreadyReversed { .. } => "Nothing more needs undoing.".to_owned(),
            Self::UndoOfUndo(_) => "Take the act down again instead.".to_owned(),
            Self::Missing { .. } => "Look the number up and try again.".to_owned(),
            Self::Ledger(_) => "Nothing was written.".to_owned(),
            Self::NotThatMuch { .. } => {
                "Nothing was written; look at what is there now, and take less.".to_owned()
            }
            Self::Refused(_) => "Nothing was written; correct it and try again.".to_owned(),
            Self::BadRow(_) => {
                "Run `stillroom check` to see which rows, and restore a backup if needed."
                    .to_owned()
            }
            Self::InsideAppend => {
                "This is a fault of the program: read through the entry's own writer.".to_owned()
            }
            Self::MissingFolder(_) => "Create it, or name another data file.".to_owned(),
            Self::MissingFile(_) => "Check the name.".to_owned(),
            Self::NotAFile(_) => "Name a file inside an existing folder.".to_owned(),
            Self::NotWritable { .. } => {
                "Give the program's user the right to write there, or name another data file."
                    .to_owned()
            }
            Self::NotADatabase(_) | Self::NotOurs(_) => {
                "It was left as it is; name another data file.".to_owned()
            }
            Self::NewerFile { .. } => {
                "It was left as it is; use the newer program with it.".to_owned()
            }
            Self::Damaged { .. } => {
                "Keep the damaged file, and restore the latest backup with `stillroom restore`."
                    .to_owned()
            }
            Self::Busy(_) => {
                "Stop the other program (perhaps a running `stillroom serve`) and try again."
                    .to_owned()
            }
            Self::DiskFull(_) => "Make room and try again; nothing was half-written.".to_owned(),
            Self::MigrationFailed { .. } => {
                "The file is as it was before; go on using the older program with it.".to_owned()
            }
            Self::SameFile(_) => "Name the backup to restore from.".to_owned(),
            Self::WouldOverwrite(_) => "It was left as it is; choose another name.".to_owned(),
            Self::Io { .. } => "Check the folder and its rights, then try again.".to_owned(),
            Self::Engine(_) => "Nothing was written; try again.".to_owned(),
        }
    }

    /// The same form was sent twice; the first one counted.
    #[must_use]
    pub const fn is_already_entered(&self) -> bool {
        matches!(self, Self::AlreadyEntered(_))
    }

    /// The file itself is the trouble (damaged, foreign, newer, no database).
    #[must_use]
    pub const fn is_bad_file(&self) -> bool {
        matches!(
            self,
            Self::Damaged { .. }
                | Self::NotADatabase(_)
                | Self::NotOurs(_)
                | Self::NewerFile { .. }
                | Self::BadRow(_)
        )
    }

    /// The place of the file is the trouble (missing, not writable, full).
    #[must_use]
    pub const fn is_bad_place(&self) -> bool {
        matches!(
            self,
            Self::MissingFolder(_)
                | Self::MissingFile(_)
                | Self::NotAFile(_)
                | Self::NotWritable { .. }
                | Self::DiskFull(_)
                | Self::WouldOverwrite(_)
                | Self::SameFile(_)
                | Self::Io { .. }
        )
    }

    /// Trying again later may help.
    #[must_use]
    pub const fn is_busy(&self) -> bool {
        matches!(self, Self::Busy(_))
    }

    /// The request is the trouble, not the file.
    #[must_use]
    pub const fn is_bad_request(&self) -> bool {
        matches!(
            self,
            Self::AlreadyEntered(_)
                | Self::AlreadyReversed { .. }
                | Self::UndoOfUndo(_)
                | Self::Missing { .. }
                | Self::Ledger(_)
                | Self::NotThatMuch { .. }
                | Self::Refused(_)
        )
    }

    /// Names the file the error is about, where the engine did not.
    pub(crate) fn in_file(mut self, path: &Path) -> Self {
        match &mut self {
            Self::NotWritable { file, .. }
            | Self::NotADatabase(file)
            | Self::Damaged { file, .. }
            | Self::Busy(file)
            | Self::DiskFull(file) => {
                file.get_or_insert_with(|| path.to_path_buf());
            }
            _ => {}
        }
        self
    }

    pub(crate) fn io(file: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        match error.kind() {
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => Self::NotWritable {
                file: Some(file.to_path_buf()),
                detail: error.to_string(),
            },
            ErrorKind::StorageFull => Self::DiskFull(Some(file.to_path_buf())),
            _ => Self::Io {
                file: file.to_path_buf(),
                detail: error.to_string(),
            },
        }
    }
}

fn named(file: Option<&Path>) -> String {
    file.map_or_else(
        || "The data file".to_owned(),
        |file| file.display().to_string(),
    )
}

fn lower(text: &str) -> String {
    text.replacen("The data", "the data", 1)
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.cause(), self.action())
    }
}

impl std::error::Error for StoreError {}

impl From<LedgerError> for StoreError {
    fn from(error: LedgerError) -> Self {
        Self::Ledger(error)
    }
}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let text = error.to_string();
        match &error {
            rusqlite::Error::SqliteFailure(failure, detail) => {
                let detail = detail.clone().unwrap_or(text);
                match failure.code {
                    ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::Busy(None),
                    ErrorCode::DatabaseCorrupt => Self::Damaged { file: None, detail },
                    ErrorCode::NotADatabase => Self::NotADatabase(None),
                    ErrorCode::DiskFull => Self::DiskFull(None),
                    ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied => {
                        Self::NotWritable { file: None, detail }
                    }
                    ErrorCode::ConstraintViolation => Self::Refused(detail),
                    _ => Self::Engine(detail),
                }
            }
            rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::IntegralValueOutOfRange(..)
            | rusqlite::Error::Utf8Error(..) => Self::BadRow(text),
            _ => Self::Engine(text),
        }
    }
}
