// The right place: what is chosen with its gaps and what can be done about it,
// then what is true of the whole load, each with its way out.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { useApp, chosenOf } from "./store.js";
import { Grade } from "./symbols.js";
import { Picture } from "./picture.js";
import { usePicture } from "./size.js";
import { PlanLines } from "./plans.js";
import { WorthBuying } from "./buying.js";
import { Weights } from "./weights.js";
import { lift } from "./lifting.js";
import { nudge, setDown, putBack } from "./hand.js";

const symbol = (grade) => (grade === "clears" || !grade ? "ok" : grade);

export function Side({ app }) {
  useApp(app, "state", "chosen", "held", "ghost", "size", "mends");
  if (!app.state) return null;
  return html`<div class="si"><${Chosen} app=${app} /><${Findings} app=${app} />${!app.held && html`<${PlanLines} app=${app} /><${WorthBuying} app=${app} />`}</div>`;
}

function Chosen({ app }) {
  const held = app.held;
  const c = app.chosen;
  const own = held ? app.state.pots.find((p) => p.id === held.pot) : null;
  const pot = held ?? (c && (c.kind === "pot" || c.kind === "cones") ? c : null);
  const ware = held?.ware ?? (c?.kind === "ware" ? c.id : app.state.pots.find((p) => p.id === c?.id)?.ware);
  const picture = usePicture(app, "aside", ware && c?.kind !== "cones" && c?.kind !== "level" ? { ware, w: 54, h: 50, chosen: true } : null, [app.state.revision, ware, c?.kind]);
  if (!held && !c) {
    return html`<section class="si-chosen none"><p class="note">Choose a pot, a ${app.word("shelf")} or a ${app.word("post")} in any picture to see its gaps and what can be done with it.</p></section>`;
  }
  const line = held ? (own ? [own.size, [own.owner, own.ticket].filter(Boolean).join(" "), own.glaze].filter(Boolean).join(" · ") : "") : c.line;
  return html`<section class="si-chosen" aria-label="What is chosen">
    <header>${picture?.marks?.length ? html`<${Picture} picture=${picture} label=${ware} />` : null}<div><h2>${held?.title ?? c.title}</h2>${line && html`<p class="note">${line}</p>`}</div></header>
    ${(held?.place ?? c.place) && html`<p class="si-place">${held?.place ?? c.place}</p>`}
    ${!held && c.why?.map((says) => html`<p class="note si-why" key=${says}>${says}</p>`)}
    ${pot?.nears?.length ? html`<${Nears} app=${app} nears=${pot.nears} />` : null}
    ${!held && c.kind === "level" && app.view.mode === "3d" && html`<${Weights} app=${app} at=${c.thing} />`}
    ${app.swapping && html`<p class="si-swap">Choose the pot it changes places with. <button type="button" class="link" onClick=${() => { app.swapping = null; app.changed("chosen"); }}>Leave it</button></p>`}
    ${held ? html`<${InHand} app=${app} />` : html`<${Acts} app=${app} acts=${c.acts} />`}
  </section>`;
}

function Nears({ app, nears }) {
  return html`<ul class="si-nears">${nears.map((n, i) => {
    const thing = n.id ? { pot: n.id } : null;
    const name = n.name[0].toUpperCase() + n.name.slice(1);
    return html`<li key=${i} class=${symbol(n.grade)}><${Grade} grade=${symbol(n.grade)} /><span class="name">${thing ? html`<button type="button" class="bare" onClick=${() => app.choose(thing)}>${name}</button>` : name}</span><b>${n.gap < 0 ? n.word.split(",")[0] : n.gap_said}</b><span class="note">${n.plan_said}</span></li>`;
  })}</ul>`;
}

// InHand is what can be done with a held pot without letting it go.
function InHand({ app }) {
  const pot = app.state.pots.find((p) => p.id === app.held.pot);
  return html`<div class="si-acts">${pot?.turns && html`<button type="button" class="link" onClick=${() => nudge(app, { dx: 0, dy: 0, turn: 15 })}>Turn</button>`}
    <button type="button" class="link" onClick=${() => setDown(app)}>Set it down</button>
    <button type="button" class="link" onClick=${() => setDown(app, false)}>Set it here</button>
    <button type="button" class="link" onClick=${() => putBack(app)}>Where it was</button></div>
    <p class="si-keys note"><span><kbd>Arrows</kbd> 1 mm</span> <span><kbd>Shift</kbd> 5 mm</span> <span><kbd>[</kbd> <kbd>]</kbd> turn</span> <span><kbd>Enter</kbd> set down where it clears</span> <span>with <kbd>Alt</kbd> exactly here</span> <span><kbd>Esc</kbd> back</span></p>`;
}

function Acts({ app, acts }) {
  if (!acts?.length || app.chosen.kind === "finding") return null;
  function act(a) {
    if (a.edits) return void app.apply(a.edits, a.say);
    const thing = app.chosen.thing;
    switch (a.call) {
      case "turn": nudge(app, { dx: 0, dy: 0, turn: 15 }); return app.say("Turned 15 degrees. [ and ] turn on; Enter sets it down, Esc puts it back.");
      case "swap": app.swapping = app.chosen.id; return app.changed("chosen");
      case "lift": return void lift(app, thing.post ? { tower: thing.post.tower, level: thing.post.level } : thing);
      case "spread": return app.job("spread", thing);
      case "room": return app.job("room", { ware: thing.pot ?? thing.ware });
      case "profile": return app.open("table");
      case "duplicate": return void app.call("duplicate", { name: app.chosen.id });
    }
    return undefined;
  }
  return html`<div class="si-acts">${acts.map((a) => html`<button type="button" class="link" key=${a.say} ...${a.edits ? app.ghostly(a.edits) : {}} onClick=${() => act(a)}>${a.say}</button>`)}</div>`;
}

// Findings are the sentences about the load; while a pot is held the sentence
// about it comes first.
function Findings({ app }) {
  const { state, held, ghost } = app;
  const [showAccepted, setShow] = useState(false);
  const open = state.findings.filter((f) => !f.accepted);
  const accepted = state.findings.filter((f) => f.accepted);
  useEffect(() => app.workOutMends(open), [state]);
  const counts = [state.watches && `${state.watches} ${state.watches === 1 ? "watch" : "watches"}`, state.accepted && `${state.accepted} accepted`].filter(Boolean).join(", ");
  return html`<section class="fd" aria-label="What is true of the load">
    <header class="fd-head"><h2>${held?.grade === "problem" ? "A problem" : held?.grade === "watch" ? "A watch" : state.head}</h2><span class="note">${held ? "while you hold it" : ghost ? ghost.says : counts}</span></header>
    ${held && (held.sentence || held.order) ? html`<div class="fd-list">
      ${held.sentence && html`<div class="fd-one"><${Grade} grade=${symbol(held.grade)} /><div><p>${held.sentence}</p>${held.mend && html`<button type="button" class="act main" onClick=${() => setDown(app)}>${held.mend.say}</button>`}</div></div>`}
      ${held.order && html`<div class="fd-one"><${Grade} grade="note" /><div><p>${held.order}</p></div></div>`}</div>`
      : html`<ul class="fd-list">${open.map((f) => html`<${Finding} key=${f.key} app=${app} finding=${f} />`)}</ul>
        ${!open.length && html`<p class="note fd-calm">${state.empty ? "Nothing stands yet." : "Nothing needs you. Good to your measurements."}</p>`}
        ${accepted.length > 0 && html`<p class="fd-accepted"><button type="button" class="link" aria-expanded=${showAccepted} onClick=${() => setShow(!showAccepted)}>${showAccepted ? "Hide what was accepted" : `Show what was accepted: ${accepted.length}`}</button></p>
          ${showAccepted && html`<ul class="fd-list">${accepted.map((f) => html`<${Finding} key=${f.key} app=${app} finding=${f} />`)}</ul>`}`}`}
  </section>`;
}

function Finding({ app, finding: f }) {
  const [typing, setTyping] = useState(false);
  const input = useRef(null);
  useEffect(() => { if (typing) input.current?.focus(); }, [typing]);
  const here = app.chosen?.kind === "finding" && app.chosen.id === f.key;
  const mends = f.accepted ? [] : f.mends?.length ? f.mends : app.mends.get(f.key) ?? (here ? app.chosen.acts.filter((a) => a.edits) : []);
  const bold = f.bold && f.sentence.startsWith(f.bold) ? f.bold : "";
  function look() {
    app.choose({ finding: f.key });
    const thing = (f.things ?? []).map(chosenOf).find((t) => t && (t.tower || t.pot));
    const at = thing && (thing.tower ? thing : app.levelOf({ pots: f.pots }, thing));
    if (at) app.show(at, { keepView: true });
  }
  function accept(e) {
    e.preventDefault();
    const reason = input.current.value.trim();
    if (!reason) { app.say("Write in a few words why it is all right; the reason stays with the load."); return input.current.focus(); }
    if (app.call("accept", { finding: f.key, reason })) { setTyping(false); app.refresh(); }
    return undefined;
  }
  return html`<li class=${"fd-one" + (here ? " here" : "")}><${Grade} grade=${f.grade} /><div>
    <button type="button" class="fd-say" aria-pressed=${here} onClick=${look}><span>${bold && html`<b>${bold}</b>`}${f.sentence.slice(bold.length)}</span></button>
    ${f.accepted && html`<p class="note">Accepted: ${f.accepted}</p>`}
    ${mends.map((m) => html`<button type="button" class="act" key=${m.say} ...${app.ghostly(m.edits)} onClick=${() => app.apply(m.edits, m.say)}>${m.say}</button>`)}
    ${f.grade === "watch" && !f.accepted && (typing
      ? html`<form class="fd-accept" onSubmit=${accept}><label class="note">Why it is all right <input ref=${input} maxlength="200" onKeyDown=${(e) => { if (e.key === "Escape") { e.stopPropagation(); setTyping(false); } }} /></label><span><button type="submit" class="act">Accept this watch</button> <button type="button" class="link" onClick=${() => setTyping(false)}>Leave it</button></span></form>`
      : html`<button type="button" class="link fd-why" onClick=${() => setTyping(true)}>Accept with a reason</button>`)}
  </div></li>`;
}
