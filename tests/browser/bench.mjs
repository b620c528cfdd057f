// A bake along on a telephone: by keyboard, through a reload and a clock that is set, for everybody, with figures to be read from a metre.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { address, axe, folder, listen, story } from "./session.mjs";

const at = new URL("/recipe/same-day-loaf/bench", address).href;
const phone = { width: 390, height: 844 };

await story(async (browser, note) => {
  const pictures = [];
  const files = [];
  // The page as it was sent, for the judge of HTML.
  const keep = async (name, where) => {
    const answer = await page.request.get(where);
    const path = join(folder, `bench-${name}.html`);
    writeFileSync(path, await answer.body());
    files.push(path);
  };
  const context = await browser.newContext({ viewport: phone, hasTouch: true, bypassCSP: true });
  await context.addInitScript(() => {
    const real = Date.now.bind(Date);
    let by = 0;
    Date.now = () => real() + by;
    globalThis.setClock = (ms) => (by += ms);
  });
  const page = await context.newPage();
  listen(page, note);
  let bytes = 0;
  page.on("response", async (answer) => (bytes += (await answer.body().catch(() => "")).length));
  const picture = async (name) => {
    const path = join(folder, `${name}.png`);
    await page.screenshot({ path });
    pictures.push(path);
  };
  const look = async (where) => {
    await page.addScriptTag({ path: axe });
    const report = await page.evaluate(() =>
      globalThis.axe.run(document, {
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      }),
    );
    for (const v of report.violations) {
      for (const node of v.nodes) note(where, `${v.id} ${node.target.join(" ")}: ${node.failureSummary}`);
    }
    const found = await page.evaluate(() => {
      const inner = document.documentElement.clientWidth;
      const seen = (e) => e.getClientRects().length > 0;
      const box = (e) => e.getBoundingClientRect();
      const name = (e) => e.textContent.trim().slice(0, 30) || e.outerHTML.slice(0, 60);
      const all = (what) => [...document.querySelectorAll(what)].filter(seen);
      const small = all("#bench button, #bench summary, .timers a, .all li a, #bench input:not([type=hidden])")
        .filter((e) => box(e).height < 64)
        .map((e) => `${box(e).height} px high: ${name(e)}`);
      const figures = all(".huge, .left").filter((e) => Number.parseFloat(getComputedStyle(e).fontSize) < 40);
      const buttons = all("#bench button");
      const near = buttons.flatMap((one, index) =>
        buttons.slice(index + 1).flatMap((other) => {
          const [a, b] = [box(one), box(other)];
          const across = Math.max(a.left - b.right, b.left - a.right);
          const down = Math.max(a.top - b.bottom, b.top - a.bottom);
          const bar = one.closest(".bar") !== null || other.closest(".bar") !== null;
          const both = one.closest(".bar") === other.closest(".bar");
          return (!bar || both) && across < 11.5 && down < 11.5 ? [`${name(one)} and ${name(other)}`] : [];
        }),
      );
      const main = document.querySelector(".main");
      return {
        small,
        near,
        figures: figures.map(name),
        scroll: document.documentElement.scrollWidth - inner,
        thumb: main ? box(main).top / innerHeight : 1,
      };
    });
    for (const target of found.small) note(where, target);
    for (const pair of found.near) note(where, `less than 12 px apart: ${pair}`);
    for (const figure of found.figures) note(where, `smaller than 40 px: ${figure}`);
    if (found.scroll > 0) note(where, `${found.scroll} px too wide`);
    if (found.thumb < 0.66) note(where, `the main tap is not under the thumb: ${found.thumb}`);
  };
  const wants = async (where, locator) => {
    await locator.first().waitFor({ timeout: 10_000 }).catch(() => note(where, `not there: ${locator}`));
  };
  const left = () => page.locator("#time-1 .left").textContent();

  // By keyboard alone: begin, and the first tap.
  await page.goto(at);
  await look("before the bake");
  await keep("begin", at);
  await picture("begin");
  const reach = async (name) => {
    for (let steps = 0; steps < 60; steps += 1) {
      const here = await page.evaluate(() => document.activeElement?.textContent?.trim() ?? "");
      if (here.startsWith(name)) return true;
      await page.keyboard.press("Tab");
    }
    note("keyboard", `${name} is not reached`);
    return false;
  };
  await reach("Begin the bake");
  await page.keyboard.press("Enter");
  await wants("the first step", page.getByRole("heading", { level: 1, name: "Wake the yeast" }));
  if (bytes > 150_000) note("weight", `${bytes} bytes`);
  await picture("wake");
  await look("the first step");
  await reach("The yeast is in");
  await page.keyboard.press("Enter");
  await wants("after the tap", page.locator("#time-1"));
  const before = await left();
  if (!/min|s$/.test(before)) note("time", before);

  // A reload, then a clock that is set: what is left stays.
  await page.reload();
  const minutes = async () => Number.parseInt(await left(), 10);
  const then = await minutes();
  for (const [ms, words] of [
    [3_600_000, "clock was set 1\u00a0h forward"],
    [-7_200_000, "clock was set 2\u00a0h back"],
  ]) {
    await page.evaluate((by) => globalThis.setClock(by), ms);
    await wants("the clock is set", page.locator("#said").getByText(words));
    if (Math.abs((await minutes()) - then) > 1) note("the clock is set", `${then} min, then ${await left()}`);
  }

  // Taken back, and given again.
  await page.getByRole("button", { name: /^Undo/ }).click();
  await wants("after undo", page.getByRole("button", { name: "The yeast is in" }));
  if ((await page.locator("#time-1").count()) > 0) note("undo", "the time runs on");
  await page.getByRole("button", { name: "The yeast is in" }).click();
  await page.getByRole("button", { name: "It foams" }).click();
  await wants("the second step", page.getByRole("heading", { level: 1, name: "Mix" }));
  const focus = await page.evaluate(() => document.activeElement?.id);
  if (focus !== "step") note("focus", `after a step it is on ${focus}`);
  await picture("mix");
  await look("mix");
  await page.getByRole("button", { name: "Mixed" }).click();
  await wants("the rise", page.locator("#time-3"));

  // What is read off.
  await page.goto(`${at}?step=3`);
  await wants("the rise", page.getByRole("heading", { level: 1, name: "Rise" }));
  await page.getByRole("button", { name: "One degree less" }).click();
  await page.getByRole("button", { name: "Note it" }).click();
  await wants("a reading", page.locator(".read").getByText("°C"));
  await keep("working", `${at}?step=3`);
  // What was read is worked out aside, and put in its place.
  await wants("what was read is heard", page.locator("#bench:not([data-working]) .heard"));
  await picture("heard");
  await look("what was read is heard");
  await keep("heard", `${at}?step=3`);
  await page.getByRole("button", { name: "Up to the mark" }).click();
  await wants("a sign", page.locator(".read").getByText("the sign is there"));
  await picture("rise");
  await look("the rise");
  await page.emulateMedia({ colorScheme: "dark" });
  await picture("rise-dark");
  await look("the rise by night");
  await page.setViewportSize({ width: 320, height: 640 });
  await look("the rise on 320 px");
  await picture("rise-320");
  await page.setViewportSize({ width: 820, height: 1180 });
  await page.emulateMedia({ colorScheme: "light" });
  await picture("rise-tablet");

  // Without scripts: the same times, and a way to look again.
  const plain = await browser.newContext({ viewport: phone, javaScriptEnabled: false });
  const still = await plain.newPage();
  await still.goto(at);
  if ((await still.locator("#time-3 .at").count()) === 0) note("without scripts", "no time by the clock");
  await Promise.all([still.waitForNavigation(), still.getByRole("link", { name: "Look again" }).click()]);
  if ((await still.locator("#time-3 .at").count()) === 0) note("without scripts", "looking again shows no time");
  await keep("again", at);
  await Promise.all([still.waitForNavigation(), still.getByRole("link", { name: "Bench log" }).click()]);
  if ((await still.getByText("The sign is there").count()) === 0) note("the log", "the sign is not in it");
  await still.setViewportSize({ width: 1280, height: 900 });
  await still.screenshot({ path: join(folder, "log.png") });
  pictures.push(join(folder, "log.png"));
  await keep("log", new URL("/recipe/same-day-loaf/log", address).href);
  return { bytes, pictures, files };
});
