// Every page by day and night, wide, 320 px narrow and at twice the size of type: axe-core, reflow, targets, no complaints.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { address, axe, folder, listen, story } from "./session.mjs";

const looks = [
  { name: "light", colorScheme: "light", width: 1280 },
  { name: "dark", colorScheme: "dark", width: 1280 },
  { name: "narrow", colorScheme: "light", width: 320 },
  { name: "narrow dark", colorScheme: "dark", width: 320 },
];
const paths = process.argv.slice(4);

await story(async (browser, note) => {
  let passes = 0;
  const files = [];
  for (const look of looks) {
    const context = await browser.newContext({
      colorScheme: look.colorScheme,
      viewport: { width: look.width, height: 800 },
      bypassCSP: true,
    });
    for (const path of paths) {
      const page = await context.newPage();
      const at = `${look.name} ${path}`;
      const answer = await page.goto(new URL(path, address).href);
      if (look.name === "light") {
        const file = join(folder, `page-${files.length}.html`);
        writeFileSync(file, await answer.body());
        files.push(file);
      }
      const foreign = "script:not([type='application/ld+json']):not([type='module'][src^='/script/'])";
      if ((await page.locator(foreign).count()) > 0) note(at, "a script that is not ours");
      const { inner, scroll, widest, small } = await page.evaluate(() => {
        const inner = document.documentElement.clientWidth;
        const wide = [...document.body.querySelectorAll("*")].find(
          (e) => e.getBoundingClientRect().right > inner + 1 && !e.closest("pre") && getComputedStyle(e).clipPath === "none",
        );
        // WCAG 2.2, 2.5.8: 24 px, links within a sentence excepted.
        const small = [...document.querySelectorAll("main button, main select, main input:not([type=hidden]), nav a")]
          .filter((e) => e.getBoundingClientRect().height < 24 && e.getClientRects().length > 0)
          .map((e) => e.outerHTML.slice(0, 60));
        return {
          inner,
          scroll: document.documentElement.scrollWidth,
          widest: wide ? `${wide.tagName} ${wide.className} ${wide.textContent.slice(0, 40)}` : "",
          small,
        };
      });
      if (scroll > inner) note(at, `${scroll} px of content in ${inner} px: ${widest}`);
      for (const target of small) note(at, `a target lower than 24 px: ${target}`);
      // Colours by night are looked at wide; what is narrow is the same by day and night.
      if (look.name === "narrow dark") {
        await page.close();
        continue;
      }
      await page.addScriptTag({ path: axe });
      const report = await page.evaluate(() =>
        globalThis.axe.run(document, {
          runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        }),
      );
      passes += report.passes.length;
      for (const v of report.violations) {
        for (const node of v.nodes) note(at, `${v.id} ${node.target.join(" ")}: ${node.failureSummary}`);
      }
      await page.close();
    }
    await context.close();
  }
  // Once more under the pages' own policy, so that the browser says what it refuses.
  const context = await browser.newContext();
  const page = await context.newPage();
  listen(page, note);
  for (const path of paths) {
    await page.goto(new URL(path, address).href);
    const styled = await page.evaluate(() => [...document.styleSheets].length);
    if (styled !== 1) note(path, `${styled} style sheets were let through`);
  }
  return { passes, files };
});
