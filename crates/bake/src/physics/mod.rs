//! Published relations, one file each: what they say, where they hold, who says so.

pub mod boiling;
pub mod density;
pub mod heats;
pub mod ice;
pub mod milk_fat;
pub mod proximate;
pub mod specific_heat;
pub mod vessel;
