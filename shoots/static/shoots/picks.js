// Picking several shots: groups tick their shots at once, and the bar says how many are picked. Without this the
// groups are links to the same page with their shots ticked.
"use strict";

document.querySelectorAll("[data-picks]").forEach((form) => {
  const says = form.querySelector("[data-picks-say]");
  const boxes = () => Array.from(form.querySelectorAll("input[name='shot']"));
  const groups = Array.from(document.querySelectorAll("[data-pick]"));
  const wanted = (group) => (group.dataset.pick === "all" ? boxes().map((box) => box.value) : group.dataset.pick === "none" ? [] : group.dataset.pick.split(","));
  const tell = () => {
    const picked = boxes().filter((box) => box.checked).map((box) => box.value);
    says.textContent = picked.length === 0 ? form.dataset.saysNone : picked.length === 1 ? form.dataset.saysOne : form.dataset.saysMany.replace("%n%", picked.length);
    groups.forEach((group) => {
      const keys = wanted(group);
      const same = keys.length > 0 && keys.length === picked.length && keys.every((key) => picked.includes(key));
      if (same) group.setAttribute("aria-current", "true"); else group.removeAttribute("aria-current");
    });
  };
  groups.forEach((group) => group.addEventListener("click", (event) => {
    if (event.metaKey || event.ctrlKey || event.button !== 0) return;
    event.preventDefault();
    const keys = new Set(wanted(group));
    boxes().forEach((box) => { box.checked = keys.has(box.value); });
    tell();
  }));
  let last = null;
  form.addEventListener("click", (event) => {
    const box = event.target.closest("input[name='shot']");
    if (!box) return;
    // With Shift, everything between this box and the last one is ticked alike.
    if (event.shiftKey && last) {
      const all = boxes();
      const [from, to] = [all.indexOf(last), all.indexOf(box)].sort((a, b) => a - b);
      all.slice(from, to + 1).forEach((one) => { one.checked = box.checked; });
    }
    last = box;
  });
  form.addEventListener("change", tell);
  tell();
});
