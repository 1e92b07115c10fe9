// How a level's load lies on its posts: the ring of posts with the balance
// point, and the weight on each post.

import { html } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Picture } from "./picture.js";
import { usePicture } from "./size.js";

export function Weights({ app, at }) {
  useApp(app, "state", "chosen", "size");
  const state = app.state;
  const level = at && state.levels.find((l) => l.tower === at.tower && l.number === at.level);
  const picture = usePicture(app, "balance", level?.balance ? { w: 176, h: 168, tower: at.tower, level: at.level, large: true } : null, [state.revision, at?.tower, at?.level]);
  if (!level) return null;
  return html`<section class="we" aria-label=${app.words("Weight on the posts")}><p><b>${level.title}</b> <span class="note">${level.kinds || "nothing stands here"}${level.mass > 0 ? `, ${level.mass_said}` : ""}</span></p>
    ${level.balance ? html`<div class="we-both">${picture && html`<${Picture} picture=${picture} label=${level.balance.said} />`}
      <dl>${level.balance.posts.map((p, i) => html`<div key=${i}><dt>${app.word("Post")} ${p.letter}</dt><dd>${p.said}</dd></div>`)}</dl></div><p class="note">${level.balance.said}. Every ${app.word("shelf")} and pot above is counted.</p>` : null}
  </section>`;
}
