// From the start of the program to the first page of a notebook of so many recipes: median and worst of 20 runs.
// usage: node benches/first_page.mjs PROGRAM [RECIPES]
import { spawn } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const [program, recipes = "5"] = process.argv.slice(2);
const notebook = mkdtempSync(join(tmpdir(), "everyoven-first-page-"));
const example = new URL("../examples/same-day-loaf.toml", import.meta.url);
for (let i = 0; i < Number(recipes); i += 1) copyFileSync(example, join(notebook, `loaf-${i}.toml`));

const times = [];
for (let run = 0; run < 20; run += 1) {
  const began = performance.now();
  const served = spawn(program, ["serve", notebook], { stdio: ["ignore", "pipe", "ignore"] });
  const address = await new Promise((done) => served.stdout.once("data", (bytes) => done(String(bytes).trim())));
  const answer = await fetch(address);
  if (!answer.ok || !(await answer.text()).includes("Same-day braid")) throw new Error("not the first page");
  times.push(performance.now() - began);
  served.kill("SIGINT");
  await new Promise((done) => served.once("exit", done));
}
rmSync(notebook, { recursive: true });
times.sort((a, b) => a - b);
console.log(`target | from the start to the first page, ${recipes} recipes | 150 ms | ${times[10].toFixed(0)} ms in the middle, ${times[19].toFixed(0)} ms at the most of 20 | |`);
console.log(`${recipes} recipes: median ${times[10].toFixed(0)} ms, worst ${times[19].toFixed(0)} ms`);
