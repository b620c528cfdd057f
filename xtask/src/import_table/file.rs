//! A recipe file as the cases judge it: where steps begin and what each sentence uses.

use recipe::document::read_recipe;
use recipe::larder::{Found, Larder};
use recipe::source::Severity;

/// Something in brackets in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// Key of the larder, or `?"words"`.
    pub key: String,
    /// Whether its amount is printed; otherwise only its name.
    pub whole: bool,
    /// Its place among all words.
    pub place: usize,
}

/// The sentences of a file as one row of words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// Every word; none where a placeholder stands.
    words: Vec<Option<String>>,
    /// Places where a step begins.
    pub begins: Vec<usize>,
    /// Placeholders of items.
    pub uses: Vec<Use>,
    /// How many pieces are made, when the text says so.
    pub count: Option<u32>,
    /// Codes of what reading asks to have mended, with their number.
    pub to_mend: Vec<String>,
}

/// Words that a placeholder may swallow.
const SMALL: [&str; 8] = ["the", "a", "an", "in", "of", "and", "then", "them"];

impl Written {
    /// The place where some words stand, from a place on; else the first place of all.
    pub fn place_of(&self, opens: &str, from: usize) -> Option<usize> {
        let mut wanted = plain(opens);
        while wanted.len() > 1 && matches!(wanted[0].as_str(), "and" | "then") {
            wanted.remove(0);
        }
        let at = |start: usize| {
            let mut index = start;
            for (number, word) in wanted.iter().enumerate() {
                match self.words.get(index) {
                    // What is in brackets stands for the words behind one that says something.
                    Some(None)
                        if wanted[..number]
                            .iter()
                            .any(|word| !SMALL.contains(&word.as_str())) =>
                    {
                        return true;
                    }
                    Some(Some(own)) if own == word => index += 1,
                    _ if number > 0 && SMALL.contains(&word.as_str()) => {}
                    _ => return false,
                }
            }
            true
        };
        (from..self.words.len())
            .find(|start| at(*start))
            .or_else(|| (0..self.words.len()).find(|start| at(*start)))
    }

    /// A few words from a place on.
    pub fn words_from(&self, place: usize) -> String {
        let words: Vec<&str> = self.words[place..]
            .iter()
            .take(5)
            .map(|word| word.as_deref().unwrap_or("…"))
            .collect();
        words.join(" ")
    }
}

/// Words in small letters, without marks.
fn plain(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}

/// The number in words like "two loaves", "12 buns", "a ring".
pub fn number_in(makes: &str) -> Option<u32> {
    const NAMES: [&str; 8] = ["a", "one", "two", "three", "four", "five", "six", "eight"];
    const VALUES: [u32; 8] = [1, 1, 2, 3, 4, 5, 6, 8];
    let words = plain(makes);
    words.iter().find_map(|word| {
        word.parse().ok().or_else(|| {
            NAMES
                .iter()
                .position(|name| name == word)
                .map(|at| VALUES[at])
        })
    })
}

/// The items that sentences of one part may name: how they are called, and what they are.
type Items = Vec<(String, String)>;

/// Reads a file.
pub fn written(document: &str, larder: &Larder) -> Written {
    let mut out = Written {
        to_mend: to_mend(document),
        ..Written::default()
    };
    let Ok(file) = document.parse::<toml::Table>() else {
        return out;
    };
    let tables = |table: &toml::Table, key: &str| -> Vec<toml::Table> {
        let list = table.get(key).and_then(toml::Value::as_array);
        list.into_iter()
            .flatten()
            .filter_map(|one| one.as_table().cloned())
            .collect()
    };
    let text = |table: &toml::Table, key: &str| {
        table
            .get(key)
            .and_then(toml::Value::as_str)
            .unwrap_or("")
            .to_owned()
    };
    let items = |list: Vec<toml::Table>| -> Items {
        list.iter()
            .map(|one| {
                let of = text(one, "of");
                let called = text(one, "as");
                let on = text(one, "on");
                let name = if called.is_empty() { &of } else { &called };
                let name = if on.is_empty() {
                    name.clone()
                } else {
                    format!("{name} for the {on}")
                };
                (name.to_lowercase(), key(larder, &of))
            })
            .collect()
    };
    let besides = items(tables(&file, "besides"));
    let made_up = ["Bake.", "Have ready"];
    for (part, steps) in [("stage", "step"), ("product", "step")] {
        for one in tables(&file, part) {
            let mut known = items(tables(&one, "items"));
            known.extend(besides.iter().cloned());
            for step in tables(&one, steps) {
                let sentence = text(&step, "do");
                if !made_up.iter().any(|start| sentence.starts_with(start)) {
                    sentence_in(&mut out, &sentence, &known);
                }
            }
        }
    }
    let assumed =
        document.contains("# Assumed: yield") || document.contains("one piece, as the text");
    out.count = tables(&file, "product")
        .first()
        .and_then(|one| one.get("count")?.as_integer())
        .and_then(|count| u32::try_from(count).ok())
        .filter(|_| !assumed);
    out
}

/// Adds a step.
fn sentence_in(out: &mut Written, sentence: &str, known: &Items) {
    out.begins.push(out.words.len());
    let mut rest = sentence;
    while let Some(open) = rest.find('[') {
        out.words.extend(plain(&rest[..open]).into_iter().map(Some));
        rest = &rest[open + 1..];
        if let Some(after) = rest.strip_prefix('[') {
            rest = after;
            continue;
        }
        let end = rest.find(']').unwrap_or(rest.len());
        let inside = rest[..end].to_lowercase();
        rest = rest.get(end + 1..).unwrap_or("");
        let part = inside.split_once(" of the ").or(inside.split_once(" of "));
        let found = |name: &str| known.iter().find(|(own, _)| own == name);
        let (name, whole) = if found(&inside).is_some() {
            (inside.as_str(), true)
        } else if let Some(after) = inside
            .strip_prefix("the ")
            .filter(|name| found(name).is_some())
        {
            (after, false)
        } else {
            (part.map_or("", |(_, name)| name), true)
        };
        if let Some((_, key)) = found(name) {
            out.uses.push(Use {
                key: key.clone(),
                whole,
                place: out.words.len(),
            });
            out.words.push(None);
        } else {
            out.words.extend(plain(&inside).into_iter().map(Some));
        }
    }
    out.words.extend(plain(rest).into_iter().map(Some));
}

/// The key of a name.
fn key(larder: &Larder, name: &str) -> String {
    match larder.find(name) {
        Found::One(one) => one.key.clone(),
        Found::Several(all) => all.first().map_or_else(String::new, |one| one.key.clone()),
        _ => format!("?\"{name}\""),
    }
}

/// What reading a file asks to have mended: each code with how often.
fn to_mend(document: &str) -> Vec<String> {
    let read = read_recipe(document);
    let mut codes: Vec<&str> = read
        .diagnostics
        .iter()
        .filter(|said| said.code.severity == Severity::Mend)
        .map(|said| said.code.name)
        .collect();
    codes.sort_unstable();
    let mut out: Vec<String> = Vec::new();
    let mut rest = &codes[..];
    while let Some(first) = rest.first() {
        let count = rest.iter().take_while(|code| *code == first).count();
        out.push(if count > 1 {
            format!("{first} ×{count}")
        } else {
            (*first).to_owned()
        });
        rest = &rest[count..];
    }
    out
}
