//! The rules of the house: who may use what, words, figures with their sources, lengths of files.

mod models;
mod notices;
mod provenance;
mod tidy;
mod wall;
mod wording;
