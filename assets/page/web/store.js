// The page's store: what the program last said, and where the person is.
// It keeps no second model: every figure here came from a call.
//
//   app.state    State of the open load (layout/session), or null
//   app.chosen   Chosen, or null           app.held    Held, or null
//   app.lifted   Lifted, or null           app.ghost   Ghost of a mend, or null
//   app.file     {id, sample, title, revision}         app.saved  {kind, says}
//   app.place    "elevation" | "middle" | "side" | "table" (a tab under 900 px)
//   app.page     "load" | "table" | "setup" | "plans" | "firings" | "print" | "loads" | "first" (what fills the frame)
//   app.scale    page px per CSS px of a picture (1; more on large screens)
//
//   app.ask(method, arg)   -> {ok} | {refusal} | {fault}: for forms that show a refusal in place
//   app.call(method, arg)  -> the result, or null after the refusal was said.
//                             A State among the results is taken over and saved by itself.
//   app.apply(edits, what) -> State or null
//   app.choose(thing)      -> Chosen or null; {pot} | {tower, level} | {post} | {finding} | {ware} | {}
//   app.go(place)          app.open(page)
//   app.say(sentence)      one sentence in the line at the foot, also read aloud
//   app.word(us)           shelf or bat; app.words(sentence)
//   useApp(app, ...topics) in a component: drawn anew when a topic changed. Topics:
//   "state" "chosen" "held" "lifted" "ghost" "hover" "labels" "saved" "plan" "place" "said" "size" "clash" "mends"

import { useState, useEffect } from "./vendor/preact.js";
import { start } from "./bridge.js";
import { File } from "./save.js";
import { Planning } from "./plan.js";
import { Buying } from "./buying.js";
import { Splitting } from "./split.js";
import { word, inWords } from "./words.js";

const mendsAhead = 12; // findings whose mends are worked out before they are asked for

const isState = (v) => !!v && typeof v === "object" && "revision" in v && Array.isArray(v.levels ?? []) && "findings" in v && "head" in v;

export class App {
  constructor() {
    this.state = null;
    this.chosen = null;
    this.held = null;
    this.lifted = null;
    this.ghost = null;
    this.hover = null;
    this.labels = [];
    this.place = "middle";
    this.page = "load";
    this.said = "";
    this.scale = 1;
    this.room = null; // what /api/room said
    this.down = "starting"; // "" when the program takes calls
    this.view = { mode: "3d", preset: "orbit", cut: false, colour: "clay", level: null, above: false };
    this.aloud = ""; // what the quiet live region says
    this.watchers = new Set();
    this.falls = []; // when the program stopped, to know a loop
    this.file = new File(this);
    this.plan = new Planning(this);
    this.buying = new Buying(this);
    this.splitting = new Splitting(this);
    this.mends = new Map(); // what was worked out to mend findings of this state, by key
  }

  // ---- the program

  async start() {
    this.bridge = await start((why) => this.fell(why));
    this.bridge.listen((event) => this.heard(event));
    this.down = "";
    this.changed("state");
  }

  // fell starts the program again from the newest text.
  async fell(why) {
    console.warn("the page's program stopped:", why);
    this.down = "restarting";
    this.held = this.lifted = this.ghost = this.hover = null;
    this.labels = [];
    const now = performance.now();
    this.falls = this.falls.filter((t) => now - t < 20000).concat(now);
    this.changed("state", "held", "lifted", "ghost", "labels");
    if (this.falls.length > 3) {
      this.down = "fallen";
      return this.changed("state");
    }
    await new Promise((r) => setTimeout(r, 50));
    try {
      await this.start();
    } catch {
      this.down = "fallen";
      return this.changed("state");
    }
    this.runs = (this.runs ?? 0) + 1;
    if (this.file.text !== null) {
      this.reopen(this.file.text);
      this.say("The page's program had stopped and runs again from the newest text. Nothing is lost; undo begins anew.");
    }
    this.changed("state", "size");
  }

  again() {
    this.falls = [];
    return this.fell("started again by hand");
  }

  reopen(text) {
    const was = this.chosen;
    this.held = this.lifted = this.ghost = this.swapping = null;
    this.changed("held", "lifted", "ghost");
    const state = this.ask("open", { text, name: this.file.title, words: keptWords() ?? undefined });
    if (state.ok) { this.take(state.ok, { save: false }); this.plan.layAgain(); }
    else this.say(state.refusal ?? "The text cannot be read by the page.");
    if (was?.thing) this.choose(was.thing);
    return state;
  }

  ask(method, arg) {
    if (this.down) return { refusal: "The page's program is starting; try again in a moment." };
    const answer = this.bridge.call(method, arg);
    if (isState(answer.ok)) this.take(answer.ok, { save: method !== "open" && method !== "state" });
    else if (isState(answer.ok?.state)) this.take(answer.ok.state, { save: true });
    return answer;
  }

  call(method, arg) {
    const answer = this.ask(method, arg);
    if ("ok" in answer) return answer.ok;
    this.say(answer.refusal ?? "The page's program stopped and starts again.");
    return null;
  }

  apply(edits, what) {
    const state = this.call("apply", { edits, what });
    if (state) this.refresh();
    return state;
  }

  // take makes a State the one that is shown; a new revision is saved.
  take(state, { save = true } = {}) {
    const before = this.state;
    this.state = state;
    this.changed("state");
    if (save && (!before || before.revision !== state.revision)) this.file.edited(state.undo);
  }

  // refresh asks again for what is chosen, after an edit moved it.
  refresh() {
    this.showGhost(null);
    if (!this.chosen?.thing) return;
    const thing = this.chosen.thing;
    const answer = this.ask("select", thing);
    this.chosen = answer.ok && answer.ok.kind ? { ...answer.ok, thing } : null;
    this.changed("chosen");
  }

  choose(thing) {
    const answer = this.ask("select", thing);
    const empty = !thing || Object.keys(thing).length === 0;
    this.chosen = answer.ok && !empty && answer.ok.kind ? { ...answer.ok, thing } : null;
    const at = this.chosen && this.levelOf(this.chosen, thing);
    if (at) this.show(at, { keepView: true });
    this.changed("chosen");
    return this.chosen;
  }

  levelOf(chosen, thing) {
    if (thing.tower && thing.level) return { tower: thing.tower, level: thing.level };
    const pot = this.state?.pots.find((p) => p.id === (thing.pot ?? chosen.pots?.[0]));
    const level = pot && this.state.levels[pot.level];
    return level ? { tower: level.tower, level: level.number } : null;
  }

  // show makes a level the one that is worked on.
  show({ tower, level }, { keepView = false } = {}) {
    const v = this.view;
    if (v.level?.tower === tower && v.level?.level === level) return;
    this.view = { ...v, level: { tower, level } };
    if (v.above || !keepView) this.aim();
    this.changed("chosen");
  }

  // aim tells the 3D picture which level is looked at.
  aim() {
    const { level, above } = this.view;
    this.ask("level", above && level ? { tower: level.tower, level: level.level } : { all: true });
  }

  undo() { this.turn("undo", this.state?.undo, "Nothing to take back."); }
  redo() { this.turn("redo", this.state?.redo, "Nothing was taken back."); }

  turn(method, there, none) {
    if (this.held || this.lifted) return;
    if (!there) return void this.say(none);
    if (this.call(method, {})) this.refresh();
  }

  // ---- what edits would make of the load, while they are pointed at

  showGhost(edits) {
    const was = this.ghost;
    this.ghost = edits && !this.held && !this.lifted ? this.ask("try", { edits }).ok ?? null : null;
    if (was || this.ghost) this.changed("ghost");
  }

  // ghostly are the listeners of a button whose edits are shown before they are done.
  ghostly(edits) {
    const on = () => this.showGhost(edits), off = () => this.showGhost(null);
    return { onMouseEnter: on, onMouseLeave: off, onFocus: on, onBlur: off };
  }

  // workOutMends asks for the ways out of findings, one at a time between
  // frames; it answers how to stop. A finding that says none of its own is told
  // without a button.
  workOutMends(findings) {
    if (this.mendsOf !== this.state) { this.mendsOf = this.state; this.mends = new Map(); }
    const open = findings.filter((f) => f.grade !== "note" && !f.mends?.length && !this.mends.has(f.key)).slice(0, mendsAhead);
    let timer = 0;
    const one = () => {
      const f = open.shift();
      if (!f || this.down) return;
      if (!this.held && !this.lifted) {
        this.mends.set(f.key, this.ask("mends", { finding: f.key }).ok?.mends ?? []);
        this.changed("mends");
      } else open.unshift(f);
      timer = setTimeout(one, this.held || this.lifted ? 400 : 20);
    };
    timer = setTimeout(one, 60);
    return () => clearTimeout(timer);
  }

  // swapWith changes places with the pot that is chosen second.
  swapWith(other) {
    const pot = this.swapping;
    this.swapping = null;
    if (other !== pot) this.apply([{ act: "swap pots", pot, other }], "swap");
    this.changed("chosen");
  }

  // ---- searches that run in the page, a few ms at a time

  async job(method, arg) {
    if (!this.call(method, arg)) return;
    const run = (this.jobRun = (this.jobRun ?? 0) + 1);
    for (;;) {
      await new Promise((r) => requestAnimationFrame(r));
      if (run !== this.jobRun || this.down) return;
      const answer = this.ask("slice", { ms: 5 });
      if (!answer.ok) return void this.say(answer.refusal ?? "");
      if (!answer.ok.done) continue;
      if (answer.ok.edits?.length) this.apply(answer.ok.edits, answer.ok.what);
      this.refresh();
      return void this.say(answer.ok.says);
    }
  }

  // ---- light and dark

  dark() {
    const kept = document.documentElement.dataset.theme;
    return kept ? kept === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  }

  setTheme(theme) {
    document.documentElement.dataset.theme = theme;
    try { localStorage.setItem("threepost:theme", theme); } catch { /* it holds until the page is left */ }
    this.look();
    this.changed("place");
  }

  // look tells the 3D picture of light, dark and motion.
  look() {
    this.ask("look", { dark: this.dark(), still: matchMedia("(prefers-reduced-motion: reduce)").matches });
  }

  // spies are the spyholes one can look through.
  spies() {
    if (this.spiesOf !== this.state) {
      this.spiesOf = this.state;
      const kiln = this.ask("kiln", {}).ok;
      this.spyholes = kiln?.kiln?.spyholes ?? kiln?.spyholes ?? [];
    }
    return this.spyholes;
  }

  // ---- events of the 3D picture

  heard(event) {
    if (typeof event === "string") event = JSON.parse(event);
    switch (event.event) {
      case "labels":
        this.labels = event.labels ?? [];
        return this.changed("labels");
      case "hover":
        this.hover = event.thing || event.title ? event : null;
        return this.changed("hover");
      case "select":
        return this.tapped(event.thing ? pick(event.thing) : {});
      case "held":
        if (event.refusal) this.say(event.refusal);
        return this.hold(event.held ?? null);
      case "camera":
        this.view = { ...this.view, preset: event.preset };
        return this.changed("place");
      case "fault":
        return this.say("The 3D picture cannot be drawn: " + event.why + ". The top view shows the same.");
      case "state":
        this.hold(null);
        this.take(event.state ?? event);
        return this.refresh();
      case "lost":
        return this.say("The 3D picture was taken away by the graphics system; it comes back by itself. Everything can be done in the top view meanwhile.");
      case "back":
        if (this.said.startsWith("The 3D picture was taken away")) this.say("");
        return this.changed("size");
    }
  }

  tapped(thing) {
    if (this.swapping && thing.pot) return this.swapWith(thing.pot);
    return void this.choose(thing);
  }

  hold(held) {
    if (held && this.ghost) this.ghost = null;
    this.held = held;
    this.changed("held");
  }

  // ---- the person's place

  go(place) {
    this.place = place;
    if (this.page !== "load") this.page = "load";
    this.changed("place");
  }

  open(page) {
    this.page = page;
    this.changed("place");
  }

  say(sentence) {
    this.said = sentence;
    clearTimeout(this.saidTimer);
    if (sentence) this.saidTimer = setTimeout(() => { this.said = ""; this.changed("said"); }, 12000);
    this.changed("said");
  }

  // speak reads a sentence aloud without showing it.
  speak(sentence) {
    this.aloud = sentence;
    this.changed("said");
  }

  // setWords takes the person's choice of US or UK words; it is theirs, not the load's.
  setWords(words) {
    if (!this.call("words", { words })) return;
    try { localStorage.setItem("threepost:words", words); } catch { /* it holds until the page is left */ }
    this.refresh();
  }

  word(us) { return word(this.state?.words, us); }
  words(sentence) { return inWords(this.state?.words, sentence); }

  // ---- watching

  changed(...topics) {
    for (const w of this.watchers) if (topics.some((t) => w.topics.has(t))) w.fn();
  }

  watch(topics, fn) {
    const w = { topics: new Set(topics), fn };
    this.watchers.add(w);
    return () => this.watchers.delete(w);
  }
}

// keptWords is the choice of US or UK words made in this browser earlier.
function keptWords() {
  try { return localStorage.getItem("threepost:words"); } catch { return null; }
}

// pick makes a thing of the picture what select takes.
function pick(thing) {
  if (typeof thing === "string") return { pot: thing };
  if (thing.kind) return chosenOf(thing) ?? {};
  return thing;
}

// chosenOf makes a Thing of a finding or a mark ({kind, name, tower, level})
// what select takes, or null when it cannot be chosen.
export function chosenOf(thing) {
  switch (thing?.kind) {
    case "pot": case "cones": return { pot: thing.name };
    case "shelf": case "level": return thing.tower ? { tower: thing.tower, level: thing.level } : null;
    case "post": return { post: { letter: thing.name, tower: thing.tower, level: thing.level } };
    case "ware": return { ware: thing.name };
  }
  return null;
}

// idThing reads the id of a mark of a picture, "pot:mug 3", "shelf:left side:2".
export function idThing(id) {
  if (!id) return null;
  const cut = id.indexOf(":");
  const kind = id.slice(0, cut), rest = id.slice(cut + 1);
  if (kind === "pot" || kind === "cones") return { pot: rest };
  if (kind === "ware") return { ware: rest };
  if (kind === "finding") return { finding: rest };
  const last = rest.lastIndexOf(":");
  if (kind === "shelf" || kind === "level" || kind === "handle") return { tower: rest.slice(0, last), level: Number(rest.slice(last + 1)) };
  if (kind === "post") {
    const [letter, ...more] = rest.split(":");
    return { post: { letter, tower: more.slice(0, -1).join(":"), level: Number(more.at(-1)) } };
  }
  return null;
}

// useApp draws the component anew whenever one of the topics changed.
export function useApp(app, ...topics) {
  const [, set] = useState(0);
  useEffect(() => app.watch(topics, () => set((n) => n + 1)), [app]);
}
