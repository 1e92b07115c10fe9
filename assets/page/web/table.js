// The table: pots that want firing. At the foot of the page as a plank on which
// they stand, or as a whole page of rows with the profile of one beside it.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { useApp, idThing } from "./store.js";
import { useAnswer, useWidth, Field, refusal } from "./fields.js";
import { Picture } from "./picture.js";
import { Rows, NewRow } from "./rows.js";
import { Paste } from "./paste.js";
import { Form } from "./form.js";
import { RoomForOne } from "./oneroom.js";
import { NextLoad } from "./next.js";
import { carry } from "./carry.js";
import { openFiles, download } from "./bring.js";

// counted says how many of a thing there are.
function counted(n, one, many) { return `${n} ${n === 1 ? one : many}`; }

function waiting(state) { return state.ware.reduce((n, r) => n + r.waits, 0); }

// Ways are the two ways to see the table.
function Ways({ app, rows }) {
  return html`<span class="choice" role="group" aria-label="How the table is shown">
    <button type="button" aria-pressed=${!rows} onClick=${() => app.open("load")}>Pots</button>
    <button type="button" aria-pressed=${rows} onClick=${() => app.open("table")}>Rows</button></span>`;
}

// Acts start what the table asks of the kiln; what cannot be asked says why.
function Acts({ app, room, setRoom, kind = "" }) {
  const state = app.state;
  const running = app.plan?.running;
  const none = !waiting(state);
  return html`<button type="button" class=${kind} aria-expanded=${!!room} onClick=${() => setRoom(!room)}>Room for one more</button>
    ${running ? html`<button type="button" class=${kind} onClick=${() => app.plan.stop()}>Stop and keep this</button>`
      : html`<button type="button" class=${kind} aria-disabled=${none || state.empty ? "true" : undefined}
          onClick=${() => none ? app.say("Nothing waits: every pot of the table stands in the kiln.") : state.empty ? app.say("Nothing stands yet. Plan the load first; then what waits can be planned by itself.") : app.plan.start({ waiting: true })}>Plan only what waits</button>`}
    ${!none && !state.empty && html`<${NextLoad} app=${app} kind=${kind} />`}
    ${!none && html`<button type="button" class=${kind} onClick=${() => app.open("firings")}>Split into firings</button>`}`;
}

// Table is the place at the foot: the plank.
export function Table({ app }) {
  useApp(app, "state", "chosen", "plan", "held", "place");
  const [room, setRoom] = useState(false);
  const [pasted, setPasted] = useState(null);
  const state = app.state;
  if (!state) return null;
  const n = waiting(state);
  const line = !state.ware.length ? "nothing yet" : n ? `${counted(n, "pot waits", "pots wait")}, with owner and ticket; drawn to one scale`
    : state.of ? `all ${state.of} stand in the kiln; drawn to one scale` : "no pots yet";
  return html`<section class="tb" aria-label="On the table" onPaste=${(e) => take(e, setPasted)}>
    <header class="tb-head"><h2 class="tb-title">On the table</h2><p class="note">${line}</p>
      <span class="tb-buttons">${state.ware.length > 0 && html`<${Acts} app=${app} room=${room} setRoom=${setRoom} />`}<${Ways} app=${app} rows=${false} /></span></header>
    ${room && html`<${RoomForOne} app=${app} shut=${() => setRoom(false)} />`}
    ${pasted !== null ? html`<${Paste} app=${app} text=${pasted} small=${true} shut=${() => setPasted(null)} />`
      : state.ware.length ? html`<${Plank} app=${app} />`
      : html`<${Bare} app=${app} paste=${setPasted} />`}
  </section>`;
}

// take gives pasted rows to the reading, when they are not meant for a field.
function take(e, paste) {
  if (e.target.closest("input, textarea, select")) return;
  const text = e.clipboardData?.getData("text") ?? "";
  if (!text.trim()) return;
  e.preventDefault();
  paste(text);
}

// Bare is the plank before there is any pot.
function Bare({ app, paste }) {
  return html`<div class="tb-bare"><div><p><b>Put the pots here that want firing.</b></p>
      <p class="note">Type a row, paste rows from a spreadsheet, or drop a list on the page.</p></div>
    <${NewRow} app=${app} paste=${paste} plain=${true} />
    <button type="button" onClick=${() => paste("")}>Paste a list</button></div>`;
}

// Plank is the picture of what waits and of what stands already.
function Plank({ app }) {
  const box = useRef(null);
  const w = useWidth(box);
  const chosen = app.chosen?.thing?.ware ?? "";
  const got = useAnswer(app, w ? "plank" : "", { w: Math.round(w / app.scale), chosen }, [app.state.revision, w, chosen, app.state.words]);
  const picture = got?.ok;
  function thing(e) {
    const id = e.target.closest?.("[data-id]")?.dataset.id;
    const found = idThing(id);
    if (found?.ware) return found.ware;
    const row = found?.pot && app.state.ware.find((r) => r.wait_ids.includes(found.pot));
    return row?.name ?? null;
  }
  function down(e) {
    const ware = thing(e);
    if (!ware || e.button > 0) return;
    const row = app.state.ware.find((r) => r.name === ware);
    carry(app, e, row, () => app.choose({ ware }));
  }
  function key(e) {
    const ware = thing(e);
    if (ware && (e.key === "Enter" || e.key === " ")) { e.preventDefault(); app.choose({ ware }); }
  }
  return html`<div class="tb-plank" ref=${box} onPointerDown=${down} onKeyDown=${key}>
    ${picture && html`<${Picture} picture=${picture} label="Pots on the table, to one scale" focusable=${["ware", "pot"]} />`}
    ${got?.refusal && html`<p class="note">${got.refusal}</p>`}</div>`;
}

// TablePlace is the whole page of rows, with the profile of the chosen one.
export function TablePlace({ app }) {
  useApp(app, "state", "chosen", "plan", "place");
  const [find, setFind] = useState("");
  const [pasted, setPasted] = useState(app.pasted ?? null);
  const [room, setRoom] = useState(false);
  const file = useRef(null);
  const state = app.state;
  useEffect(() => { app.pasted = null; }, []);
  const found = useAnswer(app, find.trim() ? "find" : "", { text: find }, [find, state?.revision]);
  if (!state) return null;
  const ware = app.chosen?.kind === "ware" ? app.chosen.thing.ware : state.pots.find((p) => p.id === app.chosen?.thing?.pot)?.ware;
  const row = state.ware.find((r) => r.name === ware);
  const n = waiting(state);
  const says = `${counted(state.ware.length, "row", "rows")}, ${counted(state.of, "pot", "pots")}: ${state.set} set, ${n} ${n === 1 ? "waits" : "wait"}`;
  return html`<div class="tb-place" onPaste=${(e) => take(e, setPasted)} onDragOver=${(e) => e.preventDefault()}
    onDrop=${(e) => { e.preventDefault(); openFiles(app, e.dataTransfer.files, setPasted); }}>
    <section class="tb-list" aria-label="On the table">
      <header class="tb-top"><div class="tb-name"><h2>On the table</h2><p class="note">${says}</p><p class="tb-links"><${Acts} app=${app} room=${room} setRoom=${setRoom} kind="link" /></p></div>
        <input class="tb-find" type="search" aria-label="Find a pot, glaze, owner or ticket" placeholder="Find a pot, glaze or owner" value=${find}
          onInput=${(e) => setFind(e.target.value)} onKeyDown=${(e) => { if (e.key === "Escape") setFind(""); if (e.key === "Enter" && found?.ok?.ware?.length) app.choose({ ware: found.ok.ware[0] }); }} />
        <span class="tb-buttons">
          <button type="button" onClick=${() => setPasted("")}>Paste rows</button>
          <button type="button" onClick=${() => file.current.click()}>Import</button>
          <input class="hidden" tabindex="-1" aria-hidden="true" type="file" accept=".csv,.tsv,.txt,.toml,text/csv,text/plain" ref=${file} onChange=${(e) => { openFiles(app, e.target.files, setPasted); e.target.value = ""; }} />
          <button type="button" onClick=${() => out(app)}>Export CSV</button><${Ways} app=${app} rows=${true} /></span></header>
      ${find.trim() && found?.ok && html`<p class="tb-found note" role="status">${found.ok.says || "Nothing on the table is like that."}</p>`}
      ${room && html`<${RoomForOne} app=${app} shut=${() => setRoom(false)} />`}
      ${pasted !== null && html`<${Paste} app=${app} text=${pasted} shut=${() => setPasted(null)} />`}
      <${Rows} app=${app} shown=${find.trim() ? found?.ok?.ware ?? null : null} paste=${setPasted} />
    </section>
    <aside class="tb-aside" aria-label="Profile">${row ? html`<${Form} key=${row.name} app=${app} ware=${row.name} />`
      : html`<div class="tb-noform"><h2>Profile</h2><p class="note">Choose a row to see its profile from the side and to change it point by point.</p></div>`}</aside>
  </div>`;
}

// out gives the rows as a CSV file.
function out(app) {
  const csv = app.call("csv", {});
  if (csv) download(`${app.state.title || "ware"}.csv`, csv.text, "text/csv");
}
