//! The recipe file from everything that was read: top, parts, pieces, besides, in readable order.

use super::act::Act;
use super::arrange::Arranged;
use super::clause::{Doing, sentences};
use super::draft::{Draft, Entry, Item, Part, Stage};
use super::sheet::{Sheet, clean, quoted};
use super::tin::Tin;
use super::uses::{Thing, things_beside, things_of, with_uses};
use super::usual::Usual;
use super::work::{Setting, Step, step};
use super::yields::{Made, made, says_people};
use crate::document::model::{Kind, Place};
use crate::larder::Larder;
use numerics::decimal::trimmed;

/// Everything that goes into a file.
pub struct Plan<'a> {
    /// Title.
    pub title: Option<&'a str>,
    /// Sentences before the recipe.
    pub about: Vec<&'a str>,
    /// What it makes, in the text's words.
    pub makes: Option<&'a str>,
    /// Notes.
    pub notes: Vec<&'a str>,
    /// Parts.
    pub draft: &'a Draft,
    /// Work.
    pub arranged: &'a Arranged,
    /// The class of bread.
    pub kind: Kind,
    /// Why that class.
    pub why: String,
    /// What is usual for it.
    pub usual: Usual,
    /// How many of what.
    pub made: Made,
    /// Whether the text says so.
    pub made_said: bool,
    /// How many pieces of dough make one of it.
    pub parts: u32,
    /// Raw mass of one of what is made, grams.
    pub piece_g: Option<f64>,
    /// Raw mass of one piece of dough as the text says it, grams.
    pub piece_said: Option<f64>,
    /// Mass of each filling for one piece, grams, by the stage's name.
    pub fillings: Vec<(String, f64)>,
    /// The tin.
    pub tin: Option<Tin>,
    /// Ingredients.
    pub larder: &'a Larder,
    /// Whether something of the dough has no amount.
    pub some_unweighed: bool,
    /// Whether the file is only weighed: what has no amount stays out.
    pub weighing: bool,
}

/// Most steps that a file is given.
const MOST_STEPS: usize = 900;

/// Writes the file.
pub fn write(plan: &Plan<'_>) -> Sheet {
    let mut sheet = Sheet::default();
    top(&mut sheet, plan);
    let mut steps = 0;
    let mut rest_before = None;
    let mut beside = things_beside(plan.draft);
    for (index, stage) in plan.draft.stages.iter().enumerate() {
        stage_lines(&mut sheet, plan, stage);
        let doings = plan
            .arranged
            .stages
            .get(index)
            .map_or(&[][..], Vec::as_slice);
        let mut things = things_of(plan.draft, stage, doings);
        if stage.part == Part::Filling && doings.is_empty() && stage.items().next().is_some() {
            steps += 1;
            step_lines(&mut sheet, "[[stage.step]]", &set_ready(stage, &mut things));
        }
        let last_mix = doings.iter().rposition(|doing| doing.act == Act::Mix);
        for (place, doing) in doings.iter().enumerate() {
            steps += 1;
            if steps > MOST_STEPS {
                sheet.comment(&format!("not written as a step: {}", doing.sentence));
                continue;
            }
            let mut set = setting(plan, Some(stage), None);
            set.rest_before = rest_before;
            set.last_mix = stage.part == Part::Dough && last_mix == Some(place);
            let mut written = step(doing, &mut set);
            // A sentence that says the dough's temperature belongs to its mix.
            if set.last_mix
                && let Some(heat) = doings.iter().find_map(|other| {
                    (other.act != Act::Mix)
                        .then(|| super::work::dough_heat(&other.sentence))
                        .flatten()
                })
            {
                written = with_heat(written, heat.low.celsius());
            }
            rest_before = set.rest_before;
            written.sentence = with_uses(&written.sentence, &mut things);
            step_lines(&mut sheet, "[[stage.step]]", &written);
        }
    }
    product(&mut sheet, plan, &mut steps, &mut beside);
    besides(&mut sheet, plan);
    sheet
}

/// A step for a part that no sentence makes: its things are measured out.
fn set_ready(stage: &Stage, things: &mut [Thing]) -> Step {
    let names: Vec<&str> = stage.items().map(Item::name).collect();
    Step {
        sentence: with_uses(&format!("Have ready: {}.", names.join(", ")), things),
        key: "finish",
        table: "{ for = \"3 min\" }".to_owned(),
        until: None,
        assumed: vec![(
            "filling",
            "no sentence of the text makes it; it is measured out and used as it is.".to_owned(),
        )],
        moved: None,
    }
}

/// A mix with the dough's temperature that another sentence gives.
fn with_heat(mut written: Step, celsius: f64) -> Step {
    if let Some(at) = written.table.find("dough = \"")
        && let Some(end) = written.table[at + 9..].find('"')
    {
        written
            .table
            .replace_range(at + 9..at + 9 + end, &super::work::degrees(celsius));
        written
            .assumed
            .retain(|(what, _)| *what != "dough temperature");
    }
    written
}

/// A setting for steps.
fn setting<'a>(
    plan: &'a Plan<'_>,
    stage: Option<&'a Stage>,
    oven: Option<numerics::quantity::Range<numerics::quantity::Temperature>>,
) -> Setting<'a> {
    Setting {
        usual: plan.usual,
        piece_g: plan.piece_g,
        stage,
        larder: plan.larder,
        product: &plan.made.name,
        tin: plan.tin.as_ref().is_some_and(|tin| !tin.flat),
        oven,
        rest_before: None,
        last_mix: false,
    }
}

/// What stands above all tables.
fn top(sheet: &mut Sheet, plan: &Plan<'_>) {
    sheet.comment("Made from a pasted text. What the text does not say is marked “Assumed”; look at each before you bake.");
    sheet.line("everyoven = 1");
    if let Some(title) = plan.title {
        sheet.line(format!("title = {}", quoted(title)));
    } else {
        sheet.assume("title", "none is in the text.");
        sheet.line("title = \"Untitled bread\"");
    }
    sheet.assume("kind", &plan.why);
    sheet.line(format!("kind = {}", quoted(plan.kind.word())));
    if plan.about.iter().any(|line| !line.trim().is_empty()) {
        let about: Vec<String> = plan.about.iter().map(|line| clean(line.trim())).collect();
        let about: String = about.join(" ").chars().take(2000).collect();
        sheet.line(format!("headnote = {}", quoted(&about)));
    }
    // "Makes two loaves. Serves about 16.": each sentence says its own.
    let mut told = plan.makes.iter().flat_map(|makes| sentences(makes));
    if let Some(makes) = told.find(|one| says_people(one) && made(one).is_none()) {
        let makes = makes.trim().trim_end_matches('.');
        let people = makes.trim_start_matches(|c: char| !c.is_numeric());
        let end = people
            .find(|c: char| c.is_alphabetic())
            .unwrap_or(people.len());
        let people = people[..end].trim();
        sheet.line(format!(
            "serves = {}",
            quoted(if people.is_empty() { makes } else { people })
        ));
    }
    let notes: Vec<&&str> = plan
        .notes
        .iter()
        .filter(|note| !note.trim().is_empty())
        .take(200)
        .collect();
    if !notes.is_empty() {
        sheet.line("notes = [");
        for note in notes {
            sheet.line(format!("  {},", quoted(note.trim())));
        }
        sheet.line("]");
    }
}

/// An item as a table in braces or as lines; what is for bench, tin or top has fewer keys.
fn pairs(item: &Item, beside: bool) -> Vec<String> {
    let mut pairs = vec![format!("of = {}", quoted(&item.of))];
    let all = [
        ("take", &item.take),
        ("as", &item.called),
        ("also", &item.also),
        ("at", &item.at),
        ("state", &item.state),
        ("note", &item.note),
    ];
    for (key, value) in all.into_iter().take(if beside { 2 } else { 6 }) {
        if let Some(value) = value
            .as_ref()
            .filter(|value| !clean(value).trim().is_empty())
        {
            pairs.push(format!("{key} = {}", quoted(value)));
        }
    }
    pairs
}

/// A stage with its items.
fn stage_lines(sheet: &mut Sheet, plan: &Plan<'_>, stage: &Stage) {
    sheet.gap();
    sheet.line("[[stage]]");
    sheet.line(format!("name = {}", quoted(&stage.name)));
    sheet.line("items = [");
    if stage.part == Part::Dough {
        for before in plan
            .draft
            .stages
            .iter()
            .filter(|other| other.part == Part::Before)
        {
            sheet.line(format!("  {{ of = {} }},", quoted(&before.name)));
        }
    }
    for entry in &stage.entries {
        match entry {
            Entry::Item(item) if plan.weighing && item.take.is_none() => {}
            Entry::Item(item) => {
                if let Some(doubt) = &item.doubt {
                    sheet.indented(&format!("To decide: {doubt}"));
                }
                sheet.line(format!("  {{ {} }},", pairs(item, false).join(", ")));
            }
            Entry::Comment(text) => sheet.indented(text),
        }
    }
    sheet.line("]");
}

/// A step under its heading.
fn step_lines(sheet: &mut Sheet, heading: &str, step: &Step) {
    sheet.gap();
    if let Some(line) = step.moved {
        sheet.comment(&format!("Line {line} of the text says so earlier."));
    }
    sheet.line(heading);
    sheet.line(format!("do = {}", quoted(&step.sentence)));
    for (what, said) in &step.assumed {
        sheet.assume(what, said);
    }
    sheet.line(format!("{} = {}", step.key, step.table));
    if let Some(until) = &step.until {
        sheet.line(format!("until = {until}"));
    }
}

/// What is made, and what is done with it.
fn product(sheet: &mut Sheet, plan: &Plan<'_>, steps: &mut usize, beside: &mut [Thing]) {
    sheet.gap();
    sheet.line("[[product]]");
    sheet.line(format!("name = {}", quoted(&plan.made.name)));
    let from = plan
        .draft
        .stages
        .iter()
        .find(|stage| stage.part == Part::Dough);
    sheet.line(format!(
        "from = {}",
        quoted(from.map_or("dough", |stage| &stage.name))
    ));
    if !plan.made_said {
        sheet.assume("yield", "one piece, as the text does not say how many.");
    }
    sheet.line(format!("count = {}", plan.made.count));
    match plan.piece_g {
        Some(_) if plan.piece_said.is_some() => {
            let each = plan.piece_said.unwrap_or_default();
            let parts = if plan.parts > 1 { format!("{} x ", plan.parts) } else { String::new() };
            sheet.line(format!("piece = {}", quoted(&format!("{parts}{} g", trimmed(each, 1)))));
        }
        Some(grams) => {
            sheet.comment(if plan.some_unweighed { "Worked out: the dough shared by the number of pieces, without what has no amount." } else { "Worked out: the dough shared by the number of pieces." });
            let each = if plan.parts > 1 { (grams / f64::from(plan.parts)).floor() } else { grams };
            let digits = usize::from(each < 100.0);
            let parts = if plan.parts > 1 { format!("{} x ", plan.parts) } else { String::new() };
            sheet.line(format!("piece = {}", quoted(&format!("{parts}{} g", trimmed(each, digits)))));
        }
        None => sheet.comment("The mass of a piece is missing: not every amount of the dough is known. piece = \"...\""),
    }
    let with: Vec<String> = plan
        .fillings
        .iter()
        .map(|(name, grams)| {
            format!(
                "{{ of = {}, each = {} }}",
                quoted(name),
                quoted(&format!("{} g", trimmed(*grams, 1)))
            )
        })
        .collect();
    if !with.is_empty() {
        sheet.line(format!("with = [{}]", with.join(", ")));
    }
    if let Some(tin) = &plan.tin {
        if let Some(assumed) = &tin.assumed {
            sheet.assume("tin", assumed);
        }
        sheet.line(format!("tin = {}", tin.table));
    }
    let mut oven = None;
    let mut rest_before = None;
    for (doing, moved) in &plan.arranged.product {
        *steps += 1;
        if *steps > MOST_STEPS {
            sheet.comment(&format!("not written as a step: {}", doing.sentence));
            continue;
        }
        let mut set = setting(plan, None, oven);
        set.rest_before = rest_before;
        let mut written = step(doing, &mut set);
        oven = set.oven;
        rest_before = set.rest_before;
        written.moved = *moved;
        written.sentence = with_uses(&written.sentence, beside);
        step_lines(sheet, "[[product.step]]", &written);
    }
    // The text may not speak of the oven at all.
    if !plan
        .arranged
        .product
        .iter()
        .any(|(doing, _)| doing.act == Act::Bake)
    {
        let mut set = setting(plan, None, oven);
        let doing = Doing {
            line: 0,
            place: 0,
            sentence: "Bake.".to_owned(),
            act: Act::Bake,
        };
        let written = step(&doing, &mut set);
        sheet.gap();
        sheet.comment("The text does not say how to bake it.");
        step_lines(sheet, "[[product.step]]", &written);
    }
}

/// For bench, tin and top.
fn besides(sheet: &mut Sheet, plan: &Plan<'_>) {
    for entry in &plan.draft.besides {
        sheet.gap();
        match entry {
            Entry::Item(item) => {
                if let Some(doubt) = &item.doubt {
                    sheet.comment(&format!("To decide: {doubt}"));
                }
                if plan.weighing && item.take.is_none() {
                    continue;
                }
                let said: Vec<&str> = [&item.also, &item.state, &item.note]
                    .into_iter()
                    .flatten()
                    .map(String::as_str)
                    .collect();
                if !said.is_empty() {
                    sheet.comment(&format!("The text: {}", said.join("; ")));
                }
                sheet.line("[[besides]]");
                for pair in pairs(item, true) {
                    sheet.line(pair);
                }
                let place = item.place.unwrap_or(Place::Top).word();
                sheet.line(format!("on = {}", quoted(place)));
            }
            Entry::Comment(text) => sheet.comment(text),
        }
    }
}
