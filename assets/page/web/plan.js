// Planning runs in the program on this computer, not in the page: the page
// sends the text, reads arrangements line by line, and adopts the newest when
// the load has not changed meanwhile. What stands beside a plan comes after it:
// what nobody can exceed, other plans, the price of closer gaps.

import { streamed, enough, runName } from "./stream.js";

export class Planning {
  constructor(app) {
    this.app = app;
    this.running = null; // {set, of, share, says, waiting}
    this.beside = false; // other plans are being worked out
    this.laid = null;    // what came beside the last plan, kept for a new start of the page's program
    this.seed = 1;
  }

  // start plans the whole load, or only what waits.
  async start({ waiting = false, seconds = 20, seed } = {}) {
    if (this.running) return;
    const app = this.app, state = app.state;
    if (!state) return;
    const text = app.call("text", {})?.text;
    if (text === undefined) return;
    this.stream?.abort(); // what still came beside the plan before
    this.seed = seed ?? this.seed;
    const stream = new AbortController(), run = runName();
    this.stream = stream;
    this.run = run;
    this.best = this.told = null;
    this.base = state.revision;
    this.running = { set: state.set, of: state.of, share: 0, waiting, began: performance.now(), seconds };
    this.beside = false;
    app.changed("plan");
    this.tick = setInterval(() => {
      const r = this.running;
      if (!r) return;
      r.share = Math.min(0.99, (performance.now() - r.began) / (seconds * 1000));
      app.changed("plan");
    }, 250);
    let refused = "";
    const take = (line) => { if (this.stream === stream) refused = this.line(line, text) ?? refused; };
    const refusal = await streamed("/api/plan", { text, seed: this.seed, work: 0, waiting, seconds, run }, stream, take, "No plan was made.") || refused;
    if (this.stream !== stream) return; // another plan has begun
    this.beside = false;
    app.changed("plan");
    if (!this.running) return; // it was adopted when it came
    this.ended();
    if (refusal && !this.best) return app.say(refusal);
    this.adopt();
  }

  // line takes one line of the stream; it answers a refusal when there is one.
  line(said, text) {
    if (typeof said.refusal === "string") return said.refusal;
    if (said.bound || said.plans || said.price || said.wishes) return void this.lay(said, text);
    if (said.edit) this.best = said;
    if (!this.running) return void this.why(said.waits); // what would let in what waits
    if (typeof said.set === "number") this.running.set = said.set;
    if (typeof said.of === "number") this.running.of = said.of;
    this.app.changed("plan");
    if (!said.done) return undefined;
    this.ended();
    this.beside = true;
    this.adopt(said.waits);
    return undefined;
  }

  ended() {
    clearInterval(this.tick);
    this.running = null;
    this.app.changed("plan");
  }

  // stop ends the search and keeps what it has.
  async stop() {
    if (!this.running) return;
    const stream = this.stream;
    const heard = this.best && await enough(this.run);
    if (!heard && this.running && this.stream === stream) stream.abort();
  }

  // forget lets go of all that belongs to a load that is no longer open.
  forget() {
    this.stream?.abort();
    if (this.running) this.ended();
    this.stream = this.laid = this.best = this.told = this.stood = null;
    this.beside = false;
  }

  adopt(waits) {
    const app = this.app, best = this.best;
    this.best = null;
    if (!best) return app.say("The plan found nothing better than what stands.");
    const before = app.state.set;
    // A plan that sets fewer pots than a load without problems is shown beside
    // it: base -1 is no revision, so nothing is changed before the person says so.
    const poorer = best.set < before && !app.state.problems;
    const state = app.call("offer", { base: poorer ? -1 : this.base, edit: best.edit, says: `The plan sets ${best.set} of ${best.of}.` });
    if (!state) return;
    app.refresh();
    if (state.offer) return;
    this.told = state.revision;
    this.why(waits);
    app.say(`${state.set} of ${state.of} set, ${before} before. Undo takes it back.`);
  }

  // why tells why ware waits, as long as the plan stands that it was told of.
  why(waits) {
    if (waits?.length && this.told !== null && this.app.state?.revision === this.told) this.app.ask("waits", { waits });
  }

  // lay puts what came beside the plan beside the load, and keeps it in this tab
  // for when the page is loaded anew.
  lay(said, text) {
    const part = { bound: said.bound, plans: said.plans, price: said.price, wishes: said.wishes };
    const first = this.laid?.text !== text || this.laid.run !== this.run;
    this.laid = { ...(first ? { text, run: this.run } : this.laid), ...JSON.parse(JSON.stringify(part)) };
    this.app.ask("lay", { ...(first ? { text } : {}), ...part });
    if (first) this.stood = null;
    if (said.price) this.stood = this.app.call("text", {})?.text; // the price is that of the load as it stands
    keep(this.app.file, { laid: this.laid, stood: this.stood });
  }

  // known is what a sheet may tell beside the load as it stands.
  known() {
    const ways = this.app.state?.ways;
    if (!this.laid || !ways || ways.stale) return {};
    const { bound, price, wishes } = this.laid;
    return { bound, wishes: ways.costs ? wishes : undefined, price: ways.price && !ways.price.shown && price ? { ...price, edit: undefined } : undefined };
  }

  // layAgain does so in a program that was started anew, or read the load anew.
  layAgain() {
    const kept = this.laid ? null : keptOf(this.app.file);
    if (kept) {
      if (kept.stood !== this.app.file.text) delete kept.laid.price;
      this.laid = kept.laid;
      this.stood = kept.stood;
    }
    if (!this.laid) return;
    const { run, ...laid } = this.laid;
    this.app.ask("lay", laid);
  }
}

// placeOf is where this tab keeps what lies beside a load of the folder.
const placeOf = (file) => `threepost:beside:${file.app.room?.folder ?? ""}:${file.id}`;

function keep(file, what) {
  if (file.id === null) return;
  try { sessionStorage.setItem(placeOf(file), JSON.stringify(what)); } catch { /* no room or not allowed: plan again */ }
}

function keptOf(file) {
  if (file.id === null) return null;
  try { return JSON.parse(sessionStorage.getItem(placeOf(file)) ?? "null"); } catch { return null; }
}
