// Reads WebVTT with the parser of its editors' own test tools: every fault it finds, and the cues.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import webvtt from "webvtt-parser";

const entities = createRequire(import.meta.url)("webvtt-parser/html-entities.json");
const { files } = JSON.parse(readFileSync(0, "utf8"));

/** The words of a cue, and who speaks them first. */
function heard(node, found = { text: "", voice: null }) {
  if (node.type === "text") found.text += node.value;
  if (node.type === "object" && node.name === "v" && found.voice === null) found.voice = node.value;
  (node.children ?? []).forEach((child) => heard(child, found));
  return found;
}

const answers = files.map(({ text, mode }) => {
  const { cues, errors } = new webvtt.WebVTTParser(entities).parse(text, mode ?? "subtitles");
  return {
    errors: errors.map(({ line, message }) => `${line}: ${message}`),
    cues: cues.map((cue) => {
      const milliseconds = (seconds) => Math.round(seconds * 1000);
      return { from: milliseconds(cue.startTime), to: milliseconds(cue.endTime), ...heard(cue.tree) };
    }),
  };
});
console.log(JSON.stringify({ answers }));
