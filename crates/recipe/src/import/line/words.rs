//! The words of an ingredient line that are not the name of anything: states, places, praise, tools.

use crate::document::model::Place;
use std::sync::OnceLock;

/// Words that say in what state a thing goes in, wherever they stand.
pub(super) static STATES: List = List::of(
    "\
    soft softened melted cold cool cooled chilled warm warmed hot lukewarm tepid boiling \
    boiled scalded beaten whisked sifted sieved chopped minced diced cubed sliced grated \
    shredded crushed mashed toasted roasted peeled cored pitted stoned halved quartered \
    drained rinsed washed soaked broken crumbled packed cut torn thawed defrosted frozen \
    ice-cold icecold blood-warm hand-hot room-temperature room-temp browned separated \
    whipped zested juiced squeezed strained creamed cooked heated proofed dissolved smashed \
    bruised trimmed seeded deseeded shelled slivered pounded pureed puréed bashed split \
    unwrapped clarified sifted. levelled lightly-beaten caramelised caramelized scraped \
    activated fed bubbly",
);

/// Words that make one state of a following one: "lightly beaten", "very soft".
pub(super) static ADVERBS: List = List::of(
    "\
    lightly very well finely roughly coarsely freshly firmly tightly loosely thinly thickly \
    slightly just still gently softly stiffly quite completely nice barely nearly almost \
    fridge ice really partly partially fully newly properly carefully quickly",
);

/// Words in -ed that say something else than a state.
pub(super) static NO_STATES: List = List::of(
    "\
    divided needed required preferred desired reserved recommended unsalted salted \
    unbleached bleached dried sweetened unsweetened enriched skimmed mixed candied optional \
    used called listed red seed weighed measured pasteurised pasteurized granulated powdered \
    condensed evaporated flavoured flavored added semi-skimmed feed bread need smoked canned \
    tinned unwaxed waxed",
);

/// Words of praise, source, size or care that leave a thing what it is.
pub(super) static DESCRIPTORS: List = List::of(
    "\
    good quality good-quality best best-quality high-quality your favourite favorite organic \
    free-range free range freerange fresh freshly very plain regular ordinary standard pure \
    natural real clean filtered bottled mineral unwaxed large medium small extra-large jumbo \
    big whole fine finely extra extra-virgin virgin the some more of additional a little bit \
    few stoneground stone-ground unbleached organically grown local raw ripe thick full-fat \
    full fat dairy 100% european european-style style quick light mild hen hen's farm \
    medium-sized large-sized small-sized sized size each packet granules leftover cool \
    shelled seedless pitted unsulphured unsulfured unflavoured unflavored unroasted sweet \
    ground powdered baking cooking culinary strong enriched unenriched double-acting \
    aluminum-free aluminium-free gluten-free ready-to-eat soft shop-bought store-bought \
    home-made homemade mature extra-mature sharp aged packed level",
);

/// Descriptors that may change what a thing is; they are only dropped where the name without them
/// is still of one kind and the word adds nothing to it.
pub(super) static WEIGHTY: List = List::of(
    "\
    plain light strong sweet ground powdered full-fat full fat soft natural fine quick \
    baking gluten-free thick raw whole enriched cooking mild hen regular",
);

/// Last words of names of ingredients, also of those that the larder has not.
pub(super) static FAMILIES: List = List::of(
    "\
    flour flours sugar sugars oil oils seed seeds butter milk cheese spice spices syrup salt \
    extract essence powder nut nuts jam cream yeast starter leaven levain sourdough meal starch \
    juice zest liqueur vinegar chocolate fruit fruits berries cherries peel honey treacle yoghurt \
    yogurt herbs flakes paste colouring coloring sprinkles",
);

/// Things of a kitchen that do not go in.
pub(super) static TOOLS: List = List::of(
    "\
    towel towels cloth tin tins pan pans tray trays bowl bowls paper parchment foil string \
    twine brush thermometer whisk spoon knife scale scales mixer board rack sheet sheets \
    mould moulds mold molds cases liners wrap film clingfilm skewer skewers toothpicks pin \
    scraper basket banneton bannetons stone oven dish dishes sieve spatula bag cutter \
    cutters ramekins jug ruler timer hook lame peel-board cover dutch",
);

/// Words that only a step, a yield, a time or a note of the recipe begins with.
pub(super) static NO_INGREDIENT: List = List::of(
    "\
    preheat heat bake mix knead makes make serves serve servings yield yields prep \
    preparation cook cooking total add stir combine whisk place put pour cover let leave \
    turn roll shape divide brush grease line rising resting note notes tip tips method \
    directions instructions ingredients equipment step you we i my our this these see click \
    print jump rating calories nutrition difficulty oven store freeze allow set remove \
    repeat beat fold drain rinse bring proof proving dissolve",
);

/// A list of words, sorted when it is first asked.
pub(super) struct List {
    text: &'static str,
    sorted: OnceLock<Vec<&'static str>>,
}

impl List {
    /// The words of a text.
    const fn of(text: &'static str) -> Self {
        Self {
            text,
            sorted: OnceLock::new(),
        }
    }
}

/// Whether a list of words holds a word.
pub(super) fn holds(list: &List, word: &str) -> bool {
    let sorted = list.sorted.get_or_init(|| {
        let mut words: Vec<&str> = list.text.split_whitespace().collect();
        words.sort_unstable();
        words
    });
    sorted.binary_search(&word).is_ok()
}

/// Whether a word says a state.
pub(super) fn is_state(word: &str) -> bool {
    let word = bare(word);
    holds(&STATES, &word)
}

/// Whether a word only goes with a state.
pub(super) fn is_adverb(word: &str) -> bool {
    let word = bare(word);
    holds(&ADVERBS, &word)
}

/// A word in small letters without marks at its ends.
pub(super) fn bare(word: &str) -> String {
    word.trim_matches(|c: char| !c.is_alphanumeric() && c != '%')
        .to_lowercase()
}

/// Where a thing goes by what it is for; "dusting" alone says bench of flours and top of sugars.
pub(super) fn place(purpose: &str, dusts_bench: bool) -> Option<Place> {
    let purpose = purpose.to_lowercase();
    let words: Vec<String> = purpose.split_whitespace().map(bare).collect();
    let has = |set: &[&str]| words.iter().any(|word| set.contains(&word.as_str()));
    let begins = |set: &[&str]| {
        words
            .iter()
            .any(|word| set.iter().any(|start| word.starts_with(start)))
    };
    if has(&["bowl", "bowls", "hands", "frying", "deep-frying"]) {
        return None;
    }
    if has(&[
        "tin", "tins", "pan", "pans", "tray", "trays", "mould", "moulds", "mold", "molds", "dish",
        "sheet", "sheets", "moulds", "ramekins", "skillet",
    ]) {
        return Some(Place::Tin);
    }
    if has(&[
        "bench",
        "worktop",
        "worksurface",
        "counter",
        "countertop",
        "surface",
        "board",
        "bench-top",
        "benchtop",
        "peel",
    ]) {
        return Some(Place::Bench);
    }
    if has(&[
        "top", "tops", "topping", "buns", "bun", "loaf", "loaves", "crust", "rolls", "wash",
        "eggwash",
    ]) || begins(&[
        "brush", "glaz", "sprinkl", "scatter", "finish", "decorat", "garnish", "drizzl", "strew",
        "dredg",
    ]) {
        return Some(Place::Top);
    }
    if begins(&["greas", "butter", "lining", "line", "oiling"]) {
        return Some(Place::Tin);
    }
    if begins(&["dust", "flour"]) {
        return Some(if dusts_bench {
            Place::Bench
        } else {
            Place::Top
        });
    }
    if begins(&["rolling", "knead", "shaping", "roll"]) {
        return Some(Place::Bench);
    }
    None
}
