// A slider beside the number of a mood; the number is what is sent, so the page works without this.
"use strict";

document.querySelectorAll("[data-mood]").forEach((form) => {
  const number = form.querySelector("[data-slider='mood']");
  const pin = form.querySelector(".poles-mark");
  if (!number) return;
  const slider = document.createElement("input");
  slider.type = "range";
  slider.min = number.min;
  slider.max = number.max;
  slider.value = number.value || "50";
  slider.className = "form-range mood-slider";
  slider.setAttribute("aria-label", document.querySelector(`label[for='${number.id}']`).textContent.trim());
  // The slider lies under the wedge, so that its thumb and the wedge's mark move together.
  const strip = form.querySelector(".mood-poles");
  strip.insertBefore(slider, strip.querySelector(".poles-words"));
  const show = (value) => { if (pin) pin.setAttribute("x", `${value}%`); };
  slider.addEventListener("input", () => { number.value = slider.value; show(slider.value); });
  number.addEventListener("input", () => {
    const value = Math.min(100, Math.max(0, Number(number.value) || 0));
    slider.value = value;
    show(value);
  });
  show(slider.value);
});
