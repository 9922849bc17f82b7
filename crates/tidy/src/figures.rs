//! No safety figure stands in code: every number the gate compares with comes
//! from a row with a source, so numbers other than 0 and 1 are refused there.

use crate::Problem;
use crate::files::Text;

/// Figures in the code of a file, tests left out. Allowed are 0 and 1, the
/// places of a tuple (`pair.2`), places of a list (`parts[2]`), and digits that
/// are part of a name (`i64`, `l2001`) or of a text.
pub fn in_code(file: &Text) -> Vec<Problem> {
    if file.is_test() {
        return Vec::new();
    }
    let mut problems = Vec::new();
    let code = without_texts(&without_tests(&file.text));
    for (index, line) in code.lines().enumerate() {
        for figure in figures(line) {
            problems.push(Problem::at(
                &file.path,
                index,
                format!(
                    "the figure {figure} belongs in a table row with a source, read by its key"
                ),
            ));
        }
    }
    problems
}

/// The text up to a test module at its end; such modules stand last by habit.
pub fn without_tests(text: &str) -> String {
    let mut kept = String::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        let opens_tests = line.trim() == "#[cfg(test)]"
            && lines
                .peek()
                .is_some_and(|next| next.trim_start().starts_with("mod "));
        // `mod tests;` names a file of its own; only a body in braces ends the code.
        if opens_tests
            && lines
                .peek()
                .is_some_and(|next| next.trim_end().ends_with('{'))
        {
            break;
        }
        kept.push_str(line);
        kept.push('\n');
    }
    kept
}

/// The code with comments, texts and single characters blanked, line for line.
fn without_texts(code: &str) -> String {
    let letters: Vec<char> = code.chars().collect();
    let mut kept = String::with_capacity(code.len());
    let mut at = 0;
    let next = |at: usize| letters.get(at + 1).copied();
    while let Some(letter) = letters.get(at).copied() {
        match letter {
            '/' if next(at) == Some('/') => {
                while letters.get(at).is_some_and(|letter| *letter != '\n') {
                    at += 1;
                }
            }
            '/' if next(at) == Some('*') => {
                at += 2;
                while at < letters.len() && !(letters[at] == '*' && next(at) == Some('/')) {
                    if letters[at] == '\n' {
                        kept.push('\n');
                    }
                    at += 1;
                }
                at += 2;
            }
            'r' if matches!(next(at), Some('"' | '#')) && is_raw(&letters, at) => {
                let hashes = letters[at + 1..]
                    .iter()
                    .take_while(|letter| **letter == '#')
                    .count();
                at += 2 + hashes;
                while at < letters.len() && !closes_raw(&letters, at, hashes) {
                    if letters[at] == '\n' {
                        kept.push('\n');
                    }
                    at += 1;
                }
                at += 1 + hashes;
                kept.push_str("\"\"");
            }
            '"' => {
                at += 1;
                while at < letters.len() && letters[at] != '"' {
                    if letters[at] == '\n' {
                        kept.push('\n');
                    }
                    at += if letters[at] == '\\' { 2 } else { 1 };
                }
                at += 1;
                kept.push_str("\"\"");
            }
            // A character, not a lifetime.
            '\'' if next(at) == Some('\\') || letters.get(at + 2) == Some(&'\'') => {
                at += if next(at) == Some('\\') { 3 } else { 2 };
                while letters.get(at).is_some_and(|letter| *letter != '\'') {
                    at += 1;
                }
                at += 1;
                kept.push_str("''");
            }
            _ => {
                kept.push(letter);
                at += 1;
            }
        }
    }
    kept
}

fn is_raw(letters: &[char], at: usize) -> bool {
    let before_is_name = at > 0 && (letters[at - 1].is_alphanumeric() || letters[at - 1] == '_');
    let after = letters[at + 1..].iter().find(|letter| **letter != '#');
    !before_is_name && after == Some(&'"')
}

fn closes_raw(letters: &[char], at: usize, hashes: usize) -> bool {
    letters[at] == '"'
        && letters[at + 1..]
            .iter()
            .take(hashes)
            .filter(|letter| **letter == '#')
            .count()
            == hashes
}

/// The figures of one line of code that are not allowed.
fn figures(line: &str) -> Vec<String> {
    let letters: Vec<char> = line.chars().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        if !letters[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let before = at.checked_sub(1).map(|before| letters[before]);
        let start = at;
        while at < letters.len()
            && (letters[at].is_alphanumeric() || letters[at] == '_' || is_point(&letters, at))
        {
            at += 1;
        }
        let in_name = before.is_some_and(|before| before.is_alphanumeric() || before == '_');
        let in_tuple = before == Some('.') && start >= 2 && letters[start - 2] != '.';
        let in_list = before == Some('[')
            && start >= 2
            && is_name_end(letters[start - 2])
            && letters.get(at) == Some(&']');
        if in_name || in_tuple || in_list {
            continue;
        }
        let written: String = letters[start..at].iter().collect();
        let digits: String = written
            .chars()
            .take_while(|c| c.is_ascii_digit() || *c == '_')
            .filter(|c| *c != '_')
            .collect();
        let plain = !written.contains('.') && !written.starts_with("0x");
        if !(plain && (digits == "0" || digits == "1")) {
            found.push(written);
        }
    }
    found
}

/// A point inside a number, not the two points of a range or a call on it.
fn is_point(letters: &[char], at: usize) -> bool {
    letters[at] == '.' && letters.get(at + 1).is_some_and(char::is_ascii_digit)
}

fn is_name_end(letter: char) -> bool {
    letter.is_alphanumeric() || matches!(letter, '_' | ')' | ']')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(code: &str) -> Vec<String> {
        let file = Text {
            path: "crates/safety/src/gate.rs".to_owned(),
            text: code.to_owned(),
        };
        in_code(&file).iter().map(Problem::to_string).collect()
    }

    #[test]
    fn figures_in_code_are_found_with_their_line() {
        let problems =
            found("fn limit() -> u32 {\n    45\n}\nconst MOST: f64 = 4.6;\nlet b = 0x10;\n");
        assert_eq!(problems.len(), 3);
        assert!(
            problems[0].starts_with("crates/safety/src/gate.rs:2: the figure 45"),
            "{problems:?}"
        );
        assert!(problems[1].contains("4.6"));
    }

    #[test]
    fn nought_and_one_names_texts_comments_and_places_are_let_through() {
        let code = "let a: u32 = 0; let b = a + 1_i64; // at most 45 minutes\n/* 15\n psi */ let c = \"45 min\";\n\
                    let d = pair.2 + parts[3]; let e = r#\"10 \"psi\" 5\"#; let f = '7'; let g = '\\u{27}';\n\
                    fn l2001<'a>(x: &'a str) {}\nfor i in 0..1 {}\n";
        assert_eq!(found(code), Vec::<String>::new());
    }

    #[test]
    fn a_list_of_figures_is_no_place_in_a_list() {
        assert_eq!(found("let a = [2]; f(&[3]);").len(), 2);
    }

    #[test]
    fn figures_in_tests_are_let_through() {
        assert_eq!(
            found("fn a() {}\n#[cfg(test)]\nmod tests {\n    const A: u32 = 45;\n}\n"),
            Vec::<String>::new()
        );
    }

    #[test]
    fn a_test_file_named_in_the_middle_does_not_end_the_code() {
        assert_eq!(
            found("#[cfg(test)]\nmod tests;\nconst A: u32 = 45;\n").len(),
            1
        );
    }
}
