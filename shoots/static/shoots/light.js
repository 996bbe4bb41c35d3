// Lights on the plan: dragged by their letter with mouse or finger, or moved with the arrow keys (left and right go
// round the subject, up and down further and nearer). What is let go is posted as the same two numbers that can be
// typed, and the server draws the page's live part again.
"use strict";

(() => {
  const NEAREST = 0.2, FARTHEST = 60;
  const round = (value, step) => Math.round(value / step) * step;
  const text = (value, digits) => value.toFixed(digits).replace(/\.?0+$/, "");
  const live = () => document.getElementById("live");
  const say = (words) => { const line = document.querySelector("[data-plan-say]"); if (line) line.textContent = words; };

  // The subject is the origin; the camera stands below, so that its left is on the left.
  const placed = (x, y, scale) => ({
    bearing: (round((Math.atan2(-x, y) * 180) / Math.PI, 1) + 360) % 360,
    floor: Math.min(FARTHEST, Math.max(NEAREST, round(Math.hypot(x, y) / scale, 0.05))),
  });

  const post = (head, place) => {
    const form = document.querySelector(`#lamp-${head.dataset.head} .place-form form`);
    const values = {
      csrfmiddlewaretoken: form.querySelector("[name='csrfmiddlewaretoken']").value,
      version: head.dataset.version,
      distance_m: text(place.floor, 2),
      bearing_deg: text(place.bearing, 0),
    };
    const url = form.getAttribute("action").split("#")[0];
    const key = head.dataset.head;
    window.htmx.ajax("POST", url, { target: "#live", swap: "outerHTML", values }).then(() => {
      const again = document.getElementById(`head-${key}`);
      if (again) again.focus();
    });
  };

  const words = (place) => {
    const turn = place.bearing > 180 ? place.bearing - 360 : place.bearing;
    return `${text(place.floor, 2)} m · ${Math.abs(turn)}°${turn > 0 ? " ←" : turn < 0 ? " →" : ""}`;
  };

  document.addEventListener("pointerdown", (event) => {
    const head = event.target.closest("[data-head]");
    if (!head || event.button !== 0) return;
    const svg = head.closest("[data-plan]");
    const scale = Number(svg.dataset.scale);
    const beam = svg.querySelector(`[data-beam="${head.dataset.head}"]`);
    const [, toX, toY] = beam ? /L(\S+) (\S+)$/.exec(beam.getAttribute("d")) : [0, 0, 0];
    const start = { x: Number(head.dataset.x), y: Number(head.dataset.y) };
    const point = (from) => new DOMPoint(from.clientX, from.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const grabbed = point(event);
    let at = start;
    event.preventDefault();
    head.focus();
    svg.setPointerCapture(event.pointerId);
    head.classList.add("is-dragged");

    const move = (next) => {
      const now = point(next);
      at = { x: start.x + now.x - grabbed.x, y: start.y + now.y - grabbed.y };
      head.setAttribute("transform", `translate(${at.x - start.x} ${at.y - start.y})`);
      if (beam) beam.setAttribute("d", `M${at.x} ${at.y}L${toX} ${toY}`);
      say(words(placed(at.x, at.y, scale)));
    };
    const end = (last) => {
      svg.removeEventListener("pointermove", move);
      ["pointerup", "pointercancel"].forEach((name) => svg.removeEventListener(name, end));
      head.classList.remove("is-dragged");
      if (last.type === "pointerup" && (at.x !== start.x || at.y !== start.y)) { post(head, placed(at.x, at.y, scale)); return; }
      head.removeAttribute("transform");
      if (beam) beam.setAttribute("d", `M${start.x} ${start.y}L${toX} ${toY}`);
      say("");
    };
    svg.addEventListener("pointermove", move);
    ["pointerup", "pointercancel"].forEach((name) => svg.addEventListener(name, end));
  });

  // Several presses of a key are one move: it is posted when the keys have rested for a moment.
  let waiting = 0;
  let pending = null;
  document.addEventListener("keydown", (event) => {
    const head = event.target.closest && event.target.closest("[data-head]");
    const change = { ArrowLeft: [5, 0], ArrowRight: [-5, 0], ArrowUp: [0, 0.1], ArrowDown: [0, -0.1] }[event.key];
    if (!head || !change) return;
    event.preventDefault();
    const before = pending && pending.head === head ? pending.place : { bearing: Number(head.dataset.bearing), floor: Number(head.dataset.floor) };
    const place = {
      bearing: (before.bearing + change[0] + 360) % 360,
      floor: Math.min(FARTHEST, Math.max(NEAREST, round(before.floor + change[1], 0.05))),
    };
    pending = { head, place };
    say(words(place));
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => { const now = pending; pending = null; post(now.head, now.place); }, 500);
  });

  document.addEventListener("htmx:sendError", () => { if (live()) say("✕"); });
})();
