//! How a written name finds its ingredient: one, several, near ones, or nothing.

use super::Ingredient;
use std::collections::BTreeMap;

/// What a name led to.
#[derive(Clone, Debug, PartialEq)]
pub enum Found<'a> {
    /// One ingredient.
    One(&'a Ingredient),
    /// A name that could mean several things: the author must say which.
    Several(Vec<&'a Ingredient>),
    /// Not known, but these names are close to it, the closest first.
    Near(Vec<&'a str>),
    /// Not known, and nothing is close.
    Nothing,
}

/// No name of an ingredient is longer; a longer text is not compared letter by letter.
const LONGEST: usize = 80;

/// How many near names are offered.
const OFFERED: usize = 4;

/// Words that say size or state and not what a thing is.
const ASIDE: [&str; 22] = [
    "large",
    "medium",
    "small",
    "extra",
    "jumbo",
    "xl",
    "organic",
    "free",
    "range",
    "cold",
    "warm",
    "lukewarm",
    "melted",
    "softened",
    "soft",
    "beaten",
    "sifted",
    "chopped",
    "toasted",
    "chilled",
    "room",
    "temperature",
];

/// Names and where they lead.
#[derive(Clone, Debug, Default)]
pub(super) struct Names {
    /// Plain form of a name to places of ingredients.
    by_plain: BTreeMap<String, Vec<usize>>,
    /// Plain form of the cook's own names to one place each; they come before all others.
    own: BTreeMap<String, usize>,
    /// Names that may be offered, with their plain forms.
    shown: Vec<(String, String)>,
}

impl Names {
    /// Adds a name that people use.
    pub(super) fn add(&mut self, name: &str, place: usize) {
        let plain = plain(name);
        let places = self.by_plain.entry(plain.clone()).or_default();
        if places.is_empty() {
            self.shown.push((plain, name.to_owned()));
        }
        if !places.contains(&place) {
            places.push(place);
        }
    }

    /// Adds a name of the tables, unless people use it for something.
    pub(super) fn add_if_free(&mut self, name: &str, place: usize) {
        self.by_plain
            .entry(plain(name))
            .or_insert_with(|| vec![place]);
    }

    /// Adds a name of the cook's own, which comes before all others.
    pub(super) fn add_own(&mut self, name: &str, place: usize) {
        let plain = plain(name);
        self.shown.push((plain.clone(), name.to_owned()));
        self.own.insert(plain, place);
    }

    /// Looks a name up.
    pub(super) fn find<'a>(&'a self, text: &str, larder: &'a [Ingredient]) -> Found<'a> {
        let places = self.exact(text);
        match places.as_deref() {
            Some([one]) => Found::One(&larder[*one]),
            Some(several) => Found::Several(several.iter().map(|place| &larder[*place]).collect()),
            None if text.len() > LONGEST => Found::Nothing,
            None => match plain(text) {
                asked if asked.is_empty() => Found::Nothing,
                asked => self.near(&asked),
            },
        }
    }

    /// The places of a name that is known, without a search for near ones.
    pub(super) fn exact(&self, text: &str) -> Option<Vec<usize>> {
        if text.len() > LONGEST {
            return None;
        }
        let asked = plain(text);
        if asked.is_empty() {
            return None;
        }
        let turned = || {
            let mut parts: Vec<&str> = text.split(',').collect();
            parts.reverse();
            plain(&parts.join(" "))
        };
        let bare = || {
            let words: Vec<&str> = asked
                .split(' ')
                .filter(|word| !ASIDE.contains(word))
                .collect();
            words.join(" ")
        };
        self.places(&asked)
            .or_else(|| self.places(&turned()))
            .or_else(|| self.places(&bare()))
    }

    fn places(&self, plain: &str) -> Option<Vec<usize>> {
        match self.own.get(plain) {
            Some(place) => Some(vec![*place]),
            None => self.by_plain.get(plain).cloned(),
        }
    }

    /// Names within a slip or two of the pen, and names that hold every word asked for.
    fn near<'a>(&'a self, asked: &str) -> Found<'a> {
        let length = asked.chars().count();
        let slips_allowed = (length / 4).clamp(1, 3);
        let letters = letters(asked);
        let words: Vec<&str> = asked.split(' ').collect();
        let mut near: Vec<(usize, &str)> = Vec::new();
        for (plain, shown) in &self.shown {
            // Two names lie at least as far apart as their lengths.
            let apart = plain.chars().count().abs_diff(length);
            let slips = (apart <= slips_allowed && missing(&letters, plain) <= slips_allowed)
                .then(|| strsim::damerau_levenshtein(asked, plain))
                .filter(|slips| *slips <= slips_allowed);
            let holds_all = || {
                words
                    .iter()
                    .all(|word| plain.split(' ').any(|own| own == *word))
            };
            if let Some(slips) = slips {
                near.push((slips, shown));
            } else if holds_all() {
                near.push((slips_allowed + plain.len(), shown));
            }
        }
        near.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.cmp(b.1)));
        near.dedup_by(|a, b| a.1 == b.1);
        near.truncate(OFFERED);
        if near.is_empty() {
            Found::Nothing
        } else {
            Found::Near(near.into_iter().map(|(_, name)| name).collect())
        }
    }
}

/// How often each letter stands in a name; letters beyond the plain ones are counted together.
fn letters(name: &str) -> [u8; 32] {
    let mut counts = [0_u8; 32];
    for letter in name.bytes() {
        let place = if letter.is_ascii_lowercase() {
            letter - b'a'
        } else {
            31
        };
        let count = &mut counts[usize::from(place)];
        *count = count.saturating_add(1);
    }
    counts
}

/// How many of some letters a name lacks. Each slip of the pen mends one at most.
fn missing(asked: &[u8; 32], name: &str) -> usize {
    let own = letters(name);
    let lacking = asked.iter().zip(&own).take(31);
    lacking
        .map(|(asked, own)| usize::from(asked.saturating_sub(*own)))
        .sum()
}

/// The plain form of a name: lower case, no accents, no marks, each word in the singular.
pub(super) fn plain(text: &str) -> String {
    let mut letters = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            'à' | 'á' | 'â' | 'ä' => letters.push('a'),
            'è' | 'é' | 'ê' | 'ë' => letters.push('e'),
            'ì' | 'í' | 'î' | 'ï' => letters.push('i'),
            'ò' | 'ó' | 'ô' | 'ö' => letters.push('o'),
            'ù' | 'ú' | 'û' | 'ü' => letters.push('u'),
            'ç' => letters.push('c'),
            'ñ' => letters.push('n'),
            // baker's, bakers'
            '\'' | '’' => {}
            c if c.is_alphanumeric() => letters.push(c),
            '%' => letters.push_str(" % "),
            _ => letters.push(' '),
        }
    }
    let mut out = String::with_capacity(letters.len());
    for word in letters.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        push_singular(&mut out, word);
    }
    out
}

/// Adds a word in the singular, well enough that "eggs" meets "egg" and "cherries" meets "cherry".
fn push_singular(out: &mut String, word: &str) {
    let long = word.len() > 3;
    if let Some(stem) = word.strip_suffix("ies").filter(|_| word.len() > 4) {
        out.push_str(stem);
        out.push('y');
        return;
    }
    let with_e = ["oes", "ches", "shes", "sses", "xes"];
    let ends_in_s = long && word.ends_with('s');
    let stem = if !ends_in_s {
        word
    } else if with_e.iter().any(|ending| word.ends_with(ending)) {
        &word[..word.len() - 2]
    } else {
        let stem = &word[..word.len() - 1];
        if stem.ends_with(['s', 'u', 'i']) {
            word
        } else {
            stem
        }
    };
    out.push_str(stem);
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_name_is_made_plain() {
        for (written, expected) in [
            ("Eggs", "egg"),
            ("Flour,  Bread", "flour bread"),
            ("Gruyère", "gruyere"),
            ("dried cherries", "dried cherry"),
            ("sun-dried tomatoes", "sun dried tomato"),
            ("Baker’s yeast", "baker yeast"),
            ("2% milk", "2 % milk"),
            ("couscous", "couscous"),
            ("", ""),
            ("—", ""),
        ] {
            assert_eq!(plain(written), expected, "{written}");
        }
    }
}
