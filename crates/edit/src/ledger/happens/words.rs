//! What a step is called in a margin and in a sentence: "rise", "last rise", "chill".

use recipe::document::model::{Action, Product, Standing, Step, Until};

/// What a step is, in one or two words of the trade.
pub fn called(step: &Step, product: Option<&Product>) -> &'static str {
    match &step.action {
        Action::Ready { .. } => "take out",
        Action::Wake { .. } => "wake the yeast",
        Action::Mix { .. } => "mix",
        Action::Heat { .. } => "heat in a pan",
        Action::Rest { place, .. } => rest(place.value, step.until.as_ref(), product, step),
        Action::Fold { .. } => "fold",
        Action::Divide { .. } => "divide",
        Action::Shape { .. } => "shape",
        Action::Finish { .. } => "finish",
        Action::Preheat { .. } => "heat the oven",
        Action::Bake { .. } => "bake",
        Action::Cool { .. } => "cool",
    }
}

fn rest(
    place: Standing,
    until: Option<&Until>,
    product: Option<&Product>,
    step: &Step,
) -> &'static str {
    let rises = until.is_some_and(|until| until.volume.is_some() || until.height.is_some());
    let last = product.is_some_and(|product| {
        let after = product.steps.iter().skip_while(|other| *other != step);
        // Of several rests before the bake the last one is the last rise.
        let next = after
            .skip(1)
            .find(|other| matches!(other.action, Action::Rest { .. } | Action::Bake { .. }));
        next.is_some_and(|next| matches!(next.action, Action::Bake { .. }))
    });
    match place {
        _ if rises && last => "last rise",
        _ if rises => "rise",
        Standing::Refrigerator => "chill",
        _ => "rest",
    }
}

/// Where a dough stands, before its temperature: "in a warm place of".
pub const fn standing(place: Standing) -> &'static str {
    match place {
        Standing::Room => "in a room of",
        Standing::WarmPlace => "in a warm place of",
        Standing::Refrigerator => "in a refrigerator of",
        Standing::CoolPlace => "in a cool place of",
    }
}

/// A step as the subject of a sentence: "this rise", "the last rise".
pub fn subject(called: &str) -> String {
    if called == "last rise" {
        "the last rise".to_owned()
    } else {
        format!("this {called}")
    }
}
