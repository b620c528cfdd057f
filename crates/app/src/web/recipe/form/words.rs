//! What a form calls the values of a recipe's file.

/// What a field is called; by the list it stands in and its key.
pub fn label(of: Of, key: &str) -> &'static str {
    match (of, key) {
        (Of::Top, "title") => "Title",
        (Of::Top, "kind") => "Kind of dough",
        (Of::Top, "headnote") => "Opening words",
        (Of::Top, "serves") => "Serves",
        (Of::Top, "promise.within") => "Promised within",
        (Of::Top, "author") => "Written by",
        (Of::Top, "version") => "Version",
        (Of::Top, "published") => "Published on",
        (Of::Top, "make-ahead") => "Ahead of time",
        (Of::Top, "storage") => "Keeping",
        (Of::Top, "notes") => "Notes, one on each line",
        (_, "take") => "Amount",
        (Of::Product, "from") => "Made from",
        (_, "of") => "Ingredient",
        (_, "as") => "Called in the steps",
        (_, "also") => "Kitchen measure to print",
        (_, "from") => "Comes from",
        (_, "state") => "State",
        (_, "note") => "Note",
        (_, "on") => "For",
        (_, "each") => "For each piece",
        (_, "name") => "Name",
        (_, "evaporates") => "Water lost in cooking",
        (_, "count") => "How many pieces",
        (_, "piece") => "Dough for each",
        (_, "after-bake") => "Each weighs after the bake",
        (_, "tin.name") => "Tin or tray",
        (_, "tin.size") => "Its size",
        (_, "tin.holds") => "It holds",
        (_, "tin.material") => "Made of",
        (_, "tin.lidded") => "With a lid",
        (Of::Deed("heat"), "to") => "Until it reads",
        (_, "to") | (Of::Deed("bake"), "at") => "Oven",
        (_, "at") => "Temperature",
        (Of::Until, "see") => "One sees",
        (Of::Until, "volume") => "Grown to",
        (Of::Until, "height") => "Height",
        (_, "core") => "In the middle",
        (Of::Until, "dough") => "The dough reads",
        (_, "dough") => "The dough ends at",
        (_, "for") => "Time",
        (_, "range") => "From–to",
        (_, "where") => "Where",
        (_, "in") => "In",
        (_, "thick") => "How thick",
        (_, "covered") => "Covered with",
        (_, "before") => "So long before",
        (_, "what") => "What",
        (_, "yeast") => "Yeast",
        (_, "liquid") => "Liquid",
        (_, "by") => "By",
        (_, "adjust") => "Made right by",
        (_, "speed") => "Speed",
        (_, "into-rest") => "After so long in the rise",
        (_, "into") => "Into",
        (_, "fan") => "Fan",
        (_, "rack") => "Place in the oven",
        (_, "check") => "Look first after",
        (_, "steam") => "Steam",
        (_, "foil") => "Under foil",
        _ => "Value",
    }
}

/// The list that a field stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// The top of the file.
    Top,
    /// A stage, its items, items for bench, tin and top.
    Stage,
    /// A product and what it takes.
    Product,
    /// What a step does.
    Deed(&'static str),
    /// By what one sees its end.
    Until,
}

/// What is done in a step.
pub fn deed(key: &str) -> &'static str {
    match key {
        "ready" => "Get ready",
        "wake" => "Wake the yeast",
        "mix" => "Mix",
        "heat" => "Heat in a pan",
        "rest" => "Rise or rest",
        "fold" => "Fold",
        "divide" => "Divide",
        "shape" => "Shape",
        "finish" => "Finish",
        "preheat" => "Heat the oven",
        "bake" => "Bake",
        "cool" => "Cool",
        _ => "Step",
    }
}

#[cfg(test)]
mod tests {
    use super::{Of, deed, label};
    use recipe::document::form::keys::{
        BESIDES, DEEDS, ITEM, Keys, PRODUCT, STAGE, TOP, UNTIL, WITH,
    };

    #[test]
    fn everything_has_a_name_of_its_own_in_its_list() {
        let alone = |of: Of, keys: Keys| {
            let mut names: Vec<&str> = keys.iter().map(|(key, _)| label(of, key)).collect();
            assert!(!names.contains(&"Value"), "{of:?} {keys:?}");
            names.sort_unstable();
            let before = names.len();
            names.dedup();
            assert_eq!(names.len(), before, "{of:?}");
        };
        alone(Of::Top, TOP);
        alone(Of::Stage, STAGE);
        alone(Of::Stage, ITEM);
        alone(Of::Stage, BESIDES);
        alone(Of::Product, PRODUCT);
        alone(Of::Product, WITH);
        alone(Of::Until, UNTIL);
        for known in &DEEDS {
            assert_ne!(deed(known.key), "Step");
            alone(Of::Deed(known.key), known.keys);
            alone(Of::Deed(known.key), known.phases);
        }
    }
}
