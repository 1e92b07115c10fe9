// The next load of what waits: a load of its own in the folder, with the same
// kiln and nothing set. What waits stays on this table too.

import { html, useState } from "./vendor/preact.js";
import { talk } from "./save.js";

export function NextLoad({ app, kind }) {
  const [busy, setBusy] = useState(false);
  async function make() {
    if (busy) return;
    const text = app.call("text", {})?.text;
    if (text === undefined) return;
    setBusy(true);
    const got = await talk("POST", "/api/next", { text });
    const made = got.status === 200 ? await talk("POST", "/api/loads", { title: got.body.title, text: got.body.text }) : got;
    setBusy(false);
    if (made.status !== 200) return app.say(made.body.refusal ?? "The next load cannot be written.");
    const n = got.body.pots;
    app.say(`${n === 1 ? "1 pot waits" : n + " pots wait"} for the next load, ${made.body.id}.toml. It stands under Your loads.`);
  }
  return html`<button type="button" class=${kind} aria-disabled=${busy ? "true" : undefined} onClick=${make}>Make the next load</button>`;
}
