// Symbols of the page: the four grades as two pots from above (20 x 16), and
// the few pictures on controls. Shape first; colour comes from the grade's class.

import { html } from "./vendor/preact.js";

const grades = {
  ok: html`<circle cx="5.5" cy="8" r="4" /><circle cx="14.5" cy="8" r="4" />`,
  watch: html`<circle cx="5" cy="9" r="4" /><circle cx="15" cy="9" r="4" /><path class="bar" d="M10 1.5V14.5" />`,
  problem: html`<path class="lens" d="M10 4.7A4.9 4.9 0 0 1 10 11.3A4.9 4.9 0 0 1 10 4.7Z" /><circle cx="7" cy="8" r="4.6" /><circle cx="13" cy="8" r="4.6" />`,
  plans: html`<path d="M1.5 2.5H6.5V13.5H1.5ZM7.5 2.5H12.5V13.5H7.5ZM13.5 2.5H18.5V13.5H13.5ZM1.5 8H6.5M7.5 6H12.5M7.5 10H12.5M13.5 9.5H18.5" />`,
  note: html`<path d="M3 12.5H17M6.5 12.5V4.5H13.5V12.5" />`,
};

const said = { ok: "clears", watch: "watch", problem: "problem", note: "note", plans: "plans" };

// Grade draws the symbol of "ok", "watch", "problem" or "note", and of several plans.
export function Grade({ grade, quiet }) {
  const g = grade in grades ? grade : "ok";
  return html`<svg class=${"grade " + g} width="1.25rem" height="1rem" viewBox="0 0 20 16" role=${quiet ? null : "img"} aria-label=${quiet ? null : said[g]} aria-hidden=${quiet ? "true" : null}>${grades[g]}</svg>`;
}

const icons = {
  mark: html`<g class="solid"><circle cx="10" cy="3.6" r="2.6" /><circle cx="3.6" cy="15.6" r="2.6" /><circle cx="16.4" cy="15.6" r="2.6" /></g>`,
  undo: html`<path d="M7.5 4L4 7.5L7.5 11M4 7.5H12A4 4 0 0 1 12 15.5H9" />`,
  redo: html`<path d="M12.5 4L16 7.5L12.5 11M16 7.5H8A4 4 0 0 0 8 15.5H11" />`,
  sheet: html`<path d="M5 4.5H15V17.5H5ZM8 2.5H12V6H8ZM7.5 9.5H12.5M7.5 12H12.5M7.5 14.5H12.5" />`,
  light: html`<circle cx="10" cy="10" r="6.5" /><path class="solid" d="M10 3.5A6.5 6.5 0 0 1 10 16.5Z" />`,
  up: html`<path d="M5 12.5L10 7.5L15 12.5" />`,
  down: html`<path d="M5 7.5L10 12.5L15 7.5" />`,
  more: html`<g class="solid"><circle cx="4" cy="10" r="1.7" /><circle cx="10" cy="10" r="1.7" /><circle cx="16" cy="10" r="1.7" /></g>`,
  shut: html`<path d="M5 5L15 15M15 5L5 15" />`,
};

// Icon draws a picture for a control that has its name in words beside it or as label.
export function Icon({ name }) {
  return html`<svg class="icon-picture" width="1.25rem" height="1.25rem" viewBox="0 0 20 20" aria-hidden="true">${icons[name]}</svg>`;
}
