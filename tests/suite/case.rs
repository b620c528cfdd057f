//! Cases as Markdown: a recipe with its changes, and what must be found in it.

use everyoven_tests::tree;
use recipe::source::{Diagnostic, Span};

/// A case as it stands in its file.
pub struct Case {
    /// Its heading.
    pub name: String,
    /// The recipe.
    pub text: String,
    /// The kitchen it is judged in.
    pub kitchen: Option<String>,
    /// Lines of what is wanted.
    pub expect: Vec<String>,
}

/// A fenced block: its info string and its text.
type Block = (String, String);

fn blocks(markdown: &str) -> Vec<Block> {
    let mut all: Vec<Block> = Vec::new();
    let mut open = false;
    for line in markdown.lines() {
        if let Some(info) = line.strip_prefix("```") {
            open = !open;
            if open {
                all.push((info.to_owned(), String::new()));
            }
        } else if open && let Some((_, text)) = all.last_mut() {
            text.push_str(line);
            text.push('\n');
        }
    }
    all
}

fn base_of(markdown: &str) -> Option<String> {
    let head = markdown.split("\n## ").next().unwrap_or("");
    blocks(head)
        .into_iter()
        .find(|(info, _)| info == "toml base")
        .map(|(_, text)| text)
}

fn cases(markdown: &str, base: &str) -> Vec<Case> {
    markdown
        .split("\n## ")
        .skip(1)
        .map(|section| {
            let name = section.lines().next().unwrap_or("").to_owned();
            let blocks = blocks(section);
            let of = |wanted: &str| {
                blocks
                    .iter()
                    .find(|(info, _)| info == wanted)
                    .map(|(_, text)| text.as_str())
            };
            let text = match (of("toml"), of("replace")) {
                (Some(whole), None) => whole.to_owned(),
                (None, Some(changes)) => replaced(base, changes, &name),
                _ => panic!("{name}: one of `toml` and `replace`"),
            };
            let expect = of("expect").unwrap_or_else(|| panic!("{name}: no `expect`"));
            Case {
                text,
                kitchen: of("toml kitchen").map(str::to_owned),
                expect: expect
                    .lines()
                    .filter(|line| !line.is_empty())
                    .map(str::to_owned)
                    .collect(),
                name,
            }
        })
        .collect()
}

fn replaced(base: &str, changes: &str, case: &str) -> String {
    let mut text = base.to_owned();
    for line in changes.lines().filter(|line| !line.is_empty()) {
        let parts: Vec<_> = line.split('`').collect();
        let [before, old, " => ", new, ""] = parts[..] else {
            panic!("{case}: {line}")
        };
        let (old, new) = (unescaped(old), unescaped(new));
        let found = text.matches(&old).count();
        match before {
            "" => assert_eq!(found, 1, "{case}: `{old}` stands {found} times"),
            "every " => assert!(found > 0, "{case}: `{old}` does not stand there"),
            _ => panic!("{case}: {line}"),
        }
        text = text.replace(&old, &new);
    }
    text
}

fn unescaped(text: &str) -> String {
    text.replace("\\n", "\n").replace("\\\"", "\"")
}

/// Text with plain spaces.
pub fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// One line of `expect` that wants a finding.
pub struct Wanted {
    pub severity: String,
    pub code: String,
    pub place: Option<(String, usize)>,
    pub says: Vec<String>,
}

/// Reads a line of `expect`.
pub fn wanted(line: &str) -> Wanted {
    let severity = ["look again ", "mend ", "could "]
        .into_iter()
        .find(|word| line.starts_with(word))
        .unwrap_or_else(|| panic!("what is `{line}`?"));
    let rest = &line[severity.len()..];
    let (code, mut rest) = rest.split_once(' ').unwrap_or((rest, ""));
    let mut wanted = Wanted {
        severity: severity.trim().to_owned(),
        code: code.to_owned(),
        place: None,
        says: Vec::new(),
    };
    while !rest.is_empty() {
        let (word, after) = rest
            .split_once(" \"")
            .unwrap_or_else(|| panic!("what is `{line}`?"));
        let (text, after) = quoted(after);
        rest = after.trim_start();
        if word == "@" {
            let mut which = 1;
            if let Some(number) = rest.strip_prefix('#') {
                let (digits, after) = number.split_once(' ').unwrap_or((number, ""));
                which = digits
                    .parse()
                    .unwrap_or_else(|_| panic!("what is `{line}`?"));
                rest = after;
            }
            wanted.place = Some((text, which));
        } else {
            assert_eq!(word, "says", "what is `{line}`?");
            wanted.says.push(text);
        }
    }
    wanted
}

/// The text up to its closing quotation mark, and what follows.
fn quoted(text: &str) -> (String, &str) {
    let mut out = String::new();
    let mut letters = text.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '"' => return (out, &text[at + 1..]),
            '\\' => out.extend(
                letters
                    .next()
                    .map(|(_, next)| if next == 'n' { '\n' } else { next }),
            ),
            letter => out.push(letter),
        }
    }
    panic!("no closing quotation mark: {text}");
}

/// Whether a finding stands where a line wants it and says what it wants; its name is not asked.
pub fn stands(finding: &Diagnostic, wanted: &Wanted, text: &str) -> bool {
    let said = plain(&format!(
        "{}\n{}",
        finding.message,
        finding.hints.join("\n")
    ))
    .to_lowercase();
    wanted
        .says
        .iter()
        .all(|word| said.contains(&word.to_lowercase()))
        && wanted.place.as_ref().is_none_or(|(place, which)| {
            let start = text
                .match_indices(place.as_str())
                .nth(which - 1)
                .map(|(at, _)| at);
            start.is_some_and(|start| {
                finding
                    .span
                    .is_some_and(|span| at_place(span, start, start + place.len(), text))
            })
        })
}

/// The span lies inside the place, or covers it and starts on its line.
fn at_place(span: Span, start: usize, end: usize, text: &str) -> bool {
    let inside = start <= span.start && span.end <= end;
    let line = text[..start].rfind('\n').map_or(0, |at| at + 1);
    inside || (line <= span.start && span.start <= start && span.end >= end)
}

/// Every case of a folder; its `base.md` holds the base of files without one.
pub fn every_case(folder: &str) -> Vec<(String, Vec<Case>)> {
    let base = tree::text(&format!("{folder}/base.md")).and_then(|text| base_of(&text));
    let base = base.expect("the base of the folder's cases");
    tree::ending(folder, ".md")
        .into_iter()
        // Written blind, with guessed names; run by themselves once the names are mapped.
        .filter(|path| !path.ends_with("README.md"))
        .filter(|path| folder.ends_with("/blind") || !path.contains("/blind/"))
        .map(|path| {
            let markdown = tree::text(&path).expect("UTF-8");
            let own = base_of(&markdown).unwrap_or_else(|| base.clone());
            let cases = cases(&markdown, &own);
            (path, cases)
        })
        .collect()
}
