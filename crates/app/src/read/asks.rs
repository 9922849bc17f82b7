//! What can be chosen or must be answered before a batch is set up.

use crate::App;
use crate::read::counter::capital;
use crate::request::NewBatch;
use crate::view::Choice;
use crate::view::batch::AskLine;
use kitchen::recipe::Recipe;

impl App {
    /// The acid for the jars, and the food's own questions, as far as its pack asks them.
    pub(super) fn asks(&self, recipe: &Recipe, request: &NewBatch) -> Vec<AskLine> {
        let mut asks = Vec::new();
        if recipe.acid_choices.len() > 1 {
            asks.push(AskLine {
                name: "acid".to_owned(),
                question: "Which acid goes into the jars?".to_owned(),
                choices: recipe
                    .acid_choices
                    .iter()
                    .map(|choice| Choice::new(&choice.acid, capital(&choice.name)))
                    .collect(),
                chosen: request.acid.clone(),
            });
        }
        let rows = recipe
            .food
            .as_deref()
            .map(|food| self.reference.questions_for(food))
            .unwrap_or_default();
        for row in rows.into_iter().filter(|row| !row.answer.is_empty()) {
            if row.when_pack.is_some() && row.when_pack != recipe.pack {
                continue;
            }
            let name = format!("answers.{}", row.question);
            let choice = Choice::new(&row.answer, row.answer.replace('-', " "));
            match asks.iter_mut().find(|ask| ask.name == name) {
                Some(ask) if ask.choices.contains(&choice) => {}
                Some(ask) => ask.choices.push(choice),
                None => asks.push(AskLine {
                    name,
                    question: row.text.clone(),
                    choices: vec![choice],
                    chosen: request
                        .answers
                        .get(&row.question)
                        .cloned()
                        .unwrap_or_default(),
                }),
            }
        }
        asks
    }
}
