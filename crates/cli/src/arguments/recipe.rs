//! Arguments of the recipe commands.

use clap::{Args, Subcommand};
use std::path::PathBuf;

/// What can be done with a recipe.
#[derive(Debug, Subcommand)]
pub enum RecipeCommand {
    /// Hold changes to a tested recipe, or a household's own recipe, against the published rules.
    Check {
        /// A JSON file («-» reads standard input); see docs/guide/recipe-changes.md.
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Show line by line what would be understood of a recipe; writes nothing.
    Read(RecipeFileArguments),
    /// Keep a recipe of the household's own; refused while a question is open.
    Keep(RecipeFileArguments),
    /// List the household's own recipes.
    List,
    /// Show one of them, read anew.
    Show {
        /// Key, as `recipe list` names it.
        key: String,
    },
    /// Print a recipe as a file: the household's own, or a tested one.
    Export {
        /// Key, as `recipe list` or `batch recipes` names it.
        key: String,
        /// json-ld (a card of schema.org) or text.
        #[arg(long = "as", value_name = "FORM", default_value = "json-ld")]
        form: String,
    },
}

/// A recipe file and the answers to what it leaves open.
#[derive(Debug, Args)]
pub struct RecipeFileArguments {
    /// A text file or a JSON-LD card («-» reads standard input); see docs/guide/recipe-text.md.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Answer to a question of the recipe, such as `cup=us`; may be given several times.
    #[arg(long, value_name = "QUESTION=ANSWER")]
    pub answer: Vec<String>,
}
