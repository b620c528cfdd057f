// The keyboard alone, from an empty notebook to a published recipe: Tab and Enter, every stop visible.
import { address, listen, story } from "./session.mjs";

await story(async (browser, note) => {
  const context = await browser.newContext({ viewport: { width: 1000, height: 800 } });
  const page = await context.newPage();
  listen(page, note);
  let presses = 0;

  /** What has the focus, by its words; and whether it can be seen to have it. */
  const focused = () =>
    page.evaluate(() => {
      const it = document.activeElement;
      if (!it || it === document.body) return null;
      const style = getComputedStyle(it);
      const box = it.getBoundingClientRect();
      const words = (it.labels?.[0]?.textContent ?? it.textContent ?? "").trim();
      return {
        words,
        ringed: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
        onScreen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
      };
    });

  /** Tabs until the words have the focus. */
  const reach = async (words) => {
    for (let i = 0; i < 400; i += 1) {
      await page.keyboard.press("Tab");
      presses += 1;
      const it = await focused();
      if (!it) continue;
      if (!it.ringed) note(page.url(), `no visible focus on "${it.words.slice(0, 40)}"`);
      if (!it.onScreen) note(page.url(), `focus off the screen on "${it.words.slice(0, 40)}"`);
      if (it.words === words) return;
    }
    throw new Error(`the keyboard does not reach "${words}" at ${page.url()}`);
  };
  const enter = async () => {
    await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
  };

  await page.goto(address);
  await page.keyboard.press("Tab");
  if ((await focused())?.words !== "Skip to the page") note(page.url(), "the skip link is not the first stop");
  await page.keyboard.press("Enter");
  await reach("Put the demo in");
  await enter();
  // The skip link passes the tabs by; what follows it is the page's own.
  await reach("Papers");
  await enter();
  await reach("Publish");
  await enter();
  if ((await page.getByRole("status").textContent())?.includes("Published") !== true) {
    note(page.url(), "nothing says that it was published");
  }

  // A field can be left again by Tab: no trap.
  await page.goto(`${address}recipe/same-day-loaf`);
  await reach("The recipe’s file, same-day-loaf.toml");
  await reach("Save");
  return { presses };
});
