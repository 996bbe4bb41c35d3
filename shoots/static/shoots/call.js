// The call page: notes are saved as one types, kept in the browser until the server has them, and sent again after a
// broken connection. Without this script the page's Save button does the same by hand.
"use strict";

(() => {
  const form = document.querySelector("form[data-call]");
  if (!form) return;
  const notes = form.elements.notes, caller = form.elements.caller, version = form.elements.version;
  const key = form.elements.key, status = form.querySelector("[data-status]");
  const problem = form.querySelector("[data-problem]"), conflict = form.querySelector("[data-conflict]");
  const restore = form.querySelector("[data-restore]");
  const PREFIX = "call-notes:", PAUSE = 700, LONGEST_PAUSE = 4000, RETRY_FIRST = 2000, RETRY_MOST = 30000;
  const said = (name) => form.dataset[`said${name}`];
  let isNew = !/\/calls\/\d+\/save\//.test(form.action);
  let saved = { notes: notes.value, caller: caller.value }, flying = false, timer = 0, since = 0, retry = RETRY_FIRST, halted = false;

  // One window's own later save is no conflict, even when an answer got lost; a copied tab is another window.
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  form.elements.window.value = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

  const isDirty = () => notes.value !== saved.notes || caller.value !== saved.caller;
  const clock = () => new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  const show = (words) => { status.textContent = words; };
  show(status.dataset.begins);
  const complain = (words, isConflict) => {
    problem.hidden = !words;
    conflict.hidden = !isConflict;
    problem.querySelector("[data-problem-words]").textContent = words || "";
  };
  const keep = () => {
    try {
      if (!isDirty()) localStorage.removeItem(PREFIX + key.value);
      else localStorage.setItem(PREFIX + key.value, JSON.stringify({ notes: notes.value, caller: caller.value, version: version.value, isNew, at: Date.now() }));
    } catch { /* A full or forbidden store costs only the second safety net. */ }
  };
  const isTooLong = () => new TextEncoder().encode(notes.value).length > Number(form.dataset.maxBytes);

  const plan = (wait) => { window.clearTimeout(timer); timer = window.setTimeout(save, wait); };

  async function save() {
    window.clearTimeout(timer);
    since = 0;
    if (flying || halted || !isDirty()) return;
    if (isTooLong()) { complain(said("Long"), false); return; }
    flying = true;
    const sent = { notes: notes.value, caller: caller.value };
    show(said("Saving"));
    try {
      const answer = await fetch(form.action, { method: "POST", body: new FormData(form), headers: { Accept: "application/json" }, redirect: "manual" });
      if (answer.type === "opaqueredirect" || answer.status === 403) return again(said("SignedOut"));
      const told = answer.headers.get("Content-Type")?.includes("json") ? await answer.json() : null;
      if (answer.status === 422 && told) {
        halted = Boolean(told.newer);
        if (told.newer) problem.dataset.newer = told.newer;
        complain(told.error, halted);
        show("");
      } else if (answer.ok && told) {
        saved = sent;
        retry = RETRY_FIRST;
        taken(told);
      } else again(said("Broken"));
    } catch { again(said("Offline")); } finally {
      flying = false;
      keep();
      if (!halted && isDirty() && !timer) plan(PAUSE);
    }
  }

  function again(words) {
    show(words);
    plan(retry);
    retry = Math.min(retry * 2, RETRY_MOST);
  }

  function taken(told) {
    complain("", false);
    version.value = told.version;
    if (isNew) {
      isNew = false;
      form.action = told.save_url;
      history.replaceState(null, "", told.page_url);
    }
    show(`${said("Saved")} ${clock()}`);
    timer = 0;
    // Somebody who edits a draft just now keeps the form; the next pause brings the lines up to date.
    if (document.querySelector("#lines .draft-editing")) return;
    const held = holding();
    for (const [id, html] of [["lines", told.lines], ["asks", told.asks]]) {
      const place = document.getElementById(id);
      place.innerHTML = html;
      window.htmx?.process(place);
    }
    ready();
    held?.()?.focus({ preventScroll: true });
  }

  // Where the focus stands inside the lines, found again once they are drawn anew.
  function holding() {
    const active = document.activeElement, draft = active?.closest?.("#lines [data-draft]");
    if (!draft?.id) return null;
    const letter = active.closest("[data-key]")?.dataset.key;
    return () => {
      const again = document.getElementById(draft.id);
      return (letter && again?.querySelector(`[data-key="${letter}"]`)) || again;
    };
  }

  form.addEventListener("input", () => {
    keep();
    retry = RETRY_FIRST;
    const now = Date.now();
    since ||= now;
    plan(now - since > LONGEST_PAUSE ? 0 : PAUSE);
  });
  form.addEventListener("submit", (event) => { event.preventDefault(); save(); });
  window.addEventListener("online", () => { if (isDirty()) plan(0); });
  document.addEventListener("visibilitychange", () => { if (document.hidden) save(); });
  form.querySelector("[data-conflict-mine]").addEventListener("click", () => {
    version.value = problem.dataset.newer;
    halted = false;
    complain("", false);
    save();
  });

  // Notes that this browser kept because they never arrived.
  function left() {
    const own = localStorage.getItem(PREFIX + key.value);
    if (own) return { name: PREFIX + key.value, ...JSON.parse(own) };
    if (!isNew) return null;
    const name = Object.keys(localStorage).find((other) => other.startsWith(PREFIX) && JSON.parse(localStorage.getItem(other)).isNew);
    return name ? { name, ...JSON.parse(localStorage.getItem(name)) } : null;
  }
  try {
    const found = left();
    if (found && (found.notes !== notes.value || found.caller !== caller.value)) {
      const put = () => {
        if (found.isNew) key.value = found.name.slice(PREFIX.length);
        notes.value = found.notes;
        caller.value = found.caller;
        restore.hidden = true;
        save();
      };
      if (!found.isNew && found.version === version.value) put();
      else {
        restore.hidden = false;
        restore.querySelector("[data-restore-at]").textContent = `(${new Date(found.at).toLocaleString()})`;
        restore.querySelector("[data-restore-take]").addEventListener("click", put);
        restore.querySelector("[data-restore-drop]").addEventListener("click", () => { localStorage.removeItem(found.name); restore.hidden = true; });
      }
    } else if (found) localStorage.removeItem(found.name);
  } catch { /* No store, nothing kept. */ }

  // One key accepts: Ctrl+Enter from the notes, single letters while a draft has the focus.
  const drafts = () => [...document.querySelectorAll("#lines [data-draft]")];
  let wanted = null;
  function ready() { drafts().forEach((draft, n) => draft.setAttribute("tabindex", n ? "-1" : "0")); }
  function nextOf(draft) {
    const all = drafts();
    return all[all.indexOf(draft) + 1] || all[all.indexOf(draft) - 1] || null;
  }
  function press(draft, letter, isFocused) {
    const button = draft.querySelector(`[data-key="${letter}"]`);
    if (!button) return;
    wanted = letter === "e" || !isFocused ? null : nextOf(draft)?.id || null;
    button.click();
  }
  document.addEventListener("keydown", (event) => {
    if (event.target === notes && event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
      const first = drafts()[0];
      if (first) { event.preventDefault(); press(first, "a", false); }
      return;
    }
    const draft = event.target.closest?.("[data-draft]");
    if (!draft || event.target.matches("input, textarea, select") || event.ctrlKey || event.metaKey || event.altKey) return;
    if (["a", "e", "d"].includes(event.key)) { event.preventDefault(); press(draft, event.key, true); return; }
    const all = drafts(), step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step) return;
    event.preventDefault();
    all[Math.max(0, Math.min(all.length - 1, all.indexOf(draft) + step))].focus();
  });
  document.addEventListener("htmx:afterSettle", (event) => {
    ready();
    event.target.querySelector?.(".draft-editing :is(input:not([type=hidden]), select, textarea)")?.focus();
    const next = wanted && document.getElementById(wanted);
    wanted = null;
    if (next) next.focus();
  });
  ready();
})();
