//! What the one who asks says of their own kitchen, tin, yeast and flour, read as a cook writes it.

use numerics::quantity::{Duration, Fraction, Mass};
use recipe::document::KitchenValue;
use recipe::document::model::Material;
use recipe::measure::Unread;
use recipe::measure::read::{read_mass, read_share, read_time};
use recipe::scale::{TinWish, for_product, read_tin};

/// What an asker says; what they do not say is taken as each answer tells.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// Their tin, and for which product.
    pub tin: Option<(Option<String>, TinWish)>,
    /// The yeast that they have.
    pub yeast: Option<Mass>,
    /// How many months ago the yeast was made.
    pub yeast_months: Option<f64>,
    /// What it still does against new yeast.
    pub yeast_power: Option<Fraction>,
    /// Protein of their flour.
    pub protein: Option<Fraction>,
    /// The size of their eggs.
    pub egg: Option<String>,
    /// What a cup of flour weighs as they fill it.
    pub cup: Option<Mass>,
    /// The flour that their mixer takes.
    pub flour_limit: Option<Mass>,
    /// When the bread is wanted, from midnight.
    pub serve_at: Option<Duration>,
    /// A share of the flour, the butter or the sugar, as the question goes.
    pub share: Option<Fraction>,
    /// How long the dough stood out.
    pub left_out: Option<Duration>,
    /// Of what their tin is.
    pub material: Option<Material>,
}

/// One thing that an asker says.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// A value of the kitchen.
    Kitchen(KitchenValue),
    /// A tin, and for which product.
    Tin(Option<String>, Box<TinWish>),
    /// Yeast at hand.
    Yeast(Mass),
    /// Its age, months.
    YeastMonths(f64),
    /// Its power.
    YeastPower(Fraction),
    /// Protein of the flour.
    Protein(Fraction),
    /// Size of the eggs.
    Egg(String),
    /// Grams in a cup of flour.
    Cup(Mass),
    /// What the mixer takes.
    FlourLimit(Mass),
    /// When it is wanted.
    ServeAt(Duration),
    /// A share.
    Share(Fraction),
    /// How long it stood.
    LeftOut(Duration),
    /// What the tin is made of.
    Material(Material),
}

/// What can be said besides the values of a kitchen, each with an example.
pub const NAMES: [(&str, &str); 12] = [
    ("tin", "950mL"),
    ("material", "glass"),
    ("yeast", "7g"),
    ("yeast-age", "8months"),
    ("yeast-power", "60%"),
    ("protein", "10.5%"),
    ("egg", "medium"),
    ("cup", "145g"),
    ("flour-limit", "500g"),
    ("serve-at", "08:00"),
    ("share", "25%"),
    ("left-out", "6h"),
];

impl Fact {
    /// Reads "tin=950mL" or "room=17C". What cannot be read is said in a sentence, with every name there is.
    pub fn read(words: &str) -> Result<Self, String> {
        // "tin 950mL" and "room: 16C" are as good as with the sign.
        let known = |name: &str| NAMES.iter().any(|(own, _)| own.eq_ignore_ascii_case(name));
        let parts = words.split_once('=').or_else(|| {
            let parts = words.split_once([':', ' ']);
            parts.filter(|(name, _)| known(name))
        });
        let Some((name, value)) = parts else {
            let kitchen = KitchenValue::read(&words.replacen([':', ' '], "=", 1));
            return kitchen.map(Self::Kitchen).map_err(|_| {
                format!(
                    "“{words}” is not understood: write what it is, “=”, and how much, as in room=16C. {}",
                    names()
                )
            });
        };
        let (name, value) = (
            name.trim().to_lowercase().replace([' ', '_'], "-"),
            value.trim(),
        );
        let read = match name.as_str() {
            "tin" => {
                let (product, tin) = for_product(value);
                read_tin(tin).map(|tin| Self::Tin(product, Box::new(tin)))
            }
            "yeast" => positive(value).map(Self::Yeast),
            "yeast-age" => months(value).map(Self::YeastMonths),
            "yeast-power" => share(value, 0.05, 1.0).map(Self::YeastPower),
            "protein" => share(value, 0.06, 0.18).map(Self::Protein),
            "egg" => recipe::larder::egg_class(value)
                .map(|_| Self::Egg(value.to_owned()))
                .ok_or_else(|| {
                    format!("“{value}” is no size of egg. Write medium, extra large or EU L.")
                }),
            "cup" => positive(value).map(Self::Cup),
            "flour-limit" => positive(value).map(Self::FlourLimit),
            "serve-at" => clock(value).map(Self::ServeAt),
            "share" => share(value, 0.0, 1.0).map(Self::Share),
            "left-out" => read_time(value).map(Self::LeftOut).map_err(said),
            "material" => Material::ALL
                .into_iter()
                .find(|one| one.word() == value.to_lowercase().replace('-', " "))
                .map(Self::Material)
                .ok_or_else(|| {
                    let all: Vec<&str> = Material::ALL.iter().map(|one| one.word()).collect();
                    format!("“{value}” is none of {}.", all.join(", "))
                }),
            _ => {
                let kitchen = KitchenValue::read(words).map(Self::Kitchen);
                return kitchen.map_err(|said| format!("{said} {}", names()));
            }
        };
        read.map_err(|said| format!("`{name}`: {said} {}", names()))
    }
}

fn names() -> String {
    let all: Vec<String> = NAMES
        .iter()
        .map(|(name, example)| format!("{name}={example}"))
        .collect();
    format!("Besides the kitchen's values: {}.", all.join(", "))
}

fn said(unread: Unread) -> String {
    match unread.hint {
        Some(hint) => format!("{} {hint}", unread.message),
        None => unread.message,
    }
}

fn positive(value: &str) -> Result<Mass, String> {
    let mass = read_mass(value).map_err(said)?;
    if mass > Mass::ZERO && mass < Mass::from_grams(50_000.0) {
        Ok(mass)
    } else {
        Err(format!("“{value}” is no mass for a kitchen."))
    }
}

fn share(value: &str, low: f64, high: f64) -> Result<Fraction, String> {
    let share = read_share(value).map_err(said)?;
    if (low..=high).contains(&share.si()) {
        Ok(share)
    } else {
        Err(format!(
            "“{value}” lies outside {}–{} %.",
            numerics::decimal::trimmed(low * 100.0, 0),
            numerics::decimal::trimmed(high * 100.0, 0)
        ))
    }
}

/// "8 months", "1 year".
fn months(value: &str) -> Result<f64, String> {
    let fault = || format!("“{value}” is no age. Write 8 months or 2 years.");
    let split = value
        .find(|letter: char| letter.is_alphabetic())
        .ok_or_else(fault)?;
    let number: f64 = value[..split].trim().parse().map_err(|_| fault())?;
    let months = match value[split..].trim().trim_end_matches('s') {
        "month" => number,
        "year" => number * 12.0,
        "week" => number * 12.0 / 52.0,
        _ => return Err(fault()),
    };
    (0.0..=240.0)
        .contains(&months)
        .then_some(months)
        .ok_or_else(fault)
}

/// "08:00", "18:30".
fn clock(value: &str) -> Result<Duration, String> {
    let fault = || format!("“{value}” is no time of day. Write 08:00.");
    let (hours, minutes) = value.split_once(':').ok_or_else(fault)?;
    let hours: u8 = hours.parse().map_err(|_| fault())?;
    let minutes: u8 = minutes.parse().map_err(|_| fault())?;
    if hours > 23 || minutes > 59 {
        return Err(fault());
    }
    Ok(Duration::from_minutes(
        f64::from(hours) * 60.0 + f64::from(minutes),
    ))
}

impl Facts {
    /// The same with one more; a value of the kitchen is not kept here.
    #[must_use]
    pub fn with(mut self, fact: Fact) -> Self {
        match fact {
            Fact::Kitchen(_) => {}
            Fact::Tin(product, tin) => self.tin = Some((product, *tin)),
            Fact::Yeast(mass) => self.yeast = Some(mass),
            Fact::YeastMonths(months) => self.yeast_months = Some(months),
            Fact::YeastPower(power) => self.yeast_power = Some(power),
            Fact::Protein(protein) => self.protein = Some(protein),
            Fact::Egg(size) => self.egg = Some(size),
            Fact::Cup(mass) => self.cup = Some(mass),
            Fact::FlourLimit(mass) => self.flour_limit = Some(mass),
            Fact::ServeAt(time) => self.serve_at = Some(time),
            Fact::Share(share) => self.share = Some(share),
            Fact::LeftOut(time) => self.left_out = Some(time),
            Fact::Material(material) => self.material = Some(material),
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::Fact;
    use numerics::quantity::{Duration, Mass};

    #[test]
    fn facts_are_read_as_a_cook_writes_them() {
        assert_eq!(
            Fact::read("yeast=7g"),
            Ok(Fact::Yeast(Mass::from_grams(7.0)))
        );
        assert_eq!(Fact::read("yeast-age=2 years"), Ok(Fact::YeastMonths(24.0)));
        assert_eq!(
            Fact::read("serve-at=08:30"),
            Ok(Fact::ServeAt(Duration::from_minutes(510.0)))
        );
        assert!(matches!(Fact::read("room=17C"), Ok(Fact::Kitchen(_))));
        assert!(matches!(Fact::read("tin=950mL"), Ok(Fact::Tin(None, _))));
    }

    #[test]
    fn what_cannot_be_read_names_everything_that_can() {
        for words in [
            "tin",
            "protein=80%",
            "serve-at=25:00",
            "egg=huge",
            "colour=red",
            "yeast=-3g",
        ] {
            let said = Fact::read(words).expect_err(words);
            assert!(said.contains("serve-at=08:00"), "{said}");
        }
    }
}
