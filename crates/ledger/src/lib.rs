//! Places and movements: balances are sums, nothing else.
//!
//! Every act that shifts food is a set of [`Movement`]s, each from one [`Place`] to another, so no
//! gram can appear or vanish: what is picked comes out of the garden, what cannot be explained goes
//! to `unaccounted`. Containers (jars, bags, packets) are counted beside it in the same way.
//! Nothing here reads a file or a clock.

mod balance;
mod draw;
mod error;
pub mod invariant;
mod mass_balance;
mod movement;
mod place;
mod reversal;
mod shelf_count;
mod use_first;

pub use balance::{
    Balances, ContainerBalances, apply, apply_containers, balances, container_balances,
};
pub use draw::{Draw, Drawn, Rooms, draw_containers, draw_share};
pub use error::LedgerError;
pub use mass_balance::{CropBalance, UNACCOUNTED_WARNING_PERCENT, mass_balance};
pub use movement::{ContainerMovement, Content, MAX_CONTAINERS, MAX_MILLIGRAMS, Movement};
pub use place::Place;
pub use reversal::{Dependence, Dependent, first_dependent, reverse, reverse_containers};
pub use shelf_count::{CountLine, Found, ShelfDifference, shelf_difference};
pub use use_first::{Holding, use_first};
