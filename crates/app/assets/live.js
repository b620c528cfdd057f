// A form that answers while it is filled in: what it says is asked for again after every change,
// and the parts of the page that it names are exchanged. Without this script the form's button does
// the same.
//
//   <form data-live="figures findings">       ids of the parts to exchange
//   <form data-live="findings" data-ask="/…">  asked at another address than the form is sent to
//
// A later change drops the question before it. Focus and caret stay, as a part that holds the field
// in hand is left alone.

const hand = (part) => part.contains(document.activeElement);

async function ask(form, signal) {
  const said = new URLSearchParams();
  for (const [name, value] of new FormData(form)) {
    if (typeof value === "string") said.append(name, value);
  }
  const address = new URL(form.dataset.ask || form.action, document.baseURI);
  if (form.method !== "post") {
    address.search = said;
    return { address, answer: await fetch(address, { signal }) };
  }
  return { address, answer: await fetch(address, { method: "POST", body: said, signal }) };
}

function exchange(form, page) {
  for (const id of form.dataset.live.split(" ")) {
    const old = document.getElementById(id);
    const fresh = page.getElementById(id);
    if (old && fresh && !hand(old)) old.replaceWith(document.adoptNode(fresh));
  }
}

function follow(form) {
  let question = null;
  const changed = async () => {
    question?.abort();
    question = new AbortController();
    const mine = question;
    form.setAttribute("aria-busy", "true");
    try {
      const { address, answer } = await ask(form, mine.signal);
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (mine.signal.aborted) return;
      exchange(form, page);
      if (form.method !== "post") history.replaceState(null, "", address);
      form.dispatchEvent(new CustomEvent("answered"));
    } catch (fault) {
      // A question dropped for a later one is no fault; a server that is gone leaves the page as it was.
      if (fault.name !== "AbortError") form.dispatchEvent(new CustomEvent("unanswered"));
    } finally {
      if (question === mine) form.removeAttribute("aria-busy");
    }
  };
  form.addEventListener("input", changed);
}

document.querySelectorAll("form[data-live]").forEach(follow);
