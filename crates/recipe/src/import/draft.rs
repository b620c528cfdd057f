//! The recipe as it takes shape: parts with their items, and what is said around them.

use super::item::item;
use super::model::{Line, LineKind, Mark, Reading};
use super::split::bare;
use crate::document::model::Place;
use crate::larder::Larder;

/// What a part is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Sponge, starter, scald: goes into the dough.
    Before,
    /// The dough.
    Dough,
    /// What the pieces are filled with.
    Filling,
    /// For the top.
    Topping,
}

/// Something of a part, in the order of the text.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    clippy::large_enum_variant,
    reason = "a recipe has a few dozen, nearly all of them items"
)]
pub enum Entry {
    /// A thing that goes in.
    Item(Item),
    /// A word for whoever mends the file.
    Comment(String),
}

/// A thing that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is, as the larder knows it where it does.
    pub of: String,
    /// Its key in the larder.
    pub key: Option<String>,
    /// Short name, where two would have the same.
    pub called: Option<String>,
    /// Amount.
    pub take: Option<String>,
    /// The same in another measure.
    pub also: Option<String>,
    /// How warm it is, where the line says it: "43 °C".
    pub at: Option<String>,
    /// State.
    pub state: Option<String>,
    /// Note.
    pub note: Option<String>,
    /// For bench, tin or top.
    pub place: Option<Place>,
    /// The part of the text that it stands in, where that is no stage: "egg wash".
    pub group: Option<String>,
    /// What is to be decided.
    pub doubt: Option<String>,
    /// The words of the sentence that put it in.
    pub said: Option<String>,
    /// What it weighs in grams, where that is known.
    pub grams: Option<f64>,
}

impl Item {
    /// The name by which sentences call it.
    pub fn name(&self) -> &str {
        self.called.as_deref().unwrap_or(&self.of)
    }
}

/// A part of the recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// Its name.
    pub name: String,
    /// What it is for.
    pub part: Part,
    /// What it holds.
    pub entries: Vec<Entry>,
}

impl Stage {
    /// Its items.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.entries.iter().filter_map(|entry| match entry {
            Entry::Item(item) => Some(item),
            Entry::Comment(_) => None,
        })
    }
}

/// The recipe before its steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// Parts in the order of work: what goes into the dough, the dough, the rest.
    pub stages: Vec<Stage>,
    /// For bench, tin and top.
    pub besides: Vec<Entry>,
}

/// Most items that a file is given; no recipe has so many, and a file holds 2,000 parts.
const MOST_ITEMS: usize = 600;

/// The part that a heading names.
pub fn part_of(heading: &str) -> Part {
    let lower = heading.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    if has(&["filling", "swirl", "frangipane", "stuffing"]) {
        Part::Filling
    } else if has(&[
        "topping",
        "glaze",
        "icing",
        "frosting",
        "finish",
        "wash",
        "crumble",
        "streusel",
        "to serve",
        "decorat",
        "coating",
        "syrup",
        "brushing",
        "for the top",
        "garnish",
        "dusting",
    ]) {
        Part::Topping
    } else if lower.starts_with("day 1")
        || lower.starts_with("stage 1")
        || has(&[
            "night before",
            "evening before",
            "day before",
            "sponge",
            "poolish",
            "biga",
            "levain",
            "starter",
            "preferment",
            "pre-ferment",
            "tangzhong",
            "yudane",
            "roux",
            "scald",
            "cooked paste",
            "flour paste",
            "milk paste",
            "soaker",
            "ferment",
        ])
    {
        Part::Before
    } else {
        Part::Dough
    }
}

/// The items of a text, by parts.
pub fn draft(lines: &[Line], larder: &Larder) -> Draft {
    let mut draft = Draft {
        stages: Vec::new(),
        besides: Vec::new(),
    };
    let mut part = Part::Dough;
    let mut name = String::from("dough");
    let mut items = 0;
    for line in lines {
        match line.kind {
            LineKind::Heading => {
                let heading = bare(&line.text).text;
                part = part_of(heading);
                name = stage_name(heading, part);
            }
            LineKind::Ingredient => {
                let dark = line.mark == Mark::NotUnderstood || line.readings.is_empty();
                // "All of the levain" is said by the stage that goes in.
                let stage = dark && draft.names_before(&line.text);
                if !stage && (dark || items >= MOST_ITEMS) {
                    let comment = Entry::Comment(format!("not understood: {}", line.text.trim()));
                    draft.put(part, &name, comment);
                }
                items += line.readings.len();
                if items < MOST_ITEMS {
                    for reading in &line.readings {
                        draft.take_in(reading, line, part, &name, larder);
                    }
                }
            }
            LineKind::Step => {
                items += line.readings.len();
                if items < MOST_ITEMS {
                    for reading in &line.readings {
                        draft.take_in(reading, line, Part::Dough, "dough", larder);
                    }
                }
            }
            _ => {}
        }
    }
    draft.settle();
    draft
}

/// The name of a part from its heading.
fn stage_name(heading: &str, part: Part) -> String {
    let lower = super::sheet::clean(heading).to_lowercase();
    let plain = lower.trim_matches(|c: char| !c.is_alphanumeric());
    let plain = plain.split('(').next().unwrap_or(plain).trim();
    let plain = ["for the ", "to make the ", "for ", "make the ", "the "]
        .iter()
        .find_map(|start| plain.strip_prefix(start))
        .unwrap_or(plain);
    match part {
        Part::Dough => "dough".to_owned(),
        _ if plain.is_empty() || plain.len() > 40 => match part {
            Part::Before => "sponge".to_owned(),
            Part::Filling => "filling".to_owned(),
            _ => "topping".to_owned(),
        },
        _ => plain.to_owned(),
    }
}

impl Draft {
    /// Puts something where its part stands.
    fn put(&mut self, part: Part, name: &str, entry: Entry) {
        if part == Part::Topping {
            self.besides.push(entry);
            return;
        }
        match self.stages.iter_mut().find(|stage| stage.name == name) {
            Some(stage) => stage.entries.push(entry),
            None => self.stages.push(Stage {
                name: name.to_owned(),
                part,
                entries: vec![entry],
            }),
        }
    }

    /// Whether a line names a stage that goes into the dough, and nothing more.
    fn names_before(&self, line: &str) -> bool {
        let lower = line.to_lowercase();
        let short = lower.split_whitespace().count() <= 7;
        short
            && self
                .stages
                .iter()
                .any(|stage| stage.part == Part::Before && lower.contains(&stage.name))
    }

    /// A thing that goes in, at its place.
    fn take_in(&mut self, reading: &Reading, line: &Line, part: Part, name: &str, larder: &Larder) {
        let mut item = item(reading, larder);
        if let Some(words) = more_of_the_same(reading, line)
            && let Some(first) = self.last_of(reading.key.as_deref())
        {
            first.note = Some(match first.note.take() {
                Some(before) => format!("{before}; {words}"),
                None => words,
            });
        } else if item.of.is_empty() {
            self.put(
                part,
                name,
                Entry::Comment(format!("not understood: {}", line.text.trim())),
            );
        } else if let Some(place) = reading.place {
            item.place = Some(place);
            let glaze = || {
                line.text
                    .to_lowercase()
                    .contains("glaze")
                    .then_some("glaze")
            };
            let group = (part == Part::Topping).then_some(name).or_else(glaze);
            item.group = group.map(str::to_owned);
            self.besides.push(Entry::Item(item));
        } else if part == Part::Dough && goes_on_pieces(reading, line) {
            self.put(Part::Filling, "filling", Entry::Item(item));
        } else {
            if part == Part::Topping {
                item.place = Some(Place::Top);
                item.group = Some(name.to_owned());
            }
            self.put(part, name, Entry::Item(item));
        }
    }

    /// The item of an ingredient that was taken in last.
    fn last_of(&mut self, key: Option<&str>) -> Option<&mut Item> {
        let entries = self.stages.iter_mut().flat_map(|stage| &mut stage.entries);
        let mut items = entries.filter_map(|entry| match entry {
            Entry::Item(item) => Some(item),
            Entry::Comment(_) => None,
        });
        items.rfind(|item| item.key.as_deref() == key)
    }

    /// Brings the parts into the order of work, and gives each item a name of its own.
    fn settle(&mut self) {
        if !self.stages.iter().any(|stage| stage.part == Part::Dough) {
            match self
                .stages
                .iter_mut()
                .rev()
                .find(|stage| stage.part == Part::Before)
            {
                Some(stage) => stage.part = Part::Dough,
                None => self.stages.push(Stage {
                    name: "dough".to_owned(),
                    part: Part::Dough,
                    entries: Vec::new(),
                }),
            }
        }
        self.stages.sort_by_key(|stage| match stage.part {
            Part::Before => 0,
            Part::Dough => 1,
            _ => 2,
        });
        for stage in &mut self.stages {
            own_names(&mut stage.entries);
        }
        own_names(&mut self.besides);
    }
}

/// What a line says after its amount of more of the same that has none: "500 g flour, plus more for the
/// bench". Nobody weighs it, so it stays a word on the item that is weighed.
fn more_of_the_same(reading: &Reading, line: &Line) -> Option<String> {
    let beside = matches!(reading.place, Some(Place::Bench | Place::Tin));
    let weighed = |other: &Reading| other.key == reading.key && other.amount.is_some();
    let said = reading.amount.is_none() && reading.key.is_some();
    (line.kind == LineKind::Ingredient && beside && said && line.readings.iter().any(weighed))
        .then(|| format!("plus more {}", reading.note.as_deref().unwrap_or_default()))
        .map(|words| words.trim_end().to_owned())
}

/// Whether a list says of a thing that it is spread on or rolled into the pieces: "125 g soft butter, for spreading".
fn goes_on_pieces(reading: &Reading, line: &Line) -> bool {
    let note = reading.note.as_deref().unwrap_or_default().to_lowercase();
    let said = [
        "for spreading",
        "to spread",
        "for the filling",
        "for filling",
    ];
    let on_a_list = line.kind == LineKind::Ingredient && reading.amount.is_some();
    on_a_list && said.iter().any(|words| note.contains(words))
}

/// Gives items of one name and place short names that tell them apart.
fn own_names(entries: &mut [Entry]) {
    let twice: Vec<(Option<Place>, String)> = entries
        .iter()
        .filter_map(|entry| match entry {
            Entry::Item(item) => Some((item.place, item.of.to_lowercase())),
            Entry::Comment(_) => None,
        })
        .collect();
    let mut seen: Vec<(Option<Place>, String)> = Vec::new();
    for entry in entries {
        let Entry::Item(item) = entry else { continue };
        let mut name = item.of.clone();
        let own = (item.place, item.of.to_lowercase());
        let state = item
            .state
            .as_deref()
            .filter(|state| state.chars().all(char::is_alphabetic));
        // "Boiling water" and "warm water" are told apart by their state.
        if let Some(state) = state
            && twice.iter().filter(|one| **one == own).count() > 1
        {
            name = format!("{} {name}", state.to_lowercase());
            item.called = Some(name.clone());
        }
        let base = name.clone();
        let mut count = 1;
        while seen.contains(&(item.place, name.to_lowercase())) {
            count += 1;
            name = match count {
                2 => format!("more {base}"),
                _ => format!("{base} {count}"),
            };
        }
        if count > 1 {
            item.called = Some(name.clone());
        }
        seen.push((item.place, name.to_lowercase()));
    }
}
