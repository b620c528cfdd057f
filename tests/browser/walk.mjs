// The main road with scripts off: paste, mend a line, make a recipe, write it to its end, formula, page, card.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { address, folder, listen, story } from "./session.mjs";

const pasted = readFileSync(new URL("./pasted.txt", import.meta.url), "utf8");
const whole = readFileSync(new URL("../../examples/hearth-loaf.toml", import.meta.url), "utf8");

await story(async (browser, note) => {
  const context = await browser.newContext({ javaScriptEnabled: false, acceptDownloads: true });
  const page = await context.newPage();
  listen(page, note);
  const wants = async (where, locator) => {
    await locator.first().waitFor({ state: "attached", timeout: 20_000 }).catch(() => note(where, `not there: ${locator}`));
  };

  await page.goto(address);
  await page.getByLabel("Text of the recipe").fill(pasted);
  await page.getByRole("button", { name: "Read it" }).click();
  await wants("after pasting", page.getByText("The text is kept whole as milk-buns.txt."));
  for (const line of pasted.split("\n").filter((line) => line.trim() !== "")) {
    await wants("the pasted text", page.getByText(line.trim(), { exact: true }));
  }

  const counted = async (what) => {
    const line = await page.locator("ul.beside li").filter({ hasText: new RegExp(`^\\d+ ${what}`) }).first().textContent();
    return Number.parseInt(line, 10);
  };
  const unclear = (await counted("doubtful")) + (await counted("not understood"));
  await page.getByRole("link", { name: "mend line 9" }).click();
  await page.getByLabel("Line 9 anew").fill("2 large eggs");
  await page.getByRole("button", { name: "Mend the line" }).click();
  await wants("after mending", page.getByText("pasted as: 2 larg eggz"));
  await wants("after mending", page.locator("#line-9").getByText("100 g"));
  if ((await counted("doubtful")) + (await counted("not understood")) >= unclear) note("after mending", "no line is clearer");
  await page.getByRole("link", { name: "mend line 14" }).click();
  await page.getByLabel("It is").selectOption({ label: "a step" });
  await page.getByRole("button", { name: "Mend the line" }).click();
  await wants("after naming", page.locator("#line-14").getByText("step"));
  await page.reload();
  await wants("after reading anew", page.getByText("pasted as: 2 larg eggz"));

  await page.getByRole("button", { name: "Make it a recipe" }).click();
  await wants("after making", page.getByText("The recipe is in the notebook as milk-buns.toml."));
  await wants("after making", page.getByRole("heading", { level: 1, name: "Milk buns" }));

  const tab = (name) => page.getByRole("navigation", { name: "Parts of the recipe" }).getByRole("link", { name });
  await tab("Formula").click();
  await wants("formula", page.getByRole("rowheader", { name: "Water in all" }));
  for (const grams of ["500 g", "100 g", "180 g"]) {
    await wants("formula", page.getByRole("cell", { name: grams.replace(" ", "\u00a0") }));
  }
  await tab("Page").click();
  await wants("page", page.getByRole("heading", { name: "Method" }));
  const ink = await page.locator("h1").evaluate((h1) => getComputedStyle(h1).fontWeight).catch(() => "600");
  if (ink !== "600") note("page", `its style was not let through: weight ${ink}`);
  await page.goBack();
  await tab("Papers").click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "Card, A5" }).first().click(),
  ]);
  const card = join(folder, "card.pdf");
  await download.saveAs(card);
  if (statSync(card).size < 10_000) note("card", "no card of this size can be whole");
  if (readFileSync(card).subarray(0, 5).toString() !== "%PDF-") note("card", "not a PDF");
  if (!download.suggestedFilename().endsWith("-card-a5.pdf")) note("card", download.suggestedFilename());

  await tab("Write").click();
  await page.getByLabel(/The recipe.s file/).fill(whole);
  await page.getByRole("button", { name: "Save" }).click();
  await wants("after saving", page.getByText("Saved as milk-buns.toml."));
});
