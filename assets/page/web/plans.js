// Several plans of one run side by side, and in the place of what is true the
// lines that lead there: what nobody can exceed, the price of closer gaps.

import { html, useEffect, useRef } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Grade } from "./symbols.js";
import { Picture } from "./picture.js";
import { useSize, usePicture } from "./size.js";

const rowsOf = (got) => [["set", "Pots set"], ["value", "Value"], ["watches", "Watches"], ["room", got.room], ["furniture", "Furniture"], ["waits", "Waits"]];

// PlanLines are what the last plan left to choose from, one line each.
export function PlanLines({ app }) {
  useApp(app, "state", "plan");
  const ways = app.state?.ways;
  if (app.plan.running || !ways && !app.plan.beside) return null;
  if (ways?.stale) return html`<section class="wy" aria-label="Beside the plan"><div class="fd-one"><${Grade} grade="note" quiet=${true} /><div><p>${ways.says} Plan again to have others beside it.</p></div></div></section>`;
  return html`<section class="wy" aria-label="Beside the plan">
    ${ways?.bound && html`<div class="fd-one"><${Grade} grade="note" quiet=${true} /><div><p><${Bound} says=${ways.bound} /></p></div></div>`}
    ${ways?.binds && html`<div class="fd-one"><${Grade} grade="note" quiet=${true} /><div><p>${ways.binds}</p></div></div>`}
    ${ways?.wishes?.map((w) => html`<div class="fd-one" key=${w}><${Grade} grade="note" quiet=${true} /><div><p>${w}</p></div></div>`)}
    ${ways?.price && html`<div class="fd-one"><${Grade} grade="watch" quiet=${true} /><div><p><${Bold} says=${ways.price.says} /></p><${ShowCloser} app=${app} price=${ways.price} /></div></div>`}
    ${ways?.plans > 1 ? html`<div class="fd-one"><${Grade} grade="plans" quiet=${true} /><div><p><${Bold} says=${ways.says} /></p><button type="button" class="act" onClick=${() => app.open("plans")}>Compare the plans</button></div></div>`
      : app.plan.beside ? html`<div class="fd-one"><${Grade} grade="plans" quiet=${true} /><div><p class="note" role="status">Other plans are being worked out.</p></div></div>` : null}
  </section>`;
}

// Bold sets off how a sentence begins: figures and what they count.
function Bold({ says }) {
  const [, start, rest] = says.match(/^(\d+ (?:more )?[^\d:.]*?)(?= if |:|\.)(.*)$/s) ?? [null, "", says];
  return html`<b>${start}</b>${rest}`;
}

// Bound sets off what is set, and what nobody can exceed.
function Bound({ says }) {
  const [, set, between, most, rest] = says.match(/^([^.]*\.)(?:(.*?more than )(\d+(?: %)?))?(.*)$/s) ?? [null, "", "", "", says];
  return html`<b>${set}</b>${between}${most && html`<b>${most}</b>`}${rest}`;
}

// ShowCloser makes the closer arrangement the load, with its gaps as watches.
function ShowCloser({ app, price }) {
  if (price.shown) return html`<p class="note">It stands so now; undo brings the plan back.</p>`;
  if (!price.act) return null;
  function show() {
    const before = app.state.set;
    const state = app.call("closer", {});
    if (!state) return;
    app.refresh();
    const tight = state.findings.find((f) => f.grade === "watch" && !f.accepted && f.rule === "pot to pot") ?? state.findings.find((f) => f.grade === "watch" && !f.accepted);
    const at = tight && app.levelOf({ pots: tight.pots }, {});
    app.open("load");
    if (at) { app.view = { ...app.view, mode: "top" }; app.show(at, { keepView: true }); }
    app.go("middle");
    app.say(`${state.set} of ${state.of} set, ${before} before; ${state.watches} ${state.watches === 1 ? "watch" : "watches"}. Undo takes it back.`);
  }
  return html`<button type="button" class="act" onClick=${show}>${price.act}</button>`;
}

// Plans is the whole page: a column for each plan.
export function Plans({ app }) {
  useApp(app, "state", "plan", "size");
  const top = useRef(null);
  useEffect(() => top.current?.focus({ preventScroll: true }), []);
  const state = app.state;
  const got = usePicture(app, "compare", state ? {} : null, [state?.revision, state?.ways, state?.words]);
  const back = html`<button type="button" onClick=${() => app.open("load")}>Back to the load</button>`;
  if (!got || got.stale || !got.columns.length) {
    const says = app.plan.running ? "Planning; the plans are shown here when they are made." : app.plan.beside ? "Other plans are being worked out." : got?.stale ? got.says + " Plan again to compare plans of the load as it is." : "No plans lie beside the load. Plan it, and up to three are shown here.";
    return html`<div class="pl"><h2 class="hidden" tabindex="-1" ref=${top}>Plans side by side</h2><p class="pl-none" role="status">${says}</p><p class="pl-none">${back}</p></div>`;
  }
  const rows = rowsOf(got);
  return html`<div class="pl">
    <h2 class="hidden" tabindex="-1" ref=${top}>Plans side by side</h2>
    <header class="pl-head"><p class="pl-bound"><${Bound} says=${got.bound} /></p>
      ${got.price && html`<div class="pl-price"><${Grade} grade="watch" quiet=${true} /><p><${Bold} says=${got.price.says} /></p><${ShowCloser} app=${app} price=${got.price} /></div>`}</header>
    ${got.wishes.length > 0 && html`<ul class="pl-note pl-wishes">${got.wishes.map((w) => html`<li key=${w}>${w}</li>`)}</ul>`}
    ${got.note && html`<p class="pl-note"><span>${got.note}</span>${back}</p>`}
    <div class=${"pl-grid pl-" + Math.min(got.columns.length, 3)}>
      <div class="pl-labels" aria-hidden="true"><span></span><span></span>${rows.map(([id, say]) => html`<span key=${id} class="pl-label">${say}</span>`)}<span></span></div>
      ${got.columns.map((c, i) => html`<${Column} key=${i} app=${app} plan=${c} index=${i} state=${state} rows=${rows} />`)}
    </div></div>`;
}

function Column({ app, plan, index, state, rows }) {
  const box = useRef(null);
  const { w, h } = useSize(app, box);
  const picture = usePicture(app, "way", w > 40 && h > 40 ? { plan: index, w, h } : null, [state.revision, state.ways, w, h]);
  function act() {
    if (plan.mine) return app.open("load");
    const taken = app.call("takeway", { plan: index });
    if (!taken) return undefined;
    app.refresh();
    app.open("load");
    return app.say(`${plan.title}: ${taken.set} of ${taken.of} set. Undo takes it back.`);
  }
  const id = "pl-" + index;
  return html`<section class=${"pl-plan" + (plan.mine ? " mine" : "")} aria-labelledby=${id}>
    <div class="pl-title"><h2 id=${id}>${plan.title}</h2><p class="note">${plan.says}</p></div>
    <div class="pl-picture" ref=${box}>${picture && html`<${Picture} picture=${picture} label=${app.words(`The kiln cut through, ${plan.title}`)} />`}</div>
    <dl>${rows.map(([row, say]) => html`<div key=${row}><dt>${say}</dt><dd class=${"pl-" + row}><${Figure} plan=${plan} row=${row} /></dd></div>`)}</dl>
    <div class="pl-act"><button type="button" class=${plan.mine ? "main" : ""} aria-describedby=${plan.refused ? id + "-why" : undefined} aria-disabled=${plan.refused ? "true" : undefined} onClick=${() => (plan.refused ? app.say(plan.refused) : act())}>${plan.act}</button>
      ${plan.refused && html`<p class="note" id=${id + "-why"}>${plan.refused}</p>`}</div>
  </section>`;
}

function Figure({ plan, row }) {
  switch (row) {
    case "set": return html`<b>${plan.set}</b> ${plan.set_said}`;
    case "value": return html`<progress class="pl-bar" max="1" value=${plan.share} aria-hidden="true"></progress><span>${plan.value_said}</span>`;
    case "watches": return html`<${Grade} grade=${plan.grade} quiet=${true} /><span>${plan.watches}</span>`;
    default: return plan[row];
  }
}
