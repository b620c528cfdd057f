//! Cases in the cook's language, old documents, and corpora of bad input.

#[path = "../old/old.rs"]
mod old;

mod bad_days;
mod bad_scenes;
mod bad_tracks;
mod case;
mod corpus;
mod corpus_targets;
mod import_lines;
mod import_texts;
mod import_told;
mod rules;
mod rules_blind;
mod steps;
mod talk;
