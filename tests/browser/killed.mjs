// The program killed under a save and begun again: the page says what was kept, and nothing acknowledged is lost.
import { spawn } from "node:child_process";
import { folder, story } from "./session.mjs";

const [program] = process.argv.slice(4);
const notebook = `${folder}/notebook`;
let served = null;
let port = "0";

async function begin() {
  served = spawn(program, ["serve", notebook, "--port", port], { stdio: ["ignore", "pipe", "ignore"] });
  const at = await new Promise((done) => served.stdout.once("data", (bytes) => done(String(bytes).trim())));
  port = new URL(at).port;
  return at;
}

async function kill() {
  const gone = new Promise((done) => served.once("exit", done));
  served.kill("SIGKILL");
  await gone;
}

const text = (number) => `everyoven = 1\ntitle = "Loaf ${number}"\nkind = "lean"\n${"# a line\n".repeat(40)}# end of ${number}\n`;

await story(async (browser, note) => {
  const place = `${await begin()}recipe/loaf`;
  const context = await browser.newContext();
  const page = await context.newPage();
  const field = page.getByLabel(/The recipe’s file/);
  const save = page.getByRole("button", { name: "Save", exact: true });
  const saved = () => page.getByRole("status").filter({ hasText: "Saved as loaf.toml." });
  // The browser may still be on its way to the page that says that nobody answers.
  const open = async () => {
    for (let turn = 0; turn < 10; turn += 1) {
      const there = await page.goto(place).catch(() => null);
      if (there) return;
      await page.waitForTimeout(100);
    }
    throw new Error("the page does not open");
  };
  const told = { acknowledged: 0, kept: 0, held: 0 };
  try {
    // The moments lie before, in and after the writing.
    for (const [index, wait_ms] of [0, 15, 60, 400].entries()) {
      const wanted = text(index + 1);
      await open();
      await field.fill(wanted);
      await save.click({ noWaitAfter: true });
      await new Promise((done) => setTimeout(done, wait_ms));
      await kill();
      await page.waitForTimeout(100);
      const acknowledged = (await saved().count().catch(() => 0)) > 0;
      await begin();
      await open();
      const alert = page.getByRole("alert").filter({ hasText: "The program gave no answer" });
      const held = (await alert.count()) > 0;
      const now = await field.inputValue();
      if (now !== wanted) note(`killed after ${wait_ms} ms`, `neither kept nor held: ${now.slice(0, 60)}`);
      if (acknowledged && held) note(`killed after ${wait_ms} ms`, "it was acknowledged and is not in the file");
      told.acknowledged += Number(acknowledged);
      told[held ? "held" : "kept"] += 1;
      if (!held) continue;
      await save.click();
      await saved().waitFor();
    }
    // Every text is a version that can be had, whole.
    for (const number of [1, 2, 3, 4]) {
      await page.goto(`${place}/history`);
      let found = false;
      for (const link of await page.getByRole("link", { name: /^Version/ }).evaluateAll((all) => all.map((one) => one.href))) {
        await page.goto(link);
        found ||= (await page.content()).includes(`# end of ${number}\n`);
      }
      if (!found) note("history", `no version holds the whole of text ${number}`);
    }
  } finally {
    await kill();
  }
  return told;
});
