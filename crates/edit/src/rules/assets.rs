//! What is said when letters or photographs that a page needs are not there.

use crate::code;
use recipe::document::model::Recipe;
use recipe::source::Diagnostic;

/// Letters that the page's typefaces do not hold, each with the words in which it stands.
pub fn glyph_findings(missing: &[(char, String)]) -> Vec<Diagnostic> {
    missing
        .iter()
        .map(|(letter, words)| {
            Diagnostic::whole(
                code::GLYPH_MISSING,
                format!(
                    "The letter “{letter}” (U+{:04X}) in “{words}” is not in the typefaces of \
                     the page; an empty box would be printed.",
                    u32::from(*letter)
                ),
            )
            .hint("Write it with letters that are there, or spell it out.")
        })
        .collect()
}

/// Photographs that the recipe names and that do not lie beside it.
pub fn missing_photos(files: &[String]) -> Vec<Diagnostic> {
    files
        .iter()
        .map(|file| {
            Diagnostic::whole(
                code::PHOTO_MISSING,
                format!(
                    "The photograph “{file}” does not lie beside the recipe, so the page is \
                     made without it."
                ),
            )
            .hint(format!(
                "Put {file} into the folder of the recipe, or correct its name."
            ))
        })
        .collect()
}

/// Photographs that are links out of the folder of the recipe.
pub fn photos_outside(recipe: &Recipe, files: &[String]) -> Vec<Diagnostic> {
    recipe
        .photos
        .iter()
        .filter(|photo| files.contains(&photo.file.value))
        .map(|photo| {
            let file = &photo.file.value;
            Diagnostic::at(
                code::PHOTO_LEADS_OUTSIDE,
                photo.file.span,
                format!(
                    "“{file}” is a link that leads out of the folder of the recipe. It is not \
                     followed, and the page is made without it."
                ),
            )
            .hint(format!(
                "Copy the photograph itself into the folder, in place of the link {file}."
            ))
        })
        .collect()
}
