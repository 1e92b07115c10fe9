// Carrying a pot from the plank into the top view or the 3D picture. A short
// press chooses its row; a pull of a few px takes one pot that waits in hand.

import { idThing } from "./store.js";
import { cross } from "./hand.js";

const pull = 6; // px before a press is a pull

// carry follows the pointer from a press on the plank until it is let go.
export function carry(app, e, row, chosen) {
  const target = e.currentTarget;
  const id = e.pointerId, x0 = e.clientX, y0 = e.clientY;
  const touch = e.pointerType === "touch";
  let held = false, view = null, label = null;

  function over(ev) {
    return document.elementsFromPoint(ev.clientX, ev.clientY).map((el) => el.closest("[data-view]")).find(Boolean) ?? null;
  }
  function move(ev) {
    if (ev.pointerId !== id) return;
    const far = Math.abs(ev.clientX - x0) > pull || Math.abs(ev.clientY - y0) > pull;
    if (!held && !far) return;
    // By touch a sideways pull scrolls the plank; upwards lifts the pot.
    if (!held && touch && Math.abs(ev.clientX - x0) > Math.abs(ev.clientY - y0)) return end();
    if (!held && !row?.waits) { end(); return; }
    ev.preventDefault();
    if (!held) {
      held = true;
      target.setPointerCapture?.(id);
      label = document.createElement("div");
      label.className = "tb-carried";
      label.textContent = row.name;
      document.body.append(label);
      app.say("");
    }
    label.style.left = ev.clientX + 12 + "px";
    label.style.top = ev.clientY + 12 + "px";
    const el = over(ev);
    if (!el) return void overLevel(ev);
    const box = el.getBoundingClientRect();
    const at = { x: (ev.clientX - box.left) / (el.dataset.view === "3d" ? 1 : app.scale), y: (ev.clientY - box.top) / (el.dataset.view === "3d" ? 1 : app.scale) };
    if (view !== el.dataset.view) {
      const took = app.ask("hold", { ware: row.name, view: el.dataset.view, ...at });
      if (!took.ok) return void app.say(took.refusal ?? "");
      view = el.dataset.view;
      label.hidden = true;
      app.hold(took.ok);
      // In the top view the pot enters the level that is shown.
      if (view === "top" && app.view.level) app.ask("over", app.view.level);
    }
    if (view === "top") cross(app, ev);
    const now = app.ask("move", at);
    if (now.ok) app.hold(now.ok);
  }
  // overLevel shows the level of the elevation that the pointer is over.
  function overLevel(ev) {
    const mark = document.elementFromPoint(ev.clientX, ev.clientY)?.closest(".el-picture [data-id]");
    const thing = mark && idThing(mark.dataset.id);
    if (!thing?.tower || (app.view.level?.tower === thing.tower && app.view.level?.level === thing.level)) return;
    app.show(thing, { keepView: true });
    const now = view === "top" ? app.ask("over", thing) : {};
    if (now.ok) app.hold(now.ok);
  }
  function up(ev) {
    if (ev.pointerId !== id) return;
    const inside = held && view && over(ev);
    end();
    if (!held) return chosen();
    if (!view) return;
    app.hold(null);
    app.call(inside ? "drop" : "cancel", inside ? { snap: !ev.altKey } : {});
    app.refresh();
  }
  function away(ev) {
    if (ev.type === "keydown" && ev.key !== "Escape") return;
    end();
    if (view) { app.hold(null); app.call("cancel", {}); }
  }
  function end() {
    label?.remove();
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", up);
    removeEventListener("pointercancel", away);
    removeEventListener("keydown", away);
  }
  addEventListener("pointermove", move, { passive: false });
  addEventListener("pointerup", up);
  addEventListener("pointercancel", away);
  addEventListener("keydown", away);
}
