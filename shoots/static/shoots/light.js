// Lights and panels on the drawings: dragged by their letter or number with mouse or finger, or moved with the arrow
// keys. On the plan left and right go round the subject, up and down farther and nearer; in the side view up and down are
// the height. What is let go is posted as the same numbers that can be typed, and the server draws the page's live part again.
"use strict";

(() => {
  const NEAREST = 0.2, FARTHEST = 60, HIGHEST = 15;
  // A panel may lie straight overhead; a light may not stand in the subject.
  const nearest = (head) => Number(head.dataset.nearest || NEAREST);
  const round = (value, step) => Math.round(value / step) * step;
  const within = (value, low, high) => Math.min(high, Math.max(low, value));
  // 2, 2.05, but 90 stays 90: only zeros behind a point go.
  const text = (value, digits) => String(Number(value.toFixed(digits)));
  const say = (words) => document.querySelectorAll("[data-plan-say]").forEach((line) => { line.textContent = words; });

  // From above: the subject is the origin and the camera stands below, so that its left is on the left.
  const above = {
    at: (x, y, scale, head) => ({
      bearing_deg: (round((Math.atan2(-x, y) * 180) / Math.PI, 1) + 360) % 360,
      distance_m: within(round(Math.hypot(x, y) / scale, 0.05), nearest(head), FARTHEST),
    }),
    now: (head) => ({ bearing_deg: Number(head.dataset.bearing), distance_m: Number(head.dataset.floor) }),
    key: (name, was, head) => {
      const [turn, away] = { ArrowLeft: [5, 0], ArrowRight: [-5, 0], ArrowUp: [0, 0.1], ArrowDown: [0, -0.1] }[name];
      return {
        bearing_deg: (was.bearing_deg + turn + 360) % 360,
        distance_m: within(round(was.distance_m + away, 0.05), nearest(head), FARTHEST),
      };
    },
    follows: (x, y) => [x, y],
    words: (place) => {
      const turn = place.bearing_deg > 180 ? place.bearing_deg - 360 : place.bearing_deg;
      return `${text(place.distance_m, 2)} m · ${Math.abs(turn)}°${turn > 0 ? " ←" : turn < 0 ? " →" : ""}`;
    },
    fields: (place) => ({ distance_m: text(place.distance_m, 2), bearing_deg: text(place.bearing_deg, 0) }),
  };

  // From the side: the floor is y = 0 and up is minus; only the height changes.
  const beside = {
    at: (_x, y, scale) => ({ height_m: within(round(-y / scale, 0.05), 0, HIGHEST) }),
    now: (head) => ({ height_m: Number(head.dataset.height) }),
    key: (name, was) => {
      const up = { ArrowUp: 0.1, ArrowDown: -0.1 }[name];
      return up === undefined ? null : { height_m: within(round(was.height_m + up, 0.05), 0, HIGHEST) };
    },
    follows: (_x, y, start) => [start.x, Math.min(0, y)],
    words: (place) => `↕ ${text(place.height_m, 2)} m`,
    fields: (place) => ({ height_m: text(place.height_m, 2) }),
  };
  const view = (head) => (head.closest("[data-side]") ? beside : above);

  const post = (head, place) => {
    const form = document.querySelector(`#${head.dataset.head} .place-form form`);
    const values = {
      csrfmiddlewaretoken: form.querySelector("[name='csrfmiddlewaretoken']").value,
      version: head.dataset.version,
      ...view(head).fields(place),
    };
    const url = form.getAttribute("action").split("#")[0];
    const id = head.id;
    window.htmx.ajax("POST", url, { target: "#live", swap: "outerHTML", values }).then(() => {
      const again = document.getElementById(id);
      if (again) again.focus();
    });
  };

  document.addEventListener("pointerdown", (event) => {
    const head = event.target.closest("[data-head]");
    if (!head || event.button !== 0) return;
    const svg = head.closest("svg");
    const how = view(head);
    const scale = Number(svg.dataset.scale);
    const beam = svg.querySelector(`[data-beam="${head.dataset.head}"]`);
    // The outline of a panel goes with its number.
    const outline = svg.querySelector(`[data-outline="${head.dataset.head}"]`);
    const shift = (part, x, y) => { if (part) part.setAttribute("transform", `translate(${x - start.x} ${y - start.y})`); };
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
      const [x, y] = how.follows(start.x + now.x - grabbed.x, start.y + now.y - grabbed.y, start);
      at = { x, y };
      shift(head, x, y);
      shift(outline, x, y);
      if (beam) beam.setAttribute("d", `M${x} ${y}L${toX} ${toY}`);
      say(how.words(how.at(x, y, scale, head)));
    };
    const end = (last) => {
      svg.removeEventListener("pointermove", move);
      ["pointerup", "pointercancel"].forEach((name) => svg.removeEventListener(name, end));
      head.classList.remove("is-dragged");
      if (last.type === "pointerup" && (at.x !== start.x || at.y !== start.y)) { post(head, how.at(at.x, at.y, scale, head)); return; }
      [head, outline].forEach((part) => { if (part) part.removeAttribute("transform"); });
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
    if (!head || !/^Arrow(Left|Right|Up|Down)$/.test(event.key)) return;
    event.preventDefault();
    const how = view(head);
    const place = how.key(event.key, pending && pending.head === head ? pending.place : how.now(head), head);
    if (!place) return;
    if (pending && pending.head !== head) post(pending.head, pending.place);
    pending = { head, place };
    say(how.words(place));
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => { const now = pending; pending = null; post(now.head, now.place); }, 500);
  });

  document.addEventListener("htmx:sendError", () => { if (document.getElementById("live")) say("✕"); });
})();
