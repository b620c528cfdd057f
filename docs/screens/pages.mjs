// The notebook that is shown, and its pages by the names of their pictures, each with what is done on it first.
import { copyFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";

const root = new URL("../../", import.meta.url);

/** Puts the demo's files into an empty notebook. */
export function fill(notebook) {
  for (const folder of ["kitchens", "scenes"]) mkdirSync(join(notebook, folder), { recursive: true });
  for (const [from, to] of [
    ["examples/same-day-loaf.toml"],
    ["examples/hearth-loaf.toml"],
    ["examples/cardamom-dough.toml"],
    ["examples/kitchens/studio.toml", "kitchens/studio.toml"],
    ["examples/scenes/cardamom-dough.toml", "scenes/cardamom-dough.toml"],
    ["tests/browser/pasted.txt", "milk-buns.txt"],
  ]) {
    copyFileSync(new URL(from, root), join(notebook, to ?? from.split("/").at(-1)));
  }
}

const LONG = { timeout: 120_000 };
const press = (page, name) => page.getByRole("button", { name, exact: true }).first().click();

/** What came of long work, at the top of the picture. */
async function shown(answer) {
  await answer.first().waitFor(LONG);
  await answer.first().evaluate((one) => scrollTo(0, one.getBoundingClientRect().top + scrollY - 16));
}

const loaf = (below) => `recipe/same-day-loaf${below}`;
const dough = (below) => `recipe/cardamom-dough${below}`;

/**
 * `name` of the picture, `at` its address, `what` it shows; `first` is done before it is taken, and `shows` are the
 * files of the web pages that then say what it holds, beside what the address answers by itself.
 */
export const pages = [
  { name: "first-page", at: "", what: "An empty notebook", empty: true },
  { name: "contents", at: "", what: "Contents" },
  { name: "pasted", at: "pasted/milk-buns", what: "A pasted text, line by line" },
  {
    name: "write", at: loaf(""), what: "Write, with a line to mend", shows: ["recipe/write.rs"],
    async first(page) {
      const field = page.getByLabel(/The recipe’s file/);
      const text = await field.inputValue();
      await field.fill(text.replace('take = "150 g"', 'take = "150"'));
      await page.locator(".gutter .mend").first().waitFor();
      await page.locator("#found a[href*='#line-']").first().click();
      await page.evaluate(() => scrollTo(0, 0));
    },
  },
  { name: "fill-in", at: loaf("/form"), what: "Fill in" },
  { name: "formula", at: loaf("/formula"), what: "Formula" },
  { name: "findings", at: loaf("/findings"), what: "Findings" },
  { name: "explained", at: "explain/bowl-too-small", what: "A finding explained" },
  { name: "what-if", at: loaf("/what-if?kitchen=studio&room=16"), what: "What if" },
  {
    name: "other-kitchens", at: loaf("/elsewhere"), what: "In other kitchens", shows: ["recipe/elsewhere.rs"],
    async first(page) {
      await page.getByLabel("How many").selectOption("100");
      await page.getByLabel("A quick look, without what decides it").check();
      await press(page, "Follow it there");
      await shown(page.getByRole("heading", { name: "How many come out well" }));
    },
  },
  {
    name: "under-way", at: loaf("/elsewhere"), what: "Long work under way", shows: ["under_way.rs"],
    async first(page) {
      await page.getByLabel("How many").selectOption("10000");
      await press(page, "Follow it there");
      await page.locator("progress").waitFor(LONG);
    },
    async last(page) {
      await press(page, "Cancel");
    },
  },
  {
    name: "reader", at: loaf("/reader"), what: "A reader’s report", shows: ["recipe/reader.rs"],
    async first(page) {
      await page.getByLabel("How it came out").selectOption("dense");
      await page.getByLabel(/How warm the kitchen is/).fill("17 °C");
      await press(page, "How usual is that?");
      await shown(page.locator("main h2"));
    },
  },
  {
    name: "words", at: dough("/words"), what: "What is said, held against the recipe", shows: ["recipe/words.rs"],
    async first(page) {
      await page.getByLabel(/Or a file/).setInputFiles(new URL("examples/talk/cardamom-dough.txt", root).pathname);
      await press(page, "Hold it against the recipe");
      await shown(page.locator("main h2"));
    },
  },
  { name: "answers", at: loaf("/answers?ask=cold-kitchen&facts=room%3D16C"), what: "Answers" },
  { name: "day", at: loaf("/day"), what: "A bake day" },
  {
    name: "day-plan", at: loaf("/day"), what: "A bake day, planned", shows: ["recipe/day"],
    async first(page) {
      await page.getByLabel("To be ready to eat").fill("braid 2026-12-24 16:00");
      await press(page, "Plan the day");
      await shown(page.locator("main h2"));
    },
  },
  { name: "filming", at: dough("/filming"), what: "A filming day" },
  { name: "scenes", at: dough("/filming/scenes?of=cardamom-dough"), what: "Scenes, filled in" },
  {
    name: "filming-plan", at: dough("/filming"), what: "A filming day, planned", shows: ["recipe/filming"],
    async first(page) {
      await page.getByLabel("A file of scenes").setInputFiles(new URL("examples/scenes/cardamom-dough.toml", root).pathname);
      await press(page, "Plan the filming");
      await shown(page.locator("main h2"));
    },
  },
  { name: "handbook", at: "handbook/filming-day", what: "What a file of scenes holds" },
  { name: "page", at: loaf("/page/"), what: "The page that is published" },
  { name: "text", at: loaf("/text"), what: "The recipe as text" },
  { name: "papers", at: loaf("/papers"), what: "Papers" },
  { name: "history", at: loaf("/history"), what: "History" },
  { name: "version", at: loaf("/history/1"), what: "What a version changed" },
  { name: "bake-along", at: loaf("/bench"), what: "Before a bake" },
  {
    name: "bench", at: loaf("/bench"), what: "At the bench", shows: ["bench"],
    async first(page) {
      // The first width begins the bake; the others find it there.
      const begin = page.getByRole("button", { name: "Begin the bake" });
      if ((await begin.count()) > 0) {
        await Promise.all([page.waitForNavigation(), begin.click()]);
        for (const tap of ["The yeast is in", "It foams", "Mixed"]) await press(page, tap);
      }
      await page.goto(new URL(`/${loaf("/bench?step=3")}`, page.url()).href);
      await page.locator("#time-3").waitFor();
    },
  },
  {
    name: "log", at: loaf("/log"), what: "The bench log", shows: ["bench/log.rs"],
    async first() {},
  },
  {
    name: "learn", at: loaf("/learn?kitchen=studio"), what: "What bakes teach", shows: ["bench/learn.rs"],
    async first() {},
  },
  { name: "refused", at: "recipe/none", what: "A page that is not there" },
];
