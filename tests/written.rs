//! Recipes written as text from a list of stages, read by the program's own reader.

use recipe::document::model::Recipe;
use recipe::document::read_recipe;

/// Items of a stage: what, and how much; nothing for a whole stage.
pub type Lines<'a> = Vec<(&'a str, &'a str)>;

/// A recipe of these stages, with one piece of 1 g cut from the last. Its items stand in no
/// sentence; what the reader says of that is not asked here.
pub fn recipe(kind: &str, stages: &[(&str, Lines)]) -> Recipe {
    let mut lines = vec![
        "everyoven = 1".to_owned(),
        "title = \"Sample\"".to_owned(),
        format!("kind = \"{kind}\""),
    ];
    for (name, items) in stages {
        lines.push(format!("[[stage]]\nname = \"{name}\"\nitems = ["));
        lines.extend(items.iter().map(|(of, take)| match *take {
            "" => format!("  {{ of = \"{of}\" }},"),
            take => format!("  {{ of = \"{of}\", take = \"{take}\" }},"),
        }));
        lines.push("]".to_owned());
    }
    let last = stages.last().map_or("", |(name, _)| name);
    lines.push(format!("[[product]]\nname = \"piece\"\nfrom = \"{last}\""));
    lines.push("count = 1\npiece = \"1 g\"\n".to_owned());
    let text = lines.join("\n");
    read_recipe(&text)
        .output
        .expect("a recipe that can be read")
}
