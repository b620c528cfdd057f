// Takes the pictures of the notebook's pages beside this file, or tells of which pages they are not any more.
// usage: node docs/screens/take.mjs PROGRAM [NAMES of pictures]      (needs what tests/run installs)
//        node docs/screens/take.mjs --stale PROGRAM                  (needs no browser)
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { fill, pages } from "./pages.mjs";

const widths = [
  [390, 844],
  [768, 1024],
  [1280, 900],
];
const here = fileURLToPath(new URL(".", import.meta.url));
const web = fileURLToPath(new URL("../../crates/app/src/web/", import.meta.url));
const list = join(here, "taken.json");
const more = process.argv.slice(2);
const only = more[0] === "--stale";
const [program, ...names] = more.slice(only ? 1 : 0);

/** What the address answers, without its figures and days: those move with every constant and every hour. */
function plain(html) {
  return html
    .replace(/ (?:d|points|transform|style|value|viewBox|datetime|data-[a-z]+)="[^"]*"/g, "")
    .replace(/everyoven-screens-\w+/g, "")
    .replace(/\b(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day\b/g, "")
    .replace(/\b(?:January|February|March|April|May|June|July|August|September|October|November|December)\b/g, "")
    .replace(/<(?:line|rect|circle|text|path|polyline|polygon|tspan)\b[^>]*>/g, "")
    .replace(/[−-]?\p{Nd}+(?:[.,:]\p{Nd}+)*/gu, "0");
}

function filesOf(path) {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path).sort().flatMap((one) => filesOf(join(path, one)));
}

const asked = async (address) => (await fetch(address, { redirect: "follow" })).text();

/** The digest of a page: its source as sent, the style and scripts of all, and what else says what the picture holds. */
async function digest(address, { at, shows = [] }, shared) {
  const hash = createHash("sha256").update(shared).update(plain(await asked(address + at)));
  for (const file of shows.flatMap((path) => filesOf(join(web, path)))) hash.update(readFileSync(file));
  return hash.digest("base64url").slice(0, 16);
}

/** Runs the program on a notebook of its own for as long as `work` lasts. */
async function serving(work) {
  const notebook = mkdtempSync(join(tmpdir(), "everyoven-screens-"));
  const served = spawn(program, ["serve", notebook], { stdio: ["ignore", "pipe", "ignore"] });
  try {
    const address = await new Promise((done) => served.stdout.once("data", (bytes) => done(String(bytes).trim())));
    return await work(address, notebook);
  } finally {
    const over = new Promise((done) => served.once("exit", done));
    served.kill("SIGINT");
    await over;
    rmSync(notebook, { recursive: true });
  }
}

/** What every page is now, by the names of the pictures. */
async function digests(address, notebook) {
  const shared = `${await asked(`${address}style.css`)}${await asked(`${address}bench.css`)}`;
  const now = {};
  const note = async (wanted) => {
    for (const page of wanted) now[page.name] = await digest(address, page, shared);
  };
  await note(pages.filter((page) => page.empty));
  fill(notebook);
  await note(pages.filter((page) => !page.empty));
  return now;
}

async function take(address, notebook, wanted) {
  const { browserPath } = await import("../../tests/peers/findings.mjs");
  const { small } = await import("./small.mjs");
  const require = createRequire(new URL("../../tests/peers/package.json", import.meta.url));
  const browser = await require("playwright-core").chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox"] });
  let bytes = 0;
  try {
    for (const empty of [true, false]) {
      if (!empty) fill(notebook);
      // Page by page, so that a bake begun for one picture is in none before it.
      for (const { name, at, first, last } of wanted.filter((page) => (page.empty ?? false) === empty)) {
        for (const [width, height] of widths) {
          const page = await browser.newPage({ viewport: { width, height }, colorScheme: "light" });
          page.setDefaultTimeout(60_000);
          await page.goto(address + at);
          await first?.(page);
          const picture = small(await page.screenshot());
          writeFileSync(join(here, `${name}-${width}.png`), picture);
          bytes += picture.length;
          await last?.(page);
          await page.close();
        }
      }
    }
  } finally {
    await browser.close();
  }
  return bytes;
}

/** The pictures, one page a row. */
function gallery() {
  const rows = pages.map(({ name, what }) =>
    `| ${what} | ${widths.map(([width]) => `[![${what}, ${width} px](${name}-${width}.png)](${name}-${width}.png)`).join(" | ")} |`,
  );
  return [
    "# Every page, at three widths",
    "",
    "Taken by `node docs/screens/take.mjs PROGRAM` of the demo's notebook; a test tells when a page is not any more as it was taken.",
    "",
    `| Page | ${widths.map(([width]) => `${width} px`).join(" | ")} |`,
    `|---|${widths.map(() => "---|").join("")}`,
    ...rows,
    "",
  ].join("\n");
}

const kept = () => JSON.parse(readFileSync(list, "utf8"));
const now = await serving(digests);
if (only) {
  const before = kept();
  const stale = Object.keys(now).filter((name) => now[name] !== before[name]);
  for (const { name } of pages) {
    for (const [width] of widths) {
      if (!statSync(join(here, `${name}-${width}.png`), { throwIfNoEntry: false })) stale.push(`${name}-${width}.png is not there`);
    }
  }
  console.log(stale.join("\n"));
  process.exitCode = stale.length === 0 ? 0 : 1;
} else {
  const wanted = pages.filter(({ name }) => names.length === 0 || names.includes(name));
  const bytes = await serving((address, notebook) => take(address, notebook, wanted));
  const all = names.length === 0 ? {} : kept();
  for (const { name } of wanted) all[name] = now[name];
  writeFileSync(list, `${JSON.stringify(all, null, 2)}\n`);
  writeFileSync(join(here, "README.md"), gallery());
  console.log(`${widths.length * wanted.length} pictures, ${bytes} bytes`);
}
