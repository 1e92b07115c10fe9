// A pot in hand: taken, moved, set down, put back. The program says all that
// is true of it meanwhile.

import { idThing } from "./store.js";

// cross takes the held pot to the other half of a top view when the pointer is
// over that half's shelf.
export function cross(app, e) {
  const shelf = document.elementsFromPoint(e.clientX, e.clientY).find((el) => el.matches(".tv path.shelf[data-id]"));
  const thing = shelf && idThing(shelf.dataset.id);
  if (!app.held || !thing?.tower || (thing.tower === app.held.tower && thing.level === app.held.number)) return;
  const now = app.ask("over", thing);
  if (!now.ok) return;
  app.show(thing, { keepView: true });
  app.hold(now.ok);
}

// told reads the gap aloud once the pot has come to rest for a moment.
let quiet = 0;
function told(app) {
  clearTimeout(quiet);
  quiet = setTimeout(() => {
    const h = app.held;
    if (!h) return;
    const near = h.nears?.[0];
    app.speak(h.sentence || (near ? `${near.name}: ${near.word}` : h.place));
  }, 350);
}

// take takes a pot in hand: {pot, view, x, y}; false after the refusal was said.
export function take(app, what) {
  const held = app.call("hold", what);
  if (!held) return false;
  app.hold(held);
  told(app);
  return true;
}

// nudge moves what is held by mm and degrees; the chosen pot is taken first.
export function nudge(app, step) {
  if (!app.held) {
    const pot = app.chosen?.kind === "pot" || app.chosen?.kind === "cones" ? app.chosen.id : "";
    if (!pot || !take(app, { pot, view: "keys" })) return false;
  }
  const now = app.call("nudge", step);
  if (now) app.hold(now);
  told(app);
  return true;
}

// setDown lets go: the pot settles on the nearest place that clears, or stays
// exactly where it is held when it is not to snap.
export function setDown(app, snap = true) {
  if (!app.held) return;
  app.hold(null);
  if (!app.call("drop", { snap })) app.ask("cancel", {});
  app.refresh();
  const near = app.chosen?.nears?.[0];
  if (near) app.speak(`Set down. ${near.name}: ${near.word}`);
}

// putBack leaves it where it stood.
export function putBack(app) {
  if (!app.held) return;
  app.hold(null);
  app.ask("cancel", {});
  app.speak("As before.");
}
