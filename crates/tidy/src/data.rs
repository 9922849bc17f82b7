//! Every row of every table says where it was read.

use crate::Problem;
use crate::files::Text;

/// Columns of which a row must fill the first one its table has.
const SOURCE_COLUMNS: [&str; 3] = ["source", "page", "basis"];

/// Tables that only give names and say which names belong together; they state
/// nothing that could be read anywhere, so they must hold no figure.
const NAMES_ONLY: [&str; 2] = ["data/process/sources.csv", "data/kitchen/crops.csv"];

/// Rows of a table that name no source; a table without such a column is one
/// problem as a whole.
pub fn sourced(file: &Text) -> Vec<Problem> {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .comment(Some(b'#'))
        .from_reader(file.text.as_bytes());
    let columns = match reader.headers() {
        Ok(columns) => columns.clone(),
        Err(cause) => return vec![Problem::of(&file.path, format!("is no table: {cause}"))],
    };
    // Questions with their right answers are tests: nothing is read from them.
    if file.path.starts_with("data/cases/") {
        return Vec::new();
    }
    if NAMES_ONLY.contains(&file.path.as_str()) {
        return figures_in(file, &mut reader);
    }
    let place = SOURCE_COLUMNS
        .iter()
        .find_map(|wanted| columns.iter().position(|column| column == *wanted));
    let Some(place) = place else {
        return vec![Problem::of(
            &file.path,
            format!("has none of the columns {}", SOURCE_COLUMNS.join(", ")),
        )];
    };
    let mut problems = Vec::new();
    let mut rows = 0;
    for row in reader.records() {
        let row = match row {
            Ok(row) => row,
            Err(cause) => {
                problems.push(Problem::of(&file.path, cause.to_string()));
                continue;
            }
        };
        rows += 1;
        let line = row.position().map_or(0, csv::Position::line);
        if row.len() != columns.len() {
            problems.push(Problem::of(
                &format!("{}:{line}", file.path),
                format!("{} cells under {} columns", row.len(), columns.len()),
            ));
        }
        if row.get(place).unwrap_or("").trim().is_empty() {
            problems.push(Problem::of(
                &format!("{}:{line}", file.path),
                format!("no {}", &columns[place]),
            ));
        }
    }
    if rows == 0 {
        problems.push(Problem::of(&file.path, "has no row"));
    }
    problems
}

/// The cells of a table of names that hold a figure.
fn figures_in(file: &Text, reader: &mut csv::Reader<&[u8]>) -> Vec<Problem> {
    let mut problems = Vec::new();
    for row in reader.records().flatten() {
        let line = row.position().map_or(0, csv::Position::line);
        for cell in row.iter().filter(|cell| cell.trim().parse::<f64>().is_ok()) {
            let what = format!("the figure {cell} in a table of names needs a source column");
            problems.push(Problem::of(&format!("{}:{line}", file.path), what));
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(text: &str) -> Vec<Problem> {
        sourced(&Text {
            path: "data/a.csv".to_owned(),
            text: text.to_owned(),
        })
    }

    #[test]
    fn a_row_without_source_is_found_with_its_line() {
        let found = problems("food,minutes,source\njuice,40,guide 3-6\nsalsa,15, \n");
        assert_eq!(found, [Problem::of("data/a.csv:3", "no source")]);
    }

    #[test]
    fn a_table_without_a_source_column_is_found() {
        assert_eq!(problems("food,minutes\njuice,40\n").len(), 1);
    }

    #[test]
    fn a_table_may_name_pages_or_how_it_was_read() {
        assert!(problems("food,page\njuice,3-6\n").is_empty());
        assert!(problems("food,basis\njuice,read\n").is_empty());
    }

    #[test]
    fn a_table_of_names_may_hold_no_figure() {
        let names = |text: &str| {
            sourced(&Text {
                path: NAMES_ONLY[1].to_owned(),
                text: text.to_owned(),
            })
        };
        assert!(names("key,title\nkale,kale\n").is_empty());
        assert_eq!(names("key,title,days\nkale,kale,5\n").len(), 1);
    }

    #[test]
    fn a_row_cut_short_and_an_empty_table_are_found() {
        assert_eq!(problems("food,minutes,source\njuice,40\n").len(), 2);
        assert_eq!(problems("food,source\n").len(), 1);
    }
}
