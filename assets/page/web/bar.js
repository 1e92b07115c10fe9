// The bar: whose load this is, whether it is saved, planning, and the acts
// that are always at hand.

import { html, useState } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Icon } from "./symbols.js";

export function Bar({ app }) {
  useApp(app, "state", "saved", "plan", "held", "lifted", "place");
  const [open, setOpen] = useState(false); // what is folded away on a phone
  const state = app.state, file = app.file;
  const plans = app.page === "plans" && file.saved.kind === "saved" ? state?.ways?.plans : 0;
  const saved = app.held || app.lifted ? "not saved while you drag" : plans ? `${plans} ${plans === 1 ? "plan" : "plans"} from one run, seed ${app.plan.seed}` : file.saved.says;
  const bad = ["away", "refused", "clash"].includes(file.saved.kind);
  return html`<header class="bar">
    <button type="button" class="home" onClick=${() => app.open(app.page === "loads" && state ? "load" : "loads")} aria-label="Threepost: your loads"><${Icon} name="mark" /><span class="name">Threepost</span></button>
    <div class="about"><h1>${state?.title || file.title || (app.page === "loads" ? "No load open" : "New load")}</h1>
      <span class="line">${state && html`<button type="button" class="firing" onClick=${() => app.open(app.page === "setup" ? "load" : "setup")} aria-label=${`${state.kiln}, ${state.firing}: kiln, furniture and firing`}>${[state.kiln, state.firing].filter(Boolean).join(", ")}</button>`}
      ${saved && html`<span class=${"note saved" + (bad ? " unsaved" : "")} role="status">${state ? "· " : ""}${saved}</span>`}</span></div>
    ${state && !state.empty && !app.plan.running && html`<span class="count"><b>${state.set}</b> of ${state.of} set</span>`}
    ${state && html`<${Plan} app=${app} />`}
    <span class="pair"><button type="button" class="icon" aria-label=${state?.undo ? "Undo: " + state.undo : "Undo: nothing to take back"} title=${state?.undo || null} aria-disabled=${state?.undo ? null : "true"} onClick=${() => app.undo()}><${Icon} name="undo" /></button>
      <button type="button" class="icon" aria-label=${state?.redo ? "Redo: " + state.redo : "Redo: nothing was taken back"} title=${state?.redo || null} aria-disabled=${state?.redo ? null : "true"} onClick=${() => app.redo()}><${Icon} name="redo" /></button></span>
    <button type="button" class="icon more" aria-expanded=${open} aria-label="More: units, words, light and dark, print" onClick=${() => setOpen(!open)}><${Icon} name="more" /></button>
    <span class=${"rest" + (open ? "" : " shut")}>
      <span class="choice" role="group" aria-label="Units">${["mm", "in"].map((u) => html`<button type="button" key=${u} aria-pressed=${(state?.units ?? "mm") === u} onClick=${() => state && u !== state.units && app.call("units", { units: u })}>${u}</button>`)}</span>
      <button type="button" class="icon" aria-label=${app.dark() ? "Dark now: change to light" : "Light now: change to dark"} onClick=${() => app.setTheme(app.dark() ? "light" : "dark")}><${Icon} name="light" /></button>
      <button type="button" class="print" aria-disabled=${state && !state.empty ? null : "true"} onClick=${() => (state && !state.empty ? app.open(app.page === "print" ? "load" : "print") : app.say("Nothing stands yet. Plan the load first, then print its sheet."))}><${Icon} name="sheet" /><span class="name">Print the sheet</span></button>
    </span></header>`;
}

function Plan({ app }) {
  const r = app.plan.running, state = app.state;
  if (r) {
    return html`<span class="planning"><progress max="1" value=${r.share} aria-label="Planning"></progress><span role="status"><b>Planning</b> <span class="quiet">${r.set} of ${r.of} set so far</span></span>
      <button type="button" onClick=${() => app.plan.stop()}>Stop and keep this</button></span>`;
  }
  const none = !state.of;
  const again = app.page === "plans";
  return html`<button type="button" class=${again ? "plan" : "main plan"} aria-disabled=${none ? "true" : null} onClick=${() => (none ? app.say("No pots are on the table yet. Type a row first, for example 12 mugs 100 x 85.") : app.plan.start())}>${again ? "Plan again" : "Plan the load"}</button>`;
}
