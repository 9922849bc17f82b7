//! A folder of its own for each test, and the built program run in it at a fixed moment.

use rusqlite::types::Value;
use serde_json::Value as Json;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;
use tempfile::TempDir;

/// The built program.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_stillroom");

/// The root of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A command of the program, free of what the tester's own surroundings say.
pub fn program() -> Command {
    let mut command = Command::new(PROGRAM);
    command.env_remove("STILLROOM_DATA");
    command
}

/// What a command answered.
#[derive(Debug)]
pub struct Answer {
    /// Exit code.
    pub code: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Answer {
    pub fn of(output: &Output) -> Self {
        Self {
            code: output.status.code().expect("no signal ended the program"),
            out: String::from_utf8(output.stdout.clone()).expect("text"),
            err: String::from_utf8(output.stderr.clone()).expect("text"),
        }
    }

    /// The answer of a command that has to work.
    pub fn fine(self) -> Self {
        assert_eq!(self.code, 0, "{}\n{}", self.out, self.err);
        self
    }

    /// Standard output as JSON.
    pub fn json(&self) -> Json {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}: {}", self.out))
    }
}

/// A folder with a household's file, removed with the value.
pub struct Household {
    folder: TempDir,
}

impl Household {
    /// An empty folder.
    pub fn empty() -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    /// The household of `docs/first_day.sh` after its last command.
    pub fn after_first_day() -> Self {
        let household = Self::empty();
        std::fs::write(household.file(), &first_day().file).unwrap();
        household
    }

    /// A house with an elevation, a canner, jars and hands, and 60 pounds of tomatoes.
    pub fn with_tomatoes() -> Self {
        let household = Self::empty();
        household.run(&HOUSE).fine();
        household
            .run(&[
                "pick",
                "tomato-paste",
                "60 lb",
                "--grade",
                "red",
                "--temperature",
                "70F",
                "--sound-history",
            ])
            .fine();
        household
    }

    /// The same with batch 1 set up: quarts of tomato juice.
    pub fn with_juice() -> Self {
        let household = Self::with_tomatoes();
        household
            .run(&[
                "batch",
                "new",
                "tomato-juice",
                "--jar",
                "quart",
                "--acid",
                "citric-acid",
            ])
            .fine();
        household
    }

    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// The household's file.
    pub fn file(&self) -> PathBuf {
        self.folder.path().join("stillroom.db")
    }

    /// Runs a command on this household on the morning of the first day.
    pub fn run(&self, arguments: &[&str]) -> Answer {
        self.run_on("2026-08-27", arguments)
    }

    /// Runs a command on this household on another morning.
    pub fn run_on(&self, date: &str, arguments: &[&str]) -> Answer {
        let output = program()
            .env("STILLROOM_DATA", self.folder.path())
            .args(["--date", date, "--time", "07:30"])
            .args(arguments)
            .output()
            .expect("the program starts");
        Answer::of(&output)
    }

    /// Every row of the file in words, for telling whether anything was written.
    pub fn rows(&self) -> Vec<String> {
        if !self.file().exists() {
            return Vec::new();
        }
        let conn = rusqlite::Connection::open(self.file()).unwrap();
        let tables: Vec<String> = conn
            .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
            .unwrap()
            .query_map([], |row| row.get(0))
            .unwrap()
            .map(Result::unwrap)
            .collect();
        let mut rows = Vec::new();
        for table in tables {
            let mut statement = conn.prepare(&format!("SELECT * FROM {table}")).unwrap();
            let width = statement.column_count();
            let mut found = statement.query([]).unwrap();
            while let Some(row) = found.next().unwrap() {
                let cells: Vec<String> = (0..width)
                    .map(|column| format!("{:?}", row.get::<_, Value>(column).unwrap()))
                    .collect();
                rows.push(format!("{table}: {}", cells.join(" | ")));
            }
        }
        rows
    }
}

/// The house of the smaller households here.
const HOUSE: [&str; 17] = [
    "house",
    "name=The upper house",
    "elevation=2500 ft",
    "burners=4",
    "food_mills=1",
    "sinks=1",
    "canners.0.name=big kettle",
    "canners.0.kind=boiling-water",
    "canners.0.quarts=7",
    "canners.0.pints=9",
    "jars.0.jar=quart",
    "jars.0.count=21",
    "jars.0.mouth=wide",
    "lids_wide=30",
    "people.0.name=Ida",
    "people.0.thu=7 h",
    "animals=hens",
];

/// One run of `docs/first_day.sh`.
pub struct FirstDay {
    /// What it printed.
    pub printed: String,
    /// The household's file it left.
    pub file: Vec<u8>,
}

/// Runs `docs/first_day.sh` on a new, empty folder.
pub fn run_first_day() -> FirstDay {
    let folder = tempfile::tempdir().unwrap();
    let output = Command::new("bash")
        .arg(root().join("docs/first_day.sh"))
        .arg(PROGRAM)
        .arg(folder.path())
        .env_remove("STILLROOM_DATA")
        .output()
        .expect("bash runs the script");
    let answer = Answer::of(&output);
    assert_eq!(
        answer.err, "",
        "the script itself has nothing to complain of"
    );
    assert_eq!(answer.code, 0, "its last command is a check that holds");
    let file = folder.path().join("stillroom.db");
    assert!(
        !folder.path().join("stillroom.db-wal").exists(),
        "the file is whole by itself once every command has ended"
    );
    FirstDay {
        printed: answer.out,
        file: std::fs::read(file).unwrap(),
    }
}

/// The first day, run once for all tests of this program.
pub fn first_day() -> &'static FirstDay {
    static DAY: OnceLock<FirstDay> = OnceLock::new();
    DAY.get_or_init(run_first_day)
}

/// Compares with a golden file; `UPDATE_GOLDEN=1` writes it instead.
pub fn golden(name: &str, printed: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(name);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&path, printed).unwrap();
        return;
    }
    let wanted = std::fs::read_to_string(&path).unwrap_or_default();
    if wanted == printed {
        return;
    }
    let at = wanted
        .lines()
        .zip(printed.lines())
        .take_while(|(was, is)| was == is)
        .count();
    panic!(
        "{name} differs from line {}:\n  was: {}\n  is:  {}\nLook at the change; if it is meant, run the tests once with UPDATE_GOLDEN=1.",
        at + 1,
        wanted.lines().nth(at).unwrap_or("(nothing)"),
        printed.lines().nth(at).unwrap_or("(nothing)"),
    );
}
