//! What must hold whatever the figures: laws of the program with itself.

#[path = "../asked/mod.rs"]
mod asked;
#[path = "../bake_days.rs"]
mod bake_days;
#[path = "../verification/filming_judge.rs"]
mod filming_judge;
#[path = "../opened.rs"]
mod opened;
#[path = "../written.rs"]
mod written;

mod advice;
mod anchor;
mod answers;
mod answers_found;
mod bad_input;
mod chance;
mod day_plans;
mod day_search;
mod days;
mod elapsed;
mod filming;
mod formula;
mod kitchens;
mod labels;
mod ledger;
mod measures;
mod mix;
mod oven;
mod readers;
mod rules_held;
mod safety;
mod scale;
mod scale_words;
mod slips;
mod spoken_cues;
mod tracks;
mod variants;
