// Cautions, short, where they belong. Common practice of the trade.

import { html } from "./vendor/preact.js";

const all = {
  kiln: "Heat and electricity: see the kiln's manual. Switch off at the wall before hands go in.",
  lift: "Full shelves are heavy: two people, or bare shelves let down one by one.",
  dust: "Wash and wads hold silica: wipe them wet, wear a mask to grind or sand, never sweep dry.",
  paper: "Take all paper out before you switch on.",
};

// Cautions tells some of them: kinds are names of the list above.
export function Cautions({ app, kinds }) {
  return html`<p class="cautions note"><b>Before you fire.</b> ${kinds.map((k) => app.words(all[k])).join(" ")}</p>`;
}
