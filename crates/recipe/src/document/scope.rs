//! What a sentence may name: the items of its own stage or product first, then those besides.

use super::model::{Item, Place, Recipe};

/// The items that one stage's, or one product's, sentences can use.
pub struct Scope<'a> {
    /// Items of the stage, or what goes into each piece of the product.
    own: &'a [Item],
    /// Items for bench, tin and top.
    besides: &'a [Item],
}

/// An item that was found, and whose it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Found<'a> {
    /// By its number among the stage's items, or the product's `with`.
    Own(usize, &'a Item),
    /// By its number among `besides`.
    Besides(usize, &'a Item),
}

impl<'a> Found<'a> {
    /// The item.
    pub const fn item(self) -> &'a Item {
        match self {
            Self::Own(_, item) | Self::Besides(_, item) => item,
        }
    }
}

impl<'a> Scope<'a> {
    /// Of a stage, by its number; nothing of its own when there is no such stage.
    pub fn of_stage(recipe: &'a Recipe, stage: usize) -> Self {
        let own = recipe
            .stages
            .get(stage)
            .map_or(&[][..], |stage| &stage.items);
        Self {
            own,
            besides: &recipe.besides,
        }
    }

    /// Of a product, by its number.
    pub fn of_product(recipe: &'a Recipe, product: usize) -> Self {
        let own = recipe
            .products
            .get(product)
            .map_or(&[][..], |product| &product.with);
        Self {
            own,
            besides: &recipe.besides,
        }
    }

    /// The item called so: one's own first.
    pub fn item(&self, name: &str) -> Option<Found<'a>> {
        let own = self
            .own
            .iter()
            .enumerate()
            .find(|(_, item)| item.called() == name);
        if let Some((number, item)) = own {
            return Some(Found::Own(number, item));
        }
        let found = self
            .besides
            .iter()
            .enumerate()
            .find(|(_, item)| item.called() == name)?;
        Some(Found::Besides(found.0, found.1))
    }

    /// The item called so that is for bench, tin or top.
    pub fn for_place(&self, name: &str, place: Place) -> Option<Found<'a>> {
        let here = |item: &Item| item.on.as_ref().is_some_and(|on| on.value == place);
        let (number, item) = self
            .besides
            .iter()
            .enumerate()
            .find(|(_, item)| item.called() == name && here(item))?;
        Some(Found::Besides(number, item))
    }

    /// The name by which sentences call whatever is listed under this name.
    pub fn short_name(&self, of: &str) -> Option<&'a str> {
        let listed = |item: &&Item| item.of.value.eq_ignore_ascii_case(of);
        self.own
            .iter()
            .chain(self.besides)
            .find(listed)
            .map(Item::called)
    }

    /// Every name that a sentence may use.
    pub fn names(&self) -> Vec<&'a str> {
        self.own
            .iter()
            .chain(self.besides)
            .map(Item::called)
            .collect()
    }
}
