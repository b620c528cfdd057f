//! The printed method of each example read aloud, with one word of it exchanged: what of that a talk's reader finds.
//!
//! No voice is in it: it tells where the reader has no sense for a thing at all. Which words are exchanged for which is our
//! own choice.

use super::tracks::{Count, says_wrong};
use bake::kitchen::Kitchen;
use edit::ledger::model::{Ledger, Run};
use edit::talk::talk;
use edit::talk::track::read;
use edit::{Inputs, work_out};
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use std::collections::BTreeMap;
use std::path::Path;

/// Words for a state, each with words for another.
const OTHERWISE: [(&str, &str); 30] = [
    ("soft but cool", "melted"),
    ("hot tray", "cold tray"),
    ("hot water", "cold water"),
    ("cold dough", "warm dough"),
    ("cold from the refrigerator", "at room temperature"),
    ("straight from the refrigerator", "at room temperature"),
    ("an empty pan", "a pan of ice"),
    ("until smooth", "until rough and lumpy"),
    ("smooth", "rough and shaggy"),
    ("glossy", "dull"),
    ("satin", "crumbly"),
    ("stretches to", "tears before it makes"),
    ("nearly doubled", "quite flat"),
    ("doubled", "not risen at all"),
    ("puffed", "flat"),
    ("domed", "sunk"),
    ("fills slowly", "springs back at once"),
    ("firm", "soft and sticky"),
    ("relaxed", "tight"),
    ("cool to", "hot to"),
    ("barely warm", "hot"),
    ("warm, not hot", "hot"),
    ("deep brown", "pale"),
    ("dark brown", "pale"),
    ("chestnut brown", "pale"),
    ("golden", "white"),
    ("brown", "white"),
    ("no warmer than the hand", "still hot"),
    ("warm place", "cold place"),
    ("cool place", "warm place"),
];

/// Numbers of things and deeds, each with another.
const OTHER_NUMBERS: [(&str, &str); 9] = [
    ("once", "three times"),
    ("twice", "five times"),
    ("three pieces", "five pieces"),
    ("four pieces", "six pieces"),
    ("two pieces", "five pieces"),
    ("five lots", "nine lots"),
    ("four sides", "seven sides"),
    ("in half", "in five"),
    ("one pinch", "four pinches"),
];

/// Words for which others may stand.
const SAME: [(&str, &str); 16] = [
    ("refrigerator", "fridge"),
    ("doubled", "twice the size"),
    ("nearly doubled", "almost twice as big"),
    ("deep brown", "a good dark brown"),
    ("golden", "a lovely gold"),
    ("smooth", "silky"),
    ("soft but cool", "pliable"),
    ("puffed", "puffy"),
    ("hot water", "boiling water"),
    ("hot tray", "sizzling tray"),
    ("once", "one time"),
    ("twice", "two times"),
    ("firm", "stiff"),
    ("a dent fills slowly", "a dent comes back slowly"),
    ("warm place", "cosy spot"),
    ("straight from the refrigerator", "fridge-cold"),
];

/// What is exchanged, the words for it, and whether that makes it wrong.
type Change = (&'static str, &'static [(&'static str, &'static str)], bool);

/// What is counted, and a line for each miss.
type Told = (BTreeMap<&'static str, Count>, Vec<String>);

/// Every example, each change in its turn.
///
/// # Errors
/// When an example cannot be read.
pub fn told(root: &Path) -> Result<Told, String> {
    let mut told = (BTreeMap::new(), Vec::new());
    for name in [
        "cardamom-dough",
        "feast-bread",
        "feast-bread-active-dry",
        "hearth-loaf",
        "same-day-loaf",
    ] {
        let file = root.join("examples").join(format!("{name}.toml"));
        let text =
            std::fs::read_to_string(&file).map_err(|e| format!("{}: {e}", file.display()))?;
        one(name, &text, &mut told).ok_or_else(|| format!("{name} cannot be read"))?;
    }
    Ok(told)
}

/// The same as text.
///
/// # Errors
/// When an example cannot be read.
pub fn page(root: &Path) -> Result<String, String> {
    let (kinds, misses) = told(root)?;
    let mut text =
        misses.join("\n") + "\n\n| what is exchanged | found | disturbed |\n|---|---|---|\n";
    for (kind, count) in kinds {
        text += &format!(
            "| {kind} | {} of {} | {} of {} |\n",
            count.found, count.slips, count.disturbed, count.decoys
        );
    }
    Ok(text)
}

/// The sentences that are read aloud, a paragraph a step.
fn paragraphs(ledger: &Ledger, recipe: &recipe::document::model::Recipe) -> Vec<String> {
    let steps = recipe
        .stages
        .iter()
        .flat_map(|stage| &stage.steps)
        .chain(recipe.products.iter().flat_map(|product| &product.steps));
    let headings = ledger.sections.iter().flat_map(|section| {
        section.steps.iter().enumerate().map(move |(at, step)| {
            (at == 0)
                .then_some(&section.heading)
                .map_or((None, step), |h| (Some(h), step))
        })
    });
    headings
        .zip(steps)
        .map(|((heading, line), step)| {
            let words: String = line
                .runs
                .iter()
                .map(|run| match run {
                    Run::Words(words) => words.as_str(),
                    Run::Figure(figure) => figure.shown.as_str(),
                })
                .collect();
            let see = step.until.as_ref().and_then(|until| until.see.as_ref());
            let until = see.map_or_else(String::new, |see| {
                format!(" You want it {}.", see.value.replace(';', ","))
            });
            let now = heading.map_or_else(String::new, |heading| {
                format!("Now the {}. ", heading.to_lowercase())
            });
            format!("{now}{words}{until}")
        })
        .collect()
}

fn one(name: &str, text: &str, told: &mut Told) -> Option<()> {
    let recipe = read_recipe(text).output?;
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    let (_, ledger) = work_out(&inputs).output;
    let paragraphs = paragraphs(&ledger, &recipe);
    // What is said wrong in some paragraphs of a reading.
    let wrong = |read_out: &[String], of: &[usize]| -> Vec<String> {
        let track = read(read_out.join("\n\n").as_bytes()).output;
        let mut spans = Vec::new();
        let mut at = 0;
        for paragraph in read_out {
            spans.push((at, at + paragraph.len()));
            at += paragraph.len() + 1;
        }
        talk(&inputs, &ledger, &track)
            .output
            .findings
            .iter()
            .filter(|finding| {
                says_wrong(finding.kind)
                    && finding.within.is_some_and(|own| {
                        of.iter()
                            .any(|n| own.start < spans[*n].1 && spans[*n].0 < own.end)
                    })
            })
            .map(|finding| finding.diagnostic.message.clone())
            .collect()
    };
    let all: Vec<usize> = (0..paragraphs.len()).collect();
    for message in wrong(&paragraphs, &all) {
        told.1.push(format!("{name}: as it is printed: {message}"));
    }
    for at in 0..paragraphs.len() {
        let count = told.0.entry("nothing").or_default();
        count.decoys += 1;
        count.disturbed += usize::from(!wrong(&paragraphs, &[at]).is_empty());
    }
    let changes: [Change; 3] = [
        ("a state", &OTHERWISE, true),
        ("a number of things", &OTHER_NUMBERS, true),
        ("a word of the same meaning", &SAME, false),
    ];
    for (kind, pairs, slip) in changes {
        for (at, paragraph) in paragraphs.iter().enumerate() {
            for (own, other) in pairs {
                // The longest of the words that are known only: "deep brown", not "brown" in it.
                let covered = pairs.iter().any(|(longer, _)| {
                    longer.len() > own.len() && longer.contains(own) && paragraph.contains(longer)
                });
                let Some(place) = paragraph.find(own).filter(|_| !covered) else {
                    continue;
                };
                let mut read_out = paragraphs.clone();
                read_out[at].replace_range(place..place + own.len(), other);
                let messages = wrong(&read_out, &[at]);
                let count = told.0.entry(kind).or_default();
                if slip {
                    count.slips += 1;
                    count.found += usize::from(!messages.is_empty());
                    if messages.is_empty() {
                        told.1
                            .push(format!("{name}: not found, {kind}: “{}”", read_out[at]));
                    }
                } else {
                    count.decoys += 1;
                    count.disturbed += usize::from(!messages.is_empty());
                    if let Some(message) = messages.first() {
                        told.1.push(format!(
                            "{name}: disturbed, {kind}: “{}”: {message}",
                            read_out[at]
                        ));
                    }
                }
            }
        }
    }
    // Two steps of one part the other way round.
    let mut begin = 0;
    for section in &ledger.sections {
        for at in begin..begin + section.steps.len().saturating_sub(1) {
            let mut read_out = paragraphs.clone();
            read_out.swap(at, at + 1);
            let count = told.0.entry("the order of two steps").or_default();
            count.slips += 1;
            if wrong(&read_out, &[at, at + 1]).is_empty() {
                told.1
                    .push(format!("{name}: not found, order: “{}”", read_out[at]));
            } else {
                count.found += 1;
            }
        }
        begin += section.steps.len();
    }
    Some(())
}
