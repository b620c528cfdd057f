// A form that answers while it is filled in: what it says is asked for again after every change,
// and the parts of the page that it names are exchanged. Without this script the form's button does
// the same.
//
//   <form data-live="figures findings">       ids of the parts to exchange
//   <form data-live="findings" data-ask="/…">  asked at another address than the form is sent to
//   <form data-live="…" data-moving="a=b">     said besides while something moves; once it rests the
//                                              form is asked again without, for the finer answer
//
// One question at a time: what changes meanwhile is asked when the answer is there, and a question
// that takes long is dropped for it. Focus and caret stay, as a part that holds the field in hand is
// left alone. A number of a form in which something moves gets a slider beside it; `data-back` leads
// to the field that it puts back to its `data-own`.
//
//   <form data-live="…" data-watch>            asked again when its window comes to the front, too; what
//                                              it sends is held until a page says what came of it, and put
//                                              into its fields again when the program was gone
//
//   <div id="far" data-follow="1000">          exchanged again after so many milliseconds; when the
//                                              answer is at another address, the page goes there

const LONG = 200; // ms: a question older than this is dropped for a newer one
const RESTS = 350; // ms without a change

const hand = (part) => part.contains(document.activeElement);

async function ask(form, signal, more) {
  const said = new URLSearchParams(more);
  for (const [name, value] of new FormData(form)) {
    if (typeof value === "string") said.append(name, value);
  }
  const address = new URL(form.dataset.ask || form.action, document.baseURI);
  if (form.method !== "post") {
    address.search = said;
    return fetch(address, { signal });
  }
  return fetch(address, { method: "POST", body: said, signal });
}

/** The address that says what the form says, without what stands by itself. */
function place(form) {
  const address = new URL(form.action, document.baseURI);
  const said = new URLSearchParams();
  for (const [name, value] of new FormData(form)) {
    const own = form.elements[name]?.dataset?.own;
    if (typeof value === "string" && value !== "" && value !== own) said.append(name, value);
  }
  address.search = said;
  return address;
}

const read = async (answer) => new DOMParser().parseFromString(await answer.text(), "text/html");

function exchange(ids, page) {
  for (const id of ids) {
    const old = document.getElementById(id);
    const fresh = page.getElementById(id);
    if (old && fresh && !hand(old)) old.replaceWith(document.adoptNode(fresh));
  }
}

function follow(form) {
  let question = null; // the one that is asked now
  let began = 0;
  let again = false; // something has changed since
  let rest = 0;
  const moving = form.dataset.moving;

  const once = async (more) => {
    const mine = new AbortController();
    question = mine;
    began = performance.now();
    again = false;
    form.setAttribute("aria-busy", "true");
    try {
      const answer = await ask(form, mine.signal, more);
      const page = await read(answer);
      if (mine.signal.aborted) return;
      exchange(form.dataset.live.split(" "), page);
      if (form.method !== "post") history.replaceState(null, "", place(form));
      form.dispatchEvent(new CustomEvent("answered"));
    } catch (fault) {
      // A question dropped for a later one is no fault; a server that is gone leaves the page as it was.
      if (fault.name !== "AbortError") form.dispatchEvent(new CustomEvent("unanswered"));
    } finally {
      if (question === mine) {
        question = null;
        form.removeAttribute("aria-busy");
        if (again) once(moving);
      }
    }
  };

  form.addEventListener("input", () => {
    clearTimeout(rest);
    if (moving) rest = setTimeout(() => { question?.abort(); once(); }, RESTS);
    if (question && performance.now() - began < LONG) {
      again = true;
      return;
    }
    question?.abort();
    once(moving);
  });

  const typed = () => [...form.elements].some((one) => one.defaultValue !== undefined && one.value !== one.defaultValue);
  // Typed before this script was there.
  if (typed()) once();

  if (form.dataset.watch === undefined) return;
  hold(form);
  const look = () => { if (!question && !document.hidden) once(); };
  addEventListener("focus", look);
  document.addEventListener("visibilitychange", look);
  // A page that the browser kept, or whose fields it filled with what was typed before.
  addEventListener("pageshow", ({ persisted }) => {
    if (persisted || typed()) look();
  });
}

/** What is sent and not answered: the program may have ended in the middle of it. */
function hold(form) {
  const mark = `sent ${new URL(form.action).pathname}`;
  let held = null;
  try {
    held = JSON.parse(sessionStorage.getItem(mark));
    // A page that says what was done has answered.
    const address = new URL(location.href);
    if (address.searchParams.has("said")) {
      sessionStorage.removeItem(mark);
      held = null;
      // Said once: when this page is opened again, it answers nothing.
      address.searchParams.delete("said");
      history.replaceState(null, "", address);
    }
    form.addEventListener("submit", () => {
      const said = [...new FormData(form)].filter(([, value]) => typeof value === "string");
      sessionStorage.setItem(mark, JSON.stringify(said));
    });
  } catch {
    return; // This browser keeps nothing.
  }
  const plain = (text) => text.replaceAll("\r\n", "\n");
  const others = (held ?? []).filter(([name, value]) => {
    const now = form.elements[name];
    return now?.type !== "hidden" && typeof now?.value === "string" && plain(now.value) !== plain(value);
  });
  if (others.length === 0) return;
  // What the file was when it was written goes with it, so that nothing of others is written over.
  for (const [name, value] of [...others, ...held.filter(([name]) => name === "seen")]) {
    form.elements[name].value = plain(value);
  }
  const note = document.createElement("p");
  note.className = "done";
  note.setAttribute("role", "alert");
  note.textContent = "The program gave no answer when this was sent, and the file does not hold it. What you wrote stands in the fields again: save it once more.";
  form.before(note);
  form.dispatchEvent(new Event("input", { bubbles: true }));
}

/** A slider beside a number, for a thumb. */
function slide(field) {
  const slider = document.createElement("input");
  slider.type = "range";
  for (const name of ["min", "max", "step"]) slider[name] = field[name];
  slider.value = field.value;
  slider.setAttribute("aria-label", `${field.labels[0].textContent.trim()}, slider`);
  slider.addEventListener("input", () => { field.value = slider.value; });
  field.addEventListener("input", () => { slider.value = field.value; });
  field.after(slider);
}

document.querySelectorAll("form[data-live]").forEach((form) => {
  if (form.dataset.moving) form.querySelectorAll("input[type=number]").forEach(slide);
  follow(form);
});

document.addEventListener("click", (event) => {
  const back = event.target.closest?.("a[data-back]");
  const field = back && document.getElementById(back.dataset.back);
  if (!field || field.dataset.own === undefined) return;
  event.preventDefault();
  field.value = field.dataset.own;
  field.focus();
  field.dispatchEvent(new Event("input", { bubbles: true }));
});

// A button that copies a field; without this script the field can be marked and copied by hand.
document.querySelectorAll("button[data-copy]").forEach((button) => {
  if (!navigator.clipboard) return;
  button.parentElement.hidden = false;
  button.addEventListener("click", async () => {
    await navigator.clipboard.writeText(document.getElementById(button.dataset.copy).value);
    button.textContent = "Copied";
  });
});

const wait = (ms) => new Promise((done) => { setTimeout(done, ms); });

async function watch(part) {
  const { id } = part;
  for (;;) {
    const old = document.getElementById(id);
    if (!old?.dataset.follow) return;
    await wait(Number(old.dataset.follow));
    try {
      const answer = await fetch(location.href);
      if (answer.redirected) {
        location.replace(answer.url);
        return;
      }
      exchange([id], await read(answer));
    } catch {
      // The program is gone: what is known stays on the page.
      return;
    }
  }
}

document.querySelectorAll("[data-follow]").forEach(watch);
