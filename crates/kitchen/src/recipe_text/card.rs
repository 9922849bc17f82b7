//! The text file of a recipe: title, a few heads, ingredient lines, an empty line, steps.

use serde::{Deserialize, Serialize};

/// A recipe as it was written; every line of it as it stood.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct WrittenRecipe {
    /// Its title.
    pub title: String,
    /// Who wrote it; may be empty.
    pub by: String,
    /// Where it comes from; may be empty.
    pub from: String,
    /// What it makes, as written; may be empty.
    pub makes: String,
    /// Ingredient lines.
    pub lines: Vec<String>,
    /// Steps.
    pub steps: Vec<String>,
}

impl WrittenRecipe {
    /// Reads the text file: the first line is the title, «By:», «From:» and «Makes:» may stand
    /// right below it, then the ingredient lines up to an empty line, then the steps. No line is
    /// left out.
    pub fn from_text(text: &str) -> WrittenRecipe {
        let mut recipe = WrittenRecipe::default();
        let mut lines = text.lines().map(str::trim).peekable();
        while lines.next_if(|line| line.is_empty()).is_some() {}
        recipe.title = lines.next().unwrap_or_default().to_owned();
        let mut heads = true;
        let mut steps = false;
        for line in lines {
            if line.is_empty() {
                heads = false;
                steps = steps || !recipe.lines.is_empty();
                continue;
            }
            if steps {
                recipe.steps.push(line.to_owned());
                continue;
            }
            if heads && recipe.head(line) {
                continue;
            }
            heads = false;
            recipe.lines.push(line.to_owned());
        }
        recipe
    }

    /// Takes a head line; the first of each kind counts, a second one is an ingredient line.
    fn head(&mut self, line: &str) -> bool {
        let Some((word, rest)) = line.split_once(':') else {
            return false;
        };
        let place = match word.trim().to_lowercase().as_str() {
            "by" => &mut self.by,
            "from" => &mut self.from,
            "makes" => &mut self.makes,
            _ => return false,
        };
        let rest = rest.trim();
        if rest.is_empty() || !place.is_empty() {
            return false;
        }
        rest.clone_into(place);
        true
    }

    /// The text file again; reading it gives the same recipe.
    pub fn to_text(&self) -> String {
        let mut out = format!("{}\n", self.title);
        for (word, text) in [
            ("By", &self.by),
            ("From", &self.from),
            ("Makes", &self.makes),
        ] {
            if !text.is_empty() {
                out.push_str(&format!("{word}: {text}\n"));
            }
        }
        out.push('\n');
        for line in &self.lines {
            out.push_str(&format!("{line}\n"));
        }
        if !self.steps.is_empty() {
            out.push('\n');
        }
        for step in &self.steps {
            out.push_str(&format!("{step}\n"));
        }
        out
    }
}
