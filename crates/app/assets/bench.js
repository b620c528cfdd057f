// The bench while it is open: times that count down by the notebook's clock, a bell, a screen that stays
// awake, taps that change the page in place. Everything is kept by the notebook; without this script the
// page shows the times as they were when it was opened, and a way to look again.

const AGAIN_MS = 60_000;
// A device whose two clocks part by so much was set, or slept.
const PARTED_MS = 2_000;

const bench = () => document.getElementById("bench");
const said = document.getElementById("said");
const say = (words) => {
  if (said && said.textContent !== words) said.textContent = words;
};

// The notebook's clock: what it said, and what the device's own clock said then.
let said_ms = 0;
let device_ms = 0;
let ticks_ms = 0;
const set = (now_ms) => {
  said_ms = now_ms;
  device_ms = Date.now();
  ticks_ms = performance.now();
};
const now = () => said_ms + (Date.now() - device_ms);

const minutes = (ms) => {
  const all = Math.round(Math.abs(ms) / 60_000);
  if (Math.abs(ms) < 60_000) return `${Math.floor(Math.abs(ms) / 1000)}\u00a0s`;
  const hours = Math.floor(all / 60);
  if (hours === 0) return `${all}\u00a0min`;
  return all % 60 === 0 ? `${hours}\u00a0h` : `${hours}\u00a0h ${all % 60}\u00a0min`;
};

// A bell of two notes; a browser lets it sound after the first tap on the page.
let sound = null;
const wake = () => {
  sound ??= new AudioContext();
  if (sound.state === "suspended") sound.resume();
};
addEventListener("pointerdown", wake);
addEventListener("keydown", wake);

const ring = (notes) => {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([300, 150, 300]);
  if (sound?.state !== "running") return;
  notes.forEach((hertz, at) => {
    const tone = sound.createOscillator();
    const loud = sound.createGain();
    const from = sound.currentTime + at * 0.35;
    tone.frequency.value = hertz;
    loud.gain.setValueAtTime(0.0001, from);
    loud.gain.exponentialRampToValueAtTime(0.4, from + 0.02);
    loud.gain.exponentialRampToValueAtTime(0.0001, from + 0.3);
    tone.connect(loud).connect(sound.destination);
    tone.start(from);
    tone.stop(from + 0.32);
  });
};

const LOOK = [660];
const OVER = [880, 660, 880];
const told = new Set();
const once = (what) => !told.has(what) && told.add(what);
let rang_ms = 0;

function tick() {
  const parted = Date.now() - device_ms - (performance.now() - ticks_ms);
  if (Math.abs(parted) > PARTED_MS) return settle(parted);
  let rings = false;
  for (const time of document.querySelectorAll(".timers li")) {
    const { ends, looks, name } = time.dataset;
    const left = Number(ends) - now();
    const rung = left <= 0;
    const shown = rung ? (left > -30_000 ? "now" : `${minutes(left)} past`) : minutes(left);
    const place = time.querySelector(".left");
    if (place.textContent !== shown) place.textContent = shown;
    time.classList.toggle("rung", rung);
    if (rung && once(`${time.id} ${ends}`)) {
      say("due" in time.dataset ? `${name}: now` : `${name}: the time is over`);
      again();
    } else if (!rung && now() >= Number(looks) && once(`${time.id} looks ${looks}`)) {
      say(`${name}: look at it`);
      ring(LOOK);
    }
    if (rung && !("quiet" in time.dataset)) rings = true;
  }
  if (rings && Date.now() - rang_ms > 4_000) {
    rang_ms = Date.now();
    ring(OVER);
  }
}

// The device slept, or its clock was set: the notebook is asked what the time is.
let settling = false;
async function settle(parted) {
  if (settling) return;
  settling = true;
  const by_ticks = said_ms + (performance.now() - ticks_ms);
  try {
    const answer = await fetch(bench().dataset.clock, { cache: "no-store" });
    const truth = Number(await answer.text());
    // Asleep, both clocks of the notebook's world went on; set, only the device's own did.
    const was_set = Math.abs(truth - by_ticks) < Math.abs(parted) / 2;
    set(truth);
    if (was_set) say(`This device’s clock was set ${minutes(parted)} ${parted > 0 ? "forward" : "back"}. The times go by the notebook’s clock.`);
    else await again();
  } catch {
    // Alone, what the ticks say is surer than a clock that somebody set.
    set(by_ticks);
    say("The notebook does not answer; the times go on by this device.");
  } finally {
    settling = false;
  }
}

// The part of the page that changes is exchanged; whatever is being typed stays.
function exchange(text, moved) {
  const page = new DOMParser().parseFromString(text, "text/html");
  const fresh = page.getElementById("bench");
  const old = bench();
  if (!fresh || !old) return false;
  const open = [...old.querySelectorAll("details[open]")].map((part) => part.className);
  const step = old.dataset.step;
  const held = old.contains(document.activeElement) ? document.activeElement : null;
  old.replaceWith(document.adoptNode(fresh));
  for (const part of fresh.querySelectorAll("details")) {
    if (!moved && open.includes(part.className)) part.open = true;
  }
  document.title = page.title;
  set(Number(fresh.dataset.now));
  ready(fresh);
  if (moved && fresh.dataset.step !== step) {
    scrollTo(0, 0);
    fresh.querySelector("#step")?.focus();
  } else if (held) {
    // The same thing in the fresh part: by its id, its form or its address.
    const same = held.id
      ? `[id="${held.id}"]`
      : held.closest("form")
        ? `form[class="${held.closest("form").className}"] button[type=submit]`
        : `a[href="${held.getAttribute("href")}"]`;
    fresh.querySelector(same)?.focus({ preventScroll: true });
  }
  tick();
  return true;
}

async function again() {
  if (document.activeElement?.matches("input")) {
    // Whatever is being typed stays; what is worked out is shown when the field is left.
    if ("working" in bench().dataset) soon = setTimeout(again, 2 * SOON_MS);
    return;
  }
  try {
    const answer = await fetch(location.href, { cache: "no-store" });
    if (answer.ok) exchange(await answer.text(), false);
  } catch {
    say("The notebook does not answer; the times go on by this device.");
  }
}

addEventListener("submit", async (event) => {
  const form = event.target;
  if (!form.matches("form[data-tap]")) return;
  event.preventDefault();
  const button = event.submitter;
  button?.setAttribute("aria-disabled", "true");
  try {
    const body = new URLSearchParams(new FormData(form));
    const answer = await fetch(form.action, { method: "POST", body });
    const text = await answer.text();
    say("");
    if (answer.ok && exchange(text, true)) {
      history.replaceState(null, "", answer.url);
    } else {
      location.assign(answer.url);
    }
  } catch {
    say("The notebook did not answer, so nothing was kept. Look whether it is open, and tap again.");
  } finally {
    button?.removeAttribute("aria-disabled");
  }
});

// What was read off is worked out aside: asked for again soon, until it is there.
const SOON_MS = 700;
let soon = 0;

function ready(part) {
  clearTimeout(soon);
  if ("working" in part.dataset) soon = setTimeout(again, SOON_MS);
  for (const button of part.querySelectorAll(".degrees button")) {
    button.hidden = false;
    button.addEventListener("click", () => {
      const field = part.querySelector("#celsius");
      const degrees = Number(field.value) + Number(button.dataset.by);
      field.value = Math.min(300, Math.max(-30, degrees));
      say(`${field.value} °C`);
    });
  }
  awake();
}

// The screen: kept awake where the browser lets a page do that.
let lock = null;
async function awake() {
  const note = document.getElementById("awake");
  if (document.visibilityState !== "visible") return;
  try {
    if (!lock || lock.released) lock = await navigator.wakeLock.request("screen");
    if (note) note.textContent = "The screen stays awake while this page is open.";
  } catch {
    // Refused, or only given to a page of this machine itself: the page's own sentence stands.
  }
}
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState !== "visible") return;
  awake();
  again();
});

if (bench()) {
  set(Number(bench().dataset.now));
  ready(bench());
  tick();
  setInterval(tick, 500);
  setInterval(again, AGAIN_MS);
}
