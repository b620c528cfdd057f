//! A recipe while wishes work on it: where the things are that go, and how its items are changed so that their sentences follow.

use super::model::Change;
use super::sentence::{self, Reckoning};
use super::wish::Swap;
use crate::ledger::say;
use numerics::quantity::Mass;
use recipe::document::model::{Action, Amount, Item, Place, Recipe, Step};
use recipe::document::placeholder::Piece;
use recipe::formula::{Formula, formula};
use recipe::larder::{Found, Ingredient, Larder};
use recipe::source::{Located, Span};

/// Where an item is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// In a stage: its number, and that of the item.
    Stage(usize, usize),
    /// For bench, tin or top.
    Beside(usize),
}

/// A recipe in the making.
pub struct Draft<'a> {
    /// As it is now.
    pub recipe: Recipe,
    /// The larder it is worked out with.
    pub larder: &'a Larder,
    /// What is different so far.
    pub changes: Vec<Change>,
    /// What is to be said so far.
    pub said: Vec<String>,
}

/// A value that stands nowhere yet.
pub const fn new<T>(value: T) -> Located<T> {
    Located::new(value, Span::new(0, 0))
}

/// The ingredient that an item is; the first of several.
pub fn ingredient<'a>(larder: &'a Larder, item: &Item) -> Option<&'a Ingredient> {
    match larder.find(&item.of.value) {
        Found::One(one) => Some(one),
        Found::Several(several) => several.first().copied(),
        Found::Near(_) | Found::Nothing => None,
    }
}

/// Every item that a swap means, stages first.
pub fn places(recipe: &Recipe, larder: &Larder, swap: &Swap) -> Vec<At> {
    let stages: Vec<&str> = recipe
        .stages
        .iter()
        .map(|s| s.name.value.as_str())
        .collect();
    let meant = |item: &Item| {
        !stages.contains(&item.of.value.as_str())
            && ingredient(larder, item)
                .is_some_and(|one| swap.means(item.called(), &item.of.value, one))
    };
    let in_stages = recipe.stages.iter().enumerate().flat_map(|(s, stage)| {
        let items = stage.items.iter().enumerate();
        items
            .filter(|(_, item)| meant(item))
            .map(move |(i, _)| At::Stage(s, i))
            .collect::<Vec<_>>()
    });
    let besides = recipe.besides.iter().enumerate();
    in_stages
        .chain(
            besides
                .filter(|(_, item)| meant(item))
                .map(|(i, _)| At::Beside(i)),
        )
        .collect()
}

impl<'a> Draft<'a> {
    /// A recipe on which nothing was done yet.
    pub fn new(recipe: &Recipe, larder: &'a Larder) -> Self {
        Self {
            recipe: recipe.clone(),
            larder,
            changes: Vec::new(),
            said: Vec::new(),
        }
    }

    /// Its sums as it is now.
    pub fn formula(&self) -> Formula {
        formula(&self.recipe, self.larder).output
    }

    /// An item.
    pub fn item(&self, at: At) -> &Item {
        match at {
            At::Stage(s, i) => &self.recipe.stages[s].items[i],
            At::Beside(i) => &self.recipe.besides[i],
        }
    }

    /// The same, to be changed.
    pub fn item_mut(&mut self, at: At) -> &mut Item {
        match at {
            At::Stage(s, i) => &mut self.recipe.stages[s].items[i],
            At::Beside(i) => &mut self.recipe.besides[i],
        }
    }

    /// What an item is.
    pub fn ingredient(&self, at: At) -> Option<&'a Ingredient> {
        ingredient(self.larder, self.item(at))
    }

    /// What an item weighs.
    pub fn mass(&self, at: At) -> Option<Mass> {
        let formula = self.formula();
        match at {
            At::Stage(s, i) => formula.stages.get(s)?.items.get(i)?.mass,
            At::Beside(i) => formula.besides.get(i)?.mass,
        }
    }

    /// "dough: milk", "top: egg".
    pub fn whose(&self, at: At) -> String {
        let item = self.item(at);
        let place = match at {
            At::Stage(s, _) => self.recipe.stages[s].name.value.as_str(),
            At::Beside(_) => item.on.as_ref().map_or("besides", |on| on.value.word()),
        };
        format!("{place}: {}", item.called())
    }

    /// "180 g all-purpose flour".
    pub fn shown(&self, at: At) -> String {
        let item = self.item(at);
        match &item.take {
            Some(take) => {
                let many = matches!(&take.value, Amount::Count { count, .. } if *count > 1.0);
                let s = if many && !item.of.value.ends_with('s') {
                    "s"
                } else {
                    ""
                };
                format!("{} {}{s}", say::amount(&take.value), item.of.value)
            }
            None => item.of.value.clone(),
        }
    }

    /// Notes a change of a thing that is named in what it was and what it became: "180 g whole milk".
    ///
    /// One thing changed twice is told once, whatever it is called by now.
    pub fn changed(&mut self, what: String, before: impl Into<String>, after: impl Into<String>) {
        let before = before.into();
        let whose = |what: &str| what.split(": ").next().unwrap_or_default().to_owned();
        // A bare amount ("9 g") names nothing: another thing may have come to the same.
        let is_name = |word: &str| word.chars().filter(|c| c.is_alphabetic()).count() > 2;
        let named = before.split_whitespace().any(is_name);
        let place = whose(&what);
        let same = |told: &Change| named && whose(&told.what) == place;
        self.note(what, before, after.into(), same);
    }

    /// Notes a change of an amount alone: "9 g".
    pub fn resized(&mut self, what: String, before: String, after: String) {
        self.note(what, before, after, |_| false);
    }

    fn note(
        &mut self,
        what: String,
        before: String,
        after: String,
        same_thing: impl Fn(&Change) -> bool,
    ) {
        if before == after {
            return;
        }
        let earlier = self.changes.iter_mut().find(|told| {
            !before.is_empty() && told.after == before && (told.what == what || same_thing(told))
        });
        if let Some(told) = earlier {
            told.after = after;
            self.changes.retain(|told| told.before != told.after);
            return;
        }
        self.changes.push(Change {
            what,
            before,
            after,
        });
    }

    /// The steps that speak of an item: those of its stage, or all for what is besides.
    pub fn steps_of(&mut self, at: At) -> Vec<&mut Step> {
        match at {
            At::Stage(s, _) => self.recipe.stages[s].steps.iter_mut().collect(),
            At::Beside(i) => {
                let called = self.recipe.besides[i].called().to_owned();
                // A stage with an item of that name means its own.
                let stages = self.recipe.stages.iter_mut();
                let foreign =
                    stages.filter(|stage| stage.items.iter().all(|own| own.called() != called));
                let own = foreign.flat_map(|stage| stage.steps.iter_mut());
                let products = self.recipe.products.iter_mut();
                own.chain(products.flat_map(|product| product.steps.iter_mut()))
                    .collect()
            }
        }
    }

    /// Calls an item otherwise, in sentences and actions too.
    pub fn call(&mut self, at: At, name: &str) {
        let old = self.item(at).called().to_owned();
        let on = self.item(at).on.as_ref().map(|on| on.value);
        for step in self.steps_of(at) {
            step.text.value = sentence::rename(&step.text.value, &old, name, |piece| match piece {
                Piece::Besides { place, .. } => Some(*place) == on,
                _ => true,
            });
            rename_action(&mut step.action, &old, name);
        }
        if let (At::Beside(_), Some(on)) = (at, on) {
            self.rename_for_place(&old, name, on);
        }
        let item = self.item_mut(at);
        item.name = (item.of.value != name).then(|| new(name.to_owned()));
    }

    /// `[old for the tin]` in stages that have an item of the old name of their own.
    fn rename_for_place(&mut self, old: &str, name: &str, on: Place) {
        for step in self.recipe.stages.iter_mut().flat_map(|s| &mut s.steps) {
            step.text.value = sentence::rename(
                &step.text.value,
                old,
                name,
                |piece| matches!(piece, Piece::Besides { place, .. } if *place == on),
            );
        }
    }

    /// Gives an item another amount; its parts in sentences follow, its own kitchen measure goes.
    pub fn take(&mut self, at: At, amount: Amount) {
        let before = self.mass(at);
        let count = match self.item(at).take.as_ref().map(|take| &take.value) {
            Some(Amount::Count { count, .. }) => Some(*count),
            _ => None,
        };
        let what = self.whose(at);
        let shown = self.shown(at);
        let item = self.item_mut(at);
        if item.take.as_ref().map(|take| &take.value) == Some(&amount) {
            return;
        }
        item.take = Some(new(amount));
        item.also = None;
        if let (Some(before), Some(after)) = (before, self.mass(at)) {
            self.reckon(at, before, after, count);
        }
        let now = self.shown(at);
        self.changed(what, shown, now);
    }

    /// Gives an item another mass, rounded as a scale is read.
    pub fn take_mass(&mut self, at: At, mass: Mass) {
        self.take(at, Amount::Mass(weighed(mass)));
    }

    /// Writes the parts of an item anew.
    pub fn reckon(&mut self, at: At, before: Mass, after: Mass, count: Option<f64>) {
        let called = self.item(at).called().to_owned();
        let by = Reckoning {
            before,
            after,
            count,
        };
        let mut texts: Vec<&mut String> = self
            .steps_of(at)
            .into_iter()
            .map(|step| &mut step.text.value)
            .collect();
        sentence::reckon_parts(&mut texts, &called, by);
    }

    /// Takes an item away, and out of every sentence that uses it.
    pub fn drop_item(&mut self, at: At) {
        let what = self.whose(at);
        let shown = self.shown(at);
        let called = self.item(at).called().to_owned();
        for step in self.steps_of(at) {
            if sentence::names(&step.text.value, &called) {
                step.text.value = sentence::take_out(&step.text.value, &called);
            }
            if let Action::Ready { what, .. } = &mut step.action {
                what.retain(|name| name.value != called);
            }
            if let Action::Mix { adjust, .. } = &mut step.action
                && adjust.as_ref().is_some_and(|name| name.value == called)
            {
                *adjust = None;
            }
        }
        match at {
            At::Stage(s, i) => {
                self.recipe.stages[s].items.remove(i);
            }
            At::Beside(i) => {
                self.recipe.besides.remove(i);
            }
        }
        self.tidy_steps();
        self.changed(what, shown, "");
    }

    /// Steps that say nothing any more go.
    pub fn tidy_steps(&mut self) {
        let says = |step: &Step| {
            let idle = matches!(&step.action, Action::Ready { what, .. } if what.is_empty());
            !idle && !step.text.value.trim().is_empty()
        };
        for stage in &mut self.recipe.stages {
            stage.steps.retain(says);
        }
        for product in &mut self.recipe.products {
            product.steps.retain(says);
        }
    }

    /// Puts an item into a stage, behind another one, and into the sentence that uses that one.
    pub fn put_beside(&mut self, at: At, item: Item) -> At {
        let At::Stage(s, i) = at else { return at };
        let near = self.item(at).called().to_owned();
        let bracket = format!("[{}]", item.called());
        for step in self.steps_of(at) {
            if let Some(text) = sentence::put_beside(&step.text.value, &near, &bracket) {
                step.text.value = text;
                break;
            }
        }
        self.recipe.stages[s].items.insert(i + 1, item);
        let at = At::Stage(s, i + 1);
        let (what, shown) = (self.whose(at), self.shown(at));
        self.changed(what, "", shown);
        at
    }

    /// A name that is free in the scope of an item: the one asked for, or with "more" before it.
    pub fn free_name(&self, at: At, name: &str) -> String {
        let taken = |name: &str| match at {
            At::Stage(s, i) => {
                let own = self.recipe.stages[s].items.iter().enumerate();
                own.filter(|(place, _)| *place != i)
                    .any(|(_, item)| item.called() == name)
            }
            At::Beside(i) => {
                let on = self.item(at).on.as_ref().map(|on| on.value);
                let own = self.recipe.besides.iter().enumerate();
                own.filter(|(place, _)| *place != i).any(|(_, item)| {
                    item.called() == name && item.on.as_ref().map(|on| on.value) == on
                })
            }
        };
        let mut free = name.to_owned();
        for word in ["more", "extra", "further"] {
            if !taken(&free) {
                break;
            }
            free = format!("{word} {name}");
        }
        free
    }
}

/// A mass as a scale is read, without the dust of binary steps.
pub fn weighed(mass: Mass) -> Mass {
    let text = numerics::decimal::trimmed(say::rounded_mass(mass).grams(), 2);
    text.parse().map_or(mass, Mass::from_grams)
}

/// An item by mass and nothing else.
pub fn plain_item(of: &str, mass: Mass, called: &str) -> Item {
    Item {
        take: Some(new(Amount::Mass(weighed(mass)))),
        name: (of != called).then(|| new(called.to_owned())),
        ..Item::bare(new(of.to_owned()), Span::default())
    }
}

/// An action that names an item by its old name names it by the new one.
fn rename_action(action: &mut Action, old: &str, name: &str) {
    let one = |named: &mut Located<String>| {
        if named.value == old {
            name.clone_into(&mut named.value);
        }
    };
    match action {
        Action::Ready { what, .. } => what.iter_mut().for_each(one),
        Action::Wake { yeast, liquid, .. } => {
            one(yeast);
            one(liquid);
        }
        Action::Mix {
            adjust: Some(adjust),
            ..
        } => one(adjust),
        _ => {}
    }
}
