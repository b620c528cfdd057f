//! One ingredient in place of another: amounts found so that water, fat, sugar, salt and protein stay.
