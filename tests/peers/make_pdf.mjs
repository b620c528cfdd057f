// Prints a page as a tagged Letter PDF with a browser: an independent good file to try the PDF judge on.
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { browserPath } from "./findings.mjs";

const [page, pdf] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox"] });
try {
  const tab = await browser.newPage();
  await tab.goto(pathToFileURL(resolve(page)).href);
  await tab.pdf({ path: pdf, format: "Letter", tagged: true });
} finally {
  await browser.close();
}
