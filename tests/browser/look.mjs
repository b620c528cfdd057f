// Every page by day and night, wide, 320 px narrow, at twice the size, by keyboard: axe-core, reflow, targets, weight, no complaints.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { address, axe, folder, listen, story } from "./session.mjs";

const paths = process.argv.slice(4);
// So many pages are looked at side by side.
const SIDE_BY_SIDE = 3;
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const HEAVIEST = 150_000; // bytes: a page with its style and scripts

// Once a page is loaded it is looked at in each of these; what a look cannot change is not asked again.
const looks = [
  { name: "wide", width: 1280, by: "light", rules: RULES },
  { name: "wide by night", width: 1280, by: "dark", rules: ["color-contrast", "link-in-text-block"] },
  { name: "at twice the size", width: 640, by: "light" },
  { name: "in letters twice as large", width: 1280, by: "light", letters: "250%" },
  { name: "narrow", width: 320, by: "light", rules: ["target-size", "color-contrast", "scrollable-region-focusable", "aria-hidden-focus"] },
];

const reflow = () => {
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
};

/** Writes down what gets the focus, and whether it can be seen to have it; by its words, as a part of a page may be exchanged meanwhile. */
const watchFocus = () => {
  globalThis.reached = new Map();
  document.addEventListener("focusin", ({ target }) => {
    const style = getComputedStyle(target);
    globalThis.reached.set(target.outerHTML, target.id === "main" || (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2));
  });
};
const stops = () => {
  const all = [...document.querySelectorAll("a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']")];
  // Of a group of choices one is stopped at.
  const wanted = all.filter((e) => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({ visibilityProperty: true }) && !(e.type === "radio" && !e.checked));
  const said = (e) => e.outerHTML.slice(0, 80);
  return {
    count: all.length,
    missed: wanted.filter((e) => !globalThis.reached?.has(e.outerHTML)).map(said),
    unseen: [...(globalThis.reached ?? [])].filter(([, ringed]) => !ringed).map(([words]) => words.slice(0, 80)),
    first: all.some((e) => e.tabIndex > 0),
  };
};

async function weight(page, answer, weights) {
  const parts = await page.evaluate(() =>
    [...document.querySelectorAll("link[rel=stylesheet], script[src]")].map((e) => e.href || e.src),
  );
  let bytes = (await answer.body()).length;
  for (const part of parts) {
    if (!weights.has(part)) weights.set(part, (await (await page.context().request.get(part)).body()).length);
    bytes += weights.get(part);
  }
  return bytes;
}

await story(async (browser, note) => {
  let passes = 0;
  let heaviest = 0;
  const files = [];
  const weights = new Map();
  const bypassing = await browser.newContext({ bypassCSP: true });
  const plain = await browser.newContext();

  const judged = async (page, at, rules) => {
    const tags = rules === RULES;
    const runOnly = { type: tags ? "tag" : "rule", values: rules };
    const report = await page.evaluate((options) => globalThis.axe.run(document, options), { runOnly, resultTypes: ["violations"] });
    passes += report.passes.length;
    for (const v of report.violations) {
      for (const node of v.nodes) note(at, `${v.id} ${node.target.join(" ")}: ${node.failureSummary}`);
    }
  };

  const whole = async (path, number) => {
    // Once under the pages' own policy, so that the browser says what it refuses.
    const own = await plain.newPage();
    // A page that says that nothing is here is one, too; the browser remarks on its status.
    const nothing = path.endsWith("/none");
    listen(own, (where, message) => {
      if (!(nothing && String(message).includes("404"))) note(where, message);
    });
    const answer = await own.goto(new URL(path, address).href);
    if (answer.status() !== (nothing ? 404 : 200)) note(path, `it is answered with ${answer.status()}`);
    files[number] = join(folder, `page-${number}.html`);
    writeFileSync(files[number], await answer.body());
    const foreign = "script:not([type='application/ld+json']):not([type='module'][src^='/script/'])";
    if ((await own.locator(foreign).count()) > 0) note(path, "a script that is not ours");
    const refused = await own.evaluate(() => document.querySelectorAll("link[rel=stylesheet], style").length - document.styleSheets.length);
    if (refused !== 0) note(path, `${refused} style sheets were not let through`);
    const bytes = await weight(own, answer, weights);
    heaviest = Math.max(heaviest, bytes);
    if (bytes > HEAVIEST) note(path, `${bytes} bytes with style and scripts`);

    // The keyboard alone: Tab comes to everything, and what has the focus can be seen to have it.
    await own.evaluate(watchFocus);
    const { count } = await own.evaluate(stops);
    // A field for a day or an hour has a stop for each of its parts.
    for (let press = 0; press < count * 2 + 12; press += 1) {
      await own.keyboard.press("Tab");
      if (press % 16 === 15 && (await own.evaluate(stops)).missed.length === 0) break;
    }
    const { missed, unseen, first } = await own.evaluate(stops);
    for (const one of missed) note(path, `the keyboard does not come to ${one}`);
    for (const one of unseen) note(path, `no visible focus on ${one}`);
    if (first) note(path, "something pushes itself to the front of the keyboard's way");
    await own.close();

    const page = await bypassing.newPage();
    await page.goto(new URL(path, address).href);
    await page.addScriptTag({ path: axe });
    for (const look of looks) {
      const at = `${look.name} ${path}`;
      await page.emulateMedia({ colorScheme: look.by });
      await page.setViewportSize({ width: look.width, height: 800 });
      await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, look.letters ?? "");
      const { inner, scroll, widest, small } = await page.evaluate(reflow);
      if (scroll > inner) note(at, `${scroll} px of content in ${inner} px: ${widest}`);
      for (const target of small) note(at, `a target lower than 24 px: ${target}`);
      if (look.rules) await judged(page, at, look.rules);
    }
    await page.close();
  };

  const left = paths.map((path, number) => [path, number]);
  const hand = async () => {
    for (let next = left.shift(); next; next = left.shift()) {
      await whole(...next).catch((fault) => note(next[0], fault.stack ?? fault));
    }
  };
  await Promise.all(Array.from({ length: SIDE_BY_SIDE }, hand));
  return { passes, heaviest, files };
});
