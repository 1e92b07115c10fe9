// The middle place: the load in 3D, a level from above, or both. Labels of the
// 3D picture are HTML over the canvas; where they stand the program says.

import { html, useRef, useEffect, useState } from "./vendor/preact.js";
import { useApp, idThing } from "./store.js";
import { Mark } from "./picture.js";
import { Grade, Icon } from "./symbols.js";
import { TopView } from "./topview.js";
import { setDown, putBack } from "./hand.js";

export function Middle({ app }) {
  useApp(app, "state", "chosen", "place", "size");
  const mode = app.view.mode;
  return html`<div class=${"mi mi-" + mode}>
    ${mode !== "top" && html`<${Scene} key=${"scene" + (app.runs ?? 0)} app=${app} />`}
    ${mode !== "3d" && html`<${TopView} app=${app} />`}
    <${Strip} app=${app} />
    <${Tabs} app=${app} />
  </div>`;
}

// Strip tells the chosen or held pot's least gap where the gaps are another tab.
// Over the top view it keeps its place when nothing is chosen: a picture that
// changed its size under a finger would lose the pot.
function Strip({ app }) {
  useApp(app, "held", "chosen", "place");
  const { held, chosen } = app;
  if (!held && !chosen) return app.view.mode === "3d" ? null : html`<div class="mi-strip"><p class="note">Choose a pot to see its least gap; pull it to move it.</p></div>`;
  const near = (held ?? chosen).nears?.[0];
  const grade = near && near.grade !== "clears" ? near.grade : "ok";
  return html`<div class="mi-strip">${near && html`<${Grade} grade=${grade} />`}<p><b>${held?.title ?? chosen.title}</b> ${held?.sentence || (near ? `${near.word} to ${near.name}` : chosen?.place ?? "")}</p>
    <span class="of-acts">${held ? html`<button type="button" class="act main" onClick=${() => setDown(app)}>${held.mend?.say ?? "Set it down"}</button><button type="button" class="link" onClick=${() => putBack(app)}>Where it was</button>`
      : html`<button type="button" class="link" onClick=${() => app.go("side")}>All gaps</button>`}</span></div>`;
}

// Scene is the 3D picture with its head: what is under the pointer, which
// levels are lifted away, how ware is told apart.
function Scene({ app }) {
  const canvas = useRef(null);
  const [why, setWhy] = useState("");
  useEffect(() => {
    const said = app.bridge.attach(canvas.current, { aa: !/[?&]aa=0/.test(location.search) });
    setWhy(said);
    app.look();
    if (!said) { aim(app); app.ask("labels", {}); }
    return () => app.bridge.detach();
  }, []);
  return html`<div class="sc">
    <${Levels} app=${app} />
    <div class="sc-box"><canvas ref=${canvas} class="sc-canvas" data-view="3d" tabindex="0" role="application" aria-label="The load in 3D. Drag to turn it, pinch or wheel to come nearer, arrows turn it; a chosen pot is dragged. The top view does the same without 3D."></canvas>
      ${!why && html`<${Labels} app=${app} />`}
      ${why && html`<p class="sc-why">${why} Take the <button type="button" class="link" onClick=${() => mode(app, "top")}>top view</button>.</p>`}</div>
    <${Key} app=${app} />
  </div>`;
}

// aim brings the program's camera to what the page shows.
function aim(app) {
  const v = app.view;
  if (v.colour !== "clay") app.ask("colour", { by: v.colour });
  if (v.cut) app.ask("cut", { on: true });
  if (v.above && v.level) app.aim();
  app.ask("view", { preset: v.preset || "orbit" });
}

function Labels({ app }) {
  useApp(app, "labels", "held");
  const list = app.labels ?? [];
  return html`<div class="sc-labels">
    <svg class="sc-marks" aria-hidden="true">${list.map((l, i) => html`<g key=${i} class=${l.class}>${(l.marks ?? []).map((m, k) => Mark(m, k))}</g>`)}</svg>
    ${list.map((l, i) => {
      const style = { left: l.x + "px", top: l.y + "px" };
      const cls = `sc-label ${l.class} ${l.anchor}`;
      const grade = /problem/.test(l.class) ? "problem" : /watch/.test(l.class) ? "watch" : "ok";
      return l.id
        ? html`<button type="button" key=${i} class=${cls} style=${style} aria-label=${l.label} onClick=${() => { const t = idThing(l.id); app.choose(t); if (t?.tower) app.show(t); }}>${l.text}</button>`
        : html`<span key=${i} class=${cls} style=${style}>${/flag/.test(l.class) && html`<${Grade} grade=${grade} quiet=${true} />`}${l.text}</span>`;
    })}</div>`;
}

// Levels steps through the levels: those above the one looked at are lifted away.
function Levels({ app }) {
  useApp(app, "state", "chosen", "place");
  const { view, state } = app;
  const levels = state.sides.flatMap((s) => s.levels).map((i) => state.levels[i]);
  const at = view.above && view.level ? levels.findIndex((l) => l.tower === view.level.tower && l.number === view.level.level) : -1;
  function to(i) {
    const all = i < 0 || i >= levels.length;
    app.view = { ...app.view, above: !all, level: all ? app.view.level : { tower: levels[i].tower, level: levels[i].number } };
    app.aim();
    app.changed("chosen");
  }
  return html`<div class="sc-head">
    <span class="sc-step" role="group" aria-label="Levels that are shown">
      <button type="button" class="icon" aria-label="One level lower: those above are lifted away" onClick=${() => to(at < 0 ? levels.length - 1 : Math.max(0, at - 1))}><${Icon} name="down" /></button>
      <button type="button" class="icon" aria-label="One level higher" aria-disabled=${at < 0 ? "true" : null} onClick=${() => to(at < 0 ? -1 : at + 1)}><${Icon} name="up" /></button>
      <span class="note">${at < 0 ? "all levels" : html`up to <b>${levels[at].name}</b>`}</span></span>
    <${Colour} app=${app} /></div>`;
}

// Hover tells what is under the pointer; without one, how ware is told apart.
function Hover({ app }) {
  useApp(app, "hover", "state");
  const hover = app.hover;
  return html`<p class="sc-hover note">${hover ? html`<b>${hover.title}</b>${hover.size ? ` · ${hover.size}` : ""}${hover.gap_said ? html` · <${Grade} grade=${hover.grade === "clears" ? "ok" : hover.grade} quiet=${true} /> ${hover.gap_said} to ${hover.near}` : ""}` : ""}</p>`;
}

// colours are the ways to tell ware apart.
const colours = [["clay", "quiet clay"], ["owner", "owner"], ["glaze", "glaze"], ["mass", "share of mass"], ["findings", "findings"]];

// patterns draw the hatches of the 3D picture in its key, by number, as scene.Hatch counts them.
const rising = "M0 8L8 0M8 16L16 8M0 16L16 0", falling = "M0 8L8 16M8 0L16 8M0 0L16 16";
const patterns = [null, rising, rising, rising, falling, "M0 4H16M0 12H16", "M4 0V16M12 0V16", rising + falling, "M3 4h2M11 4h2M3 12h2M11 12h2", "M1 4h6M9 12h6"];
const grades = { 1: "watch", 2: "problem" };

function Colour({ app }) {
  const v = app.view;
  function by(e) {
    app.view = { ...app.view, colour: e.target.value };
    app.ask("colour", { by: e.target.value });
    app.changed("chosen");
  }
  return html`<label class="sc-by note">Ware by <select class="quiet" value=${v.colour} onChange=${by}>${colours.map(([id, say]) => html`<option key=${id} value=${id} selected=${v.colour === id}>${say}</option>`)}</select></label>`;
}

function Key({ app }) {
  useApp(app, "state", "chosen", "place");
  const v = app.view;
  const seen = v.colour === "clay" ? null : app.ask("colour", { by: v.colour }).ok;
  return html`<div class="sc-key"><${Hover} app=${app} />${seen?.legend?.length ? html`<ul>${seen.legend.map((k) => html`<li key=${k.said}><svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true"><rect width="16" height="16" fill=${k.colour} />${patterns[k.hatch] && html`<path class=${"weave " + (grades[k.hatch] ?? "")} d=${patterns[k.hatch]} />`}</svg><span>${k.said}</span></li>`)}</ul>` : null}</div>`;
}

function mode(app, to) {
  if (app.held) setDown(app);
  if (!app.view.level) app.view = { ...app.view, level: firstLevel(app.state) };
  app.view = { ...app.view, mode: to };
  app.changed("place", "chosen", "size");
}

// firstLevel is where work begins when no level was chosen: the top of the first side.
export function firstLevel(state) {
  const side = state.sides.find((s) => s.levels.length > 1) ?? state.sides[0];
  const l = side && state.levels[side.levels.at(-1)];
  return l ? { tower: l.tower, level: l.number } : null;
}

function Tabs({ app }) {
  useApp(app, "state", "place", "chosen");
  const v = app.view, spies = app.spies();
  const through = /^spyhole (\d+)/.test(v.preset) ? Number(v.preset.slice(8)) : 0;
  const next = through < spies.length ? through + 1 : 0; // one hole after the other, then back
  const preset = (name) => {
    app.view = { ...app.view, preset: name };
    app.ask("view", { preset: name });
    app.changed("place");
  };
  const tab = (id, say) => html`<button type="button" role="tab" key=${id} aria-selected=${v.mode === id} onClick=${() => mode(app, id)}>${say}</button>`;
  const way = (name, say) => html`<button type="button" class="way" key=${name} aria-pressed=${v.preset === name} onClick=${() => preset(v.preset === name ? "orbit" : name)}>${say}</button>`;
  return html`<div class="mi-tabs"><span role="tablist" aria-label="Views of the load">${tab("3d", "3D")}${tab("top", "Top view")}${tab("both", "Both")}</span>
    <span class="mi-ways" role="group" aria-label=${v.mode === "top" ? "Which way up" : "Where you look from"}>
      ${v.mode === "top" ? html`<button type="button" class="way" aria-pressed=${!v.turned} onClick=${() => { app.view = { ...app.view, turned: false }; app.changed("chosen"); }}>Hinge up</button><button type="button" class="way" aria-pressed=${!!v.turned} onClick=${() => { app.view = { ...app.view, turned: true }; app.changed("chosen"); }}>Hinge down</button>`
        : html`${way("front", "Front")}${way("stand", "As I stand")}${spies.length > 0 && html`<button type="button" class="way" aria-pressed=${through > 0} aria-label=${app.words(`Spyhole${spies.length > 1 ? `: look through hole ${next || 1} of ${spies.length}` : ""}`)} onClick=${() => preset(next ? "spyhole " + next : "orbit")}>${app.words("Spyhole")}${through && spies.length > 1 ? " " + through : ""}</button>`}
          <button type="button" class="way" aria-pressed=${v.cut} onClick=${() => { app.view = { ...app.view, cut: !v.cut }; app.ask("cut", { on: app.view.cut }); app.changed("place"); }}>Cut open</button>`}</span></div>`;
}
