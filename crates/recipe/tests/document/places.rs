//! Takes the places out of a recipe, so that two texts of one recipe can be compared.

use recipe::document::model::{Item, Recipe, Step};
use recipe::source::Span;

/// The recipe without places.
pub fn without(mut recipe: Recipe) -> Recipe {
    let nowhere = Span::default();
    if let Some(promise) = &mut recipe.promise {
        promise.span = nowhere;
    }
    for entry in &mut recipe.pantry {
        entry.span = nowhere;
    }
    for stage in &mut recipe.stages {
        stage.span = nowhere;
        items(&mut stage.items);
        steps(&mut stage.steps);
    }
    for product in &mut recipe.products {
        product.span = nowhere;
        items(&mut product.with);
        steps(&mut product.steps);
        if let Some(tin) = &mut product.tin {
            tin.span = nowhere;
        }
    }
    items(&mut recipe.besides);
    for test in &mut recipe.tested {
        test.span = nowhere;
    }
    recipe
}

fn items(items: &mut [Item]) {
    for item in items {
        item.span = Span::default();
    }
}

fn steps(steps: &mut [Step]) {
    for step in steps {
        step.span = Span::default();
        if let Some(until) = &mut step.until {
            until.span = Span::default();
        }
    }
}
