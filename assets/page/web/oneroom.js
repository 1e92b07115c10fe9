// Room for one more: a row or a size in the short form, and the program looks
// for a place in slices, so that the page stays at hand meanwhile.

import { html, useState, useRef, useEffect } from "./vendor/preact.js";
import { refusal, useId } from "./fields.js";

const slice = 5; // ms of work between two frames

export function RoomForOne({ app, shut }) {
  const rows = app.state.ware;
  const [pick, setPick] = useState((app.chosen?.thing?.ware ?? rows.find((r) => r.waits)?.name) || "");
  const [text, setText] = useState("");
  const [said, setSaid] = useState("");
  const [got, setGot] = useState(null); // {says, edits} when the job is done
  const [share, setShare] = useState(null);
  const job = useRef(0);
  const id = useId();
  useEffect(() => () => { job.current++; }, []);

  function look(e) {
    e.preventDefault();
    const mine = ++job.current;
    setGot(null);
    const answer = app.ask("room", text.trim() ? { text } : { ware: pick });
    const no = refusal(answer);
    setSaid(no);
    if (no) return;
    setShare(0);
    const base = app.state.revision;
    const step = () => {
      if (mine !== job.current) return;
      const part = app.ask("slice", { ms: slice });
      if (!part.ok) { setShare(null); return setSaid(refusal(part)); }
      if (!part.ok.done) {
        setShare(part.ok.progress ?? 0);
        return requestAnimationFrame(step);
      }
      setShare(null);
      setGot({ says: part.ok.says, edits: part.ok.edits ?? [], base });
    };
    requestAnimationFrame(step);
  }
  const stale = got && got.base !== app.state.revision;
  return html`<form class="tb-room" aria-label="Room for one more" onSubmit=${look}>
    <label for=${id + "w"}>Is there room for one more</label>
    <select id=${id + "w"} value=${pick} onChange=${(e) => { setPick(e.target.value); setText(""); }}>
      ${rows.map((r) => html`<option key=${r.name} value=${r.name} selected=${r.name === pick}>${r.name}</option>`)}</select>
    <label for=${id}>or a pot of</label>
    <input id=${id} type="text" size="16" autocomplete="off" placeholder="mug 100 x 85" value=${text} onInput=${(e) => setText(e.target.value)} aria-describedby=${id + "s"} />
    <button type="submit" class="main">Look for room</button>
    <button type="button" onClick=${shut}>Close</button>
    <output id=${id + "s"} class=${said ? "in-said" : "tb-reading"}>${said}${share !== null && html`<progress max="1" value=${share} aria-label="Looking for room"></progress>`}
      ${got && html`<span>${got.says} </span>`}
      ${got?.edits.length > 0 && !stale && html`<button type="button" class="act" onMouseEnter=${() => app.showGhost?.(got.edits)} onMouseLeave=${() => app.showGhost?.(null)} onClick=${() => { if (app.apply(got.edits, "room for one more")) setGot(null); }}>Set it there</button>`}
      ${stale && html`<span class="note">The load has changed since; look again.</span>`}</output>
  </form>`;
}
