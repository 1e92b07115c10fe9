// Sizes of places: how large a picture may be, in px of a picture.

import { useState, useLayoutEffect, useMemo } from "./vendor/preact.js";

// useSize follows an element's inner size in px of a picture.
export function useSize(app, ref) {
  const [size, set] = useState({ w: 0, h: 0 });
  useLayoutEffect(() => {
    const el = ref.current;
    if (!el) return undefined;
    const read = () => {
      const w = Math.floor(el.clientWidth / app.scale), h = Math.floor(el.clientHeight / app.scale);
      set((was) => (was.w === w && was.h === h ? was : { w, h }));
    };
    read();
    const watch = new ResizeObserver(read);
    watch.observe(el);
    const end = app.watch(["size"], read);
    return () => { watch.disconnect(); end(); };
  }, [app]);
  return size;
}

// usePicture asks for a picture again whenever one of the keys changed; null
// when there is none to show.
export function usePicture(app, method, arg, keys) {
  return useMemo(() => (arg ? app.ask(method, arg).ok ?? null : null), [method, app.runs, app.down, ...keys]);
}

// measured keeps the scale of pictures in step with the root's type size.
export function measured(app) {
  const scale = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1;
  if (scale === app.scale) return;
  app.scale = scale;
  app.changed("size");
}
