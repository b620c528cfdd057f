// What if: from the request to the whole answer while a dial moves, and at rest; the demo in its own kitchen.
// usage: node benches/what_if.mjs PROGRAM [QUESTIONS]
import { spawn } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const [program, questions = "200"] = process.argv.slice(2);
const notebook = mkdtempSync(join(tmpdir(), "everyoven-what-if-"));
mkdirSync(join(notebook, "kitchens"));
const example = (file) => new URL(`../examples/${file}`, import.meta.url);
copyFileSync(example("same-day-loaf.toml"), join(notebook, "loaf.toml"));
copyFileSync(example("kitchens/studio.toml"), join(notebook, "kitchens/studio.toml"));

const served = spawn(program, ["serve", notebook], { stdio: ["ignore", "pipe", "ignore"] });
const address = await new Promise((done) => served.stdout.once("data", (bytes) => done(String(bytes).trim())));
const place = `${address}recipe/loaf/what-if?kitchen=studio`;

const asked = async (more) => {
  const began = performance.now();
  const answer = await fetch(place + more);
  const text = await answer.text();
  if (!answer.ok || !text.includes('id="day"')) throw new Error(`no day: ${more}`);
  return performance.now() - began;
};
const said = (what, times, aim = "") => {
  times.sort((one, other) => one - other);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(0);
  console.log(`target | what if, ${what}, ${times.length} questions | ${aim} | ${at(0.95)} ms at the 95th percentile, ${at(0.5)} ms in the middle | |`);
  console.log(`${what}: median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms, worst ${at(1)} ms of ${times.length}`);
};

console.log(`first question, its tested bakes asked: ${(await asked("")).toFixed(0)} ms`);
const rooms = Array.from({ length: Number(questions) }, (_, at) => 12 + ((at * 7) % 40) / 2);
const moving = [];
for (const room of rooms) moving.push(await asked(`&room=${room}&moving=yes`));
said("a dial moves", moving, "50 ms at the 95th percentile");
const flour = [];
for (const room of rooms) flour.push(await asked(`&room=${room}&flour=bread+flour&moving=yes`));
said("a dial moves, another flour", flour);
const rest = [];
for (const room of rooms.slice(0, Math.ceil(rooms.length / 4))) rest.push(await asked(`&room=${room}`));
said("at rest", rest);

served.kill("SIGINT");
await new Promise((done) => served.once("exit", done));
rmSync(notebook, { recursive: true });
