//! The solvers judged from outside: by enumeration and by the independent checker.

mod small_allocations;
