//! What every variant needs at the end: pieces that the dough gives, liquids of the right warmth, a title of its own, no test bakes of another bread.

use super::draft::{Draft, new};
use crate::ledger::say;
use bake::kitchen::Kitchen;
use numerics::decimal::round_to;
use numerics::quantity::{Mass, Range, Temperature, TemperatureDifference};
use recipe::document::model::{Action, Amount, Recipe};
use recipe::formula::{Formula, piece_mass};
use recipe::measure::write::{write_mass, write_piece, write_temperature};

/// A liquid that reads within so much of what it should is left as it is.
const NEAR: TemperatureDifference = TemperatureDifference::from_si(0.75);

/// No liquid that goes into a dough or to yeast is asked to read more.
const HOTTEST: Temperature = Temperature::from_celsius(55.0);

/// Pieces that want more dough than there is become a little smaller.
pub fn pieces(draft: &mut Draft, before: &Formula) {
    let formula = draft.formula();
    let wanted: Mass = formula.products.iter().map(|product| product.dough).sum();
    let most = formula.dough.mass;
    if wanted <= most || wanted <= Mass::ZERO || before.trim < Mass::ZERO {
        return;
    }
    let factor = most / wanted;
    for place in 0..draft.recipe.products.len() {
        let product = &mut draft.recipe.products[place];
        let written = write_piece(&product.piece.value);
        let whole = piece_mass(&product.piece.value);
        for part in &mut product.piece.value {
            let was = part.mass;
            part.mass = down(was * factor);
            let (old, less) = (write_mass(was), write_mass(part.mass));
            for step in &mut product.steps {
                step.text.value = figure_replaced(&step.text.value, &old, &less);
            }
        }
        let now = write_piece(&product.piece.value);
        let share = piece_mass(&product.piece.value) / whole;
        if let Some(baked) = &mut product.after_bake {
            baked.value = super::draft::weighed(baked.value * share);
        }
        let what = format!("{}: each piece", product.name.value);
        draft.changed(what, written, now);
    }
}

/// Fillings that shrank: each piece gets its share of what there is.
pub fn fillings(draft: &mut Draft) {
    let formula = draft.formula();
    for (place, stage) in formula.stages.iter().enumerate() {
        if stage.in_dough {
            continue;
        }
        let name = draft.recipe.stages[place].name.value.clone();
        let mut wanted = Mass::ZERO;
        for product in &draft.recipe.products {
            let own = product.with.iter().filter(|item| item.of.value == name);
            let each = own.filter_map(|item| item.each.as_ref());
            for amount in each {
                if let Amount::Mass(mass) = amount.value {
                    wanted += mass * f64::from(product.count.value);
                }
            }
        }
        if wanted <= stage.mass || wanted <= Mass::ZERO {
            continue;
        }
        let factor = stage.mass / wanted;
        let mut told = Vec::new();
        for product in &mut draft.recipe.products {
            for item in product.with.iter_mut().filter(|item| item.of.value == name) {
                if let Some(each) = &mut item.each
                    && let Amount::Mass(mass) = &mut each.value
                {
                    let was = *mass;
                    *mass = down(*mass * factor);
                    told.push((product.name.value.clone(), was, *mass));
                }
            }
        }
        for (product, was, is) in told {
            let what = format!("{product}: {name} for each");
            draft.changed(what, write_mass(was), write_mass(is));
        }
    }
}

/// Rounded down as a scale is read, so that the pieces fit.
fn down(mass: Mass) -> Mass {
    let grams = mass.grams();
    let step = match grams {
        g if g >= 20.0 => 1.0,
        g if g >= 5.0 => 0.5,
        _ => 0.1,
    };
    Mass::from_grams(((grams / step + 1e-6).floor() * step).max(step))
}

/// A figure with its unit, wherever it stands alone in a sentence.
fn figure_replaced(text: &str, old: &str, new: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(old) {
        let before = rest[..at].chars().next_back();
        let after = rest[at + old.len()..].chars().next();
        let alone = !before.is_some_and(|c| c.is_ascii_digit() || c == '.')
            && !after.is_some_and(char::is_alphanumeric);
        out.push_str(&rest[..at]);
        out.push_str(if alone { new } else { old });
        rest = &rest[at + old.len()..];
    }
    out.push_str(rest);
    out
}

/// Liquids whose temperature the kitchen works out read what they now must.
pub fn warmth(draft: &mut Draft, original: &Recipe, before: &Formula, kitchen: &Kitchen) {
    let after = draft.formula();
    wakes(draft, &after, kitchen);
    // A liquid that wakes yeast changes what the mix after it needs.
    let after = draft.formula();
    let was = bake::mix::mix(original, before, kitchen).output;
    let is = bake::mix::mix(&draft.recipe, &after, kitchen).output;
    for answer in is {
        let (Some(liquid), Some(reads)) = (&answer.liquid, answer.liquid_at) else {
            continue;
        };
        let Some((s, i)) = place(&draft.recipe, &answer.stage, liquid) else {
            continue;
        };
        let Some(written) = draft.recipe.stages[s].items[i]
            .at
            .as_ref()
            .map(|at| at.value)
        else {
            continue;
        };
        // What the author wrote differs from what the kitchen asks for: it differs by as much again.
        let off = was
            .iter()
            .find(|old| old.stage == answer.stage)
            .and_then(|old| {
                let (s, i) = place(original, &old.stage, old.liquid.as_ref()?)?;
                Some(original.stages[s].items[i].at.as_ref()?.value - old.liquid_at?)
            })
            .filter(|off| off.abs() > NEAR);
        let wanted = off.map_or(reads, |off| reads + off);
        set(draft, s, i, written, wanted);
    }
}

/// A dough that can no longer end where it should, and could before, is said to end where it does.
pub fn targets(draft: &mut Draft, original: &Recipe, before: &Formula, kitchen: &Kitchen) {
    let ends = |answer: &bake::mix::MixAnswer| {
        let balance = answer.solved.as_ref().unwrap_or(&answer.as_written);
        let wanted = answer.wanted;
        let (low, high) = (wanted.low - balance.ends, balance.ends - wanted.high);
        let off = if low > high { low } else { high };
        (balance.ends, off.si() < 1.0)
    };
    let was = bake::mix::mix(original, before, kitchen).output;
    let after = draft.formula();
    for answer in bake::mix::mix(&draft.recipe, &after, kitchen).output {
        let (reached, near) = ends(&answer);
        let old = was.iter().find(|old| old.stage == answer.stage);
        if near || old.is_some_and(|old| !ends(old).1) {
            continue;
        }
        let Some(stage) = draft
            .recipe
            .stages
            .iter_mut()
            .find(|stage| stage.name.value == answer.stage)
        else {
            continue;
        };
        let whole = Temperature::from_celsius(round_to(reached.celsius(), 1.0));
        for step in &mut stage.steps {
            if let Action::Mix {
                dough: Some(dough), ..
            } = &mut step.action
            {
                dough.value = Range {
                    low: whole,
                    high: whole,
                };
            }
        }
        let (was, is) = (
            say::temperature_range(answer.wanted),
            say::temperature(whole),
        );
        let name = answer.stage;
        let warmer = whole > answer.wanted.high;
        draft.said.push(format!(
            "The {name} cannot end at {was} any more; it ends at {is} in this kitchen and rises {}, \
             about a tenth for each degree Celsius (a bread textbook, read).{}",
            if warmer { "faster" } else { "slower" },
            if warmer {
                " Eggs and butter straight from the refrigerator would cool it."
            } else {
                ""
            }
        ));
        draft.changed(format!("{name}: ends at"), was, is);
    }
}

/// Liquids that wake yeast read what they must; those of the original that do well stay.
fn wakes(draft: &mut Draft, formula: &Formula, kitchen: &Kitchen) {
    for answer in bake::mix::wake(&draft.recipe, formula, kitchen).output {
        if answer.band.holds(answer.settles) {
            continue;
        }
        if let Some((s, i)) = place(&draft.recipe, &answer.stage, &answer.liquid) {
            set(draft, s, i, answer.written, answer.liquid_at);
        }
    }
}

/// Gives an item another temperature, in whole degrees of the author's scale.
fn set(draft: &mut Draft, s: usize, i: usize, written: Temperature, wanted: Temperature) {
    if (wanted - written).abs() < NEAR || wanted > HOTTEST {
        return;
    }
    let whole = if write_temperature(written).ends_with("°F") {
        Temperature::from_fahrenheit(round_to(wanted.fahrenheit(), 1.0))
    } else {
        Temperature::from_celsius(round_to(wanted.celsius(), 1.0))
    };
    let name = draft.recipe.stages[s].name.value.clone();
    let item = &mut draft.recipe.stages[s].items[i];
    item.at = Some(new(whole));
    item.from = None;
    let called = item.called().to_owned();
    // What is new has no reading from before.
    let own = format!("{name}: {called}");
    if draft
        .changes
        .iter()
        .any(|told| told.what == own && told.before.is_empty())
    {
        return;
    }
    let what = format!("{name}: {called}, warm or cold");
    draft.changed(what, write_temperature(written), write_temperature(whole));
}

/// An item by the names of its stage and of itself.
fn place(recipe: &Recipe, stage: &str, called: &str) -> Option<(usize, usize)> {
    let s = recipe
        .stages
        .iter()
        .position(|one| one.name.value == stage)?;
    let i = recipe.stages[s]
        .items
        .iter()
        .position(|item| item.called() == called)?;
    Some((s, i))
}

/// A title of its own, and nothing that is true of the original alone.
pub fn name(draft: &mut Draft, titles: &[String]) {
    let recipe = &mut draft.recipe;
    recipe.title.value = format!("{}{}", recipe.title.value, in_words(titles));
    recipe.version = None;
    recipe.published = None;
    recipe.changed = None;
    let tests = recipe.tested.len();
    recipe.tested.clear();
    if tests > 0 {
        draft.said.push(
            "This variant has not been baked: the test bakes of the original are not carried over."
                .to_owned(),
        );
    }
}

/// ", with fresh yeast and oat drink, without egg".
pub fn in_words(titles: &[String]) -> String {
    let without: Vec<String> = titles
        .iter()
        .filter_map(|title| title.strip_prefix("no ").map(str::to_owned))
        .collect();
    let with: Vec<String> = titles
        .iter()
        .filter(|title| !title.starts_with("no "))
        .cloned()
        .collect();
    let mut words = String::new();
    for (link, names) in [("with", with), ("without", without)] {
        if !names.is_empty() {
            words.push_str(&format!(", {link} {}", say::list(&names)));
        }
    }
    words
}

/// Free text that still speaks of what went out.
pub fn free_text(recipe: &Recipe, gone: &[String]) -> Vec<String> {
    let text = |name: &str, text: Option<&str>| text.map(|text| (name.to_owned(), text.to_owned()));
    let value =
        |one: &Option<recipe::source::Located<String>>| one.as_ref().map(|o| o.value.clone());
    let mut all: Vec<(String, String)> = [
        text("title", Some(&recipe.title.value)),
        text("headnote", value(&recipe.headnote).as_deref()),
        text(
            "advice on making ahead",
            value(&recipe.make_ahead).as_deref(),
        ),
        text("advice on storage", value(&recipe.storage).as_deref()),
    ]
    .into_iter()
    .flatten()
    .collect();
    all.extend(
        recipe
            .notes
            .iter()
            .map(|note| ("note".to_owned(), note.value.clone())),
    );
    let mut said = Vec::new();
    for (name, text) in all {
        let word = gone
            .iter()
            .find(|word| super::sentence::find_word(&text, word).is_some());
        if let Some(word) = word {
            said.push(format!(
                "The {name} still speaks of “{word}”: read it again."
            ));
        }
    }
    said.dedup();
    said
}
