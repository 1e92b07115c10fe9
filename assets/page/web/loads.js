// Loads: the files of the folder, their earlier versions, samples, and the way
// to the kiln. Nothing here overwrites anything.

import { html, useState, useEffect, useRef } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { talk } from "./save.js";
import { download, openFiles } from "./bring.js";

// day says when in the person's own way of writing dates.
function day(when) {
  const d = new Date(when);
  return Number.isNaN(d.getTime()) ? String(when ?? "") : d.toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

export function Loads({ app }) {
  useApp(app, "state", "saved", "place");
  const [room, setRoom] = useState(app.room);
  const [said, setSaid] = useState("");
  const [versions, setVersions] = useState(null); // {id, list}
  const file = useRef(null);
  async function read() {
    const { status, body } = await talk("GET", "/api/room");
    if (status === 200) { app.room = body; setRoom(body); setSaid(""); } else setSaid(body.refusal ?? "The folder cannot be read.");
  }
  useEffect(() => { read(); }, [app.file.id, app.file.revision]);
  const opened = async (done) => { if (await done) app.open("load"); };
  async function copy(id) {
    const { status, body } = await talk("GET", "/api/loads/" + encodeURIComponent(id));
    if (status !== 200) return app.say(body.refusal ?? "The load cannot be read.");
    const made = await talk("POST", "/api/loads", { title: `${body.title ?? id} copy`, text: body.text });
    if (made.status !== 200) return app.say(made.body.refusal ?? "The copy cannot be written.");
    app.say(`A copy stands in the folder as ${made.body.id}.toml.`);
    read();
  }
  async function save(id) {
    const { status, body } = await talk("GET", "/api/loads/" + encodeURIComponent(id));
    if (typeof body.text === "string") download(id + ".toml", body.text, "application/toml");
    else app.say(body.refusal ?? "The load cannot be read.");
  }
  async function earlier(id) {
    if (versions?.id === id) return setVersions(null);
    const { status, body } = await talk("GET", `/api/loads/${encodeURIComponent(id)}/versions`);
    if (status !== 200) return app.say(body.refusal ?? "The earlier versions cannot be read.");
    setVersions({ id, list: Array.isArray(body) ? body : body.versions ?? [] });
  }
  const here = app.file.id;
  return html`<div class="lo" onDragOver=${(e) => e.preventDefault()} onDrop=${(e) => { e.preventDefault(); openFiles(app, e.dataTransfer.files); }}>
    <section class="lo-list" aria-label="Loads in the folder"><header class="lo-head"><div><h1 class="question">Your loads</h1>
        <p class="note">In the folder <span class="path">${room?.folder ?? ""}</span>. Files that you can see, copy and keep.</p></div>
        <span class="tb-buttons"><button type="button" class="main" onClick=${() => app.open("first")}>New load</button><button type="button" onClick=${() => file.current.click()}>Bring a file in</button>
          <input class="hidden" type="file" tabindex="-1" aria-hidden="true" accept=".toml" ref=${file} onChange=${(e) => { openFiles(app, e.target.files); e.target.value = ""; }} />
          ${app.state && html`<button type="button" onClick=${() => app.open("load")}>Back to the load</button>`}</span></header>
      ${said && html`<p class="in-said" role="status">${said}</p>`}
      ${room && !room.loads?.length && html`<p class="lo-none">No load yet. Begin one, or open a sample; your first change makes a file of it.</p>`}
      <ul class="lo-loads">${room?.loads?.map((l) => html`<li key=${l.id} class=${l.id === here ? "here" : ""}>
        <div class="lo-what"><button type="button" class="lo-open" onClick=${() => opened(app.file.openLoad(l.id))}>${l.title || l.id}</button>
          <span class="note">${l.unreadable ? "cannot be read; open it to see why" : `${l.set} of ${l.of} set`}${l.changed ? `, changed ${day(l.changed)}` : ""}${l.id === here ? ". Open now" : ""}</span></div>
        <div class="lo-acts"><a class="linked" href=${"/kiln/" + encodeURIComponent(l.id)} target="_blank" rel="noopener">At the kiln</a>
          <button type="button" class="link" onClick=${() => copy(l.id)}>Save a copy</button>
          <button type="button" class="link" onClick=${() => save(l.id)}>Take the file out</button>
          <button type="button" class="link" aria-expanded=${versions?.id === l.id} onClick=${() => earlier(l.id)}>Earlier versions</button></div>
        ${versions?.id === l.id && html`<${Versions} app=${app} id=${l.id} list=${versions.list} />`}</li>`)}</ul></section>
    <aside class="lo-side"><${Phone} app=${app} room=${room} />
      <h2>Samples</h2><ul class="lo-samples">${room?.samples?.map((s) => html`<li key=${s.id}><p><b>${s.title}.</b> <span class="note">${s.line}</span></p><button type="button" class="act" aria-label=${"Open the sample " + s.title} onClick=${() => opened(app.file.openSample(s.id))}>Open the sample</button></li>`)}</ul></aside>
  </div>`;
}

// Versions of a load. One is brought back as an edit that undo takes back: the
// file as it is now stays among the versions.
function Versions({ app, id, list }) {
  const [seen, setSeen] = useState(null);
  if (!list.length) return html`<p class="note lo-versions">No earlier version is kept of this load.</p>`;
  async function get(n) {
    const { status, body } = await talk("GET", `/api/loads/${encodeURIComponent(id)}/versions/${n}`);
    if (status !== 200) { app.say(body.refusal ?? "That version cannot be read."); return null; }
    return body.text;
  }
  async function look(n) {
    if (seen?.n === n) return setSeen(null);
    const text = await get(n);
    if (text !== null) setSeen({ n, text });
  }
  async function back(v) {
    if (app.file.id !== id && !(await app.file.openLoad(id))) return;
    const text = await get(v.n);
    if (text === null) return;
    const got = app.ask("restore", { text, what: `bring back ${day(v.when)}` });
    if (!got.ok) return app.say(got.refusal ?? "That version cannot be brought back.");
    app.refresh();
    app.open("load");
    app.say(`The load is as it was ${day(v.when)}. Undo takes it back.`);
  }
  return html`<ol class="lo-versions">${list.map((v) => html`<li key=${v.n}><span class="lo-when">${day(v.when)}</span><span>${v.what || "saved"}</span><span class="note">${typeof v.set === "number" ? `${v.set} of ${v.of} set` : ""}</span>
      <span class="lo-acts"><button type="button" class="link" aria-expanded=${seen?.n === v.n} onClick=${() => look(v.n)}>Look</button><button type="button" class="link" onClick=${() => back(v)}>Bring it back</button></span>
      ${seen?.n === v.n && html`<pre class="lo-text" tabindex="0">${seen.text}</pre>`}</li>`)}</ol>`;
}

// Phone says how the kiln's page is reached from a phone.
function Phone({ app, room }) {
  const id = app.file.id;
  const path = id ? "/kiln/" + encodeURIComponent(id) : "";
  return html`<h2>At the kiln</h2>
    <p>${id ? html`<a class="linked" href=${path} target="_blank" rel="noopener">Load step by step</a>: one act at a time, with what to do when a pot does not fit.` : "Open a load; its steps are shown one act at a time."}</p>
    ${id && html`<p><a class="linked" href=${path + "/saved"}>Save the steps as one file</a> <span class="note">It needs no network at the kiln.</span></p>`}
    ${room?.lan ? html`<p class="note">On a phone in the same network open ${(room.addresses ?? []).length ? room.addresses.map((a) => html`<b key=${a} class="path">${a + path}</b> `) : "the address that Threepost told in its window"} and type the pairing code from there.</p>`
      : html`<p class="note">To use a phone, start Threepost with --lan; it then tells an address and a pairing code.</p>`}`;
}
