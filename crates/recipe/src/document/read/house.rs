//! Reads the house style: what the author chose where guides to recipe writing disagree.

use super::fields::Fields;
use super::value::Reader;
use crate::document::model::{
    Actions, Degrees, House, ListOrder, Measures, Opening, Ranges, Scales,
};

/// Reads it; what is not written stays open.
pub fn house(reader: &mut Reader<'_>, mut fields: Fields<'_>) -> House {
    let house = House {
        list: fields.word(reader, "list", ListOrder::ALL, ListOrder::word),
        measures: fields.word(reader, "measures", Measures::ALL, Measures::word),
        scales: fields.word(reader, "scales", Scales::ALL, Scales::word),
        ranges: fields.word(reader, "ranges", Ranges::ALL, Ranges::word),
        degrees: fields.word(reader, "degrees", Degrees::ALL, Degrees::word),
        opening: fields.word(reader, "opening", Opening::ALL, Opening::word),
        actions: fields.word(reader, "actions", Actions::ALL, Actions::word),
    };
    fields.finish(reader);
    house
}
