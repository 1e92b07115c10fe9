// The flat view of a level, in which everything can be done: a pot is pressed
// and dragged, or taken by Enter and moved by arrows. What is drawn over it
// while it is held comes from the program.

import { html, useRef, useEffect, useLayoutEffect } from "./vendor/preact.js";
import { useApp, idThing } from "./store.js";
import { Picture } from "./picture.js";
import { useSize, usePicture } from "./size.js";
import { useRoving } from "./roving.js";
import { pickMark } from "./elevation.js";
import { take, cross, setDown, putBack } from "./hand.js";

const startPull = 4, startPullTouch = 8; // px before a press is a pull

const isPot = (id) => /^(pot|cones):/.test(id ?? "");

export function TopView({ app }) {
  useApp(app, "state", "chosen", "held", "ghost", "size");
  const box = useRef(null), press = useRef(null), svg = useRef(null);
  const { w, h } = useSize(app, box);
  const state = app.state, held = app.held, view = app.view;
  const level = held && held.level >= 0 && held.view !== "3d" ? { tower: held.tower, level: held.number } : view.level;
  const picture = usePicture(app, "top", w > 40 && h > 40 && level ? { w, h, ...level, turned: !!view.turned } : null,
    [state.revision, w, h, level?.tower, level?.level, view.turned, app.chosen?.id, held?.pot, app.chosen?.pots?.length]);
  useEffect(() => { if (app.held) app.ask("nudge", { dx: 0, dy: 0, turn: 0 }); }, [picture]);
  const order = (id) => state.pots.find((p) => p.id === idThing(id)?.pot)?.order || 999;
  useRoving(box, "g.pot[data-id], g.post[data-id], g.place[data-id]", [picture, !!held], {
    sorted: (a, b) => (isPot(a.dataset.id) ? 0 : 1) - (isPot(b.dataset.id) ? 0 : 1) || Number(a.classList.contains("other")) - Number(b.classList.contains("other")) || order(a.dataset.id) - order(b.dataset.id),
    free: () => !app.held && !app.pointed, // a pot that was pointed at is moved by arrows at once
    onmove: (id) => { app.focusPot = true; if (isPot(id)) app.choose(idThing(id)); },
  });
  useLayoutEffect(() => { // a redrawn picture gives the keyboard back to the pot that had it
    const id = box.current?.dataset.at;
    if (!id || !app.focusPot || document.activeElement !== document.body) return;
    box.current.querySelector(`g[data-id="${CSS.escape(id)}"]`)?.focus({ preventScroll: true });
  });

  const place = (e) => {
    const r = svg.current.getBoundingClientRect();
    return { x: (e.clientX - r.left) / app.scale, y: (e.clientY - r.top) / app.scale };
  };
  function down(e) {
    if (e.button !== 0 || press.current) return;
    const id = e.target.closest("[data-id]")?.dataset.id;
    if (app.held && !isPot(id)) return setDown(app);
    if (!isPot(id)) return;
    if (app.held) setDown(app);
    press.current = { id: e.pointerId, mark: id, x: e.clientX, y: e.clientY, at: place(e), far: e.pointerType === "touch" ? startPullTouch : startPull, pulled: false };
    box.current.setPointerCapture(e.pointerId);
  }
  function move(e) {
    const p = press.current;
    if (!p || p.id !== e.pointerId) return;
    if (!p.pulled) {
      if (Math.abs(e.clientX - p.x) < p.far && Math.abs(e.clientY - p.y) < p.far) return;
      p.pulled = true;
      const pot = idThing(p.mark).pot;
      if (app.chosen?.id !== pot) app.choose({ pot });
      if (!take(app, { pot, view: "top", ...p.at })) { press.current = null; return; }
      app.pulling = true;
    }
    const over = document.elementFromPoint(e.clientX, e.clientY);
    p.table = !!over?.closest(".table-place");
    const other = over?.closest(".el-picture [data-id]");
    const thing = other && idThing(other.dataset.id);
    if (thing?.tower) {
      if (thing.tower !== app.held?.tower || thing.level !== app.held?.number) {
        const now = app.ask("over", thing);
        if (now.ok) {
          app.show(thing, { keepView: true });
          const back = app.ask("move", p.at); // the way here led off the shelf
          app.hold(back.ok ?? now.ok);
        }
      }
      return;
    }
    cross(app, e);
    const now = app.ask("move", place(e));
    if (now.ok) app.hold(now.ok);
  }
  function up(e) {
    const p = press.current;
    if (!p || p.id !== e.pointerId) return;
    press.current = null;
    app.pulling = false;
    app.pointed = true;
    if (!p.pulled) return pickMark(app, p.mark);
    app.dragged = performance.now();
    if (e.type === "pointercancel") return putBack(app);
    if (!p.table) return setDown(app, !e.altKey);
    const pot = app.held?.pot;
    putBack(app);
    if (pot) app.apply([{ act: "withdraw", pot }], "back to the table");
  }
  function click(e) {
    if (performance.now() - (app.dragged ?? -1e9) < 300) return;
    const id = e.target.closest("[data-id]")?.dataset.id;
    if (id && !isPot(id)) pickMark(app, id);
  }
  function key(e) {
    const id = e.target.closest?.("[data-id]")?.dataset.id;
    if (!id || (e.key !== "Enter" && e.key !== " ")) return;
    e.preventDefault();
    e.stopPropagation();
    box.current.dataset.at = id;
    if (app.held) { app.focusPot = true; setDown(app); return; }
    if (!isPot(id) || app.swapping) return pickMark(app, id);
    const pot = idThing(id).pot;
    if (app.chosen?.id !== pot) app.choose({ pot });
    app.focusPot = true;
    take(app, { pot, view: "keys" });
  }
  const marks = held && held.view !== "3d" ? held.marks ?? [] : null;
  const id = held && `${state.pots.find((p) => p.id === held.pot)?.cones ? "cones" : "pot"}:${held.pot}`;
  const drawn = marks?.some((m) => m.class === "pot held");
  const moved = held && !drawn && (held.dx || held.dy) ? { id, dx: held.dx, dy: held.dy } : null;
  const ghost = !held && app.ghost ? app.ghost.marks ?? null : null;
  return html`<div class="tv" data-view="top" ref=${box} onPointerDown=${down} onPointerMove=${move} onPointerUp=${up} onPointerCancel=${up} onClick=${click} onKeyDown=${key}>
    ${picture ? html`<${Picture} picture=${picture} svg=${svg} over=${marks ?? ghost ?? undefined} moved=${moved} hide=${drawn ? id : undefined}
      focusable=${(m) => !!m.id && m.kind === "group"} label=${`${state.levels.find((l) => l.tower === level?.tower && l.number === level?.level)?.title ?? "Level"} from above. Arrows go from pot to pot, Enter takes one in hand.`} />`
      : html`<p class="note tv-none">${state.refused || (state.empty ? "Nothing stands in the kiln yet." : "")}</p>`}</div>`;
}
