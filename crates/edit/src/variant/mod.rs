//! A variant of a recipe: wishes granted one after another, and what is to be said about each.
//!
//! Every wish takes a whole recipe and gives a whole recipe, so that wishes of different kinds can
//! follow each other in any order.

mod bakes;
mod draft;
mod eggs;
mod exchange;
mod finish;
mod flour;
mod grant;
mod kept;
mod lever;
mod model;
mod naming;
mod outside;
mod sentence;
mod size;
mod wish;
mod yeast;

pub use model::{Change, Granted, Kept, Variant};

use crate::stretch::{EachDay, Moved, moved};
use bake::kitchen::Kitchen;
use bake::simulate::Anchor;
use draft::Draft;
use recipe::document::model::{Action, Recipe, Step};
use recipe::document::{print_recipe, read_recipe};
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;
use recipe::source::{Checked, Diagnostic};

/// What a cook wishes to have otherwise.
#[derive(Clone, Debug, PartialEq)]
pub enum Wish {
    /// One thing for another, as a cook writes it: "fresh yeast for active dry yeast", "no egg".
    Instead(String),
    /// More or less of it, or another tin.
    Size(recipe::scale::Wish),
}

/// Grants one wish on a whole recipe.
pub fn grant(recipe: &Recipe, larder: &Larder, wish: &Wish) -> Result<Granted, Vec<Diagnostic>> {
    match wish {
        Wish::Instead(words) => grant::swap(recipe, larder, words),
        Wish::Size(wish) => size::size(recipe, larder, wish),
    }
}

/// Makes a variant of a recipe, wish after wish, or says which wish cannot be granted and why.
///
/// `larder` is stocked with the recipe's pantry. Liquids whose temperature is worked out read what
/// `kitchen` asks for. The diagnostics are those of wishes that were refused; what the new recipe
/// itself has to mend is found by reading and working it out like any other.
pub fn variant(
    recipe: &Recipe,
    larder: &Larder,
    kitchen: &Kitchen,
    wishes: &[Wish],
) -> Checked<Option<Variant>> {
    let before = formula(recipe, larder).output;
    let mut draft = Draft::new(recipe, larder);
    let mut titles = Vec::new();
    let resized = wishes.iter().any(|wish| matches!(wish, Wish::Size(_)));
    let mut diagnostics = Vec::new();
    for wish in wishes {
        match grant(&draft.recipe, larder, wish) {
            Ok(granted) => {
                draft.recipe = granted.recipe;
                for change in granted.changes {
                    let Change {
                        what,
                        before,
                        after,
                    } = change;
                    match wish {
                        Wish::Instead(_) => draft.changed(what, before, after),
                        Wish::Size(_) => draft.resized(what, before, after),
                    }
                }
                draft.said.extend(granted.said);
                titles.push(granted.title);
            }
            Err(said) => diagnostics.extend(said),
        }
    }
    if !diagnostics.is_empty() || titles.is_empty() {
        return Checked {
            output: None,
            diagnostics,
        };
    }
    finish::pieces(&mut draft, &before);
    finish::fillings(&mut draft);
    finish::warmth(&mut draft, recipe, &before, kitchen);
    finish::targets(&mut draft, recipe, &before, kitchen);
    finish::name(&mut draft, &titles);
    sentences(&mut draft, recipe);
    let after = draft.formula();
    let mut said = kept::allergens(&before, &after);
    said.extend(finish::free_text(
        &draft.recipe,
        &gone(recipe, &draft.recipe),
    ));
    draft.said.extend(said);
    let text = format!(
        "{}{}",
        first_line(recipe, &titles),
        print_recipe(&draft.recipe)
    );
    // Read again, so that its places are those of its own text.
    let read = read_recipe(&text).output;
    let variant = Variant {
        recipe: read.unwrap_or(draft.recipe),
        text,
        changes: draft.changes,
        kept: kept::kept(&before, &after, resized),
        said: draft.said,
    };
    Checked::clean(Some(variant))
}

/// The rises and bakes whose time a cook notices, original and variant in the same kitchen; `anchor`: what
/// the original's tested bakes teach.
pub fn times(
    original: (&Recipe, &Formula),
    variant: &Variant,
    larder: &Larder,
    kitchen: &Kitchen,
    anchor: Anchor,
    each: EachDay<'_>,
) -> Vec<Moved> {
    let after = formula(&variant.recipe, larder).output;
    moved(original, (&variant.recipe, &after), kitchen, anchor, each)
}

/// Tells every sentence whose own words changed; amounts and names in brackets are told already.
fn sentences(draft: &mut Draft, before: &Recipe) {
    let mut told = Vec::new();
    for (was, is) in before.stages.iter().zip(&draft.recipe.stages) {
        told.extend(reworded(&was.name.value, &was.steps, &is.steps));
    }
    for (was, is) in before.products.iter().zip(&draft.recipe.products) {
        told.extend(reworded(&was.name.value, &was.steps, &is.steps));
    }
    for Change {
        what,
        before,
        after,
    } in told
    {
        draft.changed(what, before, after);
    }
}

/// Pairs of sentences with other words; a step that came or went has no pair.
fn reworded(whose: &str, was: &[Step], is: &[Step]) -> Vec<Change> {
    let mut told = Vec::new();
    let plain = |step: &Step| step.text.value.replace(['[', ']'], "");
    let words = |step: &Step| sentence::plain(&step.text.value);
    let what = |place: usize| format!("{whose}, step {}", place + 1);
    let wakes = |step: &Step| matches!(step.action, Action::Wake { .. });
    let gone = |place: usize, old: &Step| {
        (!wakes(old)).then(|| Change {
            what: what(place),
            before: plain(old),
            after: String::new(),
        })
    };
    let mut next = 0;
    for (place, new) in is.iter().enumerate() {
        // A step that came waits for no partner; waking is told where it comes and goes.
        let came = is.len() > was.len() && wakes(new);
        let same = |old: &Step| old.action.word() == new.action.word();
        let found = was.iter().skip(next).position(same);
        let Some(ahead) = found.filter(|_| !came) else {
            continue;
        };
        for (place, old) in was.iter().enumerate().skip(next).take(ahead) {
            told.extend(gone(place, old));
        }
        let old = &was[next + ahead];
        next += ahead + 1;
        if words(old) != words(new) {
            told.push(Change {
                what: what(place),
                before: plain(old),
                after: plain(new),
            });
        }
    }
    for (place, old) in was.iter().enumerate().skip(next) {
        told.extend(gone(place, old));
    }
    told
}

/// "# A variant of “...”, version 3: fresh yeast. Not baked yet."
fn first_line(recipe: &Recipe, titles: &[String]) -> String {
    let version = recipe.version.as_ref().map_or_else(String::new, |version| {
        format!(", version {}", version.value)
    });
    let line = format!(
        "A variant of “{}”{version}: {}. Not baked yet.",
        recipe.title.value,
        finish::in_words(titles).trim_start_matches(", ")
    );
    // A title has no line breaks of its own, a comment must have none.
    format!(
        "# {}\n",
        line.split_whitespace().collect::<Vec<_>>().join(" ")
    )
}

/// Names of ingredients that the original had and the new recipe has not: their last words.
fn gone(before: &Recipe, after: &Recipe) -> Vec<String> {
    let names = |recipe: &Recipe| -> Vec<String> {
        let items = recipe.stages.iter().flat_map(|stage| &stage.items);
        let all = items
            .chain(&recipe.besides)
            .map(|item| item.of.value.clone());
        all.collect()
    };
    let last = |name: &String| name.rsplit(' ').next().unwrap_or(name).to_owned();
    let left: Vec<String> = names(after).iter().map(last).collect();
    let mut gone: Vec<String> = Vec::new();
    for word in names(before).iter().map(last) {
        if !left.contains(&word) && !gone.contains(&word) {
            gone.push(format!("{word}s"));
            gone.push(word);
        }
    }
    gone
}
