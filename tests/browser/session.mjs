// What every story shares: a browser, the notebook's address, and an answer as JSON.
import { createRequire } from "node:module";
import { browserPath } from "../peers/findings.mjs";

const require = createRequire(new URL("../peers/package.json", import.meta.url));
const { chromium } = require("playwright-core");
export const axe = require.resolve("axe-core/axe.min.js");

/** Address of the notebook and a folder for what the story leaves behind. */
export const [address, folder] = process.argv.slice(2);

/** Runs a story: it gets a browser and a list to put its findings on. */
export async function story(tell) {
  const findings = [];
  const note = (where, message) => findings.push({ where, message: String(message) });
  const browser = await chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox"] });
  let told = {};
  try {
    told = (await tell(browser, note)) ?? {};
  } catch (error) {
    note("story", error.stack ?? error);
  } finally {
    await browser.close();
  }
  console.log(JSON.stringify({ findings, told }, null, 2));
  process.exitCode = findings.length === 0 ? 0 : 1;
}

/** Notes whatever the browser itself complains about: refused styles, missing files, other sites. */
export function listen(page, note) {
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") note(page.url(), message.text());
  });
  page.on("pageerror", (error) => note(page.url(), error));
  page.on("requestfailed", (request) => {
    // A download ends its own navigation.
    if (!request.failure()?.errorText.includes("ERR_ABORTED")) note(request.url(), request.failure()?.errorText);
  });
  page.on("request", (request) => {
    if (!request.url().startsWith(address)) note(request.url(), "a request to somewhere else");
  });
}
