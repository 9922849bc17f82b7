//! The forms about paper: fields into typed requests.

use super::Fields;
use app::request::{EnterCard, PrintLabels};

/// Labels of a batch on a sheet.
pub fn labels(fields: &Fields, batch: i64) -> PrintLabels {
    PrintLabels {
        batch,
        sheet: fields.get("sheet").into(),
        from: fields.get("from").into(),
        offset_x: fields.get("offset_x").into(),
        offset_y: fields.get("offset_y").into(),
        count: fields.get("count").into(),
        outline: fields.get("outline") == "yes",
    }
}

/// A card that comes back.
pub fn enter(fields: &Fields) -> EnterCard {
    EnterCard {
        code: fields.get("code").into(),
        blanks: fields.under("blank"),
        ticks: fields.all("ticks"),
        token: fields.get("token").into(),
    }
}
