//! The words by which a look is wanted, tried, begun or only passed through. Our own choice.

/// Words by which a look is only passed through, feared or asked for in one case.
pub(super) const PASSING: [&str; 19] = [
    "if",
    "first",
    "begin",
    "halfway",
    "don't",
    "not",
    "never",
    "isn't",
    "too",
    "than",
    "unless",
    "otherwise",
    "avoid",
    "might",
    "could",
    "won't",
    "shouldn't",
    "worry",
    "panic",
];

/// What a look does: "it should be", "it ought to spring back".
pub(super) const LOOKS: [&str; 32] = [
    "budge", "move", "wobble", "shake", "shiver", "tremble", "stick", "leap", "jump", "pop",
    "shoot", "ping", "fly", "creep", "ease", "fill", "sink", "tear", "stretch", "hold", "leave",
    "be", "look", "feel", "come", "sound", "spring", "bounce", "stay", "have", "smell", "go",
];

/// Words by which a step is over.
pub(super) const READY: [&str; 6] = ["ready", "done", "baked", "there", "cooked", "finished"];

/// What is done to try a dough or a bread: "if you push a skewer in" is no case.
pub(super) const TRIES: [&str; 12] = [
    "jab", "knock", "tap", "poke", "press", "prod", "push", "stick", "pull", "stretch", "lift",
    "touch",
];

/// Words by which a look is only just begun.
pub(super) const SOFTENED: [&str; 9] = [
    "little",
    "bit",
    "slightly",
    "just",
    "starting",
    "beginning",
    "begun",
    "starts",
    "begins",
];
