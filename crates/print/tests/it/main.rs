//! What is printed, measured on the pages themselves.

mod cards;
mod codes;
mod page;
mod sheets;
mod squares;
