// With scripts: paste, write it to its end, turn a dial and see the day follow, other kitchens, publish.
import { readFileSync } from "node:fs";
import { address, axe, listen, story } from "./session.mjs";

const pasted = readFileSync(new URL("./pasted.txt", import.meta.url), "utf8");
const whole = readFileSync(new URL("../../examples/hearth-loaf.toml", import.meta.url), "utf8");

await story(async (browser, note) => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP: true });
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  listen(page, note);
  const tab = (name) => page.getByRole("navigation", { name: "Parts of the recipe" }).getByRole("link", { name, exact: true });
  /** axe-core and reflow, wide by day and 320 px narrow by night. */
  const judge = async (where) => {
    for (const [width, colorScheme] of [[1280, "light"], [320, "dark"], [320, "light"]]) {
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      if (wide > 0) note(where, `${wide} px too wide at ${width}`);
      await page.addScriptTag({ path: axe });
      const { violations } = await page.evaluate(() => globalThis.axe.run(document));
      for (const v of violations) for (const node of v.nodes) note(`${where} ${width} ${colorScheme}`, `${v.id} ${node.target.join(" ")}`);
    }
    await page.setViewportSize({ width: 1280, height: 900 });
  };

  await page.goto(address);
  await page.getByLabel("Text of the recipe").fill(pasted);
  await page.getByRole("button", { name: "Read it" }).click();
  await page.getByRole("button", { name: "Make it a recipe" }).click();
  await page.getByLabel(/The recipe’s file/).fill(whole);
  await page.getByRole("button", { name: "Save" }).click();

  // What if: the day follows the dial, the address says it, and the way back puts it back.
  await tab("What if").click();
  const lead = page.locator("#first .lead");
  const before = await lead.textContent();
  await page.getByLabel("Room, °C", { exact: true }).fill("16");
  await lead.filter({ hasText: "room 16 °C" }).waitFor();
  await page.waitForFunction(() => !document.querySelector("form[aria-busy]"));
  if (!page.url().endsWith("what-if?room=16")) note("what if", `the address is ${page.url()}`);
  if ((await page.getByLabel("Room, °C, slider").inputValue()) !== "16") note("what if", "the slider stays behind");
  await judge("what if");
  // On a telephone the answer comes before the dials, and every step after them.
  await page.setViewportSize({ width: 390, height: 844 });
  const tops = await page.evaluate(() => {
    scrollTo(0, 0);
    return ["#first", "#room", "#day"].map((part) => document.querySelector(part).getBoundingClientRect().top);
  });
  if (!(tops[0] < tops[1] && tops[1] < tops[2])) note("what if", `answer, dial and day stand at ${tops.map(Math.round)}`);
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.reload();
  await lead.filter({ hasText: "room 16 °C" }).waitFor();
  await page.locator("#room-note a").click();
  await page.waitForFunction((words) => document.querySelector("#first .lead").textContent === words, before);
  if (page.url().includes("room")) note("what if", `the address keeps the room: ${page.url()}`);
  // Both arrows of the keyboard turn it too.
  await page.getByLabel("Room, °C, slider").focus();
  await page.keyboard.press("ArrowRight");
  await lead.filter({ hasText: "room 21.5 °C" }).waitFor();

  // Other kitchens: begun by a button, followed to its end by the page itself.
  await tab("In other kitchens").click();
  await page.getByLabel("How many").selectOption("100");
  await page.getByLabel("A quick look, without what decides it").check();
  await page.getByRole("button", { name: "Follow it there" }).click();
  await page.getByRole("heading", { name: "How many come out well" }).waitFor();
  await judge("other kitchens");

  await tab("Papers").click();
  await page.getByRole("button", { name: "Publish" }).click();
  await page.getByRole("status").filter({ hasText: "Published" }).waitFor();
});
