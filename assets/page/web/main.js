// The page: starts the program, opens what the address names, and puts the
// places in their frame.

import { html, render, useEffect, useRef } from "./vendor/preact.js";
import { App, useApp } from "./store.js";
import { talk } from "./save.js";
import { listenKeys } from "./keys.js";
import { measured } from "./size.js";
import { Bar } from "./bar.js";
import { Elevation } from "./elevation.js";
import { Middle } from "./middle.js";
import { Side } from "./side.js";
import { Lifting } from "./lifting.js";
import { Offers } from "./offer.js";
import { Hatches } from "./picture.js";
import { Table, TablePlace } from "./table.js";
import { Setup } from "./setup.js";
import { First } from "./first.js";
import { Print } from "./print.js";
import { Loads } from "./loads.js";
import { Plans } from "./plans.js";
import { Firings } from "./split.js";
import { openFiles, download } from "./bring.js";

const tabs = [["elevation", "Kiln"], ["middle", "Load"], ["side", "Gaps"], ["table", "Table"]];

// Frame is the whole page.
function Frame({ app }) {
  useApp(app, "state", "place", "chosen", "lifted", "clash", "saved", "size");
  const { state } = app;
  const page = app.file.broken ? "broken" : app.down === "fallen" ? "fallen" : !state && app.page !== "loads" ? "first" : app.page;
  return html`<div class="frame" data-ready="" data-page=${page}>
    <${Bar} app=${app} />
    <${Offers} app=${app} />
    ${page === "load" && state ? html`<${Load} app=${app} />`
      : html`<div class="places whole"><main class="place page-place">${whole(app, page)}</main></div>`}
    <${Said} app=${app} />
    <${Hatches} />
  </div>`;
}

function whole(app, page) {
  switch (page) {
    case "broken": return html`<${Broken} app=${app} />`;
    case "fallen": return html`<${Fallen} app=${app} />`;
    case "table": return html`<${TablePlace} app=${app} />`;
    case "setup": return html`<${Setup} app=${app} />`;
    case "print": return html`<${Print} app=${app} />`;
    case "plans": return html`<${Plans} app=${app} />`;
    case "firings": return html`<${Firings} app=${app} />`;
    case "loads": return html`<${Loads} app=${app} />`;
    default: return html`<${First} app=${app} />`;
  }
}

// Load is the room: kiln on the left, the load in the middle, what is true on
// the right, the table in front. Under 900 px they are tabs in this order.
function Load({ app }) {
  const lifted = !!app.lifted;
  const narrow = matchMedia("(max-width: 899px)").matches;
  const at = app.place;
  const off = (place) => (narrow && at !== place && !(lifted && place === "side") ? " off" : ""); // a shelf in hand needs both

  const top = app.view.mode !== "3d";
  return html`
    <main class=${"places" + (lifted ? " with-lifted" + (app.dragging ? " dragging" : "") : "") + (top ? " with-top" : "") + (narrow && at === "table" ? " off" : "")}>
      <section class=${"place" + off("elevation")} id="place-elevation" aria-label="The kiln"><${Elevation} app=${app} /></section>
      ${lifted ? null : html`<section class=${"place" + off("middle")} id="place-middle" aria-label="The load"><${Middle} app=${app} /></section>`}
      <section class=${"place scrolls" + off("side")} id="place-side" aria-label="What is true">${lifted ? html`<${Lifting} app=${app} />` : html`<${Side} app=${app} />`}</section>
    </main>
    <section class=${"table-place" + off("table")} id="place-table" aria-label="The table"><${Table} app=${app} /></section>
    ${narrow && html`<nav class="tabs" aria-label="Places"><div role="tablist" aria-label="Places">${tabs.map(([id, say]) => html`<button type="button" role="tab" key=${id} aria-selected=${at === id} aria-controls=${"place-" + id} onClick=${() => app.go(id)}>${say}</button>`)}</div></nav>`}`;
}

function Said({ app }) {
  useApp(app, "said");
  return html`<div class=${"said" + (app.said ? "" : " hidden")}><p role="status" aria-live="polite">${app.said}</p>${app.said && html`<button type="button" onClick=${() => app.say("")}>Close</button>`}</div>
    <p class="hidden" aria-live="polite" aria-atomic="true">${app.aloud}</p>`;
}

// Broken tells of a file that cannot be read, and lets its text be mended.
function Broken({ app }) {
  const { broken, id } = app.file;
  const text = useRef(null);
  async function keep() {
    const file = app.file, now = text.current.value;
    const tried = app.ask("open", { text: now, name: id ?? "load" });
    if (!tried.ok) { app.file.broken = { ...broken, refusal: tried.refusal, text: now }; return app.changed("saved"); }
    const put = await talk("PUT", "/api/loads/" + encodeURIComponent(id), { base: broken.revision, text: now, what: "mended by hand" });
    if (put.status !== 200) return app.say(put.body.refusal ?? "The file cannot be written.");
    return file.openLoad(id);
  }
  return html`<div class="br"><h2 class="question">This load cannot be read yet</h2>
    <p class="br-says" role="alert">${broken.refusal}</p>
    ${typeof broken.text === "string" && html`<label for="br-text">The file's text. Mend it here, or in your own editor: the page notices.</label><textarea id="br-text" ref=${text} spellcheck=${false} rows="18" value=${broken.text}></textarea>`}
    <p class="br-acts">${id && typeof broken.text === "string" && html`<button type="button" class="main" onClick=${keep}>Read it again</button>`}
      ${typeof broken.text === "string" && html`<button type="button" onClick=${() => download((id ?? "load") + ".toml", broken.text, "application/toml")}>Take the file out</button>`}
      <button type="button" onClick=${() => { app.file.clear(); app.open("loads"); }}>Other loads</button></p></div>`;
}

function Fallen({ app }) {
  return html`<div class="br"><h2 class="question">The page's program stops again and again</h2>
    <p class="br-says" role="alert">Nothing is lost: the file holds every change${app.file.saved.kind === "away" ? ", and this browser keeps what did not reach it" : ""}. Start it once more; if it stops again, take the text out and open an earlier version.</p>
    <p class="br-acts"><button type="button" class="main" onClick=${() => app.again()}>Start it once more</button>
      ${app.file.text && html`<button type="button" onClick=${() => download((app.file.id ?? "load") + ".toml", app.file.text, "application/toml")}>Take the text out</button>`}
      <button type="button" onClick=${() => app.open("loads")}>Other loads</button></p></div>`;
}

// opening opens what the address names, else the only load, else the first run.
async function opening(app) {
  const { status, body } = await talk("GET", "/api/room");
  if (status === 401) return location.assign("/");
  if (status === 200) app.room = body; else app.say(body.refusal ?? "");
  const asked = new URLSearchParams(location.search);
  if (asked.get("load")) await app.file.openLoad(asked.get("load"));
  else if (asked.get("sample")) await app.file.openSample(asked.get("sample"));
  else if (app.room?.open) await app.file.openLoad(app.room.open);
  else if (app.room?.loads?.length) app.page = "loads";
  return undefined;
}

async function main() {
  const app = new App();
  const root = document.getElementById("app");
  measured(app);
  addEventListener("resize", () => { measured(app); app.changed("place"); });
  for (const query of ["(prefers-color-scheme: dark)", "(prefers-reduced-motion: reduce)"]) matchMedia(query).addEventListener("change", () => { app.look(); app.changed("place"); });
  addEventListener("online", () => { if (app.file.saved.kind === "away") app.file.flush(); });
  addEventListener("dragover", (e) => { if (e.dataTransfer?.types.includes("Files")) e.preventDefault(); });
  addEventListener("drop", (e) => { if (!e.defaultPrevented && e.dataTransfer?.files.length) { e.preventDefault(); openFiles(app, e.dataTransfer.files); } });
  addEventListener("beforeunload", (e) => { if (app.file.dirty && app.file.id === null) e.preventDefault(); });
  listenKeys(app);
  try {
    await app.start();
  } catch (e) {
    root.replaceChildren();
    return render(html`<div class="br"><h2 class="question">Threepost cannot start here</h2><p class="br-says" role="alert">${String(e.message ?? e)}. Load the page again; if that does not help, start Threepost anew, or use a browser that runs WebAssembly.</p></div>`, root);
  }
  await opening(app);
  root.replaceChildren();
  return render(html`<${Frame} app=${app} />`, root);
}

main();
