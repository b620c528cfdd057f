//! What is done, in a cook's words: "Shape the knots", "Let the dough rise".

use super::trays::Load;
use crate::timetable::Kind;
use recipe::document::model::{Action, Standing};

/// What stands for less is a rest and no rise, minutes (ours).
pub const SHORT_MIN: f64 = 25.0;

/// What sort of thing a step is.
pub const fn kind(action: &Action) -> Kind {
    match action {
        Action::Ready { .. } => Kind::Ready,
        Action::Rest { .. } => Kind::Stands,
        Action::Bake { .. } => Kind::Bakes,
        Action::Cool { .. } => Kind::Cools,
        Action::Preheat { .. } => Kind::Heats,
        Action::Wake { .. }
        | Action::Mix { .. }
        | Action::Heat { .. }
        | Action::Fold { .. }
        | Action::Divide { .. }
        | Action::Shape { .. }
        | Action::Finish { .. } => Kind::Work,
    }
}

/// What a step does to a stage or a product.
pub fn words(action: &Action, of: &str, load: Option<Load>) -> String {
    let piece = load.is_some();
    let does = match action {
        Action::Ready { what, .. } => {
            let names: Vec<&str> = what.iter().map(|name| name.value.as_str()).collect();
            return format!("Take out {}", recipe::source::listed(&names, "and"));
        }
        Action::Wake { .. } => "Wake the yeast of the",
        Action::Mix { .. } => "Mix the",
        Action::Fold { .. } => "Fold the",
        Action::Divide { .. } => "Divide the",
        Action::Shape { .. } => "Shape the",
        Action::Finish { .. } if piece => "Finish the",
        Action::Heat { .. } | Action::Finish { .. } => "Make the",
        Action::Preheat { .. } => "Heat the oven for the",
        Action::Bake { .. } => "Bake the",
        Action::Cool { .. } => "Cool the",
        Action::Rest { place, .. } if place.value == Standing::Refrigerator => "Chill the",
        Action::Rest { .. } if piece => "Last rise of the",
        Action::Rest { timing, .. } if timing.usual.value.minutes() < SHORT_MIN => "Rest the",
        Action::Rest { .. } => "Rise of the",
    };
    format!("{does} {of}")
}
