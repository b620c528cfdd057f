//! Published relations, one file each: what they say, where they hold, who says so.

pub mod boiling;
pub mod conductivity;
pub mod crust;
pub mod density;
pub mod heats;
pub mod ice;
pub mod milk_fat;
pub mod proximate;
pub mod salmonella;
pub mod specific_heat;
pub mod steam;
pub mod vessel;
pub mod yeast;
