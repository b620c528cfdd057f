//! The terms of schema.org that are written, each as a struct, in the order in which they appear.

use serde::Serialize;

/// schema.org `Recipe`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Recipe {
    #[serde(rename = "@context")]
    pub context: &'static str,
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub author: Option<Person>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date_published: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date_modified: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub version: Option<String>,
    pub in_language: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub description: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub image: Vec<String>,
    #[serde(rename = "recipeYield", skip_serializing_if = "Option::is_none")]
    pub makes: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prep_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cook_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub total_time: Option<String>,
    #[serde(rename = "recipeIngredient")]
    pub ingredients: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nutrition: Option<super::nutrition::Nutrition>,
    #[serde(rename = "recipeInstructions")]
    pub sections: Vec<Section>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tool: Vec<Tool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub video: Option<Video>,
}

/// schema.org `Person`.
#[derive(Serialize)]
pub(super) struct Person {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub name: String,
}

/// schema.org `HowToSection`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Section {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub position: usize,
    pub name: String,
    pub item_list_element: Vec<Step>,
}

/// schema.org `HowToStep`.
#[derive(Serialize)]
pub(super) struct Step {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub position: usize,
    pub text: String,
}

/// schema.org `HowToTool`.
#[derive(Serialize)]
pub(super) struct Tool {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub name: String,
}

/// schema.org `VideoObject`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Video {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub name: String,
    pub thumbnail_url: String,
    pub upload_date: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub url: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub has_part: Vec<Clip>,
}

/// schema.org `Clip`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Clip {
    #[serde(rename = "@type")]
    pub kind: &'static str,
    pub name: String,
    pub start_offset: u64,
    pub end_offset: u64,
    pub url: String,
}
