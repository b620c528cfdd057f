// Readers and moving dials at once: 20 readers who open a page and read it for a second, 5 streams of what-if questions, for a minute.
// usage: node benches/load.mjs PROGRAM [SECONDS]
// Says how long pages took and what the program held in memory; ends with 1 when a page failed or memory grew.
import { spawn } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const [program, seconds = "60"] = process.argv.slice(2);
const READERS = 20;
const STREAMS = 5;
const READS_MS = 1000;
const MOST_GROWTH_KIB = 24 * 1024;

const notebook = mkdtempSync(join(tmpdir(), "everyoven-load-"));
mkdirSync(join(notebook, "kitchens"));
const example = (file) => new URL(`../examples/${file}`, import.meta.url);
const recipes = ["same-day-loaf", "hearth-loaf", "cardamom-dough"];
for (const recipe of recipes) copyFileSync(example(`${recipe}.toml`), join(notebook, `${recipe}.toml`));
copyFileSync(example("kitchens/studio.toml"), join(notebook, "kitchens/studio.toml"));

const served = spawn(program, ["serve", notebook], { stdio: ["ignore", "pipe", "ignore"] });
const address = await new Promise((done) => served.stdout.once("data", (bytes) => done(String(bytes).trim())));

const pages = ["", "/form", "/formula", "/findings", "/page/", "/text", "/papers", "/history", "/log", "/bench"];
const faults = [];
const times = { read: [], turned: [] };

async function ask(path, into) {
  const began = performance.now();
  try {
    const answer = await fetch(address + path);
    const text = await answer.text();
    if (answer.status !== 200 || !text.includes("</html>")) faults.push(`${path}: ${answer.status}`);
  } catch (fault) {
    faults.push(`${path}: ${fault.cause?.code ?? fault}`);
  }
  into?.push(performance.now() - began);
}

/** Kibibytes of memory that the program holds, where the machine tells. */
function held() {
  try {
    return Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${served.pid}/status`, "utf8"))[1]);
  } catch {
    return null;
  }
}

/** Seconds of a core that the program has used, where the machine tells. */
function used() {
  try {
    const fields = readFileSync(`/proc/${served.pid}/stat`, "utf8").split(") ")[1].split(" ");
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return null;
  }
}

const wait = (ms) => new Promise((done) => setTimeout(done, ms));
const read_at = (turn) => `recipe/${recipes[turn % recipes.length]}${pages[turn % pages.length]}`;

async function reader(number, until) {
  await wait((number * READS_MS) / READERS);
  for (let turn = number; performance.now() < until(); turn += 1) {
    // The contents now and then, as somebody does who looks for another recipe.
    await ask(turn % 12 === 0 ? "" : read_at(turn), times.read);
    await wait(READS_MS);
  }
}

async function stream(number, until) {
  for (let turn = 0; performance.now() < until(); turn += 1) {
    const room = 12 + ((number * 11 + turn * 7) % 40) / 2;
    await ask(`recipe/same-day-loaf/what-if?kitchen=studio&room=${room}&moving=yes`, times.turned);
  }
}

async function all(ms) {
  const end = performance.now() + ms;
  const until = () => end;
  const readers = Array.from({ length: READERS }, (_, number) => reader(number, until));
  const streams = Array.from({ length: STREAMS }, (_, number) => stream(number, until));
  await Promise.all([...readers, ...streams]);
}

// Everything once, so that what is laid ready stands there; then a share of the time to come to rest.
for (let turn = 0; turn < recipes.length * pages.length; turn += 1) await ask(read_at(turn));
const whole_ms = Number(seconds) * 1000;
await all(whole_ms / 4);
const [before, used_before] = [held(), used()];
times.read = [];
times.turned = [];
await all(whole_ms);
const [after, used_after] = [held(), used()];

const said = (what, all, aim = "") => {
  all.sort((one, other) => one - other);
  const at = (share) => all[Math.min(all.length - 1, Math.floor(share * all.length))]?.toFixed(0);
  console.log(`target | ${what}, ${seconds} s | ${aim} | ${at(0.99)} ms at the 99th percentile, ${at(0.5)} ms in the middle of ${all.length}; ${faults.length} failed | |`);
  console.log(`${what}: ${all.length}, median ${at(0.5)} ms, 99th percentile ${at(0.99)} ms, worst ${at(1)} ms`);
};
said(`pages for ${READERS} readers`, times.read, "300 ms at the 99th percentile");
said(`answers for ${STREAMS} moving dials`, times.turned);
const grown = before === null ? null : after - before;
console.log(before === null ? "memory: not told here" : `memory: ${before} KiB, then ${after} KiB`);
if (used_before !== null) {
  const each_ms = ((used_after - used_before) * 1000) / (times.read.length + times.turned.length);
  console.log(`of a core: ${(used_after - used_before).toFixed(1)} s in all, ${each_ms.toFixed(0)} ms for each page and answer`);
}
console.log(`${faults.length} failed`);
for (const fault of [...new Set(faults)].slice(0, 10)) console.log(fault);

served.kill("SIGINT");
await new Promise((done) => served.once("exit", done));
rmSync(notebook, { recursive: true });
process.exitCode = faults.length > 0 || (grown ?? 0) > MOST_GROWTH_KIB || times.read.length === 0 ? 1 : 0;
