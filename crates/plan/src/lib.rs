//! When: how long the written process takes, and how much of it is work.

pub mod elapsed;
