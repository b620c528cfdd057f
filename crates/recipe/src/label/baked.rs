//! What is made, after the bake: only water is lost, and everything else is still there.

use super::content::{Content, share_of, stages};
use super::nutrient::Nutrient;
use super::tally::Tally;
use super::{besides, serving};
use crate::document::model::{Amount as Written, Item, Product, Recipe, Test};
use crate::formula::bands::{Measured, band};
use crate::formula::{Formula, Resolved, piece_mass};
use crate::larder::{Found, Larder};
use crate::provenance::{Had, Origin};
use numerics::decimal::trimmed;
use numerics::quantity::{Fraction, Mass};

/// What the bake takes, as a share of what went into the oven.
#[derive(Clone, Debug, PartialEq)]
pub struct Loss {
    /// As a share of dough and filling.
    pub share: Fraction,
    /// Whether it follows from a mass that was weighed after the bake.
    pub weighed: bool,
    /// Where it comes from.
    pub origin: Origin,
}

/// A product after the bake.
#[derive(Clone, Debug, PartialEq)]
pub struct Baked<'a> {
    /// Its name.
    pub name: String,
    /// How many pieces.
    pub count: u32,
    /// Everything in all its pieces, as put in.
    pub content: Content<'a>,
    /// Whether it has a filling.
    pub filled: bool,
    /// Mass of all pieces as they go into the oven, what is brushed and scattered on them included.
    pub raw: Mass,
    /// Mass of all pieces after the bake.
    pub baked: Mass,
    /// What the bake took.
    pub loss: Loss,
    /// What all pieces hold after the bake.
    pub tally: Tally,
}

impl Baked<'_> {
    /// Mass of one piece after the bake.
    pub fn piece(&self) -> Mass {
        self.baked / f64::from(self.count.max(1))
    }

    /// What so much of it holds.
    pub fn in_mass(&self, mass: Mass) -> Tally {
        self.tally.clone().times(share_of(mass, self.baked))
    }

    /// What 100 g of it hold.
    pub fn in_100_g(&self) -> Tally {
        self.in_mass(Mass::from_grams(100.0))
    }

    /// What one piece holds.
    pub fn in_piece(&self) -> Tally {
        self.tally.clone().times(1.0 / f64::from(self.count.max(1)))
    }

    /// What is eaten at one sitting, by the United States' reference amounts.
    pub fn serving(&self) -> serving::Serving {
        serving::serving(self.piece(), self.count, self.filled)
    }
}

/// What a recipe makes, and what is left over.
#[derive(Clone, Debug, PartialEq)]
pub struct Label<'a> {
    /// Products, in written order.
    pub products: Vec<Baked<'a>>,
    /// Everything that is put in, as written: what is bought.
    pub bought: Content<'a>,
    /// Dough and filling that end in no piece.
    pub left_over: Mass,
}

impl Label<'_> {
    /// What all products hold after the bake.
    pub fn whole(&self) -> Tally {
        let mut all = Tally::default();
        for product in &self.products {
            all = all.plus(&product.tally);
        }
        all
    }
}

/// Works out what each product holds after the bake.
pub fn label<'a>(recipe: &Recipe, formula: &'a Formula, larder: &'a Larder) -> Label<'a> {
    let stages = stages(formula);
    let dough: Vec<Mass> = formula.products.iter().map(|one| one.dough).collect();
    let mut contents: Vec<Content<'a>> = recipe
        .products
        .iter()
        .map(|product| in_product(product, formula, larder, &stages))
        .collect();
    let shaped = contents.clone();
    let mut bought = Content::default();
    for stage in &formula.stages {
        // Stages inside a stage are bought with themselves.
        for item in &stage.items {
            match (&item.what, item.mass) {
                (Resolved::Ingredient(ingredient), Some(mass)) => bought.put(ingredient, mass),
                (Resolved::Stage(_), _) => {}
                _ => bought.miss(&item.called),
            }
        }
        bought.evaporated += stage.evaporates;
    }
    for (place, item) in formula.besides.iter().enumerate() {
        let (Resolved::Ingredient(ingredient), Some(mass)) = (&item.what, item.mass) else {
            bought.miss(&item.called);
            for content in &mut contents {
                content.miss(&item.called);
            }
            continue;
        };
        bought.put(ingredient, mass);
        let shares = besides::shares(recipe, place, mass, &dough);
        for (content, share) in contents.iter_mut().zip(shares) {
            if share > 0.0 {
                content.put(ingredient, mass * share);
            }
        }
    }
    let products: Vec<Baked<'a>> = recipe
        .products
        .iter()
        .zip(shaped.into_iter().zip(contents))
        .map(|(product, (shaped, content))| baked(recipe, product, &shaped, content, larder))
        .collect();
    let used: Mass = products.iter().map(|one| one.raw).sum();
    Label {
        left_over: bought.mass() - used,
        products,
        bought,
    }
}

/// Dough and filling of all pieces of a product.
fn in_product<'a>(
    product: &Product,
    formula: &'a Formula,
    larder: &'a Larder,
    stages: &[Content<'a>],
) -> Content<'a> {
    let count = f64::from(product.count.value);
    let mut content = Content::default();
    let place = |name: &str| formula.stages.iter().position(|stage| stage.name == name);
    if let Some(from) = place(&product.from.value) {
        let whole = stages[from].mass();
        let dough = piece_mass(&product.piece.value) * count;
        content.add(&stages[from], share_of(dough, whole));
    }
    for item in &product.with {
        match place(item.of.value.trim()) {
            Some(stage) => {
                let whole = stages[stage].mass();
                let share = stage_taken(item, count).map_or(1.0, |taken| share_of(taken, whole));
                content.add(&stages[stage], share);
            }
            None => filled_with(&mut content, item, count, larder),
        }
    }
    content
}

/// How much of a stage all pieces take; none when they take all of it.
fn stage_taken(item: &Item, count: f64) -> Option<Mass> {
    match (&item.take, &item.each) {
        (Some(take), _) => grams(&take.value),
        (None, Some(each)) => grams(&each.value).map(|mass| mass * count),
        (None, None) => None,
    }
}

const fn grams(amount: &Written) -> Option<Mass> {
    match amount {
        Written::Mass(mass) => Some(*mass),
        _ => None,
    }
}

/// An ingredient that goes into each piece as it is.
fn filled_with<'a>(content: &mut Content<'a>, item: &Item, count: f64, larder: &'a Larder) {
    let found = match larder.find(&item.of.value) {
        Found::One(one) => Some(one),
        Found::Several(several) => several.first().copied(),
        Found::Near(_) | Found::Nothing => None,
    };
    let times = if item.take.is_some() { 1.0 } else { count };
    let amount = item.take.as_ref().or(item.each.as_ref());
    let weighed = found
        .zip(amount)
        .and_then(|(one, amount)| Some((one, larder.weigh(one, &amount.value).ok()?.0)));
    match weighed {
        Some((one, mass)) => content.put(one, mass * times),
        None => content.miss(item.called()),
    }
}

fn baked<'a>(
    recipe: &Recipe,
    product: &Product,
    shaped: &Content<'_>,
    content: Content<'a>,
    larder: &Larder,
) -> Baked<'a> {
    let raw = content.mass();
    let count = product.count.value;
    let loss = loss(recipe, product, shaped.mass());
    let mut baked = shaped.mass() * (1.0 - loss.share.si());
    if product.after_bake.is_none() {
        // What is brushed and scattered on it dries: it adds all that is not its water.
        let water = |content: &Content<'_>| content.tally(larder).of(Nutrient::Water).low;
        let outside = (raw - shaped.mass()).si() - (water(&content) - water(shaped));
        baked += Mass::from_si(outside.max(0.0));
    }
    let tally = content.tally(larder).dried(raw - baked);
    Baked {
        name: product.name.value.clone(),
        count,
        filled: !product.with.is_empty(),
        raw,
        baked,
        loss,
        tally,
        content,
    }
}

/// What the bake takes: from the written mass after it, else from the bakes that were noted, else
/// the middle of what is usual for the kind.
fn loss(recipe: &Recipe, product: &Product, shaped: Mass) -> Loss {
    let count = f64::from(product.count.value);
    if let Some(after) = &product.after_bake
        && shaped > Mass::ZERO
    {
        return Loss {
            share: Fraction::from_si(1.0 - after.value * count / shaped),
            weighed: true,
            origin: Origin::new("the mass after the bake, as written", Had::Written),
        };
    }
    let is_of = |test: &&Test| match &test.product {
        Some(name) => name.value.eq_ignore_ascii_case(&product.name.value),
        None => recipe.products.len() == 1,
    };
    let noted: Vec<f64> = recipe
        .tested
        .iter()
        .filter(is_of)
        .filter_map(|test| test.loss.as_ref().map(|loss| loss.value.si()))
        .collect();
    if !noted.is_empty() {
        #[allow(clippy::cast_precision_loss)]
        let mean = noted.iter().sum::<f64>() / noted.len() as f64;
        return Loss {
            share: Fraction::from_si(mean),
            weighed: true,
            origin: Origin::new("the mean of the noted bakes", Had::Measured),
        };
    }
    match band(recipe.kind.value, Measured::BakeLoss) {
        Some(band) => Loss {
            share: Fraction::from_si(f64::midpoint(band.low, band.high)),
            weighed: false,
            origin: Origin::new(
                format!(
                    "the middle of {}–{} %, {}",
                    trimmed(band.low * 100.0, 1),
                    trimmed(band.high * 100.0, 1),
                    band.origin.source
                ),
                band.origin.had,
            ),
        },
        None => Loss {
            share: Fraction::ZERO,
            weighed: false,
            origin: Origin::new("no loss is known", Had::CommonPractice),
        },
    }
}
