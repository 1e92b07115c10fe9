// Keys that hold on the whole page. Typing in a field is never taken, and what
// a picture or the canvas has used does not come here.

import { nudge, setDown, putBack } from "./hand.js";
import { step, put, unlift } from "./lifting.js";

const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const typing = (el) => !!el?.closest?.("input, textarea, select, [contenteditable]");

export function listenKeys(app) {
  // A ring for who uses keys; a pointer has shown where it is.
  const root = document.documentElement;
  addEventListener("keydown", (e) => { if (!["Shift", "Control", "Meta", "Alt"].includes(e.key)) root.dataset.input = "keys"; if (e.key === "Tab") app.pointed = app.focusPot = false; }, true);
  addEventListener("pointerdown", () => { root.dataset.input = "pointer"; app.focusPot = false; }, true);
  addEventListener("keydown", (e) => {
    if (e.defaultPrevented || typing(e.target)) return;
    const command = e.ctrlKey || e.metaKey;
    if (command && !e.altKey && e.key.toLowerCase() === "z") {
      e.preventDefault();
      return e.shiftKey ? app.redo() : app.undo();
    }
    if (command && !e.altKey && e.key.toLowerCase() === "y") { e.preventDefault(); return app.redo(); }
    if (command && !e.altKey && e.key.toLowerCase() === "p" && app.state && app.page === "load") { e.preventDefault(); return app.open("print"); }
    if (!command && e.altKey && e.key === "Enter" && app.held) { e.preventDefault(); return setDown(app, false); }
    if (!command && !e.altKey && e.key === "Escape" && (app.page === "plans" || app.page === "firings")) { e.preventDefault(); return app.open("load"); }
    if (command || e.altKey || app.page !== "load" || !app.state) return undefined;
    const done = app.lifted ? lifted(app, e) : app.held || !e.target.closest?.("button, a, [role=tab], [role=radio]") ? pot(app, e) : e.key === "Escape" && away(app);
    if (done) e.preventDefault();
    return undefined;
  });
}

function lifted(app, e) {
  switch (e.key) {
    case "ArrowUp": step(app, -1); return follow();
    case "ArrowDown": step(app, 1); return follow();
    case "Enter": if (e.target.closest?.("button:not([role=radio])")) return false; put(app); return true;
    case "Escape": unlift(app); return true;
  }
  return false;
}

// follow keeps the focus on the stop that was gone to.
function follow() {
  requestAnimationFrame(() => { if (document.activeElement?.getAttribute("role") === "radio") document.querySelector(".li-stop[aria-checked=true]")?.focus(); });
  return true;
}

function pot(app, e) {
  const chosen = app.held || app.chosen?.kind === "pot" || app.chosen?.kind === "cones";
  if (e.key === "Escape") {
    if (app.held) putBack(app); else away(app);
    return true;
  }
  if (!chosen) return false;
  if (app.held && (e.key === "Enter" || e.key === " ")) {
    if (e.target.closest?.("button, a")) return false;
    setDown(app);
    return true;
  }
  const way = arrows[e.key];
  if (way && e.target.closest?.("[role=tablist], .el-picture")) return false;
  if (way) {
    const far = e.shiftKey ? 5 : 1, turned = app.view.turned && app.view.mode !== "3d" ? -1 : 1;
    return nudge(app, { dx: way[0] * far * turned, dy: way[1] * far * turned, turn: 0 });
  }
  if (e.key === "[" || e.key === "{") return nudge(app, { dx: 0, dy: 0, turn: e.key === "{" ? -1 : -5 });
  if (e.key === "]" || e.key === "}") return nudge(app, { dx: 0, dy: 0, turn: e.key === "}" ? 1 : 5 });
  if ((e.key === "Delete" || e.key === "Backspace") && !app.held && app.chosen.kind === "pot" && app.chosen.level >= 0) {
    app.apply([{ act: "withdraw", pot: app.chosen.id }], "back to the table");
    return true;
  }
  return false;
}

function away(app) {
  if (app.swapping) { app.swapping = null; app.changed("chosen"); return true; }
  if (!app.chosen) return false;
  app.choose({});
  return true;
}
