//! A whole question as fields and words: what a link on the page asks.

use super::Question;

/// The question as it was said, with some fields said differently; an empty word unsays one.
pub(super) fn with(question: &Question<'_>, changes: &[(&str, &str)]) -> Vec<(String, String)> {
    let said = question.said;
    let mut fields: Vec<(String, String)> = [
        ("food", question.food.food.as_str()),
        ("pack", said.pack.trim()),
        ("jar", said.jar.trim()),
        ("method", said.method.trim()),
        ("canner", said.canner.trim()),
        ("elevation", said.elevation.trim()),
        ("acid", said.acid.trim()),
        ("vinegar", said.vinegar.trim()),
        ("sound", said.sound.trim()),
    ]
    .into_iter()
    .map(|(field, word)| (field.to_owned(), word.to_owned()))
    .collect();
    fields.extend(
        said.answers
            .iter()
            .map(|(key, answer)| (format!("answers.{key}"), answer.clone())),
    );
    for (field, word) in changes {
        match fields.iter_mut().find(|(known, _)| known == field) {
            Some((_, said)) => (*word).clone_into(said),
            None => fields.push(((*field).to_owned(), (*word).to_owned())),
        }
    }
    fields.retain(|(_, word)| !word.is_empty());
    fields
}
