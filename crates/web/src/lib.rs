//! The web face: addresses, forms, pages and static files for phone, tablet and desk.
//!
//! Pages are laid out from `app`'s read models; no rule, no SQL and no arithmetic of food lives
//! here. Every page works without scripts and under a strict content policy, and the server
//! listens on this machine's own loopback address only.

pub mod assets;
pub mod form;
pub mod frame;
mod guard;
mod handle;
pub mod page;
pub mod part;
pub mod picture;
pub mod routes;
mod server;
mod state;

pub use server::{router, serve};
pub use state::{Clock, Site};
