// Findings beside the lines of the text while it is written: level with them, told of the line in hand, led to and back; narrow too.
import { address, axe, listen, story } from "./session.mjs";

await story(async (browser, note) => {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, bypassCSP: true });
  const page = await context.newPage();
  listen(page, note);
  await page.goto(`${address}recipe/loaf`);
  const field = page.getByLabel(/The recipe’s file/);
  const text = await field.inputValue();
  const broken = text.replace('take = "220 g"', 'take = "220"');
  if (broken === text) note("the text", "it has no 220 g");
  await field.fill(broken);
  const line = broken.slice(0, broken.indexOf('take = "220"')).split("\n").length;
  const mark = page.locator(".gutter li.mend").filter({ hasText: String(line) });
  await mark.waitFor({ timeout: 20_000 });

  /** How far the number stands from the line's own place, in pixels; the line is measured by the text above it. */
  const apart = () =>
    page.evaluate((line) => {
      const field = document.getElementById("file");
      const style = getComputedStyle(field);
      const copy = document.createElement("div");
      copy.style.cssText = `position:absolute;visibility:hidden;white-space:pre-wrap;overflow-wrap:break-word;box-sizing:border-box;width:${field.clientWidth}px;padding:${style.padding};font-family:${style.fontFamily};font-size:${style.fontSize};line-height:${style.lineHeight}`;
      copy.textContent = `${field.value.split("\n").slice(0, line - 1).join("\n")}\n`;
      const end = document.createElement("span");
      end.textContent = "x";
      copy.append(end);
      document.body.append(copy);
      const wanted = end.getBoundingClientRect().top - copy.getBoundingClientRect().top - field.scrollTop;
      copy.remove();
      const marks = [...document.querySelectorAll(".gutter li")].find((one) => one.textContent === String(line));
      return Math.abs(marks.getBoundingClientRect().top - field.getBoundingClientRect().top - wanted);
    }, line);
  const level = async (where) => {
    // What is laid out anew is measured anew with the next picture of the page.
    let off = await apart();
    for (let turn = 0; turn < 40 && off > 6; turn += 1) {
      await page.waitForTimeout(50);
      off = await apart();
    }
    if (off > 6) note(where, `the number stands ${off} px off its line`);
  };
  await level("wide");
  await field.evaluate((one) => { one.scrollTop = 40; });
  await level("scrolled");

  // The line in hand is told under the text, which the field names as its description.
  await page.locator(`#found a[href$="#line-${line}"]`).first().click();
  const chosen = await field.evaluate((one) => one.value.slice(one.selectionStart, one.selectionEnd));
  if (!chosen.includes('take = "220"')) note("the way to a line", `it leads to: ${chosen}`);
  await page.locator("#at-line").filter({ hasText: `Line ${line}. Mend: ` }).waitFor();
  const names = await field.getAttribute("aria-describedby");
  for (const id of names.split(" ")) if ((await page.locator(`#${id}`).count()) !== 1) note("described by", id);
  await mark.getByRole("link").click();
  if (!/#finding-\d+$/.test(page.url())) note("the way to a finding", page.url());

  await page.setViewportSize({ width: 320, height: 700 });
  await level("narrow");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (wide > 0) note("narrow", `${wide} px too wide`);
  await page.addScriptTag({ path: axe });
  const { violations } = await page.evaluate(() => globalThis.axe.run(document));
  for (const v of violations) for (const node of v.nodes) note("narrow", `${v.id} ${node.target.join(" ")}`);

  // Mended: the number goes, and so does what was told.
  await field.fill(text);
  await mark.waitFor({ state: "detached", timeout: 20_000 });
  const still = await browser.newContext({ javaScriptEnabled: false });
  const without = await still.newPage();
  await without.goto(`${address}recipe/loaf`);
  if ((await without.locator(".gutter").count()) > 0) note("without scripts", "there are numbers beside the text");
  if ((await without.locator("#by-line li").count()) === 0) note("without scripts", "no list of lines");
});
