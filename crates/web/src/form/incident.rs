//! The forms about incidents: fields into typed requests.

use super::Fields;
use app::request::{AskIncident, RecordIncident, SettleIncident};

/// A day and a time of two fields as one text; a time alone is of today.
pub fn moment(fields: &Fields, name: &str) -> String {
    let day = fields.get(&format!("{name}_day"));
    let time = fields.get(name);
    format!("{day} {time}").trim().to_owned()
}

/// Asked without a batch.
pub fn ask(fields: &Fields, kind: &str) -> AskIncident {
    AskIncident {
        kind: kind.to_owned(),
        noticed: String::new(),
        lifted: moment(fields, "lifted"),
        in_canner: fields.get("in_canner") == "yes",
        process: fields.get("process").into(),
        sealed: fields.get("sealed").into(),
    }
}

/// Stated on a batch.
pub fn state(fields: &Fields, kind: &str) -> RecordIncident {
    RecordIncident {
        batch: fields.number("batch"),
        kind: kind.to_owned(),
        noticed: String::new(),
        lifted: moment(fields, "lifted"),
        in_canner: fields.get("in_canner") == "yes",
        sealed: fields.get("sealed").into(),
        size: fields.get("size").into(),
        place: String::new(),
        count: fields.get("count").into(),
        note: fields.get("note").into(),
        token: fields.get("token").into(),
    }
}

/// What was done.
pub fn settle(fields: &Fields, batch: i64, incident: i64) -> SettleIncident {
    SettleIncident {
        batch,
        incident,
        way: fields.get("way").into(),
        count: fields.get("count").into(),
        minutes: fields.get("minutes").into(),
        lifted: moment(fields, "lifted"),
        ticks: fields.all("ticks"),
        token: fields.get("token").into(),
    }
}
