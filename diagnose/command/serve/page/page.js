// Let the keyboard work at once: the terminal takes no key before it has the focus, and tells nobody of a focus
// that comes before its first picture.
"use strict";
const takeFocus = () => document.querySelector(".xterm-helper-textarea")?.focus();
window.addEventListener("focus", takeFocus);
document.addEventListener("DOMContentLoaded", () => {
  new MutationObserver((_, watcher) => {
    if (document.body.classList.contains("-first-byte")) {
      watcher.disconnect();
      takeFocus();
    }
  }).observe(document.body, { attributeFilter: ["class"] });
});
