//! The words of a speech as they are spelled, and the stems by which forms of one word meet.

use super::speech::Word;
use recipe::source::Span;

/// Words whose apostrophe a machine leaves out.
const RUN_TOGETHER: [(&str, &str); 30] = [
    ("its", "it's"),
    ("thats", "that's"),
    ("dont", "don't"),
    ("doesnt", "doesn't"),
    ("isnt", "isn't"),
    ("arent", "aren't"),
    ("wasnt", "wasn't"),
    ("wont", "won't"),
    ("cant", "can't"),
    ("didnt", "didn't"),
    ("shouldnt", "shouldn't"),
    ("couldnt", "couldn't"),
    ("wouldnt", "wouldn't"),
    ("youre", "you're"),
    ("youve", "you've"),
    ("youll", "you'll"),
    ("youd", "you'd"),
    ("theyre", "they're"),
    ("theyve", "they've"),
    ("theyll", "they'll"),
    ("im", "i'm"),
    ("ive", "i've"),
    ("weve", "we've"),
    ("lets", "let's"),
    ("heres", "here's"),
    ("theres", "there's"),
    ("whats", "what's"),
    ("shes", "she's"),
    ("hes", "he's"),
    ("itll", "it'll"),
];

/// Words and numbers, without sentence or clause.
pub(super) fn words(text: &str) -> Vec<Word> {
    let mut found = Vec::new();
    let mut at = 0;
    // Who writes no apostrophe at all writes none in "don't" either.
    let none = !text.contains(['\'', '’']);
    while at < text.len() {
        let rest = &text[at..];
        let letter = rest.chars().next().unwrap_or(' ');
        let length = if letter.is_alphabetic() {
            rest.find(|c: char| !c.is_alphabetic() && !matches!(c, '\'' | '’'))
                .unwrap_or(rest.len())
        } else if letter.is_numeric() {
            rest.find(|c: char| !c.is_numeric()).unwrap_or(rest.len())
        } else {
            at += letter.len_utf8();
            continue;
        };
        let mut lower = rest[..length]
            .trim_end_matches(['\'', '’'])
            .to_lowercase()
            .replace('’', "'");
        if none && let Some((_, whole)) = RUN_TOGETHER.iter().find(|(run, _)| *run == lower) {
            (*whole).clone_into(&mut lower);
        }
        found.push(Word {
            stem: stem(&lower),
            lower,
            span: Span::new(at, at + length),
            sentence: 0,
            clause: 0,
        });
        at += length;
    }
    // "Baking paper" bakes nothing.
    for at in 1..found.len() {
        if found[at - 1].lower == "baking" && is_paper(&found[at].lower) {
            "baking".clone_into(&mut found[at - 1].stem);
        }
    }
    found
}

/// Whether "baking" before a word is a part of its name and no deed.
pub(super) fn is_paper(lower: &str) -> bool {
    matches!(
        lower,
        "paper" | "parchment" | "sheet" | "powder" | "soda" | "mat"
    )
}

/// The stem of a word: its endings of number and tense taken off.
pub(super) fn stem(word: &str) -> String {
    let word = word.strip_suffix("'s").unwrap_or(word);
    match word {
        "risen" | "rose" => return "ris".to_owned(),
        "loaves" => return "loaf".to_owned(),
        "halves" => return "half".to_owned(),
        "fridge" | "refrigerated" => return "refrigerator".to_owned(),
        "center" | "centre" => return "middl".to_owned(),
        "frozen" => return "freez".to_owned(),
        "mould" | "mold" => return "mould".to_owned(),
        _ => {}
    }
    let mut stem = word.to_owned();
    let long = |stem: &str, least: usize| stem.chars().count() > least;
    if stem.ends_with("ies") && long(&stem, 4) {
        stem.truncate(stem.len() - 3);
        stem.push('y');
    } else if stem.ends_with('s')
        && long(&stem, 3)
        && !stem.ends_with("ss")
        && !stem.ends_with("us")
        && !stem.ends_with("is")
    {
        stem.truncate(stem.len() - 1);
        for ending in ["che", "she", "sse", "xe", "toe"] {
            if stem.ends_with(ending) {
                stem.truncate(stem.len() - 1);
            }
        }
    }
    for ending in ["ing", "ed"] {
        if stem.ends_with(ending) && long(&stem, ending.len() + 2) {
            let cut = &stem[..stem.len() - ending.len()];
            if cut.contains(['a', 'e', 'i', 'o', 'u', 'y']) {
                stem = cut.to_owned();
                let bytes = stem.as_bytes();
                let n = bytes.len();
                if n > 3
                    && bytes[n - 1] == bytes[n - 2]
                    && !matches!(bytes[n - 1], b'l' | b's' | b'f')
                {
                    stem.truncate(n - 1);
                }
            }
            break;
        }
    }
    if stem.ends_with('e') && long(&stem, 3) {
        stem.truncate(stem.len() - 1);
    }
    stem
}
