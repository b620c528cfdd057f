//! One table of a file, asked key by key; it knows afterwards which keys nobody asked for.

mod unasked;

use super::kind::Kind;
use super::stand_in::StandIn;
use super::value::{Reader, kind_words, looks_like_date, quantity_of, short, text_of, wrong_kind};
use crate::source::{Diagnostic, Located, Span, code, listed, near};
use jiff::civil::{Date, Time};
use toml::de::{DeTable, DeValue};

/// One table of the file.
pub struct Fields<'a> {
    table: &'a DeTable<'a>,
    /// Where its header, or the whole of it in braces, stands.
    pub span: Span,
    /// "The recipe", "This item": the beginning of a sentence about it.
    what: String,
    asked: Vec<&'static str>,
    missing: Vec<(&'static str, &'static str)>,
}

impl<'a> Fields<'a> {
    /// Of a table.
    pub fn new(table: &'a DeTable<'a>, span: Span, what: impl Into<String>) -> Self {
        Self {
            table,
            span,
            what: what.into(),
            asked: Vec::new(),
            missing: Vec::new(),
        }
    }

    /// The value of a key, and notes that the format knows it.
    fn value(&mut self, key: &'static str) -> Option<(&'a DeValue<'a>, Span)> {
        self.asked.push(key);
        self.table.get(key).map(|v| (v.get_ref(), v.span().into()))
    }

    /// Whether the key is there; the format knows it.
    pub fn has(&mut self, key: &'static str) -> bool {
        self.value(key).is_some()
    }

    /// Where a key stands.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        self.table
            .iter()
            .find(|(k, _)| k.get_ref() == key)
            .map(|(k, _)| k.span().into())
    }

    /// The value that must be there; without it something stands in and the recipe is withheld.
    pub fn must<T: StandIn>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        example: &'static str,
        value: Option<Located<T>>,
    ) -> Located<T> {
        self.must_have(reader, key, example);
        value.unwrap_or_else(|| Located::new(T::stand_in(), self.span))
    }

    /// Notes that a key must be there.
    pub fn must_have(&mut self, reader: &mut Reader<'_>, key: &'static str, example: &'static str) {
        if self.value(key).is_none() {
            reader.broken = true;
            self.missing.push((key, example));
        }
    }

    /// A text.
    pub fn text(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Located<String>> {
        let (value, span) = self.value(key)?;
        text_of(reader, key, value, span)
    }

    /// A list of texts.
    pub fn texts(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
    ) -> Option<Vec<Located<String>>> {
        let list = self.list(reader, key, "a list of texts", "[\"...\", \"...\"]")?;
        let texts = list.filter_map(|(value, span)| text_of(reader, key, value, span));
        Some(texts.collect())
    }

    /// The entries of a list with their places; a finding where something else stands.
    fn list(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        wanted: &str,
        example: &str,
    ) -> Option<impl Iterator<Item = (&'a DeValue<'a>, Span)> + use<'a>> {
        let (value, span) = self.value(key)?;
        let DeValue::Array(list) = value else {
            reader.breaks(wrong_kind(key, value, span, wanted, example));
            return None;
        };
        Some(
            list.iter()
                .map(|entry| (entry.get_ref(), entry.span().into())),
        )
    }

    /// True or false.
    pub fn boolean(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Located<bool>> {
        let (value, span) = self.value(key)?;
        if let DeValue::Boolean(set) = value {
            return Some(Located::new(*set, span));
        }
        reader.breaks(wrong_kind(
            key,
            value,
            span,
            "true or false, without quotes",
            "true",
        ));
        None
    }

    /// A day of the calendar.
    pub fn date(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Located<Date>> {
        let (value, span) = self.value(key)?;
        if let DeValue::Datetime(written) = value {
            match (written.date, written.time) {
                (Some(day), None) => {
                    let made = i16::try_from(day.year).ok().and_then(|year| {
                        Date::new(
                            year,
                            i8::try_from(day.month).ok()?,
                            i8::try_from(day.day).ok()?,
                        )
                        .ok()
                    });
                    if let Some(date) = made {
                        return Some(Located::new(date, span));
                    }
                    reader.breaks(
                        Diagnostic::at(
                            code::DATE_IMPOSSIBLE,
                            span,
                            "This is no day of the calendar.",
                        )
                        .hint("Write a date as year-month-day: 2026-02-28."),
                    );
                }
                // The text's own fault, said already.
                (None, None) => reader.broken = true,
                _ => reader.breaks(
                    Diagnostic::at(
                        code::VALUE_WRONG_KIND,
                        span,
                        format!("`{key}` wants a day; a time of day stands here too."),
                    )
                    .hint("Write the day alone: 2026-02-14."),
                ),
            }
            return None;
        }
        let quoted = match value {
            DeValue::String(text) if looks_like_date(text) => format!("{key} = {}", text.trim()),
            _ => format!("{key} = 2026-02-14"),
        };
        reader.breaks(
            Diagnostic::at(
                code::VALUE_WRONG_KIND,
                span,
                format!("`{key}` wants a date; here stands {}.", kind_words(value)),
            )
            .hint(format!("Write year-month-day without quotes: {quoted}.")),
        );
        None
    }

    /// A time of day, bare as TOML 1.1 has it: `09:25`.
    pub fn clock(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Located<Time>> {
        let (value, span) = self.value(key)?;
        if let DeValue::Datetime(written) = value {
            match (written.date, written.time) {
                (None, Some(time)) => {
                    let made = i8::try_from(time.hour)
                        .ok()
                        .zip(i8::try_from(time.minute).ok());
                    if let Some(time) = made.and_then(|(h, m)| Time::new(h, m, 0, 0).ok()) {
                        return Some(Located::new(time, span));
                    }
                }
                // The text's own fault, said already.
                (None, None) => {
                    reader.broken = true;
                    return None;
                }
                _ => {}
            }
        }
        reader.breaks(
            Diagnostic::at(
                code::VALUE_WRONG_KIND,
                span,
                format!(
                    "`{key}` wants a time of day; here stands {}.",
                    kind_words(value)
                ),
            )
            .hint(format!(
                "Write hours and minutes of the day without quotes: {key} = 09:25."
            )),
        );
        None
    }

    /// A whole number that stands bare.
    pub fn whole(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Located<i64>> {
        let (value, span) = self.value(key)?;
        match value {
            DeValue::Integer(n) if n.as_str().is_empty() => reader.broken = true,
            DeValue::Integer(n) => {
                if let Ok(number) = i64::from_str_radix(n.as_str(), n.radix()) {
                    return Some(Located::new(number, span));
                }
                reader.breaks(Diagnostic::at(
                    code::NUMBER_UNREADABLE,
                    span,
                    format!("`{key}` is a number too long to be one of a kitchen."),
                ));
            }
            DeValue::String(_) | DeValue::Float(_) => reader.breaks(
                Diagnostic::at(
                    code::VALUE_WRONG_KIND,
                    span,
                    format!(
                        "`{key}` wants a whole number; here stands {}.",
                        kind_words(value)
                    ),
                )
                .hint(format!("Write it bare: {key} = 1.")),
            ),
            _ => reader.breaks(wrong_kind(key, value, span, "a whole number", "1")),
        }
        None
    }

    /// A quantity.
    pub fn quantity<T>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        kind: &Kind<T>,
    ) -> Option<Located<T>> {
        let (value, span) = self.value(key)?;
        quantity_of(reader, key, value, span, kind)
    }

    /// A list of quantities.
    pub fn quantities<T>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        kind: &Kind<T>,
    ) -> Option<Vec<Located<T>>> {
        let list = self.list(reader, key, "a list", &format!("[\"{}\"]", kind.example))?;
        let all = list.filter_map(|(value, span)| quantity_of(reader, key, value, span, kind));
        Some(all.collect())
    }

    /// One of a few words.
    pub fn word<T: Copy>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        all: &[T],
        word: fn(T) -> &'static str,
    ) -> Option<Located<T>> {
        let written = self.text(reader, key)?;
        if let Some(found) = all.iter().find(|one| word(**one) == written.value) {
            return Some(Located::new(*found, written.span));
        }
        let words: Vec<&str> = all.iter().map(|one| word(*one)).collect();
        let diagnostic = Diagnostic::at(
            code::WORD_UNKNOWN,
            written.span,
            format!(
                "`{key}` is {}; “{}” is none of them.",
                listed(&words, "or"),
                short(&written.value)
            ),
        );
        reader.breaks(match near(&written.value, words.iter().copied()) {
            Some(meant) => diagnostic.hint(format!("Write {key} = \"{meant}\".")),
            None => diagnostic,
        });
        None
    }

    /// A table inside this one.
    pub fn table(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        what: &str,
    ) -> Option<Fields<'a>> {
        let (value, span) = self.value(key)?;
        if let DeValue::Table(table) = value {
            Some(Fields::new(table, self.shown(key, span), what))
        } else {
            reader.breaks(wrong_kind(key, value, span, "a table", "{ ... }"));
            None
        }
    }

    /// A list of tables inside this one.
    pub fn tables(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        what: &str,
    ) -> Option<Vec<Fields<'a>>> {
        let list = self.list(reader, key, "a list of tables", "[{ ... }]")?;
        let mut found = Vec::new();
        for (entry, span) in list {
            match entry {
                DeValue::Table(table) => found.push(Fields::new(table, span, what)),
                other => reader.breaks(wrong_kind(key, other, span, "a table", "{ ... }")),
            }
        }
        Some(found)
    }

    /// A dotted or header table has the place of its key; one in braces its own.
    fn shown(&self, key: &str, span: Span) -> Span {
        if span.end > span.start {
            span
        } else {
            self.key_span(key).unwrap_or(self.span)
        }
    }

    /// Every entry, for tables whose keys are names.
    pub fn entries(&self) -> impl Iterator<Item = (Located<String>, &'a DeValue<'a>, Span)> {
        self.table.iter().map(|(k, v)| {
            (
                Located::new(k.get_ref().to_string(), k.span().into()),
                v.get_ref(),
                v.span().into(),
            )
        })
    }

    /// A table of names, each with a quantity; empty when it is left out.
    pub fn named<T>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        kind: &Kind<T>,
    ) -> Vec<(Located<String>, Located<T>)> {
        let table = self.table(reader, key, &format!("`{key}`"));
        let entries = table.iter().flat_map(Fields::entries);
        entries
            .filter_map(|(name, value, span)| {
                let quantity = quantity_of(reader, &name.value, value, span, kind)?;
                Some((name, quantity))
            })
            .collect()
    }
}
