//! The ledger's strings in the order of a printed sheet, handed to the typesetter as data.
//!
//! They travel as JSON and are never pasted into a template, so `#`, `$`, `*` and `<` in a name
//! stay the signs that the cook wrote.

mod keep;
mod shape;

use edit::ledger::model::{Figure, ItemLine, Ledger, MarginKind, Run, StageLines, StepLine};
use serde::Serialize;
use std::ops::Range;

use super::faces;
use super::fault::{MissingGlyph, PdfFault};
use crate::marks;
use crate::palette::PRINT;
use keep::{all_words, some_words, words};
pub(crate) use shape::Lines;

/// Everything that a template reads.
#[derive(Serialize)]
pub(crate) struct Wording {
    /// As a list of files shows it.
    name: String,
    title: String,
    author: Option<String>,
    #[serde(skip)]
    ident: String,
    #[serde(skip)]
    language: &'static str,
    byline: Vec<String>,
    facts: Vec<Pair>,
    contains: String,
    honesty: String,
    kit: Vec<String>,
    stages: Vec<Stage>,
    besides: Vec<Item>,
    sections: Vec<Section>,
    products: Vec<Product>,
    paragraphs: Vec<Pair>,
    /// Which of the paragraphs tell the rises in other rooms.
    #[serde(skip)]
    rooms: Range<usize>,
    cautions: Vec<Pair>,
    cup_note: Option<String>,
    disclosure: Option<String>,
    imprint: String,
    key: Vec<Meaning>,
    colours: Colours,
}

#[derive(Serialize)]
struct Pair {
    label: String,
    shown: String,
}

#[derive(Serialize)]
struct Stage {
    heading: String,
    share: Option<String>,
    items: Vec<Item>,
    sum: String,
}

#[derive(Serialize)]
struct Item {
    grams: Option<String>,
    measure: Option<String>,
    name: String,
    detail: Option<String>,
    percent: Option<String>,
    place: Option<String>,
}

#[derive(Serialize)]
struct Section {
    heading: String,
    steps: Vec<Step>,
}

#[derive(Serialize)]
struct Step {
    number: usize,
    runs: Vec<Piece>,
    margin: Vec<Measured>,
}

/// A run of a sentence or of a margin line.
#[derive(Serialize)]
struct Piece {
    /// A figure, set heavier in a sentence.
    figure: bool,
    text: String,
    /// To be set in a box, for it has a dash that a line might end after.
    whole: bool,
}

#[derive(Serialize)]
struct Measured {
    kind: &'static str,
    runs: Vec<Piece>,
}

/// A mark of the margin and the words for it.
#[derive(Serialize)]
struct Meaning {
    kind: &'static str,
    word: &'static str,
}

#[derive(Serialize)]
struct Product {
    name: String,
    pieces: String,
    tin: Option<String>,
    bake: Option<String>,
    after: Option<String>,
}

#[derive(Serialize)]
struct Colours {
    ink: String,
    soft: String,
    rule: String,
    crust: String,
    milk: String,
}

impl Wording {
    /// The strings of a ledger.
    pub(crate) fn of(ledger: &Ledger) -> Self {
        let pair = |label: &str, shown: &str| Pair {
            label: words(label),
            shown: words(shown),
        };
        Self {
            name: ledger.title.lines().collect::<Vec<_>>().join(" "),
            title: words(&ledger.title),
            author: some_words(ledger.author.as_ref()),
            ident: ledger.slug.clone(),
            language: ledger.language,
            byline: all_words(&ledger.byline),
            facts: ledger
                .facts
                .iter()
                .map(|fact| pair(&fact.label, &fact.shown))
                .collect(),
            contains: words(&ledger.allergens.contains),
            honesty: words(&ledger.allergens.honesty),
            kit: all_words(&ledger.kit),
            stages: ledger.stages.iter().map(Stage::of).collect(),
            besides: ledger.besides.iter().map(Item::of).collect(),
            sections: ledger
                .sections
                .iter()
                .map(|section| Section {
                    heading: words(&section.heading),
                    steps: section.steps.iter().map(Step::of).collect(),
                })
                .collect(),
            products: ledger
                .products
                .iter()
                .map(|product| Product {
                    name: words(&product.name),
                    pieces: words(&product.pieces),
                    tin: some_words(product.tin.as_ref()),
                    bake: some_words(product.bake.as_ref()),
                    after: some_words(product.after.as_ref()),
                })
                .collect(),
            paragraphs: reckoned(ledger)
                .chain(ledger.paragraphs.iter().cloned())
                .chain(
                    (reckoned(ledger).count() > 1).then(|| ON_THE_PAGE.map(str::to_owned).into()),
                )
                .map(|(label, shown)| pair(&label, &shown))
                .collect(),
            rooms: 1..reckoned(ledger).count().max(1),
            cautions: ledger
                .cautions
                .iter()
                .map(|caution| pair(&caution.text, &caution.source))
                .collect(),
            cup_note: some_words(ledger.cup_note.as_ref()),
            disclosure: some_words(ledger.disclosure.as_ref()),
            imprint: words(&ledger.imprint),
            key: marks::used(ledger)
                .into_iter()
                .map(|used| Meaning {
                    kind: kind(used),
                    word: marks::word(used),
                })
                .collect(),
            colours: Colours {
                ink: PRINT.ink.css(),
                soft: PRINT.ink_soft.css(),
                rule: PRINT.rule.css(),
                crust: PRINT.crust.css(),
                milk: PRINT.milk.css(),
            },
        }
    }

    /// All of it in one string.
    pub(crate) fn handed_over(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// What tells this recipe's sheets from another's.
    pub(crate) fn ident(&self) -> &str {
        &self.ident
    }

    /// The language of its readers (BCP 47).
    pub(crate) const fn language(&self) -> &'static str {
        self.language
    }

    /// A fault when a character would come out as an empty box.
    pub(crate) fn check(&self) -> Result<(), PdfFault> {
        let missing = self.missing_glyphs();
        if missing.is_empty() {
            Ok(())
        } else {
            Err(PdfFault::Glyphs(missing))
        }
    }

    /// Characters that no face has, each once for each place, in reading order.
    pub(crate) fn missing_glyphs(&self) -> Vec<MissingGlyph> {
        let mut found: Vec<MissingGlyph> = Vec::new();
        self.visit(&mut |place, text| {
            for character in text.chars().filter(|sign| !faces::can_print(*sign)) {
                let glyph = MissingGlyph {
                    character,
                    place: place.to_owned(),
                };
                if !found.contains(&glyph) {
                    found.push(glyph);
                }
            }
        });
        found
    }

    /// Shows every printed string with its place.
    pub(crate) fn visit(&self, see: &mut dyn FnMut(&str, &str)) {
        see("the title", &self.title);
        for line in &self.byline {
            see("the byline", line);
        }
        for fact in &self.facts {
            see("the facts", &fact.label);
            see("the facts", &fact.shown);
        }
        see("the allergens", &self.contains);
        see("the allergens", &self.honesty);
        for tool in &self.kit {
            see("the kit", tool);
        }
        for stage in &self.stages {
            let place = format!("stage {}", stage.heading);
            see(&place, &stage.heading);
            for text in [&stage.share, &Some(stage.sum.clone())]
                .into_iter()
                .flatten()
            {
                see(&place, text);
            }
            for (at, item) in stage.items.iter().enumerate() {
                item.visit(&format!("line {} of {}", at + 1, stage.heading), see);
            }
        }
        for (at, item) in self.besides.iter().enumerate() {
            item.visit(&format!("line {} for bench, tin and top", at + 1), see);
        }
        for section in &self.sections {
            see(&format!("section {}", section.heading), &section.heading);
            for step in &section.steps {
                let place = format!("step {}", step.number);
                for piece in &step.runs {
                    see(&place, &piece.text);
                }
                for piece in step.margin.iter().flat_map(|line| &line.runs) {
                    see(&format!("the margin of {place}"), &piece.text);
                }
            }
        }
        for product in &self.products {
            let place = format!("product {}", product.name);
            see(&place, &product.name);
            see(&place, &product.pieces);
            for text in [&product.tin, &product.bake, &product.after]
                .into_iter()
                .flatten()
            {
                see(&place, text);
            }
        }
        // What stands in the place of others is on no card that has those.
        for pair in self
            .paragraphs(true)
            .into_iter()
            .map(|at| &self.paragraphs[at])
        {
            see("the notes", &pair.label);
            see("the notes", &pair.shown);
        }
        for pair in &self.cautions {
            see("the cautions", &pair.label);
            see("the cautions", &pair.shown);
        }
        for text in [&self.cup_note, &self.disclosure].into_iter().flatten() {
            see("the notes", text);
        }
        see("the imprint", &self.imprint);
    }
}

impl Stage {
    fn of(stage: &StageLines) -> Self {
        Self {
            heading: words(&stage.heading),
            share: shown(stage.flour_share.as_ref()),
            items: stage.items.iter().map(Item::of).collect(),
            sum: words(&stage.sum.shown),
        }
    }
}

impl Item {
    fn of(item: &ItemLine) -> Self {
        Self {
            grams: shown(item.grams.as_ref()),
            measure: shown(item.measure.as_ref()),
            name: words(&item.name),
            detail: some_words(item.detail.as_ref()),
            percent: shown(item.percent.as_ref()),
            place: some_words(item.place.as_ref()),
        }
    }

    fn visit(&self, place: &str, see: &mut dyn FnMut(&str, &str)) {
        see(place, &self.name);
        for text in [
            &self.grams,
            &self.measure,
            &self.detail,
            &self.percent,
            &self.place,
        ]
        .into_iter()
        .flatten()
        {
            see(place, text);
        }
    }
}

impl Step {
    fn of(step: &StepLine) -> Self {
        Self {
            number: step.number,
            runs: step
                .runs
                .iter()
                .map(|run| match run {
                    Run::Words(text) => keep::said(text),
                    Run::Figure(figure) => keep::figure(&figure.shown),
                })
                .collect(),
            margin: step
                .margin
                .iter()
                .map(|line| Measured {
                    kind: kind(line.kind),
                    runs: keep::line(&line.shown, &line.figures),
                })
                .collect(),
        }
    }
}

/// Said where a card leaves the rises in other rooms out.
const ON_THE_PAGE: [&str; 2] = ["Rises in other rooms", "stand on the recipe\u{2019}s page."];

/// Rises in rooms of other temperatures, as notes before the author's.
fn reckoned(ledger: &Ledger) -> impl Iterator<Item = (String, String)> {
    let heading = crate::page::IN_YOUR_KITCHEN.to_owned();
    let reckoned = ledger.reckoned.iter();
    reckoned.flat_map(move |reckoned| {
        let shown = |figures: &[Figure]| -> String {
            let all: Vec<&str> = figures.iter().map(|one| one.shown.as_str()).collect();
            all.join(" · ")
        };
        let note = (heading.clone(), reckoned.note.clone());
        let rooms = ("Rises in rooms of".to_owned(), shown(&reckoned.rooms) + ":");
        let rows = reckoned.rows.iter();
        let rows = rows.map(move |row| {
            let label = format!("{} {}", row.step, row.what);
            (label, format!("{}: {}", row.place, shown(&row.times)))
        });
        let rooms = std::iter::once(rooms).filter(|_| !reckoned.rows.is_empty());
        std::iter::once(note).chain(rooms).chain(rows)
    })
}

/// The word by which a template knows a margin line's mark.
const fn kind(kind: MarginKind) -> &'static str {
    match kind {
        MarginKind::Time => "time",
        MarginKind::Heat => "heat",
        MarginKind::Cold => "cold",
        MarginKind::Cue => "cue",
        MarginKind::How => "how",
        MarginKind::Here => "here",
    }
}

fn shown(figure: Option<&Figure>) -> Option<String> {
    figure.map(|figure| words(&figure.shown))
}
