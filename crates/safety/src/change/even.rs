//! A recipe made larger or smaller evenly is no change of its shares: edits that give every line
//! of the batch the same factor are one even scaling.

use super::edit::{ChangeError, Edit};
use super::line::{self, Line};
use quantity::{Exact, checked_div, whole};

/// The edits with their numbers, from 1; an even scaling of the whole is gathered into one, which
/// has the number of the first amount.
///
/// # Errors
/// An amount too finely divided.
pub(super) fn gathered(
    printed: &[Line],
    edits: &[Edit],
) -> Result<Vec<(usize, Edit)>, ChangeError> {
    let numbered = edits.iter().enumerate().map(|(at, edit)| (at + 1, edit));
    let Some(times) = factor(printed, edits)? else {
        return Ok(numbered.map(|(nr, edit)| (nr, edit.clone())).collect());
    };
    let mut scale = Some(Edit::Scale { times });
    Ok(numbered
        .filter_map(|(nr, edit)| match edit {
            Edit::Amount { .. } => scale.take().map(|scale| (nr, scale)),
            other => Some((nr, other.clone())),
        })
        .collect())
}

/// The one factor of all lines of the batch, if every one of them is given once and evenly. An
/// amount of something else (a swap) is that of one batch as printed: beside it nothing is gathered.
fn factor(printed: &[Line], edits: &[Edit]) -> Result<Option<Exact>, ChangeError> {
    let mut given: Vec<(&Line, Exact)> = Vec::new();
    for edit in edits {
        if matches!(edit, Edit::Swap { replaced, amount, .. } if replaced.is_some() || amount.is_some())
        {
            return Ok(None);
        }
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
        let even = single.is_ok_and(|single| single >= line.low && single <= line.high);
        if !even || times <= whole(0) {
            return Ok(None);
        }
    }
    Ok(Some(times))
}
