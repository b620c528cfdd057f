//! Cases in Markdown: their headings, their texts, and what reading them must say.

/// What a case gives to read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A recipe file.
    Recipe,
    /// A kitchen file.
    Kitchen,
}

/// One case.
pub struct Case {
    /// Its heading.
    pub name: String,
    /// What is read.
    pub kind: Kind,
    /// The finished text.
    pub text: String,
    /// The lines that say what must be found.
    pub expect: Vec<String>,
}

/// A fenced block: its info string and its lines.
struct Block {
    info: String,
    lines: Vec<String>,
}

impl Block {
    /// Each line ended by a line feed.
    fn text(&self) -> String {
        self.lines
            .iter()
            .fold(String::new(), |text, line| text + line + "\n")
    }
}

/// The cases of a file, each or why it is broken.
pub fn cases(markdown: &str) -> Vec<Result<Case, String>> {
    let mut base: Option<(Kind, String)> = None;
    let mut found: Vec<(String, Vec<Block>)> = Vec::new();
    let mut open: Option<Block> = None;
    for line in markdown.lines() {
        if let Some(block) = open.as_mut() {
            if line == "```" {
                let block = open.take().expect("a block is open");
                match (block.info.as_str(), found.last_mut()) {
                    ("toml base", _) => base = Some((Kind::Recipe, block.text())),
                    ("toml kitchen base", _) => base = Some((Kind::Kitchen, block.text())),
                    (_, Some((_, blocks))) => blocks.push(block),
                    _ => {}
                }
            } else {
                block.lines.push(line.to_owned());
            }
        } else if let Some(info) = line.strip_prefix("```") {
            open = Some(Block {
                info: info.trim().to_owned(),
                lines: Vec::new(),
            });
        } else if let Some(name) = line.strip_prefix("## ") {
            found.push((name.trim().to_owned(), Vec::new()));
        }
    }
    found
        .into_iter()
        .map(|(name, blocks)| case(&name, &blocks, base.as_ref()))
        .collect()
}

/// One case from its blocks.
fn case(name: &str, blocks: &[Block], base: Option<&(Kind, String)>) -> Result<Case, String> {
    let of = |info: &str| blocks.iter().find(|block| block.info == info);
    let expect = of("expect")
        .ok_or(format!("{name}: no expect"))?
        .lines
        .clone();
    let (kind, text) = if let Some(block) = of("toml") {
        (Kind::Recipe, block.text())
    } else if let Some(block) = of("toml kitchen") {
        (Kind::Kitchen, block.text())
    } else {
        let block = of("replace").ok_or(format!("{name}: no text"))?;
        let (kind, text) = base.ok_or(format!("{name}: no base"))?;
        let mut text = text.clone();
        for line in &block.lines {
            text = replace(&text, line).map_err(|why| format!("{name}: {why}"))?;
        }
        (*kind, text)
    };
    Ok(Case {
        name: name.to_owned(),
        kind,
        text,
        expect,
    })
}

/// The text after one line of changes.
fn replace(text: &str, line: &str) -> Result<String, String> {
    if let Some(rest) = line.strip_prefix("append ") {
        let (piece, rest) = quoted(rest, '`')?;
        let times = match rest.trim().strip_prefix("times ") {
            Some(number) => number
                .trim()
                .parse()
                .map_err(|_| format!("times what? {line}"))?,
            None => 1,
        };
        return Ok(text.to_owned() + &piece.repeat(times));
    }
    let (every, rest) = line
        .strip_prefix("every ")
        .map_or((false, line), |rest| (true, rest));
    let (old, rest) = quoted(rest, '`')?;
    let rest = rest
        .trim()
        .strip_prefix("=>")
        .ok_or(format!("no => in {line}"))?;
    let (new, _) = quoted(rest.trim(), '`')?;
    let count = text.matches(&old).count();
    if count == 0 || (!every && count != 1) {
        return Err(format!("{old:?} occurs {count} times"));
    }
    Ok(text.replace(&old, &new))
}

/// A text between two marks, its escapes resolved, and what follows.
pub fn quoted(text: &str, mark: char) -> Result<(String, &str), String> {
    let inside = text
        .strip_prefix(mark)
        .ok_or(format!("no {mark} at {text}"))?;
    let mut value = String::new();
    let mut letters = inside.char_indices();
    while let Some((at, letter)) = letters.next() {
        if letter == mark {
            return Ok((value, &inside[at + mark.len_utf8()..]));
        }
        if letter != '\\' {
            value.push(letter);
            continue;
        }
        match letters.next().map(|(_, c)| c) {
            Some('n') => value.push('\n'),
            Some('r') => value.push('\r'),
            Some('t') => value.push('\t'),
            Some('u') => {
                let hex: String = letters
                    .by_ref()
                    .map(|(_, c)| c)
                    .skip_while(|c| *c == '{')
                    .take_while(|c| *c != '}')
                    .collect();
                let letter = u32::from_str_radix(&hex, 16).ok().and_then(char::from_u32);
                value.push(letter.ok_or(format!("no letter {hex}"))?);
            }
            Some(other) => value.push(other),
            None => return Err(format!("an escape ends {text}")),
        }
    }
    Err(format!("{mark} is not closed in {text}"))
}
