//! The ledger put together from recipe, formula, physics and plan.

use super::model::{Fact, Figure, FilmLine, IsoTimes, Ledger};
use super::{
    allergens, bowl_labels, cautions, figure, items, kebab, kit, patterns, products, readers, said,
    say, shopping, steps, tables,
};
use crate::{Heard, Inputs};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Recipe, Test};
use recipe::provenance::{Had, Origin};

/// Writes every figure of a recipe once.
pub fn ledger(inputs: &Inputs, heard: &Heard) -> Ledger {
    let recipe = inputs.recipe;
    let products = products::lines(inputs);
    let yield_line = products::yield_line(recipe);
    let stages = items::stages(inputs);
    let besides = items::besides(inputs);
    let uses_cups = stages
        .iter()
        .flat_map(|stage| &stage.items)
        .chain(&besides)
        .any(|item| {
            item.measure
                .as_ref()
                .is_some_and(|m| m.shown.contains("cup"))
        });
    let footnotes = items::footnotes(inputs);
    let text = |value: &Option<recipe::source::Located<String>>| {
        value.as_ref().map(|text| text.value.clone())
    };
    let date = |value: &Option<recipe::source::Located<jiff::civil::Date>>| {
        value.as_ref().map(|date| date.value.to_string())
    };
    Ledger {
        title: recipe.title.value.clone(),
        slug: slug(&recipe.title.value),
        language: readers::language(inputs.market),
        film: recipe.film.as_ref().map(|film| FilmLine {
            title: film.title.as_ref().unwrap_or(&recipe.title).value.clone(),
            address: film.address.value.clone(),
            date: date(&film.date),
            when: film.date.as_ref().map(|date| say::date(date.value)),
            thumbnail: text(&film.thumbnail),
            parts: Vec::new(),
        }),
        byline: byline(recipe),
        author: text(&recipe.author),
        version: text(&recipe.version),
        published: date(&recipe.published),
        changed: date(&recipe.changed),
        headnote: text(&recipe.headnote),
        facts: facts(inputs, heard, &yield_line),
        said: said::lines(inputs, heard),
        iso_times: IsoTimes {
            prep: say::iso_duration(heard.elapsed.hands_on),
            cook: say::iso_duration(heard.elapsed.baking),
            total: say::iso_duration(heard.elapsed.total),
        },
        yield_line,
        allergens: allergens::line(inputs),
        kit: kit::kit(inputs),
        sections: steps::sections(inputs, heard),
        stages,
        besides,
        products,
        formula: tables::formula(inputs.formula),
        rooms: tables::rooms(heard),
        reckoned: None,
        cautions: cautions::cautions(inputs),
        paragraphs: paragraphs(recipe),
        tested: recipe.tested.iter().map(tested).collect(),
        cup_note: measures_note(inputs, uses_cups),
        words_note: inputs.market.map(|_| readers::WORDS_NOTE.to_owned()),
        disclosure: recipe.sponsor.as_ref().map(|sponsor| {
            let gave = sponsor
                .gave
                .as_ref()
                .map_or("paid for it", |gave| &gave.value);
            format!("This recipe was made with {}: {gave}.", sponsor.name.value)
        }),
        label: super::label::lines(inputs),
        photos: recipe
            .photos
            .iter()
            .map(|photo| {
                (
                    photo.file.value.clone(),
                    text(&photo.alt).unwrap_or_default(),
                    text(&photo.credit),
                )
            })
            .collect(),
        footnotes,
        imprint: imprint(recipe),
        shopping: shopping::one(inputs),
        bowl_labels: bowl_labels::labels(inputs),
        patterns: patterns::patterns(inputs),
    }
}

/// Whose cups and spoons these are, and how flour is measured with them.
fn measures_note(inputs: &Inputs, uses_cups: bool) -> Option<String> {
    let market = inputs.market.unwrap_or_default();
    let cups = uses_cups.then(|| recipe::larder::flour_cup_note(market));
    let notes: Vec<String> = readers::said_of_measures(inputs.market)
        .into_iter()
        .chain(cups)
        .collect();
    (!notes.is_empty()).then(|| notes.join(" "))
}

/// Edition of the ingredient tables: the releases they were taken from.
const INGREDIENT_DATA: &str = "USDA 2015+2024";

/// The tool, the data and the version of the recipe.
fn imprint(recipe: &Recipe) -> String {
    let tool = env!("CARGO_PKG_VERSION");
    let version = recipe.version.as_ref().map_or_else(String::new, |version| {
        format!(" · version {}", version.value)
    });
    format!("everyoven {tool} · data {INGREDIENT_DATA}{version}")
}

/// Words of a title as a file name: ASCII letters, digits, hyphens.
fn slug(title: &str) -> String {
    let slug: String = kebab(&title.replace('.', " "))
        .chars()
        .map(|letter| match letter {
            'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => 'a',
            'ç' => 'c',
            'è' | 'é' | 'ê' | 'ë' => 'e',
            'ì' | 'í' | 'î' | 'ï' => 'i',
            'ñ' => 'n',
            'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' => 'o',
            'ù' | 'ú' | 'û' | 'ü' => 'u',
            letter => letter,
        })
        .filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-')
        .take(80)
        .collect();
    let slug = slug.trim_matches('-').to_owned();
    if slug.is_empty() {
        "recipe".to_owned()
    } else {
        slug
    }
}

fn byline(recipe: &Recipe) -> Vec<String> {
    let mut line = Vec::new();
    if let Some(author) = &recipe.author {
        line.push(format!("by {}", author.value));
    }
    if let Some(version) = &recipe.version {
        line.push(format!("version {}", version.value));
    }
    if let Some(date) = &recipe.published {
        line.push(format!("published {}", say::date(date.value)));
    }
    if let Some(date) = &recipe.changed {
        line.push(format!("changed {}", say::date(date.value)));
    }
    line
}

/// A time summed from the written ones.
fn time(name: &str, duration: Duration) -> Figure {
    figure(
        format!("time.{name}"),
        duration.si(),
        Duration::SI,
        say::duration(duration),
        Origin::new(
            "sum of the written times: one pair of hands, one oven",
            Had::Derived,
        ),
    )
}

fn facts(inputs: &Inputs, heard: &Heard, yield_line: &str) -> Vec<Fact> {
    let recipe = inputs.recipe;
    let elapsed = &heard.elapsed;
    let mut facts = Vec::new();
    let mut fact = |label: &str, shown: String, figures: Vec<Figure>| {
        facts.push(Fact {
            label: label.to_owned(),
            shown,
            figures,
        });
    };
    if !yield_line.is_empty() {
        let counts = recipe.products.iter().map(|product| {
            let count = product.count.value;
            let name = format!("makes.{}", product.name.value);
            let origin = Origin::new("the recipe", Had::Written);
            figure(name, f64::from(count), "1", count.to_string(), origin)
        });
        fact("Makes", yield_line.to_owned(), counts.collect());
    }
    if let Some(serves) = &recipe.serves {
        fact("Serves", serves.value.replace('-', "–"), Vec::new());
    }
    if elapsed.total > Duration::ZERO {
        let total = time("total", elapsed.total);
        fact("Start to finish", total.shown.clone(), vec![total]);
        if elapsed.day_before > Duration::ZERO {
            let day = time("on-the-day", elapsed.on_the_day);
            fact("On the day", day.shown.clone(), vec![day]);
        }
        let hands = time("hands-on", elapsed.hands_on);
        fact("Hands-on", hands.shown.clone(), vec![hands]);
        let oven = time("in-the-oven", elapsed.baking);
        fact("In the oven", oven.shown.clone(), vec![oven]);
    }
    let dials = dials(inputs);
    if !dials.is_empty() {
        let shown: Vec<_> = dials.iter().map(|dial| dial.shown.clone()).collect();
        fact("Oven", shown.join(", then "), dials);
    }
    for (what, before) in &elapsed.leads {
        let lead = time("lead", *before);
        let what: Vec<_> = what.split(", ").map(str::to_owned).collect();
        let shown = format!("take {} out {} ahead", say::list(&what), lead.shown);
        fact("Before you begin", shown, vec![lead]);
    }
    facts
}

/// Every dial temperature once, in the order of the bakes.
fn dials(inputs: &Inputs) -> Vec<Figure> {
    let recipe = inputs.recipe;
    let mut dials: Vec<Figure> = Vec::new();
    for step in recipe.products.iter().flat_map(|product| &product.steps) {
        let Action::Bake { phases, .. } = &step.action else {
            continue;
        };
        for phase in phases {
            let shown = readers::dial(phase.at.value, inputs.market);
            if !dials.iter().any(|dial| dial.shown == shown) {
                let name = format!("oven.{}", dials.len() + 1);
                let origin = Origin::new("the recipe", Had::Written);
                let kelvin = phase.at.value.si();
                dials.push(figure(name, kelvin, Temperature::SI, shown, origin));
            }
        }
    }
    dials
}

/// The author's prose as it is printed: figures kept with their units, a minus that is one.
fn prose(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let figure = letters.peek().is_some_and(char::is_ascii_digit);
        let minus = letter == '-' && before == ' ' && figure;
        out.push(if minus { '−' } else { letter });
        before = letter;
    }
    say::units_kept(&out)
}

fn paragraphs(recipe: &Recipe) -> Vec<(String, String)> {
    let mut all = Vec::new();
    let mut add = |heading: &str, text: &str| all.push((heading.to_owned(), prose(text)));
    if let Some(text) = &recipe.make_ahead {
        add("Make ahead", &text.value);
    }
    if let Some(text) = &recipe.storage {
        add("Storage", &text.value);
    }
    let notes: Vec<_> = recipe
        .notes
        .iter()
        .map(|note| note.value.as_str())
        .collect();
    if !notes.is_empty() {
        add("Notes", &notes.join(" "));
    }
    all
}

/// A tested bake as one line: "2026-01-18, Petra, studio, room 21 °C, dough 25 °C, ...".
fn tested(test: &Test) -> String {
    let mut parts = vec![say::date(test.date.value)];
    let mut add = |part: Option<String>| parts.extend(part);
    add(test.by.as_ref().map(|by| format!("by {}", by.value)));
    add(test
        .kitchen
        .as_ref()
        .map(|kitchen| format!("in the {} kitchen", kitchen.value)));
    add(test
        .room
        .as_ref()
        .map(|t| format!("room {}", say::celsius(t.value))));
    add(test.flour.as_ref().map(|flour| prose(&flour.value)));
    add(test
        .dough
        .as_ref()
        .map(|t| format!("dough {}", say::celsius_fine(t.value))));
    add(test
        .warm_place
        .as_ref()
        .map(|t| format!("warm place {}", say::celsius(t.value))));
    for (name, took) in &test.rises {
        add(Some(format!(
            "{} risen in {}",
            prose(&name.value),
            say::duration(took.value)
        )));
    }
    add(test.minutes.as_ref().map(|t| {
        let what = test.product.as_ref().map(|name| prose(&name.value));
        let what = what.map_or_else(String::new, |name| format!("{name} "));
        format!("{what}baked {}", say::duration(t.value))
    }));
    add(test
        .core
        .as_ref()
        .map(|t| format!("{} in the middle", say::celsius(t.value))));
    add(test
        .crust
        .as_ref()
        .map(|crust| format!("crust {}", crust.value.word())));
    add(test
        .loss
        .as_ref()
        .map(|l| format!("{} lighter after the bake", say::percent(l.value))));
    let line = parts.join(", ");
    match &test.note {
        Some(note) => format!("{line}. {}", prose(&note.value)),
        None => format!("{line}."),
    }
}
