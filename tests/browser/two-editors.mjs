// Two windows on one recipe: the second learns of the first, sees both versions, and saves one text of both.
import { address, listen, story } from "./session.mjs";

await story(async (browser, note) => {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 } });
  const open = async () => {
    const page = await context.newPage();
    listen(page, (where, message) => {
      // The answer that shows both versions is no success, and the browser says so.
      if (!String(message).includes("409")) note(where, message);
    });
    await page.goto(`${address}recipe/loaf`);
    return page;
  };
  const one = await open();
  const other = await open();
  const field = (page) => page.getByLabel(/The recipe’s file/);
  const text = await field(one).inputValue();
  await field(one).fill(text.replace("Anna", "Berta"));
  await Promise.all([one.waitForNavigation(), one.getByRole("button", { name: "Save", exact: true }).click()]);

  // The other window hears of it when it comes to the front, before a letter is typed.
  const hint = other.locator("#elsewhere");
  const looked = other.waitForResponse((answer) => answer.url().includes("/beside"));
  await other.evaluate(() => dispatchEvent(new Event("focus")));
  await looked;
  await hint.filter({ hasText: "was changed in another window" }).waitFor({ timeout: 5000 });
  const asked = other.waitForResponse((answer) => answer.url().includes("/beside"));
  await field(other).fill(text.replace("Kneaded long.", "Kneaded short."));
  await asked;
  await hint.filter({ hasText: "was changed in another window" }).waitFor({ timeout: 5000 });
  await Promise.all([other.waitForNavigation(), other.getByRole("button", { name: "Save", exact: true }).click()]);
  if ((await other.getByRole("alert").count()) === 0) note(other.url(), "nothing says that there are two versions");
  const both = await other.getByLabel("The text that will be saved").inputValue();
  if (!both.includes("Berta") || !both.includes("Kneaded short.")) note(other.url(), `not of both: ${both}`);
  const save = other.getByRole("button", { name: "Save this text" });
  await Promise.all([other.waitForNavigation(), save.click()]);

  // The form goes the same road: filled in from an older file, it shows both.
  await one.goto(`${address}recipe/loaf/form`);
  await other.getByLabel(/The recipe’s file/).fill(both.replace("Berta", "Cara"));
  await Promise.all([other.waitForNavigation(), other.getByRole("button", { name: "Save", exact: true }).click()]);
  await one.getByLabel("Version").fill("2");
  await Promise.all([one.waitForNavigation(), one.getByRole("button", { name: "Save" }).first().click()]);
  if ((await one.getByRole("alert").count()) === 0) note(one.url(), "the form does not say that there are two versions");
  await Promise.all([one.waitForNavigation(), one.getByRole("button", { name: "Save this text" }).click()]);

  await Promise.all([other.waitForNavigation(), other.getByRole("link", { name: "History" }).click()]);
  const versions = await other.getByRole("link", { name: /^Version/ }).count();
  if (versions < 4) note(other.url(), `${versions} versions, where four texts were written`);
  return { versions };
});
