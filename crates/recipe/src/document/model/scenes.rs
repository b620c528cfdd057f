//! A filming day as written in a file of scenes: what is filmed when, and the state of dough that each scene needs.

use crate::source::{Located, Span};
use jiff::civil::{Date, Time};
use numerics::quantity::{Duration, Fraction};

/// A file of scenes.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneFile {
    /// Version of the file format.
    pub format: i64,
    /// What the day is called.
    pub shoot: Located<String>,
    /// The day.
    pub day: Located<Date>,
    /// Where its clock hangs, by the name in the zone database: "Europe/Oslo".
    pub zone: Option<Located<String>>,
    /// When everybody comes.
    pub call: Option<Located<Time>>,
    /// No work of the day begins before.
    pub work_from: Option<Located<Time>>,
    /// Set-up between two scenes, where a scene does not say its own.
    pub set_up: Option<Located<Duration>>,
    /// Clearing away after the last scene.
    pub wrap: Option<Located<Duration>>,
    /// The meal of the day.
    pub meal: Option<Meal>,
    /// People who are paid for the day.
    pub people: Option<Located<i64>>,
    /// Pairs of hands beside the camera, that make and watch the doughs.
    pub hands: Option<Located<i64>>,
    /// Mixers.
    pub mixers: Option<Located<i64>>,
    /// Filling the mixer's bowl, before it runs.
    pub load: Option<Located<Duration>>,
    /// Ovens.
    pub ovens: Option<Located<i64>>,
    /// Racks of each.
    pub racks: Option<Located<i64>>,
    /// How long an oven takes for a change of 25 °C.
    pub change: Option<Located<Duration>>,
    /// Shelves of the refrigerator that doughs may have.
    pub shelves: Option<Located<i64>>,
    /// What is bought and weighed beyond the batches.
    pub spare: Option<Located<Fraction>>,
    /// How long a state keeps, in the place of what is usual.
    pub holds: Vec<HoldFile>,
    /// Scenes in the order in which they are filmed.
    pub scenes: Vec<SceneEntry>,
    /// What a call sheet says besides.
    pub place: Option<PlaceFile>,
    /// Who comes.
    pub crew: Vec<Member>,
}

/// The meal.
#[derive(Clone, Debug, PartialEq)]
pub struct Meal {
    /// From.
    pub from: Located<Time>,
    /// How long.
    pub lasts: Located<Duration>,
    /// Where it stands.
    pub span: Span,
}

/// How long a state keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldFile {
    /// Which state: "dough risen", or "proofed" for every product.
    pub at: Located<String>,
    /// How long at most.
    pub up_to: Located<Duration>,
    /// Where it stands.
    pub span: Span,
}

/// One scene.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneEntry {
    /// Short name: "S04".
    pub name: Located<String>,
    /// What is seen.
    pub about: Located<String>,
    /// When its first take begins; after the scene before it when it is not said.
    pub at: Option<Located<Time>>,
    /// Set-up before it.
    pub set_up: Option<Located<Duration>>,
    /// How long it is filmed.
    pub lasts: Located<Duration>,
    /// States of dough that stand ready when it begins.
    pub needs: Vec<Located<String>>,
    /// For how long of it the dough stands before the camera; all of it when it is not said.
    pub stands: Option<Located<Duration>>,
    /// Products that cannot be filmed again after it, because they are cut or eaten.
    pub uses_up: Vec<Located<String>>,
    /// What is said besides the recipe's figures.
    pub says: Vec<Located<String>>,
    /// Shots.
    pub shots: Vec<ShotEntry>,
    /// What else to know.
    pub note: Option<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

/// One shot.
#[derive(Clone, Debug, PartialEq)]
pub struct ShotEntry {
    /// How much is seen.
    pub size: Located<ShotSize>,
    /// Of what.
    pub of: Located<String>,
    /// How the camera moves.
    pub moves: Option<Located<String>>,
    /// What is heard.
    pub sound: Option<Located<String>>,
}

/// How much a shot shows; the words of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ShotSize {
    /// The whole place.
    Wide,
    /// A person at the bench.
    Medium,
    /// Hands, a bowl.
    CloseUp,
    /// A surface.
    ExtremeCloseUp,
    /// From above.
    TopDown,
}

impl ShotSize {
    /// Every size.
    pub const ALL: [Self; 5] = [
        Self::Wide,
        Self::Medium,
        Self::CloseUp,
        Self::ExtremeCloseUp,
        Self::TopDown,
    ];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Wide => "wide",
            Self::Medium => "medium",
            Self::CloseUp => "close-up",
            Self::ExtremeCloseUp => "extreme close-up",
            Self::TopDown => "top-down",
        }
    }
}

/// Where it is filmed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceFile {
    /// The address.
    pub address: Located<String>,
    /// Where cars stand.
    pub parking: Option<Located<String>>,
    /// The nearest hospital.
    pub hospital: Option<Located<String>>,
    /// Whom to ring.
    pub ring: Option<Located<String>>,
}

/// Who comes.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// What they do.
    pub does: Located<String>,
    /// Who they are.
    pub who: Located<String>,
    /// When they come, where it is not the common call.
    pub call: Option<Located<Time>>,
}
