//! Every address of the program, in one place.

use crate::assets;
use crate::handle::{
    batch, change, counter, day, house, incident, paper, plan, process, recipe, stores, undo,
};
use crate::state::Site;
use axum::Router;
use axum::response::Redirect;
use axum::routing::{get, post};

/// The addresses a person can open without a number of their own: what a test walks through.
pub const PAGES: [&str; 14] = [
    "/counter",
    "/plan",
    "/batch",
    "/batch/new",
    "/batch/enter",
    "/load",
    "/day",
    "/stores",
    "/change",
    "/recipe",
    "/process",
    "/house",
    "/incident",
    "/incident/disposal",
];

/// The table of addresses.
pub(crate) fn table() -> Router<Site> {
    Router::new()
        .route("/", get(|| async { Redirect::to("/counter") }))
        .route("/counter", get(counter::show).post(counter::weigh_in))
        .route("/counter/{lot}", get(counter::show_lot))
        .route("/counter/{lot}/state", post(counter::state_lot))
        .route("/counter/{lot}/sort-out", post(counter::sort_out))
        .route("/plan", get(plan::show).post(plan::make))
        .route("/plan/accept", post(plan::accept))
        .route("/batch", get(batch::list))
        .route("/batch/new", get(batch::try_out).post(batch::set_up))
        .route("/batch/enter", get(paper::enter).post(paper::entered))
        .route("/batch/{id}", get(batch::show))
        .route("/batch/{id}/print", get(paper::offer))
        .route("/batch/{id}/card.pdf", get(paper::card))
        .route("/batch/{id}/labels.pdf", get(paper::labels))
        .route("/batch/{id}/gift.pdf", get(paper::gift))
        .route("/batch/{id}/seed.pdf", get(paper::seed))
        .route("/load/card.pdf", get(paper::load_card))
        .route("/incident/disposal.pdf", get(paper::disposal))
        .route("/print/outline.pdf", get(paper::outline))
        .route("/jar/{code}", get(paper::jar))
        .route("/batch/{id}/start", post(batch::start))
        .route("/batch/{id}/finish", post(batch::finish))
        .route("/batch/{id}/seals", post(batch::seals))
        .route("/batch/{id}/late", post(batch::late))
        .route("/batch/{id}/incident/{entry}", get(incident::of_batch))
        .route(
            "/batch/{id}/incident/{entry}/settle",
            post(incident::settle),
        )
        .route("/incident", get(incident::kinds))
        .route("/incident/disposal", get(incident::disposal))
        .route("/incident/{kind}", get(incident::ask).post(incident::state))
        .route("/load", get(batch::load))
        .route("/day", get(day::show).post(day::make))
        .route("/stores", get(stores::show))
        .route("/stores/take", post(stores::take))
        .route("/stores/count", post(stores::count))
        .route("/stores/{place}/{batch}/{size}", get(stores::show_holding))
        .route("/undo", post(undo::undo))
        .route("/change", get(change::show))
        .route("/recipe", get(recipe::list).post(recipe::send))
        .route("/recipe/{key}", get(recipe::show))
        .route("/process", get(process::show))
        .route("/house", get(house::show).post(house::set))
        .route("/health", get(|| async { "the pages are served\n" }))
        .route("/static/{file}", get(assets::serve))
}
