//! A planned day as files: calendar, table of data, and a sheet to print.

mod calendar;
mod cells;
#[cfg(feature = "pdf")]
mod sheet;

pub use calendar::calendar;
pub use cells::cells;
#[cfg(feature = "pdf")]
pub use sheet::{day_sheet, sheet};
