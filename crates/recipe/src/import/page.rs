//! The structured data of a saved page: the recipe that a site describes for machines.

use super::kinds::{as_ingredient, plain_line};
use super::made::{from_lines, import};
use super::model::{Imported, Line, LineKind};
use crate::larder::Larder;
use serde_json::Value;
use std::collections::BTreeMap;

/// How deep structured data is followed.
const DEEPEST: usize = 24;

/// Whether a text is a web page rather than words.
pub fn is_page(text: &str) -> bool {
    let begin = text.trim_start_matches('\u{feff}').trim_start();
    let lower: String = begin.chars().take(4000).collect::<String>().to_lowercase();
    lower.starts_with("<!doctype html")
        || lower.starts_with("<html")
        || lower.contains("application/ld+json")
        || lower.starts_with('<') && lower.contains("</")
}

/// Reads a saved page: its structured data when it has some, else its words.
///
/// The lines of structured data are numbered in their own lists: ingredient 1, step 1.
pub fn saved_page(html: &str, larder: &Larder) -> Imported {
    for data in scripts(html) {
        if let Some(recipe) = parse(data).as_ref().and_then(|value| find(value, 0)) {
            return from_lines(lines_of(recipe, larder), larder);
        }
    }
    import(&words(html), larder)
}

/// A saved page as a text to read and mend: title, what it makes, lists under headings; of a page
/// without structured data its words.
pub fn page_as_text(html: &str) -> String {
    let recipe = |data: &&str| {
        parse(data)
            .as_ref()
            .and_then(|value| find(value, 0))
            .cloned()
    };
    let Some(recipe) = scripts(html).iter().find_map(recipe) else {
        return words(html);
    };
    let mut out = Vec::new();
    let mut before = LineKind::Title;
    for (kind, text) in listed(&recipe) {
        if kind != before {
            out.push(String::new());
            match kind {
                LineKind::Ingredient => out.push("Ingredients".to_owned()),
                LineKind::Step if before != LineKind::Heading => out.push("Method".to_owned()),
                _ => {}
            }
        }
        out.push(match kind {
            LineKind::Makes => format!("Makes {text}"),
            LineKind::Heading => format!("{}:", text.trim_end_matches(':')),
            _ => text,
        });
        before = kind;
    }
    out.join("\n")
}

/// The contents of every script of structured data.
fn scripts(html: &str) -> Vec<&str> {
    let lower = html.to_ascii_lowercase();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(open) = lower[at..].find("<script").map(|n| at + n) {
        let Some(head) = lower[open..].find('>').map(|n| open + n + 1) else {
            break;
        };
        let end = lower[head..]
            .find("</script")
            .map_or(lower.len(), |n| head + n);
        if lower[open..head].contains("ld+json") {
            found.push(&html[head..end]);
        }
        at = end;
    }
    found
}

/// Structured data as a value, also when a page wraps it in a comment or breaks its lines.
fn parse(data: &str) -> Option<Value> {
    let data = data.trim();
    let data = ["<!--", "//<![CDATA[", "<![CDATA["]
        .iter()
        .fold(data, |data, start| data.strip_prefix(start).unwrap_or(data));
    let data = ["-->", "//]]>", "]]>"]
        .iter()
        .fold(data.trim(), |data, end| {
            data.strip_suffix(end).unwrap_or(data)
        });
    let data = data.trim().trim_end_matches(';');
    serde_json::from_str(data).ok().or_else(|| {
        let mended: String = data
            .chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect();
        serde_json::from_str(&mended).ok()
    })
}

/// The recipe anywhere in a value.
fn find(value: &Value, depth: usize) -> Option<&Value> {
    if depth > DEEPEST {
        return None;
    }
    match value {
        Value::Array(all) => all.iter().find_map(|one| find(one, depth + 1)),
        Value::Object(map) => {
            let named = |kind: &Value| {
                kind.as_str()
                    .is_some_and(|kind| kind.rsplit('/').next() == Some("Recipe"))
            };
            let is = map.get("@type").is_some_and(|kind| match kind {
                Value::Array(kinds) => kinds.iter().any(named),
                one => named(one),
            });
            if is {
                return Some(value);
            }
            map.values().find_map(|one| find(one, depth + 1))
        }
        _ => None,
    }
}

/// The lines of a recipe.
fn lines_of(recipe: &Value, larder: &Larder) -> Vec<Line> {
    let mut numbers = BTreeMap::new();
    listed(recipe)
        .into_iter()
        .map(|(kind, text)| {
            let number = numbers.entry(kind).or_insert(0_usize);
            *number += 1;
            if kind == LineKind::Ingredient {
                as_ingredient(*number, &text, larder)
            } else {
                plain_line(*number, &text, kind)
            }
        })
        .collect()
}

/// Every text of a recipe with what it is.
fn listed(recipe: &Value) -> Vec<(LineKind, String)> {
    let mut all = Vec::new();
    let text = |key: &str| texts(&recipe[key]).into_iter().next();
    if let Some(name) = text("name").or_else(|| text("headline")) {
        all.push((LineKind::Title, name));
    }
    if let Some(about) = text("description") {
        all.push((LineKind::About, about));
    }
    // A list of yields holds the same in more and fewer words.
    let yields = match &recipe["recipeYield"] {
        Value::Null => texts(&recipe["yield"]),
        found => texts(found),
    };
    if let Some(makes) = yields
        .into_iter()
        .max_by_key(|text| text.chars().any(char::is_alphabetic))
    {
        all.push((LineKind::Makes, makes));
    }
    let ingredients = match &recipe["recipeIngredient"] {
        Value::Null => &recipe["ingredients"],
        found => found,
    };
    all.extend(
        texts(ingredients)
            .into_iter()
            .map(|text| (LineKind::Ingredient, text)),
    );
    instructions(&recipe["recipeInstructions"], &mut all, 0);
    all
}

/// Texts of a value: one, or a list, decoded; a text over several lines is several.
fn texts(value: &Value) -> Vec<String> {
    match value {
        Value::String(text) => words(text)
            .lines()
            .map(|line| line.trim().to_owned())
            .filter(|line| !line.is_empty())
            .collect(),
        Value::Number(number) => vec![number.to_string()],
        Value::Array(all) => all.iter().flat_map(texts).collect(),
        Value::Object(map) => ["text", "name", "value", "@value"]
            .iter()
            .find_map(|key| map.get(*key))
            .map(texts)
            .unwrap_or_default(),
        _ => Vec::new(),
    }
}

/// The steps of a value, with the names of its sections as headings.
fn instructions(value: &Value, found: &mut Vec<(LineKind, String)>, depth: usize) {
    if depth > DEEPEST {
        return;
    }
    match value {
        Value::Array(all) => all
            .iter()
            .for_each(|one| instructions(one, found, depth + 1)),
        Value::Object(map) => {
            let list = ["itemListElement", "steps", "item"]
                .iter()
                .find_map(|key| map.get(*key));
            let Some(list) = list else {
                found.extend(texts(value).into_iter().map(|text| (LineKind::Step, text)));
                return;
            };
            let section = map
                .get("@type")
                .and_then(Value::as_str)
                .is_some_and(|kind| kind.ends_with("HowToSection"));
            if section
                && let Some(name) = map
                    .get("name")
                    .map(texts)
                    .and_then(|names| names.into_iter().next())
            {
                found.push((LineKind::Heading, name));
            }
            instructions(list, found, depth + 1);
        }
        other => found.extend(texts(other).into_iter().map(|text| (LineKind::Step, text))),
    }
}

/// The words of a page or of a text with marks in it: tags gone, lines kept, entities decoded.
fn words(html: &str) -> String {
    let mut out = String::with_capacity(html.len());
    let mut rest = html;
    while let Some(open) = rest.find('<') {
        let (before, tag) = rest.split_at(open);
        out.push_str(before);
        // A sign of "less than" in a sentence opens no tag.
        if !tag[1..].starts_with(|c: char| c.is_ascii_alphabetic() || matches!(c, '/' | '!' | '?'))
        {
            out.push('<');
            rest = &tag[1..];
            continue;
        }
        let name: String = tag[1..]
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '/')
            .collect::<String>()
            .to_ascii_lowercase();
        let ends = if tag.starts_with("<!--") { "-->" } else { ">" };
        let end = tag.find(ends).map_or(tag.len(), |n| n + ends.len());
        rest = &tag[end..];
        if matches!(name.as_str(), "script" | "style" | "noscript" | "svg") {
            let close = format!("</{name}");
            let end = rest.to_ascii_lowercase().find(&close).unwrap_or(rest.len());
            rest = &rest[end..];
            continue;
        }
        if matches!(
            name.trim_start_matches('/'),
            "p" | "br"
                | "br/"
                | "li"
                | "div"
                | "h1"
                | "h2"
                | "h3"
                | "h4"
                | "h5"
                | "h6"
                | "tr"
                | "ul"
                | "ol"
                | "section"
                | "article"
                | "title"
                | "nav"
                | "header"
                | "footer"
                | "td"
                | "dt"
                | "dd"
        ) && !out.ends_with('\n')
        {
            out.push('\n');
        }
    }
    out.push_str(rest);
    // Some pages encode twice.
    let once = decoded(&out);
    if once.contains("&amp;") || once.contains("&#") || once.contains("&frac") {
        decoded(&once)
    } else {
        once
    }
}

/// Named entities that recipes hold (HTML Living Standard, named character references).
const NAMED: &[(&str, &str)] = &[
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("quot", "\""),
    ("apos", "'"),
    ("nbsp", "\u{a0}"),
    ("deg", "°"),
    ("frac12", "½"),
    ("half", "½"),
    ("frac14", "¼"),
    ("frac34", "¾"),
    ("frac13", "⅓"),
    ("frac23", "⅔"),
    ("frac18", "⅛"),
    ("frac38", "⅜"),
    ("frac58", "⅝"),
    ("frac78", "⅞"),
    ("ndash", "–"),
    ("mdash", "—"),
    ("rsquo", "’"),
    ("lsquo", "‘"),
    ("rdquo", "”"),
    ("ldquo", "“"),
    ("hellip", "…"),
    ("times", "×"),
    ("eacute", "é"),
    ("egrave", "è"),
    ("ecirc", "ê"),
    ("agrave", "à"),
    ("acirc", "â"),
    ("auml", "ä"),
    ("ouml", "ö"),
    ("uuml", "ü"),
    ("szlig", "ß"),
    ("ccedil", "ç"),
    ("ntilde", "ñ"),
    ("icirc", "î"),
    ("ocirc", "ô"),
    ("aring", "å"),
    ("oslash", "ø"),
    ("aelig", "æ"),
    ("bull", "•"),
    ("middot", "·"),
    ("frasl", "⁄"),
    ("iuml", "ï"),
    ("aacute", "á"),
    ("oacute", "ó"),
    ("thinsp", "\u{2009}"),
    ("minus", "−"),
];

/// With its entities as the letters they stand for.
fn decoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        out.push_str(&rest[..at]);
        rest = &rest[at..];
        let end = rest
            .char_indices()
            .take(12)
            .find(|(_, c)| *c == ';')
            .map(|(n, _)| n);
        let found = end.and_then(|end| entity(&rest[1..end]).map(|letters| (letters, end)));
        if let Some((letters, end)) = found {
            out.push_str(&letters);
            rest = &rest[end + 1..];
        } else {
            out.push('&');
            rest = &rest[1..];
        }
    }
    out.push_str(rest);
    out
}

/// The letters of one entity.
fn entity(name: &str) -> Option<String> {
    if let Some(number) = name.strip_prefix('#') {
        let code = match number.strip_prefix(['x', 'X']) {
            Some(hex) => u32::from_str_radix(hex, 16).ok()?,
            None => number.parse().ok()?,
        };
        return char::from_u32(code)
            .filter(|c| !c.is_control())
            .map(String::from);
    }
    NAMED
        .iter()
        .find(|(known, _)| *known == name)
        .map(|(_, letters)| (*letters).to_owned())
}

#[cfg(test)]
mod tests {
    use super::{decoded, saved_page, words};
    use crate::import::LineKind;
    use crate::larder::Larder;

    #[test]
    fn entities_and_tags_become_letters() {
        assert_eq!(
            decoded("1&frac12; tsp at 170&deg;C &amp; more &unknown; &"),
            "1½ tsp at 170°C & more &unknown; &"
        );
        assert_eq!(words("<p>one<br>two</p><script>x</script>"), "\none\ntwo\n");
    }

    #[test]
    fn steps_are_found_in_every_form() {
        let larder = Larder::open();
        for (instructions, wanted) in [
            ("\"Mix.\\nBake at 200 C for 30 minutes.\"", 2),
            ("[\"Mix.\", \"Bake.\"]", 2),
            ("[{\"@type\":\"HowToStep\",\"text\":\"Mix.\"}]", 1),
            (
                "[{\"@type\":\"HowToSection\",\"name\":\"Dough\",\"itemListElement\":[{\"@type\":\"HowToStep\",\"text\":\"Mix.\"},{\"@type\":\"HowToStep\",\"text\":\"Rest.\"}]}]",
                2,
            ),
            (
                "{\"@type\":\"ItemList\",\"itemListElement\":[{\"@type\":\"ListItem\",\"item\":{\"@type\":\"HowToStep\",\"text\":\"Mix.\"}}]}",
                1,
            ),
        ] {
            let html = format!(
                "<script type='application/ld+json'>[{{\"@graph\":[{{\"@type\":[\"Thing\",\"Recipe\"],\"name\":\"Loaf\",\"recipeIngredient\":[\"500 g bread flour\"],\"recipeInstructions\":{instructions}}}]}}]</script>"
            );
            let made = saved_page(&html, &larder);
            let steps = made
                .lines
                .iter()
                .filter(|line| line.kind == LineKind::Step)
                .count();
            assert_eq!(
                (steps, made.title.as_deref()),
                (wanted, Some("Loaf")),
                "{instructions}"
            );
        }
    }
}
