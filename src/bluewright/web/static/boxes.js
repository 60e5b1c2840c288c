// Draws boxes on a photo by thumb, mouse or keys. The boxes are the numbers in the form's own fields (data-box), which
// work without this script; after each change they are sent, and what they give is shown.
"use strict";
(() => {
  const root = document.querySelector("[data-boxes]");
  if (!root) return;
  const LEAST_DRAWN_PX = 14, TAP_FRAC = 0.09, SEND_AFTER_MS = 350, MOST_ZOOM = 8, STEPS = 300, LABEL_FRAC = 0.09;
  const part = (name) => root.querySelector(`[data-part="${name}"]`);
  const form = root.closest("form"), found = document.getElementById("found");
  const wide = Number(root.dataset.width), high = Number(root.dataset.height);
  const view = part("view"), ground = part("ground"), told = part("told");
  const fields = [...form.querySelectorAll("[data-box]")].map((input) => ({
    input, many: input.dataset.box === "many", label: input.dataset.label,
  }));
  const boxes = [];
  let armed = null, chosen = null, zoom = 1, waiting = null, asked = 0;

  const clamp = (value, low, most) => Math.min(Math.max(value, low), most);
  const scale = () => wide / ground.getBoundingClientRect().width;

  function say(text) { told.textContent = text; }

  // --- from fields to boxes and back

  function load() {
    for (const field of fields) {
      for (const line of field.input.value.split("\n")) {
        const parts = line.split(/[,;\s]+/).filter(Boolean).map(Number);
        if (parts.length === 4 && parts.every(Number.isFinite)) add(field, ...parts);
      }
    }
  }

  function write() {
    for (const field of fields) {
      const mine = boxes.filter((box) => box.field === field);
      field.input.value = mine.map((box) => [box.x, box.y, box.w, box.h].join(", ")).join("\n");
    }
    for (const button of part("roles").children) name(button);
    part("out").hidden = chosen === null;
    clearTimeout(waiting);
    waiting = setTimeout(send, SEND_AFTER_MS);
  }

  async function send() {
    const turn = (asked += 1);
    try {
      const got = await fetch(root.dataset.live, {
        method: "POST", body: new FormData(form), headers: { Accept: "application/json" },
      });
      const said = await got.json();
      if (turn === asked) found.innerHTML = said.html;
    } catch { /* no network: the form still goes as it is */ }
  }

  // --- one box

  function add(field, x, y, w, h) {
    if (!field.many) boxes.filter((box) => box.field === field).forEach(remove);
    const element = document.createElement("div");
    element.className = "drawn";
    element.tabIndex = 0;
    element.setAttribute("role", "group");
    const label = document.createElement("span"), corner = document.createElement("i");
    element.append(label, corner);
    const box = { field, element, label, corner, x, y, w, h };
    boxes.push(box);
    ground.append(element);
    fit(box);
    element.addEventListener("pointerdown", (event) => grab(box, event));
    element.addEventListener("keydown", (event) => press(box, event));
    element.addEventListener("focus", () => choose(box));
    renumber();
    return box;
  }

  function remove(box) {
    box.element.remove();
    boxes.splice(boxes.indexOf(box), 1);
    if (chosen === box) chosen = null;
    renumber();
  }

  function renumber() {
    for (const field of fields) {
      const mine = boxes.filter((box) => box.field === field);
      mine.forEach((box, at) => {
        box.label.textContent = mine.length > 1 ? `${field.label} ${at + 1}` : field.label;
        name(box.element, box);
      });
    }
  }

  function name(element, box) {
    if (box) {
      element.setAttribute("aria-label", `${box.label.textContent}: ${box.x}, ${box.y}, ${box.w}, ${box.h}. ${root.dataset.keys}`);
      return;
    }
    const field = element.field, there = boxes.some((one) => one.field === field);
    element.textContent = there ? `\u2713 ${field.label}${field.many ? `, ${root.dataset.another}` : ""}` : field.label;
    element.setAttribute("aria-pressed", String(armed === field));
  }

  function fit(box) {
    box.w = clamp(Math.round(box.w), 1, wide);
    box.h = clamp(Math.round(box.h), 1, high);
    box.x = clamp(Math.round(box.x), 0, wide - box.w);
    box.y = clamp(Math.round(box.y), 0, high - box.h);
    const style = box.element.style;
    style.left = `${(100 * box.x) / wide}%`;
    style.top = `${(100 * box.y) / high}%`;
    style.width = `${(100 * box.w) / wide}%`;
    style.height = `${(100 * box.h) / high}%`;
    box.element.classList.toggle("high", box.y < LABEL_FRAC * high);
    name(box.element, box);
  }

  function choose(box) {
    chosen = box;
    for (const one of boxes) one.element.classList.toggle("chosen", one === box);
    part("out").hidden = box === null;
  }

  // --- by thumb and mouse

  function grab(box, event) {
    if (armed) return;
    event.preventDefault();
    event.stopPropagation();
    box.element.focus({ preventScroll: true });
    const sizing = event.target === box.corner, from = { x: event.clientX, y: event.clientY, ...size(box) };
    follow(box.element, event, (at) => {
      const dx = (at.clientX - from.x) * scale(), dy = (at.clientY - from.y) * scale();
      if (sizing) {
        box.w = clamp(from.w + dx, 16, wide - box.x);
        box.h = clamp(from.h + dy, 16, high - box.y);
      } else {
        box.x = from.left + dx;
        box.y = from.top + dy;
      }
      fit(box);
    }, write);
  }

  function size(box) { return { left: box.x, top: box.y, w: box.w, h: box.h }; }

  function follow(element, event, moved, done) {
    element.setPointerCapture(event.pointerId);
    const stop = () => {
      element.removeEventListener("pointermove", moved);
      element.removeEventListener("pointerup", stop);
      element.removeEventListener("pointercancel", stop);
      done();
    };
    element.addEventListener("pointermove", moved);
    element.addEventListener("pointerup", stop);
    element.addEventListener("pointercancel", stop);
  }

  function place(event) {
    const area = ground.getBoundingClientRect();
    return { x: (event.clientX - area.left) * scale(), y: (event.clientY - area.top) * scale() };
  }

  ground.addEventListener("pointerdown", (event) => {
    if (!armed || !event.isPrimary) return;
    event.preventDefault();
    const field = armed, start = place(event), box = add(field, start.x, start.y, 1, 1);
    follow(ground, event, (at) => {
      const end = place(at);
      Object.assign(box, {
        x: Math.max(Math.min(start.x, end.x), 0), y: Math.max(Math.min(start.y, end.y), 0),
        w: Math.abs(end.x - start.x), h: Math.abs(end.y - start.y),
      });
      fit(box);
    }, () => {
      if (box.w / scale() < LEAST_DRAWN_PX || box.h / scale() < LEAST_DRAWN_PX) {
        const side = (TAP_FRAC * Math.min(wide, high)) / Math.sqrt(zoom);
        Object.assign(box, { x: start.x - side / 2, y: start.y - side / 2, w: side, h: side });
        fit(box);
      }
      arm(null);
      box.element.focus({ preventScroll: true });
      say(root.dataset.there);
      write();
    });
  });

  function arm(field) {
    armed = field;
    ground.classList.toggle("armed", field !== null);
    for (const button of part("roles").children) name(button);
    say(field ? `${root.dataset.draw} ${field.label}` : root.dataset.none);
  }

  // --- by keys

  function press(box, event) {
    const step = Math.max(1, Math.round(Math.max(wide, high) / STEPS / zoom));
    const way = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      remove(box);
      view.focus();
      write();
    } else if (way) {
      event.preventDefault();
      if (event.shiftKey) Object.assign(box, { w: clamp(box.w + way[0], 16, wide - box.x), h: clamp(box.h + way[1], 16, high - box.y) });
      else Object.assign(box, { x: box.x + way[0], y: box.y + way[1] });
      fit(box);
      write();
    }
  }

  // By keys alone a box begins in the middle of what is seen.
  function put(field) {
    const seen = view.getBoundingClientRect(), area = ground.getBoundingClientRect();
    const side = (2 * TAP_FRAC * Math.min(wide, high)) / zoom;
    const box = add(
      field,
      (seen.left + Math.min(seen.width, area.width) / 2 - area.left) * scale() - side / 2,
      (seen.top + Math.min(seen.height, area.height) / 2 - area.top) * scale() - side / 2,
      side, side,
    );
    arm(null);
    box.element.focus();
    say(root.dataset.there);
    write();
  }

  // --- buttons

  for (const field of fields) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "plain small";
    button.field = field;
    button.addEventListener("click", (event) => {
      if (event.detail === 0) put(field);
      else arm(armed === field ? null : field);
    });
    part("roles").append(button);
    field.input.addEventListener("change", () => {
      boxes.filter((box) => box.field === field).forEach(remove);
      for (const line of field.input.value.split("\n")) {
        const parts = line.split(/[,;\s]+/).filter(Boolean).map(Number);
        if (parts.length === 4 && parts.every(Number.isFinite)) add(field, ...parts);
      }
      write();
    });
  }
  for (const button of part("zoom").querySelectorAll("[data-by]")) {
    button.addEventListener("click", () => {
      const before = zoom, x = view.scrollLeft + view.clientWidth / 2, y = view.scrollTop + view.clientHeight / 2;
      zoom = clamp(zoom * 2 ** Number(button.dataset.by), 1, MOST_ZOOM);
      ground.style.width = `${100 * zoom}%`;
      view.scrollLeft = (x * zoom) / before - view.clientWidth / 2;
      view.scrollTop = (y * zoom) / before - view.clientHeight / 2;
    });
  }
  part("out").addEventListener("click", () => { if (chosen) { remove(chosen); write(); } });
  for (const input of form.querySelectorAll("select, input[type=text]:not([data-box]), input[type=radio]")) {
    input.addEventListener("change", () => { clearTimeout(waiting); waiting = setTimeout(send, SEND_AFTER_MS); });
  }

  for (const numbers of form.querySelectorAll("details.numbers")) numbers.open = numbers.querySelector(".bad") !== null;
  part("roles").hidden = part("zoom").hidden = false;
  load();
  for (const button of part("roles").children) name(button);
  part("out").hidden = true;
  say(root.dataset.none);
  if (boxes.length) send();
})();
