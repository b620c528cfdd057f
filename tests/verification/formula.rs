//! The formula against published formulas to the printed digit, each beside its book.

use crate::written::{Lines, recipe};
use numerics::decimal::fixed;
use numerics::quantity::{Fraction, Mass};
use recipe::document::model::Recipe;
use recipe::formula::check_printed::{self, Printed, Total};
use recipe::formula::percent::Percentages;
use recipe::formula::{Formula, Resolved, formula, judge};
use recipe::larder::{Found, Larder};
use recipe::measure::Measure;
use recipe::source::{Diagnostic, Severity, Span};

/// A printed line: ingredient, amount, and percentage as the book prints it.
type Line = (&'static str, &'static str, &'static str);

/// A printed formula: stages, each with its lines.
struct Book {
    stages: &'static [(&'static str, &'static [Line])],
}

impl Book {
    fn read(&self) -> Recipe {
        let stages: Vec<(&str, Lines)> = self
            .stages
            .iter()
            .enumerate()
            .map(|(place, (name, lines))| {
                let mut items: Lines = lines.iter().map(|(of, take, _)| (*of, *take)).collect();
                if place > 0 {
                    items.insert(0, (self.stages[place - 1].0, ""));
                }
                (*name, items)
            })
            .collect();
        recipe("enriched", &stages)
    }

    fn formula(&self) -> Formula {
        let checked = formula(&self.read(), &Larder::open());
        let said: Vec<&str> = checked.diagnostics.iter().map(|d| d.code.name).collect();
        // The one piece is a gram: nearly all is left over, and that is said.
        assert_eq!(said, ["trim-large"]);
        checked.output
    }

    /// Every percentage, rounded as printed, is the printed one.
    fn percentages_are_as_printed(&self, formula: &Formula) {
        let items = formula.stages.iter().flat_map(|stage| &stage.items);
        let worked_out = items
            .filter(|item| matches!(item.what, Resolved::Ingredient(_)))
            .map(|item| (item.called.as_str(), item.of_flour.expect("in the dough")));
        let printed = self.stages.iter().flat_map(|(_, lines)| lines.iter());
        let pairs: Vec<_> = worked_out.zip(printed).collect();
        assert_eq!(
            pairs.len(),
            self.stages
                .iter()
                .map(|(_, lines)| lines.len())
                .sum::<usize>()
        );
        for ((called, share), (of, _, printed)) in pairs {
            assert_eq!(called, *of);
            assert_eq!(as_printed(share, printed), *printed, "{of}");
        }
    }

    fn printed_parts(&self) -> Vec<Printed> {
        let lines = self.stages.iter().flat_map(|(_, lines)| lines.iter());
        lines.map(|(_, _, percent)| printed(percent)).collect()
    }
}

fn as_printed(share: Fraction, like: &str) -> String {
    fixed(
        share.percent(),
        like.split_once('.').map_or(0, |(_, after)| after.len()),
    )
}

fn printed(text: &str) -> Printed {
    Printed::read(text).expect("a plain decimal")
}

fn parts(text: &str) -> Vec<Printed> {
    text.split(' ').map(printed).collect()
}

fn total_percent(formula: &Formula, decimals: usize) -> String {
    fixed(
        Percentages::of(formula).expect("flour").total().percent(),
        decimals,
    )
}

/// Wayne Gisslen, Professional Baking: brioche with a sponge.
const GISSLEN: Book = Book {
    stages: &[
        (
            "sponge",
            &[
                ("whole milk", "60 g", "20"),
                ("fresh yeast", "15 g", "5"),
                ("bread flour", "60 g", "20"),
            ],
        ),
        (
            "dough",
            &[
                ("egg", "150 g", "50"),
                ("bread flour", "240 g", "80"),
                ("granulated sugar", "15 g", "5"),
                ("fine salt", "6 g", "2"),
                ("unsalted butter", "210 g", "70"),
            ],
        ),
    ],
};

#[test]
fn gisslen_brioche() {
    let formula = GISSLEN.formula();
    GISSLEN.percentages_are_as_printed(&formula);
    assert_eq!(total_percent(&formula, 0), "252");
    assert_eq!(fixed(formula.dough.mass.grams(), 0), "756");
    assert_eq!(as_printed(formula.prefermented_flour, "20"), "20");
    // The book prints 760 g for the small batch, 3044 g for the large one, 1 lb 9 oz for 25.2 oz.
    let small = parts("60 15 60 150 240 15 6 210");
    assert_eq!(
        check_printed::compare(&small, printed("760")),
        Total::Rounded { to: 10.0 }
    );
    let large = parts("250 60 250 600 950 60 24 850");
    assert_eq!(
        check_printed::compare(&large, printed("3044")),
        Total::Agrees
    );
    let ounces = parts("2 0.5 2 5 8 0.5 0.2 7");
    assert_eq!(
        check_printed::compare(&ounces, printed("25")),
        Total::Rounded { to: 1.0 }
    );
}

/// Peter Reinhart, The Bread Baker's Apprentice: middle-class brioche, in ounces.
const REINHART_BRIOCHE: Book = Book {
    stages: &[
        (
            "sponge",
            &[
                ("bread flour", "2.25 oz", "14.1"),
                ("instant yeast", "0.22 oz", "1.4"),
                ("whole milk", "4 oz", "25"),
            ],
        ),
        (
            "dough",
            &[
                ("egg", "8.25 oz", "51.6"),
                ("bread flour", "13.75 oz", "85.9"),
                ("granulated sugar", "1 oz", "6.3"),
                ("fine salt", "0.31 oz", "1.9"),
                ("unsalted butter", "8 oz", "50"),
            ],
        ),
    ],
};

#[test]
fn reinhart_brioche() {
    let formula = REINHART_BRIOCHE.formula();
    REINHART_BRIOCHE.percentages_are_as_printed(&formula);
    // The book prints 236.2, the sum of the rounded percentages; the masses give 236.1.
    assert_eq!(total_percent(&formula, 1), "236.1");
    let printed_parts = REINHART_BRIOCHE.printed_parts();
    assert_eq!(
        check_printed::compare(&printed_parts, printed("236.2")),
        Total::Agrees
    );
    assert_eq!(as_printed(formula.prefermented_flour, "14.1"), "14.1");
}

/// The same book: white bread, variation 3, with a sponge.
const REINHART_WHITE: Book = Book {
    stages: &[
        (
            "sponge",
            &[
                ("bread flour", "600 g", "60"),
                ("instant yeast", "12 g", "1.2"),
                ("whole milk", "640 g", "64"),
            ],
        ),
        (
            "dough",
            &[
                ("bread flour", "400 g", "40"),
                ("fine salt", "20 g", "2"),
                ("granulated sugar", "80 g", "8"),
                ("egg yolk", "35 g", "3.5"),
                ("unsalted butter", "107 g", "10.7"),
            ],
        ),
    ],
};

#[test]
fn a_misprinted_total_is_found() {
    let formula = REINHART_WHITE.formula();
    REINHART_WHITE.percentages_are_as_printed(&formula);
    assert_eq!(total_percent(&formula, 1), "189.4");
    // The book prints 184.4.
    let parts = REINHART_WHITE.printed_parts();
    let said = check_printed::total(&parts, printed("184.4"), "%", Span::default());
    let said = said.expect("a finding");
    assert_eq!(
        (said.code.name, said.code.severity),
        ("printed-total-differs", Severity::Mend)
    );
    assert_eq!(
        said.message,
        "The parts come to 189.4 %; the printed total, 184.4 %, is 5.0 % less."
    );
    assert_eq!(
        said.hints[0],
        "One digit differs (4 for 9): the total is probably a misprint for 189.4 %."
    );
    assert_eq!(
        check_printed::total(&parts, printed("189.4"), "%", Span::default()),
        None
    );
}

/// Young and Cauvain, table 2.3: white pan bread, 65 % sponge; read in an article that quotes it.
const YOUNG_CAUVAIN: Book = Book {
    stages: &[
        (
            "sponge",
            &[
                ("bread flour", "650 g", "65"),
                ("water", "400 g", "40"),
                ("fresh yeast", "24 g", "2.4"),
            ],
        ),
        (
            "dough",
            &[
                ("bread flour", "350 g", "35"),
                ("water", "250 g", "25"),
                ("granulated sugar", "60 g", "6"),
                ("nonfat dry milk", "30 g", "3"),
                ("shortening", "30 g", "3"),
                ("fine salt", "23 g", "2.3"),
            ],
        ),
    ],
};

#[test]
fn young_and_cauvain_sponge() {
    let formula = YOUNG_CAUVAIN.formula();
    YOUNG_CAUVAIN.percentages_are_as_printed(&formula);
    assert_eq!(total_percent(&formula, 1), "181.7");
    let sponge = formula.stages[0].mass / formula.dough.flour;
    assert_eq!(fixed(sponge * 100.0, 1), "107.4");
    assert_eq!(
        fixed(
            (formula.dough.mass / formula.dough.flour - sponge) * 100.0,
            1
        ),
        "74.3"
    );
    let of_flour = |mass| formula.dough.of_flour(mass).expect("flour");
    assert_eq!(
        as_printed(of_flour(formula.dough.yeast_fresh), "2.4"),
        "2.4"
    );
    assert_eq!(as_printed(of_flour(formula.dough.salt), "2.3"), "2.3");
    assert_eq!(as_printed(formula.prefermented_flour, "65"), "65");
    // The table's 65 % counts the water poured in; the fresh yeast brings 1.7 % more.
    assert_eq!(as_printed(of_flour(formula.dough.water), "65.0"), "66.7");
}

/// US Army TM 10-412 (2003), card D-036: sweet dough, in ounces.
const ARMY: Book = Book {
    stages: &[(
        "dough",
        &[
            ("active dry yeast", "8 oz", "5.0"),
            ("water", "60 oz", "37.5"),
            ("granulated sugar", "28 oz", "17.5"),
            ("fine salt", "3 oz", "1.875"),
            ("shortening", "26 oz", "16.25"),
            ("egg", "28 oz", "17.5"),
            ("bread flour", "160 oz", "100"),
            ("nonfat dry milk", "5 oz", "3.125"),
        ],
    )],
};

#[test]
fn army_sweet_dough() {
    let formula = ARMY.formula();
    ARMY.percentages_are_as_printed(&formula);
    assert_eq!(total_percent(&formula, 2), "198.75");
    assert_eq!(
        fixed(formula.dough.mass.grams() / 28.349_523_125, 2),
        "318.00"
    );
    // Yeast for a rise of an hour or so: more than any kind's band, as a baker would say.
    let names: Vec<&str> = judge(&formula, &ARMY.read())
        .iter()
        .map(|said| said.code.name)
        .collect();
    assert_eq!(names, ["yeast-outside-band", "water-outside-band"]);
}

#[test]
fn a_teaspoon_of_salt_cannot_weigh_seven_grams() {
    // Reinhart's brioche again: 1 1/4 tsp salt = .31 oz is 7.03 g a teaspoon; fine salt has 6.
    let ounces = |ounces: f64| Mass::from_grams(ounces * 28.349_523_125);
    let said = beside("fine salt", 1.25, Measure::Teaspoon, ounces(0.31)).expect("a finding");
    assert_eq!(said.code.name, "measure-contradicts-mass");
    assert_eq!(
        said.message,
        "1.25 tsp of fine salt weigh 7.5 g, not 8.8 g: 17 % less than printed."
    );
    assert!(
        said.trace[0].starts_with("printed 7.03 g/tsp; known 6 g/tsp"),
        "{:?}",
        said.trace
    );
    // Its other volumes hold: 2 tsp of instant yeast .22 oz, 1/2 cup of flour 2.25 oz, 3 cups
    // 13.75 oz.
    assert_eq!(
        beside("instant yeast", 2.0, Measure::Teaspoon, ounces(0.22)),
        None
    );
    assert_eq!(beside("bread flour", 0.5, Measure::Cup, ounces(2.25)), None);
    assert_eq!(
        beside("bread flour", 3.0, Measure::Cup, ounces(13.75)),
        None
    );
}

fn beside(name: &str, count: f64, measure: Measure, mass: Mass) -> Option<Diagnostic> {
    let larder = Larder::open();
    let Found::One(found) = larder.find(name) else {
        panic!("{name}")
    };
    let (density, origin) = found.by_volume.as_ref().expect("a weight by volume");
    let spooned = [recipe::document::model::Spooned { count, measure }];
    check_printed::measure(name, &spooned, mass, *density, origin, Span::default())
}
