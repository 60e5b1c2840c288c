// What is folded on the screen is unfolded on paper, also in browsers whose style sheets cannot do it; then folded again.
"use strict";
(() => {
  let unfolded = [];
  addEventListener("beforeprint", () => {
    if (document.querySelector("main .bench")) return;
    unfolded = [...document.querySelectorAll("main details:not([open]):not(.sorts)")];
    for (const one of unfolded) one.open = true;
  });
  addEventListener("afterprint", () => {
    for (const one of unfolded) one.open = false;
    unfolded = [];
  });
})();
