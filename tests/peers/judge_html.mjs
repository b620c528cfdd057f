// Holds pages against the HTML standard's content models, as html-validate knows them, without relaxing a rule.
import { FileSystemConfigLoader, HtmlValidate } from "html-validate";
import { answer, filesToJudge } from "./findings.mjs";

const presets = ["html-validate:recommended", "html-validate:standard", "html-validate:a11y", "html-validate:document"];

const files = filesToJudge("judge_html");
const loader = new FileSystemConfigLoader({
  root: true,
  extends: presets,
  rules: {
    // The page carries its one stylesheet so that it stands alone.
    "require-sri": "off",
  },
});
const validator = new HtmlValidate(loader);
const findings = [];
for (const file of files) {
  const report = await validator.validateFile(file);
  for (const result of report.results) {
    for (const m of result.messages) {
      findings.push({ file, where: `${m.line}:${m.column}`, rule: m.ruleId, message: m.message });
    }
  }
}
answer("html", files, findings);
