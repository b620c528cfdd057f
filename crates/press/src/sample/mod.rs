//! A ledger filled by hand from the same-day loaf: what the outputs are drawn and tested with.
//!
//! Its figures were worked out on paper from the recipe's written amounts; they are not a check of
//! the ledger that the recipe gives, which has tests of its own.

mod amounts;
mod label;
mod method;

use edit::ledger::model::{
    AllergenLine, Caution, Fact, Figure, FilmLine, IsoTimes, Ledger, Patterns, ProductLine,
    Reckoned, ReckonedRow, RoomTable, Shopping,
};
use recipe::provenance::{Had, Origin};

/// The sample: one dough, a braid and ten buns, every kind of line filled.
pub fn ledger() -> Ledger {
    Ledger {
        title: text("Same-day braid and tied buns"),
        slug: text("same-day-braid-and-tied-buns"),
        language: "en",
        film: Some(FilmLine {
            title: text("A braid and ten buns before tea"),
            address: text("https://films.example/saltmarsh-lane/7"),
            date: Some(text("2026-02-14")),
            when: Some(text("14\u{a0}February 2026")),
            thumbnail: Some(text("braid-cut.jpg")),
            parts: Vec::new(),
        }),
        byline: vec![
            text("by Petra Nwosu-Halvorsen"),
            text("version 3"),
            text("published 14 February 2026"),
            text("changed 2 March 2026"),
        ],
        author: Some(text("Petra Nwosu-Halvorsen")),
        version: Some(text("3")),
        published: Some(text("2026-02-14")),
        changed: Some(text("2026-03-02")),
        headnote: Some(text(
            "One dough, one oven temperature, one day. A quick sponge wakes the yeast before \
             butter and eggs slow it down, and a short chill makes the dough firm enough to \
             braid. You get a braid to slice and ten buns for whoever cannot wait for it.",
        )),
        said: Vec::new(),
        facts: facts(),
        iso_times: IsoTimes {
            prep: text("PT4H4M"),
            cook: text("PT51M"),
            total: text("PT5H50M"),
        },
        yield_line: text("1 braid and 10 buns"),
        allergens: AllergenLine {
            contains: text("Contains wheat (gluten), milk, egg and almond."),
            honesty: text(
                "Packs differ and kitchens leave traces: read the packs before you bake for \
                 somebody with an allergy.",
            ),
            us: ["milk", "egg", "almond", "wheat"].map(text).to_vec(),
            eu: ["wheat", "eggs", "milk", "almond"].map(text).to_vec(),
        },
        kit: [
            "loaf tin 21.6 × 11.4 × 6.4 cm (8½ × 4½ × 2½ in), 1420 mL / 6 cups, light metal",
            "tray 40 × 30 cm (15¾ × 11¾ in), lined",
            "mixer with a dough hook",
            "probe thermometer",
            "cooling rack",
            "film or a lid for the bowl",
        ]
        .map(text)
        .to_vec(),
        stages: amounts::stages(),
        besides: amounts::besides(),
        sections: method::sections(),
        products: products(),
        formula: formula(),
        rooms: rooms(),
        reckoned: Some(reckoned()),
        cautions: cautions(),
        paragraphs: vec![
            (
                text("Make ahead"),
                text(
                    "After its 20 minutes at room temperature the dough may spend the night in \
                     the refrigerator, up to 12 h at 4 °C / 39 °F; shape it cold and add 20 min \
                     to the last rise.",
                ),
            ),
            (
                text("Storage"),
                text(
                    "Two days in a closed tin at room temperature. Freeze sliced, up to 2 months \
                     at −18 °C / 0 °F; refresh 8 min at 150 °C / 300 °F. The refrigerator makes \
                     it stale.",
                ),
            ),
            (
                text("Note"),
                text(
                    "The dough is soft when the butter has gone in. It firms up in the cold; keep \
                     back the flour.",
                ),
            ),
        ],
        tested: vec![
            text(
                "18 January 2026, Petra, studio: room 21 °C / 70 °F, all-purpose flour, 11 % on \
                 the bag, dough 25.4 °C / 78 °F. Sponge 55 min, last rise 65 min. Braid 36 min \
                 to 89 °C / 192 °F, 592 g.",
            ),
            text(
                "25 January 2026, Ines, terrace: room 17 °C / 63 °F, all-purpose flour, 10.5 % \
                 on the bag, dough 23.1 °C / 74 °F. Sponge 75 min in the oven with its light on; \
                 last rise 85 min.",
            ),
        ],
        cup_note: Some(text(
            "Cups are US cups of 236.6 mL, filled by the spoon and levelled: 125 g of \
             all-purpose flour. Weigh where you can.",
        )),
        words_note: None,
        disclosure: Some(text("Saltmarsh Mill gave the flour for the film.")),
        label: label::label(),
        photos: vec![(
            text("braid-cut.jpg"),
            text(
                "A three-strand braid in its tin, two slices cut from it, the crumb pale yellow \
                 and even.",
            ),
            Some(text("Photograph: Ines Adeyemi-Castellanos")),
        )],
        footnotes: vec![
            text(
                "All-purpose flour: protein 11 % as the bag says; the rest from USDA National \
                 Nutrient Database, Release 28 (read in the source).",
            ),
            text(
                "3 large eggs: 50 g each without shell, USDA National Nutrient Database, Release \
                 28 (read in the source).",
            ),
            text("Active dry yeast: 3.1 g a teaspoon, from the packet of 7.2 g (worked out here)."),
            text("Fine salt: 6 g a teaspoon (read in the source, USDA, Release 28)."),
        ],
        imprint: text("everyoven 0.1.0 · data 1 · recipe version 3"),
        shopping: Shopping::default(),
        bowl_labels: vec![],
        patterns: Patterns::default(),
    }
}

/// A figure of the sample.
fn figure(name: &str, value: f64, unit: &'static str, shown: &str, had: Had) -> Figure {
    let source = match had {
        Had::Written => "the recipe",
        _ => "sample, worked out on paper",
    };
    Figure {
        name: text(name),
        value,
        unit,
        shown: text(shown),
        origin: Origin::new(source, had),
    }
}

/// A figure that the author wrote.
fn written(name: &str, value: f64, unit: &'static str, shown: &str) -> Figure {
    figure(name, value, unit, shown, Had::Written)
}

/// A figure that was worked out.
fn derived(name: &str, value: f64, unit: &'static str, shown: &str) -> Figure {
    figure(name, value, unit, shown, Had::Derived)
}

/// An owned string in which no number is parted from its unit at a line's end.
fn text(words: &str) -> String {
    const UNITS: [&str; 15] = [
        "g", "°C", "°F", "min", "h", "%", "cm", "in", "mL", "cup", "cups", "Tbsp", "tsp", "times",
        "large",
    ];
    let mut out = String::new();
    for (index, word) in words.split(' ').enumerate() {
        let unit = word.trim_end_matches([',', '.', ';', ':', ')']);
        let number = out.ends_with(|c: char| c.is_numeric());
        if index > 0 {
            out.push(if number && UNITS.contains(&unit) {
                '\u{a0}'
            } else {
                ' '
            });
        }
        out.push_str(word);
    }
    out
}

fn facts() -> Vec<Fact> {
    let fact = |label: &str, shown: &str, figures: Vec<Figure>| Fact {
        label: text(label),
        shown: text(shown),
        figures,
    };
    vec![
        fact("Makes", "1 braid and 10 buns", vec![]),
        fact("Serves", "8–10", vec![]),
        fact(
            "Start to finish",
            "5 h 50 min",
            vec![derived("time.total", 21_000.0, "s", "5 h 50 min")],
        ),
        fact(
            "Hands-on",
            "1 h 14 min",
            vec![derived("time.hands", 4_440.0, "s", "1 h 14 min")],
        ),
        fact(
            "Oven",
            "180 °C / 350 °F, without the fan",
            vec![written("oven.dial", 453.15, "K", "180 °C / 350 °F")],
        ),
        fact(
            "Before you begin",
            "take eggs and butter out 60 min ahead",
            vec![written("ready.before", 3_600.0, "s", "60 min")],
        ),
    ]
}

fn products() -> Vec<ProductLine> {
    vec![
        ProductLine {
            name: text("Braid"),
            pieces: text("1 of 660 g (3 × 220 g)"),
            tin: Some(text(
                "loaf tin 21.6 × 11.4 × 6.4 cm (8½ × 4½ × 2½ in), 1420 mL / 6 cups, light metal",
            )),
            bake: Some(text("180 °C / 350 °F, 32–40 min")),
            after: Some(text("about 590 g")),
            figures: vec![
                derived("product.braid.mass", 0.66, "kg", "660 g"),
                written("product.braid.piece", 0.22, "kg", "220 g"),
                written(
                    "product.braid.tin.volume",
                    0.001_42,
                    "m3",
                    "1420 mL / 6 cups",
                ),
                written("product.braid.bake.time", 2_160.0, "s", "32–40 min"),
                written("product.braid.after", 0.59, "kg", "590 g"),
            ],
        },
        ProductLine {
            name: text("Tied buns with flaked almonds"),
            pieces: text("10 of 56 g (48 g + 8 g)"),
            tin: Some(text("lined tray 40 × 30 cm (15¾ × 11¾ in), light metal")),
            bake: Some(text("180 °C / 350 °F, 13–17 min")),
            after: Some(text("about 49 g each")),
            figures: vec![
                derived("product.buns.mass", 0.056, "kg", "56 g"),
                written("product.buns.bake.time", 900.0, "s", "13–17 min"),
                written("product.buns.after", 0.049, "kg", "49 g"),
            ],
        },
    ]
}

fn formula() -> Vec<(String, Figure)> {
    [
        ("Flour in all", "flour", 0.6, "kg", "600 g"),
        ("Of it in the sponge", "flour.sponge", 0.3, "1", "30 %"),
        ("Water in all", "water", 0.552, "1", "55.2 %"),
        ("Milk", "milk", 0.35, "1", "35 %"),
        ("Eggs", "eggs", 0.25, "1", "25 %"),
        ("Butter", "butter", 0.3, "1", "30 %"),
        ("Fat in all", "fat", 0.288, "1", "28.8 %"),
        ("Sugar", "sugar", 0.12, "1", "12 %"),
        ("Salt", "salt", 0.0183, "1", "1.8 %"),
        ("Yeast, active dry", "yeast", 0.015, "1", "1.5 %"),
        ("Dough in all", "dough", 1.232, "kg", "1232 g"),
    ]
    .into_iter()
    .map(|(label, name, value, unit, shown)| {
        (
            text(label),
            derived(&format!("formula.{name}"), value, unit, shown),
        )
    })
    .collect()
}

fn rooms() -> Vec<RoomTable> {
    let row = |room: (f64, &str), liquid: Option<(f64, &str)>| {
        let name = format!("room.{}", room.0);
        (
            written(&name, room.0 + 273.15, "K", room.1),
            liquid.map_or_else(
                || text("too hot for yeast: warm the bowl"),
                |(_, shown)| text(shown),
            ),
            liquid.map(|(celsius, shown)| {
                derived(&format!("{name}.milk"), celsius + 273.15, "K", shown)
            }),
        )
    };
    vec![RoomTable {
        caption: text("Milk for the sponge, so that it ends at 26 °C / 79 °F"),
        rows: vec![
            row((12.0, "12 °C / 54 °F"), None),
            row((16.0, "16 °C / 61 °F"), Some((38.0, "38 °C / 100 °F"))),
            row((18.0, "18 °C / 64 °F"), Some((35.0, "35 °C / 95 °F"))),
            row((21.0, "21 °C / 70 °F"), Some((31.0, "31 °C / 88 °F"))),
            row((24.0, "24 °C / 75 °F"), Some((26.5, "26.5 °C / 80 °F"))),
            row((27.0, "27 °C / 81 °F"), Some((22.0, "22 °C / 72 °F"))),
        ],
    }]
}

fn reckoned() -> Reckoned {
    let time = |step: usize, room: usize, seconds: f64, shown: &str| {
        derived(
            &format!("reckoned.step.{step}.at-{room}"),
            seconds,
            "s",
            shown,
        )
    };
    Reckoned {
        note: text(
            "The times in the method are the author’s; “reckoned” beside them is what this program \
             expects in a usual kitchen. Not tested yet.",
        ),
        rooms: vec![
            derived("reckoned.room.18", 291.15, "K", "18 °C / 64 °F"),
            derived("reckoned.room.24", 297.15, "K", "24 °C / 75 °F"),
        ],
        rows: vec![ReckonedRow {
            step: 3,
            what: text("Sponge, rise"),
            place: text("in the room"),
            times: vec![
                time(3, 18, 7_500.0, "2 h 5 min"),
                time(3, 24, 3_300.0, "55 min"),
            ],
            line: text("in the room: 2 h 5 min at 18 °C / 64 °F, 55 min at 24 °C / 75 °F."),
        }],
    }
}

fn cautions() -> Vec<Caution> {
    vec![
        Caution {
            text: text("Do not eat raw dough: neither flour nor egg has been heated in it."),
            source: text("US Food and Drug Administration, advice on raw flour (from memory)"),
        },
        Caution {
            text: text("Have no naked flame near the film that covers a bowl in a warm oven."),
            source: text("common practice"),
        },
    ]
}
