//! What nobody asked a table for: keys that the format does not know, and keys that are not there.

use super::Fields;
use crate::document::read::value::{Reader, short};
use crate::source::{Diagnostic, code, listed, near};
use toml::de::DeValue;

/// How many unknown keys of one table are named one by one.
const MOST_UNKNOWN: usize = 20;

impl Fields<'_> {
    /// Says which keys the format does not know, and which are not there.
    pub fn finish(mut self, reader: &mut Reader<'_>) {
        let mut unknown = self
            .table
            .iter()
            .filter(|(k, _)| !self.asked.contains(&&**k.get_ref()));
        let mut more = 0;
        for (count, (key, _)) in unknown.by_ref().enumerate() {
            if count >= MOST_UNKNOWN {
                more = 1 + unknown.count();
                break;
            }
            let name = key.get_ref();
            if name.is_empty() {
                continue;
            }
            let free = self
                .asked
                .iter()
                .copied()
                .filter(|k| !self.table.contains_key(*k));
            let meant = near(name, free);
            let diagnostic = Diagnostic::at(
                code::KEY_UNKNOWN,
                key.span().into(),
                format!("{} has no key `{}`.", self.what, short(name)),
            );
            reader.said.push(match meant {
                Some(meant) => {
                    self.missing.retain(|(key, _)| *key != meant);
                    reader.broken = true;
                    diagnostic.hint(format!("Was `{meant}` meant?"))
                }
                None => diagnostic.hint(known_keys(&self.asked)),
            });
        }
        if more > 0 {
            reader.said.push(Diagnostic::at(
                code::KEY_UNKNOWN,
                self.span,
                format!(
                    "{} has {more} more keys that the format does not know.",
                    self.what
                ),
            ));
        }
        let who = self.called();
        for (key, example) in self.missing {
            reader.breaks(
                Diagnostic::at(
                    code::KEY_MISSING,
                    self.span,
                    format!("{who} does not say `{key}`."),
                )
                .hint(format!("Add {key} = {example}.")),
            );
        }
    }

    /// The beginning of a sentence about it, by the name of what goes in where it has one.
    fn called(&self) -> String {
        match self.table.get("of").map(toml::Spanned::get_ref) {
            Some(DeValue::String(name)) if !name.trim().is_empty() => format!("“{}”", short(name)),
            _ => self.what.clone(),
        }
    }
}

/// The keys of a table as a hint.
fn known_keys(asked: &[&'static str]) -> String {
    let mut keys = asked.to_vec();
    keys.sort_unstable();
    keys.dedup();
    format!("Its keys are {}.", listed(&keys, "and"))
}
