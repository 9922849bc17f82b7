//! A recipe made larger or smaller evenly is no change of its shares: edits that give every line
//! of the batch the same factor are one even scaling.

use super::edit::{ChangeError, Edit};
use super::line::{self, Line};
use quantity::{Exact, checked_div};

/// The edits, with an even scaling of the whole gathered into one.
///
/// # Errors
/// An amount too finely divided.
pub(super) fn gathered(printed: &[Line], edits: &[Edit]) -> Result<Vec<Edit>, ChangeError> {
    let Some(times) = factor(printed, edits)? else {
        return Ok(edits.to_vec());
    };
    let rest = edits
        .iter()
        .filter(|edit| !matches!(edit, Edit::Amount { .. }))
        .cloned();
    Ok(std::iter::once(Edit::Scale { times }).chain(rest).collect())
}

/// The one factor of all lines of the batch, if every one of them is given once and evenly.
fn factor(printed: &[Line], edits: &[Edit]) -> Result<Option<Exact>, ChangeError> {
    let mut given: Vec<(&Line, Exact)> = Vec::new();
    for edit in edits {
        if let Edit::Amount { line, amount } = edit {
            let Ok(line) = line::find_one(printed, line, "") else {
                return Ok(None);
            };
            if line.measure != amount.measure || line.per != "batch" {
                return Ok(None);
            }
            given.push((line, amount.size));
        }
    }
    let of_batch: Vec<&Line> = printed.iter().filter(|line| line.per == "batch").collect();
    let each_once = of_batch.iter().all(|line| {
        given
            .iter()
            .filter(|(of, _)| of.number == line.number)
            .count()
            == 1
    });
    let first = given.iter().find(|(line, _)| line.low == line.high);
    let (Some((line, size)), true) = (first, each_once) else {
        return Ok(None);
    };
    let times = checked_div(*size, line.low)?;
    for (line, size) in &given {
        let single = checked_div(*size, times);
        if !single.is_ok_and(|single| single >= line.low && single <= line.high) {
            return Ok(None);
        }
    }
    Ok(Some(times))
}
