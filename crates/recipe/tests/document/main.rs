//! What a file may hold and still be read, printed, and answered without a fall.

mod bad_input;
mod frozen;
mod mutations;
mod places;
mod quantities;
mod recipes;
mod round_trip;
mod steps;
