//! The program beside rules of thumb and simpler reckonings; misses are shown.

#[path = "../asked/mod.rs"]
mod asked;
#[path = "../opened.rs"]
mod opened;

mod answers;
mod kitchens;
mod readings;
