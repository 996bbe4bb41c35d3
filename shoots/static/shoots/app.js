// Small modules; each works on what it finds and leaves a page without it as it was.
"use strict";

// A form that was sent stays sent: the second click of a double click does nothing.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.dataset.sent || form.hasAttribute("hx-post")) { if (form.dataset.sent) event.preventDefault(); return; }
  if ((form.getAttribute("method") || "get").toLowerCase() !== "post") return;  // a field may be called "method"
  form.dataset.sent = "1";
  window.setTimeout(() => delete form.dataset.sent, 8000);
});
window.addEventListener("pageshow", () => document.querySelectorAll("form[data-sent]").forEach((form) => delete form.dataset.sent));

// Menus close when one taps elsewhere or presses Escape.
document.addEventListener("click", (event) => {
  document.querySelectorAll("details.bar-me[open]").forEach((menu) => { if (!menu.contains(event.target)) menu.removeAttribute("open"); });
});
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  document.querySelectorAll("details.bar-me[open]").forEach((menu) => { menu.removeAttribute("open"); menu.querySelector("summary").focus(); });
});

// Bring the current section into view on narrow screens.
document.querySelectorAll(".sections a[aria-current], .bar-nav a[aria-current]").forEach((link) => {
  const strip = link.parentElement;
  strip.scrollLeft = link.offsetLeft - strip.offsetLeft - strip.clientWidth / 2 + link.clientWidth / 2;
});
