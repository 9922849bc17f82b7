//! Turns a planning problem into a plan, with a bound.
