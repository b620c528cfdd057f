//! What the recipes of the notebook are called where several are chosen from: by their titles.

use crate::cli::day_titles::told_apart;
use crate::web::desk::Desk;
use crate::web::refusal::Refusal;
use crate::world::notebook::{Kept, Name};
use recipe::document::read_recipe_bytes;

/// Every recipe with what it is called: its title, with its file where another has the same one; the file alone
/// where no title can be read.
pub fn titles(desk: &Desk) -> Result<Vec<(Name, String)>, Refusal> {
    let mut all = Vec::new();
    for name in desk.notebook.names(Kept::Recipe)? {
        let bytes = desk.notebook.read(Kept::Recipe, &name)?;
        let read = bytes.and_then(|bytes| read_recipe_bytes(&bytes).output);
        let title = read.map(|recipe| recipe.title.value.trim().to_owned());
        all.push((name, title.filter(|title| !title.is_empty())));
    }
    Ok(told_apart(all, |name| Kept::Recipe.file(name)))
}
