// The profile of a row of ware, seen from the side. Its points are pulled by
// the pointer, moved by the arrow keys, or typed. Every pull is one edit.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { Field, useWidth, refusal } from "./fields.js";
import { Picture } from "./picture.js";
import { Small } from "./rows.js";
import { initial } from "./words.js";

const high = 400; // px of the drawing

const knotOf = (mark) => (mark?.id?.startsWith("knot:") ? Number(mark.id.slice(5)) : -1);

export function Form({ app, ware }) {
  const box = useRef(null), svg = useRef(null), held = useRef(-1);
  const w = Math.round(useWidth(box) / app.scale);
  const [form, setForm] = useState(null);
  const [said, setSaid] = useState("");
  const [point, setPoint] = useState(-1);
  useEffect(() => {
    if (!w || held.current >= 0) return;
    const got = app.ask("profile", { ware, w, h: high });
    setSaid(refusal(got));
    if (got.ok) setForm(got.ok);
  }, [ware, w, app.state?.revision, app.state?.words]);

  // show takes what a change of the open profile answers.
  function show(got) {
    const no = refusal(got);
    setSaid(no);
    if (got.ok) setForm(got.ok);
    return no;
  }
  function keep() {
    const no = refusal(app.ask("keep", {}));
    setSaid(no);
    return no;
  }
  function down(mark, e) {
    const index = knotOf(mark);
    if (index < 0 || e.button > 0) return;
    e.preventDefault();
    const frame = svg.current, id = e.pointerId;
    frame.setPointerCapture?.(id);
    held.current = index;
    setPoint(index);
    let moved = false;
    const at = (ev) => {
      const r = frame.getBoundingClientRect();
      return { x: (ev.clientX - r.left) / app.scale, y: (ev.clientY - r.top) / app.scale };
    };
    const move = (ev) => {
      if (ev.pointerId !== id) return;
      moved = true;
      show(app.ask("knot", { index, ...at(ev) }));
    };
    const end = (ev) => {
      if (ev.pointerId !== id) return;
      frame.removeEventListener("pointermove", move);
      frame.removeEventListener("pointerup", end);
      frame.removeEventListener("pointercancel", end);
      held.current = -1;
      if (!moved) return;
      if (ev.type === "pointerup") keep();
      else show(app.ask("profile", { ware, w, h: high }));
    };
    frame.addEventListener("pointermove", move);
    frame.addEventListener("pointerup", end);
    frame.addEventListener("pointercancel", end);
  }
  // key moves a point by a step of the person's units: 1 mm or 1/16 in.
  function key(mark, e) {
    const index = knotOf(mark), knot = form?.knots[index];
    if (!knot) return;
    const step = (app.state.units === "in" ? 25.4 / 16 : 1) * (e.shiftKey ? 10 : 1);
    const by = { ArrowUp: [step, 0], ArrowDown: [-step, 0], ArrowLeft: [0, -step], ArrowRight: [0, step] }[e.key];
    if (!by) return;
    e.preventDefault();
    setPoint(index);
    held.current = index;
    const no = show(app.ask("knot", { index, height: knot.height + by[0], diameter: knot.diameter + by[1] }));
    held.current = -1;
    if (!no) keep();
    app.speak?.(form.knots[index]?.said ?? "");
  }
  const measure = (what) => (text) => show(app.ask("measure", { what, text })) || keep();
  // change puts a point in or takes one out, and goes to the point it leaves.
  function change(call, to) {
    if (!show(app.ask(call, { index: point })) && !keep()) setPoint(to);
  }
  const knot = form?.knots[point], last = (form?.knots.length ?? 0) - 1;
  return html`<section class="fo" aria-label=${"Profile of " + ware}>
    <header class="fo-head"><h2>${initial(ware)}</h2><p class="note">pull the squares, use the arrow keys, or type</p></header>
    <div class="fo-picture" ref=${box}>${form?.picture && html`<${Picture} picture=${form.picture} svg=${svg} label=${`Profile of ${ware}, ${form.knots.length} points`}
      ondown=${down} onkey=${key} onfocus=${(mark) => setPoint(knotOf(mark))} focusable=${["knot"]} />`}</div>
    ${form && html`<div class="fo-sizes">
      <${Field} label="Height" kind="figure" mode="text" selects=${true} value=${form.height} keep=${measure("height")} />
      <${Field} label="Widest" kind="figure" selects=${true} value=${form.across} keep=${measure("across")} />
      <${Field} label="Foot" kind="figure" selects=${true} value=${form.foot} keep=${measure("foot")} /></div>
      ${knot && html`<div class="fo-point" key=${point}><b>Point ${point + 1} of ${form.knots.length}</b>
        <${Field} label="at a height of" kind="figure" selects=${true} value=${knot.height_said ?? ""} keep=${measure(`point ${point + 1} height`)} />
        <${Field} label="wide" kind="figure" selects=${true} value=${knot.diameter_said ?? ""} keep=${measure(`point ${point + 1} across`)} />
        <span class="fo-acts"><button type="button" class="link" onClick=${() => change("addpoint", Math.min(point, last - 1) + 1)}>Add a point above</button>
        ${point > 0 && point < last && html`<button type="button" class="link" onClick=${() => change("removepoint", point - 1)}>Take it out</button>`}</span></div>`}
      ${!knot && html`<p class="note">Choose a square to type its figures, to add a point above it or to take it out.</p>`}
      <p class="fo-said">${form.said}${form.assumed && html` <span class="note">${initial(form.assumed)}.</span>`}</p>
      ${form.needs && html`<p class="fo-needs"><svg width="20" height="16" viewBox="0 0 20 16" aria-hidden="true"><path d="M3 12.5H17M6.5 12.5V4.5H13.5V12.5" /></svg><span>${form.needs}</span></p>`}`}
    ${said && html`<p class="in-said" role="status">${said}</p>`}
    ${!form && !said && html`<${Small} app=${app} ware=${ware} w=${120} h=${160} />`}
  </section>`;
}
