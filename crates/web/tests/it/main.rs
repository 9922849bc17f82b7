//! The pages as they are sent: one binary for all integration tests.

mod html;
mod pieces;
