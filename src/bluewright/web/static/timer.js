// Counts the seconds between two taps into a field beside it: how long a test strip takes to turn blue.
"use strict";
(() => {
  for (const box of document.querySelectorAll("[data-timer]")) {
    const field = document.getElementById(box.dataset.of);
    const part = (name) => box.querySelector(`[data-part="${name}"]`);
    let since = null;
    const seconds = () => Math.round((Date.now() - since) / 1000);
    const show = () => {
      part("start").hidden = since !== null;
      part("stop").hidden = since === null;
      if (since !== null) part("seconds").value = seconds();
    };
    part("tap").hidden = false;
    part("tap").addEventListener("click", () => {
      if (since === null) since = Date.now();
      else {
        field.value = seconds();
        field.dispatchEvent(new Event("input", { bubbles: true }));
        since = null;
      }
      navigator.vibrate?.(15);
      show();
    });
    setInterval(() => { if (since !== null) show(); }, 200);
  }
})();
