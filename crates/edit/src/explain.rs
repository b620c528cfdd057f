//! The pages that say of every finding what it says, why it matters and what to do.

use std::cmp::Ordering;

/// Includes the pages by the names of their findings.
macro_rules! pages {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../explain/", $name, ".md")))),*]
    };
}

/// Every page, by name, in alphabetical order.
pub const PAGES: &[(&str, &str)] = pages![
    "allergens-differ",
    "amount-not-positive",
    "anchor-does-not-settle",
    "anchor-outside-range",
    "audience-unknown",
    "author-missing",
    "bake-without-check",
    "bake-without-cue",
    "baked-mass-missing",
    "baked-mass-unlikely",
    "batch-behaves-otherwise",
    "before-or-after",
    "bowl-too-small",
    "butter-salt-unsaid",
    "caption-fast",
    "caption-too-fast",
    "captions-roll",
    "cards-without-room",
    "chapters-too-few",
    "check-too-late",
    "claim-against-ingredients",
    "claim-not-supported",
    "claim-without-source",
    "cold-glass-in-hot-oven",
    "cooling-missing",
    "core-low-for-lean",
    "core-near-boiling",
    "core-too-low",
    "count-differs",
    "cover-in-the-oven",
    "cue-ends-before-start",
    "cue-never-met",
    "cue-says-nothing",
    "cues-out-of-order",
    "cues-overlap",
    "currencies-mixed",
    "date-impossible",
    "date-missing",
    "day-impossible",
    "day-not-found",
    "decimal-without-zero",
    "degree-sign-missing",
    "done-step-unknown",
    "done-taken-as",
    "done-with-it",
    "dough-has-stood",
    "dough-misses-target",
    "dough-not-followed",
    "dough-reading-unlikely",
    "dough-too-warm-for-butter",
    "dough-without-yeast",
    "egg-outside-band",
    "eggs-made-whole",
    "ended-before-its-sign",
    "evaporates-too-much",
    "false-precision",
    "fat-by-pack",
    "fat-outside-band",
    "fewest-not-proven",
    "figure-begins-sentence",
    "figure-unknown",
    "figure-without-a-place",
    "file-empty",
    "file-too-large",
    "filling-warm-too-long",
    "film-address-no-link",
    "film-incomplete",
    "first-call-unknown",
    "flour-above-bowl",
    "flour-heated-at-home",
    "flour-without-protein",
    "format-missing",
    "format-newer",
    "fraction-with-stroke",
    "glyph-missing",
    "hands-away",
    "hands-too-few",
    "headnote-missing",
    "heat-on-one-scale",
    "heavier-item-later",
    "hold-changes-rise",
    "ingredient-ambiguous",
    "ingredient-not-listed",
    "ingredient-unknown",
    "item-name-twice",
    "item-never-used",
    "item-used-twice",
    "items-out-of-order",
    "jargon-unexplained",
    "key-missing",
    "key-unknown",
    "kitchen-out-of-reason",
    "lead-not-said",
    "liquid-cannot-reach-target",
    "liquid-too-hot-for-yeast",
    "log-teaches-nothing",
    "long-silence",
    "made-in-scene",
    "make-ahead-missing",
    "mass-from-tables",
    "meal-late",
    "meal-outside-day",
    "measure-contradicts-mass",
    "measure-misses-mass",
    "measure-unmeasurable",
    "measure-without-mass",
    "mixer-not-free",
    "name-twice",
    "never-tested",
    "night-not-said",
    "no-flour",
    "no-product",
    "no-stage",
    "nothing-to-judge",
    "now-before-the-day",
    "number-of-kitchens",
    "number-unreadable",
    "number-without-unit",
    "oven-looks-like-fahrenheit",
    "oven-not-free",
    "oven-off-the-dial",
    "oven-opened",
    "oven-rises-and-heats",
    "oven-too-cold",
    "oven-very-hot",
    "pack-impossible",
    "parts-do-not-add-up",
    "photo-count-differs",
    "photo-leads-outside",
    "photo-missing",
    "photo-none",
    "photo-without-words",
    "piece-too-large",
    "piece-waits-too-long",
    "pieces-exceed-dough",
    "placeholder-unclosed",
    "placeholder-unknown",
    "places-not-there",
    "plan-does-not-hold",
    "planned-otherwise",
    "preheat-differs",
    "preheat-longer-than-wait",
    "preheat-missing",
    "preheat-short",
    "price-old",
    "price-without-weight",
    "printed-percent-differs",
    "printed-total-differs",
    "printed-total-rounded",
    "product-fed-by-nothing",
    "promise-leaves-out-the-night",
    "promise-not-checked",
    "promise-not-kept",
    "promise-not-kept-here",
    "promise-tight",
    "promised-tool-needed",
    "range-backwards",
    "range-misses-usual",
    "range-too-wide",
    "ranges-two-ways",
    "raw-dough-tasted",
    "reading-of-nothing",
    "reading-out-of-reach",
    "reading-step-unknown",
    "reading-unclear",
    "recipe-unanchored",
    "refrigerator-warmer-than-room",
    "relation-outside-its-range",
    "rest-without-cue",
    "rise-too-warm-for-butter",
    "salt-kind-unsaid",
    "salt-outside-band",
    "scales-disagree",
    "scene-in-meal",
    "scene-longer-than-hold",
    "scene-state-unknown",
    "scenes-out-of-order",
    "scenes-overlap",
    "sentences-long",
    "serves-missing",
    "serves-unusual",
    "shelves-too-few",
    "sign-does-not-come",
    "size-not-said",
    "size-wish-impossible",
    "size-wish-unclear",
    "sponsor-gift-unsaid",
    "sponsor-undisclosed",
    "stage-never-used",
    "stage-not-named",
    "stage-overdrawn",
    "stage-used-too-early",
    "stages-in-a-circle",
    "stands-past-scene",
    "state-contradicts-step",
    "state-not-ready",
    "step-before-its-time",
    "step-in-passive",
    "step-long",
    "step-many-actions",
    "step-not-there",
    "step-opening",
    "step-with-two-actions",
    "step-without-action",
    "storage-missing",
    "storage-vague",
    "store-unknown",
    "sugar-on-water-high",
    "sugar-outside-band",
    "sugar-slows-yeast",
    "sugar-wants-other-yeast",
    "sugars-called-alike",
    "swap-cannot-keep",
    "swap-finds-nothing",
    "swap-unreadable",
    "swap-without-liquid",
    "talk-against-caution",
    "talk-allergens-unsaid",
    "talk-amount-differs",
    "talk-caution-unsaid",
    "talk-claim-without-source",
    "talk-contradicts-itself",
    "talk-count-differs",
    "talk-heat-differs",
    "talk-leaves-out",
    "talk-never-names",
    "talk-not-english",
    "talk-of-another-recipe",
    "talk-order-differs",
    "talk-says-too-late",
    "talk-sign-differs",
    "talk-size-differs",
    "talk-state-differs",
    "talk-time-differs",
    "talk-without-times",
    "temperature-not-said",
    "tested-bakes-disagree",
    "tested-figure-not-met",
    "tested-figure-unclear",
    "tested-kitchen-unknown",
    "tested-little",
    "text-not-utf8",
    "text-unreadable",
    "till-for-until",
    "time-code-otherwise",
    "time-code-unreadable",
    "time-without-range",
    "tin-missing",
    "tin-not-ready",
    "tin-outside-band",
    "tin-size-and-volume-differ",
    "tin-volume-reckoned",
    "tin-without-volume",
    "tins-not-there",
    "too-many-parts",
    "track-empty",
    "track-encoding-guessed",
    "track-encoding-other",
    "track-marks-left-out",
    "track-not-text",
    "trim-large",
    "two-words-for-one",
    "unit-does-not-fit",
    "unit-unknown",
    "unit-written-otherwise",
    "value-out-of-reason",
    "value-wrong-kind",
    "variable-impossible",
    "variable-unknown",
    "variables-cannot-go-together",
    "version-missing",
    "wanted-bread-unknown",
    "wanted-in-the-past",
    "warm-over-four-hours",
    "warm-too-long",
    "water-outside-band",
    "weight-unknown",
    "wishes-conflict",
    "word-unknown",
    "words-contradict-figure",
    "words-for-old-size",
    "words-without-time",
    "work-at-night",
    "work-in-meal",
    "written-liquid-misses-target",
    "yeast-not-tried",
    "yeast-outside-band",
    "yeast-settles-too-cold",
    "yeast-settles-too-hot",
    "zone-unknown",
];

/// The page of a finding.
pub fn page(name: &str) -> Option<&'static str> {
    PAGES
        .iter()
        .find(|(own, _)| *own == name)
        .map(|(_, page)| *page)
}

/// The name nearest to a mistyped one, when one is near.
pub fn near(name: &str) -> Option<&'static str> {
    let score = |own: &str| strsim::jaro_winkler(own, name);
    PAGES
        .iter()
        .map(|(own, _)| (*own, score(own)))
        .filter(|(_, score)| *score > 0.8)
        .max_by(|a, b| a.1.partial_cmp(&b.1).unwrap_or(Ordering::Equal))
        .map(|(own, _)| own)
}

/// All names, one a line, each with the first sentence of its page.
pub fn contents() -> String {
    let mut text = String::from("Findings, by name. One of them: everyoven explain NAME\n\n");
    for (name, page) in PAGES {
        let says = page
            .lines()
            .skip_while(|line| !line.starts_with("## What it says"))
            .skip(1)
            .find(|line| !line.trim().is_empty())
            .unwrap_or("");
        text.push_str(name);
        text.push_str("\n    ");
        text.push_str(says);
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADINGS: [&str; 5] = [
        "## What it says",
        "## Why it matters",
        "## Example",
        "## What to do",
        "## Source",
    ];

    #[test]
    fn everything_that_can_be_said_has_a_page() {
        let missing: Vec<_> = recipe::source::code::ALL
            .iter()
            .chain(bake::code::ALL)
            .chain(plan::day::code::ALL)
            .chain(crate::code::ALL)
            .chain(crate::talk::code::ALL)
            .chain(crate::talk::track::code::ALL)
            .chain(crate::talk::film::code::ALL)
            .map(|code| code.name)
            .filter(|name| page(name).is_none())
            .collect();
        assert!(missing.is_empty(), "without a page: {missing:?}");
    }

    #[test]
    fn pages_stand_in_alphabetical_order() {
        assert!(PAGES.windows(2).all(|pair| pair[0].0 < pair[1].0));
    }

    #[test]
    fn every_page_answers_the_five_questions_in_order() {
        for (name, page) in PAGES {
            assert!(
                page.starts_with(&format!("# {name}\n")),
                "{name} has another title"
            );
            let headings: Vec<_> = page
                .lines()
                .filter(|line| line.starts_with("## "))
                .collect();
            assert_eq!(headings, HEADINGS, "{name}");
            assert!(page.contains("## Example\n\n```"), "{name} has no example");
            assert!(
                page.lines().all(|line| line.chars().count() <= 110),
                "{name} is too wide"
            );
        }
    }

    #[test]
    fn a_slip_of_the_hand_is_led_to_its_page() {
        assert_eq!(near("promise-not-keep"), Some("promise-not-kept"));
        assert_eq!(near("zzzz"), None);
    }
}
