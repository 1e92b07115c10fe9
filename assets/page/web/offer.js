// What waits for a decision of the person, in a row over the places: a plan
// that came while the load was changed, and two versions of one file.

import { html } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { talk } from "./save.js";
import { Grade } from "./symbols.js";

export function Offers({ app }) {
  useApp(app, "state", "clash", "saved");
  const { clash, broken } = app.file;
  const offer = app.state?.offer;
  if (!clash && !offer) return html`<div class="offers"></div>`;
  return html`<div class="offers">
    ${clash && html`<section class="of" aria-label="Two versions"><${Grade} grade="watch" /><p>${clash.says} Both are kept; which one goes on?</p>
      <span class="of-acts"><button type="button" class="main" onClick=${() => app.file.takeMine()}>Go on with this page's</button><button type="button" onClick=${() => app.file.takeTheirs()}>Take the file's</button><button type="button" onClick=${() => copy(app)}>Save this page's as a new load</button></span></section>`}
    ${offer && !broken && html`<section class="of" aria-label="A plan beside the load"><${Grade} grade="note" /><p>${offer.says}</p>
      <span class="of-acts"><button type="button" class="main" onClick=${() => { app.call("take", {}); app.refresh(); }}>Take this one</button><button type="button" onClick=${() => app.call("leave", {})}>Keep what stands</button></span></section>`}</div>`;
}

// copy writes this page's text as a new load and takes the file's here.
async function copy(app) {
  const mine = app.file.clash.mine;
  const { status, body } = await talk("POST", "/api/loads", { title: (app.state?.title ?? app.file.title) + ", second version", text: mine });
  if (status !== 200 && status !== 201) return app.say(body.refusal ?? "The new load cannot be written.");
  await app.file.takeTheirs();
  return app.say(`What this page had stands in the folder as ${body.id}.toml.`);
}
