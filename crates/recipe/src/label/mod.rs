//! Nutrition, allergens, the ingredient list and the cost of a recipe, by the laws that govern labels.
