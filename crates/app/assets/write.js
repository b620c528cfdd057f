// The recipe's file with its findings beside their lines: numbers hang beside the text, level with the
// line that they speak of, and what is to be said of the line in hand stands under the text. Without
// this script findings stand in the list beside the text, each with the number of its line.

const field = document.getElementById("file");
const under = document.getElementById("at-line");

const gutter = document.createElement("ol");
gutter.className = "gutter";
gutter.setAttribute("aria-label", "Lines with a finding");
// As wide as the text and set like it, so that it tells where a line begins that the text breaks.
const mirror = document.createElement("div");
mirror.className = "mirror";
mirror.setAttribute("aria-hidden", "true");

/** Where each line of the text begins, in pixels from its top. */
function tops(lines) {
  mirror.style.width = `${field.clientWidth}px`;
  while (mirror.children.length > lines.length) mirror.lastChild.remove();
  lines.forEach((line, index) => {
    const words = line === "" ? "\u200b" : line;
    const one = mirror.children[index] ?? mirror.appendChild(document.createElement("div"));
    if (one.textContent !== words) one.textContent = words;
  });
  return [...mirror.children].map((one) => one.offsetTop);
}

const lines = () => field.value.split("\n");

/** Findings by their line; the heaviest of a line is its first. */
function found() {
  const all = new Map();
  for (const one of document.querySelectorAll("#found [data-line]")) {
    const line = Number(one.dataset.line);
    all.set(line, [...(all.get(line) ?? []), one]);
  }
  return all;
}

const said = (one) => `${one.querySelector(".weight").textContent}: ${one.querySelector(".message").textContent}`;

let at = []; // where lines begin

function draw() {
  const marks = [...found()].map(([line, findings]) => {
    const mark = document.createElement("li");
    mark.dataset.at = line;
    mark.classList.toggle("mend", findings[0].dataset.weight === "mend");
    const link = document.createElement("a");
    link.href = `#${findings[0].id}`;
    // The list beside the text has the same links for the keyboard.
    link.tabIndex = -1;
    const words = findings.map(said).join(" ");
    link.setAttribute("aria-label", `Line ${line}. ${words}`);
    link.title = words;
    link.textContent = line;
    mark.append(link);
    return mark;
  });
  gutter.replaceChildren(...marks);
  settle();
}

/** Puts the numbers level with their lines. */
function settle() {
  at = tops(lines());
  gutter.style.height = `${field.offsetHeight}px`;
  scrolled();
  here();
}

function scrolled() {
  for (const mark of gutter.children) {
    const top = at[Number(mark.dataset.at) - 1];
    mark.hidden = top === undefined;
    mark.style.top = `${(top ?? 0) - field.scrollTop + field.clientTop}px`;
  }
}

/** What is to be said of the line in hand. */
function here() {
  const line = field.value.slice(0, field.selectionStart).split("\n").length;
  const findings = document.activeElement === field ? (found().get(line) ?? []) : [];
  const words = findings.length === 0 ? "" : `Line ${line}. ${findings.map(said).join(" ")}`;
  if (under.textContent !== words) under.textContent = words;
}

/** Goes to a line in the text, and marks it. */
function go(line) {
  const all = lines();
  if (!(line >= 1 && line <= all.length)) return;
  const from = all.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  field.focus();
  field.setSelectionRange(from, from + all[line - 1].length);
  field.scrollTop = tops(all)[line - 1] - field.clientHeight / 3;
}

field.parentElement.append(gutter, mirror);
field.addEventListener("input", settle);
field.addEventListener("scroll", scrolled);
document.addEventListener("selectionchange", here);
field.addEventListener("focus", here);
field.form.addEventListener("answered", draw);
new ResizeObserver(settle).observe(field);
document.addEventListener("click", (event) => {
  const link = event.target.closest?.("#found a[href*='#line-']");
  if (!link) return;
  event.preventDefault();
  go(Number(link.hash.slice("#line-".length)));
});
draw();
if (location.hash.startsWith("#line-")) go(Number(location.hash.slice("#line-".length)));
