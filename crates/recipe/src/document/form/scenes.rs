//! A file of scenes as fields to be filled in: the day at its top, and of every scene what one asks first.

use super::fill::fill_in;
use super::keys::{DAY, SCENE};
use super::{Field, Row, fields, rows};
use crate::document::revise::{NotRevised, set_value};
use std::collections::BTreeMap;
use toml_edit::Document;

/// A whole file of scenes. What has no field (crew, place, shots, holds) stays in the file as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneForm {
    /// What stands at the top.
    pub top: Vec<Field>,
    /// The scenes.
    pub scenes: Vec<Row>,
}

/// The form of a file of scenes; nothing when it is not TOML.
pub fn scene_form(text: &str) -> Option<SceneForm> {
    let document = Document::parse(text).ok()?;
    let top = document.as_table();
    Some(SceneForm {
        top: fields("", top, DAY),
        scenes: rows("scene", top.get("scene"), SCENE),
    })
}

impl SceneForm {
    /// Every field, in order.
    pub fn fields(&self) -> impl Iterator<Item = &Field> {
        let scenes = self.scenes.iter().flat_map(|row| &row.fields);
        self.top.iter().chain(scenes)
    }
}

impl Row {
    /// The field of a key.
    pub fn of(&self, key: &str) -> Option<&Field> {
        self.fields.iter().find(|field| field.key == key)
    }
}

/// The text with fields filled in anew, as [`super::filled`] does it for a recipe.
pub fn scenes_filled(text: &str, typed: &BTreeMap<String, String>) -> Result<String, NotRevised> {
    let form = scene_form(text).ok_or(NotRevised::Unreadable)?;
    fill_in(text, form.fields(), typed)
}

/// The text in which every scene that has no name yet is given the next: S01, S02.
pub fn scenes_named(text: &str) -> Result<String, NotRevised> {
    let form = scene_form(text).ok_or(NotRevised::Unreadable)?;
    let name = |row: &Row| row.of("name").map_or("", |field| &*field.text).to_owned();
    let mut names: Vec<String> = form.scenes.iter().map(name).collect();
    let mut made = text.to_owned();
    for (place, row) in form.scenes.iter().enumerate() {
        let Some(field) = row.of("name").filter(|field| field.text.is_empty()) else {
            continue;
        };
        let free = (1..).map(|number| format!("S{number:02}"));
        let free = free.into_iter().find(|name| !names.contains(name));
        let free = free.unwrap_or_default();
        made = set_value(&made, &super::fill::way(&field.path), &free.as_str().into())?;
        names[place] = free;
    }
    Ok(made)
}

#[cfg(test)]
mod tests {
    use super::super::{Act, acted};
    use super::{scene_form, scenes_filled, scenes_named};
    use std::collections::BTreeMap;

    const TEXT: &str = include_str!("../../../../../examples/scenes/cardamom-dough.toml");

    fn with(path: &str, typed: &str) -> String {
        scenes_filled(TEXT, &BTreeMap::from([(path.to_owned(), typed.to_owned())])).expect("TOML")
    }

    #[test]
    fn a_form_of_scenes_sent_back_as_it_was_changes_no_byte() {
        let form = scene_form(TEXT).expect("TOML");
        let back = form.fields();
        let back = back.map(|field| (field.path.clone(), field.text.replace('\n', "\r\n")));
        assert_eq!(scenes_filled(TEXT, &back.collect()).as_deref(), Ok(TEXT));
    }

    #[test]
    fn minutes_states_and_clocks_are_written_as_a_file_has_them() {
        assert_eq!(
            with("scene.4.for", "18"),
            TEXT.replacen(
                "for = \"15 min\"\nneeds = [\"dough risen\"]",
                "for = \"18 min\"\nneeds = [\"dough risen\"]",
                1
            )
        );
        assert!(with("scene.4.set-up", "7").contains("set-up = \"7 min\"\n"));
        assert!(
            with("scene.4.needs", "dough risen\nloaf baked")
                .contains("needs = [\"dough risen\", \"loaf baked\"]")
        );
        assert!(with("scene.4.at", "9:05").contains("at = 09:05\n"));
        assert!(with("call", "7:30").contains("call = 07:30\n"));
    }

    #[test]
    fn scenes_come_move_and_go_and_new_ones_are_numbered() {
        let act = |text: &str, words: &str| {
            acted(text, &Act::of(words).expect("an act")).expect("the place is there")
        };
        let more = scenes_named(&act(TEXT, "add scene")).expect("TOML");
        let form = scene_form(&more).expect("TOML");
        assert_eq!(form.scenes.len(), 16);
        assert_eq!(form.scenes[15].of("name").expect("a name").text, "S16");
        assert_eq!(act(&more, "take-out scene.15"), TEXT);
        let moved = act(TEXT, "later scene.0");
        let form = scene_form(&moved).expect("TOML");
        assert_eq!(form.scenes[0].of("name").expect("a name").text, "S02");
        assert_eq!(act(&moved, "earlier scene.1"), TEXT);
    }
}
