//! A household's own recipe is kept: a new version of a title is a new fact beside the old.

use super::Done;
use crate::App;
use crate::error::{AppError, ErrorKind};
use crate::household_recipe::{Kept, answers, came_in, judged, key_of};
use crate::read::recipe::{kept, not_yet};
use crate::request::{KeepRecipe, Now};

impl App {
    /// Keeps a recipe with the answers it was read with.
    ///
    /// # Errors
    /// An open question, named with its choices; no title, no ingredient lines; a card that is
    /// none; the same recipe once more ([`ErrorKind::Already`]).
    pub fn keep_recipe(&self, now: &Now, request: &KeepRecipe) -> Result<Done, AppError> {
        let came = came_in(&request.text)?;
        let answers = answers(&request.answers)?;
        let (reading, _) = judged(&came.recipe, &answers);
        if let Some((ask, lines)) = reading.open.first() {
            let lines: Vec<String> = lines.iter().map(ToString::to_string).collect();
            let choices: Vec<&str> = ask.choices().iter().map(|(key, _)| *key).collect();
            return Err(AppError::input(
                &format!("answers.{}", ask.key()),
                format!("{} (line {})", ask.words(), lines.join(", ")),
                format!("Answer {}={}.", ask.key(), choices.join(" or ")),
            ));
        }
        let why = not_yet(&reading);
        if !why.is_empty() {
            return Err(AppError::input(
                "text",
                why,
                "Write the title on the first line, then one ingredient on each line.",
            ));
        }
        let mut key = key_of(&came.recipe.title);
        // A tested recipe keeps its name to itself.
        if self.recipes.get(&key).is_ok() {
            key = format!("own-{key}");
        }
        let title = came.recipe.title.clone();
        let new = Kept {
            recipe: came.recipe,
            answers,
        };
        let records = self.store().household_recipes()?;
        let earlier = records.iter().rev().find(|record| record.key == key);
        if let Some(record) = earlier
            && kept(record)? == new
        {
            let mut already = AppError::input(
                "text",
                format!("«{title}» is kept like this already; nothing was written."),
                format!("Show it with `stillroom recipe show {key}`."),
            );
            already.kind = ErrorKind::Already;
            already.entry = Some(record.entry);
            return Err(already);
        }
        let content = serde_json::to_string(&new).map_err(|error| {
            AppError::failed(format!("The recipe cannot be written down: {error}."), "")
        })?;
        let (entry, id) = self.write(now, "recipe", "", &request.token, |writer| {
            Ok(writer.add_household_recipe(&key, &title, &content)?)
        })?;
        Ok(Done {
            entry,
            id: Some(id),
            words: match earlier {
                None => format!("«{title}» is kept as {key}."),
                Some(_) => {
                    format!("A new version of «{title}» is kept as {key}; the old one stays.")
                }
            },
        })
    }

    /// The key that an entry kept a recipe under.
    ///
    /// # Errors
    /// An entry that kept none; those of reading the file.
    pub fn recipe_key_of(&self, entry: i64) -> Result<String, AppError> {
        self.store()
            .household_recipes()?
            .into_iter()
            .find(|record| record.entry == entry)
            .map(|record| record.key)
            .ok_or_else(|| AppError::missing("entry", format!("Entry {entry} kept no recipe."), ""))
    }
}
