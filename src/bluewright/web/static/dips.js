// The dip timer, of a piece or of a ladder's strips. Each tap is kept in this browser with its own key and its own time, shown at once, and sent until the
// garden's machine has it: reload, sleep, a closed tab or a lost network cost nothing, and sending twice counts once.
"use strict";
(() => {
  const box = document.querySelector("[data-dips]");
  if (!box) return;
  const RETRY_MS = 8000, AGAIN_MS = 20000, TIMES = 3;
  const part = (name) => box.querySelector(`[data-part="${name}"]`);
  const steps = document.querySelector('[data-part="steps"]');
  const into = part("in"), out = part("out");
  if (!into.querySelector("button")) return;
  const key = `bluewright.dips.of.${box.dataset.dips}`, QUIET = "bluewright.dips.quiet", SHIFT = "bluewright.dips.shift";
  const number = (text) => (text === "" || text === undefined ? null : Number(text));
  const dipMs = 1000 * Number(box.dataset.dipS), airMs = 1000 * Number(box.dataset.airS);
  const known = new Set(box.dataset.known.split(" "));
  let taps = [], stored = true, sending = false, failed = false, waiting = null, sound = null, lock = null;
  let shiftMs = 0, told = "", signals = 0, signalAt = 0;

  function recall(name) {
    try { return JSON.parse(localStorage.getItem(name)); } catch { stored = false; return null; }
  }
  function remember(name, value) {
    try { localStorage.setItem(name, JSON.stringify(value)); stored = true; } catch { stored = false; }
  }
  // A key of its own for each dip: also where a page is not served by https, and has no randomUUID.
  function fresh() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 15) | 64;
    bytes[8] = (bytes[8] & 63) | 128;
    const hex = [...bytes].map((one) => one.toString(16).padStart(2, "0")).join("");
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
  }
  const keep = () => remember(key, { title: document.querySelector("h1").textContent, to: location.pathname, taps });
  const written = (tap) => known.has(`${tap.dip}:out`) || (tap.verb === "in" && known.has(tap.dip));
  // Of the machine's clock; how far this one is off is known from its last answer.
  const now = () => Date.now() + shiftMs;

  function state() {
    const found = {
      dip: box.dataset.dip, began: number(box.dataset.began), out: number(box.dataset.out), done: Number(box.dataset.done),
    };
    for (const tap of taps) {
      if (written(tap)) continue;
      if (tap.verb === "in") Object.assign(found, { dip: tap.dip, began: tap.at + shiftMs, out: null });
      else if (tap.dip === found.dip) Object.assign(found, { dip: "", out: tap.at + shiftMs, done: found.done + 1 });
    }
    return found;
  }

  function clock(ms) {
    const s = Math.max(Math.floor(ms / 1000), 0), h = Math.floor(s / 3600);
    const two = (n) => String(n).padStart(2, "0");
    return (h ? `${h}:${two(Math.floor(s / 60) % 60)}` : Math.floor(s / 60)) + `:${two(s % 60)}`;
  }

  function show() {
    const at = state(), inVat = at.dip !== "", over = follow(at) === "end";
    const since = over ? null : inVat ? at.began : at.out;
    const wanted = inVat ? dipMs : airMs, due = since !== null && now() - since >= wanted;
    part("in-vat").hidden = !inVat;
    part("in-air").hidden = inVat || since === null;
    part("nowhere").hidden = inVat || since !== null;
    part("clock").parentElement.hidden = since === null;
    part("clock").value = since === null ? "0:00" : clock(now() - since);
    part("of").hidden = since === null || !wanted;
    part("wanted").textContent = clock(wanted);
    part("due-out").hidden = !(inVat && due);
    part("due-in").hidden = inVat || !due;
    into.hidden = inVat || over;
    out.hidden = !inVat;
    const open = taps.filter((tap) => !written(tap));
    part("said").hidden = open.length > 0;
    part("undo").hidden = open.length === 0;
    part("unsaved").hidden = !open.length || failed || !stored;
    part("failed").hidden = !open.length || !failed || !stored;
    part("adrift").hidden = !open.length || stored;
    box.classList.toggle("due", due && inVat);
    const which = `${at.dip}${at.out}`;
    if (told !== which) { told = which; signals = due ? TIMES : 0; signalAt = 0; }
    if (due && wanted && signals < (inVat ? TIMES : 1) && Date.now() - signalAt > AGAIN_MS) signal();
  }

  // What is to be done at this point of a ladder; nothing of the kind for a piece.
  function follow(at) {
    if (!steps) return "";
    const name = `${at.dip ? "out" : "in"}-${at.done + 1}`, all = [...steps.children];
    const found = all.find((one) => one.dataset.step === name) ?? all.at(-1);
    for (const one of all) one.hidden = one !== found;
    return found.dataset.step;
  }

  function signal() {
    signals += 1;
    signalAt = Date.now();
    if (!part("sound").checked) return;
    navigator.vibrate?.([300, 150, 300]);
    if (!sound || sound.state !== "running") return;
    for (const [place, hz] of [[0, 523.25], [0.45, 659.25]]) {
      const tone = sound.createOscillator(), loud = sound.createGain(), from = sound.currentTime + place;
      tone.frequency.value = hz;
      loud.gain.setValueAtTime(0.0001, from);
      loud.gain.exponentialRampToValueAtTime(0.25, from + 0.05);
      loud.gain.exponentialRampToValueAtTime(0.0001, from + 0.4);
      tone.connect(loud).connect(sound.destination);
      tone.start(from);
      tone.stop(from + 0.42);
    }
  }

  function awake() {
    try { sound ??= new AudioContext(); sound.resume?.(); } catch { /* no sound here */ }
    navigator.wakeLock?.request("screen").then((one) => { lock = one; }).catch(() => {});
  }

  function tap(verb) {
    const at = state();
    const one = { verb, dip: verb === "in" ? fresh() : at.dip, vat: into.elements.vat?.value, at: Date.now() };
    taps.push(one);
    keep();
    navigator.vibrate?.(20);
    part("wrong").hidden = true;
    if (verb === "in") awake(); else { lock?.release().catch(() => {}); lock = null; }
    show();
    send();
  }

  function body(one) {
    const form = new FormData();
    form.set("csrfmiddlewaretoken", into.elements.csrfmiddlewaretoken.value);
    form.set("dip", one.dip);
    if (one.vat) form.set("vat", one.vat);
    form.set("tapped_ms", one.at);
    form.set("sent_ms", Date.now());
    return form;
  }

  async function send() {
    clearTimeout(waiting);
    if (sending) return;
    sending = true;
    try {
      // A tap is forgotten only once a page that has it is here: closed in between, it is sent again and counts once.
      while (taps.length) {
        const one = taps[0];
        if (!written(one)) {
          const got = await fetch((one.verb === "in" ? into : out).action, {
            method: "POST", body: body(one), headers: { Accept: "application/json" }, keepalive: true,
          });
          if (!got.ok && got.status !== 422) throw new Error(String(got.status));
          const answer = await got.json();
          shiftMs = answer.now_ms - Date.now();
          remember(SHIFT, shiftMs);
          if (answer.wrong) {
            part("wrong").textContent = answer.wrong;
            part("wrong").hidden = false;
            // What hangs on a dip that was not written goes with it.
            taps = taps.filter((other) => other === one || other.dip !== one.dip);
          }
          await fetched();
        }
        taps.shift();
        keep();
      }
      failed = false;
    } catch (error) {
      failed = true;
      // A piece that was taken out takes no taps: they are kept, and sent if it is brought back and opened.
      if (error.message !== "404") waiting = setTimeout(send, RETRY_MS);
    }
    sending = false;
    show();
  }

  // The page anew from the machine: what it has is shown as it has it.
  async function fetched() {
    const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
    const anew = page.querySelector("[data-dips]");
    if (!anew) return;
    for (const name of ["dip", "began", "out", "done", "known"]) box.dataset[name] = anew.dataset[name];
    known.clear();
    for (const one of box.dataset.known.split(" ")) known.add(one);
    part("said").textContent = anew.querySelector('[data-part="said"]').textContent;
    for (const [form, field] of [[into, "in"], [out, "out"]]) {
      form.elements.dip.value = anew.querySelector(`[data-part="${field}"]`).elements.dip.value;
    }
    document.querySelector('[data-part="after"]').replaceWith(page.querySelector('[data-part="after"]'));
  }

  for (const [form, verb] of [[into, "in"], [out, "out"]]) {
    form.addEventListener("submit", (event) => { event.preventDefault(); tap(verb); });
  }
  part("undo").addEventListener("click", () => {
    if (sending) return;
    taps.pop();
    keep();
    show();
  });
  part("sound").addEventListener("change", () => { remember(QUIET, !part("sound").checked); awake(); });
  addEventListener("online", () => send());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return;
    if (state().dip) awake();
    show();
    send();
  });

  taps = recall(key)?.taps ?? [];
  shiftMs = recall(SHIFT) ?? 0;
  part("sound").checked = recall(QUIET) !== true;
  part("live").hidden = part("tools").hidden = false;
  setInterval(show, 500);
  show();
  send();
})();
