// Print: what is wanted on paper, seen as pages before it is made.

import { html, useState, useEffect, useRef } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { talk } from "./save.js";
import { download } from "./bring.js";
import { Cautions } from "./cautions.js";

const parts = [
  { id: "front", say: "Front page", why: "to tape on the lid: levels, posts, what each takes" },
  { id: "boards", say: "Board list", why: "which pots to carry out, and on which board" },
  { id: "levels", say: "Level pages", why: "every level from above, in the order of setting" },
  { id: "papers", say: "Shelf papers", why: "1:1, to set a level on a table first; print at 100 %" },
  { id: "measuring", say: "Measuring sheet", why: "1:1, to measure pots on; print at 100 %" },
];

function Pick({ name, say, value, choices, set }) {
  return html`<fieldset class="pr-pick"><legend>${say}</legend><span class="choice">${choices.map((c) => html`<button type="button" key=${c} aria-pressed=${value === c} onClick=${() => set(c)}>${c}</button>`)}</span></fieldset>`;
}

export function Print({ app }) {
  useApp(app, "state", "place");
  const state = app.state;
  const [wanted, setWanted] = useState(["front", "boards", "levels"]);
  const [paper, setPaper] = useState(state?.units === "in" ? "Letter" : "A4");
  const [units, setUnits] = useState(state?.units ?? "mm");
  const [words, setWords] = useState(state?.words ?? "US");
  const [pages, setPages] = useState([]);
  const [said, setSaid] = useState("");
  const [busy, setBusy] = useState(true);
  const asked = useRef(0);
  const ask = () => {
    const text = app.call("text", {})?.text;
    return text === undefined ? null : { text, parts: parts.map((p) => p.id).filter((id) => wanted.includes(id)), paper, units, words, beside: app.plan.known() };
  };
  useEffect(() => {
    const mine = ++asked.current;
    const later = setTimeout(async () => {
      if (!wanted.length) { setPages(free([])); setBusy(false); return setSaid("Nothing is chosen; take at least one part."); }
      const body = ask();
      if (!body) return;
      setBusy(true);
      const answer = await talk("POST", "/api/pages", body);
      if (mine !== asked.current) return;
      setBusy(false);
      setSaid(answer.status === 200 ? "" : answer.body.refusal ?? "The pages cannot be made.");
      setPages(free(answer.status === 200 ? answer.body.pages.map((p) => ({ name: p.name, url: URL.createObjectURL(new Blob([p.svg], { type: "image/svg+xml" })) })) : []));
    }, 120);
    return () => clearTimeout(later);
  }, [wanted.join(), paper, units, words, state?.revision]);
  const kept = useRef([]);
  // free lets go of the pages shown before.
  function free(next) {
    kept.current.forEach((p) => URL.revokeObjectURL(p.url));
    kept.current = next;
    return next;
  }
  useEffect(() => () => { asked.current++; free([]); }, []);

  async function pdf(open) {
    const body = ask();
    if (!body || !wanted.length) return;
    const tab = open ? window.open("", "_blank") : null;
    let answer;
    try {
      answer = await fetch("/api/pdf", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
    } catch {
      tab?.close();
      return setSaid("Threepost does not answer. Start it again; the load is as it was.");
    }
    if (!answer.ok) {
      tab?.close();
      const no = await answer.json().catch(() => ({}));
      return setSaid(no.refusal ?? "The PDF cannot be made.");
    }
    const blob = new Blob([await answer.arrayBuffer()], { type: "application/pdf" });
    if (tab) {
      const url = URL.createObjectURL(blob);
      tab.location.href = url;
      setTimeout(() => URL.revokeObjectURL(url), 60000);
    } else download(`${state.title || "load"}.pdf`, blob, "application/pdf");
  }
  if (!state) return html`<div class="pr"><p class="note">No load is open; open one or begin one.</p></div>`;
  const flip = (id) => setWanted(wanted.includes(id) ? wanted.filter((w) => w !== id) : [...wanted, id]);
  const count = pages.length;
  return html`<div class="pr"><section class="pr-how" aria-label="What to print"><h1>Print the sheet</h1>
      <fieldset class="pr-parts"><legend class="hidden">Parts</legend>${parts.map((p) => html`<label class="tick" key=${p.id}><input type="checkbox" checked=${wanted.includes(p.id)} onChange=${() => flip(p.id)} /><span><b>${app.words(p.say)}</b><span class="in-note">${app.words(p.why)}</span></span></label>`)}</fieldset>
      <${Pick} say="Paper" value=${paper} choices=${["A4", "Letter"]} set=${setPaper} />
      <${Pick} say="Units" value=${units} choices=${["mm", "in"]} set=${setUnits} />
      <${Pick} say="Words" value=${words} choices=${["US", "UK"]} set=${setWords} />
      <p class="pr-acts"><button type="button" class="main" aria-disabled=${count ? undefined : "true"} onClick=${() => pdf(false)}>Download the PDF</button>
        <button type="button" aria-disabled=${count ? undefined : "true"} onClick=${() => pdf(true)}>Open the PDF</button></p>
      <p class=${said ? "in-said" : "note"} role="status">${said || (busy ? "The pages are being made." : `${count} ${count === 1 ? "page" : "pages"}.`)}
        ${!said && !busy && state.problems > 0 ? ` ${state.head} in this load; the paper shows it as it stands.` : ""}</p>
      <${Cautions} app=${app} kinds=${["paper", "kiln", "lift", "dust"]} />
      <button type="button" class="link" onClick=${() => app.open("load")}>Back to the load</button></section>
    <section class="pr-pages ${busy ? "busy" : ""}" aria-label="Pages" tabindex="0">${pages.map((p, i) => html`<figure key=${i}><img src=${p.url} alt=${`Page ${i + 1}: ${p.name}`} /><figcaption class="note">Page ${i + 1} of ${count}</figcaption></figure>`)}</section>
  </div>`;
}
