// Type-checks structured data against schema.org's vocabulary, as schema-dts writes it in TypeScript, with TypeScript's own compiler.
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { answer, filesToJudge, structuredData } from "./findings.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const files = filesToJudge("judge_types");
const findings = [];

// One invented module for each piece of data, held in memory beside the installed types.
const modules = new Map();
for (const file of files) {
  const found = structuredData(file);
  if (found.length === 0) findings.push({ file, where: "", rule: "absent", message: "no structured data" });
  found.forEach((text) => {
    try {
      JSON.parse(text);
    } catch (error) {
      findings.push({ file, where: "", rule: "json", message: String(error) });
      return;
    }
    const source = `import type { Recipe, WithContext } from "schema-dts";\nexport const recipe: WithContext<Recipe> = ${text};\n`;
    modules.set(join(here, `data-${modules.size}.ts`), { file, source });
  });
}

const options = {
  noEmit: true,
  strict: true,
  types: [],
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  skipLibCheck: true,
};
const host = ts.createCompilerHost(options);
const { fileExists, readFile, getSourceFile } = host;
host.fileExists = (name) => modules.has(name) || fileExists(name);
host.readFile = (name) => modules.get(name)?.source ?? readFile(name);
host.getSourceFile = (name, target, ...rest) =>
  modules.has(name)
    ? ts.createSourceFile(name, modules.get(name).source, target)
    : getSourceFile(name, target, ...rest);

const program = ts.createProgram([...modules.keys()], options, host);
for (const d of ts.getPreEmitDiagnostics(program)) {
  const ours = d.file && modules.get(d.file.fileName);
  const place = d.file && ts.getLineAndCharacterOfPosition(d.file, d.start);
  const message = ts.flattenDiagnosticMessageText(d.messageText, "\n");
  findings.push({
    file: ours?.file ?? d.file?.fileName ?? "",
    // The data begins on the module's second line.
    where: place ? `${place.line}:${place.character + 1}` : "",
    rule: `TS${d.code}`,
    message: message.length > 600 ? `${message.slice(0, 600)}…` : message,
  });
}
answer("types", files, findings, { checked: modules.size });
