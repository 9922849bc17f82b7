//! Tests of the gate through its public face.

mod case_file;
mod cases;
