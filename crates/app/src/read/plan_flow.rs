//! A plan's runs gathered as they are shown, and the bands of the flow picture.

use super::plan_words::place_of;
use crate::action::lot::place_title;
use crate::view::Both;
use crate::view::plan::{Flow, FlowNode, PlanDay};
use ledger::Place;
use plan::allocation::{Plan, Problem};
use quantity::Mass;

/// Runs shown as one: a batch by itself, or all that the table (or the animals) take on a day.
pub(super) struct Group {
    /// Day of the plan.
    pub day: usize,
    /// Where it goes.
    pub place: Place,
    /// Indices into the plan's runs.
    pub runs: Vec<usize>,
}

impl Group {
    /// Grams of each lot, in order of lot.
    pub fn lots(&self, plan: &Plan) -> Vec<(usize, i64)> {
        let mut lots: std::collections::BTreeMap<usize, i64> = std::collections::BTreeMap::new();
        for run in self.runs.iter().map(|index| &plan.runs[*index]) {
            for used in plan
                .uses
                .iter()
                .filter(|used| used.day == run.day && used.outlet == run.outlet)
            {
                *lots.entry(used.lot).or_default() += used.grams;
            }
        }
        lots.into_iter().collect()
    }

    /// Grams of all its lots.
    pub fn grams(&self, plan: &Plan) -> i64 {
        self.lots(plan).iter().map(|(_, grams)| grams).sum()
    }

    /// Is it what the table or the animals take, rather than a batch?
    pub fn is_portions(&self) -> bool {
        matches!(self.place, Place::Eaten | Place::Animals)
    }
}

/// The groups of a plan: by day, batches first, then the table, then the animals.
pub(super) fn groups(problem: &Problem, plan: &Plan) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (index, run) in plan.runs.iter().enumerate() {
        let place = place_of(&problem.outlets[run.outlet].route);
        let known = groups
            .iter_mut()
            .find(|group| group.day == run.day && group.place == place && group.is_portions());
        match known {
            Some(group) => group.runs.push(index),
            None => groups.push(Group {
                day: run.day,
                place,
                runs: vec![index],
            }),
        }
    }
    groups.sort_by_key(|group| {
        (
            group.day,
            if group.is_portions() {
                group.place as u8
            } else {
                0
            },
            group.runs[0],
        )
    });
    groups
}

/// The bands of the flow picture.
pub(super) fn flow(problem: &Problem, plan: &Plan, groups: &[Group], days: &[PlanDay]) -> Flow {
    let mut flow = Flow::default();
    for lot in &problem.lots {
        flow.lots.push(FlowNode {
            key: format!("lot-{}", lot.id),
            title: lot.name.clone(),
            detail: Both::mass(Mass::from_grams(lot.grams)).to_string(),
            day: String::new(),
            grams: lot.grams,
        });
    }
    let mut places: Vec<Place> = Vec::new();
    for (index, (group, (day, batch))) in groups
        .iter()
        .zip(
            days.iter()
                .flat_map(|day| day.batches.iter().map(move |batch| (day, batch))),
        )
        .enumerate()
    {
        flow.batches.push(FlowNode {
            key: format!("batch-{index}"),
            title: batch.title.clone(),
            detail: batch.makes.clone(),
            day: day.title.clone(),
            grams: group.grams(plan),
        });
        if !places.contains(&group.place) {
            places.push(group.place);
        }
        for (lot, grams) in group.lots(plan) {
            flow.into.push((lot, index, grams));
        }
    }
    for left in &plan.left_out {
        let place = left_place(problem, left.lot);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places.sort();
    let at = |place: Place| places.iter().position(|known| *known == place).unwrap_or(0);
    for (index, group) in groups.iter().enumerate() {
        flow.out.push((index, at(group.place), group.grams(plan)));
    }
    for left in &plan.left_out {
        flow.past
            .push((left.lot, at(left_place(problem, left.lot)), left.grams));
    }
    for (index, place) in places.iter().enumerate() {
        let out: i64 = flow
            .out
            .iter()
            .filter(|(_, to, _)| *to == index)
            .map(|(_, _, grams)| grams)
            .sum();
        let past: i64 = flow
            .past
            .iter()
            .filter(|(_, to, _)| *to == index)
            .map(|(_, _, grams)| grams)
            .sum();
        flow.places.push(FlowNode {
            key: place.as_str().to_owned(),
            title: place_title(*place).to_lowercase(),
            detail: Both::mass(Mass::from_grams(out + past)).to_string(),
            day: String::new(),
            grams: out + past,
        });
    }
    flow
}

/// Where a lot that no batch takes is drawn: still on the counter, or lost to the compost.
fn left_place(problem: &Problem, lot: usize) -> Place {
    if problem.lots[lot].last_day >= problem.horizon() {
        Place::Counter
    } else {
        Place::Compost
    }
}
