//! Narrows the earliest and latest starts: by the distances between blocks, and by the minutes at
//! which an empty kitchen could take each block.

use super::closure::FAR;
use super::model::Model;
use super::place::Placer;

/// Narrows the windows of a model. The block that has none left is the error: no schedule exists
/// within the span.
pub(super) fn narrow(model: &mut Model) -> Result<(), usize> {
    let mut empty = Placer::new(model);
    loop {
        let mut changed = propagate(model)?;
        for block in 0..model.blocks {
            let (low, high) = (model.earliest[block], model.latest[block]);
            let first = empty.fit(model, block, low, high).ok_or(block)?;
            changed |= first > low;
            model.earliest[block] = first;
        }
        if !changed {
            return Ok(());
        }
    }
}

fn propagate(model: &mut Model) -> Result<bool, usize> {
    let mut changed = false;
    for block in 0..model.blocks {
        for index in 0..model.neighbours[block].len() {
            let near = model.neighbours[block][index];
            if near.after > FAR {
                let low = model.earliest[near.block] + near.after;
                if low > model.earliest[block] {
                    model.earliest[block] = low;
                    changed = true;
                }
            }
            if near.before > FAR {
                let high = model.latest[near.block] - near.before;
                if high < model.latest[block] {
                    model.latest[block] = high;
                    changed = true;
                }
            }
        }
        if model.earliest[block] > model.latest[block] {
            return Err(block);
        }
    }
    Ok(changed)
}
