// Expands structured data with the jsonld processor, offline, and reports every term that is dropped or holds the wrong kind of value.
import jsonld from "jsonld";
import { document as context, isAddress, isDate, isDuration, isNumber, isText, isThing } from "./context.mjs";
import { answer, filesToJudge, structuredData } from "./findings.mjs";

const files = filesToJudge("judge_jsonld");
const findings = [];
let nodes = 0;

const documentLoader = async (url) => {
  if (/^https?:\/\/schema\.org\/?$/.test(url)) return { contextUrl: null, documentUrl: url, document: context };
  throw new Error(`the data asks for ${url}`);
};

// ISO 8601, as schema.org's Duration wants it: at least one part, no empty time part.
const duration = /^P(?!$)(\d+W|(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+S)?)?)$/;
const date = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/** Looks at every value as it is written, for its kind. */
function kinds(file, value, where, term) {
  const note = (rule, message) => findings.push({ file, where, rule, message });
  if (Array.isArray(value)) {
    if (value.length === 0) note("empty", "an empty list");
    value.forEach((entry, index) => kinds(file, entry, `${where}[${index}]`, term));
    return;
  }
  if (value !== null && typeof value === "object") {
    nodes += 1;
    if (!value["@type"]) note("type", "a thing without @type");
    if (isText.has(term)) note("kind", `${term} wants text, not a thing`);
    for (const [key, inner] of Object.entries(value)) {
      if (!key.startsWith("@")) kinds(file, inner, `${where}.${key}`, key);
    }
    return;
  }
  if (value === null || value === "") note("empty", `${term} holds nothing`);
  if (isDuration.has(term) && !duration.test(value)) note("duration", `${value} is not an ISO 8601 duration`);
  if (isDate.has(term) && !date.test(value)) note("date", `${value} is not a date`);
  if (isAddress.has(term) && !/^https?:\/\/\S+$/.test(value)) note("address", `${value} is not an absolute address`);
  if (isNumber.has(term) && typeof value !== "number") note("number", `${term} wants a number`);
  if (isText.has(term) && typeof value !== "string") note("kind", `${term} wants text`);
  if (isThing.has(term)) note("kind", `${term} wants a thing, not "${value}"`);
}

for (const file of files) {
  const found = structuredData(file);
  if (found.length === 0) findings.push({ file, where: "", rule: "absent", message: "no structured data" });
  for (const text of found) {
    const note = (rule, where, message) => findings.push({ file, where, rule, message });
    if (file.endsWith(".html") && text.includes("<")) note("escape", "", "a < inside the script element is not escaped");
    let data;
    try {
      data = JSON.parse(text);
    } catch (error) {
      note("json", "", String(error));
      continue;
    }
    kinds(file, data, "$", "");
    const eventHandler = ({ event }) => {
      const d = event.details ?? {};
      const where = d.property ?? d.expandedProperty ?? d.type ?? d.value ?? d.reference ?? "";
      note("dropped", typeof where === "string" ? where : JSON.stringify(where), `${event.code}: ${event.message}`);
    };
    let expanded;
    try {
      expanded = await jsonld.expand(data, { documentLoader, eventHandler });
    } catch (error) {
      note("expand", "", String(error.message ?? error));
      continue;
    }
    const recipe = expanded.find((node) => node["@type"]?.includes("http://schema.org/Recipe"));
    if (!recipe) {
      note("recipe", "", "no Recipe in the data");
      continue;
    }
    for (const term of ["name", "recipeIngredient", "recipeInstructions", "recipeYield", "totalTime"]) {
      if (!recipe[`http://schema.org/${term}`]?.length) note("recipe", term, "a recipe needs it");
    }
    if (Boolean(recipe["http://schema.org/prepTime"]) !== Boolean(recipe["http://schema.org/cookTime"])) {
      note("recipe", "prepTime", "prepTime and cookTime stand together or not at all");
    }
  }
}
answer("jsonld", files, findings, { things: nodes });
