//! Recipes written as text from a list of stages, read by the program's own reader.

use recipe::document::model::Recipe;
use recipe::document::read_recipe;

/// Items of a stage: what, and how much; nothing for a whole stage.
pub type Lines<'a> = Vec<(&'a str, &'a str)>;

/// A recipe of these stages, with one piece of 1 g cut from the last. Its items stand in no
/// sentence; what the reader says of that is not asked here.
pub fn recipe(kind: &str, stages: &[(&str, Lines)]) -> Recipe {
    let mut text = format!("everyoven = 1\ntitle = \"Sample\"\nkind = \"{kind}\"\n");
    for (name, items) in stages {
        text += &format!("[[stage]]\nname = \"{name}\"\nitems = [\n");
        for (of, take) in items {
            match *take {
                "" => text += &format!("  {{ of = \"{of}\" }},\n"),
                take => text += &format!("  {{ of = \"{of}\", take = \"{take}\" }},\n"),
            }
        }
        text += "]\n";
    }
    let last = stages.last().map_or("", |(name, _)| name);
    text +=
        &format!("[[product]]\nname = \"piece\"\nfrom = \"{last}\"\ncount = 1\npiece = \"1 g\"\n");
    read_recipe(&text)
        .output
        .expect("a recipe that can be read")
}
