//! Nutrition in the terms of schema.org, the strings of the printed table and nothing else.

use edit::ledger::label::model::LabelLines;
use serde::Serialize;

use crate::line::plain;

/// schema.org `NutritionInformation`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Nutrition {
    #[serde(rename = "@type")]
    kind: &'static str,
    serving_size: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    calories: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fat_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    saturated_fat_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    trans_fat_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cholesterol_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sodium_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    carbohydrate_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fiber_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sugar_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    protein_content: Option<String>,
}

/// The first column of the first product's table; a figure that is not known to its end is left
/// out, for a machine would take it as the whole. A recipe of several products has one such block
/// in schema.org, so it names the product in its serving size.
pub(super) fn nutrition(lines: &LabelLines) -> Option<Nutrition> {
    let product = lines.products.first()?;
    let panel = product.panel(lines.law);
    let head = panel.heads.first()?;
    let said = |what: &str| {
        let row = panel.row(what).filter(|row| row.complete)?;
        row.cells[0].as_ref().map(|figure| plain(&figure.shown))
    };
    // Nothing without its energy.
    let calories = Some(said("energy-kcal")?);
    Some(Nutrition {
        kind: "NutritionInformation",
        serving_size: plain(&format!("{}: {head}", product.name)),
        calories,
        fat_content: said("fat"),
        saturated_fat_content: said("saturated-fat"),
        trans_fat_content: said("trans-fat"),
        cholesterol_content: said("cholesterol"),
        sodium_content: said("sodium"),
        carbohydrate_content: said("carbohydrate"),
        fiber_content: said("fibre"),
        sugar_content: said("sugars"),
        protein_content: said("protein"),
    })
}
