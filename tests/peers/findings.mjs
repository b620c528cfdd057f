// What every judge shares: its arguments, its answer as JSON, its exit code.
import { existsSync, readFileSync } from "node:fs";
import { extname } from "node:path";

/** The files named on the command line; without any, the judge has nothing to say and fails. */
export function filesToJudge(judge) {
  const files = process.argv.slice(2);
  if (files.length === 0) {
    console.error(`usage: node ${judge}.mjs FILE...`);
    process.exit(2);
  }
  return files;
}

/** Prints the answer and ends: 0 nothing found, 1 findings. */
export function answer(judge, files, findings, more = {}) {
  console.log(JSON.stringify({ judge, files: files.length, findings, ...more }, null, 2));
  process.exitCode = findings.length === 0 ? 0 : 1;
}

/** Every JSON-LD text in a file: the file itself, or the script elements of a page. */
export function structuredData(file) {
  const text = readFileSync(file, "utf8");
  if (extname(file) !== ".html") return [text];
  const found = [];
  const script = /<script\b[^>]*\btype\s*=\s*["']?application\/ld\+json["']?[^>]*>([\s\S]*?)<\/script>/gi;
  for (const match of text.matchAll(script)) found.push(match[1]);
  return found;
}

/** Where the machine's Chromium is. */
export function browserPath() {
  const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];
  const found = places.find((path) => path && existsSync(path));
  if (!found) {
    console.error("no Chromium found; install it or set CHROMIUM to its path");
    process.exit(2);
  }
  return found;
}
