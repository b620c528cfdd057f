//! Pasted ingredient lines are read as somebody wrote down who had not seen the reader.

use everyoven_tests::tree::{root, text};
use proptest::prelude::*;
use recipe::import::line::read_line;
use recipe::larder::Larder;
use std::sync::LazyLock;
use xtask::import_table::{PAGE, lines, with_lines};

static LARDER: LazyLock<Larder> = LazyLock::new(Larder::open);

#[test]
fn no_amount_is_invented_and_at_least_97_lines_of_100_are_right() {
    let outcomes = lines::score(&root().join(lines::CASES)).expect("the cases");
    println!("{}", lines::section(&outcomes));
    assert!(outcomes.len() > 100, "the cases are there");
    let invented: Vec<_> = outcomes.iter().filter(|one| one.invented() > 0).collect();
    assert!(invented.is_empty(), "invented amounts: {invented:#?}");
    let right = outcomes.iter().filter(|one| one.is_right()).count();
    assert!(
        right * 100 >= outcomes.len() * 97,
        "{right} of {}",
        outcomes.len()
    );
}

#[test]
fn the_page_counts_as_the_reader_reads() {
    let page = text(PAGE).expect("UTF-8");
    let current = with_lines(&root(), &page).expect("the section");
    assert!(page == current, "run `cargo run -p xtask -- import-table`");
}

/// Pieces of lines, for lines that are nearly right.
const WORDS: &[&str] = &[
    "1", "½", "2 1/2", "1-1/2", "1,5", "1,000", "0", "00", "250", "2-3", "x", "×", "cup", "cups",
    "g", "ml", "oz", "T", "t", "c", "tin", "sachet", "(", ")", ",", ";", "/", "–", "-", "plus",
    "and", "or", "each", "of", "a", "half", "one", "dozen", "between", "for", "dusting", "to",
    "taste", "flour", "butter", "eggs", "egg yolk", "melted", "lightly", "beaten", "large", "zest",
    "lemon", "•", "’", "%", "°", "35C", "é", "ſ", "İ", ":", "..",
];

/// The numbers in an amount must stand in the line, or be the product of two that do.
fn stands_in(line: &str, value: f64) -> bool {
    let mut numbers = vec![1.0];
    // Raised and lowered digits are digits: ¹⁄₂.
    let level = |c: char| {
        let place = ["⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"]
            .iter()
            .find_map(|row| row.chars().position(|other| other == c));
        place.and_then(|place| char::from_digit(u32::try_from(place).ok()?, 10))
    };
    // A raised digit goes on with the one before it or begins a number of its own.
    let apart: String = line
        .chars()
        .map(|c| level(c).map_or_else(|| c.to_string(), |digit| format!(" {digit}")))
        .collect();
    let line: &str = &line
        .chars()
        .map(|c| level(c).unwrap_or(c))
        .collect::<String>();
    let plain: String = line
        .chars()
        .map(|c| if c == ',' { '.' } else { c })
        .collect();
    let digits = |text: &str| -> Vec<f64> {
        // ".5" is half as well as five behind a stop.
        text.split(|c: char| !c.is_ascii_digit() && c != '.')
            .flat_map(|one| [one.trim_matches('.'), one.trim_end_matches('.')])
            .filter_map(|one| one.parse::<f64>().ok())
            .collect()
    };
    numbers.extend(digits(&plain));
    numbers.extend(digits(&apart));
    numbers.extend(digits(&line.replace([',', ' ', '.'], "")));
    numbers.extend(digits(&line.replace(',', " ")));
    // "1,000" before another number is a thousand.
    numbers.extend(digits(&line.replace(',', "")));
    let glyphs = [
        ('½', 0.5),
        ('⅓', 1.0 / 3.0),
        ('¼', 0.25),
        ('¾', 0.75),
        ('⅔', 2.0 / 3.0),
        ('⅕', 0.2),
        ('⅖', 0.4),
        ('⅗', 0.6),
        ('⅘', 0.8),
        ('⅙', 1.0 / 6.0),
        ('⅚', 5.0 / 6.0),
        ('⅐', 1.0 / 7.0),
        ('⅛', 0.125),
        ('⅜', 0.375),
        ('⅝', 0.625),
        ('⅞', 0.875),
        ('⅑', 1.0 / 9.0),
        ('⅒', 0.1),
    ];
    numbers.extend(
        glyphs
            .iter()
            .filter(|(glyph, _)| line.contains(*glyph))
            .map(|(_, value)| *value),
    );
    let words = [
        ("half", 0.5),
        ("one", 1.0),
        ("two", 2.0),
        ("dozen", 12.0),
        ("a", 1.0),
    ];
    let lower = line.to_lowercase();
    numbers.extend(
        words
            .iter()
            .filter(|(word, _)| lower.contains(word))
            .map(|(_, value)| *value),
    );
    let near = |a: f64| (a - value).abs() < 1e-6 * value.max(1.0);
    let base = numbers.clone();
    // Fractions and mixed numbers, then packs times their size.
    for top in &base {
        numbers.extend(
            base.iter()
                .filter(|bottom| **bottom > 0.0)
                .map(|bottom| top / bottom),
        );
    }
    let parts = numbers.clone();
    for whole in &base {
        numbers.extend(parts.iter().map(|part| whole + part));
    }
    numbers.iter().any(|a| near(*a)) || base.iter().any(|a| numbers.iter().any(|b| near(a * b)))
}

fn holds(line: &str) -> Result<(), TestCaseError> {
    let (_, _, readings) = read_line(line, &LARDER);
    for reading in &readings {
        for amount in reading.amount.iter().chain(&reading.also) {
            for piece in &amount.pieces {
                prop_assert!(piece.low > 0.0 && piece.low <= piece.high && piece.high.is_finite());
                for end in [piece.low, piece.high] {
                    prop_assert!(
                        stands_in(line, end),
                        "{end} is not in {line:?}: {reading:?}"
                    );
                }
            }
        }
        if let Some(mass) = reading.mass {
            prop_assert!(mass.low.si() > 0.0 && mass.low <= mass.high);
        }
    }
    Ok(())
}

#[test]
fn a_thousand_before_another_number_stands_in_the_line() {
    holds("plus : a cup or 1,000 2 1/2").expect("its numbers are there");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_text_is_borne(line in ".{0,120}") {
        holds(&line)?;
    }

    #[test]
    fn every_number_of_a_reading_stands_in_the_line(words in prop::collection::vec(prop::sample::select(WORDS), 1..9), joined in any::<bool>()) {
        holds(&words.join(if joined { "" } else { " " }))?;
    }
}
