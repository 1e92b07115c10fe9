// Planning runs in the program on this computer, not in the page: the page
// sends the text, reads arrangements line by line, and adopts the newest when
// the load has not changed meanwhile.

export class Planning {
  constructor(app) {
    this.app = app;
    this.running = null; // {set, of, share, says, waiting}
    this.waits = null;   // what the last plan left waiting, and why
    this.seed = 1;
  }

  // start plans the whole load, or only what waits.
  async start({ waiting = false, seconds = 20, seed } = {}) {
    if (this.running) return;
    const app = this.app, state = app.state;
    if (!state) return;
    const text = app.call("text", {})?.text;
    if (text === undefined) return;
    this.seed = seed ?? this.seed;
    const stop = new AbortController();
    this.stopping = stop;
    this.best = null;
    this.base = state.revision;
    this.running = { set: state.set, of: state.of, share: 0, waiting, began: performance.now(), seconds };
    app.changed("plan");
    const tick = setInterval(() => {
      const r = this.running;
      if (!r) return;
      r.share = Math.min(0.99, (performance.now() - r.began) / (seconds * 1000));
      app.changed("plan");
    }, 250);
    let refusal = "";
    try {
      const answer = await fetch("/api/plan", {
        method: "POST", signal: stop.signal, headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ text, seed: this.seed, work: 0, waiting, seconds }),
      });
      if (!answer.ok || !answer.body) {
        const said = await answer.json().catch(() => ({}));
        refusal = said.refusal ?? "No plan was made.";
      } else {
        refusal = await this.read(answer.body.getReader());
      }
    } catch (e) {
      if (e.name !== "AbortError") refusal = "Threepost does not answer. Start it again; the load is as it was.";
    }
    clearInterval(tick);
    this.running = null;
    app.changed("plan");
    if (refusal && !this.best) return app.say(refusal);
    this.adopt();
  }

  async read(reader) {
    const decoder = new TextDecoder();
    let rest = "", refusal = "";
    for (;;) {
      const { value, done } = await reader.read();
      if (done) break;
      rest += decoder.decode(value, { stream: true });
      const lines = rest.split("\n");
      rest = lines.pop();
      for (const line of lines) if (line.trim()) refusal = this.line(JSON.parse(line)) ?? refusal;
    }
    if (rest.trim()) refusal = this.line(JSON.parse(rest)) ?? refusal;
    return refusal;
  }

  // line takes one line of the stream; it answers a refusal when there is one.
  line(said) {
    if (typeof said.refusal === "string") return said.refusal;
    if (said.edit) this.best = said;
    if (said.waits) this.waits = said.waits;
    if (this.running) {
      if (typeof said.set === "number") this.running.set = said.set;
      if (typeof said.of === "number") this.running.of = said.of;
      this.app.changed("plan");
    }
    return undefined;
  }

  // stop ends the search and keeps what it has.
  stop() { this.stopping?.abort(); }

  adopt() {
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
    if (!state.offer) app.say(`${state.set} of ${state.of} set, ${before} before. Undo takes it back.`);
  }
}
