//! A household's own recipe, written as lines of text: what each line says for certain, what has
//! to be asked, and what could not be read.
//!
//! Nothing is dropped and nothing is guessed. Every line keeps its text as written beside the
//! reading; a T, a t, a cup, a pint, an ounce of liquid and the strength of a vinegar are asked
//! once for the whole recipe, and the answers are kept with it.

mod ask;
mod card;
mod line;
mod name;
mod number;
mod role;
mod state;
mod unit;

pub use ask::{AnswerError, Answers, Ask};
pub use card::WrittenRecipe;
pub use line::{LineState, ReadLine, Trouble};
pub use role::role_of;
pub use state::state_of_testing;

use line::Context;
use reference::Reference;

/// A recipe as read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// As written.
    pub recipe: WrittenRecipe,
    /// Every ingredient line, in order.
    pub lines: Vec<ReadLine>,
    /// What has to be asked before the amounts are certain, each with the lines it is about.
    pub open: Vec<(Ask, Vec<usize>)>,
    /// Numbers of steps, from 1, that read as an amount of an ingredient: a second group of lines
    /// behind an empty line. Until they stand among the lines, the recipe is not known in full.
    pub in_steps: Vec<usize>,
    /// What was answered.
    pub answers: Answers,
}

impl Reading {
    /// Lines of a state.
    pub fn count(&self, state: LineState) -> usize {
        self.lines.iter().filter(|line| line.state == state).count()
    }
}

/// Reads a recipe with the answers given so far.
pub fn read(reference: &Reference, recipe: &WrittenRecipe, answers: &Answers) -> Reading {
    let bodies = || recipe.lines.iter().map(String::as_str);
    let context = Context {
        reference,
        answers,
        // Spoons differ where cups do: a recipe with metric or imperial measures in it has to say.
        foreign: answers.foreign() || bodies().any(line::names_foreign_measure),
    };
    let lines: Vec<ReadLine> = bodies()
        .enumerate()
        .map(|(index, text)| line::read(&context, index + 1, text))
        .collect();
    let in_steps = recipe
        .steps
        .iter()
        .enumerate()
        .filter(|(_, step)| {
            let line = line::read(&context, 0, step);
            line.kind.is_some() && !line.measured.is_empty()
        })
        .map(|(index, _)| index + 1)
        .collect();
    let open = Ask::ALL
        .iter()
        .map(|ask| {
            let about: Vec<usize> = lines
                .iter()
                .filter(|line| line.asks.contains(ask))
                .map(|line| line.number)
                .collect();
            (*ask, about)
        })
        .filter(|(_, about)| !about.is_empty())
        .collect();
    Reading {
        recipe: recipe.clone(),
        lines,
        open,
        in_steps,
        answers: answers.clone(),
    }
}

#[cfg(test)]
mod strict_tests;
#[cfg(test)]
mod tests;
