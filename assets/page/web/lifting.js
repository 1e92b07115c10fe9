// A shelf in hand: its stops as rows, the tallest on top, and what each would
// leave. The elevation shows the same stops at true height.

import { html, useRef, useEffect } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Grade } from "./symbols.js";
import { Picture } from "./picture.js";
import { useSize, usePicture } from "./size.js";

function keep(app, answer) {
  if (!answer) return false;
  app.lifted = answer;
  app.changed("lifted");
  const at = answer.stops[answer.at];
  if (at) app.speak(`${at.posts}: ${at.takes}, ${at.word || at.room}`);
  return true;
}

// lift takes a shelf in hand; false after the refusal was said.
export function lift(app, { tower, level }) {
  app.show({ tower, level }, { keepView: true });
  if (app.place === "middle" || app.place === "side") app.place = "elevation";
  return keep(app, app.call("lift", { tower, level }));
}

// stop moves it: {index} or {by} px down from where it hangs.
export function stop(app, where) {
  const answer = app.ask("stop", where);
  if (answer.ok && (answer.ok.at !== app.lifted?.at || "index" in where)) keep(app, answer.ok);
}

// step moves it to the next stop up (-1) or down (1).
export function step(app, by) {
  const l = app.lifted, index = l.at + by;
  if (index >= 0 && index < l.stops.length) stop(app, { index });
}

export function put(app) {
  const l = app.lifted;
  if (!l) return;
  app.lifted = null;
  if (l.at === l.was) app.ask("cancel", {}); else app.call("put", {});
  app.changed("lifted");
  app.refresh();
}

export function unlift(app) {
  app.lifted = null;
  app.ask("cancel", {});
  app.changed("lifted");
}

export function Lifting({ app }) {
  useApp(app, "lifted", "size");
  const list = useRef(null), box = useRef(null);
  const { w } = useSize(app, box);
  const l = app.lifted;
  const picture = usePicture(app, "box", l && w > 40 ? { w } : null, [l?.at, l?.tower, l?.level, w]);
  useEffect(() => { if (l && !app.dragging) list.current?.querySelector("[aria-checked=true]")?.focus({ preventScroll: true }); }, [l?.tower, l?.level]);
  if (!l) return null;
  const says = l.says.split(/(\d+ × (?:\([^)]*\)|\d+)|\d[\d /]* to the lid)/); // make-up and room to the lid stand out
  return html`<div class="li"><h2>${l.title}</h2><p class="note">${l.line}</p>
    <p class="li-says" aria-live="off">${says.map((t, i) => (i % 2 ? html`<b>${t}</b>` : t))}</p>
    <div class="li-head" aria-hidden="true"><span>${app.word("posts")}</span><span>made of</span><span>takes</span><span>room</span></div>
    <div class="li-stops" role="radiogroup" aria-label=${app.words("Heights at which the shelf can stop")} ref=${list}>
      ${l.stops.map((s, i) => html`<button type="button" role="radio" key=${s.height} class=${"li-stop " + s.grade} aria-checked=${i === l.at} tabindex=${i === l.at ? 0 : -1}
        aria-label=${`${s.posts}, ${s.made}, ${s.takes}, ${s.word || s.room}${i === l.was ? ", as it hangs" : ""}`} onClick=${() => stop(app, { index: i })}>
        <b>${s.posts}</b><span>${s.made}</span><span>${s.takes}</span><span class="li-room">${s.grade === "watch" || s.grade === "problem" ? html`<${Grade} grade=${s.grade} quiet=${true} />` : null}${s.word || s.room}${i === l.was ? html` <span class="note">as it hangs</span>` : null}</span></button>`)}</div>
    <p class="li-do"><button type="button" class="main" onClick=${() => put(app)}>${l.at === l.was ? "Leave it there" : "Put it there"}</button><button type="button" onClick=${() => unlift(app)}>As before</button></p>
    <section class="li-box"><p><b>${app.words("In the box of posts")}</b> <span class="note">with the ${app.word("shelf")} where it hangs now</span></p>
      <div ref=${box}>${picture && html`<${Picture} picture=${picture} />`}</div><p class="note">${l.takes}</p></section>
    ${l.next && html`<div class="fd-one"><${Grade} grade="note" quiet=${true} /><div><p>${l.next}</p>
      ${l.mend && html`<button type="button" class="act" ...${app.ghostly(l.mend.edits)} onClick=${() => { unlift(app); app.apply(l.mend.edits, l.mend.say); }}>${l.mend.say}</button>`}</div></div>`}
  </div>`;
}
