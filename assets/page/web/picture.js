// Draws the pictures that the program makes, mark for mark, as SVG. Nothing is
// worked out here: places, sizes and texts come finished.
import { html } from './vendor/preact.js';

const anchors = { start: 'start', middle: 'middle', end: 'end' };

// What one mark is as an element. `on` are the listeners for marks with an id.
export function Mark(mark, key, on) {
  const picked = mark.id && on ? on(mark) : null;
  if (mark.kind === 'text') {
    return html`<text key=${key} x=${mark.x || 0} y=${mark.y || 0} font-size=${mark.size} class=${mark.class}
      text-anchor=${anchors[mark.anchor] || 'start'} data-id=${mark.id}
      transform=${mark.turn ? `rotate(${mark.turn} ${mark.x || 0} ${mark.y || 0})` : undefined} ...${picked}>${mark.text}</text>`;
  }
  if (mark.kind === 'group') {
    return html`<g key=${key} class=${mark.class} data-id=${mark.id} aria-label=${mark.id && mark.label ? mark.label : undefined}
      role=${mark.id && mark.label ? 'img' : undefined} ...${picked}>${(mark.marks || []).map((m, i) => (m.kind === 'text' ? [Mark(m, i, null), ' '] : Mark(m, i, null)))}</g>`;
  }
  return html`<path key=${key} d=${mark.d} class=${mark.class} data-id=${mark.id} fill=${mark.fill} ...${picked} />`;
}

function reachable(focusable, mark) {
  if (!focusable || mark.kind !== 'group') return false; // a place has one stop, though it may have more marks
  if (typeof focusable === 'function') return focusable(mark);
  return focusable.includes(mark.id.slice(0, mark.id.indexOf(':')));
}

// spoken is the name of a mark that can be reached: its own, then what is
// written in it, so that who says what they see finds it.
function spoken(mark) {
  const written = (mark.marks || []).filter((m) => m.kind === 'text').map((m) => m.text);
  return [mark.label, written.join(' ')].filter(Boolean).join(': ');
}

// keyOf keeps an element with what it stands for when the picture is drawn
// anew in another order, so that the keyboard stays where it was.
function keyOf(mark, i, seen) {
  if (!mark.id) return i;
  const key = mark.kind + ' ' + mark.id, n = seen.get(key) || 0;
  seen.set(key, n + 1);
  return n ? key + ' ' + n : key;
}

// A picture. One of its px is a sixteenth of a rem, so that it grows with the
// page. Every mark with an id carries it as data-id. Listeners get (mark, event); marks without an id are not told.
//   onpick   click or Enter / Space       ondown   a pointer goes down
//   onenter  a pointer comes over it      onleave  it goes
//   onfocus  the keyboard comes to it     onkey    a key but Enter and Space
//   focusable  which marks the keyboard can reach: kinds of id (['pot', 'level']) or mark -> bool; none if absent
//   over     marks drawn over it (a held pot's ring, bar and flag)
//   moved    {id, dx, dy}: one group drawn so many px away
//   hide     id of a group that is not drawn
export function Picture({ picture, over, moved, hide, label, className, onpick, ondown, onenter, onleave, onfocus, onkey, focusable, svg }) {
  if (!picture) return null;
  const on = (mark) => {
    const own = {};
    const reach = reachable(focusable, mark);
    if (onpick) own.onClick = (event) => onpick(mark, event);
    if (ondown) own.onPointerDown = (event) => ondown(mark, event);
    if (onenter) own.onPointerEnter = (event) => onenter(mark, event);
    if (onleave) own.onPointerLeave = (event) => onleave(mark, event);
    if (reach) {
      own.tabindex = 0; // small letters: SVG tells them apart
      own.role = 'button';
      own['aria-label'] = spoken(mark);
      own.onKeyDown = (event) => {
        if (onpick && (event.key === 'Enter' || event.key === ' ')) {
          event.preventDefault();
          onpick(mark, event);
        } else if (onkey) onkey(mark, event);
      };
      if (onfocus) own.onFocus = (event) => onfocus(mark, event);
    }
    if (moved && moved.id === mark.id) own.transform = `translate(${moved.dx} ${moved.dy})`;
    return own;
  };
  const name = label || picture.label;
  const seen = new Map();
  return html`<svg ref=${svg} class=${'picture' + (className ? ' ' + className : '')} width=${picture.w / 16 + 'rem'} height=${picture.h / 16 + 'rem'}
      viewBox=${`0 0 ${picture.w} ${picture.h}`} role="group" aria-label=${name}>
    ${picture.marks.map((mark, i) => (hide && mark.id === hide && mark.kind === 'group' ? null : Mark(mark, keyOf(mark, i, seen), on)))}
    ${over && over.map((mark, i) => Mark(mark, 'over' + i, on))}
  </svg>`;
}

// The hatches, once on the page: pictures refer to them by name.
export function Hatches() {
  const hatch = (id, step, line) => html`<pattern id=${'hatch-' + id} width=${step} height=${step}
    patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class=${line} d=${`M0 0V${step}`} /></pattern>`;
  return html`<svg class="hatches" aria-hidden="true" focusable="false"><defs>
    ${hatch('brick', 7, 'brick-line')}${hatch('watch', 8, 'watch-line')}${hatch('problem', 5, 'problem-line')}${hatch('cones', 6, 'cones-line')}
  </defs></svg>`;
}
