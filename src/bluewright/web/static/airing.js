// Counts pours and minutes while airing. Every tap is kept in this browser at once and sent to the garden's machine
// a little later; totals are sent, never steps, so that sending twice counts once.
"use strict";
(() => {
  const box = document.querySelector("[data-counter]");
  if (!box) return;
  const SEND_AFTER_TAPS = 5, SEND_AFTER_MS = 2500, RETRY_MS = 8000, SEND_RUNNING_MS = 60000, AWAY_MS = 120000;
  const part = (name) => box.querySelector(`[data-part="${name}"]`);
  const key = `bluewright.airing.${box.dataset.counter}`;
  const server = { pours: Number(box.dataset.pours), ms: Math.round(60000 * Number(box.dataset.minutes)) };
  const before = { pours: Number(box.dataset.beforePours), minutes: Number(box.dataset.beforeMinutes) };
  const answer = document.getElementById("answer");
  const touched = new WeakSet();
  let state = { pours: server.pours, ms: server.ms, since: null, seen: Date.now(), lower: false, dirty: false };
  let stored = true, sending = false, failed = false, taps = 0, waiting = null, awayMs = 0, lock = null;
  let savedAt = box.dataset.saved, sentAt = Date.now();

  const ms = () => state.ms + (state.since === null ? 0 : Math.max(Date.now() - state.since, 0));
  const minutes = () => (ms() / 60000).toFixed(2);

  function load() {
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(key)); } catch { stored = false; }
    if (!kept) return;
    if (kept.dirty && kept.lower) state = kept;
    else if (kept.dirty) state = { ...kept, pours: Math.max(kept.pours, server.pours) };
    else state.since = kept.since;
    if (kept.dirty && kept.since === null && !kept.lower) state.ms = Math.max(kept.ms, server.ms);
    if (kept.since !== null) {
      state.ms = kept.ms;
      awayMs = Date.now() - kept.seen;
    }
  }

  function keep() {
    state.seen = Date.now();
    try { localStorage.setItem(key, JSON.stringify(state)); stored = true; } catch { stored = false; }
  }

  function show() {
    const pours = part("pours");
    if (pours) pours.value = state.pours;
    part("minutes").value = Math.floor(ms() / 60000);
    part("start").hidden = state.since !== null;
    part("pause").hidden = state.since === null;
    part("saved-at").textContent = savedAt;
    part("saved").hidden = state.dirty;
    part("unsaved").hidden = !state.dirty || failed || !stored;
    part("failed").hidden = !state.dirty || !failed || !stored;
    part("adrift").hidden = !state.dirty || stored;
    part("away").hidden = awayMs < AWAY_MS;
    part("away-min").textContent = Math.round(awayMs / 60000);
    const all = { pours: before.pours + state.pours, minutes: (before.minutes + ms() / 60000).toFixed(1) };
    for (const field of document.querySelectorAll("[data-follows]")) {
      if (!touched.has(field)) field.value = all[field.dataset.follows];
    }
    for (const field of document.querySelectorAll("[data-own]")) {
      field.value = field.dataset.own === "pours" ? state.pours : minutes();
    }
  }

  function changed(soon) {
    state.dirty = true;
    keep();
    show();
    taps += 1;
    clearTimeout(waiting);
    if (soon || taps >= SEND_AFTER_TAPS) send();
    else waiting = setTimeout(send, SEND_AFTER_MS);
  }

  function body(wanted) {
    const form = new FormData();
    form.set("csrfmiddlewaretoken", part("form").elements.csrfmiddlewaretoken.value);
    form.set("pours", wanted.pours);
    form.set("minutes", wanted.minutes);
    if (wanted.lower) form.set("lower", "on");
    return form;
  }

  async function send() {
    clearTimeout(waiting);
    if (sending) { waiting = setTimeout(send, 300); return; }
    sending = true;
    taps = 0;
    sentAt = Date.now();
    const wanted = { pours: state.pours, minutes: minutes(), lower: state.lower, since: state.since, ms: state.ms };
    try {
      const got = await fetch(box.dataset.address, {
        method: "POST", body: body(wanted), headers: { Accept: "application/json" }, keepalive: true,
      });
      if (!got.ok) throw new Error(String(got.status));
      const said = await got.json();
      failed = false;
      savedAt = said.saved;
      if (said.pours !== null && said.pours > state.pours && !state.lower) state.pours = said.pours;
      const same = state.since === wanted.since && state.ms === wanted.ms;
      if (state.pours === (said.pours ?? 0) && same) { state.dirty = false; state.lower = false; }
      answer.innerHTML = said.answer;
    } catch {
      failed = true;
      waiting = setTimeout(send, RETRY_MS);
    }
    sending = false;
    keep();
    show();
    if (state.dirty && !failed) waiting = setTimeout(send, SEND_AFTER_MS);
  }

  function start() {
    if (state.since !== null) return;
    state.since = Date.now();
    awake();
  }

  function pause() {
    state.ms = ms();
    state.since = null;
    lock?.release().catch(() => {});
    lock = null;
  }

  function awake() {
    navigator.wakeLock?.request("screen").then((one) => { lock = one; }).catch(() => {});
  }

  part("tap")?.addEventListener("click", () => {
    state.pours += 1;
    start();
    navigator.vibrate?.(15);
    changed(false);
  });
  part("less")?.addEventListener("click", () => {
    if (state.pours === 0) return;
    state.pours -= 1;
    state.lower = true;
    changed(false);
  });
  part("clock").addEventListener("click", () => {
    const running = state.since !== null;
    if (running) pause(); else start();
    changed(running);
  });
  part("take-off").addEventListener("click", () => {
    state.ms -= Math.min(awayMs, ms());
    state.lower = true;
    awayMs = 0;
    changed(true);
  });
  part("form").addEventListener("submit", () => {
    const read = (name, usual) => {
      const value = Number((part("form").elements[name]?.value ?? "").replace(",", "."));
      return Number.isFinite(value) && value >= 0 ? value : usual;
    };
    state = { ...state, pours: read("pours", state.pours), ms: 60000 * read("minutes", ms() / 60000), since: null };
    state.lower = state.dirty = true;
    keep();
  });
  for (const field of document.querySelectorAll("[data-follows]")) {
    field.addEventListener("input", () => touched.add(field));
  }
  addEventListener("online", () => { if (state.dirty) send(); });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") { keep(); if (state.dirty) send(); }
    else if (state.since !== null) awake();
  });
  setInterval(() => {
    if (state.since === null) return;
    keep();
    show();
    if (Date.now() - sentAt > SEND_RUNNING_MS) send();
  }, 1000);

  load();
  part("live").hidden = false;
  if (!box.querySelector(".why")) part("typed").open = false;
  if (state.since !== null) awake();
  show();
  if (state.dirty) send();
})();
