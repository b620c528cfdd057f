// Looks at pages in a browser, by light and dark, 320 px narrow, and on paper, with the rules of axe-core (WCAG 2.2).
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { answer, browserPath, filesToJudge } from "./findings.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const ALL = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
// What another light, another width or paper can change; the rest is asked once.
const CHANGED = ["color-contrast", "link-in-text-block", "target-size", "scrollable-region-focusable", "aria-hidden-focus"];
const looks = [
  { name: "light", colorScheme: "light", width: 1280 },
  { name: "dark", colorScheme: "dark", width: 1280 },
  { name: "narrow", colorScheme: "light", width: 320 },
  { name: "paper", colorScheme: "light", width: 794, media: "print" },
];

const files = filesToJudge("judge_axe");
const browser = await chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox"] });
const findings = [];
const passes = {};
try {
  for (const file of files) {
    const address = pathToFileURL(resolve(file)).href;
    const context = await browser.newContext({ reducedMotion: "reduce", bypassCSP: true, offline: true });
    const page = await context.newPage();
    for (const look of looks) {
      const note = (rule, where, message) => findings.push({ file, look: look.name, where, rule, message });
      await page.setViewportSize({ width: look.width, height: 800 });
      await page.emulateMedia({ media: look.media ?? "screen", colorScheme: look.colorScheme });
      if (look === looks[0]) {
        // A page stands alone: besides itself and pictures in its own folder it asks for nothing.
        const folder = address.slice(0, address.lastIndexOf("/") + 1);
        page.on("request", (request) => {
          const url = request.url();
          if (url !== address && !url.startsWith(folder) && !url.startsWith("data:")) note("stands-alone", url, "the page asks for something outside its folder");
        });
        page.on("requestfailed", (request) => {
          if (request.url().startsWith("file:")) note("stands-alone", request.url(), "a file that the page wants is not there");
        });
        page.on("pageerror", (error) => note("script-error", "", String(error)));
        await page.goto(address);
        const scripts = await page.evaluate(
          () => [...document.scripts].filter((s) => s.type !== "application/ld+json").length,
        );
        if (scripts > 0) note("no-script", "", `${scripts} scripts on a page that should have none`);
        await page.addScriptTag({ path: axe });
      }
      const { inner, scroll, widest } = await page.evaluate(() => {
        const inner = document.documentElement.clientWidth;
        const wide = [...document.body.querySelectorAll("*")].find((e) => e.getBoundingClientRect().right > inner + 1);
        const widest = wide ? `${wide.tagName.toLowerCase()}.${wide.className}` : "";
        return { inner, scroll: document.documentElement.scrollWidth, widest };
      });
      // WCAG 2.2, 1.4.10: no scrolling in two directions at 320 CSS pixels.
      if (scroll > inner) note("reflow", widest, `${scroll} px of content in ${inner} px`);

      const runOnly = look === looks[0] ? { type: "tag", values: ALL } : { type: "rule", values: CHANGED };
      const report = await page.evaluate((only) => globalThis.axe.run(document, { runOnly: only }), runOnly);
      for (const v of report.violations) {
        for (const node of v.nodes) {
          const why = node.failureSummary.split("\n").slice(1).join(" ").trim();
          note(v.id, node.target.join(" "), `${v.help}: ${why}`);
        }
      }
      passes[look.name] = (passes[look.name] ?? 0) + report.passes.length;
    }
    await context.close();
  }
} finally {
  await browser.close();
}
answer("axe", files, findings, { passes });
