//! Fields into typed requests, and nothing else: no parsing of amounts, no rule.

use super::Fields;

/// The form that weighs a picking in.
pub mod picking {
    use super::Fields;
    use app::request::RecordPicking;

    /// Reads it.
    pub fn read(fields: &Fields) -> RecordPicking {
        // A crate without a share, or a share without a crate, is left for the action to name.
        RecordPicking {
            crop: fields.get("crop").into(),
            variety: fields.get("variety").into(),
            grade: fields.get("grade").into(),
            amount: fields.get("amount").into(),
            crate_name: fields.get("crate_name").into(),
            share: fields.get("share").into(),
            place: fields.get("place").into(),
            temperature: fields.get("temperature").into(),
            picked_on: fields.get("picked_on").into(),
            history: fields.under("history"),
            note: fields.get("note").into(),
            token: fields.get("token").into(),
        }
    }
}

/// The forms on one lot.
pub mod lot {
    use super::Fields;
    use app::request::{SortOut, StateLot};
    use app::view::counter::LotView;

    /// One statement for each thing that differs from how the lot stands now. Each carries the
    /// form's token with its own ending, so that a second sending repeats none of them.
    pub fn statements(fields: &Fields, lot: &LotView) -> Vec<StateLot> {
        let token = fields.get("token");
        let mut list = Vec::new();
        for line in &lot.history {
            let answer = fields.get(&format!("history.{}", line.key));
            if !answer.is_empty() && answer != line.answer {
                list.push(StateLot {
                    lot: lot.id,
                    question: line.key.clone(),
                    answer: answer.into(),
                    token: format!("{token}-{}", line.key),
                    ..StateLot::default()
                });
            }
        }
        let changed = |name: &str, now: &str| {
            let sent = fields.get(name);
            if sent == now {
                String::new()
            } else {
                sent.to_owned()
            }
        };
        let (grade, place, temperature) = (
            changed("grade", &lot.grade),
            changed("place", &lot.place),
            changed("temperature", ""),
        );
        if !grade.is_empty() || !place.is_empty() || !temperature.is_empty() {
            list.push(StateLot {
                lot: lot.id,
                grade,
                place,
                temperature,
                token: format!("{token}-as-it-lies"),
                ..StateLot::default()
            });
        }
        list
    }

    /// Part of the lot leaves.
    pub fn sort_out(fields: &Fields, lot: i64) -> SortOut {
        SortOut {
            lot,
            amount: fields.get("amount").into(),
            to: fields.get("to").into(),
            animal: fields.get("animal").into(),
            part: fields.get("part").into(),
            token: fields.get("token").into(),
        }
    }
}

/// The forms on a batch.
pub mod batch {
    use super::Fields;
    use app::request::{AnswerLate, CheckSeals, FinishBatch, NewBatch, StartBatch};

    /// A batch set up by hand, or only tried out.
    pub fn new(fields: &Fields) -> NewBatch {
        NewBatch {
            recipe: fields.get("recipe").into(),
            jar: fields.get("jar").into(),
            batches: fields.get("batches").into(),
            produce: fields.get("produce").into(),
            jars_count: fields.get("jars_count").into(),
            have: fields.all("have"),
            pot: fields.get("pot").into(),
            lots: fields
                .all("lots")
                .iter()
                .filter_map(|lot| lot.parse().ok())
                .collect(),
            canner: fields.get("canner").into(),
            acid: fields.get("acid").into(),
            answers: fields.under("answers"),
            day: fields.get("day").into(),
            token: fields.get("token").into(),
        }
    }

    /// Its food goes into the pot.
    pub fn start(fields: &Fields, batch: i64) -> StartBatch {
        StartBatch {
            batch,
            ticks: fields.all("ticks"),
            token: fields.get("token").into(),
        }
    }

    /// What came out.
    pub fn finish(fields: &Fields, batch: i64) -> FinishBatch {
        FinishBatch {
            batch,
            containers: fields.under("containers"),
            partial: fields.get("partial").into(),
            trimmings: fields.get("trimmings").into(),
            trimmings_to: fields.get("trimmings_to").into(),
            cooked_off: fields.get("cooked_off").into(),
            ticks: fields.all("ticks"),
            minutes: fields.get("minutes").into(),
            lifted: crate::form::incident::moment(fields, "lifted"),
            note: fields.get("note").into(),
            token: fields.get("token").into(),
        }
    }

    /// Which jars did not seal.
    pub fn seals(fields: &Fields, batch: i64) -> CheckSeals {
        CheckSeals {
            batch,
            failed: fields.under("failed"),
            to: fields.get("to").into(),
            lifted: crate::form::incident::moment(fields, "lifted"),
            token: fields.get("token").into(),
        }
    }

    /// A tick that was missing is answered later.
    pub fn late(fields: &Fields, batch: i64) -> AnswerLate {
        AnswerLate {
            batch,
            tick: fields.get("tick").into(),
            done: fields.get("done").into(),
            who: fields.get("who").into(),
            when: crate::form::incident::moment(fields, "when"),
            token: fields.get("token").into(),
        }
    }
}

/// The forms on the stores.
pub mod stores {
    use super::Fields;
    use app::request::{CountShelf, TakeContainers};

    /// Containers leave.
    pub fn take(fields: &Fields) -> TakeContainers {
        TakeContainers {
            batch: fields.number("batch"),
            size: fields.get("size").into(),
            place: fields.get("place").into(),
            count: fields.get("count").into(),
            to: fields.get("to").into(),
            token: fields.get("token").into(),
        }
    }

    /// What was found.
    pub fn count(fields: &Fields) -> CountShelf {
        CountShelf {
            batch: fields.number("batch"),
            size: fields.get("size").into(),
            place: fields.get("place").into(),
            found: fields.get("found").into(),
            token: fields.get("token").into(),
        }
    }
}

/// The question of the Process page.
pub mod process {
    use super::Fields;
    use app::request::AskProcess;

    /// Reads it from the address.
    pub fn read(fields: &Fields) -> AskProcess {
        AskProcess {
            food: fields.get("food").into(),
            pack: fields.get("pack").into(),
            jar: fields.get("jar").into(),
            method: fields.get("method").into(),
            canner: fields.get("canner").into(),
            elevation: fields.get("elevation").into(),
            acid: fields.get("acid").into(),
            vinegar: fields.get("vinegar").into(),
            sound: fields.get("sound").into(),
            answers: fields.under("answers"),
        }
    }
}

/// The form of the house.
pub mod house {
    use super::Fields;
    use app::error::AppError;
    use app::house::House;
    use app::house_fields;

    /// Reads the flat fields into a house, made anew: what the form does not send is not kept,
    /// and the form sends everything.
    ///
    /// # Errors
    /// The first field that was not understood, by its path.
    pub fn read(fields: &Fields) -> Result<House, AppError> {
        let sent: Vec<(String, String)> = fields
            .0
            .iter()
            .filter(|(name, _)| name != "token")
            .cloned()
            .collect();
        let mut house = House::default();
        house_fields::apply(&mut house, &sent)?;
        Ok(house)
    }
}
