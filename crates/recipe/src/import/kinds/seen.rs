//! What can be seen of one line: its words, whether an amount begins it, whether it gives an order.

use crate::import::act;
use crate::import::clause::sentences;
use crate::import::line::read_line;
use crate::import::model::{Mark, Reading};
use crate::import::prose::in_sentence;
use crate::import::split::{Bare, Raw, bare};
use crate::larder::Larder;
use crate::measure::read::sentence::{Token, What, count_word, times, tokens};
use std::cell::OnceCell;

/// Words of the kitchen: a sentence with one of them may be about the bread.
const KITCHEN: &[&str] = &[
    "flour", "salt", "sugar", "yeast", "egg", "eggs", "milk", "water", "butter", "oil", "honey",
    "dough", "oven", "bowl", "tin", "tins", "pan", "tray", "cloth", "towel", "loaf", "loaves",
    "bread", "bun", "buns", "roll", "rolls", "rise", "rises", "bake", "bakes", "baked", "baking",
    "knead", "mix", "stir", "cool", "rack", "slice", "eat", "eaten", "keep", "keeps", "freeze",
    "fold", "shape", "prove", "proof", "rest", "cut", "brush", "crust", "crumb", "recipe", "batch",
    "dry", "stale", "toast", "cream", "icing",
];

/// Words with which somebody speaks of himself or to another.
const PERSONS: &[&str] = &[
    "i", "i'm", "i've", "i'll", "i’m", "i’ve", "i’ll", "me", "my", "you", "your", "you're",
    "you’re", "we", "us", "our", "children", "kids", "family",
];

/// A line and what can be seen of it.
pub struct Seen<'t> {
    pub bare: Bare<'t>,
    pub lower: String,
    pub tokens: Vec<Token>,
    pub words: usize,
    /// Whether an amount begins it.
    pub amount: bool,
    larder: &'t Larder,
    /// What is read in it as a line of a list, once it has been asked.
    read: OnceCell<Read>,
    /// How many things its sentences put in by amount, once it has been asked.
    puts_in: OnceCell<usize>,
}

/// The mark of a line, why, and what goes in by it.
pub type Read = (Mark, Option<String>, Vec<Reading>);

impl<'t> Seen<'t> {
    pub fn new(raw: &Raw<'t>, larder: &'t Larder) -> Self {
        let bare = bare(raw.text);
        let tokens = tokens(bare.text);
        let words = tokens
            .iter()
            .filter(|t| matches!(t.what, What::Word(_) | What::Number(_)))
            .count();
        Self {
            lower: bare.text.to_lowercase(),
            amount: begins_with_amount(&tokens) || ends_with_amount(&tokens),
            bare,
            words,
            tokens,
            larder,
            read: OnceCell::new(),
            puts_in: OnceCell::new(),
        }
    }

    /// What is read in it as a line of a list.
    pub fn read(&self) -> &Read {
        self.read.get_or_init(|| {
            let read = if self.bare.text.is_empty() || self.words > 40 {
                (Mark::NotUnderstood, None, Vec::new())
            } else {
                read_line(self.bare.text, self.larder)
            };
            // A list that runs on in one paragraph: "One lb. flour, 2 oz. butter, half a pint of milk".
            let listed =
                self.words > 8 && (begins_with_amount(&self.tokens) || needs(self.bare.text));
            if !listed {
                return read;
            }
            let things = in_sentence(self.bare.text, self.larder);
            if things.len() < 3 || things.len() <= read.2.len() {
                return read;
            }
            let mark = things
                .iter()
                .map(|one| one.mark)
                .max()
                .unwrap_or(Mark::Doubtful);
            let reason = (mark > Mark::Understood)
                .then(|| "Something in this list is left to be decided.".to_owned());
            (mark, reason, things)
        })
    }

    /// Whether it names three things or more.
    pub fn run_on(&self) -> bool {
        self.read().2.len() >= 3
    }

    /// How many things its sentences put in by amount, where it is long.
    fn puts_in(&self) -> usize {
        *self.puts_in.get_or_init(|| {
            if self.words > 8 {
                in_sentence(self.bare.text, self.larder).len()
            } else {
                0
            }
        })
    }

    /// Whether it lists in a sentence what is needed: "For two plaits you need 1 kg of flour, ...".
    pub fn needs(&self) -> bool {
        needs(self.bare.text) && self.run_on()
    }

    /// Whether it tells what is done, in sentences: one of them is an order, or puts things in.
    pub fn tells(&self) -> bool {
        let work = || {
            sentences(self.bare.text).into_iter().any(|sentence| {
                let all = tokens(sentence);
                act::begins_with_order(&all) && act::act(&all).is_some()
            })
        };
        self.words > 14 && self.ends() && (self.puts_in() >= 2 || self.puts_in() == 1 && work())
    }

    /// Whether it is talk to whoever gets a letter: no word of the kitchen, and somebody is spoken to.
    pub fn talks(&self) -> bool {
        let any = |list: &[&str]| self.tokens.iter().any(|t| list.contains(&t.word()));
        let asks = sentences(self.bare.text)
            .first()
            .is_some_and(|first| first.ends_with('?'));
        self.ends()
            && !self.amount
            && (asks || !any(KITCHEN))
            && any(PERSONS)
            && times(self.bare.text).is_empty()
            && self.puts_in() == 0
    }

    /// Whether it can be a thing that goes in: something of the larder is in it, or an amount.
    pub fn goes_in(&self) -> bool {
        let read = &self.read().2;
        let known = read.iter().any(|reading| reading.key.is_some());
        let unit = read.iter().any(|reading| {
            reading.amount.as_ref().is_some_and(|amount| {
                amount
                    .pieces
                    .iter()
                    .any(|piece| piece.unit != crate::import::model::LineUnit::Number)
            })
        });
        (self.words <= 30 || self.run_on()) && (known || self.amount && unit)
    }

    /// Whether it is written as a sentence that says what is done.
    pub fn orders(&self) -> bool {
        let heavy =
            !times(self.bare.text).is_empty() || self.tokens.iter().any(|t| t.word() == "oven");
        act::begins_with_order(&self.tokens)
            || (heavy && !self.amount && self.words >= 4 && act::act(&self.tokens).is_some())
    }

    /// Whether it is written as one of a list of things that go in, and no order.
    pub fn lists(&self) -> bool {
        self.amount
            && like_an_amount(&self.bare)
            && self.goes_in()
            && !self.ends()
            && self.words <= 10
            && !self.orders()
    }

    /// Whether it ends as sentences end.
    pub fn ends(&self) -> bool {
        self.bare.text.ends_with(['.', '!', '?', '…'])
    }
}

/// Whether a paragraph says that what it names is needed.
fn needs(text: &str) -> bool {
    let lower = text.to_lowercase();
    let first = lower.split(['.', ':']).next().unwrap_or("");
    [
        "you need",
        "you will need",
        "you'll need",
        "you’ll need",
        "you want",
        "i use",
        "we use",
        "you take",
        "i take",
        "needed are",
    ]
    .iter()
    .any(|words| first.contains(words))
}

/// Whether an amount begins a line: a number, "a handful", "half a litre".
pub fn begins_with_amount(all: &[Token]) -> bool {
    let past = all
        .iter()
        .position(|t| {
            !matches!(
                t.word(),
                "about"
                    | "approx"
                    | "scant"
                    | "heaped"
                    | "generous"
                    | "around"
                    | "approximately"
                    | "roughly"
            )
        })
        .unwrap_or(0);
    let Some(first) = all.get(past) else {
        return false;
    };
    match &first.what {
        What::Number(_) => true,
        What::Word(word) => {
            let next = all.get(past + 1).map_or("", Token::word);
            matches!(
                word.as_str(),
                "half" | "pinch" | "knob" | "handful" | "dash" | "splash"
            ) || count_word(word).is_some() && !matches!(word.as_str(), "a" | "an" | "another")
                || matches!(word.as_str(), "a" | "an")
                    && matches!(
                        next,
                        "little"
                            | "pinch"
                            | "knob"
                            | "handful"
                            | "dash"
                            | "splash"
                            | "few"
                            | "small"
                            | "large"
                            | "big"
                            | "cup"
                            | "teaspoon"
                            | "tablespoon"
                            | "pint"
                            | "quarter"
                            | "half"
                            | "drop"
                            | "bit"
                            | "good"
                            | "generous"
                            | "packet"
                            | "sachet"
                            | "stick"
                            | "couple"
                            | "dozen"
                    )
        }
        What::Mark(_) => false,
    }
}

/// Whether a line is a name and its amount: "Flour 600 g", "Water ..... 390 g".
pub fn ends_with_amount(all: &[Token]) -> bool {
    let words = all
        .iter()
        .filter(|token| !matches!(token.what, What::Mark(_)))
        .count();
    let unit = all.last().is_some_and(|token| {
        matches!(
            token.word(),
            "g" | "kg"
                | "ml"
                | "l"
                | "dl"
                | "oz"
                | "lb"
                | "cup"
                | "cups"
                | "tsp"
                | "tbsp"
                | "grams"
        )
    });
    let number = all
        .len()
        .checked_sub(2)
        .and_then(|at| all.get(at))
        .is_some_and(|token| matches!(token.what, What::Number(_)));
    let name = all.first().is_some_and(|token| !token.word().is_empty());
    name && unit && number && (3..=7).contains(&words)
}

/// Whether a line is written as one of a list of things that go in.
pub fn like_an_amount(bare: &Bare<'_>) -> bool {
    let all = tokens(bare.text);
    let units = [
        "g",
        "kg",
        "ml",
        "cup",
        "cups",
        "tbsp",
        "tsp",
        "teaspoon",
        "teaspoons",
        "tablespoon",
        "tablespoons",
        "dl",
        "l",
        "oz",
        "lb",
        "pound",
        "pounds",
        "egg",
        "eggs",
        "large",
        "litre",
        "packet",
        "sachet",
    ];
    !bare.counted
        && all.len() <= 24
        && (begins_with_amount(&all) || ends_with_amount(&all))
        && times(bare.text).is_empty()
        && all
            .iter()
            .take(8)
            .any(|token| units.contains(&token.word()))
}
