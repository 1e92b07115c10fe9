// Rows of the table as cells: everything a person typed of a pot, edited in
// place. Enter goes on to the row below, on the last one to a new row.

import { html, useState, useRef } from "./vendor/preact.js";
import { Field, Stepper, useAnswer, refusal } from "./fields.js";
import { Picture } from "./picture.js";
import { initial } from "./words.js";

// columns of the table; wide ones only show where there is room.
const columns = [
  { key: "name", head: "Ware", say: "name" },
  { key: "count", head: "Count", say: "count", figure: true },
  { key: "height", head: "High", say: "height", figure: true },
  { key: "across", head: "Across", say: "across", figure: true },
  { key: "mass", head: "Weight", say: "weight of one", figure: true },
  { key: "glaze", head: "Glaze", say: "glaze" },
  { key: "clay", head: "Clay", say: "clay", wide: true },
  { key: "owner", head: "Whose", say: "owner" },
  { key: "since", head: "Since", say: "waiting since", wide: true },
];

// Rows is the table itself. shown are the names that a search left, or null.
export function Rows({ app, shown, paste }) {
  const table = useRef(null);
  const rows = (app.state?.ware ?? []).filter((r) => !shown || shown.includes(r.name));
  // keys moves between rows with the arrow keys, within one column.
  function keys(e, row, column) {
    const by = e.key === "ArrowDown" ? 1 : e.key === "ArrowUp" ? -1 : 0;
    if (!by || e.altKey || e.ctrlKey || e.metaKey) return;
    e.preventDefault();
    goTo(row + by, column);
  }
  function goTo(row, column) {
    const cells = table.current;
    const to = cells.querySelector(`[data-cell="${row}:${column}"]`) ?? (row >= rows.length ? cells.querySelector("[data-cell=new]") : null);
    to?.focus();
  }
  return html`<div class="tb-rows" ref=${table}>
    <table class="tb-table">
      <caption class="hidden">The table: every row is a kind of pot. Enter goes to the row below.</caption>
      <thead><tr><th class="tb-pic"><span class="hidden">Silhouette</span></th>
        ${columns.map((c) => html`<th key=${c.key} scope="col" class="tb-${c.key} ${c.figure ? "tb-figure" : ""} ${c.wide ? "tb-wide" : ""}">${c.head}</th>`)}
        <th scope="col" class="tb-mark">Mark</th><th scope="col" class="tb-where">Where</th></tr></thead>
      <tbody>${rows.map((r, i) => html`<${Row} key=${i} app=${app} row=${r} at=${i} keys=${keys} goTo=${goTo} />`)}</tbody>
    </table>
    ${shown && !rows.length && html`<p class="tb-none">No row of the table is like that.</p>`}
    <${NewRow} app=${app} paste=${paste} keys=${(e) => { if (e.key === "ArrowUp") { e.preventDefault(); goTo(rows.length - 1, "name"); } }} />
  </div>`;
}

function Row({ app, row, at, keys, goTo }) {
  const chosen = app.chosen?.kind === "ware" && app.chosen.thing?.ware === row.name;
  const held = !chosen && app.chosen?.pots?.length === 1 && app.state.pots.find((p) => p.id === app.chosen.pots[0])?.ware === row.name;
  const give = (key) => (text) => change(app, row, { [key]: text });
  const choose = () => { if (!chosen) app.choose({ ware: row.name }); };
  const cell = (c) => {
    const label = `${c.say} of ${row.name}`;
    const value = row.fields[c.key] ?? "";
    const shared = { label, quiet: true, value, cell: `${at}:${c.key}`, keys: (e) => keys(e, at, c.key), enter: (e) => { e.preventDefault(); goTo(at + 1, c.key); }, keep: give(c.key) };
    if (c.key === "count") return html`<${Stepper} ...${shared} />`;
    if (c.key === "owner") return html`<${Field} ...${shared} kind="tb-in" placeholder=${chosen ? "owner" : undefined} />${(chosen || row.fields.ticket) && html`<${Field} label=${`ticket of ${row.name}`} quiet=${true} kind="tb-in tb-tick" value=${row.fields.ticket} placeholder="ticket" keep=${give("ticket")} />`}`;
    return html`<${Field} ...${shared} kind=${"tb-in " + (c.figure ? "figure" : "")} selects=${c.figure} placeholder=${c.key === "name" ? undefined : chosen ? c.head.toLowerCase() : undefined} />`;
  };
  return html`<tr class="tb-row ${chosen ? "chosen" : ""} ${held ? "near" : ""}" aria-selected=${chosen ? "true" : undefined} onfocusin=${choose} onClick=${choose}>
    <td class="tb-pic"><${Small} app=${app} ware=${row.name} chosen=${chosen} /></td>
    ${columns.map((c) => html`<td key=${c.key} data-head=${c.head} class="tb-${c.key} ${c.figure ? "tb-figure" : ""} ${c.wide ? "tb-wide" : ""}">${cell(c)}</td>`)}
    <td class="tb-mark" data-head="Mark"><${Marks} app=${app} row=${row} chosen=${chosen} /></td>
    <td class="tb-where" data-head="Where"><${Where} row=${row} />
      ${chosen && html`<span class="tb-acts">
        <button type="button" class="link" onClick=${() => app.call("duplicate", { name: row.name })}>Duplicate</button>
        <button type="button" class="link" onClick=${() => remove(app, row)}>Remove</button></span>`}</td></tr>`;
}

// change gives cells of a row away; it answers "" or the sentence of a refusal.
export function change(app, row, cells) {
  return refusal(app.ask("row", { name: row.name, fields: { ...row.fields, ...cells } }));
}

function remove(app, row) {
  if (app.call("remove", { name: row.name })) app.say(`${initial(row.name)} is off the list. Undo brings it back.`);
}

// Where says how many stand where, and why the rest waits.
export function Where({ row }) {
  if (!row.waits) return html`<span class="tb-quiet">${row.where}</span>`;
  const [stands, waits] = parts(row);
  return html`<span>${stands}<b>${waits}</b></span>${row.why && html`<span class="tb-why">${row.why}</span>`}`;
}

// parts sets off the part of "24 set, 4 wait" that waits.
function parts(row) {
  const cut = row.where.lastIndexOf(", ");
  return cut < 0 ? ["", row.where] : [row.where.slice(0, cut + 2), row.where.slice(cut + 2)];
}

// Small is the silhouette of a row, drawn by the program.
export function Small({ app, ware, chosen, w = 44, h = 42 }) {
  const got = useAnswer(app, "aside", { ware, w, h, scale: true }, [app.state?.revision, ware, w, h]);
  if (!got?.ok) return html`<svg class="tb-small" width=${w} height=${h} aria-hidden="true"></svg>`;
  return html`<span class="tb-small ${chosen ? "held" : ""}" aria-hidden="true"><${Picture} picture=${got.ok} /></span>`;
}

// marks of a row as the file has them, with what they mean.
const marks = [
  { flag: "runny", say: "Runny", why: "stands on a cookie, 10 wider all round" },
  { flag: "refire", say: "Refire", why: "twice the room to its neighbours" },
  { flag: "bloats", say: "Bloats", why: "twice the room to its neighbours" },
  { flag: "spits", say: "Spits", why: "twice the room to its neighbours" },
  { flag: "glazed foot", say: "Glazed foot", why: "wants a stilt, below cone 1 only" },
  { flag: "fuming", say: "Fuming", why: "gives off metal fume: apart from what takes colour from it" },
  { flag: "fume-sensitive", say: "Fume-sensitive", why: "takes colour from fume" },
  { flag: "unglazed", say: "Unglazed", why: "bare clay" },
];

function Marks({ app, row, chosen }) {
  const [open, setOpen] = useState(false);
  const fields = row.fields;
  const flags = fields.flags ?? [];
  const give = (cells) => { const said = change(app, row, cells); if (said) app.say(said); };
  const must = (v) => give({ must: fields.must === v ? "" : v });
  const flag = (f) => give({ flags: flags.includes(f) ? flags.filter((g) => g !== f) : [...flags, f] });
  const close = (e) => { if (e.key === "Escape") { e.stopPropagation(); setOpen(false); } };
  return html`<div class="tb-marks" onKeyDown=${close}>
    ${(row.marks ?? []).map((m) => html`<span key=${m} class="tb-chip">${m}</span>`)}
    ${(chosen || open) && html`<button type="button" class="link" aria-expanded=${open} onClick=${() => setOpen(!open)}>${open ? "Done" : "Mark"}</button>`}
    ${open && html`<fieldset class="tb-sheet"><legend>Marks of ${row.name}</legend>
      <${Toggle} on=${fields.must === "must"} say="Must go" why="goes in before all others" flip=${() => must("must")} />
      <${Toggle} on=${fields.must === "filler"} say="Filler" why="goes in after all others, where room is left" flip=${() => must("filler")} />
      ${marks.map((m) => html`<${Toggle} key=${m.flag} on=${flags.includes(m.flag)} say=${m.say} why=${m.why} flip=${() => flag(m.flag)} />`)}
      <${Field} label="Stands on" value=${fields.stand ?? ""} placeholder="cookie, stilt or wads" keep=${(text) => change(app, row, { stand: text })} />
      <${Field} label="Shape" value=${fields.form ?? ""} placeholder="mug, bowl, plate, bottle" keep=${(text) => change(app, row, { form: text })} />
    </fieldset>`}</div>`;
}

function Toggle({ on, say, why, flip }) {
  return html`<label class="tick"><input type="checkbox" checked=${on} onChange=${flip} /><span>${say}<span class="in-note">${why}</span></span></label>`;
}

// NewRow is a row that is typed in the short form and read with every stroke.
export function NewRow({ app, keys, paste, plain }) {
  const [text, setText] = useState("");
  const [said, setSaid] = useState("");
  const input = useRef(null);
  const read = useAnswer(app, text.trim() ? "rows" : "", { text }, [text, app.state?.revision]);
  const example = app.state?.units === "in" ? "12 mugs 4 x 3 3/8" : "12 mugs 100 x 85";
  function add() {
    if (!text.trim()) return;
    const answer = app.ask("rows", { text });
    const first = answer.ok?.refusals?.[0]?.say ?? refusal(answer);
    if (first) return setSaid(first);
    if (!app.apply(answer.ok.edits, answer.ok.says || "rows added")) return;
    setText("");
    setSaid("");
    input.current?.focus();
  }
  function pasted(e) {
    const clip = e.clipboardData?.getData("text") ?? "";
    if (!/[\n\t]/.test(clip.trim())) return;
    e.preventDefault();
    e.stopPropagation();
    paste(clip);
  }
  const reading = read?.ok?.rows?.map((r) => r.said).join("; ");
  const refused = said && read?.ok?.refusals?.length ? read.ok.refusals[0].say : "";
  return html`<form class="tb-new ${plain ? "plain" : ""}" onSubmit=${(e) => { e.preventDefault(); add(); }}>
    <label for="tb-new" class=${plain ? "hidden" : "tb-newlabel"}>Add a row</label>
    <input id="tb-new" data-cell="new" class="in" type="text" autocomplete="off" spellcheck=${false} ref=${input} value=${text}
      placeholder=${`count, name, height x across: ${example}`} aria-describedby="tb-reading"
      onInput=${(e) => { setText(e.target.value); setSaid(""); }} onPaste=${pasted}
      onKeyDown=${(e) => { if (e.key === "Escape" && text) { e.stopPropagation(); setText(""); setSaid(""); } else keys?.(e); }} />
    ${text.trim() && html`<button type="submit">Add</button>`}
    <output id="tb-reading" class=${refused ? "in-said" : "tb-reading"}>${refused || reading || (text.trim() && read?.ok?.refusals?.[0]?.say) || ""}</output>
  </form>`;
}
