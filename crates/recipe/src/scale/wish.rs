//! What a cook wishes of a recipe's size, and the tin that a wish names, read as a cook writes it.

use super::household;
use super::vessel::{Vessel, Walls};
use crate::document::model::TinSize;
use crate::formula::TALL_FROM;
use crate::measure::read::{read_length, read_tin_size, read_volume};
use numerics::quantity::{Length, Mass, Volume};

/// A recipe in another size.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// What it shall come to.
    pub to: To,
    /// What is done about eggs that do not come out whole.
    pub eggs: Eggs,
}

/// What a recipe shall come to.
#[derive(Clone, Debug, PartialEq)]
pub enum To {
    /// So many times as much.
    Times(f64),
    /// So much flour in the dough.
    Flour(Mass),
    /// So much dough.
    Dough(Mass),
    /// So many whole eggs in the dough.
    Eggs(u32),
    /// So many pieces of the same size.
    Pieces {
        /// Of which product; none when only one is meant.
        product: Option<String>,
        /// How many.
        count: u32,
    },
    /// Another tin, filled as full as the first.
    Tin {
        /// Of which product; none when only one has a tin.
        product: Option<String>,
        /// The tin.
        tin: TinWish,
    },
}

/// What is done about eggs that do not come out whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Eggs {
    /// A whole number of eggs, water trued up, while the dough's egg stays within a quarter of what
    /// it was; else beaten and weighed.
    Usual,
    /// A whole number of eggs wherever that can be trued up.
    Whole,
    /// Beaten and weighed.
    Weighed,
}

impl Wish {
    /// A wish that does with eggs what is usual.
    pub const fn to(to: To) -> Self {
        Self {
            to,
            eggs: Eggs::Usual,
        }
    }

    /// Half of everything.
    pub const fn half() -> Self {
        Self::to(To::Times(0.5))
    }

    /// So many times everything.
    pub const fn times(factor: f64) -> Self {
        Self::to(To::Times(factor))
    }

    /// The same wish with eggs beaten and weighed.
    #[must_use]
    pub fn weighing_eggs(mut self) -> Self {
        self.eggs = Eggs::Weighed;
        self
    }
}

/// A tin as a wish names it.
#[derive(Clone, Debug, PartialEq)]
pub struct TinWish {
    /// Its dimensions as the document writes them, when they are known.
    pub size: Option<TinSize>,
    /// Its inside, when the dimensions are known.
    pub vessel: Option<Vessel>,
    /// What it holds, as measured or as a chart has it.
    pub holds: Option<Volume>,
    /// Baked with its lid on; none when the wish does not say.
    pub lidded: Option<bool>,
    /// The chart's name, when the wish is one.
    pub chart: Option<String>,
}

impl TinWish {
    /// A tin of which only the volume is known.
    pub const fn holding(volume: Volume) -> Self {
        Self {
            size: None,
            vessel: None,
            holds: Some(volume),
            lidded: None,
            chart: None,
        }
    }

    /// What it holds, and whether that was reckoned from its dimensions.
    pub fn volume(&self) -> Option<(Volume, bool)> {
        self.holds
            .map(|volume| (volume, false))
            .or_else(|| Some((self.vessel?.volume(), true)))
    }
}

/// How a tin may be written, for whoever wrote it otherwise.
const HOW: &str = "Write what it holds, as in 950 mL, or its inside at the rim, as in \
                   23 x 13 x 7 cm or Ø 20 x 7 cm; further words may follow after commas: base 21 x \
                   11 cm, tube 6 cm, upright, lidded, 1.9 L.";

/// Reads a tin: "950mL", "23 x 13 x 8 cm", "Ø 24 x 8 cm, base 11 cm", "Ø 25 x 10 cm, tube 6 cm",
/// "33 x 10 x 10 cm, lidded", "loaf 9x5". The error says what a tin may look like.
pub fn read_tin(text: &str) -> Result<TinWish, String> {
    let fault = |what: &str| format!("{what} {HOW}");
    let mut tin = TinWish {
        size: None,
        vessel: None,
        holds: None,
        lidded: None,
        chart: None,
    };
    let (mut base, mut tube, mut walls) = (None, None, None);
    for part in text.split(',').map(str::trim) {
        let after = |word: &str| part.strip_prefix(word).map(str::trim);
        match part {
            "lidded" => tin.lidded = Some(true),
            "open" => tin.lidded = Some(false),
            "upright" => walls = Some(Walls::Upright),
            _ => {
                if let Some(words) = after("base ") {
                    base = Some(
                        sides(words)
                            .ok_or_else(|| fault(&format!("“{words}” is no base of a tin.")))?,
                    );
                } else if let Some(words) = after("tube ") {
                    tube = Some(read_length(words).map_err(|unread| fault(&unread.message))?);
                } else if let Ok(volume) = read_volume(part.trim_start_matches("holds ")) {
                    tin.holds = Some(volume);
                } else if let Ok(size) = read_tin_size(part.trim_start_matches("ring ")) {
                    tin.size = Some(size);
                } else if let Some(found) = household::called(part) {
                    tin.lidded = found.name.contains("lidded").then_some(true);
                    tin.holds = found.holds;
                    tin.size = Some(found.size);
                    tin.chart = Some(found.name);
                } else {
                    return Err(fault(&format!("“{part}” is no tin that can be read.")));
                }
            }
        }
    }
    if tin.holds.is_some_and(|volume| volume <= Volume::ZERO) {
        return Err(fault("A tin of no volume holds no dough."));
    }
    if let Some(size) = tin.size {
        let lidded = tin.lidded == Some(true);
        let usual = usual_walls(&size, lidded);
        tin.vessel = Vessel::of(&size, walls.unwrap_or(usual))
            .map(|vessel| with_base(vessel, base))
            .map(|vessel| with_tube(vessel, tube));
        if tin
            .vessel
            .is_some_and(|inside| inside.volume() <= Volume::ZERO)
        {
            return Err(fault("These dimensions leave no room for dough."));
        }
    }
    match tin.volume() {
        Some(_) => Ok(tin),
        None => Err(fault(
            "A tray holds no volume, so nothing follows from its size.",
        )),
    }
}

/// A wish for one product, taken apart: "loaf=950mL" is the loaf and the tin, "950mL" no product.
pub fn for_product(text: &str) -> (Option<String>, &str) {
    match text.split_once('=') {
        Some((product, rest)) => (Some(product.trim().to_owned()), rest.trim()),
        None => (None, text.trim()),
    }
}

/// Tall moulds, and lidded tins from which the bread must slide, stand upright; others lean.
pub fn usual_walls(size: &TinSize, lidded: bool) -> Walls {
    match *size {
        TinSize::Round { diameter, height } if height.si() >= TALL_FROM * diameter.si() => {
            Walls::Upright
        }
        TinSize::Box { .. } if lidded => Walls::Upright,
        _ => Walls::Leaning,
    }
}

/// "21 x 11 cm" or "18 cm".
fn sides(words: &str) -> Option<[Length; 2]> {
    match read_tin_size(words) {
        Ok(TinSize::Tray { length, width }) => Some([length, width]),
        _ => read_length(words.trim_start_matches('Ø'))
            .ok()
            .map(|side| [side, side]),
    }
}

fn with_base(vessel: Vessel, base: Option<[Length; 2]>) -> Vessel {
    match (vessel, base) {
        (Vessel::Box { rim, depth, .. }, Some(base)) => Vessel::Box { rim, base, depth },
        (Vessel::Round { rim, depth, .. }, Some([base, _])) => Vessel::Round { rim, base, depth },
        (vessel, _) => vessel,
    }
}

fn with_tube(vessel: Vessel, tube: Option<Length>) -> Vessel {
    match (vessel, tube) {
        (Vessel::Round { rim, base, depth }, Some(tube)) => Vessel::Ring {
            rim,
            base,
            tube,
            depth,
        },
        (vessel, _) => vessel,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use numerics::decimal::trimmed;

    fn ml(text: &str) -> String {
        let tin = read_tin(text).expect(text);
        trimmed(tin.volume().expect(text).0.millilitres(), 0)
    }

    #[test]
    fn a_tin_is_read_as_a_cook_writes_it() {
        assert_eq!(ml("950mL"), "950");
        assert_eq!(ml("1.9 L"), "1900");
        // 7 cm deep, an eighth of that narrower on each side: 21.25 x 11.25 cm at the base.
        assert_eq!(ml("23 x 13 x 7 cm"), "1880");
        assert_eq!(ml("23 x 13 x 7 cm, base 23 x 13 cm"), "2093");
        assert_eq!(ml("Ø 24 x 8 cm, base 11 cm"), "2013");
        assert_eq!(ml("ring Ø 25.4 x 10 cm, tube 6 cm"), "4302");
        assert_eq!(ml("33 x 10.2 x 10.2 cm, lidded"), "3433");
        assert_eq!(ml("loaf 9x5"), "1893");
        assert_eq!(ml("Ø 16.5 x 11 cm"), "2352");
    }

    #[test]
    fn what_is_no_tin_is_said() {
        for text in [
            "40 x 30 cm",
            "a large one",
            "Ø 20 x 7 cm, tube 30 cm",
            "0 mL",
            "",
        ] {
            let said = read_tin(text).expect_err(text);
            assert!(said.contains("950 mL"), "{said}");
        }
    }
}
