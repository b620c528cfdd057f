//! What is being done, as words tell it: a rise, a bake, a chill, the reading of a thermometer.

use super::speech::Word;

/// Things that are done, as a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Doing(pub u32);

impl Doing {
    pub const NONE: Self = Self(0);
    pub const MIX: Self = Self(1);
    pub const HEAT: Self = Self(1 << 1);
    pub const REST: Self = Self(1 << 2);
    pub const CHILL: Self = Self(1 << 3);
    pub const BAKE: Self = Self(1 << 4);
    pub const COOL: Self = Self(1 << 5);
    pub const WAKE: Self = Self(1 << 6);
    pub const FOLD: Self = Self(1 << 7);
    pub const SHAPE: Self = Self(1 << 8);
    pub const DIVIDE: Self = Self(1 << 9);
    pub const READY: Self = Self(1 << 10);
    pub const PREHEAT: Self = Self(1 << 11);
    pub const FINISH: Self = Self(1 << 12);
    pub const CORE: Self = Self(1 << 13);
    pub const OVEN: Self = Self(1 << 14);
    pub const DOUGH: Self = Self(1 << 15);
    pub const CHECK: Self = Self(1 << 16);
    pub const STORE: Self = Self(1 << 17);
    pub const WARM: Self = Self(1 << 18);
    pub const TOTAL: Self = Self(1 << 19);

    /// Both sets together.
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether they have something in common.
    pub const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether there is nothing in it.
    pub const fn is_none(self) -> bool {
        self.0 == 0
    }

    /// How many there are in common.
    pub const fn shared(self, other: Self) -> u32 {
        (self.0 & other.0).count_ones()
    }
}

/// What one word tells by its stem.
#[allow(clippy::match_same_arms)] // arms stand by what they tell of
fn word(stem: &str, lower: &str) -> Doing {
    match stem {
        "mix" | "knead" | "mixer" | "hook" | "speed" | "beat" | "stir" | "combin" => Doing::MIX,
        "low" | "medium" if lower == stem => Doing::MIX,
        "cook" | "pan" | "whisk" | "simmer" | "saucepan" | "stov" | "hob" | "burner" => Doing::HEAT,
        "ris" | "prov" | "proof" | "doubl" | "tripl" | "trebl" | "bulk" | "ferment" | "ripen"
        | "puff" | "rest" | "relax" | "sleep" | "doz" | "stand" | "sit" | "domed" | "dom" => {
            Doing::REST
        }
        "refrigerator" | "refrigerat" | "chill" | "cold" => Doing::CHILL,
        "bak" | "brown" | "golden" => Doing::BAKE,
        "oven" => Doing::OVEN,
        "rack" | "cool" | "slic" | "cut" | "knif" => Doing::COOL,
        "foam" | "bloom" | "dissolv" | "froth" | "wak" => Doing::WAKE,
        "fold" => Doing::FOLD,
        "shap" | "roll" | "tie" | "twist" | "knot" | "braid" | "plait" | "rop" | "strand"
        | "strip" | "round" => Doing::SHAPE,
        "divid" | "scal" | "piec" | "portion" => Doing::DIVIDE,
        "preheat" => Doing::PREHEAT.and(Doing::OVEN),
        "brush" | "wash" | "glaz" | "scatter" | "sprinkl" | "egg-wash" | "paint" | "dab" => {
            Doing::FINISH
        }
        "middl" | "insid" | "cor" | "internal" | "prob" | "thickest" => Doing::CORE,
        "thermometer" => Doing::CORE.and(Doing::HEAT).and(Doing::DOUGH),
        "dial" | "fan" | "convection" => Doing::OVEN,
        "check" | "peek" | "peep" | "peer" => Doing::CHECK,
        "freez" | "freezer" | "stor" | "stal" | "refresh" | "freshen" | "reheat" | "reviv"
        | "thaw" | "defrost" => Doing::STORE,
        "overnight" | "night" | "counter" | "worktop" | "cloth" | "towel" | "cover" => Doing::REST,
        "warm" | "warmish" | "snug" | "toasty" | "warmth" => Doing::WARM,
        _ => Doing::NONE,
    }
}

/// What a run of words tells.
pub(super) fn doing(words: &[Word]) -> Doing {
    let mut all = Doing::NONE;
    for (at, one) in words.iter().enumerate() {
        let before = |back: usize| at.checked_sub(back).map_or("", |n| words[n].lower.as_str());
        let next = words.get(at + 1).map_or("", |w| w.lower.as_str());
        let mut told = word(&one.stem, &one.lower);
        match one.stem.as_str() {
            // "out of the fridge" is about what gets warm.
            "refrigerator" if (1..=4).any(|back| before(back) == "out") => told = Doing::READY,
            // "until it's cold" is on the rack.
            "cold"
                if before(1) == "it's" && matches!(before(2), "until" | "till")
                    || matches!(before(1), "is" | "are")
                        && matches!(before(3), "until" | "till") =>
            {
                told = Doing::COOL;
            }
            // "room-cold" and "cold milk" are states, no chill.
            "cold" if !matches!(before(1), "the" | "it" | "go" | "goes" | "gets") => {
                told = Doing::NONE;
            }
            "cut" | "cool" if matches!(next, "into" | "in") && one.stem == "cut" => {
                told = Doing::DIVIDE;
            }
            // "Ones that have been out for an hour"
            "out" if matches!(before(1), "been" | "sat" | "sitting" | "stood") => {
                told = Doing::READY;
            }
            // "the rest of the flour"
            "rest" if next == "of" => told = Doing::NONE,
            "stand" if next == "mixer" => told = Doing::MIX,
            "heat" if next == "the" => told = Doing::PREHEAT,
            // "Heat your oven"
            "heat"
                if matches!(next, "your" | "my" | "this" | "that" | "our")
                    && words.get(at + 2).is_some_and(|w| w.stem == "oven") =>
            {
                told = Doing::PREHEAT.and(Doing::OVEN);
            }
            // "The oven needs twenty-five minutes to heat", "wants half an hour to reach two hundred", "to get to four hundred"
            "heat" | "reach" | "get"
                if before(1) == "to"
                    && (one.stem != "get" || next == "to")
                    && words[..at].iter().any(|w| w.stem == "oven") =>
            {
                told = Doing::PREHEAT.and(Doing::OVEN);
            }
            // "And then you are frying, not baking"
            "bak" if before(1) == "not" => told = Doing::NONE,

            // "Fifty minutes before it goes in the oven": no bake yet.
            "oven" if goes_in_later(&words[..at]) => told = Doing::NONE,
            // "The plait", "that braid": what it is, and nothing that is done.
            "braid" | "plait"
                if one.lower == one.stem
                    && matches!(before(1), "the" | "your" | "that" | "this" | "my" | "a") =>
            {
                told = Doing::NONE;
            }
            // "I put a match to the oven"
            "match" if next == "to" && ahead(words, at, "oven") => {
                told = Doing::PREHEAT.and(Doing::OVEN);
            }
            // "Get that oven warming up", "fire up the oven"
            "warm" | "fir" | "crank"
                if next == "up" && (ahead(words, at, "oven") || back(words, at, "oven")) =>
            {
                told = Doing::PREHEAT.and(Doing::OVEN);
            }
            // "A quarter of an hour to come up"
            "com" if next == "up" && before(1) == "to" => told = Doing::PREHEAT.and(Doing::REST),
            "heat" if matches!(one.lower.as_str(), "heats" | "heating") => {
                told = Doing::PREHEAT.and(Doing::HEAT);
            }
            "heat" if matches!(before(1), "medium" | "low" | "gentle" | "over") => {
                told = Doing::HEAT;
            }
            // A pan of a bake is none on the stove.
            "pan"
                if matches!(
                    before(1),
                    "sheet"
                        | "loaf"
                        | "baking"
                        | "bread"
                        | "tube"
                        | "cake"
                        | "lower"
                        | "empty"
                        | "steam"
                        | "roasting"
                ) =>
            {
                told = Doing::NONE;
            }
            // "pull each side up and over"
            "pull" | "lift" | "stretch" | "draw" | "bring"
                if (1..=4).any(|more| words.get(at + more).is_some_and(|w| w.stem == "sid")) =>
            {
                told = Doing::FOLD;
            }
            "sid" if before(1) == "the" && before(2) == "on" => told = Doing::REST,
            // "twenty-five minutes to get properly hot", "to get there"
            "hot" | "ther"
                if (1..=2).any(|back| matches!(before(back), "get" | "gets" | "getting"))
                    && (2..=4).any(|back| before(back) == "to") =>
            {
                told = Doing::PREHEAT.and(Doing::OVEN);
            }
            "back" if matches!(before(2), "bring" | "brings") => told = Doing::STORE,
            "keep"
                if matches!(
                    next,
                    "it" | "them" | "for" | "two" | "three" | "a" | "well" | "in" | ""
                ) && !matches!(
                    words.get(at + 2).map_or("", |w| w.lower.as_str()),
                    "warm" | "cold" | "cool" | "moving" | "going" | "covered" | "eye" | "close"
                ) =>
            {
                told = Doing::STORE;
            }
            "low" | "medium" if next == "heat" => told = Doing::HEAT,
            "roll" | "knot" | "braid" | "plait" | "round" | "piec" | "strip"
                if one.lower.ends_with('s') || one.stem == "round" =>
            {
                told = Doing::NONE;
            }
            "middl" if matches!(next, "of" | "rack" | "shelf") && ahead(words, at, "oven") => {
                told = Doing::BAKE;
            }
            // "The middle seventies" are no middle of a bread.
            "middl" if matches!(next, "rack" | "shelf") || next.ends_with("ties") => {
                told = Doing::NONE;
            }
            "insid" if (1..=3).any(|back| matches!(before(back), "tray" | "pan" | "stone")) => {
                told = Doing::NONE;
            }
            // "From the oven to the knife"
            "oven" if before(1) == "the" && before(2) == "from" && next == "to" => {
                told = Doing::COOL;
            }
            // "the oven's on", "put the oven on", but "in the oven with its light on"
            "oven"
                if words[at + 1..]
                    .iter()
                    .take(3)
                    .any(|w| matches!(w.lower.as_str(), "on" | "going"))
                    && !matches!(before(2), "of" | "in" | "into" | "from" | "inside")
                    && !ahead(words, at, "light") =>
            {
                told = Doing::OVEN.and(Doing::PREHEAT);
            }
            "rack" | "shelf"
                if matches!(
                    before(1),
                    "top" | "middle" | "bottom" | "lower" | "upper" | "oven"
                ) =>
            {
                told = Doing::OVEN.and(Doing::BAKE);
            }
            "third" if matches!(before(1), "lower" | "upper" | "middle" | "bottom" | "top") => {
                told = Doing::OVEN.and(Doing::BAKE);
            }
            "switch" | "light" | "fir"
                if ahead(words, at, "oven")
                    || one.stem == "switch" && next == "on" && back(words, at, "oven") =>
            {
                told = Doing::OVEN.and(Doing::PREHEAT);
            }
            "turn" if matches!(next, "it" | "the" | "down" | "on") && ahead(words, at, "oven") => {
                told = Doing::OVEN.and(Doing::PREHEAT);
            }
            "turn" if next == "out" => told = Doing::COOL.and(Doing::DIVIDE),
            // "the knots were in for twenty minutes"
            "in" if next == "for"
                && matches!(before(1), "were" | "was" | "been" | "goes" | "go") =>
            {
                told = Doing::OVEN.and(Doing::BAKE);
            }
            "in" if next == "at" => told = Doing::OVEN.and(Doing::BAKE),
            "down" if next == "to" || before(1) == "oven" || before(2) == "turn" => {
                told = Doing::OVEN.and(Doing::PREHEAT);
            }
            "temperatur" if (1..=4).any(|back| before(back) == "dough") => told = Doing::DOUGH,
            "dough"
                if [
                    "at",
                    "be",
                    "end",
                    "ends",
                    "comes",
                    "come",
                    "finish",
                    "finishes",
                    "should",
                    "reads",
                    "measure",
                    "temperature",
                    "about",
                    "around",
                    "hit",
                    "hits",
                ]
                .contains(&next) =>
            {
                told = Doing::DOUGH;
            }
            // "Don't even look at it for forty minutes"
            "look" | "check" | "peek"
                if (1..=3).any(|back| matches!(before(back), "don't" | "not" | "never")) =>
            {
                told = Doing::NONE;
            }
            "look" if matches!(next, "at" | "in" | "for") => told = Doing::CHECK,
            "look" if matches!(before(1), "start" | "first" | "a" | "you") => told = Doing::CHECK,
            "start" if next == "to" && words.get(at + 2).is_some_and(|w| w.stem == "finish") => {
                told = Doing::TOTAL;
            }
            "whol" if matches!(next, "thing" | "day" | "lot" | "business" | "process") => {
                told = Doing::TOTAL;
            }
            "pag" | "promis" | "door" if matches!(before(1), "the" | "i" | "we" | "to") => {
                told = Doing::TOTAL;
            }
            "all" if before(1) == "in" || next == "told" || next == "in" => told = Doing::TOTAL,
            "day" if matches!(before(1), "the" | "one" | "whole") => told = Doing::TOTAL,
            "altogether" | "overall" => told = Doing::TOTAL,
            "ahead" | "befor" if next.is_empty() => told = Doing::READY,
            "ahead" => told = Doing::READY,
            _ => {}
        }
        all = all.and(told);
    }
    all
}

/// Whether "before it goes in the" leads up to what follows.
fn goes_in_later(words: &[Word]) -> bool {
    let near = &words[words.len().saturating_sub(6)..];
    let goes = |word: &Word| matches!(word.lower.as_str(), "goes" | "go");
    near.iter()
        .position(|word| word.lower == "before")
        .is_some_and(|at| near[at..].iter().any(goes))
}

/// Whether a word stands within a few before.
fn back(words: &[Word], at: usize, wanted: &str) -> bool {
    words[at.saturating_sub(4)..at]
        .iter()
        .any(|word| word.lower == wanted)
}

/// Whether a word follows within a few.
fn ahead(words: &[Word], at: usize, wanted: &str) -> bool {
    words[at + 1..]
        .iter()
        .take(5)
        .any(|word| word.lower == wanted)
}
