//! The words by which a claim is known, and what to do about each family of them.

/// A sign of a claim: words in a row, `*` for any one word, and what to do.
pub(super) struct Sign {
    /// The words.
    pub words: &'static [&'static str],
    /// What to do.
    pub way_out: &'static str,
}

/// For what is said of bread.
pub(super) const SOFTEN: &str =
    "Name who says so, or say it as what you have seen: “I find that …”.";
const HEALTH: &str = "Leave it out, or name a source that has looked at it: a claim about health is governed by law.";
const FREE: &str = "Say what is in it; “free from” is for what a laboratory has found free.";
pub(super) const HISTORY: &str = "Name the book or archive, or say that it is a story told of it.";

/// Signs in families.
pub(super) const SIGNS: &[Sign] = &[
    Sign {
        words: &["scientifically"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["scientists"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["studies", "show"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["research", "shows"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["research", "says"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["proven"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["guaranteed"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["guarantee"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["never", "fails"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["can't", "fail"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["foolproof"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["the", "only", "way"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["only", "works", "with"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["won't", "work", "without"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["won't", "work", "with"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["kills", "the", "yeast"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["kill", "the", "yeast"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["kills", "yeast"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["twice", "as", "fast"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["twice", "as", "good"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["twice", "as", "strong"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["the", "secret"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["every", "baker", "knows"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["everyone", "knows"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["everybody", "knows"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["experts"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["the", "best", "*", "in", "the", "world"],
        way_out: SOFTEN,
    },
    Sign {
        words: &["healthy"],
        way_out: HEALTH,
    },
    Sign {
        words: &["healthier"],
        way_out: HEALTH,
    },
    Sign {
        words: &["healthiest"],
        way_out: HEALTH,
    },
    Sign {
        words: &["good", "for", "you"],
        way_out: HEALTH,
    },
    Sign {
        words: &["good", "for", "your"],
        way_out: HEALTH,
    },
    Sign {
        words: &["better", "for", "you"],
        way_out: HEALTH,
    },
    Sign {
        words: &["easier", "to", "digest"],
        way_out: HEALTH,
    },
    Sign {
        words: &["easy", "to", "digest"],
        way_out: HEALTH,
    },
    Sign {
        words: &["digestible"],
        way_out: HEALTH,
    },
    Sign {
        words: &["digestion"],
        way_out: HEALTH,
    },
    Sign {
        words: &["immune"],
        way_out: HEALTH,
    },
    Sign {
        words: &["cures"],
        way_out: HEALTH,
    },
    Sign {
        words: &["gut", "*"],
        way_out: HEALTH,
    },
    Sign {
        words: &["blood", "sugar"],
        way_out: HEALTH,
    },
    Sign {
        words: &["cholesterol"],
        way_out: HEALTH,
    },
    Sign {
        words: &["low", "fat"],
        way_out: HEALTH,
    },
    Sign {
        words: &["low", "gluten"],
        way_out: HEALTH,
    },
    Sign {
        words: &["low", "in", "*"],
        way_out: HEALTH,
    },
    Sign {
        words: &["intolerant"],
        way_out: HEALTH,
    },
    Sign {
        words: &["intolerance"],
        way_out: HEALTH,
    },
    Sign {
        words: &["less", "gluten"],
        way_out: HEALTH,
    },
    Sign {
        words: &["antioxidants"],
        way_out: HEALTH,
    },
    Sign {
        words: &["gluten", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["dairy", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["lactose", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["sugar", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["nut", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["egg", "free"],
        way_out: FREE,
    },
    Sign {
        words: &["vegan"],
        way_out: FREE,
    },
    Sign {
        words: &["antibiotic"],
        way_out: HEALTH,
    },
    Sign {
        words: &["antibacterial"],
        way_out: HEALTH,
    },
    Sign {
        words: &["antiseptic"],
        way_out: HEALTH,
    },
    Sign {
        words: &["detox"],
        way_out: HEALTH,
    },
    Sign {
        words: &["superfood"],
        way_out: HEALTH,
    },
    Sign {
        words: &["vitamins"],
        way_out: HEALTH,
    },
    Sign {
        words: &["probiotic"],
        way_out: HEALTH,
    },
    Sign {
        words: &["probiotics"],
        way_out: HEALTH,
    },
    Sign {
        words: &["stomach"],
        way_out: HEALTH,
    },
    Sign {
        words: &["heart", "*"],
        way_out: HEALTH,
    },
    Sign {
        words: &["diabetics"],
        way_out: HEALTH,
    },
    Sign {
        words: &["fattening"],
        way_out: HEALTH,
    },
    Sign {
        words: &["the", "gluten", "out"],
        way_out: HEALTH,
    },
    Sign {
        words: &["breaks", "down", "the", "gluten"],
        way_out: HEALTH,
    },
    Sign {
        words: &["gluten", "is", "gone"],
        way_out: HEALTH,
    },
    Sign {
        words: &["can't", "eat", "wheat"],
        way_out: HEALTH,
    },
    Sign {
        words: &["coeliacs", "can"],
        way_out: HEALTH,
    },
    Sign {
        words: &["celiacs", "can"],
        way_out: HEALTH,
    },
    Sign {
        words: &["bakes", "off"],
        way_out: HEALTH,
    },
    Sign {
        words: &["hundred", "years"],
        way_out: HISTORY,
    },
    Sign {
        words: &["thousand", "years"],
        way_out: HISTORY,
    },
    Sign {
        words: &["ancient"],
        way_out: HISTORY,
    },
    Sign {
        words: &["romans"],
        way_out: HISTORY,
    },
    Sign {
        words: &["egyptians"],
        way_out: HISTORY,
    },
    Sign {
        words: &["monks"],
        way_out: HISTORY,
    },
    Sign {
        words: &["been", "baked", "since"],
        way_out: HISTORY,
    },
    Sign {
        words: &["invented"],
        way_out: HISTORY,
    },
    Sign {
        words: &["originated"],
        way_out: HISTORY,
    },
    Sign {
        words: &["comes", "from", "the", "*", "century"],
        way_out: HISTORY,
    },
    Sign {
        words: &["century"],
        way_out: HISTORY,
    },
    Sign {
        words: &["centuries"],
        way_out: HISTORY,
    },
    Sign {
        words: &["dates", "back"],
        way_out: HISTORY,
    },
    Sign {
        words: &["goes", "back", "to"],
        way_out: HISTORY,
    },
    Sign {
        words: &["medieval"],
        way_out: HISTORY,
    },
    Sign {
        words: &["middle", "ages"],
        way_out: HISTORY,
    },
    Sign {
        words: &["vikings"],
        way_out: HISTORY,
    },
    Sign {
        words: &["the", "original", "recipe"],
        way_out: HISTORY,
    },
    Sign {
        words: &["the", "first", "ever"],
        way_out: HISTORY,
    },
];
