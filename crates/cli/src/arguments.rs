//! What may stand on the command line.

mod incident;
mod paper;
mod recipe;

pub use incident::{IncidentArguments, SettleArguments};
pub use paper::{EnterArguments, PlaceArguments, PrintCommand, SheetArguments};
pub use recipe::{RecipeCommand, RecipeFileArguments};

use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;

/// From garden glut to winter table: what keeps how long, what becomes what on which day,
/// tested processes, the kitchen day, and what stands where.
#[derive(Debug, Parser)]
#[command(name = "stillroom", version, max_term_width = 100)]
pub struct Arguments {
    /// Folder of the household's file.
    #[arg(long, global = true, value_name = "FOLDER", env = "STILLROOM_DATA")]
    pub data: Option<PathBuf>,
    /// Print JSON instead of text.
    #[arg(long, global = true)]
    pub json: bool,
    /// Act as of this date instead of today (YYYY-MM-DD).
    #[arg(long, global = true, value_name = "DATE")]
    pub date: Option<String>,
    /// Act as of this time of day instead of now (HH:MM).
    #[arg(long, global = true, value_name = "TIME")]
    pub time: Option<String>,
    /// Who is acting; kept with the entry.
    #[arg(long, global = true, value_name = "NAME", default_value = "")]
    pub who: String,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// One command for every page, and one for every action.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Show the house, or set its facts.
    House(HouseArguments),
    /// What is on the counter and how long it keeps.
    Counter,
    /// Weigh a picking in.
    Pick(PickArguments),
    /// State what a lot has been through, or where it lies now.
    Lot(LotArguments),
    /// Take part of a lot away: eaten, animals, compost, given, seed, discarded.
    Sort(SortArguments),
    /// What becomes what, on which day.
    Plan(PlanArguments),
    /// How a batch is made, and what came of it.
    #[command(subcommand)]
    Batch(BatchCommand),
    /// Labels and cards as PDF, true to size.
    #[command(subcommand)]
    Print(PrintCommand),
    /// May the jars of several batches share one canner run?
    Load {
        /// Batch numbers; none lists the batches that wait for a canner.
        batches: Vec<i64>,
    },
    /// Recipes: the household's own, and may a tested one be changed?
    #[command(subcommand)]
    Recipe(RecipeCommand),
    /// When each step of the kitchen day starts.
    Day(DayArguments),
    /// What stands where, what first, and whether the season adds up.
    Stores,
    /// Take containers from a place.
    Take(TakeArguments),
    /// State how many containers were found when counting.
    Count(CountArguments),
    /// Undo the last act, or a named entry; both stay in the record.
    Undo {
        /// Entry to undo.
        entry: Option<i64>,
    },
    /// Something went wrong: what to do now, until when, for which jars.
    Incident(IncidentArguments),
    /// Write down what was done with the jars of an incident.
    Settle(SettleArguments),
    /// The disposal card: how a jar that nobody may eat is thrown away.
    Disposal,
    /// Look up a tested process.
    Process(ProcessArguments),
    /// Run the invariants over the household's file.
    Check(CheckArguments),
    /// Copy the household's file while it is in use.
    Backup(FileArgument),
    /// Put a copy back in place of the household's file.
    Restore(FileArgument),
    /// Serve the pages on this machine.
    Serve(ServeArguments),
    /// Set up the invented household, print its day and serve the pages.
    Demo(DemoArguments),
}

/// House facts.
#[derive(Debug, Args)]
pub struct HouseArguments {
    /// Facts to set, such as `elevation="1180 ft"` or `canners.0.kind=boiling-water`.
    #[arg(value_name = "FIELD=VALUE")]
    pub set: Vec<String>,
    /// Read the whole house from a JSON file (as `house --json` prints under "house").
    #[arg(long, value_name = "FILE")]
    pub file: Option<PathBuf>,
}

/// A picking.
#[derive(Debug, Args)]
pub struct PickArguments {
    /// Crop, such as tomato-paste.
    pub crop: String,
    /// Weight, such as "24 lb" or "10.5 kg".
    #[arg(default_value = "", allow_hyphen_values = true)]
    pub amount: String,
    /// Variety, free text.
    #[arg(long, default_value = "")]
    pub variety: String,
    /// Grade or ripeness class, such as sound, soft, red, pink.
    #[arg(long, default_value = "")]
    pub grade: String,
    /// A known crate instead of a weight.
    #[arg(long = "crate", value_name = "NAME", default_value = "")]
    pub crate_name: String,
    /// How full it is, such as "two thirds".
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub share: String,
    /// Where it lies: counter, cold-room or fridge.
    #[arg(long, default_value = "counter")]
    pub place: String,
    /// How warm it is there, such as 70F or 21C.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub temperature: String,
    /// Day of picking when not today (YYYY-MM-DD).
    #[arg(long, default_value = "")]
    pub picked_on: String,
    /// History, such as `dead-or-frosted-vine=no`; may be given several times.
    #[arg(long, value_name = "QUESTION=ANSWER")]
    pub history: Vec<String>,
    /// Answer "no" to every history question: sound fruit from living, healthy plants.
    #[arg(long)]
    pub sound_history: bool,
    /// Note.
    #[arg(long, default_value = "")]
    pub note: String,
}

/// A statement on a lot.
#[derive(Debug, Args)]
pub struct LotArguments {
    /// Lot number.
    pub lot: i64,
    /// History, such as `dead-or-frosted-vine=yes`.
    #[arg(long, value_name = "QUESTION=ANSWER")]
    pub history: Option<String>,
    /// New grade.
    #[arg(long, default_value = "")]
    pub grade: String,
    /// New place.
    #[arg(long, default_value = "")]
    pub place: String,
    /// New temperature.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub temperature: String,
}

/// A sort-out.
#[derive(Debug, Args)]
pub struct SortArguments {
    /// Lot number.
    pub lot: i64,
    /// How much, such as "2 lb" or "all".
    #[arg(allow_hyphen_values = true)]
    pub amount: String,
    /// Where to: eaten, animals, compost, given, seed, discarded.
    #[arg(long)]
    pub to: String,
    /// Which animal.
    #[arg(long, default_value = "")]
    pub animal: String,
    /// Which part, for the feeding rules: fruit, leaves, mouldy, ...
    #[arg(long, default_value = "")]
    pub part: String,
}

/// A harvest plan.
#[derive(Debug, Args)]
pub struct PlanArguments {
    /// Make a new plan (otherwise the accepted one is shown).
    #[arg(long)]
    pub make: bool,
    /// Make it and accept it: its batches are set up.
    #[arg(long)]
    pub accept: bool,
    /// Days to look ahead.
    #[arg(long, default_value_t = 7, allow_negative_numbers = true)]
    pub days: i64,
    /// Seed of the search.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// Search by a count of iterations: the same facts give the same plan.
    #[arg(long)]
    pub iterations: Option<u64>,
    /// Search for so many milliseconds.
    #[arg(long)]
    pub milliseconds: Option<u64>,
}

/// What can be done with a batch.
#[derive(Debug, Subcommand)]
pub enum BatchCommand {
    /// List the batches.
    List,
    /// List the recipes by the names that `scale` and `new` take.
    Recipes,
    /// Show one batch as its card.
    Show {
        /// Batch number.
        batch: i64,
    },
    /// Scale a recipe and ask the gate; writes nothing and needs no household for the amounts.
    Scale(NewBatchArguments),
    /// Show what the outcomes of a recipe teach beside the printed figure.
    Factor {
        /// Recipe.
        recipe: String,
    },
    /// Set a batch up.
    New(NewBatchArguments),
    /// Start a batch: its food leaves the lots.
    Start {
        /// Batch number.
        batch: i64,
        /// Ticks made, by key.
        #[arg(long)]
        tick: Vec<String>,
    },
    /// Enter what came out.
    Finish(FinishArguments),
    /// Enter the seal check of the day after.
    Seals {
        /// Batch number.
        batch: i64,
        /// Containers that did not seal, such as `quart=1`.
        #[arg(long, value_name = "SIZE=COUNT")]
        failed: Vec<String>,
        /// What happens to them: fridge, freezer or discarded; left out, they wait.
        #[arg(long, default_value = "")]
        to: String,
        /// When the jars were lifted, such as 16:40 or "2026-08-27 16:40".
        #[arg(long, default_value = "")]
        lifted: String,
    },
    /// Type in what was written on a printed card, by its code.
    Enter(EnterArguments),
    /// Answer a tick that was missing: a batch on hold for it alone is released.
    Late {
        /// Batch number.
        batch: i64,
        /// Tick, by key.
        tick: String,
        /// Was it done: yes or no.
        #[arg(long)]
        done: String,
        /// Who did it.
        #[arg(long, default_value = "")]
        by: String,
        /// When it was done, such as 14:05.
        #[arg(long, default_value = "")]
        at: String,
    },
}

/// A new batch.
#[derive(Debug, Args)]
pub struct NewBatchArguments {
    /// Recipe.
    pub recipe: String,
    /// Jar, such as quart or pint.
    #[arg(long, visible_alias = "jars", default_value = "")]
    pub jar: String,
    /// Jars to fill; beside batches or goods at hand, the jars these are held against.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub jars_count: String,
    /// Goods at hand, such as "cider-vinegar-5pct=3 cups": the one that runs out first decides.
    #[arg(long, value_name = "INGREDIENT=AMOUNT")]
    pub have: Vec<String>,
    /// As much as a pot takes, such as "12 quarts".
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub pot: String,
    /// How many batches, such as 2 or "1 1/2".
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub batches: String,
    /// Produce to use up, such as "24 lb".
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub produce: String,
    /// Lots to draw from, first first.
    #[arg(long)]
    pub lot: Vec<i64>,
    /// Canner, by name.
    #[arg(long, default_value = "")]
    pub canner: String,
    /// Acid for the jars, such as citric-acid.
    #[arg(long, default_value = "")]
    pub acid: String,
    /// Answer to a question of the food, such as `bean-size=small`.
    #[arg(long, value_name = "QUESTION=ANSWER")]
    pub answer: Vec<String>,
    /// Day (YYYY-MM-DD).
    #[arg(long, default_value = "")]
    pub day: String,
}

/// What came out of a batch.
#[derive(Debug, Args)]
pub struct FinishArguments {
    /// Batch number.
    pub batch: i64,
    /// Containers, such as `quart=7` or `pint-bag=12`.
    #[arg(long = "out", value_name = "SIZE=COUNT")]
    pub containers: Vec<String>,
    /// A partial jar to the fridge, such as "1 1/2 cups".
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub partial: String,
    /// Weight of trimmings.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub trimmings: String,
    /// Where trimmings went: compost or animals.
    #[arg(long, default_value = "compost")]
    pub trimmings_to: String,
    /// Weight boiled off or dried away.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub cooked_off: String,
    /// Minutes the load was processed.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub minutes: String,
    /// When the jars were lifted, such as 16:40.
    #[arg(long, default_value = "")]
    pub lifted: String,
    /// Ticks made, by key.
    #[arg(long)]
    pub tick: Vec<String>,
    /// Note.
    #[arg(long, default_value = "")]
    pub note: String,
}

/// A kitchen day.
#[derive(Debug, Args)]
pub struct DayArguments {
    /// Make the timetable anew from the day's batches.
    #[arg(long)]
    pub make: bool,
    /// Day to show (YYYY-MM-DD); today otherwise.
    #[arg(long)]
    pub on: Option<String>,
    /// Seed of the search.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// Search for so many milliseconds; a fixed count of iterations otherwise.
    #[arg(long)]
    pub milliseconds: Option<u64>,
}

/// Containers taken.
#[derive(Debug, Args)]
pub struct TakeArguments {
    /// Batch number.
    pub batch: i64,
    /// Size, such as quart.
    pub size: String,
    /// How many.
    #[arg(default_value = "1", allow_hyphen_values = true)]
    pub count: String,
    /// Place they stand in.
    #[arg(long, default_value = "shelf")]
    pub place: String,
    /// Where to: eaten, given, discarded, or another place.
    #[arg(long, default_value = "eaten")]
    pub to: String,
}

/// A count.
#[derive(Debug, Args)]
pub struct CountArguments {
    /// Batch number.
    pub batch: i64,
    /// Size, such as quart.
    pub size: String,
    /// How many were found.
    #[arg(allow_hyphen_values = true)]
    pub found: String,
    /// Place they stand in.
    #[arg(long, default_value = "shelf")]
    pub place: String,
}

/// A look-up; what is not said is filled in by what the house has.
#[derive(Debug, Args)]
pub struct ProcessArguments {
    /// Food, such as tomato-juice; without one the foods are listed.
    #[arg(long, default_value = "")]
    pub food: String,
    /// raw or hot.
    #[arg(long, default_value = "")]
    pub pack: String,
    /// Jar, such as quart.
    #[arg(long, default_value = "")]
    pub jar: String,
    /// boiling-water, dial-gauge, weighted-gauge or steam.
    #[arg(long, default_value = "")]
    pub method: String,
    /// A canner of the house, by name.
    #[arg(long, default_value = "")]
    pub canner: String,
    /// Elevation, such as 2500ft or 305m; the house's own otherwise.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub elevation: String,
    /// Acid for the jars, such as citric-acid.
    #[arg(long, default_value = "")]
    pub acid: String,
    /// Strength of the vinegar on its label, percent.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub vinegar: String,
    /// The produce is sound: from living, healthy plants, not split, never frozen.
    #[arg(long)]
    pub sound_history: bool,
    /// Answer to a question of the food, such as `bean-size=small`.
    #[arg(long, value_name = "QUESTION=ANSWER")]
    pub answer: Vec<String>,
    /// Print every row of the tables, for holding against the printed guide.
    #[arg(long, conflicts_with_all = ["food", "questions"])]
    pub all: bool,
    /// Answer a file of questions, one JSON object a line («-» reads standard input).
    #[arg(long, value_name = "FILE", conflicts_with = "food")]
    pub questions: Option<PathBuf>,
}

/// Which invariants to run.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// Run only this invariant.
    #[arg(long, value_name = "NAME")]
    pub only: Option<String>,
    /// Check the printed tables of this folder instead of the household's file.
    #[arg(long, value_name = "FOLDER")]
    pub tables: Option<PathBuf>,
}

/// A file.
#[derive(Debug, Args)]
pub struct FileArgument {
    /// The copy.
    pub file: PathBuf,
}

/// Serving.
#[derive(Debug, Args)]
pub struct ServeArguments {
    /// Port on this machine; 0 takes a free one.
    #[arg(long, default_value_t = 7310)]
    pub port: u16,
}

/// The demonstration.
#[derive(Debug, Args)]
pub struct DemoArguments {
    /// Print the day and stop.
    #[arg(long)]
    pub once: bool,
    /// Port on this machine; 0 takes a free one.
    #[arg(long, default_value_t = 7310)]
    pub port: u16,
}
