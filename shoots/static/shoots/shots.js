// The order of the shot list: dragged with mouse or finger by the grip, moved with arrow keys on the grip, or with the
// up and down buttons, which also work without this. Each change is saved at once; the list goes back if it can't be.
"use strict";

document.querySelectorAll("[data-shots]").forEach((list) => {
  const says = document.querySelector("[data-shots-say]");
  const rows = () => Array.from(list.children);
  const keys = () => rows().map((row) => row.dataset.shot).join(",");
  const token = () => document.querySelector("#row-doing [name='csrfmiddlewaretoken']").value;
  let saved = keys();

  const say = (kind, row) => {
    const text = list.dataset[kind] || "";
    says.textContent = row ? text.replace("%title%", row.dataset.title).replace("%place%", rows().indexOf(row) + 1).replace("%all%", rows().length) : text;
  };
  const number = () => rows().forEach((row, n) => { row.querySelector(".shot-number").textContent = n + 1; });
  const restore = (order) => {
    order.split(",").forEach((key) => list.append(list.querySelector(`[data-shot="${key}"]`)));
    number();
  };

  const save = (row) => {
    const order = keys();
    if (order === saved) { say("saysEdge", row); return; }
    const before = saved;
    saved = order;
    number();
    say("saysMoved", row);
    const body = new FormData();
    body.append("csrfmiddlewaretoken", token());
    rows().forEach((one) => body.append("shot", one.dataset.shot));
    fetch(list.dataset.orderUrl, { method: "POST", body, credentials: "same-origin", redirect: "error" })
      .then((answer) => { if (!answer.ok) throw new Error(String(answer.status)); })
      .catch(() => { saved = before; restore(before); say("saysFailed"); list.classList.add("unsaved"); says.classList.remove("visually-hidden"); says.classList.add("notice", "error"); });
  };

  const step = (row, way) => {
    const other = way < 0 ? row.previousElementSibling : row.nextElementSibling;
    if (other) list.insertBefore(row, way < 0 ? other : other.nextElementSibling);
    save(row);
    row.scrollIntoView({ block: "nearest" });
  };

  list.addEventListener("click", (event) => {
    const button = event.target.closest("button[name='way']");
    if (!button) return;
    event.preventDefault();
    step(button.closest("[data-shot]"), button.value === "up" ? -1 : 1);
    button.focus();
  });

  list.querySelectorAll(".grip").forEach((grip) => {
    const row = grip.closest("[data-shot]");
    grip.hidden = false;
    grip.addEventListener("keydown", (event) => {
      const way = { ArrowUp: -1, ArrowDown: 1 }[event.key];
      if (!way) return;
      event.preventDefault();
      step(row, way);
      grip.focus();
    });

    grip.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      event.preventDefault();
      grip.focus();
      // The list holds the pointer: the grip leaves the page for a moment whenever its row changes places.
      list.setPointerCapture(event.pointerId);
      row.classList.add("is-dragged");
      let at = event.clientY;
      let timer = 0;
      const place = () => {
        const over = rows().find((other) => {
          if (other === row) return false;
          const box = other.getBoundingClientRect();
          return at > box.top && at < box.bottom;
        });
        if (!over) return;
        const box = over.getBoundingClientRect();
        const before = over.compareDocumentPosition(row) & Node.DOCUMENT_POSITION_FOLLOWING;
        // Change places only past the middle, so that two rows of unlike height don't flicker.
        if (before && at < box.top + box.height / 2) list.insertBefore(row, over);
        if (!before && at > box.top + box.height / 2) list.insertBefore(row, over.nextElementSibling);
        number();
      };
      const roll = () => {
        const edge = 70;
        const speed = at < edge ? at - edge : at > window.innerHeight - edge ? at - window.innerHeight + edge : 0;
        if (speed) { window.scrollBy(0, speed / 5); place(); }
        timer = window.requestAnimationFrame(roll);
      };
      const move = (next) => { at = next.clientY; place(); };
      const end = (last) => {
        window.cancelAnimationFrame(timer);
        list.removeEventListener("pointermove", move);
        ["pointerup", "pointercancel"].forEach((name) => list.removeEventListener(name, end));
        row.classList.remove("is-dragged");
        if (last.type === "pointercancel") restore(saved); else if (keys() !== saved) save(row);
        grip.focus();
      };
      timer = window.requestAnimationFrame(roll);
      list.addEventListener("pointermove", move);
      ["pointerup", "pointercancel"].forEach((name) => list.addEventListener(name, end));
    });
  });

  // Only one row's menu is open at a time.
  list.addEventListener("toggle", (event) => {
    if (!event.target.matches("details.menu") || !event.target.open) return;
    list.querySelectorAll("details.menu[open]").forEach((menu) => { if (menu !== event.target) menu.open = false; });
  }, true);
});
