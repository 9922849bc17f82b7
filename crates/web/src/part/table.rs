//! Tables: a caption, heads, rows; numbers to the right; stacked on a phone when asked for.

use maud::{Markup, html};

/// A column.
#[derive(Debug, Clone, Copy)]
pub struct Column<'a> {
    /// Head of the column.
    pub head: &'a str,
    /// Figures, set to the right.
    pub number: bool,
}

/// A column of words.
pub fn words(head: &str) -> Column<'_> {
    Column {
        head,
        number: false,
    }
}

/// A column of figures.
pub fn figures(head: &str) -> Column<'_> {
    Column { head, number: true }
}

/// One row: its cells, and whether it is the row the page is about.
pub struct Row {
    /// Cells in the order of the columns; the first is the row's head.
    pub cells: Vec<Markup>,
    /// Set in full ink.
    pub this: bool,
}

/// A table whose rows stand as small blocks on a phone: its cells must say by themselves what they are.
pub fn stacked(caption: &str, columns: &[Column<'_>], rows: Vec<Row>) -> Markup {
    html! { table.stack { (within(caption, columns, rows)) } }
}

/// A table that scrolls sideways inside itself where the window is too narrow for it.
pub fn table(caption: &str, columns: &[Column<'_>], rows: Vec<Row>) -> Markup {
    html! {
        div.wide-table tabindex="0" role="region" aria-label=(caption) {
            table { (within(caption, columns, rows)) }
        }
    }
}

fn within(caption: &str, columns: &[Column<'_>], rows: Vec<Row>) -> Markup {
    html! {
        caption { (caption) }
        thead { tr { @for column in columns { th.n[column.number] scope="col" { (column.head) } } } }
        tbody {
            @for row in rows {
                tr.this[row.this] {
                    @for (index, cell) in row.cells.into_iter().enumerate() {
                        @let number = columns.get(index).is_some_and(|column| column.number);
                        @if index == 0 {
                            th.n[number] scope="row" { (cell) }
                        } @else {
                            td.n[number] { (cell) }
                        }
                    }
                }
            }
        }
    }
}
