//! Random days of picking, moving, cooking, eating and counting.

use crate::day;
use ledger::invariant::{
    balance_per_crop_is_zero, count_matches_movements, no_containers_below_zero,
    no_place_below_zero, reversal_mirrors_entry,
};
use ledger::{
    Balances, ContainerBalances, ContainerMovement, Content, CountLine, Draw, Found, Movement,
    Place, Rooms, balances, container_balances, draw_containers, first_dependent, mass_balance,
    reverse, reverse_containers, shelf_difference,
};
use proptest::prelude::*;

/// One random act; numbers are reduced to what is there when it is carried out.
#[derive(Debug, Clone)]
enum Act {
    Pick {
        crop: u8,
        mg: i64,
    },
    Carry {
        which: u16,
        to: u8,
        mg: i64,
    },
    Cook {
        which: u16,
        mg: i64,
        jars: i64,
        boiled_off: i64,
    },
    Take {
        which: u16,
        to: u8,
        count: i64,
    },
    Count {
        which: u16,
        off: i64,
    },
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        3 => (0_u8..4, 1_i64..20_000_000).prop_map(|(crop, mg)| Act::Pick { crop, mg }),
        3 => (any::<u16>(), any::<u8>(), 1_i64..9_000_000)
            .prop_map(|(which, to, mg)| Act::Carry { which, to, mg }),
        3 => (any::<u16>(), 1_i64..20_000_000, 1_i64..9, 0_i64..100)
            .prop_map(|(which, mg, jars, boiled_off)| Act::Cook { which, mg, jars, boiled_off }),
        3 => (any::<u16>(), any::<u8>(), 1_i64..4)
            .prop_map(|(which, to, count)| Act::Take { which, to, count }),
        1 => (any::<u16>(), -2_i64..3).prop_map(|(which, off)| Act::Count { which, off }),
    ]
}

#[derive(Debug, Clone, Default)]
struct History {
    entries: i64,
    lots: i64,
    batches: i64,
    movements: Vec<Movement>,
    containers: Vec<ContainerMovement>,
    counts: Vec<CountLine>,
    reversals: Vec<(i64, i64)>,
}

const CROPS: [&str; 4] = ["tomato-paste", "apple", "kale", "snap-bean"];
const RAW: [Place; 6] = [
    Place::ColdRoom,
    Place::Fridge,
    Place::Eaten,
    Place::Animals,
    Place::Compost,
    Place::Given,
];
const OUT: [Place; 4] = [Place::Eaten, Place::Given, Place::Fridge, Place::Discarded];

impl History {
    fn on(&self) -> jiff::civil::Date {
        day(i8::try_from(1 + self.entries / 5).unwrap_or(31).min(31))
    }

    fn line(&self, crop: &str, content: Content, from: Place, to: Place, mg: i64) -> Movement {
        let line = self
            .movements
            .iter()
            .filter(|m| m.entry == self.entries)
            .count();
        Movement {
            entry: self.entries,
            line: u16::try_from(line).unwrap(),
            on: self.on(),
            crop: crop.to_owned(),
            content,
            becomes: None,
            from,
            to,
            milligrams: mg,
            estimated: false,
        }
    }

    fn push(&mut self, movement: Movement) {
        movement.sound().unwrap();
        self.movements.push(movement);
    }

    /// Raw food that lies somewhere: (lot, crop, place, milligrams).
    fn raw(&self) -> Vec<(Content, String, Place, i64)> {
        balances(&self.movements)
            .into_iter()
            .filter(|((content, _, place), mg)| {
                matches!(content, Content::Lot(_)) && place.is_touchable() && *mg > 0
            })
            .map(|((content, crop, place), mg)| (content, crop, place, mg))
            .collect()
    }

    fn standing(&self) -> Vec<(i64, Place, i64)> {
        container_balances(&self.containers)
            .into_iter()
            .filter(|((_, _, place), n)| place.holds_containers() && *n > 0)
            .map(|((batch, _, place), n)| (batch, place, n))
            .collect()
    }

    /// Carries an act out as one entry; an act with nothing to work on is skipped.
    fn live(&mut self, act: &Act) -> bool {
        self.entries += 1;
        let before = self.movements.len() + self.containers.len() + self.counts.len();
        match *act {
            Act::Pick { crop, mg } => {
                self.lots += 1;
                let crop = CROPS[usize::from(crop)];
                let lot = Content::Lot(self.lots);
                self.push(self.line(crop, lot, Place::Garden, Place::Counter, mg));
            }
            Act::Carry { which, to, mg } => {
                let raw = self.raw();
                if let Some((content, crop, from, there)) = pick(&raw, which) {
                    let to = RAW[usize::from(to) % RAW.len()];
                    if *from != to {
                        self.push(self.line(crop, *content, *from, to, mg.min(*there)));
                    }
                }
            }
            Act::Cook {
                which,
                mg,
                jars,
                boiled_off,
            } => self.cook(which, mg, jars, boiled_off),
            Act::Take { which, to, count } => {
                let standing = self.standing();
                if let Some((batch, from, there)) = pick(&standing, which) {
                    let to = OUT[usize::from(to) % OUT.len()];
                    if *from != to {
                        self.take(*batch, *from, to, count.min(*there));
                    }
                }
            }
            Act::Count { which, off } => {
                let standing = self.standing();
                if let Some((batch, place, there)) = pick(&standing, which) {
                    self.count(*batch, *place, (there + off).max(0));
                }
            }
        }
        self.movements.len() + self.containers.len() + self.counts.len() > before
    }

    fn cook(&mut self, which: u16, mg: i64, jars: i64, boiled_off: i64) {
        let raw = self.raw();
        let Some((lot, crop, from, there)) = pick(&raw, which) else {
            return;
        };
        self.batches += 1;
        let batch = Content::Batch(self.batches);
        let mg = mg.min(*there);
        let into = Movement {
            becomes: Some(batch),
            ..self.line(crop, *lot, *from, Place::Pot, mg)
        };
        self.push(into);
        self.push(self.line("vinegar", batch, Place::Bought, Place::Pot, 1 + mg / 10));
        let steam = mg * boiled_off / 100;
        if steam > 0 {
            self.push(self.line(crop, batch, Place::Pot, Place::CookedOff, steam));
        }
        self.push(self.line(crop, batch, Place::Pot, Place::Shelf, mg - steam));
        self.push(self.line("vinegar", batch, Place::Pot, Place::Shelf, 1 + mg / 10));
        self.containers.push(ContainerMovement {
            entry: self.entries,
            line: 0,
            on: self.on(),
            batch: self.batches,
            size: "quart".to_owned(),
            from: Place::Pot,
            to: Place::Shelf,
            count: jars,
        });
    }

    fn take(&mut self, batch: i64, from: Place, to: Place, count: i64) {
        let draw = Draw {
            entry: self.entries,
            on: self.on(),
            batch,
            size: "quart".to_owned(),
            from,
            to,
            count,
        };
        let (standing, masses) = self.sums();
        let drawn = draw_containers(&draw, &standing, &masses, &Rooms::new()).unwrap();
        self.containers.push(drawn.containers);
        self.movements.extend(drawn.movements);
    }

    fn count(&mut self, batch: i64, place: Place, count: i64) {
        let found = [Found {
            batch,
            size: "quart".to_owned(),
            count,
        }];
        let (standing, masses) = self.sums();
        let rooms = Rooms::new();
        let answer = shelf_difference(
            self.entries,
            self.on(),
            place,
            &found,
            &standing,
            &masses,
            &rooms,
        )
        .unwrap();
        self.counts.extend(answer.counts);
        self.containers.extend(answer.containers);
        self.movements.extend(answer.movements);
    }

    fn sums(&self) -> (ContainerBalances, Balances) {
        (
            container_balances(&self.containers),
            balances(&self.movements),
        )
    }

    /// Undoes an entry if nothing rests on it.
    fn undo(&mut self, entry: i64) -> bool {
        let resting = first_dependent(
            entry,
            &self.movements,
            &self.containers,
            &self.counts,
            &self.reversals,
        );
        if resting.is_some() {
            return false;
        }
        self.entries += 1;
        let food: Vec<_> = self
            .movements
            .iter()
            .filter(|m| m.entry == entry)
            .cloned()
            .collect();
        let moved: Vec<_> = self
            .containers
            .iter()
            .filter(|c| c.entry == entry)
            .cloned()
            .collect();
        self.movements
            .extend(reverse(&food, self.entries, self.on()));
        self.containers
            .extend(reverse_containers(&moved, self.entries, self.on()));
        self.reversals.push((self.entries, entry));
        true
    }
}

fn pick<T>(from: &[T], which: u16) -> Option<&T> {
    (!from.is_empty()).then(|| &from[usize::from(which) % from.len()])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Whatever a household does, every crop's account sums to zero and no place is below zero.
    #[test]
    fn random_days_keep_every_sum_at_zero(acts in prop::collection::vec(act(), 1..60)) {
        let mut history = History::default();
        for act in &acts {
            history.live(act);
        }
        for crop in mass_balance(&history.movements) {
            prop_assert!(crop.sum_is_zero, "{crop:?}");
            prop_assert_eq!(crop.by_place.values().sum::<i64>(), 0);
            prop_assert_eq!(crop.in_work, 0);
        }
        for finding in [
            no_place_below_zero(&history.movements),
            no_containers_below_zero(&history.containers),
            balance_per_crop_is_zero(&history.movements, &[]),
            count_matches_movements(&history.counts, &history.containers),
        ] {
            prop_assert!(finding.holds(), "{finding:?}");
        }
        // A place without containers of a batch holds nothing of it either.
        let (standing, masses) = history.sums();
        for (content, _, place) in masses.keys().filter(|(_, _, place)| place.holds_containers()) {
            if let Content::Batch(batch) = content {
                let key = (*batch, "quart".to_owned(), *place);
                prop_assert!(standing.contains_key(&key), "{content} at {place}");
            }
        }
    }

    /// Any history and the undoing of its last k actions, newest first, has the balances of the
    /// history without them.
    #[test]
    fn undoing_the_last_actions_restores_the_balances(
        acts in prop::collection::vec(act(), 1..40),
        later in prop::collection::vec(act(), 1..12),
    ) {
        let mut history = History::default();
        for act in &acts {
            history.live(act);
        }
        let before = history.sums();
        let mut done = Vec::new();
        for act in &later {
            if history.live(act) {
                done.push(history.entries);
            }
        }
        for entry in done.into_iter().rev() {
            prop_assert!(history.undo(entry), "entry {entry} could not be undone");
        }
        prop_assert_eq!(history.sums(), before);
        let mirrored =
            reversal_mirrors_entry(&history.reversals, &history.movements, &history.containers);
        prop_assert!(mirrored.holds(), "{mirrored:?}");
    }

    /// Undoing any entry that nothing rests on leaves the balances of the history without it, and
    /// one that something rests on is exactly one whose absence would take food from an empty place.
    #[test]
    fn undoing_any_independent_entry_is_as_if_it_had_never_been(
        acts in prop::collection::vec(act(), 1..40),
        which in any::<u16>(),
    ) {
        let mut history = History::default();
        let done: Vec<i64> = acts
            .iter()
            .filter_map(|act| history.live(act).then_some(history.entries))
            .collect();
        let Some(entry) = pick(&done, which).copied() else {
            return Ok(());
        };
        let mut without = history.clone();
        without.movements.retain(|m| m.entry != entry);
        without.containers.retain(|c| c.entry != entry);
        without.counts.retain(|c| c.entry != entry);
        if history.undo(entry) {
            prop_assert_eq!(history.sums(), without.sums());
            prop_assert!(no_place_below_zero(&history.movements).holds());
            prop_assert!(no_containers_below_zero(&history.containers).holds());
        } else {
            let rests = !no_place_below_zero_by_entry(&without)
                || !count_matches_movements(&without.counts, &without.containers).holds();
            prop_assert!(rests, "refused without a reason");
        }
    }
}

/// A second, plainer way to ask: sums after every entry, everything looked at.
fn no_place_below_zero_by_entry(history: &History) -> bool {
    (1..=history.entries).all(|last| {
        let food: Vec<_> = history
            .movements
            .iter()
            .filter(|m| m.entry <= last)
            .cloned()
            .collect();
        let moved: Vec<_> = history
            .containers
            .iter()
            .filter(|c| c.entry <= last)
            .cloned()
            .collect();
        balances(&food)
            .iter()
            .all(|((_, _, place), mg)| !place.is_touchable() || *mg >= 0)
            && container_balances(&moved)
                .iter()
                .all(|((_, _, place), n)| !place.holds_containers() || *n >= 0)
    })
}
