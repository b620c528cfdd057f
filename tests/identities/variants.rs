//! What holds for every variant: nothing new to mend, there and back is where one began.

use bake::kitchen::Kitchen;
use edit::variant::{Variant, Wish, variant};
use recipe::document::{model::Recipe, read_recipe};
use recipe::larder::Larder;

const RECIPES: [(&str, &str); 5] = [
    ("same-day-loaf", include_str!("../../examples/same-day-loaf.toml")),
    ("cardamom-dough", include_str!("../../examples/cardamom-dough.toml")),
    ("hearth-loaf", include_str!("../../examples/hearth-loaf.toml")),
    ("feast-bread", include_str!("../../examples/feast-bread.toml")),
    ("feast-bread-active-dry", include_str!("../../examples/feast-bread-active-dry.toml")),
];

fn read(text: &str) -> (Recipe, Larder) {
    let recipe = read_recipe(text).output.expect("a recipe");
    let mut larder = Larder::open();
    assert!(larder.stock(&recipe.pantry).is_empty());
    (recipe, larder)
}

fn made(text: &str, wishes: &[&str]) -> Result<Variant, String> {
    let (recipe, larder) = read(text);
    let wishes: Vec<Wish> = wishes.iter().map(|w| Wish::Instead((*w).to_owned())).collect();
    let checked = variant(&recipe, &larder, &Kitchen::standard(), &wishes);
    checked.output.ok_or_else(|| {
        let said: Vec<String> = checked.diagnostics.iter().map(|d| format!("{}: {}", d.code.name, d.message)).collect();
        said.join("\n")
    })
}

#[test]
fn show() {
    let ask = std::env::var("ASK").unwrap_or_default();
    let (name, wishes) = ask.split_once(':').expect("name:wish|wish");
    let text = RECIPES.iter().find(|(n, _)| *n == name).expect("name").1;
    let wishes: Vec<&str> = wishes.split('|').collect();
    match made(text, &wishes) {
        Ok(v) => {
            for c in &v.changes { println!("* {}: {} -> {}", c.what, c.before, c.after); }
            for k in &v.kept { println!("= {}: {} -> {} {}", k.name, k.before, k.after, if k.held {""} else {"NOT"}); }
            for s in &v.said { println!("- {s}"); }
            let old: Vec<&str> = text.lines().collect();
            for l in v.text.lines() { if (l.starts_with("do =") || l.starts_with("  {") || l.starts_with("wake") || l.contains("ready") || l.starts_with("title") || l.starts_with("#") ||l.contains("adjust") || l.starts_with("take") || l.starts_with("of =")) && !old.contains(&l) { println!("> {l}"); } }
            for d in read_recipe(&v.text).diagnostics { println!("! {} {}", d.code.name, d.message); }
        }
        Err(e) => println!("REFUSED {e}"),
    }
}
