// The first run: a kiln in one sentence, with usual figures to start from. A
// size is picked or typed; posts are counted; the cone is asked; no more.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { useApp } from "./store.js";
import { Field, Choose, useWidth, refusal } from "./fields.js";
import { Picture } from "./picture.js";
import { Posts } from "./posts.js";
import { ConeNames, chambers, opens, stages, temperature } from "./setup.js";
import { Cautions } from "./cautions.js";
import { openFiles } from "./bring.js";
import { talk } from "./save.js";

const shapes = ["round", "half round", "rectangle", "oval", "half oval"].map((v) => ({ value: v, say: v }));

export function First({ app }) {
  useApp(app, "state", "place", "size");
  const box = useRef(null);
  const wide = Math.round(useWidth(box) / app.scale);
  const [answers, setAnswers] = useState(null);
  const [first, setFirst] = useState(null);
  const [said, setSaid] = useState("");
  const [list, setList] = useState("");
  const [room, setRoom] = useState(app.room);
  const [busy, setBusy] = useState(false);
  const touched = useRef(false); // the posts were counted by hand: other units keep them
  const w = Math.max(220, Math.min(wide || 360, 640));
  // tall is the room for the drawing: its place on a desk, less on a phone.
  const tall = () => (matchMedia("(max-width: 899px)").matches ? 380 : Math.max(320, (box.current?.clientHeight ?? 556) / app.scale - 16));
  useEffect(() => {
    if (app.down) return;
    const got = app.ask("first", { answers: answers ?? undefined, w, h: tall() });
    if (got.ok) setFirst((was) => (got.ok.refused ? { ...got.ok, picture: was?.picture, cone: was?.cone } : got.ok));
    setSaid(got.ok?.refused ? got.ok.says.replace(/[^.]$/, "$&.") : refusal(got));
    if (got.ok && !answers) setAnswers(got.ok.answers);
    else if (got.ok && answers.from) setAnswers(got.ok.answers);
  }, [answers, w, app.down]);
  useEffect(() => { if (!room) talk("GET", "/api/room").then(({ status, body }) => { if (status === 200) { app.room = body; setRoom(body); } }); }, []);

  const a = first?.answers;
  // set takes an answer as it was typed; what makes no kiln stays in its field
  // and is told under the sentence.
  const set = (change) => { if (change.posts?.length) touched.current = true; setAnswers({ ...(answers ?? a), ...change }); return ""; };
  const shelf = (i, change) => set({ shelves: a.shelves.map((s, n) => (n === i ? { ...s, ...change } : s)) });
  async function build() {
    if (busy) return;
    const got = app.ask("begin", { answers: answers ?? a });
    const no = refusal(got);
    setSaid(no);
    if (no) return;
    setBusy(true);
    // The place first: while the file is made the person may have gone on.
    app.pasted = list.trim() ? list : null;
    app.open(list.trim() ? "table" : "load");
    await app.file.openText(got.ok.text, got.ok.title);
    setBusy(false);
  }
  const units = (u) => { if (a && u !== a.units) set({ units: u, from: a.units || "mm", ...(touched.current ? {} : { posts: [] }) }); };
  return html`<div class="fi" onDragOver=${(e) => e.preventDefault()} onDrop=${(e) => { e.preventDefault(); openFiles(app, e.dataTransfer.files, setList); }}>
    <${ConeNames} />
    <div class="fi-kiln" ref=${box}>${first?.picture && html`<${Picture} picture=${first.picture} label="Half of the kiln, cut through" />`}</div>
    <div class="fi-ask"><h1 class="question">What do you fire in, and with what?</h1>
      ${a && html`<${Sentence} app=${app} first=${first} a=${a} set=${set} shelf=${shelf} units=${units} said=${said} />
      <div class="fi-go"><button type="button" class="main" disabled=${busy} onClick=${build}>Build my kiln</button>
        <p class=${said ? "in-said" : "note"} role="status">${said || first.says}</p></div>`}
      ${!a && html`<p class="note">${app.down ? "Threepost opens." : said}</p>`}
</div>
    <${Round} app=${app} room=${room} />
    <${Shapes} app=${app} list=${list} setList=${setList} inches=${a?.units === "in"} />
  </div>`;
}

function Sentence({ app, first, a, set, shelf, units, said }) {
  const size = first.sizes.findIndex((s) => s.answers.shape === a.shape && s.answers.sides === a.sides && s.answers.across === a.across && s.answers.width === a.width && s.answers.height === a.height && (a.units || "mm") === "mm");
  const oblong = a.shape === "oval" || a.shape === "rectangle";
  const blank = (label, key) => html`<${Field} quiet=${true} class="inline" kind="figure" selects=${true} label=${label} value=${a[key]} keep=${(t) => set({ [key]: t })} live=${(t) => set({ [key]: t })} />`;
  const u = a.units || "mm";
  // pickSize takes a usual size, and lets shelves be assumed anew for it.
  const pickSize = (v) => { const s = first.sizes[Number(v)]; if (s) set({ ...s.answers, shelves: [], posts: u === "mm" ? a.posts : [], cone: a.cone, stage: a.stage, title: a.title, units: "mm", from: "" }); };
  return html`<div class="fi-size"><${Choose} label="A usual size" value=${size < 0 ? "" : String(size)} choices=${[...(size < 0 ? [{ value: "", say: "my own figures" }] : []), ...first.sizes.map((s, i) => ({ value: String(i), say: s.say }))]} pick=${pickSize} />
      <span class="choice" role="group" aria-label="Units">${["mm", "in"].map((x) => html`<button type="button" key=${x} aria-pressed=${u === x} onClick=${() => units(x)}>${x}</button>`)}</span></div>
    <p class="sentence">My kiln is <${Choose} quiet=${true} label="Shape of the kiln inside" value=${a.shape} choices=${chambers} pick=${(v) => set(shaped(a, v))} /> inside, ${""}
      ${a.shape === "sided" && html`with ${blank("Number of sides", "sides")} sides, `}
      ${oblong ? html`${blank("Width inside", "width")} by ${blank("Depth inside", "depth")} ${u}` : html`${blank("Across inside", "across")} ${u} across${a.shape === "sided" ? " the flats" : ""}`}
      ${" and "}${blank("Height inside", "height")} ${u} high. I load it <${Choose} quiet=${true} label="Where it opens" value=${a.opens} choices=${opens} pick=${(v) => set({ opens: v })} />.</p>
    <p class="sentence">I own ${a.shelves?.map((s, i) => html`<span key=${i}>${i === 0 ? "" : i === a.shelves.length - 1 ? " and " : ", "}<${Field} quiet=${true} class="inline" kind="figure" mode="numeric" selects=${true} label=${app.words("How many shelves")} value=${s.count} keep=${(t) => shelf(i, { count: t })} /> ${""}
      <${Choose} quiet=${true} label=${app.words("Shape of the shelves")} value=${s.shape} choices=${shapes} pick=${(v) => shelf(i, { shape: v })} /> ${app.words(s.count === "1" ? "shelf" : "shelves")}, ${""}
      <${Field} quiet=${true} class="inline" kind="figure" selects=${true} label=${app.words("Size of the shelves")} value=${s.size} keep=${(t) => shelf(i, { size: t })} />${s.size.includes("x") ? "" : " across"}, ${""}
      <${Field} quiet=${true} class="inline" kind="figure" selects=${true} label=${app.words("Thickness of the shelves")} value=${s.thick} keep=${(t) => shelf(i, { thick: t })} /> thick</span>`)}.</p>
    <p class="sentence">My next firing is <${Choose} quiet=${true} label="Stage of the firing" value=${a.stage || "glaze"} choices=${stages.map((c) => ({ ...c, say: app.words(c.say) }))} pick=${(v) => set({ stage: v })} /> to cone ${""}
      <${Field} quiet=${true} class="inline" kind="figure" list="cone-names" selects=${true} label="Cone" value=${a.cone} keep=${(t) => set({ cone: t })} live=${(t) => set({ cone: t })} />${first.cone ? html` (<b class="se-temp">${temperature(first.cone)}</b>)` : ""}.</p>
    <p class="sentence">My posts, in ${u === "in" ? "inches" : u}, with how many of each:</p>
    <${Posts} app=${app} plain=${true} posts=${a.posts ?? []} set=${(posts) => set({ posts })} fresh=${{}} />`;
}

// shaped keeps the figures that another shape has too.
function shaped(a, shape) {
  const was = a.across || a.width;
  if (shape === "oval" || shape === "rectangle") return { shape, width: a.width || was, depth: a.depth || was, across: "", sides: "", shelves: [] };
  return { shape, across: was, width: "", depth: "", sides: shape === "sided" ? a.sides || "12" : "", shelves: [] };
}

// Round is what there is to look at first.
function Round({ app, room }) {
  const file = useRef(null);
  return html`<aside class="fi-round" aria-label="Or look round first"><h2>Or look round first</h2>
    <ul>${(room?.loads?.length ?? 0) > 0 && html`<li><p><b>Your loads.</b> ${room.loads.length === 1 ? "One load is" : `${room.loads.length} loads are`} in the folder.</p><button type="button" class="act" onClick=${() => app.open("loads")}>Show my loads</button></li>`}
      ${room?.samples?.slice(0, 2).map((s) => html`<li key=${s.id}><p class="fi-line"><b>${s.title}.</b> ${s.line}</p>
        <button type="button" class="act" aria-label=${"Open the sample " + s.title} onClick=${async () => { if (await app.file.openSample(s.id)) app.open("load"); }}>Open the sample</button></li>`)}
      ${(room?.samples?.length ?? 0) > 2 && html`<li><details><summary>${room.samples.length - 2} more samples</summary>${room.samples.slice(2).map((s) => html`<button type="button" class="act" key=${s.id} onClick=${async () => { if (await app.file.openSample(s.id)) app.open("load"); }}>${s.title}</button>`)}</details></li>`}
      <li><p><b>A load file you have.</b> Drop it anywhere on this page.</p><button type="button" class="act" onClick=${() => file.current.click()}>Choose a file</button>
        <input class="hidden" tabindex="-1" aria-hidden="true" type="file" accept=".toml" ref=${file} onChange=${(e) => { openFiles(app, e.target.files); e.target.value = ""; }} /></li></ul>
    <p class="fi-here note">Your loads stay on this computer, in a folder you can see${room?.folder ? html`: <span class="path">${room.folder}</span>` : ""}. Nothing is sent anywhere.</p></aside>`;
}

// shapes to start a row from, as they stand on the plank; drawn as shapes, the
// size is typed.
const forms = [
  { say: "Straight", row: "12 tumblers 110 x 84", inch: "12 tumblers 4 3/8 x 3 3/8", d: "M4 14 6 58H30L32 14Z" },
  { say: "Open", row: "6 bowls 75 x 150", inch: "6 bowls 3 x 6", d: "M2 30C8 46 16 56 22 58H38C44 56 52 46 58 30Z" },
  { say: "Necked", row: "1 vase 220 x 110", inch: "1 vase 8 5/8 x 4 3/8", d: "M13 2H27C25 16 36 24 37 38 37 48 34 54 31 58H9C6 54 3 48 3 38 4 24 15 16 13 2Z" },
  { say: "With a handle", row: "12 mugs 100 x 85", inch: "12 mugs 4 x 3 3/8", d: "M4 14 6 58H36L38 14ZM38 22C54 20 54 46 37 46" },
  { say: "Flat", row: "4 plates 32 x 210", inch: "4 plates 1 1/4 x 8 1/4", d: "M2 46 22 58H52L72 46Z" },
  { say: "Oval", row: "2 bakers 60 x 260 x 160", inch: "2 bakers 2 3/8 x 10 1/4 x 6 1/4", d: "M2 34 8 58H76L82 34Z" },
];

function Shapes({ app, list, setList, inches }) {
  const [open, setOpen] = useState(false);
  const add = (row) => { setOpen(true); setList((was) => (was.trim() ? was.replace(/\n*$/, "\n") : "") + row + "\n"); };
  return html`<section class="fi-table" aria-label="On the table"><div class="fi-put"><p><b>On the table</b> <span class="note">${list.trim() ? "a list that waits for the kiln" : "nothing yet"}</span></p>
      ${open || list ? html`<label class="hidden" for="fi-list">Pots, one row a line</label><textarea id="fi-list" rows="3" spellcheck=${false} placeholder=${inches ? "12 mugs 4 x 3 3/8" : "12 mugs 100 x 85"} value=${list} onInput=${(e) => setList(e.target.value)}></textarea>`
        : html`<p><b>Put the pots here that want firing.</b></p><p>Paste rows from a spreadsheet, or start from a shape.</p><button type="button" onClick=${() => setOpen(true)}>Paste a list</button>`}</div>
    <div class="fi-shapes"><ul>${forms.map((f) => html`<li key=${f.say}><button type="button" class="bare" aria-label=${`${f.say}: adds ${inches ? f.inch : f.row}`} onClick=${() => add(inches ? f.inch : f.row)}>
      <svg viewBox="0 0 86 60" width="5.375rem" height="3.75rem" aria-hidden="true"><path d=${f.d} /></svg><span>${f.say}</span></button></li>`)}</ul>
      <p class="note">Take a shape, then type its size and how many. Shapes only; pots are drawn to scale once they have a size.</p>
      <${Cautions} app=${app} kinds=${["kiln", "lift", "dust"]} /></div></section>`;
}
