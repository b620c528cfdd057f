//! A filming day as it is said: run of show, shots, batches, swap list, oven, and what fewer batches would cost.

use crate::ledger::model::{Caution, Figure, Shopping};
use crate::ledger::timetable::TableLines;

/// Everything that the papers of a filming day print.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmLines {
    /// What the day is called.
    pub title: String,
    /// Of which recipe.
    pub recipe: String,
    /// "Saturday 14 February 2026".
    pub date: String,
    /// "4 batches of dough, the fewest that can do it".
    pub fewest: String,
    /// How many; the same as a figure.
    pub batches_figure: Figure,
    /// Whose minutes are planned with.
    pub times: String,
    /// The run of show.
    pub scenes: Vec<SceneLine>,
    /// Batches.
    pub batches: Vec<BatchLine>,
    /// What is made for scenes alone.
    pub extras: Vec<String>,
    /// What stands ready to be put before the camera.
    pub swaps: Vec<SwapLine>,
    /// Bread in the oven.
    pub oven: Vec<OvenLine>,
    /// "6 trays at 12:38".
    pub refrigerator: Option<String>,
    /// Fewer batches, and when the day would end.
    pub trade: Vec<TradeLine>,
    /// Labels to stick on bowls and trays.
    pub labels: Vec<LabelLines>,
    /// The call sheet.
    pub call: CallSheet,
    /// What to buy.
    pub shopping: Shopping,
    /// The day by the clock.
    pub table: TableLines,
    /// What to take care of.
    pub cautions: Vec<Caution>,
    /// "Contains wheat (gluten), milk and egg."
    pub contains: String,
    /// How long states keep: state, minutes, where, who says so.
    pub holds: Vec<HoldLine>,
}

/// A scene.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneLine {
    /// "S04".
    pub name: String,
    /// What is seen.
    pub about: String,
    /// "10:15".
    pub begins: Figure,
    /// "40 min".
    pub takes: Figure,
    /// "dough mixing, batch 4".
    pub needs: Vec<String>,
    /// The recipe's figures that are said or seen in it.
    pub figures: Vec<String>,
    /// What the file of scenes has to be said besides.
    pub says: Vec<String>,
    /// What else to know.
    pub note: Option<String>,
    /// Its shots.
    pub shots: Vec<ShotLine>,
}

/// A shot.
#[derive(Clone, Debug, PartialEq)]
pub struct ShotLine {
    /// "S04/2".
    pub number: String,
    /// "close-up".
    pub size: &'static str,
    /// Of what.
    pub of: String,
    /// How the camera moves.
    pub moves: Option<String>,
    /// What is heard.
    pub sound: Option<String>,
}

/// A batch.
#[derive(Clone, Debug, PartialEq)]
pub struct BatchLine {
    /// "Batch 1".
    pub name: String,
    /// When its mix begins: "08:50".
    pub starts: Figure,
    /// The latest that would do: "09:00".
    pub latest: Figure,
    /// "S06, S07, S14".
    pub serves: String,
    /// "its first work is the paste, at 08:10", "dough chilled 10 min of 10 h, in the refrigerator at 4 °C".
    pub holds: Vec<String>,
    /// Whether its mixing is filmed.
    pub on_camera: bool,
    /// Products of which no scene begins one: what may be made smaller, or is spare.
    pub spare: Option<String>,
}

/// Something that stands ready.
#[derive(Clone, Debug, PartialEq)]
pub struct SwapLine {
    /// "S14".
    pub scene: String,
    /// "loaf cooled".
    pub state: String,
    /// "15:05".
    pub at: Figure,
    /// "batch 1".
    pub batch: String,
    /// "08:50", when that batch begins.
    pub started: String,
    /// "waits 27 min on the rack, keeps 10 h"; none when it comes to the minute.
    pub waits: Option<String>,
    /// Another batch that is in the same state then.
    pub spare: Option<String>,
}

/// Bread in the oven.
#[derive(Clone, Debug, PartialEq)]
pub struct OvenLine {
    /// "13:04".
    pub begins: Figure,
    /// "13:38".
    pub ends: Figure,
    /// "loaf, batch 1".
    pub what: String,
    /// "175 °C / 350 °F".
    pub dial: Figure,
    /// "for S14"; "for no scene, may move".
    pub why: String,
}

/// A number of batches.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeLine {
    /// "3 batches".
    pub batches: String,
    /// "16:30"; "not possible".
    pub wrap: String,
    /// "10 min later"; "as planned".
    pub later: String,
    /// "50 min of everybody's time together".
    pub people: Option<String>,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// A label to stick on.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelLines {
    /// "Batch 1: loaf".
    pub heading: String,
    /// "S14 15:05, cooled".
    pub lines: Vec<String>,
}

/// How long a state keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldLine {
    /// "dough risen".
    pub state: String,
    /// "20 min".
    pub keeps: Figure,
    /// "where it stands".
    pub place: &'static str,
}

/// Who comes when and where.
#[derive(Clone, Debug, PartialEq)]
pub struct CallSheet {
    /// "Call", "First take", "Meal", "Wrap", each with its clock.
    pub hours: Vec<(String, String)>,
    /// Address, parking, hospital, whom to ring.
    pub place: Vec<(String, String)>,
    /// What they do, who, when.
    pub crew: Vec<(String, String, String)>,
}

impl FilmLines {
    /// Every figure of it, those of the timetable apart.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all = vec![&self.batches_figure];
        for scene in &self.scenes {
            all.extend([&scene.begins, &scene.takes]);
        }
        for batch in &self.batches {
            all.extend([&batch.starts, &batch.latest]);
        }
        all.extend(self.swaps.iter().map(|swap| &swap.at));
        for bake in &self.oven {
            all.extend([&bake.begins, &bake.ends, &bake.dial]);
        }
        all.extend(self.trade.iter().flat_map(|row| &row.figures));
        all.extend(self.holds.iter().map(|hold| &hold.keeps));
        all
    }
}
