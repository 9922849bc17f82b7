//! What an ingredient is: by its key in the recipes, or by the words people say for it.

use crate::rows::IngredientRow;
use crate::suggest;
use crate::tables::Reference;
use crate::words::IngredientKind;
use std::collections::{BTreeMap, BTreeSet};

/// The words of every row, taken apart once when the tables are read.
#[derive(Debug, Clone, Default)]
pub(crate) struct KindIndex {
    /// The words of each row, in table order; none for a word that says how a thing is cut.
    words: Vec<BTreeSet<String>>,
    /// Words that only say how a thing is cut.
    cuts: BTreeSet<String>,
    /// What a single word names by itself.
    alone: BTreeMap<String, IngredientKind>,
    /// Rows by their key.
    keys: BTreeMap<String, usize>,
}

impl KindIndex {
    pub(crate) fn of(rows: &[IngredientRow]) -> KindIndex {
        let mut index = KindIndex::default();
        for (at, row) in rows.iter().enumerate() {
            let words = words(&row.ingredient);
            if row.kind == IngredientKind::HowCut {
                index.cuts.extend(words);
                index.words.push(BTreeSet::new());
                continue;
            }
            index.keys.insert(row.ingredient.clone(), at);
            if let (1, Some(word)) = (words.len(), words.first()) {
                index.alone.insert(word.clone(), row.kind);
            }
            index.words.push(words);
        }
        index
    }
}

impl Reference {
    /// What this ingredient is: the row of exactly this key, else the row whose words are all in
    /// the text, when every other word of it only says how the thing is cut or names the same kind
    /// by itself. `None` = not known; nothing is guessed from part of a name.
    pub fn ingredient(&self, text: &str) -> Option<&IngredientRow> {
        let (rows, index) = (&self.ingredient_kinds, &self.kinds);
        if let Some(at) = index.keys.get(text) {
            return rows.get(*at);
        }
        let wanted = words(text);
        let fitting: Vec<(usize, &IngredientRow)> = rows
            .iter()
            .zip(&index.words)
            .filter(|(_, have)| !have.is_empty() && have.is_subset(&wanted))
            .filter(|(row, have)| {
                // «serrano peppers»: both words alone name the same kind.
                wanted.difference(have).all(|word| {
                    index.cuts.contains(word) || index.alone.get(word) == Some(&row.kind)
                })
            })
            .map(|(row, have)| (have.len(), row))
            .collect();
        let most = fitting.iter().map(|(count, _)| *count).max()?;
        let mut best = fitting.iter().filter(|(count, _)| *count == most);
        let (_, first) = best.next()?;
        // Two rows of different kinds fit equally well: the name does not say which is meant.
        best.all(|(_, row)| row.kind == first.kind)
            .then_some(*first)
    }

    /// Whether two names mean the same ingredient: the same words, but for those that only say how
    /// it is cut. A less particular name is another one: «tomatoes» are not «paste tomatoes».
    pub fn same_ingredient(&self, one: &str, other: &str) -> bool {
        let named = |text| {
            let all = words(text);
            let named: BTreeSet<String> = all.difference(&self.kinds.cuts).cloned().collect();
            // «cloves» are a spice too: a name of nothing but such words means them.
            if named.is_empty() { all } else { named }
        };
        named(one) == named(other)
    }

    /// How many words two names share, each in the singular.
    pub fn shared_words(one: &str, other: &str) -> usize {
        words(one).intersection(&words(other)).count()
    }

    /// Ingredients whose key resembles `text`, best first, five at most.
    pub fn suggest_ingredient(&self, text: &str) -> Vec<&IngredientRow> {
        suggest::best(text, &self.ingredient_kinds, |row| {
            (&row.ingredient, &row.ingredient)
        })
        .into_iter()
        .filter(|row| row.kind != IngredientKind::HowCut)
        .collect()
    }

    /// Tested recipes whose key or title resembles `text`, best first, five at most.
    pub fn suggest_recipe(&self, text: &str) -> Vec<&crate::rows::RecipeSheet> {
        suggest::best(text, &self.recipes, |sheet| (&sheet.key, &sheet.title))
    }
}

/// The words of a name, each in the singular.
fn words(text: &str) -> BTreeSet<String> {
    text.to_lowercase()
        .replace('%', " percent ")
        .split(|c: char| !c.is_alphanumeric())
        .flat_map(|word| match word.strip_suffix("pct") {
            Some(number) => vec![number.to_owned(), "percent".to_owned()],
            None => vec![singular(word)],
        })
        .filter(|word| !word.is_empty())
        .collect()
}

fn singular(word: &str) -> String {
    let stem = |ending: &str, instead: &str| {
        word.strip_suffix(ending)
            .filter(|stem| stem.len() > 1)
            .map(|stem| format!("{stem}{instead}"))
    };
    if word.ends_with("ss") {
        return word.to_owned();
    }
    stem("ies", "y")
        .or_else(|| stem("oes", "o"))
        .or_else(|| stem("ches", "ch"))
        .or_else(|| stem("shes", "sh"))
        .or_else(|| stem("s", ""))
        .unwrap_or_else(|| word.to_owned())
}

#[cfg(test)]
mod tests {
    use crate::{IngredientKind, Reference};

    fn kind(text: &str) -> Option<IngredientKind> {
        Reference::embedded().ingredient(text).map(|row| row.kind)
    }

    #[test]
    fn how_it_is_cut_makes_no_other_ingredient_and_every_other_word_does() {
        let r = Reference::embedded();
        assert!(r.same_ingredient("onions-chopped", "Chopped onions"));
        assert!(r.same_ingredient("cloves", "clove"));
        assert!(r.same_ingredient("vinegar-5pct", "vinegar 5%"));
        assert!(!r.same_ingredient("paste tomatoes", "tomatoes"));
        assert!(!r.same_ingredient("cabbage", "corn"));
        assert!(!r.same_ingredient("cloves", "chopped parsley"));
    }

    #[test]
    fn words_that_say_how_a_thing_is_cut_do_not_hide_what_it_is() {
        assert_eq!(kind("chopped red onions"), Some(IngredientKind::Onion));
        assert_eq!(kind("Garlic powder"), Some(IngredientKind::DriedSpice));
        assert_eq!(
            kind("cider vinegar (5%)"),
            Some(IngredientKind::CiderVinegar)
        );
        assert_eq!(kind("cider vinegar"), Some(IngredientKind::UnknownVinegar));
        assert_eq!(kind("lemon juice"), Some(IngredientKind::FreshCitrus));
        assert_eq!(
            kind("bottled lemon juice"),
            Some(IngredientKind::BottledLemon)
        );
        assert_eq!(kind("peppers"), Some(IngredientKind::Pepper));
        assert_eq!(kind("serrano peppers"), Some(IngredientKind::Pepper));
        assert_eq!(kind("serrano onions"), None);
        assert_eq!(
            kind("green tomatoes, sliced"),
            Some(IngredientKind::GreenTomato)
        );
        assert_eq!(kind("cherries"), Some(IngredientKind::Fruit));
        assert_eq!(kind("peaches"), Some(IngredientKind::Fruit));
    }

    #[test]
    fn what_is_only_half_understood_is_not_known() {
        assert_eq!(kind("onion soup mix"), None);
        assert_eq!(kind("salt and pepper"), None);
        assert_eq!(kind("vinegar 4%"), None);
        assert_eq!(kind("chopped"), None);
        assert_eq!(kind("white peaches"), None);
        assert_eq!(kind(""), None);
    }
}
