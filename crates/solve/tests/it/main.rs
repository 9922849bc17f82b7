//! The solvers judged from outside: by enumeration and by the independent checker.

mod household;
mod kitchen_day;
mod large_allocations;
mod random_households;
mod reasons;
mod reference_flow;
mod refusals_and_what_ifs;
mod small_allocations;
mod small_grades;
mod small_mixed;
