//! Which field of the form each finding is about.

use recipe::document::form::{Field, Form};
use recipe::source::{Diagnostic, Span};

/// The path of the field that a finding is about: the one that it stands in; of a finding about a whole item or
/// step, the field that is missing there, else its first.
pub fn field_of(form: &Form, text: &str, said: &Diagnostic) -> Option<String> {
    let at = said.span?;
    let fields = form.fields();
    let written = || {
        fields
            .iter()
            .filter_map(|field| Some((*field, field.span.clone()?)))
    };
    let inside = written().find(|(_, span)| span.start <= at.start && at.end <= span.end);
    if let Some((field, _)) = inside {
        return Some(field.path.clone());
    }
    let first = written()
        .filter(|(_, span)| span.start >= at.start && one_table(text, at, span.start))
        .min_by_key(|(_, span)| span.start)?
        .0;
    Some(
        missing(&fields, first, &said.message)
            .unwrap_or(first)
            .path
            .clone(),
    )
}

/// Whether a value that begins here still stands in the table that a finding is about: within its bytes, or
/// below the heading that it marks.
fn one_table(text: &str, at: Span, start: usize) -> bool {
    let heading = text
        .get(at.start..at.end)
        .is_some_and(|marked| marked.starts_with('['));
    let between = text.get(at.end..start).unwrap_or_default();
    start < at.end || heading && !between.contains("\n[")
}

/// Beside a field, the empty one that a message names: "This item does not say `take`."
fn missing<'f>(fields: &[&'f Field], beside: &Field, message: &str) -> Option<&'f Field> {
    let (place, _) = beside.path.rsplit_once('.')?;
    let named = |field: &Field| {
        field.span.is_none()
            && field
                .path
                .strip_prefix(place)
                .is_some_and(|rest| rest.strip_prefix('.') == Some(field.key))
            && message.contains(&format!("`{}`", field.key))
    };
    fields.iter().find(|field| named(field)).copied()
}

#[cfg(test)]
mod tests {
    use super::field_of;
    use recipe::document::form::form;
    use recipe::document::read_recipe;

    /// The field of the first finding of a name.
    fn found(text: &str, code: &str) -> Option<String> {
        let said = read_recipe(text).diagnostics;
        let one = said
            .iter()
            .find(|one| one.code.name == code)
            .expect("found");
        field_of(&form(text).expect("TOML"), text, one)
    }

    #[test]
    fn what_is_missing_is_said_at_its_empty_field() {
        let demo = crate::cli::work::DEMO_RECIPE;
        let beside = "[[besides]]\nof = \"bread flour\"\non = \"bench\"\n";
        let item = "{ of = \"bread flour\", from = \"room\" }";
        let without = format!("{demo}\n{beside}");
        let number = without.matches("[[besides]]").count() - 1;
        assert_eq!(
            found(&without, "key-missing").as_deref(),
            Some(format!("besides.{number}.take").as_str())
        );
        let inline = demo.replacen("items = [", &format!("items = [\n  {item},"), 1);
        assert_eq!(
            found(&inline, "key-missing").as_deref(),
            Some("stage.0.items.0.take")
        );
    }

    #[test]
    fn a_wrong_value_is_said_at_its_own_field() {
        let wrong = crate::cli::work::DEMO_RECIPE.replacen("take = \"150 g\"", "take = 150", 1);
        let field = found(&wrong, "number-without-unit").expect("a field");
        assert_eq!(field.rsplit('.').next(), Some("take"), "{field}");
    }
}
