// The left place: the kiln cut through, as ruler. A level is gone to with a
// click, a shelf is dragged along its stops, posts that are left stand below.

import { html, useRef, useState } from "./vendor/preact.js";
import { useApp, idThing } from "./store.js";
import { Picture } from "./picture.js";
import { useSize, usePicture } from "./size.js";
import { Weights } from "./weights.js";
import { useRoving } from "./roving.js";
import { lift, stop, put, unlift } from "./lifting.js";

const startPull = 4; // px before a press is a pull
const roomForInches = 640; // px: make-ups in fractions take the kiln's room below this

export function Elevation({ app }) {
  useApp(app, "state", "chosen", "lifted", "size", "ghost", "place");
  const [asked, ask] = useState(null); // which list of choices is open
  const state = app.state;
  if (!state) return null;
  const top = app.view.mode !== "3d" && !app.lifted;
  return html`<div class="el">
    <${Drawing} app=${app} />
    ${asked ? html`<${Choices} app=${app} method=${asked} shut=${() => ask(null)} />`
      : app.lifted ? null
      : top ? html`<${Weights} app=${app} at=${app.view.level} />` : html`<${Box} app=${app} />`}
    <div class="el-foot">${app.lifted
      ? html`<p class="note">Drag the bar: it stops only where posts can be made. <kbd>↑</kbd> <kbd>↓</kbd> next height, <kbd>Enter</kbd> put it there, <kbd>Esc</kbd> as before.</p>`
      : html`<p>${state.lid ? html`<b>${state.lid.said.replace(/ to lid$/, " to the lid")}</b>` : "Nothing stands yet"} <span class="quiet">· ${state.mass_said}</span></p>
        <span class="el-links"><button type="button" class="link" aria-expanded=${asked === "addshelf"} onClick=${() => ask(asked === "addshelf" ? null : "addshelf")}>${app.words("Add a shelf")}</button>
        <button type="button" class="link" aria-expanded=${asked === "sides"} onClick=${() => ask(asked === "sides" ? null : "sides")}>Sides</button></span>`}</div>
  </div>`;
}

// Drawing is the elevation itself with what the pointer and the keys do in it.
function Drawing({ app }) {
  useApp(app, "state", "chosen", "lifted", "size", "held");
  const box = useRef(null);
  const press = useRef(null);
  const { w, h } = useSize(app, box);
  const state = app.state, level = app.view.level;
  const plain = usePicture(app, "elevation", w > 40 && h > 40 ? { w, h, compact: state.units === "in" && w < roomForInches, ...(level ?? {}) } : null,
    [state.revision, w, h, level?.tower, level?.level, app.chosen?.id, !!app.lifted]);
  // A shelf in hand is drawn anew where the place has another size.
  const lifted = app.lifted;
  const sized = useRef("");
  const size = `${w}x${h}`;
  if (lifted && sized.current !== size && plain) {
    sized.current = size;
    const again = app.ask("stop", { index: lifted.at });
    if (again.ok) app.lifted = again.ok;
  }
  if (!lifted) sized.current = "";
  const picture = app.lifted?.elevation ?? plain;
  useRoving(box, "[data-id].label, [data-id].handle, [data-id].stop", [picture]);

  function down(e) {
    if (e.button !== 0) return;
    const el = e.target.closest("[data-id]");
    const id = el?.dataset.id ?? "";
    press.current = null;
    if (!/^(handle|shelf):/.test(id)) return;
    press.current = { id: e.pointerId, y: e.clientY, thing: idThing(id), pulled: false };
    box.current.setPointerCapture(e.pointerId);
  }
  function move(e) {
    const p = press.current;
    if (!p || p.id !== e.pointerId) return;
    const by = e.clientY - p.y;
    if (!p.pulled) {
      if (Math.abs(by) < startPull) return;
      p.pulled = true;
      app.dragging = true;
      if (!lift(app, p.thing)) { press.current = null; app.dragging = false; return; }
    }
    stop(app, { by: by / app.scale });
  }
  function up(e) {
    const p = press.current;
    if (!p || p.id !== e.pointerId) return;
    press.current = null;
    if (!p.pulled) return;
    app.dragging = false;
    app.dragged = performance.now();
    if (e.type === "pointercancel") unlift(app); else put(app);
  }
  function click(e) {
    if (performance.now() - (app.dragged ?? -1e9) < 300) return;
    const el = e.target.closest("[data-id]");
    if (!el) return;
    const id = el.dataset.id;
    if (app.lifted) {
      if (id.startsWith("stop:")) stop(app, { index: Number(id.slice(5)) });
      return;
    }
    pickMark(app, id);
  }
  function key(e) {
    if (e.key !== "Enter" && e.key !== " ") return;
    const id = e.target.closest?.("[data-id]")?.dataset.id;
    if (!id) return;
    e.preventDefault();
    e.stopPropagation();
    if (id.startsWith("handle:") && !app.lifted) lift(app, idThing(id));
    else if (id.startsWith("handle:")) put(app);
    else if (id.startsWith("stop:")) stop(app, { index: Number(id.slice(5)) });
    else pickMark(app, id);
  }
  const reach = (mark) => /\b(label|handle|stop)\b/.test(mark.class ?? "") && mark.id;
  return html`<div class="el-picture" data-drop="elevation" ref=${box} onPointerDown=${down} onPointerMove=${move} onPointerUp=${up} onPointerCancel=${up} onClick=${click} onKeyDown=${key}>
    ${picture && html`<${Picture} picture=${picture} focusable=${reach} label=${app.words("The kiln cut through, from the front. Levels can be chosen, the bar raises or lowers a shelf.")} />`}
    ${!picture && state.refused && html`<p class="el-refused">${state.refused}</p>`}</div>`;
}

// pickMark chooses what a mark stands for.
export function pickMark(app, id) {
  const thing = idThing(id);
  if (!thing) return;
  if (thing.pot && app.swapping) return app.swapWith(thing.pot);
  app.choose(thing);
  if (thing.tower) app.show(thing);
}

// Box is the box of posts: what the load leaves.
function Box({ app }) {
  const ref = useRef(null);
  const { w } = useSize(app, ref);
  const picture = usePicture(app, "box", w > 40 ? { w } : null, [app.state.revision, w]);
  return html`<section class="el-box" aria-label=${app.words("In the box of posts")}><p><b>${app.words("In the box of posts")}</b> <span class="note">what this plan leaves; a dragged ${app.word("shelf")} may use it</span></p>
    <div ref=${ref}>${picture && html`<${Picture} picture=${picture} />`}</div></section>`;
}

// Choices are shelves or sides that can be added or taken out.
function Choices({ app, method, shut }) {
  const got = usePicture(app, method, {}, [app.state.revision, method]);
  const title = method === "sides" ? "Sides of the kiln" : app.words("Shelves that can come or go");
  return html`<section class="el-choices" aria-label=${title}><p><b>${title}</b></p>
    ${got?.choices.length ? html`<ul>${got.choices.map((c) => html`<li key=${c.say}><button type="button" class="act" ...${app.ghostly(c.edits)}
      onClick=${() => { if (app.apply(c.edits, c.say)) shut(); }}>${c.say}</button></li>`)}</ul>`
      : html`<p class="note">${app.words(method === "sides" ? "No other division of the kiln can be made of the shelves you own." : "No shelf can be added: what you own is in the kiln, or no posts are left for it.")}</p>`}
    <button type="button" class="link" onClick=${shut}>${app.words("Back to the posts")}</button></section>`;
}
