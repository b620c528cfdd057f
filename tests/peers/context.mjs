// The schema.org terms that a recipe may use here, each with the kind of value that schema.org gives it.
// Written from the property lists of schema.org's own types; a term that is not listed is dropped by the
// JSON-LD processor, and the judge reports it.
const schema = (term) => `http://schema.org/${term}`;

export const types = [
  "Recipe", "HowToSection", "HowToStep", "HowToTool", "HowToSupply", "HowToDirection", "HowToTip",
  "ItemList", "ListItem", "Person", "Organization", "VideoObject", "Clip", "ImageObject",
  "NutritionInformation", "QuantitativeValue", "PropertyValue",
];

const texts = [
  "name", "description", "text", "inLanguage", "keywords", "version", "recipeYield", "yield",
  "recipeIngredient", "recipeCategory", "recipeCuisine", "cookingMethod", "servingSize", "caption",
  "creditText", "unitText", "unitCode", "alternateName", "headline",
];
const quantities = [
  "calories", "carbohydrateContent", "cholesterolContent", "fatContent", "fiberContent",
  "proteinContent", "saturatedFatContent", "sodiumContent", "sugarContent", "transFatContent",
  "unsaturatedFatContent",
];
const numbers = ["position", "startOffset", "endOffset", "value", "minValue", "maxValue", "numberOfItems", "width", "height"];
const durations = ["prepTime", "cookTime", "totalTime", "performTime", "duration"];
const dates = ["datePublished", "dateModified", "dateCreated", "uploadDate"];
const addresses = ["url", "thumbnailUrl", "contentUrl", "embedUrl", "license", "sameAs", "image", "isBasedOn", "suitableForDiet"];
const things = [
  "author", "publisher", "creator", "video", "nutrition", "tool", "supply", "step", "recipeInstructions",
  "itemListElement", "hasPart", "item", "requiredQuantity", "estimatedCost", "about",
];

export const isDuration = new Set(durations);
export const isDate = new Set(dates);
export const isAddress = new Set(addresses);
export const isNumber = new Set(numbers);
export const isText = new Set([...texts, ...quantities]);
export const isThing = new Set(things);

const context = {};
for (const type of types) context[type] = { "@id": schema(type) };
for (const term of [...texts, ...quantities, ...numbers, ...durations, ...things]) context[term] = { "@id": schema(term) };
for (const term of dates) context[term] = { "@id": schema(term), "@type": schema("Date") };
for (const term of addresses) context[term] = { "@id": schema(term), "@type": "@id" };

export const document = { "@context": context };
