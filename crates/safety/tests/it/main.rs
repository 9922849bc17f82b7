//! Tests of the gate through its public face.

mod agree;
mod any;
mod ask;
mod case_file;
mod cases;
mod change_file;
mod changes;
mod changes_any;
mod compile_fail;
mod edges;
mod errors_page;
mod incidents;
mod loads;
mod look_up;
mod numbers_gone;
mod oracle;
mod patched;
mod patched_answers;
mod permits;
mod readings;
mod records;
mod routes;
mod rows;
