// Rows pasted from a spreadsheet or typed in the short form: read with every
// stroke, shown before they are added. What cannot be read keeps its line.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { useAnswer, refusal, useId } from "./fields.js";

export function Paste({ app, text: given, small, shut }) {
  const [text, setText] = useState(given);
  const box = useRef(null);
  const id = useId();
  useEffect(() => { setText(given); }, [given]);
  useEffect(() => { box.current?.focus(); }, []);
  const got = useAnswer(app, text.trim() ? "rows" : "", { text }, [text, app.state?.revision]);
  const rows = got?.ok?.rows ?? [], refused = got?.ok?.refusals ?? [];
  const said = got ? refusal(got) : "";
  const left = text.split("\n").filter((_, i) => refused.some((r) => r.line === i + 1)).join("\n");
  // add takes what could be read; lines that could not be read stay in the box.
  function add() {
    if (!rows.length || !app.apply(got.ok.edits, got.ok.says || "rows added")) return;
    app.say(got.ok.says || "The rows are on the table.");
    if (left) setText(left);
    else shut();
  }
  return html`<section class="tb-paste ${small ? "small" : ""}" aria-label="Paste rows" onKeyDown=${(e) => { if (e.key === "Escape" && !text.trim()) { e.stopPropagation(); shut(); } }}>
    <div class="tb-pastein"><label for=${id}><b>Paste rows from a spreadsheet</b> or type them, one row a line</label>
      <textarea id=${id} ref=${box} value=${text} spellcheck=${false} rows=${small ? 3 : 6} onInput=${(e) => setText(e.target.value)}
        placeholder=${"12 mugs 100 x 85\n6 bowls 75 x 150, glaze oat, owner Ida\nvase 220 x 110, runny, must"}></textarea></div>
    <div class="tb-pasteout" role="status">
      ${rows.length + refused.length === 0 && html`<p class="note">${said || "Count, name, height x across. What is read stands here before anything is added. A spreadsheet may bring a line of headings: name, count, height, across, glaze, owner, ticket."}</p>`}
      ${rows.length > 0 && html`<ul class="tb-read">${rows.map((r) => html`<li key=${"r" + r.line}><span class="tb-line">${r.line}</span>${r.said}</li>`)}</ul>`}
      ${refused.length > 0 && html`<ul class="tb-refused">${refused.map((r) => html`<li key=${"x" + r.line}><span class="tb-line">line ${r.line}</span>${r.say}</li>`)}</ul>`}
      <p class="tb-pasteacts">${rows.length > 0 && html`<button type="button" class="main" onClick=${add}>${rows.length === 1 ? "Add the row" : `Add ${rows.length} rows`}</button>`}
        <button type="button" onClick=${shut}>${text.trim() ? "Leave them" : "Close"}</button>
        ${refused.length > 0 && rows.length > 0 && html`<span class="note">The ${refused.length === 1 ? "line that cannot be read stays" : "lines that cannot be read stay"} in the box.</span>`}</p>
    </div></section>`;
}
