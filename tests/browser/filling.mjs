// A recipe written by filling in fields: findings follow while typing, pieces come and go, nothing else changes.
import { address, listen, story } from "./session.mjs";

await story(async (browser, note) => {
  const context = await browser.newContext();
  const page = await context.newPage();
  listen(page, note);
  await page.goto(address);
  const leads = (button) => Promise.all([page.waitForNavigation(), button.click()]);
  await leads(page.getByRole("button", { name: "Put the demo in" }));
  await leads(page.getByRole("link", { name: "Fill in" }));

  // An amount without its unit is told before anything is saved, and the caret stays.
  const amount = page.getByLabel("Amount").first();
  const was = await amount.inputValue();
  await amount.fill("190");
  const told = page.locator("#form-findings");
  await told.getByText("1 to mend").waitFor({ timeout: 20000 });
  if (!(await amount.evaluate((field) => field === document.activeElement))) note("typing", "the field lost its focus");
  await amount.fill("190 g");
  await told.getByText("to mend").waitFor({ state: "detached", timeout: 20000 });

  // A step more, and away with it.
  const steps = page.getByLabel("The step in your words");
  const count = await steps.count();
  await page.getByLabel("A new step").first().selectOption({ label: "Fold" });
  await leads(page.getByRole("button", { name: "Add it" }).first());
  if ((await steps.count()) !== count + 1) note("adding a step", `${await steps.count()} steps after ${count}`);
  if ((await page.getByLabel("Amount").first().inputValue()) !== "190 g") note("adding a step", `the amount fell back to ${was}`);
  const fresh = page.getByRole("group", { name: /Fold$/ }).first();
  await leads(fresh.getByRole("button", { name: /^Take out/ }).first());
  if ((await steps.count()) !== count) note("taking a step out", `${await steps.count()} steps, not ${count}`);

  await page.getByLabel("Version").fill("4");
  await page.getByRole("button", { name: "Save" }).first().click();
  await page.getByText("Saved as same-day-loaf.toml.").waitFor();
});
