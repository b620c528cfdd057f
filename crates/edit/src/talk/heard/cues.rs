//! Words by which a frame opens and closes: persons, other breads, circumstances, times of old. Our own choice.

/// Days and seasons that after "last" are another time.
pub(super) const TIMES_OF_OLD: [&str; 19] = [
    "weekend",
    "fortnight",
    "week",
    "month",
    "year",
    "time",
    "summer",
    "winter",
    "spring",
    "autumn",
    "christmas",
    "easter",
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
];

/// Days by which another time is told.
pub(super) const WEEKDAYS: [&str; 7] = [
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
];

/// Who is spoken of, besides family and friends.
pub(super) const PERSONS: [&str; 28] = [
    "lady",
    "ladies",
    "man",
    "men",
    "woman",
    "women",
    "bloke",
    "blokes",
    "guy",
    "guys",
    "fella",
    "lad",
    "lads",
    "girl",
    "girls",
    "boy",
    "boys",
    "kid",
    "kids",
    "daughter",
    "daughters",
    "son",
    "sons",
    "sister",
    "sisters",
    "nephew",
    "student",
    "students",
];

/// Bread and other things that an oven sees, in the trade's words.
pub(super) const BAKED: [&str; 50] = [
    "bagel",
    "naan",
    "pizza",
    "focaccia",
    "ciabatta",
    "baguette",
    "brioche",
    "sourdough",
    "rye",
    "cake",
    "scone",
    "muffin",
    "biscuit",
    "cookie",
    "pie",
    "tart",
    "croissant",
    "pretzel",
    "pitta",
    "pita",
    "flatbread",
    "roti",
    "chapati",
    "cornbread",
    "gingerbread",
    "shortbread",
    "lamington",
    "pavlova",
    "pudding",
    "casserole",
    "roast",
    "chicken",
    "turkey",
    "lasagne",
    "lasagna",
    "crumpet",
    "pancake",
    "stollen",
    "challah",
    "babka",
    "doughnut",
    "donut",
    "meringue",
    "quiche",
    "bloomer",
    "bap",
    "teacake",
    "flapjack",
    "brownie",
    "damper",
];

/// Kinds of bread by a word before it, in the trade's words.
pub(super) const KINDS: [&str; 26] = [
    "white",
    "brown",
    "rye",
    "sandwich",
    "currant",
    "banana",
    "soda",
    "fruit",
    "wholemeal",
    "wholewheat",
    "seeded",
    "malt",
    "corn",
    "country",
    "farmhouse",
    "spelt",
    "oat",
    "potato",
    "garlic",
    "ginger",
    "burger",
    "dinner",
    "sourdough",
    "raisin",
    "tea",
    "walnut",
];

/// What a bread does in an oven's talk.
pub(super) const FARES: [&str; 27] = [
    "would", "use", "uses", "used", "runs", "go", "goes", "get", "gets", "want", "wants", "take",
    "takes", "need", "needs", "has", "have", "bake", "bakes", "is", "are", "likes", "sits",
    "stands", "does", "rises", "ferments",
];

/// What is read, and is not this recipe.
pub(super) const READ: [&str; 13] = [
    "packet", "packets", "box", "book", "books", "internet", "magazine", "label", "website",
    "websites", "forum", "manual", "leaflet",
];

/// How it is told there.
pub(super) const SAYS: [&str; 14] = [
    "say", "says", "said", "tell", "tells", "told", "want", "wants", "reckons", "has", "gives",
    "calls", "claims", "asks",
];

/// Circumstances in which other figures hold.
pub(super) const CIRCUMSTANCES: [&str; 52] = [
    "kitchen",
    "house",
    "flat",
    "place",
    "room",
    "home",
    "apartment",
    "weather",
    "summer",
    "winter",
    "january",
    "february",
    "july",
    "august",
    "december",
    "hotter",
    "colder",
    "warmer",
    "cooler",
    "altitude",
    "mountains",
    "tropics",
    "outside",
    "runs",
    "fresh",
    "instead",
    "different",
    "another",
    "bigger",
    "smaller",
    "double",
    "doubling",
    "halving",
    "halve",
    "only",
    "draughty",
    "fan",
    "heatwave",
    "hill",
    "boat",
    "caravan",
    "hurry",
    "rush",
    "hand",
    "cold",
    "chilly",
    "freezing",
    "hot",
    "warm",
    "cool",
    "humid",
    "damp",
];

/// Seasons that by themselves are a case: "in August you'll be done in forty minutes".
pub(super) const SEASONS: [&str; 17] = [
    "summer",
    "winter",
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
    "monsoon",
    "heatwave",
    "altitude",
];

/// Where somebody else lives, by a word in the singular or the plural.
pub(super) const PLACES: [&str; 9] = [
    "kitchen", "house", "flat", "city", "town", "village", "cottage", "climate", "country",
];

/// What others do, told as their own way: "my cousin does six", "the lady next door puts in".
pub(super) const OTHERS_DO: [&str; 21] = [
    "ate", "eats", "puts", "does", "has", "have", "makes", "bakes", "gives", "takes", "uses",
    "says", "keeps", "buys", "leaves", "who", "always", "never", "likes", "wants", "would",
];

/// What people do in general.
pub(super) const PEOPLE_DO: [&str; 16] = [
    "take", "put", "use", "say", "think", "tell", "go", "will", "do", "don't", "get", "give",
    "leave", "bake", "add", "pull",
];

/// Verbs of the past that no recipe is told in.
const TOLD_AS_PAST: [&str; 24] = [
    "forgot", "left", "stood", "kept", "lost", "thought", "sat", "fell", "rang", "told", "said",
    "bought", "sold", "paid", "won", "ate", "drove", "woke", "slept", "burnt", "broke", "found",
    "lent", "brought",
];

/// Whether a verb tells of what is past.
pub(super) fn is_past(verb: &str) -> bool {
    super::mood::PAST.contains(&verb)
        || TOLD_AS_PAST.contains(&verb)
        || verb.len() > 4 && verb.ends_with("ed")
}

/// Whether a word tells what others do or did.
pub(super) fn others_do(verb: &str) -> bool {
    OTHERS_DO.contains(&verb) || super::mood::PAST.contains(&verb) || verb.ends_with("ed")
}

/// Deeds that a viewer is told to do.
pub(in crate::talk) const TOLD_TO: [&str; 34] = [
    "put", "add", "take", "mix", "stir", "cover", "leave", "let", "bake", "roll", "cut", "turn",
    "heat", "press", "divide", "shape", "brush", "beat", "work", "weigh", "give", "use", "keep",
    "stick", "pour", "fold", "set", "pop", "bring", "knead", "tip", "warm", "chill", "slide",
];

/// Words by which the speaker says that it is not so, or not to be done.
const DENIED: [&str; 13] = [
    "don't",
    "never",
    "not",
    "no",
    "shouldn't",
    "wouldn't",
    "doesn't",
    "isn't",
    "without",
    "aren't",
    "mustn't",
    "can't",
    "won't",
];

/// Words by which something is only thought of.
const SUPPOSED: [&str; 4] = ["if", "would", "could", "forgot"];

/// Words by which it is done later.
const LATER: [&str; 4] = ["until", "till", "after", "later"];

/// Whether a word says that it is not so.
pub(in crate::talk) fn denies(lower: &str) -> bool {
    DENIED.contains(&lower)
}

/// Whether a word says that the viewer is not to do it: not at all, or in one case only.
pub(in crate::talk) fn is_not_told(lower: &str) -> bool {
    denies(lower) || SUPPOSED.contains(&lower)
}

/// Whether a word says that it is done later.
pub(in crate::talk) fn puts_off(lower: &str) -> bool {
    LATER.contains(&lower)
}
