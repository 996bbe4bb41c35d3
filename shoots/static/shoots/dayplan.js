// The order of a day's blocks, dragged with mouse or finger by the grip; the up and down buttons work without this.
// Letting go sends the whole form, so that typed minutes are kept and all clock times come back right.
"use strict";

document.querySelectorAll("form[data-dayplan]").forEach((form) => {
  const list = form.querySelector(".dayplan");
  const blocks = () => Array.from(list.querySelectorAll("[data-block]"));
  const keys = () => blocks().map((row) => row.dataset.block).join(",");
  const before = keys();

  form.querySelectorAll(".grip").forEach((grip) => {
    const row = grip.closest("[data-block]");
    grip.hidden = false;
    grip.addEventListener("keydown", (event) => {
      const way = { ArrowUp: "up", ArrowDown: "down" }[event.key];
      if (!way) return;
      event.preventDefault();
      form.requestSubmit(row.querySelector(`button[value^="${way}:"]`));
    });
    grip.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      event.preventDefault();
      // Heard on the document: moving the row in the page would lose a capture by its grip.
      row.classList.add("is-dragged");
      list.classList.add("is-moving");
      const move = (next) => {
        const over = blocks().find((other) => {
          const box = other.getBoundingClientRect();
          return other !== row && next.clientY > box.top && next.clientY < box.bottom;
        });
        if (!over) return;
        const box = over.getBoundingClientRect();
        const above = over.compareDocumentPosition(row) & Node.DOCUMENT_POSITION_FOLLOWING;
        if (above && next.clientY < box.top + box.height / 2) list.insertBefore(row, over);
        if (!above && next.clientY > box.top + box.height / 2) list.insertBefore(row, over.nextElementSibling);
      };
      const end = (last) => {
        document.removeEventListener("pointermove", move);
        ["pointerup", "pointercancel"].forEach((name) => document.removeEventListener(name, end));
        row.classList.remove("is-dragged");
        list.classList.remove("is-moving");
        if (last.type === "pointercancel") { before.split(",").forEach((key) => list.append(list.querySelector(`[data-block="${key}"]`))); return; }
        if (keys() === before) return;
        form.querySelector("[data-order]").value = keys();
        form.requestSubmit(form.querySelector("[data-order-send]"));
      };
      document.addEventListener("pointermove", move);
      ["pointerup", "pointercancel"].forEach((name) => document.addEventListener(name, end));
    });
  });
});
