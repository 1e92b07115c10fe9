// One stop for the Tab key among many marks of a picture; arrows go on from
// mark to mark when nothing is in hand.

import { useEffect } from "./vendor/preact.js";

// useRoving makes one of the marks reachable by Tab and the others by arrows.
// The marks are walked in the order that sorted gives, else as they are drawn.
export function useRoving(ref, selector, keys, { sorted, free = () => true, onmove } = {}) {
  useEffect(() => {
    const el = ref.current;
    if (!el) return undefined;
    const all = () => {
      const list = [...el.querySelectorAll(selector)].filter((m) => m.hasAttribute("tabindex"));
      return sorted ? list.sort(sorted) : list;
    };
    const at = el.dataset.at;
    const marks = all();
    const one = marks.find((m) => m.dataset.id === at) ?? marks[0];
    for (const m of marks) m.setAttribute("tabindex", m === one ? "0" : "-1");
    const key = (e) => {
      const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1, Home: -Infinity, End: Infinity }[e.key];
      if (!by || e.ctrlKey || e.metaKey || e.altKey || !free()) return;
      const list = all();
      const now = list.indexOf(e.target.closest(selector));
      if (now < 0) return;
      e.preventDefault();
      e.stopPropagation();
      const next = list[Math.max(0, Math.min(list.length - 1, now + by))];
      for (const m of list) m.setAttribute("tabindex", m === next ? "0" : "-1");
      el.dataset.at = next.dataset.id;
      next.focus();
      onmove?.(next.dataset.id);
    };
    el.addEventListener("keydown", key);
    return () => el.removeEventListener("keydown", key);
  }, keys);
}
