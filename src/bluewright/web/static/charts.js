// A chart is read off under a finger, a pointer or the arrow keys: the nearest place of its own figures is told above it.
"use strict";
(() => {
  const SVG = "http://www.w3.org/2000/svg";

  function ready(svg) {
    if (svg.dataset.ready) return;
    svg.dataset.ready = "yes";
    const { heads, places, top, bottom } = JSON.parse(svg.dataset.figures);
    const told = document.createElement("output");
    told.className = "told-off";
    told.textContent = "\u00a0";
    svg.before(told);
    const line = document.createElementNS(SVG, "line");
    for (const [name, value] of [["y1", top], ["y2", bottom], ["stroke", "#16244a"], ["stroke-width", 2], ["visibility", "hidden"]]) line.setAttribute(name, value);
    svg.append(line);
    svg.tabIndex = 0;
    let at = -1;

    function tell(index) {
      at = Math.min(Math.max(index, 0), places.length - 1);
      const [x, ...cells] = places[at];
      line.setAttribute("x1", x);
      line.setAttribute("x2", x);
      line.setAttribute("visibility", "visible");
      told.textContent = cells.map((cell, k) => (k && cell ? `${heads[k]}: ${cell}` : cell)).filter(Boolean).join("; ");
    }
    function near(event) {
      const box = svg.getBoundingClientRect();
      const x = ((event.clientX - box.left) / box.width) * svg.viewBox.baseVal.width;
      let best = 0;
      for (let k = 1; k < places.length; k += 1) if (Math.abs(places[k][0] - x) < Math.abs(places[best][0] - x)) best = k;
      tell(best);
    }
    svg.addEventListener("pointerdown", near);
    svg.addEventListener("pointermove", near);
    svg.addEventListener("keydown", (event) => {
      const step = { ArrowRight: 1, ArrowLeft: -1, PageDown: 10, PageUp: -10 }[event.key];
      if (!step) return;
      event.preventDefault();
      tell(at < 0 ? 0 : at + step);
    });
  }
  const all = () => document.querySelectorAll("svg[data-figures]").forEach(ready);
  all();
  new MutationObserver(all).observe(document.body, { childList: true, subtree: true });
})();
