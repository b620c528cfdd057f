//! A wish as a cook writes it: "fresh yeast for active dry yeast", "no egg", "wholemeal flour for 25 % of the bread flour".

use crate::code;
use recipe::document::placeholder::{Part, Piece};
use recipe::document::{model::Recipe, parse_sentence};
use recipe::larder::{Found, Ingredient, Larder, Role, egg_class};
use recipe::source::Diagnostic;

/// A swap that was understood.
#[derive(Clone, Debug)]
pub struct Swap<'a> {
    /// What comes in; nothing for "no egg".
    pub new: Vec<Coming<'a>>,
    /// What goes out, as the wish calls it.
    pub old: String,
    /// How much of it goes, between nothing and all.
    pub share: f64,
    /// What that can mean in the larder.
    meant: Vec<&'a Ingredient>,
}

/// Something that comes in.
#[derive(Clone, Debug)]
pub struct Coming<'a> {
    /// What it is.
    pub ingredient: &'a Ingredient,
    /// The name that the recipe will use.
    pub name: String,
    /// The size of an egg, when the wish names one.
    pub size: Option<String>,
}

/// Reads a wish.
pub fn read<'a>(
    wish: &str,
    recipe: &Recipe,
    larder: &'a Larder,
) -> Result<Swap<'a>, Box<Diagnostic>> {
    let words = wish.split_whitespace().collect::<Vec<_>>().join(" ");
    let lower = words.to_lowercase();
    for start in ["no ", "without ", "nothing for "] {
        if lower.starts_with(start) {
            return swap("", &words[start.len()..], recipe, larder);
        }
    }
    let mut first = None;
    for link in [" for ", " instead of "] {
        for (at, _) in lower.match_indices(link) {
            let (new, old) = (&words[..at], &words[at + link.len()..]);
            match swap(new, old, recipe, larder) {
                Ok(swap) => return Ok(swap),
                Err(said) => first = first.or(Some(said)),
            }
        }
    }
    Err(first.unwrap_or_else(|| {
        Diagnostic::whole(
            code::SWAP_UNREADABLE,
            format!("“{words}” does not say what stands for what."),
        )
        .hint("Write it like this: fresh yeast for active dry yeast.")
        .hint("Or: no egg. Or: wholemeal flour for 25 % of the bread flour.")
        .into()
    }))
}

/// A swap of these words.
fn swap<'a>(
    new: &str,
    old: &str,
    recipe: &Recipe,
    larder: &'a Larder,
) -> Result<Swap<'a>, Box<Diagnostic>> {
    let (share, old) = share_of(old);
    let (more_share, new) = share_of(new);
    let mut coming = Vec::new();
    for name in new.split(" and ").filter(|name| !name.trim().is_empty()) {
        coming.push(coming_in(name.trim(), larder)?);
    }
    let meant = match larder.find(&old) {
        Found::One(one) => vec![one],
        Found::Several(several) => several,
        Found::Near(_) | Found::Nothing => Vec::new(),
    };
    let swap = Swap {
        new: coming,
        share: share.min(more_share),
        meant,
        old,
    };
    if super::draft::places(recipe, larder, &swap).is_empty() {
        return Err(swap.finds_nothing(recipe).into());
    }
    Ok(swap)
}

/// A share before a name: "25 % of the bread flour" is a quarter of "bread flour".
fn share_of(words: &str) -> (f64, String) {
    let piece = parse_sentence(&format!("[{words}]"), 0).0;
    match piece.into_iter().next().map(|one| one.value) {
        Some(Piece::Use {
            item,
            part: Part::Fraction(share),
        }) => (share, item),
        Some(Piece::Mention(item)) => (1.0, item),
        _ => match words.split_once('%') {
            Some((number, name)) => number.trim().parse::<f64>().map_or_else(
                |_| (1.0, words.to_owned()),
                |percent| (percent / 100.0, name.trim().to_owned()),
            ),
            None => (1.0, words.to_owned()),
        },
    }
}

/// What comes in, by its name.
fn coming_in<'a>(name: &str, larder: &'a Larder) -> Result<Coming<'a>, Box<Diagnostic>> {
    let plain = name.to_lowercase().replace('-', " ");
    if plain.contains("gluten free") {
        return Err(Diagnostic::whole(
            code::SWAP_CANNOT_KEEP,
            "The gluten of wheat holds the gas in this dough. A bread without it is a different \
             recipe, with binders and a batter's water.",
        )
        .hint("Take a recipe that was made for it.")
        .into());
    }
    let size = size_of(name);
    let bare = size.as_ref().map_or(name, |(_, rest)| rest);
    match larder.find(bare) {
        Found::One(ingredient) => Ok(Coming {
            ingredient,
            name: if ingredient.role == Role::Egg {
                ingredient.name.clone()
            } else {
                bare.to_owned()
            },
            size: size.map(|(size, _)| size),
        }),
        Found::Several(several) => {
            let mut said = Diagnostic::whole(
                recipe::source::code::INGREDIENT_AMBIGUOUS,
                format!("“{name}” could be several ingredients."),
            );
            for one in several {
                said = said.hint(format!("Say {}.", one.name));
            }
            Err(said.into())
        }
        Found::Near(names) => {
            let mut said = unknown(name);
            for near in names {
                said = said.hint(format!("Was {near} meant?"));
            }
            Err(said.into())
        }
        Found::Nothing => Err(unknown(name)
            .hint("Add it to the recipe's [[pantry]] with what its pack declares.")
            .into()),
    }
}

fn unknown(name: &str) -> Diagnostic {
    Diagnostic::whole(
        recipe::source::code::INGREDIENT_UNKNOWN,
        format!("The larder has no “{name}”."),
    )
}

/// The size before an egg's name: "EU medium eggs".
fn size_of(name: &str) -> Option<(String, &str)> {
    let lower = name.to_lowercase();
    let at = ["eggs", "egg"]
        .iter()
        .find_map(|word| lower.strip_suffix(word).map(str::len))?;
    let size = name[..at].trim();
    egg_class(size)?;
    Some((size.to_owned(), &name[at..]))
}

impl Swap<'_> {
    /// Whether an item is meant to go.
    pub fn means(&self, called: &str, of: &str, ingredient: &Ingredient) -> bool {
        let same = |a: &str, b: &str| a.eq_ignore_ascii_case(b);
        if self
            .new
            .iter()
            .any(|one| one.ingredient.key == ingredient.key)
            && self.sizes().is_none()
        {
            return false;
        }
        if self.meant.iter().any(|one| one.key == ingredient.key) {
            return true;
        }
        let role =
            self.meant.is_empty() || self.meant.iter().any(|one| one.role == ingredient.role);
        let tail = format!(" {}", self.old.to_lowercase());
        let named = same(called, &self.old) || same(of, &self.old);
        // "flour" means every flour; "sugar", which is one thing, does not mean pearl sugar.
        let wide = self.meant.len() != 1 && of.to_lowercase().ends_with(&tail);
        role && (named || wide)
    }

    /// The size of egg that is wanted, when the wish is about sizes.
    pub fn sizes(&self) -> Option<&str> {
        match self.new.as_slice() {
            [one] => one.size.as_deref(),
            _ => None,
        }
    }

    /// Words for the title: "fresh yeast", "oil and water", "no egg".
    pub fn title(&self) -> String {
        if self.new.is_empty() {
            return format!("no {}", self.old);
        }
        let names: Vec<String> = self
            .new
            .iter()
            .map(|one| match &one.size {
                Some(size) => format!("{size} eggs"),
                None => one.name.clone(),
            })
            .collect();
        names.join(" and ")
    }

    fn finds_nothing(&self, recipe: &Recipe) -> Diagnostic {
        let mut names: Vec<&str> = Vec::new();
        let items = recipe.stages.iter().flat_map(|stage| &stage.items);
        let stage = |name: &str| recipe.stages.iter().any(|stage| stage.name.value == name);
        for item in items.chain(&recipe.besides) {
            if !stage(&item.of.value) && !names.contains(&item.of.value.as_str()) {
                names.push(&item.of.value);
            }
        }
        let said = Diagnostic::whole(
            code::SWAP_FINDS_NOTHING,
            format!("The recipe has no “{}” that could be swapped.", self.old),
        );
        said.hint(format!("It has: {}.", names.join(", ")))
    }
}
