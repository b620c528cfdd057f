//! The program against worked examples, printed tables, exact solutions and general-purpose libraries.

#[path = "../asked/mod.rs"]
mod asked;
#[path = "../bake_days.rs"]
mod bake_days;
#[path = "../day_told.rs"]
mod day_told;
#[path = "../opened.rs"]
mod opened;
#[path = "../identities/spoken_cues.rs"]
mod spoken_cues;
#[path = "../written.rs"]
mod written;

mod answers;
mod bodies;
mod boiling;
mod bounded;
mod course_peers;
mod day_demo;
mod day_peer;
mod demo;
mod draws;
mod filming;
mod filming_cases;
mod filming_evening;
mod filming_judge;
mod formula;
mod holds;
mod ice;
mod indices;
mod labels;
mod lanes;
mod larder;
mod mix;
mod our_formulas;
mod patterns;
mod peer;
mod relations;
mod rough;
mod routes;
mod section;
mod shopping;
mod specific_heats;
mod substitution;
mod timetable;
mod timetable_drawing;
mod tins;
mod tracks;
mod weighed;
