// What is typed into a form marked data-draft is kept in this browser until the garden's machine has it: a closed tab,
// an empty battery or a lost network costs nothing. Every page says which forms, and which taps of a timer, still wait.
"use strict";
(() => {
  const PREFIX = "bluewright.draft.", TAPS = "bluewright.dips.of.";
  const here = PREFIX + location.pathname;
  const form = document.querySelector("form[data-draft]");
  const box = document.querySelector("[data-drafts]");
  const kinds = "input:not([type=hidden]):not([type=file]):not([type=password]), select, textarea, input[name=once]";

  function read(key) {
    try { return JSON.parse(localStorage.getItem(key)); } catch { return null; }
  }
  function write(key, draft) {
    try { localStorage.setItem(key, JSON.stringify(draft)); } catch { /* a full or closed store keeps nothing */ }
  }
  function drop(key) {
    try { localStorage.removeItem(key); } catch { /* nothing was kept */ }
  }
  function typed() {
    const found = [];
    for (const field of form.querySelectorAll(kinds)) {
      if (!field.name) continue;
      const ticked = field.type === "radio" || field.type === "checkbox";
      if (!ticked || field.checked) found.push([field.name, field.value]);
    }
    return found;
  }
  function fill(fields) {
    for (const field of form.querySelectorAll(kinds)) {
      const values = fields.filter(([name]) => name === field.name).map(([, value]) => value);
      if (field.type === "radio" || field.type === "checkbox") field.checked = values.includes(field.value);
      else if (values.length) field.value = values[0];
    }
  }
  function say(text, href) {
    if (!box) return;
    const line = document.createElement("p");
    if (href) {
      const link = document.createElement("a");
      link.href = href;
      link.className = "back";
      link.textContent = text;
      line.append(link);
    } else line.textContent = text;
    box.append(line);
    box.hidden = false;
  }
  const clock = (at) => new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

  const keys = [];
  try {
    for (let n = 0; n < localStorage.length; n += 1) keys.push(localStorage.key(n));
  } catch { /* no store */ }
  for (const key of keys.filter((one) => one.startsWith(PREFIX) && one !== here)) {
    const draft = read(key);
    // It was sent, and this is another page of the garden: the machine has it.
    if (!draft || draft.sent) drop(key);
    else say(`${box?.dataset.waits ?? ""} ${draft.title} (${clock(draft.at)})`, key.slice(PREFIX.length));
  }
  for (const key of keys.filter((one) => one.startsWith(TAPS))) {
    const found = read(key);
    if (found?.taps?.length && found.to !== location.pathname) {
      say(`${box?.dataset.waits ?? ""} ${found.title} (${clock(found.taps[0].at)})`, found.to);
    }
  }
  if (!form) return;

  const draft = read(here);
  // Sent and answered, with nothing written: refused, or only looked at (data-answered).
  const refused = form.querySelector(".bad, .wrong") !== null || "answered" in form.dataset;
  if (draft && !refused) {
    fill(draft.fields);
    say(draft.sent ? box.dataset.unsure : box.dataset.restored);
  }
  const keep = (sent) => write(here, { title: document.querySelector("h1")?.textContent ?? "", at: Date.now(), fields: typed(), sent });
  if (refused) keep(false);
  form.addEventListener("input", () => keep(false));
  form.addEventListener("submit", () => keep(true));
})();
