//! How a thing that came in is called in sentences, and what becomes of the words for what went out.

use super::draft::{At, Draft};
use super::sentence;
use super::wish::Coming;
use crate::ledger::say;
use recipe::document::model::{Action, Item, Step};
use recipe::larder::{Ingredient, Role};

/// How a thing is handled, as far as sentences care.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Butter and its like: softened, cut.
    SolidFat,
    /// Poured fat.
    Oil,
    /// Poured: milk, water, cream.
    Liquid,
    /// Beaten, counted.
    Egg,
    /// Honey and syrups.
    Syrup,
    /// Scattered and stirred.
    Dry,
}

/// The form of an ingredient.
pub fn form(one: &Ingredient) -> Form {
    match one.role {
        Role::Fat if one.key.starts_with("oil") => Form::Oil,
        Role::Fat => Form::SolidFat,
        Role::Liquid => Form::Liquid,
        Role::Egg => Form::Egg,
        Role::Sugar if one.composition.water.is_some_and(|water| water.si() > 0.1) => Form::Syrup,
        _ => Form::Dry,
    }
}

/// Whether an ingredient has milk by the law's list.
fn is_dairy(one: &Ingredient) -> bool {
    one.allergens_us.iter().any(|name| name.starts_with("milk"))
}

/// The last word of a name, in the singular.
fn noun(name: &str) -> &str {
    let last = name.split_whitespace().next_back().unwrap_or(name);
    match last {
        "eggs" | "yolks" | "whites" => &last[..last.len() - 1],
        _ => last,
    }
}

/// How the sentences will call what comes in for an item.
pub fn called(item: &Item, old: &Ingredient, coming: &Coming) -> String {
    let new = coming.ingredient;
    let name = coming.name.as_str();
    let Some(short) = item.name.as_ref().map(|name| name.value.as_str()) else {
        return name.to_owned();
    };
    let same_noun = noun(short) == noun(name);
    let kin = new.role != Role::Liquid || (is_dairy(old) == is_dairy(new));
    if same_noun && kin && form(old) == form(new) {
        return short.to_owned();
    }
    if form(new) == Form::Egg && short.ends_with('s') {
        return format!("{name}s");
    }
    // "waking milk" becomes "waking oat drink"; "milk" becomes "oat drink".
    match short.rsplit_once(' ') {
        Some((first, last)) if noun(&item.of.value) == last => format!("{first} {name}"),
        _ => name.to_owned(),
    }
}

/// Words about what went out follow in the plain text of every sentence, when none of it is left.
pub fn follow_words(draft: &mut Draft, old: &Ingredient, old_names: &[String], to: &Coming) {
    let new = to.ingredient;
    if generic(old.role) && old.role == new.role && form(old) == form(new) {
        return;
    }
    let alike = form(old) == form(new);
    let singular = |name: &str| name.trim_end_matches('s').to_owned();
    let mut words: Vec<String> = Vec::new();
    for name in old_names {
        let last = name.split_whitespace().next_back().unwrap_or(name);
        for word in [name.as_str(), last] {
            if !words.iter().any(|own| own == word) {
                words.push(word.to_owned());
            }
        }
    }
    words.sort_by_key(|word| std::cmp::Reverse(word.len()));
    let last = to.name.split_whitespace().next_back().unwrap_or(&to.name);
    // "salted butter" may be called butter.
    words.retain(|word| singular(word) != singular(last));
    // Hot water in a pan and wet hands are not the dough's water.
    words.retain(|word| word != "water");
    // Marked until the end, so that the "egg" of "egg yolk" is not replaced again.
    let marks = ("x\u{1}", "x\u{2}");
    let plural = format!("{}s", to.name);
    let unmarked = |text: &str| {
        text.replace("x\u{1}", &to.name)
            .replace("X\u{1}", &say::capital(&to.name))
            .replace("x\u{2}", &plural)
            .replace("X\u{2}", &say::capital(&plural))
    };
    let each = |step: &mut Step| {
        for word in &words {
            if sentence::find_word(&sentence::plain(&step.text.value), word).is_none() {
                continue;
            }
            if !alike {
                step.text.value = sentence::take_words_out(&step.text.value, word);
            }
            let plural = word.ends_with('s') && old.role == Role::Egg && form(new) == Form::Egg;
            let name = if plural { marks.1 } else { marks.0 };
            step.text.value = sentence::replace_words(&step.text.value, word, name);
        }
        if let Some(see) = step.until.as_mut().and_then(|until| until.see.as_mut()) {
            for word in &words {
                see.value = sentence::replace_words(&see.value, word, marks.0);
            }
            see.value = unmarked(&see.value);
        }
        step.text.value = unmarked(&step.text.value);
        if let Action::Ready { what, .. } = &mut step.action
            && matches!(form(new), Form::Oil | Form::Liquid)
        {
            what.retain(|name| name.value != to.name);
        }
        if matches!(form(new), Form::Oil | Form::Liquid) {
            pour(&mut step.text.value);
        }
    };
    for stage in &mut draft.recipe.stages {
        stage.steps.iter_mut().for_each(each);
    }
    for product in &mut draft.recipe.products {
        product.steps.iter_mut().for_each(each);
    }
    draft.tidy_steps();
}

/// Words of these roles are said of every form of them: flour, yeast, salt.
const fn generic(role: Role) -> bool {
    matches!(role, Role::Flour | Role::Yeast(_) | Role::Salt)
}

/// Pieces of butter become a stream of oil.
fn pour(text: &mut String) {
    for (solid, poured) in [
        (" a few pieces at a time", " a little at a time"),
        (" piece by piece", " a little at a time"),
        (", cut into pieces", ""),
    ] {
        *text = text.replace(solid, poured);
    }
}

/// What an item keeps of how it stood, when something of another form comes in.
pub fn settle(draft: &mut Draft, at: At, old: &Ingredient, new: &Ingredient) {
    let changed = form(old) != form(new);
    let note = draft.item_mut(at).note.take();
    if let Some(note) = note {
        draft.said.push(format!(
            "The note “{}” was for the {}; it is left out.",
            note.value, old.name
        ));
    }
    let printed = {
        let called = draft.item(at).called().to_owned();
        let bracket = format!("[{called} temperature]");
        draft
            .steps_of(at)
            .iter()
            .any(|step| step.text.value.contains(&bracket))
    };
    let item = draft.item_mut(at);
    if changed {
        item.state = None;
        let inside = matches!(at, At::Stage(..));
        let item = draft.item_mut(at);
        if inside && form(old) == Form::SolidFat && form(new) == Form::Oil && !printed {
            item.at = None;
            item.from = Some(super::draft::new(recipe::document::model::Store::Room));
        }
    }
}
