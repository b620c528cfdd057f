//! For whose kitchens a recipe is printed: the cups, spoons and words of a country.

/// The English of a country, with its measures and its names of things.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Market {
    /// United States.
    #[default]
    UnitedStates,
    /// United Kingdom and Ireland.
    UnitedKingdom,
    /// Australia and New Zealand.
    Australia,
}

impl Market {
    /// Every market.
    pub const ALL: [Self; 3] = [Self::UnitedStates, Self::UnitedKingdom, Self::Australia];

    /// Its language tag (BCP 47).
    pub const fn tag(self) -> &'static str {
        match self {
            Self::UnitedStates => "en-US",
            Self::UnitedKingdom => "en-GB",
            Self::Australia => "en-AU",
        }
    }

    /// The market of a language tag; none when it is not one of ours.
    pub fn of_tag(tag: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|market| market.tag().eq_ignore_ascii_case(tag))
    }
}
