// Fields of the page. A field shows what the program says; while a person
// types it shows what they typed, and it goes on showing that when the program
// refuses it, with the sentence under it. Nothing typed is ever taken away.

import { html, useState, useRef, useEffect, useLayoutEffect } from "./vendor/preact.js";

// serial gives ids that tie a field to its label and its sentence.
const serial = ((n) => () => "f" + ++n)(0);

export function useId() {
  const id = useRef(null);
  if (!id.current) id.current = serial();
  return id.current;
}

// Field is a line to type in. keep(text) gives the text away on Enter or when
// the field is left; it answers "" or the sentence of a refusal. live(text) is
// called with every stroke, for readings that follow the typing.
export function Field(p) {
  const { label, value = "", keep, live, refused = "", note, unit, quiet, input } = p;
  const [typed, setTyped] = useState(null); // null: as the program has it
  const [said, setSaid] = useState("");
  const given = useRef(null); // what Enter gave away: leaving the field gives it no second time
  const id = useId();
  const text = typed ?? value;
  const sentence = said || refused;

  function give() {
    if (typed === null || given.current === typed) return true;
    if (typed === value && !said) { setTyped(null); return true; }
    const refusal = keep?.(typed) ?? "";
    setSaid(refusal);
    if (!refusal) given.current = typed;
    if (!refusal && !p.holds) setTyped(null);
    return !refusal;
  }
  function key(e) {
    if (e.key === "Enter" && !e.isComposing) {
      if (give()) p.enter?.(e);
      else e.preventDefault();
    } else if (e.key === "Escape" && typed !== null) {
      e.stopPropagation();
      setTyped(null);
      setSaid("");
      live?.(value);
    } else p.keys?.(e);
  }
  const field = html`<input id=${id} class="in ${p.kind ?? ""}" type="text" autocomplete="off" spellcheck=${false}
    name=${p.name ?? id} value=${text} placeholder=${p.placeholder} inputmode=${p.mode} list=${p.list} size=${p.size}
    aria-label=${quiet ? label : undefined} aria-invalid=${sentence ? "true" : undefined}
    aria-describedby=${sentence ? id + "s" : note ? id + "n" : undefined} data-cell=${p.cell} ref=${input}
    onInput=${(e) => { given.current = null; setTyped(e.target.value); live?.(e.target.value); }} onBlur=${give} onKeyDown=${key}
    onFocus=${(e) => { p.focus?.(e); if (p.selects) e.target.select(); }} />`;
  const under = sentence
    ? html`<span class="in-said" id=${id + "s"} role="status">${sentence}</span>`
    : note && html`<span class="in-note" id=${id + "n"}>${note}</span>`;
  return html`<span class="field ${p.class ?? ""} ${sentence ? "refused" : ""}">
    ${!quiet && html`<label for=${id}>${label}</label>`}
    ${unit ? html`<span class="in-unit">${field}<span>${unit}</span></span>` : field}${under}</span>`;
}

// Choose is a list to choose one of: choices are [{value, say}].
export function Choose({ label, quiet, value, choices = [], pick, note, refused, kind }) {
  const id = useId();
  const known = choices.some((c) => c.value === value);
  return html`<span class="field choose ${refused ? "refused" : ""}">
    ${!quiet && html`<label for=${id}>${label}</label>`}
    <span class="in-choose"><select id=${id} class="in ${kind ?? ""}" aria-label=${quiet ? label : undefined} value=${value}
      aria-describedby=${refused || note ? id + "s" : undefined} onChange=${(e) => pick(e.target.value)}>
      ${!known && html`<option value=${value}>${value || "choose"}</option>`}
      ${choices.map((c) => html`<option key=${c.value} value=${c.value} selected=${c.value === value}>${c.say}</option>`)}
    </select><svg class="in-arrow" viewBox="0 0 12 8" width="12" height="8" aria-hidden="true"><path d="M1.5 1.5 6 6l4.5-4.5" /></svg></span>
    ${(refused || note) && html`<span class=${refused ? "in-said" : "in-note"} id=${id + "s"}>${refused || note}</span>`}</span>`;
}

// Tick is a yes or no.
export function Tick({ label, on, set, note }) {
  const id = useId();
  return html`<label class="tick" for=${id}><input id=${id} type="checkbox" checked=${on} onChange=${(e) => set(e.target.checked)} />
    <span>${label}${note && html`<span class="in-note">${note}</span>`}</span></label>`;
}

// Stepper is a count with a key to each side; a step is given as text and the
// program reads it like anything typed.
export function Stepper({ label, value, keep, kind, cell, keys, enter, refused }) {
  const n = Number(value);
  const [said, setSaid] = useState("");
  const step = (by) => setSaid(keep(String(n + by)) || "");
  return html`<span class="stepper">
    <button type="button" class="step" aria-label=${"one fewer, " + label} disabled=${!(n > 0)} onClick=${() => step(-1)}><span aria-hidden="true">−</span></button>
    <${Field} label=${label} quiet=${true} value=${value} kind=${"figure " + (kind ?? "")} mode="numeric" cell=${cell} keys=${keys} enter=${enter} keep=${keep} selects=${true} refused=${said || refused} />
    <button type="button" class="step" aria-label=${"one more, " + label} disabled=${!Number.isFinite(n)} onClick=${() => step(1)}><span aria-hidden="true">+</span></button></span>`;
}

// useAnswer asks the program again whenever one of the keys changed. It
// answers {ok} | {refusal} | null.
export function useAnswer(app, method, arg, keys) {
  const [got, set] = useState(null);
  useLayoutEffect(() => { set(method ? app.ask(method, arg) : null); }, keys);
  return got;
}

// useWidth follows the width of an element in CSS px.
export function useWidth(ref) {
  const [w, set] = useState(0);
  useEffect(() => {
    if (!ref.current) return;
    const watch = new ResizeObserver(([e]) => set(Math.floor(e.contentRect.width)));
    watch.observe(ref.current);
    return () => watch.disconnect();
  }, []);
  return w;
}

// ask answers the refusal of a call as a sentence, or "" when it was done.
export function refusal(answer) {
  return answer.refusal ?? answer.fault ?? "";
}
