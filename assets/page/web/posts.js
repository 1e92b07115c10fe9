// Posts as a row of drawn posts with a count under each: the box of posts, to
// one scale, as long as the program says each is.

import { html, useState } from "./vendor/preact.js";
import { Field, Stepper } from "./fields.js";

// Posts shows rows of posts; set gives the whole list away and answers "" or a
// sentence.
export function Posts({ app, posts, set, fresh, plain }) {
  const [adding, setAdding] = useState(false);
  const [height, setHeight] = useState("");
  const [said, setSaid] = useState("");
  const order = posts.map((p, i) => ({ p, i, mm: p.mm || 0 })).sort((a, b) => b.mm - a.mm);
  const tallest = Math.max(1, ...order.map((o) => o.mm));
  const put = (i, change) => set(posts.map((p, n) => (n === i ? { ...p, ...change } : p)));
  function add(spacer) {
    if (!height.trim()) return;
    const no = set([...posts, { ...fresh, height: height.trim(), count: "6", spacer }]);
    setSaid(no);
    if (no) return;
    setHeight("");
    setAdding(false);
  }
  return html`<div class="posts"><ul class="posts-row">${order.map(({ p, i, mm }) => html`<li key=${p.height + p.name + (p.spacer ? "s" : "")} class=${Number(p.count) > 0 ? "" : "none"}>
      <svg width="1.875rem" height="3.9375rem" viewBox="0 0 40 84" aria-hidden="true"><rect class=${p.spacer ? "spacer" : ""} x="11" width="18" y=${83 - Math.max(2, (80 * mm) / tallest)} height=${Math.max(2, (80 * mm) / tallest)} /></svg>
      <b>${p.height}</b>${p.name && html`<span class="note">${p.name}</span>`}
      ${plain ? html`<${Field} quiet=${true} kind="figure" mode="numeric" selects=${true} label=${`${p.spacer ? "spacers" : "posts"} of ${p.height}, how many`} value=${p.count} keep=${(t) => put(i, { count: t })} />` : html`<${Stepper} label=${`${p.spacer ? "spacers" : "posts"} of ${p.height}`} value=${p.count} keep=${(t) => put(i, { count: t })} />`}
      ${p.count === "0" && html`<button type="button" class="link" onClick=${() => { const no = set(posts.filter((_, n) => n !== i)); if (no) app.say(no); }}>Take out</button>`}</li>`)}</ul>
    ${adding ? html`<form class="posts-new" onSubmit=${(e) => { e.preventDefault(); add(false); }}>
        <label>Another height <input class="in figure" value=${height} autofocus onInput=${(e) => { setHeight(e.target.value); setSaid(""); }} /></label>
        <button type="submit" class="act">Add a post</button><button type="button" class="act" onClick=${() => add(true)}>Add a spacer</button>
        <button type="button" class="link" onClick=${() => setAdding(false)}>Leave it</button>${said && html`<span class="in-said" role="status">${said}</span>`}</form>`
      : html`<button type="button" class="link" onClick=${() => setAdding(true)}>another height</button>`}</div>`;
}
