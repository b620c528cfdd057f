//! When: how long the written process takes, how much of it is work, and a day on which it is done.

pub mod day;
pub mod elapsed;
pub mod rise;
pub mod shoot;
pub mod timetable;
pub mod under_way;
