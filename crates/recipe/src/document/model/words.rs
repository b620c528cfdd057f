//! The few words that a document chooses from: tools, speeds, places, materials, crusts.

/// With what a dough is mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// A stand mixer with its hook.
    Mixer,
    /// Hands on a bench.
    Hand,
    /// A spoon in a bowl.
    Spoon,
}

impl Tool {
    /// Every tool.
    pub const ALL: [Self; 3] = [Self::Mixer, Self::Hand, Self::Spoon];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mixer => "mixer",
            Self::Hand => "hand",
            Self::Spoon => "spoon",
        }
    }
}

/// A speed of mixing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Speed {
    /// Slow.
    Low,
    /// Middling.
    Medium,
    /// Fast.
    High,
}

impl Speed {
    /// Every speed.
    pub const ALL: [Self; 3] = [Self::Low, Self::Medium, Self::High];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::High => "high",
        }
    }
}

/// Where a dough stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// In the room.
    Room,
    /// In a warm place.
    WarmPlace,
    /// In the refrigerator.
    Refrigerator,
    /// In a cool room or cellar.
    CoolPlace,
}

impl Standing {
    /// Every place.
    pub const ALL: [Self; 4] = [
        Self::Room,
        Self::WarmPlace,
        Self::Refrigerator,
        Self::CoolPlace,
    ];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Room => "room",
            Self::WarmPlace => "warm place",
            Self::Refrigerator => "refrigerator",
            Self::CoolPlace => "cool place",
        }
    }
}

/// What bowls and tins are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Material {
    /// Stainless steel.
    Steel,
    /// Aluminium.
    Aluminium,
    /// Borosilicate or soda-lime glass.
    Glass,
    /// Stoneware or earthenware.
    Stoneware,
    /// Polypropylene and its like.
    Plastic,
    /// Wood.
    Wood,
    /// Light, shiny sheet metal.
    LightMetal,
    /// Dark or coated sheet metal.
    DarkMetal,
    /// Silicone.
    Silicone,
    /// Paper mould.
    Paper,
}

impl Material {
    /// Every material.
    pub const ALL: [Self; 10] = [
        Self::Steel,
        Self::Aluminium,
        Self::Glass,
        Self::Stoneware,
        Self::Plastic,
        Self::Wood,
        Self::LightMetal,
        Self::DarkMetal,
        Self::Silicone,
        Self::Paper,
    ];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
            Self::Glass => "glass",
            Self::Stoneware => "stoneware",
            Self::Plastic => "plastic",
            Self::Wood => "wood",
            Self::LightMetal => "light metal",
            Self::DarkMetal => "dark metal",
            Self::Silicone => "silicone",
            Self::Paper => "paper",
        }
    }
}

/// How dark a crust is, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Crust {
    /// Pale gold.
    Pale,
    /// Golden.
    Golden,
    /// Brown.
    Brown,
    /// Dark brown.
    Dark,
}

impl Crust {
    /// Every crust.
    pub const ALL: [Self; 4] = [Self::Pale, Self::Golden, Self::Brown, Self::Dark];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pale => "pale",
            Self::Golden => "golden",
            Self::Brown => "brown",
            Self::Dark => "dark",
        }
    }
}
