//! What must hold for any bytes that get into the program: one function a way in, for the fuzzers and for the kept corpora.

#[path = "corpus_writers.rs"]
mod corpus_writers;

use bake::kitchen::{Kitchen, kitchen};
use bake::kitchens::audience::audience;
use bake::kitchens::met::met;
use bake::simulate::{Grid, How, simulate};
pub use corpus_writers::{calendars, captions};
use edit::ledger::model::Ledger;
use edit::mend::{changed, changes};
use edit::talk::film::film;
use edit::talk::talk;
use edit::talk::track::read;
use edit::{Inputs, work_out};
use numerics::quantity::{
    Duration, Fraction, Length, Mass, SpecificPower, Temperature, TemperatureDifference, Volume,
};
use plan::shoot::Times;
use recipe::document::model::Recipe;
use recipe::document::{
    read_audience_bytes, read_kitchen_bytes, read_prices_bytes, read_recipe, read_recipe_bytes,
    read_scenes_bytes,
};
use recipe::formula::{Formula, formula};
use recipe::import::{import, is_page, saved_page};
use recipe::larder::Larder;
use recipe::measure::read as quantity_of;
use recipe::source::{Diagnostic, Severity};
use std::sync::OnceLock;

/// A way in: the name of its corpus, and what must hold.
pub type Target = (&'static str, fn(&[u8]));

/// Every way in.
pub const TARGETS: [Target; 10] = [
    ("document", document),
    ("dough", dough),
    ("quantity", quantity),
    ("import", imported),
    ("track", track),
    ("calendar", calendars),
    ("captions", captions),
    ("scenes", scenes),
    ("audience", audiences),
    ("kitchen", kitchens),
];

fn larder() -> &'static Larder {
    static LARDER: OnceLock<Larder> = OnceLock::new();
    LARDER.get_or_init(Larder::open)
}

/// A recipe worked out: the larder that knows its pantry, its sums, the kitchen.
struct Asked {
    recipe: Recipe,
    larder: Larder,
    formula: Formula,
    kitchen: Kitchen,
}

impl Asked {
    fn of(recipe: Recipe) -> Self {
        let mut larder = larder().clone();
        larder.stock(&recipe.pantry);
        let formula = formula(&recipe, &larder).output;
        Self {
            recipe,
            larder,
            formula,
            kitchen: Kitchen::standard(),
        }
    }

    fn inputs(&self) -> Inputs<'_> {
        Inputs::new(&self.recipe, &self.formula, &self.larder, &self.kitchen)
    }
}

/// The demo that talks and filming days are held against.
fn demo() -> &'static (Asked, Ledger) {
    static DEMO: OnceLock<(Asked, Ledger)> = OnceLock::new();
    DEMO.get_or_init(|| {
        let text = include_str!("../../examples/cardamom-dough.toml");
        let asked = Asked::of(read_recipe(text).output.expect("the demo can be read"));
        let ledger = work_out(&asked.inputs()).output.1;
        (asked, ledger)
    })
}

/// Every place that is told lies in the text, between its letters.
fn placed(text: &str, said: &[Diagnostic]) {
    for one in said {
        let spans = one.labels.iter().map(|label| &label.span);
        for span in one.span.iter().chain(spans) {
            assert!(
                text.get(span.start..span.end).is_some(),
                "{}: {span:?} is no place in {text:?}",
                one.code.name
            );
        }
    }
}

fn stops(said: &[Diagnostic]) -> bool {
    said.iter().any(|one| one.code.severity == Severity::Mend)
}

/// A recipe is read, summed, worked out and judged; what its findings change can be read again.
pub fn document(bytes: &[u8]) {
    let read = read_recipe_bytes(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    placed(text, &read.diagnostics);
    let Some(recipe) = read.output else {
        assert!(!read.diagnostics.is_empty(), "nothing is said of it");
        return;
    };
    let asked = Asked::of(recipe);
    let judged = work_out(&asked.inputs().written_as(text));
    placed(text, &judged.diagnostics);
    let all: Vec<Diagnostic> = read
        .diagnostics
        .into_iter()
        .chain(judged.diagnostics)
        .collect();
    let mended = changed(text, &changes(&all));
    assert!(
        read_recipe(&mended).output.is_some(),
        "what is mended can be read: {mended}"
    );
}

/// A recipe of which nothing must be mended goes through its day, and every figure of it is a number.
pub fn dough(bytes: &[u8]) {
    let read = read_recipe_bytes(bytes);
    let Some(recipe) = read.output.filter(|_| !stops(&read.diagnostics)) else {
        return;
    };
    let asked = Asked::of(recipe);
    if stops(&work_out(&asked.inputs()).diagnostics) {
        return;
    }
    let how = How {
        grid: Grid::Rough,
        ..How::default()
    };
    let day = simulate(&asked.recipe, &asked.formula, &asked.kitchen, &how).output;
    for moment in day.doughs.iter().flat_map(|dough| &dough.moments) {
        let all = [
            moment.middle.si(),
            moment.mean.si(),
            moment.outside.si(),
            moment.volume,
            moment.lightness,
            moment.lost.si(),
        ];
        assert!(all.iter().all(|value| value.is_finite()), "{moment:?}");
    }
}

/// Whatever kind of quantity is wanted, the reader answers, and what it cannot read it places.
pub fn quantity(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    let mut refused = Vec::new();
    let mut tried = |answer: Result<f64, quantity_of::Unread>| match answer {
        Ok(value) => assert!(value.is_finite(), "{value} was read from {text:?}"),
        Err(unread) => refused.push(unread),
    };
    tried(quantity_of::read_mass(text).map(Mass::si));
    tried(quantity_of::read_temperature(text).map(Temperature::si));
    tried(quantity_of::read_temperature_difference(text).map(TemperatureDifference::si));
    tried(quantity_of::read_time(text).map(Duration::si));
    tried(quantity_of::read_time_range(text).map(|time| time.low.si() + time.high.si()));
    tried(quantity_of::read_temperature_range(text).map(|heat| heat.low.si() + heat.high.si()));
    tried(quantity_of::read_length(text).map(Length::si));
    tried(quantity_of::read_altitude(text).map(Length::si));
    tried(quantity_of::read_height(text).map(Length::si));
    tried(quantity_of::read_share(text).map(Fraction::si));
    tried(quantity_of::read_volume(text).map(Volume::si));
    tried(quantity_of::read_power(text).map(SpecificPower::si));
    tried(quantity_of::read_multiple(text));
    tried(quantity_of::read_amount(text).map(|_| 0.0));
    tried(quantity_of::read_quantity(text).map(|_| 0.0));
    tried(quantity_of::read_money(text).map(|_| 0.0));
    tried(quantity_of::read_tin_size(text).map(|_| 0.0));
    tried(quantity_of::read_piece(text).map(|_| 0.0));
    for unread in refused {
        let place = text.get(unread.span.start..unread.span.end);
        assert!(place.is_some(), "{unread:?} is no place in {text:?}");
    }
    for found in quantity_of::sentence::quantities(text) {
        let place = text.get(found.span.start..found.span.end);
        assert!(place.is_some(), "{found:?} is no place in {text:?}");
    }
}

/// What a file must never be told that the program wrote itself.
const OF_THE_TEXT: [&str; 12] = [
    "text-unreadable",
    "text-not-utf8",
    "format-missing",
    "key-unknown",
    "value-wrong-kind",
    "number-unreadable",
    "unit-unknown",
    "unit-does-not-fit",
    "word-unknown",
    "placeholder-unclosed",
    "step-without-action",
    "step-with-two-actions",
];

/// Any pasted text becomes lines that are all there, and a file that can be read.
pub fn imported(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let made = if is_page(&text) {
        saved_page(&text, larder())
    } else {
        let made = import(&text, larder());
        let mut end = 0;
        for line in &made.lines {
            assert_eq!(&text[line.span.start..line.span.end], line.text);
            let between = &text[end..line.span.start];
            assert!(
                between
                    .trim_matches(['\n', '\r', '\u{2028}', '\u{2029}', '\u{feff}'])
                    .is_empty(),
                "{between:?} was left out"
            );
            end = line.span.end;
        }
        made
    };
    for said in read_recipe(&made.document).diagnostics {
        assert!(
            !OF_THE_TEXT.contains(&said.code.name),
            "{}: {}\n{}",
            said.code.name,
            said.message,
            made.document
        );
    }
}

/// A talk or captions in any form are read, held against the demo, and cut into captions that keep their order.
pub fn track(bytes: &[u8]) {
    let (asked, ledger) = demo();
    let checked = read(bytes);
    let track = checked.output;
    assert!(!track.cues.is_empty() || !checked.diagnostics.is_empty());
    placed(&track.text, &checked.diagnostics);
    for cue in &track.cues {
        assert!(track.text.get(cue.span.clone()).is_some(), "{cue:?}");
        for (at, sign) in cue.text.char_indices() {
            let place = cue.place(at..at + sign.len_utf8());
            assert!(cue.span.start <= place.start && place.end <= cue.span.end);
        }
    }
    let made = film(ledger, &track, &[]);
    placed(&track.text, &made.diagnostics);
    for pair in made.output.captions.windows(2) {
        assert!(pair[0].to <= pair[1].from, "{pair:?}");
    }
    let told = talk(&asked.inputs(), ledger, &track);
    placed(&track.text, &told.diagnostics);
}

/// A file of scenes is read, and planned with the demo when nothing of it must be mended.
pub fn scenes(bytes: &[u8]) {
    let read = read_scenes_bytes(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    placed(text, &read.diagnostics);
    let stopped = stops(&read.diagnostics);
    let Some(file) = read.output.filter(|_| !stopped) else {
        assert!(!read.diagnostics.is_empty(), "nothing is said of it");
        return;
    };
    let planned = plan::shoot::film(&demo().0.recipe, &file, Times::Written);
    placed(text, &planned.diagnostics);
    assert!(planned.output.is_some() || !planned.diagnostics.is_empty());
}

/// A file of other kitchens is read, and of what it describes kitchens can be drawn.
pub fn audiences(bytes: &[u8]) {
    let read = read_audience_bytes(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    placed(text, &read.diagnostics);
    let Some(file) = read.output else {
        return;
    };
    let made = audience(&file);
    placed(text, &made.diagnostics);
    let Some(audience) = made.output.filter(|_| !stops(&read.diagnostics)) else {
        return;
    };
    if stops(&made.diagnostics) {
        return;
    }
    for number in 0..8 {
        let _ = met(&audience, 1, number, &[]);
    }
}

/// A kitchen's file and a file of prices are read, whichever of the two it is.
pub fn kitchens(bytes: &[u8]) {
    let read = read_kitchen_bytes(bytes);
    let prices = read_prices_bytes(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    placed(text, &read.diagnostics);
    placed(text, &prices.diagnostics);
    if let Some(file) = read.output {
        let made = kitchen(&file);
        placed(text, &made.diagnostics);
        let _ = plan::day::means::means(&file);
    }
}
