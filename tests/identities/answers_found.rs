//! How strangers ask: sentences written before anybody looked at the words by which questions are found, and what they lead to.
//!
//! An empty name stands where two questions are meant and the answer must be to name both. A sentence that is
//! not understood must lead to near questions and never to a wrong one.

use edit::answers::{Found, find};

/// Written first; the words of the list were chosen with these at hand.
const FIRST: &[(&str, &str)] = &[
    ("other-dry-yeast", "I only have active dry"),
    ("other-dry-yeast", "is rapid rise the same?"),
    ("fresh-yeast", "how much fresh yeast instead"),
    ("fresh-yeast", "I've got a cube of yeast"),
    ("one-packet", "my sachet is 7g, is that enough"),
    ("one-packet", "I have just one packet"),
    ("old-yeast", "yeast expired last year"),
    ("old-yeast", "does my yeast still work"),
    ("other-flour", "will plain flour do"),
    ("other-flour", "all purpose instead of bread flour"),
    ("wholemeal", "can i use whole wheat"),
    ("wholemeal", "half wholemeal?"),
    ("gluten-free", "gluten"),
    ("gluten-free", "is there a gluten free version"),
    ("self-raising-flour", "self raising flour ok?"),
    ("sourdough", "can i do this with my starter"),
    ("no-dairy", "non dairy milk"),
    ("no-dairy", "I'm lactose intolerant"),
    ("no-egg", "my son is allergic to eggs"),
    ("", "vegan version"),
    ("less-sugar", "can I cut the sugar"),
    ("honey", "maple syrup instead of sugar"),
    ("honey", "swap sugar for honey"),
    ("salted-butter", "only salted butter in the fridge"),
    ("coarse-salt", "kosher salt"),
    ("coarse-salt", "sea salt flakes instead of table salt"),
    ("egg-size", "my eggs are small"),
    ("egg-size", "extra large eggs"),
    ("cups", "how many cups of flour"),
    ("cups", "I don't own a scale"),
    ("other-tin", "what size tin"),
    ("other-tin", "my loaf pan is bigger"),
    ("other-tin", "9x5 pan"),
    ("half-batch", "can I halve it"),
    ("double-batch", "doubling the recipe"),
    ("double-batch", "make twice as much"),
    ("no-mixer", "knead by hand"),
    ("no-mixer", "I don't have a stand mixer"),
    ("food-processor", "can I use my food processor"),
    ("food-processor", "hand mixer"),
    ("small-mixer", "my mixer bowl is too small"),
    ("overnight", "can i leave the dough in the fridge overnight"),
    ("overnight", "make the dough tonight and bake tomorrow"),
    ("faster", "I'm in a hurry"),
    ("faster", "how to speed up rising"),
    ("cold-kitchen", "my house is cold"),
    ("cold-kitchen", "it is freezing in my kitchen"),
    ("hot-kitchen", "it's really hot here in summer"),
    ("altitude", "I live in the mountains"),
    ("altitude", "high altitude"),
    ("sticky", "dough is too wet"),
    ("sticky", "sticks to my hands"),
    ("stiff", "dough is really dry"),
    ("stiff", "dough climbs up the hook"),
    ("greasy", "butter is melting out"),
    ("kneaded", "how long do I knead"),
    ("kneaded", "how do I know when it's kneaded enough"),
    ("risen", "how do I know it has risen enough"),
    ("dense", "dough not rising"),
    ("dense", "my bread is heavy"),
    ("dense", "it came out like a brick"),
    ("collapsed", "it sank in the oven"),
    ("collapsed", "overproofed"),
    ("holes", "big holes under the crust"),
    ("done", "when is it done"),
    ("done", "no thermometer"),
    ("other-material", "glass dish"),
    ("fan", "what temp in a fan oven"),
    ("fan", "convection oven"),
    ("other-material", "dark pan"),
    ("burnt-outside", "burnt on top raw in the middle"),
    ("burnt-outside", "gummy inside"),
    ("freeze", "can i freeze it"),
    ("freeze", "freeze the dough"),
    ("for-breakfast", "want fresh rolls at 8am"),
    ("left-out", "forgot the dough on the counter"),
    ("calories", "how many calories in a slice"),
    ("cost", "how much does it cost"),
    ("salt-last", "why is the salt added last"),
    ("no-oven", "I don't have an oven"),
    ("no-oven", "air fryer"),
    ("bread-machine", "can I use a bread maker"),
    ("freeze", "how long does it keep"),
    ("pale", "crust is pale"),
    ("over-the-rim", "dough spilled over the tin"),
];

/// Written second: 31 of 51 were understood as they came, five led astray; the words of the list were then mended.
const SECOND: &[(&str, &str)] = &[
    (
        "other-dry-yeast",
        "the recipe says instant but mine is active",
    ),
    (
        "fresh-yeast",
        "my bakery gave me a lump of fresh yeast, how much do I need",
    ),
    ("one-packet", "one 7 gram envelope enough?"),
    ("old-yeast", "yeast past its date"),
    ("other-flour", "my flour has only 10 percent protein"),
    ("wholemeal", "I want it healthier, wholegrain flour"),
    ("self-raising-flour", "only got self rising"),
    ("gluten-free", "my daughter is celiac"),
    ("sourdough", "could I make a sourdough version"),
    ("no-dairy", "can I replace the milk with almond milk"),
    ("no-egg", "we are out of eggs"),
    ("less-sugar", "it is too sweet for us"),
    ("honey", "use honey?"),
    ("salted-butter", "is salted butter fine"),
    ("coarse-salt", "how many teaspoons of salt"),
    ("egg-size", "what if eggs are medium"),
    ("cups", "amounts in cups please"),
    ("other-tin", "my tin holds 2 litres"),
    ("half-batch", "recipe for half"),
    ("double-batch", "need to feed 20 people"),
    ("no-mixer", "no kitchen machine, only my hands"),
    ("food-processor", "food processor with dough blade"),
    ("small-mixer", "my mixer can only do 500 g of flour"),
    ("bread-machine", "could the bread machine do the kneading"),
    ("kneaded", "have I kneaded it long enough"),
    ("salt-last", "does salt kill the yeast"),
    ("risen", "is it ready to go in the oven"),
    ("cold-kitchen", "our flat is only 16 degrees"),
    ("hot-kitchen", "it is 32 degrees in here"),
    ("altitude", "I bake at 2000 metres"),
    ("faster", "can I shorten the rise"),
    (
        "overnight",
        "can it rise in the refrigerator until tomorrow",
    ),
    ("for-breakfast", "I want to serve it warm in the morning"),
    ("left-out", "dough stood on the table for six hours"),
    ("done", "how can I tell it's baked through"),
    ("fan", "oven with fan, which temperature"),
    ("other-material", "does a silicone mould work"),
    ("no-oven", "can I do it in a pan on the hob"),
    ("dense", "why is my crumb so tight and heavy"),
    ("collapsed", "loaf fell when I took it out"),
    ("holes", "huge hole beneath the top crust"),
    ("flat", "my loaf is flat"),
    ("over-the-rim", "it overflowed the tin"),
    ("sticky", "dough sticks to everything"),
    ("stiff", "my dough is like rock"),
    ("greasy", "there is butter swimming in the bowl"),
    ("pale", "my bread does not brown"),
    ("burnt-outside", "outside too dark but doughy in the centre"),
    ("freeze", "can you keep the rolls in the freezer"),
    ("calories", "kcal per 100 g"),
    ("cost", "what would a loaf cost me"),
];

/// Written last, and nothing was changed after: what a stranger may count on.
const UNSEEN: &[(&str, &str)] = &[
    ("other-dry-yeast", "which dry yeast do I take"),
    ("fresh-yeast", "baker's yeast from the chiller cabinet"),
    ("one-packet", "can I make do with a single sachet"),
    ("old-yeast", "found yeast at the back of the cupboard"),
    ("other-flour", "I can't get strong flour"),
    ("wholemeal", "swap a third for wholemeal"),
    ("gluten-free", "does it work without gluten"),
    ("no-dairy", "my guest has no milk products"),
    ("no-egg", "how to replace eggs"),
    ("less-sugar", "less sugar please"),
    ("coarse-salt", "I use coarse salt"),
    ("egg-size", "eggs from my own hens are tiny"),
    ("cups", "please give the flour in cups"),
    ("other-tin", "I only own a 1 kg tin"),
    ("half-batch", "there are only two of us, half enough?"),
    ("double-batch", "can I make two loaves at once"),
    ("no-mixer", "without machine"),
    ("small-mixer", "dough too big for my mixer"),
    ("kneaded", "when to stop kneading"),
    ("risen", "when has the dough doubled"),
    ("cold-kitchen", "our kitchen is chilly"),
    ("hot-kitchen", "heat wave here"),
    ("altitude", "we live at high elevation"),
    ("faster", "need the bread sooner"),
    ("overnight", "slow rise in the fridge"),
    ("for-breakfast", "rolls for sunday breakfast"),
    ("left-out", "forgot it on the bench all night"),
    ("done", "bread cooked through or not?"),
    ("fan", "fan forced"),
    ("other-material", "black tin"),
    ("dense", "bread did not rise"),
    ("collapsed", "it caved in"),
    ("holes", "gap between crust and crumb"),
    ("flat", "dough spread sideways on the tray"),
    ("sticky", "dough like batter"),
    ("stiff", "dough tears and is hard"),
    ("pale", "crust stays white"),
    ("burnt-outside", "bread is wet inside"),
    ("freeze", "how do I store leftovers"),
    ("calories", "nutrition facts"),
];

fn name(words: &str) -> Option<&'static str> {
    match find(words) {
        Found::One(question) => Some(question.name),
        Found::Near(_) => None,
    }
}

/// How many are understood; every wrong one is a fault.
fn understood(table: &[(&str, &str)]) -> usize {
    let mut right = 0;
    for (wanted, words) in table {
        match name(words) {
            Some(found) => {
                assert_eq!(found, *wanted, "{words}");
                right += 1;
            }
            None => println!("not understood: {words} ({wanted})"),
        }
    }
    println!("{right} of {}", table.len());
    right
}

#[test]
fn a_stranger_s_words_find_their_question() {
    assert!(understood(FIRST) >= FIRST.len() - 1);
    assert!(understood(SECOND) >= SECOND.len() - 2);
}

/// What was not made to fit: three in four understood, none led astray.
#[test]
fn words_that_nothing_was_made_for() {
    assert!(understood(UNSEEN) >= 30, "31 of 40 when they were written");
}

/// Two questions that are meant alike are both named.
#[test]
fn what_means_two_questions_names_both() {
    let Found::Near(names) = find("vegan version") else {
        panic!("one of two chosen");
    };
    assert_eq!(names, ["no-dairy", "no-egg"]);
    let Found::Near(names) = find("how many candles on the cake") else {
        panic!("found what is not there");
    };
    assert!(names.len() <= 3);
}
