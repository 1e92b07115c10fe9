// The ware of the table split into firings: which pots burn together, why, how
// full the kiln is. The program on this computer works it out and can be
// stopped; each firing can be made a load of its own. This load stays as it is.

import { html, useEffect, useRef, useState } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Grade } from "./symbols.js";
import { streamed, enough, runName } from "./stream.js";
import { talk } from "./save.js";

export class Splitting {
  constructor(app) {
    this.app = app;
    this.forget();
  }

  // forget lets go of what belongs to a load that is no longer open.
  forget() {
    this.stream?.abort();
    this.stream = this.running = this.split = this.of = null;
    this.says = "";
    this.made = {};
  }

  async start() {
    if (this.running) return;
    const app = this.app, text = app.call("text", {})?.text;
    if (text === undefined) return;
    this.forget();
    const stream = new AbortController();
    this.stream = stream;
    this.run = runName();
    this.running = { firings: 0, set: 0, of: 0 };
    app.changed("plan");
    let last = null;
    const take = (line) => {
      last = line;
      if (this.running) Object.assign(this.running, { firings: last.firings, set: last.set, of: last.of });
      app.changed("plan");
    };
    const refusal = await streamed("/api/firings", { text, seed: app.plan.seed, run: this.run }, stream, take, "Nothing was split.");
    if (this.stream !== stream) return;
    this.running = this.stream = null;
    this.split = last?.split ?? null;
    this.of = text;
    this.says = refusal || last?.refusal || "";
    app.changed("plan");
  }

  async stop() {
    if (!this.running) return;
    if (!await enough(this.run)) this.stream?.abort();
  }

  // make writes a firing as a load of its own into the folder.
  async make(i) {
    const f = this.split?.firings[i], made = this.made; // a split that is begun meanwhile has its own
    if (!f || made[i]) return;
    made[i] = "…";
    this.app.changed("plan");
    const got = await talk("POST", "/api/loads", { title: f.title, text: f.text });
    if (got.status === 200) made[i] = got.body.id;
    else delete made[i];
    if (got.status !== 200) this.app.say(got.body.refusal ?? "The firing cannot be written.");
    this.app.changed("plan");
  }
}

// Firings is the whole page.
export function Firings({ app }) {
  useApp(app, "state", "plan");
  const top = useRef(null);
  useEffect(() => top.current?.focus({ preventScroll: true }), []);
  const s = app.splitting, split = s.split;
  const back = html`<button type="button" onClick=${() => app.open("load")}>Back to the load</button>`;
  const stale = split && s.of !== app.call("text", {})?.text;
  const ask = html`<button type="button" class=${split ? "" : "main"} onClick=${() => s.start()}>${split ? "Split it again" : "Split into firings"}</button>`;
  return html`<div class="sp"><h2 tabindex="-1" ref=${top}>Firings</h2>
    ${s.running ? html`<p role="status">${s.running.firings} ${s.running.firings === 1 ? "firing" : "firings"} so far, ${s.running.set} of ${s.running.of} pots.</p>
        <p class="sp-acts"><button type="button" onClick=${() => s.stop()}>Stop</button>${back}</p>`
      : html`<p class="sp-says">${split ? html`<b>${app.words(split.says)}</b> ${app.words(split.at_least ?? "")}` : s.says || "All ware of the table is shared out to firings of this kiln: what may burn together, what must go first, full firings before part-full ones. This load stays as it is."}</p>
        ${stale && html`<p class="note">The load has changed since; split it again to have it as it is.</p>`}
        <p class="sp-acts">${ask}${back}</p>`}
    ${split && html`<ol class="sp-list">${split.firings.map((f, i) => html`<${One} key=${i} app=${app} firing=${f} index=${i} />`)}</ol>
      ${split.waits.length > 0 && html`<h3>Waits</h3><ul class="sp-waits">${split.waits.map((w) => html`<li key=${w}>${app.words(w)}</li>`)}</ul>`}
      ${split.notes.map((n) => html`<p class="note" key=${n}>${app.words(n)}</p>`)}`}
  </div>`;
}

function One({ app, firing: f, index }) {
  const made = app.splitting.made[index];
  const grade = f.problems ? "problem" : f.watches ? "watch" : "ok";
  const verdict = f.problems ? `${f.problems} ${f.problems === 1 ? "problem" : "problems"}` : f.watches ? `No problem, ${f.watches} ${f.watches === 1 ? "watch" : "watches"}` : "No problem";
  return html`<li class="sp-one"><h3>Firing ${index + 1}: ${app.words(f.fires)}</h3>
    <p class="sp-line"><b>${app.words(f.says)}</b><span class="sp-grade"><${Grade} grade=${grade} quiet=${true} />${verdict}</span><span class="sp-grade"><progress class="pl-bar" max="1" value=${f.fill} aria-label="How full the kiln is"></progress>${f.fill >= 1 ? "full" : `about ${Math.round(f.fill * 100)} % full`}</span></p>
    <p>${app.words(f.ware)}.</p><p class="note">${app.words(f.why)}</p>
    ${made && made !== "…" ? html`<p class="note" role="status">It is ${made}.toml, under Your loads.</p>`
      : html`<button type="button" aria-disabled=${made ? "true" : undefined} onClick=${() => app.splitting.make(index)}>Make it a load</button>`}</li>`;
}
