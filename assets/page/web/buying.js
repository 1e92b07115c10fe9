// What is worth buying next: the program on this computer plans the load anew
// with a few purchases, one after another, and can be stopped to keep what it
// has. The answer is laid beside the load and holds as long as that is so.

import { html } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Grade } from "./symbols.js";
import { streamed, enough, runName } from "./stream.js";

export class Buying {
  constructor(app) {
    this.app = app;
    this.running = null; // {tried, of, stopping}
  }

  async start() {
    if (this.running) return;
    const app = this.app, text = app.call("text", {})?.text;
    if (text === undefined) return;
    const stream = new AbortController(), id = app.file.id;
    this.stream = stream;
    this.run = runName();
    this.running = { tried: 0, of: 0 };
    app.changed("plan");
    let says = null, refused = "";
    const take = (now) => {
      if (now.refusal) refused = now.refusal;
      else if (now.done) says = now.says ?? [];
      if (this.running) Object.assign(this.running, { tried: now.tried, of: now.of });
      app.changed("plan");
    };
    const refusal = await streamed("/api/buy", { text, seed: app.plan.seed, run: this.run }, stream, take, "Nothing was planned with.") || refused;
    if (this.stream !== stream) return;
    this.running = this.stream = null;
    app.changed("plan");
    if (app.file.id !== id) return; // another load is open
    if (refusal) return void app.say(refusal);
    if (says) app.call("buying", { text, says });
  }

  // stop keeps what was found so far.
  async stop() {
    if (!this.running || this.running.stopping) return;
    this.running.stopping = true;
    this.app.changed("plan");
    if (!await enough(this.run)) this.stream?.abort();
  }

  // forget lets go of what belongs to a load that is no longer open.
  forget() {
    this.stream?.abort();
    this.stream = this.running = null;
  }
}

// WorthBuying is asked for by the person, where pots wait.
export function WorthBuying({ app }) {
  useApp(app, "state", "plan");
  const state = app.state, running = app.buying.running, told = state?.buying;
  if (!state || state.empty || app.plan.running || !running && !told && state.set >= state.of) return null;
  const stop = html`<button type="button" class="act" onClick=${() => app.buying.stop()}>Stop and keep this</button>`;
  const ask = state.set < state.of && html`<button type="button" class="act" onClick=${() => app.buying.start()}>${told ? "Work it out again" : "See what is worth buying next"}</button>`;
  return html`<section class="wb" aria-label="Worth buying next"><div class="fd-one"><${Grade} grade="note" quiet=${true} /><div>
    ${running ? html`<p role="status">${running.stopping ? "Stopping." : running.of ? `${running.tried} of ${running.of} purchases planned with.` : "The load is planned as it is first."}</p>${!running.stopping && stop}`
      : told && !told.stale ? html`${told.says.map((says) => html`<p key=${says}>${says}</p>`)}${ask}`
        : html`${told && html`<p>What is worth buying was worked out for the load as it was.</p>`}${ask}`}
  </div></div></section>`;
}
