// What is asked once: kiln, furniture, firing, cones, rules, wishes. Every
// field is text that the program reads; a part is given away as a whole.

import { html, useState, useRef } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Field, Choose, Tick, Stepper, useAnswer, useWidth, refusal } from "./fields.js";
import { Posts } from "./posts.js";
import { initial } from "./words.js";

const parts = [["kiln", "Kiln"], ["furniture", "Shelves and posts"], ["firing", "Firing"], ["cones", "Cones"], ["wishes", "Wishes"], ["rules", "Rules"]];

export const chambers = [{ value: "round", say: "round" }, { value: "sided", say: "many-sided" }, { value: "oval", say: "oval" }, { value: "rectangle", say: "rectangular" }];
export const opens = [{ value: "top", say: "from the top" }, { value: "front", say: "from the front" }];
const shelfShapes = ["round", "half round", "sided", "half sided", "oval", "half oval", "rectangle"].map((v) => ({ value: v, say: v }));
export const stages = [{ value: "bisque", say: "bisque" }, { value: "glaze", say: "glaze" }, { value: "refire", say: "refire" }, { value: "lustre", say: "lustre" }];
const materials = [{ value: "", say: "cordierite" }, { value: "mullite", say: "mullite" }, { value: "high alumina", say: "high alumina" }, { value: "silicon carbide", say: "silicon carbide" }];

// Cones lists the names of cones for a field, from soft to hard.
export const coneNames = ("022 021 020 019 018 017 016 015 014 013 012 011 010 09 08 07 06 05.5 05 04 03 02 01 1 2 3 4 5 5.5 6 7 8 9 10 11 12 13 14").split(" ");
export function ConeNames() { return html`<datalist id="cone-names">${coneNames.map((c) => html`<option key=${c} value=${c}></option>`)}</datalist>`; }

const oblong = (kind) => kind === "oval" || kind === "half oval" || kind === "rectangle";
const half = (kind) => kind === "half round" || kind === "half sided";

export function Setup({ app }) {
  useApp(app, "state", "place");
  const page = useRef(null);
  const got = useAnswer(app, app.state ? "kiln" : "", {}, [app.state?.revision, app.state?.words]);
  const s = got?.ok;
  if (!s) return html`<div class="se"><p class="note">${got ? refusal(got) : ""}</p></div>`;
  const give = (part, fields) => refusal(app.ask("setup", { part, fields }));
  const shared = { app, s, give };
  const go = (e, id) => { e.preventDefault(); page.current.querySelector("#se-" + id)?.scrollIntoView({ block: "start" }); page.current.querySelector("#se-" + id + " h2")?.focus(); };
  return html`<div class="se" ref=${page}><${ConeNames} />
    <nav class="se-nav" aria-label="Parts of the setup"><h1>${s.kiln.name ? initial(s.kiln.name) : "Kiln and firing"}</h1>
      <ul>${parts.map(([id, say]) => html`<li key=${id}><a href=${"#se-" + id} onClick=${(e) => go(e, id)}>${app.words(say)}</a></li>`)}</ul>
      <span class="choice" role="group" aria-label="Words">${[["US", "Shelf, post"], ["UK", "Bat, prop"]].map(([id, say]) => html`<button type="button" key=${id} aria-pressed=${app.state.words === id} onClick=${() => app.setWords(id)}>${say}</button>`)}</span>
      <button type="button" onClick=${() => app.open("load")}>Back to the load</button>
      <p class="note">Every change is kept at once; undo takes it back. What stands in the kiln stays where it is.</p></nav>
    <div class="se-body">
      <${Part} id="kiln" title="Kiln" note="Measured inside, brick to brick."><${Kiln} ...${shared} /><//>
      <${Part} id="furniture" title=${app.words("Shelves and posts")} note="What you own; the plan never takes more."><${Furniture} ...${shared} /><//>
      <${Part} id="firing" title="Firing"><${Firing} ...${shared} /><//>
      <${Part} id="cones" title="Cones" note="Packs of witness cones that stand among the pots."><${Cones} ...${shared} /><//>
      <${Part} id="wishes" title="Wishes" note="Good practice differs here, so you choose."><${Wishes} ...${shared} /><//>
      <${Part} id="rules" title="Rules" note="All figures are common practice. Change one where your kiln or your hands differ; an empty field goes back to the usual figure."><${Rules} ...${shared} /><//>
    </div></div>`;
}

function Part({ id, title, note, children }) {
  return html`<section class="se-part" id=${"se-" + id}><header><h2 tabindex="-1">${title}</h2>${note && html`<p class="note">${note}</p>`}</header>${children}</section>`;
}

// lists changes one field of one entry of a list.
const at = (list, i, change) => list.map((v, n) => (n === i ? { ...v, ...change } : v));
const without = (list, i) => list.filter((_, n) => n !== i);

function Kiln({ app, s, give }) {
  const k = s.kiln, shape = k.shape;
  const set = (change) => give("kiln", { ...k, ...change });
  const sized = (change) => set({ shape: { ...shape, ...change } });
  const say = (text) => text && app.say(text);
  const unit = s.units;
  return html`<p class="sentence">My kiln is <${Choose} quiet=${true} label="Shape of the chamber" value=${shape.kind} choices=${chambers} pick=${(v) => say(sized(reshape(shape, v)))} /> inside, ${""}
      ${shape.kind === "sided" && html`with <${Figure} label="Sides" value=${shape.sides} keep=${(t) => sized({ sides: t })} /> sides and a flat at <${Figure} label="Bearing of a flat" value=${shape.flat_at} keep=${(t) => sized({ flat_at: t })} />, `}
      ${oblong(shape.kind) ? html`<${Figure} label="Width inside" value=${shape.width} keep=${(t) => sized({ width: t })} /> wide, <${Figure} label="Depth inside" value=${shape.depth} keep=${(t) => sized({ depth: t })} /> deep`
        : html`<${Figure} label="Across inside" value=${shape.across} keep=${(t) => sized({ across: t })} /> ${unit} across${shape.kind === "sided" ? " the flats" : ""}`}${" and "}
      <${Figure} label="Height inside" value=${k.height} keep=${(t) => set({ height: t })} /> ${unit} high. I load it <${Choose} quiet=${true} label="Where it opens" value=${k.opens || "top"} choices=${opens} pick=${(v) => say(set({ opens: v }))} />.</p>
    <div class="se-row"><${Field} label="Its name" value=${k.name} keep=${(t) => set({ name: t })} />
      <${Field} label="Brick" note="76 mm when not given" kind="figure" value=${k.wall} keep=${(t) => set({ wall: t })} />
      <${Tick} label="An element or vent in the floor" on=${k.floor_element} set=${(on) => say(set({ floor_element: on }))} /></div>
    <${Holes} title="Probes" one="probe" note="Thermocouples that reach in from the wall. Nothing may stand close to them." list=${k.probes} reach=${true} set=${(v) => set({ probes: v })} fresh=${{ at: "12:00", height: k.height && unit === "mm" ? "300" : "12", reach: unit === "mm" ? "45" : "1 3/4", diameter: unit === "mm" ? "12" : "1/2" }} app=${app} />
    <${Holes} title=${app.words("Spyholes")} one=${app.words("spyhole")} note="Holes through which cones are watched." list=${k.spyholes} set=${(v) => set({ spyholes: v })} fresh=${{ at: "6:00", height: unit === "mm" ? "250" : "10", reach: "", diameter: "" }} app=${app} />`;
}

// reshape keeps the measures that a new shape has, and borrows those it lacks.
function reshape(shape, kind) {
  const was = shape.across || shape.width;
  return { ...shape, kind, across: oblong(kind) ? "" : was, width: oblong(kind) ? shape.width || was : "", depth: oblong(kind) || half(kind) ? shape.depth || was : "", sides: kind.endsWith("sided") ? shape.sides || "12" : "", flat_at: kind === "sided" ? shape.flat_at : "", corner: kind === "rectangle" ? shape.corner : "" };
}

function Figure(p) { return html`<${Field} ...${p} quiet=${true} kind="figure" selects=${true} class="inline" />`; }

function Holes({ app, title, one, note, list, reach, set, fresh }) {
  return html`<h3>${title}</h3><p class="note">${note}</p>
    ${list.map((h, i) => html`<div class="se-row" key=${i}>
      <${Field} label="At" kind="figure" value=${h.at} keep=${(t) => set(at(list, i, { at: t }))} />
      <${Field} label="Over the floor" kind="figure" value=${h.height} keep=${(t) => set(at(list, i, { height: t }))} />
      ${reach && html`<${Field} label="Reaches in" kind="figure" value=${h.reach} keep=${(t) => set(at(list, i, { reach: t }))} />`}
      <${Field} label=${reach ? "Thick" : "Wide"} kind="figure" note=${reach ? undefined : "19 mm when not given"} value=${h.diameter} keep=${(t) => set(at(list, i, { diameter: t }))} />
      <button type="button" class="link" onClick=${() => { const no = set(without(list, i)); if (no) app.say(no); }}>Take out</button></div>`)}
    <button type="button" class="act" onClick=${() => { const no = set([...list, fresh]); if (no) app.say(no); }}>Add a ${one}</button>`;
}

function Furniture({ app, s, give }) {
  const f = s.furniture;
  const set = (change) => give("furniture", { ...f, ...change });
  const say = (no) => no && app.say(no);
  const mm = s.units === "mm";
  return html`<h3>${app.words("Shelves")}</h3>
    ${f.shelves.map((k, i) => {
      const put = (change) => set({ shelves: at(f.shelves, i, change) });
      const sized = (change) => put({ shape: { ...k.shape, ...change } });
      return html`<div class="se-kind" key=${i}><p class="sentence">I own <${Stepper} label=${k.name + ", how many"} value=${k.count} keep=${(t) => put({ count: t })} /> ${""}
        <${Choose} quiet=${true} label="Shape" value=${k.shape.kind} choices=${shelfShapes} pick=${(v) => say(sized(reshape(k.shape, v)))} /> ${app.words("shelves")} called <${Field} quiet=${true} class="inline" label="Name" value=${k.name} keep=${(t) => put({ name: t })} />, ${""}
        ${oblong(k.shape.kind) ? html`<${Figure} label="Width" value=${k.shape.width} keep=${(t) => sized({ width: t })} /> by <${Figure} label="Depth" value=${k.shape.depth} keep=${(t) => sized({ depth: t })} />`
          : html`<${Figure} label="Across" value=${k.shape.across} keep=${(t) => sized({ across: t })} /> across${half(k.shape.kind) ? html`, <${Figure} label="Depth" value=${k.shape.depth} keep=${(t) => sized({ depth: t })} /> deep` : ""}`}, ${""}
        <${Figure} label="Thickness" value=${k.thick} keep=${(t) => put({ thick: t })} /> thick.</p>
        <details><summary>More of these ${app.words("shelves")}</summary><div class="se-row">
          <${Choose} label="Made of" value=${k.material} choices=${materials} pick=${(v) => say(put({ material: v }))} />
          <${Field} label="Weighs" note="from its size when not given" kind="figure" value=${k.mass} keep=${(t) => put({ mass: t })} />
          <${Field} label="Bow" kind="figure" value=${k.bow} keep=${(t) => put({ bow: t })} />
          <${Tick} label="Cracked" on=${k.cracked} set=${(on) => say(put({ cracked: on }))} /><${Tick} label="Damp" on=${k.damp} set=${(on) => say(put({ damp: on }))} />
          <button type="button" class="link" onClick=${() => say(set({ shelves: without(f.shelves, i) }))}>Take off the list</button></div></details></div>`;
    })}
    <button type="button" class="act" onClick=${() => say(set({ shelves: [...f.shelves, another(f.shelves, mm)] }))}>Add a kind of ${app.words("shelf")}</button>
    <h3>${app.words("Posts")}, with how many of each</h3>
    <${Posts} app=${app} posts=${f.posts} set=${(posts) => set({ posts })} fresh=${{ name: "", real: "", section: mm ? "square 38" : "square 1 1/2", spacer: false }} />
    <h3>Cookies and stilts</h3><p class="note">A tile under a runny pot; points under a glazed foot. They add to the height of the pot.</p>
    <${Stands} app=${app} list=${f.cookies} one="cookie" many="cookies" set=${(cookies) => set({ cookies })} fresh=${{ across: mm ? "110" : "4 3/8", high: mm ? "10" : "3/8", count: "4", metal: false }} />
    <${Stands} app=${app} list=${f.stilts} one="stilt" many="stilts" metal=${true} set=${(stilts) => set({ stilts })} fresh=${{ across: mm ? "60" : "2 3/8", high: mm ? "12" : "1/2", count: "4", metal: false }} />`;
}

// another is a new kind of shelf like the last, under a free name.
function another(shelves, mm) {
  const last = shelves.at(-1) ?? { shape: { kind: "round", across: mm ? "410" : "16", width: "", depth: "", sides: "", flat_at: "", corner: "" }, thick: mm ? "16" : "5/8", mass: "", count: "1", material: "", bow: "", cracked: false, damp: false };
  let n = 2;
  while (shelves.some((k) => k.name === `shelf ${n}`)) n++;
  return { ...last, name: `shelf ${n}`, mass: "", count: "1" };
}

function Stands({ app, list, one, many, metal, set, fresh }) {
  const say = (no) => no && app.say(no);
  return html`${list.map((c, i) => html`<p class="sentence" key=${i}><${Stepper} label=${"how many " + many} value=${c.count} keep=${(t) => set(at(list, i, { count: t }))} /> ${many}, <${Figure} label="Across" value=${c.across} keep=${(t) => set(at(list, i, { across: t }))} /> across, <${Figure} label="High" value=${c.high} keep=${(t) => set(at(list, i, { high: t }))} /> high ${""}
      ${metal && html`<${Tick} label="metal points" on=${c.metal} set=${(on) => say(set(at(list, i, { metal: on })))} />`} ${""}
      <button type="button" class="link" onClick=${() => say(set(without(list, i)))}>Take off the list</button></p>`)}
    <button type="button" class="act" onClick=${() => say(set([...list, fresh]))}>Add a ${one}</button> `;
}

function Firing({ app, s, give }) {
  const f = s.firing;
  const set = (change) => give("firing", { ...f, ...change });
  return html`<p class="sentence">This is a <${Choose} quiet=${true} label="Stage" value=${f.stage} choices=${stages.map((c) => ({ ...c, say: app.words(c.say) }))} pick=${(v) => { const no = set({ stage: v }); if (no) app.say(no); }} /> firing to cone ${""}
      <${Field} quiet=${true} class="inline" kind="figure" list="cone-names" selects=${true} label="Cone" value=${f.cone} keep=${(t) => set({ cone: t })} /> (<b class="se-temp">${temperature(app.state.firing)}</b>).</p>
    <p class="note">Cones are names: 05 and 5 lie 155 C apart. The temperature is the cone's at 60 C an hour.</p>
    <div class="se-row"><${Field} label="Peak, when it differs" kind="figure" value=${f.peak} placeholder="1222 C" keep=${(t) => set({ peak: t })} />
      <${Field} label="Programme" value=${f.programme} keep=${(t) => set({ programme: t })} /><${Field} label="Date" value=${f.date} placeholder="2026-10-14" keep=${(t) => set({ date: t })} /></div>`;
}

// temperature is what stands in brackets after a cone: "cone 6 (1222 C)".
export function temperature(said) { return /\(([^)]*)\)/.exec(said ?? "")?.[1] ?? ""; }

function Cones({ app, s, give }) {
  const list = s.cones;
  const set = (v) => give("cones", v);
  const say = (no) => no && app.say(no);
  const holes = [{ value: "", say: "any that sees them" }, ...s.kiln.spyholes.map((h, i) => ({ value: String(i + 1), say: `the hole at ${h.at}` }))];
  return html`${list.map((c, i) => html`<div class="se-row" key=${i}><${Field} label="Called" value=${c.name} keep=${(t) => set(at(list, i, { name: t }))} />
      <${Field} label="Cones" note="such as 5 6 7" value=${c.pack} keep=${(t) => set(at(list, i, { pack: t }))} />
      <${Tick} label=${app.words("Watched through a spyhole")} on=${c.watched} set=${(on) => say(set(at(list, i, { watched: on })))} />
      ${c.watched && html`<${Choose} label="Seen through" value=${c.spyhole} choices=${holes} pick=${(v) => say(set(at(list, i, { spyhole: v })))} />`}
      <button type="button" class="link" onClick=${() => say(set(without(list, i)))}>Take out</button></div>`)}
    <button type="button" class="act" onClick=${() => say(set([...list, { name: free(list), pack: s.firing.cone, watched: s.kiln.spyholes.length > 0, spyhole: "" }]))}>Add a cone pack</button>`;
}

function free(list) {
  let n = list.length + 1;
  while (list.some((c) => c.name === `cones ${n}`)) n++;
  return `cones ${n}`;
}

function Wishes({ app, s, give }) {
  const w = s.wishes;
  const set = (change) => give("wishes", { ...w, ...change });
  const say = (no) => no && app.say(no);
  const tall = [{ value: "", say: "where it fits best" }, { value: "low", say: "low" }, { value: "high", say: "high" }, { value: "alternate", say: "in turn with short" }];
  const towers = [{ value: "", say: "as fits best" }, { value: "one", say: "in one tower" }, { value: "halves", say: "in two sides" }];
  return html`<p class="sentence">Tall ware goes <${Choose} quiet=${true} label="Tall ware" value=${w.tall} choices=${tall} pick=${(v) => say(set({ tall: v }))} />. The kiln is built <${Choose} quiet=${true} label="Towers" value=${w.towers} choices=${towers} pick=${(v) => say(set({ towers: v }))} />.</p>
    <${Tick} label=${app.words("Stagger the shelves of towers side by side")} on=${w.stagger} set=${(on) => say(set({ stagger: on }))} />
    <div class="se-row"><${Field} label=${app.words("Posts in from the shelf's edge")} note="an inset costs pots on small shelves" kind="figure" value=${w.inset} keep=${(t) => set({ inset: t })} />
      <${Field} label=${app.words("Room above, under each shelf")} kind="figure" value=${w.room_above} keep=${(t) => set({ room_above: t })} /></div>
    ${app.state.ware.length > 0 && html`<fieldset class="se-leave"><legend>Leave out of this load</legend>${app.state.ware.map((r) => html`<${Tick} key=${r.name} label=${r.name} on=${w.leave_out.includes(r.name)}
      set=${(on) => say(set({ leave_out: on ? [...w.leave_out, r.name] : w.leave_out.filter((n) => n !== r.name) }))} />`)}</fieldset>
      <${KeptOff} app=${app} list=${w.off} set=${(off) => say(set({ off }))} />`}
    ${w.owners.map((o) => html`<p class="sentence" key=${o}>${o}'s pots stand <${Choose} quiet=${true} label=${`${o}'s pots`} value=${ownerValue(w, o)} choices=${ownerWays} pick=${(v) => say(set(ownerSet(w, o, v)))} />.</p>`)}`;
}

const ownerWays = [{ value: "", say: "wherever they fit best" }, { value: "together", say: "on one level, or as few as hold them" }, { value: "apart", say: "on levels of their own" }];

function ownerValue(w, owner) { return w.apart.includes(owner) ? "apart" : w.together.includes(owner) ? "together" : ""; }

function ownerSet(w, owner, value) {
  const put = (list, on) => (on ? [...list.filter((o) => o !== owner), owner] : list.filter((o) => o !== owner));
  return { together: put(w.together, value === "together"), apart: put(w.apart, value === "apart") };
}

// KeptOff lists the levels that rows of ware keep off.
function KeptOff({ app, list, set }) {
  const rows = app.state.ware.map((r) => ({ value: r.name, say: r.name }));
  const levels = [{ value: "bottom", say: "the bottom level" }, { value: "top", say: "the top level" }, ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => ({ value: String(n), say: `level ${n} from the floor` }))];
  return html`<fieldset class="se-leave"><legend>Keep off a level</legend>${list.map((o, i) => html`<div class="se-row" key=${i}>
      <p class="sentence"><${Choose} quiet=${true} label="Ware" value=${o.ware} choices=${rows} pick=${(v) => set(at(list, i, { ware: v }))} /> off <${Choose} quiet=${true} label="Level" value=${o.level} choices=${levels} pick=${(v) => set(at(list, i, { level: v }))} /></p>
      <button type="button" class="link" onClick=${() => set(without(list, i))}>Take out</button></div>`)}
    <button type="button" class="act" onClick=${() => set([...list, { ware: rows[0].value, level: "bottom" }])}>Keep a row off a level</button></fieldset>`;
}

function Rules({ app, s, give }) {
  return html`<div class="se-scroll"><table class="se-rules"><thead><tr><th scope="col">Rule</th><th scope="col">Problem</th><th scope="col">Watch</th><th scope="col">Plan at</th></tr></thead>
    <tbody>${s.rules.map((r) => {
      const keep = (column) => (t) => give("rule", { name: r.name, problem: r.problem, watch: r.watch, plan: r.plan, [column]: t });
      return html`<tr key=${r.name} class=${r.changed ? "changed" : ""}><th scope="row"><span class="se-rule">${initial(app.words(r.name))}${r.changed && html` <span class="tb-chip">changed</span> <button type="button" class="link" onClick=${() => { const no = give("rule", { name: r.name, problem: "", watch: "", plan: "" }); if (no) app.say(no); }}>Back to the usual</button>`}</span><span class="note">${r.why}</span></th>
        ${["problem", "watch", "plan"].map((c) => html`<td key=${c} data-head=${{ problem: "problem", watch: "watch", plan: "plan" }[c]}>${(r.columns ?? []).includes(c) && html`<${Field} quiet=${true} kind="figure" selects=${true} label=${`${r.name}, ${c}`} value=${r[c]} keep=${keep(c)} />`}</td>`)}</tr>`;
    })}</tbody></table></div>`;
}
