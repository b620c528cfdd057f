//! What holds of every reader's answer: short, sourced, whole, and refused where no figure is honest.

use crate::asked::{Asked, value};
use std::sync::LazyLock;

static FOUR_WAYS: LazyLock<Asked> =
    LazyLock::new(|| Asked::of(include_str!("../../examples/cardamom-dough.toml")));
static HEARTH: LazyLock<Asked> =
    LazyLock::new(|| Asked::of(include_str!("../../examples/hearth-loaf.toml")));
static BRAID: LazyLock<Asked> =
    LazyLock::new(|| Asked::of(include_str!("../../examples/same-day-loaf.toml")));

/// Asked twice, an answer is the same; more yeast power is never slower.
#[test]
fn the_same_question_has_the_same_answer() {
    let ask = |power: &str| FOUR_WAYS.answer("old-yeast", &[power]);
    assert_eq!(ask("yeast-power=60%"), ask("yeast-power=60%"));
    let rise = |power| value(&ask(power), "weak.rise-of-the-dough");
    assert!(rise("yeast-power=50%") > rise("yeast-power=70%"));
    // A tin of the written volume takes the written dough.
    let dough = FOUR_WAYS.figure("other-tin", &["tin=1420mL"], "dough");
    assert!((dough - 0.62).abs() < 1e-9, "{dough}");
}

/// Where no figure is honest the answer says so, and why.
#[test]
fn refusals_give_their_reason() {
    for (question, why) in [
        ("gluten-free", "different recipe"),
        ("self-raising-flour", "baking powder"),
        ("no-oven", "dry heat"),
        ("cost", "receipts"),
    ] {
        let answer = FOUR_WAYS.answer(question, &[]);
        assert!(answer.refused, "{question}");
        assert!(answer.reply.contains(why), "{question}: {}", answer.reply);
    }
    let hearth = HEARTH.answer("over-the-rim", &[]);
    assert!(hearth.causes.is_empty() && hearth.figures.is_empty());
    // A wish that the larder cannot grant is refused in its own words.
    let rice = HEARTH.answer("egg-size", &[]);
    assert!(rice.reply.contains("No egg"), "{}", rice.reply);
}

/// Where a sentence ends: a stop with a capital after it, or the last.
fn sentences(reply: &str) -> usize {
    let letters: Vec<char> = reply.chars().collect();
    let ends = letters
        .windows(3)
        .filter(|three| three[0] == '.' && three[1].is_whitespace() && three[2].is_uppercase());
    ends.count() + 1
}

/// A reply that one pastes: at most four sentences and a text message long, in a cook's words, without the names
/// of other answers or of commands, for whoever gets it has neither.
fn to_paste(reply: &str) {
    assert!(
        sentences(reply) <= 4,
        "{} sentences: {reply}",
        sentences(reply)
    );
    let long = reply.chars().count();
    assert!(long <= 420, "{long} letters: {reply}");
    for banned in [
        "`",
        "everyoven",
        "simply",
        "just ",
        "easy",
        "easily",
        "you should have",
        "!",
    ] {
        assert!(!reply.contains(banned), "{banned}: {reply}");
    }
}

/// Every answer of every demo: a few sentences, every figure in them once with its source, nothing left open.
#[test]
fn every_answer_is_short_sourced_and_whole() {
    for asked in [&*FOUR_WAYS, &*HEARTH, &*BRAID] {
        for question in edit::answers::QUESTIONS {
            let answer = asked.answer(question.name, &[]);
            assert!(!answer.reply.is_empty(), "{}", question.name);
            assert!(answer.reply.ends_with(['.', ')']), "{}", answer.reply);
            assert!(
                !answer.reply.contains("NaN") && !answer.reply.contains("inf "),
                "{}",
                answer.reply
            );
            to_paste(&answer.reply);
            for words in &answer.more {
                assert!(!words.contains("NaN"), "{words}");
                assert!(!answer.reply.contains(words.as_str()), "twice: {words}");
            }
            for figure in &answer.figures {
                assert!(figure.value.is_finite(), "{figure:?}");
                assert!(!figure.origin.source.is_empty(), "{figure:?}");
            }
            let mut names: Vec<&str> = answer.figures.iter().map(|one| one.name.as_str()).collect();
            names.sort_unstable();
            assert!(names.windows(2).all(|two| two[0] != two[1]), "{names:?}");
        }
    }
}
