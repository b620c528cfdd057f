//! Which question a stranger's words mean: by the words in them that tell it from the others.
//!
//! A question is meant when every word of one of its phrases stands in what was written, in any order, whatever
//! its ending. Of several the one whose words are rarest is taken: "dry dough" says more than "dough". Two that
//! are alike good are not chosen between.

use super::list::{QUESTIONS, Question};
use std::collections::{BTreeMap, BTreeSet};

/// What some words lead to.
pub enum Found {
    /// One question.
    One(&'static Question),
    /// None, or several alike; these names are near.
    Near(Vec<&'static str>),
}

/// How alike a word must be to one that is known to be the same with a slip of the hand.
const ALIKE: f64 = 0.78;
/// The share of a phrase that makes its question worth naming.
const NEAR: f64 = 0.4;
/// A word of so many questions is a common one.
const COMMON: f64 = 3.0;
/// Weights nearer than this are the same.
const SAME: f64 = 1e-9;

/// Words that tell no question from another.
const SMALL: &[&str] = &[
    "a", "about", "actually", "all", "also", "am", "an", "and", "any", "are", "as", "at", "be",
    "been", "but", "by", "came", "can", "come", "could", "did", "do", "does", "doing", "for",
    "from", "get", "getting", "go", "goes", "going", "got", "had", "has", "have", "help", "how",
    "i", "id", "if", "ill", "im", "in", "instead", "is", "it", "its", "ive", "just", "know",
    "like", "may", "me", "mine", "my", "need", "of", "ok", "okay", "on", "only", "or", "our",
    "please", "possible", "quite", "really", "should", "so", "some", "than", "that", "the",
    "their", "them", "then", "there", "they", "this", "to", "too", "up", "use", "used", "using",
    "very", "want", "was", "we", "were", "what", "whats", "when", "which", "why", "will", "with",
    "would", "you", "your",
];

/// Words that say that something is not there.
const NOT: &[&str] = &[
    "arent", "cannot", "cant", "didnt", "doesnt", "dont", "free", "hasnt", "havent", "isnt",
    "never", "non", "none", "not", "nothing", "wasnt", "without", "wont",
];

/// Words whose endings follow no rule.
const BY_THEMSELVES: [(&str, &str); 14] = [
    ("risen", "rise"),
    ("rose", "rise"),
    ("frozen", "freeze"),
    ("froze", "freeze"),
    ("burnt", "burn"),
    ("sank", "sink"),
    ("sunk", "sink"),
    ("fell", "fall"),
    ("fallen", "fall"),
    ("left", "leave"),
    ("forgotten", "forget"),
    ("forgot", "forget"),
    ("loaves", "loaf"),
    ("kept", "keep"),
];

/// A word without its ending: "freezing", "freeze" and "frozen" are one.
fn stem(word: &str) -> String {
    let known = BY_THEMSELVES.iter().find(|(own, _)| *own == word);
    let word = known.map_or(word, |(_, is)| is);
    let mut rest = word;
    for ending in ["ing", "ed", "es", "s"] {
        if let Some(before) = rest.strip_suffix(ending)
            && before.chars().count() >= 3
            && !(ending == "s" && before.ends_with('s'))
        {
            rest = before;
            break;
        }
    }
    if let Some(before) = rest.strip_suffix('e')
        && before.chars().count() >= 3
    {
        rest = before;
    }
    let mut letters: Vec<char> = rest.chars().collect();
    let count = letters.len();
    if count > 2 && letters[count - 1] == letters[count - 2] {
        letters.pop();
    }
    letters.into_iter().collect()
}

/// The words that tell something, without their endings: "9x5" is a size, "8am" a morning.
fn telling(words: &str) -> BTreeSet<String> {
    let plain: String = words
        .to_lowercase()
        .chars()
        .filter(|letter| !matches!(letter, '\'' | '’'))
        .map(|letter| {
            if letter.is_alphanumeric() {
                letter
            } else {
                ' '
            }
        })
        .collect();
    let digits = |text: &str| !text.is_empty() && text.chars().all(|one| one.is_ascii_digit());
    plain
        .split_whitespace()
        .filter(|word| !SMALL.contains(word))
        .map(|word| {
            if NOT.contains(&word) {
                "no".to_owned()
            } else if word.strip_suffix("am").is_some_and(digits) {
                stem("morning")
            } else if word
                .split_once('x')
                .is_some_and(|(one, other)| digits(one) && digits(other))
            {
                stem("size")
            } else {
                stem(word)
            }
        })
        .collect()
}

/// A phrase of a question by its telling words.
struct Phrase {
    question: &'static Question,
    words: BTreeSet<String>,
}

fn phrases() -> Vec<Phrase> {
    let mut all = Vec::new();
    for question in QUESTIONS {
        let name = question.name.replace('-', " ");
        let own = [name.as_str(), question.asks].into_iter();
        for phrase in own.chain(question.words.iter().copied()) {
            let words = telling(phrase);
            if !words.is_empty() {
                all.push(Phrase { question, words });
            }
        }
    }
    all
}

/// In how many questions each word stands.
fn counts(all: &[Phrase]) -> BTreeMap<&str, f64> {
    let mut places: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for phrase in all {
        for word in &phrase.words {
            places.entry(word).or_default().insert(phrase.question.name);
        }
    }
    #[allow(clippy::cast_precision_loss)] // some dozens
    places
        .into_iter()
        .map(|(word, names)| (word, names.len() as f64))
        .collect()
}

/// The question that some words mean: its name, other words for it, or nearly either.
pub fn find(words: &str) -> Found {
    let name = words.trim().to_lowercase().replace([' ', '_'], "-");
    if let Some(question) = QUESTIONS.iter().find(|one| one.name == name) {
        return Found::One(question);
    }
    let all = phrases();
    let counts = counts(&all);
    let wanted: BTreeSet<String> = telling(words)
        .into_iter()
        .map(|word| meant(word, &counts))
        .collect();
    #[allow(clippy::cast_precision_loss)] // some dozens
    let questions = QUESTIONS.len() as f64 + 1.0;
    let weight = |words: &mut dyn Iterator<Item = &String>| -> f64 {
        words
            .filter_map(|word| counts.get(word.as_str()))
            .map(|count| numerics::math::ln(questions / count))
            .sum()
    };
    // Of each question its best phrase: how much of it is there, and what that weighs.
    let mut best: Vec<(bool, f64, &'static Question)> = Vec::new();
    for phrase in &all {
        let there = weight(&mut phrase.words.intersection(&wanted));
        let share = there / weight(&mut phrase.words.iter());
        if share < NEAR {
            continue;
        }
        // One word that stands in many questions decides only when it is all that was written.
        let common = phrase.words.len() == 1
            && wanted.len() > 1
            && phrase
                .words
                .iter()
                .any(|word| counts[word.as_str()] >= COMMON);
        let own = (share > 1.0 - SAME && !common, there, phrase.question);
        match best.iter_mut().find(|one| one.2.name == own.2.name) {
            Some(one) if (one.0, one.1) < (own.0, own.1) => *one = own,
            Some(_) => {}
            None => best.push(own),
        }
    }
    best.sort_by(|one, other| other.0.cmp(&one.0).then(other.1.total_cmp(&one.1)));
    match best.as_slice() {
        [one, rest @ ..] if one.0 => {
            let alike = |other: &(bool, f64, &Question)| other.0 && one.1 - other.1 < SAME;
            if rest.first().is_some_and(alike) {
                let names = best.iter().take_while(|other| alike(other));
                Found::Near(names.map(|other| other.2.name).collect())
            } else {
                Found::One(one.2)
            }
        }
        _ => Found::Near(best.iter().take(3).map(|one| one.2.name).collect()),
    }
}

/// A word as it is known, where a slip of the hand is all that is between.
fn meant(word: String, known: &BTreeMap<&str, f64>) -> String {
    if known.contains_key(word.as_str()) || word.chars().count() < 4 {
        return word;
    }
    let alike = known
        .keys()
        .map(|own| (strsim::normalized_damerau_levenshtein(&word, own), *own))
        .max_by(|one, other| one.0.total_cmp(&other.0).then(other.1.cmp(one.1)));
    match alike {
        Some((how, own)) if how >= ALIKE => own.to_owned(),
        // "denze": a small word with one letter for another that sounds like it.
        _ => known
            .keys()
            .find(|own| sounds_like(&word, own))
            .map_or(word, |own| (*own).to_owned()),
    }
}

/// Letters that are taken for one another by ear.
const SOUNDS: [&str; 5] = ["szc", "ckq", "fv", "iy", "dt"];

/// Whether two words of one length differ in one letter that sounds like the other's.
fn sounds_like(one: &str, other: &str) -> bool {
    let other_letters = one.chars().zip(other.chars()).filter(|(a, b)| a != b);
    let mut differing = other_letters.collect::<Vec<_>>().into_iter();
    one.chars().count() == other.chars().count()
        && match (differing.next(), differing.next()) {
            (Some((a, b)), None) => SOUNDS
                .iter()
                .any(|alike| alike.contains(a) && alike.contains(b)),
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::{Found, QUESTIONS, find, stem};

    fn name(words: &str) -> String {
        match find(words) {
            Found::One(question) => question.name.to_owned(),
            Found::Near(names) => format!("near {names:?}"),
        }
    }

    #[test]
    fn a_question_is_found_by_its_name_by_other_words_and_with_a_slip() {
        assert_eq!(name("cold-kitchen"), "cold-kitchen");
        assert_eq!(name("Burnt top, raw inside"), "burnt-outside");
        assert_eq!(name("why did my loaf collapse? it sank"), "collapsed");
        assert_eq!(name("collapsd"), "collapsed");
        assert_eq!(name("fresh yaest"), "fresh-yeast");
        assert_eq!(name("denze crumb"), name("dense crumb"));
        assert_ne!(name("denze"), "near []");
        assert_eq!(name("my butter is leaking, butter leaking"), "greasy");
        assert_eq!(name("zzzz"), "near []");
    }

    #[test]
    fn endings_do_not_matter_and_stems_stay_apart() {
        for (one, other) in [
            ("freezing", "frozen"),
            ("cutting", "cut"),
            ("holes", "hole"),
            ("spilled", "spill"),
            ("glasses", "glass"),
            ("calories", "calorie"),
        ] {
            assert_eq!(stem(one), stem(other), "{one}, {other}");
        }
        assert_ne!(stem("mixer"), stem("mixing"));
        assert_ne!(stem("oven"), stem("over"));
    }

    /// A question's name and the question as it stands on the page lead to it.
    #[test]
    fn every_question_leads_to_itself() {
        for question in QUESTIONS {
            assert_eq!(name(question.name), question.name);
            assert_eq!(name(question.asks), question.name, "{}", question.asks);
            for words in question.words {
                let found = name(words);
                assert!(found.contains(question.name), "{words}: {found}");
            }
        }
        assert_eq!(QUESTIONS.len(), 51);
    }

    #[test]
    fn what_two_questions_share_is_not_chosen_between() {
        assert_eq!(name("vegan"), "near [\"no-dairy\", \"no-egg\"]");
    }
}
