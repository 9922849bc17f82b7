//! Single reads straight from the store; several that must agree belong in one [`Store::read`].

use crate::books::CheckRows;
use crate::error::StoreError;
use crate::record::{
    BatchEvent, BatchRecord, EntryRecord, HarvestPlanRecord, HouseRecord, HouseholdRecipeRecord,
    LotRecord, LotStatement, TimetableRecord,
};
use crate::store::Store;
use jiff::civil::Date;
use ledger::{ContainerMovement, CountLine, Movement};

macro_rules! shortcuts {
    ($($name:ident($($arg:ident: $kind:ty),*) -> $answer:ty;)*) => {
        impl Store {
            $(
                #[doc = concat!("[`Reader::", stringify!($name), "`](crate::Reader::", stringify!($name), ") at this moment.")]
                ///
                /// # Errors
                /// Those of the reader, and [`StoreError::InsideAppend`].
                pub fn $name(&self, $($arg: $kind),*) -> Result<$answer, StoreError> {
                    self.read(|reader| reader.$name($($arg),*))
                }
            )*
        }
    };
}

shortcuts! {
    latest_house() -> Option<HouseRecord>;
    household_recipes() -> Vec<HouseholdRecipeRecord>;
    lots() -> Vec<LotRecord>;
    lot(id: i64) -> LotRecord;
    lot_statements(lot: i64) -> Vec<LotStatement>;
    all_lot_statements() -> Vec<LotStatement>;
    movements() -> Vec<Movement>;
    movements_of(entry: i64) -> Vec<Movement>;
    container_movements() -> Vec<ContainerMovement>;
    container_movements_of(entry: i64) -> Vec<ContainerMovement>;
    batches() -> Vec<BatchRecord>;
    batch(id: i64) -> BatchRecord;
    batch_events(batch: i64) -> Vec<BatchEvent>;
    all_batch_events() -> Vec<BatchEvent>;
    latest_harvest_plan() -> Option<HarvestPlanRecord>;
    timetable_for(day: Date) -> Option<TimetableRecord>;
    shelf_counts() -> Vec<CountLine>;
    entries(n: usize) -> Vec<EntryRecord>;
    entry(id: i64) -> EntryRecord;
    reversals() -> Vec<(i64, i64)>;
    rows_for_check() -> CheckRows;
}
