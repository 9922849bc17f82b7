//! The stillroom program: arguments in, text or JSON out.
//!
//! The clock is read here and nowhere below; `--date` and `--time` stand in for it when a paper
//! card is typed in later, and in tests.

mod arguments;
mod clock;
mod command;
mod output;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = arguments::Arguments::parse();
    match command::run(&arguments) {
        Ok(code) => code,
        Err(error) => output::report(&error, arguments.json),
    }
}
