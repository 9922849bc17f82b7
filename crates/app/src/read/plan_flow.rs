//! A plan's runs gathered as they are shown, and the bands of the flow picture.

use super::plan_words::place_of;
use crate::action::lot::place_title;
use crate::view::Both;
use crate::view::plan::{Flow, FlowNode, PlanDay};
use ledger::Place;
use plan::allocation::{Plan, Problem};
use quantity::Mass;
use std::collections::BTreeMap;

/// Less than this is the rest of whole units and is not drawn.
pub(super) const CRUMB_GRAMS: i64 = 100;

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
        let mut lots: BTreeMap<usize, i64> = BTreeMap::new();
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

/// One node in the middle of the picture.
struct Band<'a> {
    groups: Vec<&'a Group>,
    place: Place,
    title: String,
    detail: Option<String>,
    day: String,
}

/// Batches by themselves and by day; what the table and the animals take over all days as one
/// band each, because a picture of every supper hides the batches.
fn gathered<'a>(groups: &'a [Group], days: &[PlanDay]) -> Vec<Band<'a>> {
    let mut bands: Vec<Band<'a>> = Vec::new();
    let mut portions: Vec<Band<'a>> = Vec::new();
    let lines = days
        .iter()
        .flat_map(|day| day.batches.iter().map(move |batch| (day, batch)));
    for (group, (day, batch)) in groups.iter().zip(lines) {
        if !group.is_portions() {
            bands.push(Band {
                groups: vec![group],
                place: group.place,
                title: batch.title.clone(),
                detail: Some(batch.makes.clone()),
                day: day.title.clone(),
            });
            continue;
        }
        match portions.iter_mut().find(|band| band.place == group.place) {
            Some(band) => band.groups.push(group),
            None => portions.push(Band {
                groups: vec![group],
                place: group.place,
                title: batch.title.clone(),
                detail: None,
                day: "From day to day".to_owned(),
            }),
        }
    }
    bands.append(&mut portions);
    bands
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
    let bands = gathered(groups, days);
    for (index, band) in bands.iter().enumerate() {
        let grams = band.groups.iter().map(|group| group.grams(plan)).sum();
        flow.batches.push(FlowNode {
            key: format!("batch-{index}"),
            title: band.title.clone(),
            detail: band
                .detail
                .clone()
                .unwrap_or_else(|| Both::mass(Mass::from_grams(grams)).to_string()),
            day: band.day.clone(),
            grams,
        });
        if !places.contains(&band.place) {
            places.push(band.place);
        }
        let mut lots: BTreeMap<usize, i64> = BTreeMap::new();
        for (lot, grams) in band.groups.iter().flat_map(|group| group.lots(plan)) {
            *lots.entry(lot).or_default() += grams;
        }
        flow.into
            .extend(lots.into_iter().map(|(lot, grams)| (lot, index, grams)));
        flow.out.push((index, band.place as usize, grams));
    }
    for left in plan
        .left_out
        .iter()
        .filter(|left| left.grams >= CRUMB_GRAMS)
    {
        let place = left_place(problem, left.lot);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places.sort();
    let at = |place: Place| places.iter().position(|known| *known == place).unwrap_or(0);
    for (out, band) in flow.out.iter_mut().zip(&bands) {
        out.1 = at(band.place);
    }
    for left in plan
        .left_out
        .iter()
        .filter(|left| left.grams >= CRUMB_GRAMS)
    {
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
