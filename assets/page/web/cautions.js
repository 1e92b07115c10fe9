// Cautions, short, where they belong. Common practice of the trade.

import { html } from "./vendor/preact.js";

const all = {
  kiln: "Heat and electricity: see the kiln's manual. Switch it off before hands go in.",
  lift: "Shelves are heavy: lift close to the body, a large one by two.",
  dust: "Wash and wads hold silica: wipe wet, wear a mask, never sweep dry.",
  paper: "Take all paper out before you switch on.",
};

// Cautions tells some of them: kinds are names of the list above.
export function Cautions({ app, kinds }) {
  return html`<p class="cautions note"><b>Before you fire.</b> ${kinds.map((k) => app.words(all[k])).join(" ")}</p>`;
}
