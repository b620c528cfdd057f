//! The program beside rules of thumb and simpler reckonings; misses are shown.

#[path = "../asked/mod.rs"]
mod asked;

mod answers;
mod kitchens;
mod readings;
