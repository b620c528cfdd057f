//! What a case expects to be found, and whether the findings are that.

use crate::cases::quoted;
use recipe::source::{Diagnostic, Severity, Span};

/// One line: a finding that must be there.
struct Wanted {
    severity: &'static str,
    codes: Vec<String>,
    places: Vec<(String, usize)>,
    says: Vec<String>,
    line: String,
}

/// Why the findings are not what the lines expect, if they are not.
pub fn judge(text: &str, lines: &[String], said: &[Diagnostic]) -> Option<String> {
    let mut wanted = Vec::new();
    let mut may = Vec::new();
    let mut only = false;
    let mut clean = false;
    for line in lines
        .iter()
        .map(|line| line.trim())
        .filter(|line| !line.is_empty())
    {
        if line == "clean" {
            clean = true;
        } else if line == "only" {
            only = true;
        } else if let Some(code) = line.strip_prefix("may ") {
            may.push(code.trim().to_owned());
        } else {
            match parse(line) {
                Ok(one) => wanted.push(one),
                Err(why) => return Some(format!("the case itself is broken: {why}")),
            }
        }
    }
    let shown = || said.iter().map(|d| show(text, d)).collect::<String>();
    if clean {
        return (!said.is_empty()).then(|| format!("must be clean, but:{}", shown()));
    }
    let fits: Vec<Vec<usize>> = wanted
        .iter()
        .map(|one| {
            (0..said.len())
                .filter(|n| meets(text, one, &said[*n]))
                .collect()
        })
        .collect();
    let Some(taken) = matching(&fits, said.len()) else {
        let missed: Vec<&str> = wanted
            .iter()
            .zip(&fits)
            .filter(|(_, fit)| fit.is_empty())
            .map(|(one, _)| one.line.as_str())
            .collect();
        return Some(format!(
            "not met: {}\n    found:{}",
            missed.join("; "),
            shown()
        ));
    };
    let extra: String = said
        .iter()
        .enumerate()
        .filter(|(n, d)| {
            !taken.contains(n)
                && !may.iter().any(|code| code == d.code.name)
                && (only || d.code.severity == Severity::Mend)
        })
        .map(|(_, d)| show(text, d))
        .collect();
    (!extra.is_empty()).then(|| format!("found besides:{extra}"))
}

/// One finding for each line, each of its own; none when there is no such choice.
fn matching(fits: &[Vec<usize>], findings: usize) -> Option<Vec<usize>> {
    fn place(
        line: usize,
        fits: &[Vec<usize>],
        owner: &mut [Option<usize>],
        seen: &mut [bool],
    ) -> bool {
        for &finding in &fits[line] {
            if std::mem::replace(&mut seen[finding], true) {
                continue;
            }
            let free = match owner[finding] {
                None => true,
                Some(other) => place(other, fits, owner, seen),
            };
            if free {
                owner[finding] = Some(line);
                return true;
            }
        }
        false
    }
    let mut owner = vec![None; findings];
    for line in 0..fits.len() {
        if !place(line, fits, &mut owner, &mut vec![false; findings]) {
            return None;
        }
    }
    Some((0..findings).filter(|n| owner[*n].is_some()).collect())
}

/// Reads a line.
fn parse(line: &str) -> Result<Wanted, String> {
    let (severity, rest) = ["mend", "look again", "could"]
        .iter()
        .find_map(|word| {
            line.strip_prefix(word)
                .map(|rest| (*word, rest.trim_start()))
        })
        .ok_or(format!("no severity in {line}"))?;
    let end = [" @", " says"]
        .iter()
        .filter_map(|m| rest.find(m))
        .min()
        .unwrap_or(rest.len());
    let codes = rest[..end]
        .split(" or ")
        .map(|code| code.trim().to_owned())
        .collect();
    let mut rest = rest[end..].trim_start();
    let mut wanted = Wanted {
        severity,
        codes,
        places: Vec::new(),
        says: Vec::new(),
        line: line.to_owned(),
    };
    while !rest.is_empty() {
        if let Some(after) = rest.strip_prefix("says") {
            let (word, after) = quoted(after.trim_start(), '"')?;
            wanted.says.push(word);
            rest = after.trim_start();
        } else if let Some(after) = rest.strip_prefix('@').or(rest.strip_prefix("or")) {
            let (place, after) = quoted(after.trim_start(), '"')?;
            rest = after.trim_start();
            let mut number = 1;
            if let Some(after) = rest.strip_prefix('#') {
                let end = after.find(' ').unwrap_or(after.len());
                number = after[..end].parse().map_err(|_| format!("#what? {line}"))?;
                rest = after[end..].trim_start();
            }
            wanted.places.push((place, number));
        } else {
            return Err(format!("cannot read {rest} in {line}"));
        }
    }
    Ok(wanted)
}

/// Whether a finding is what a line wants.
fn meets(text: &str, wanted: &Wanted, said: &Diagnostic) -> bool {
    let words: String = said
        .hints
        .iter()
        .fold(said.message.clone(), |all, hint| all + "\n" + hint);
    let words = words.to_lowercase();
    wanted.severity == said.code.severity.word()
        && wanted.codes.iter().any(|code| code == said.code.name)
        && wanted
            .says
            .iter()
            .all(|word| words.contains(&word.to_lowercase()))
        && (wanted.places.is_empty()
            || wanted
                .places
                .iter()
                .any(|(place, number)| stands(text, place, *number, said.span)))
}

/// Whether a span is the place.
fn stands(text: &str, place: &str, number: usize, span: Option<Span>) -> bool {
    let Some(span) = span else {
        return false;
    };
    let Some(start) = text.match_indices(place).nth(number - 1).map(|(at, _)| at) else {
        return false;
    };
    let end = start + place.len();
    let inside = start <= span.start && span.end <= end;
    let line = |at: usize| text[..at].matches('\n').count();
    let covers = span.start <= start && end <= span.end && line(span.start) == line(start);
    inside || covers
}

/// A finding for whoever reads the failure.
fn show(text: &str, said: &Diagnostic) -> String {
    let place = said
        .span
        .map_or("nowhere", |s| text.get(s.start..s.end).unwrap_or("?"));
    let short: String = place.chars().take(60).collect();
    format!(
        "\n      {} {} @ {short:?}: {} | {}",
        said.code.severity.word(),
        said.code.name,
        said.message,
        said.hints.join(" | ")
    )
}
