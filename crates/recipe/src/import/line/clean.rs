//! A pasted line without what only decorates it: bullets, boxes, numbers of a list, odd spaces and quotes.

/// Signs that stand before an item of a list.
const BULLETS: &[char] = &[
    '•', '·', '*', '-', '–', '—', '−', '▪', '▫', '◦', '‣', '☐', '☑', '☒', '□', '■', '●', '○', '►',
    '▸', '▶', '✓', '✔', '✗', '∙', '⁃', '+', '#', '>', '❏', '❑',
];

/// The line with plain quotes and single spaces, without its bullet.
pub(super) fn clean(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '’' | '‘' | '‛' | '`' | '´' | 'ʼ' => plain.push('\''),
            '“' | '”' | '„' => plain.push('"'),
            '\u{200B}' | '\u{200C}' | '\u{200D}' | '\u{FEFF}' | '\u{AD}' | '\u{2060}' => {}
            '×' | '✕' | '✖' => plain.push('x'),
            '∕' | '／' | '⁄' => plain.push('/'),
            c if raised(c).is_some() => {
                // ¹⁄₂ and 1¹/₂: a raised digit after a plain one begins a fraction.
                if plain.ends_with(|c: char| c.is_ascii_digit()) && !plain_run(&plain) {
                    plain.push(' ');
                }
                plain.extend(raised(c));
                while let Some(more) = letters.peek().copied().and_then(raised) {
                    plain.push(more);
                    letters.next();
                }
            }
            c if lowered(c).is_some() => plain.extend(lowered(c)),
            '[' => plain.push('('),
            ']' => plain.push(')'),
            c if c.is_whitespace() || c.is_control() => plain.push(' '),
            c => plain.push(c),
        }
    }
    let single: Vec<&str> = plain.split_whitespace().collect();
    without_bullet(&single.join(" ")).to_owned()
}

/// Whether the digits at the end stand under a bar already.
fn plain_run(text: &str) -> bool {
    text.trim_end_matches(|c: char| c.is_ascii_digit())
        .ends_with('/')
}

/// A raised digit as a plain one.
fn raised(letter: char) -> Option<char> {
    let place = "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().position(|c| c == letter)?;
    char::from_digit(u32::try_from(place).ok()?, 10)
}

/// A lowered digit as a plain one.
fn lowered(letter: char) -> Option<char> {
    let place = "₀₁₂₃₄₅₆₇₈₉".chars().position(|c| c == letter)?;
    char::from_digit(u32::try_from(place).ok()?, 10)
}

/// Goes past bullets, tick boxes and the number of a list.
fn without_bullet(line: &str) -> &str {
    let mut rest = line;
    loop {
        let before = rest;
        rest = rest.trim_start_matches(BULLETS).trim_start();
        for box_sign in ["( )", "()", "(x)", "(X)"] {
            rest = rest.strip_prefix(box_sign).unwrap_or(rest).trim_start();
        }
        if rest == before {
            break;
        }
    }
    // "1. 500 g flour", "2) 3 eggs"
    let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    if (1..=2).contains(&digits)
        && let Some(after) = rest[digits..].strip_prefix(['.', ')'])
        && after.starts_with(' ')
    {
        rest = after.trim_start();
    }
    rest
}

/// Whether the whole line is set off as a heading: "— Egg wash —", "For the dough:".
pub(super) fn is_heading(text: &str, cleaned: &str) -> bool {
    let text = text.trim();
    let ruled = |c: char| matches!(c, '—' | '–' | '-' | '=' | '*' | '~' | '#' | '_');
    let framed = text.starts_with(ruled) && text.ends_with(ruled);
    framed || cleaned.ends_with(':')
}
