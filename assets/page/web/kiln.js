// The page at the kiln: one act a screen. What is done is kept in this browser,
// so that a reload goes on where hands are. Served by the program it asks for
// an answer when something does not fit; as a saved file it needs nothing.
(function () {
  'use strict';

  const inside = document.getElementById('steps'); // a saved file has its steps inside
  const saved = !!inside;
  const id = saved ? '' : decodeURIComponent(location.pathname.replace(/^\/kiln\//, ''));
  const query = location.search;
  const main = document.getElementById('kiln');
  const told = document.getElementById('told');

  let all = null; // Steps
  let revision = '';
  let done = new Set(); // ticks
  let changes = []; // of a saved file: answers that were taken
  let screen = { name: 'step' };
  let pressed = 0;
  let offline = false;

  // ---- small tools

  const el = (name, props, ...inner) => {
    const node = document.createElement(name);
    for (const [key, value] of Object.entries(props || {})) {
      if (value === undefined || value === null || value === false) continue;
      if (key === 'press') node.addEventListener('click', value);
      else if (key === 'class') node.className = value;
      else node.setAttribute(key, value === true ? '' : value);
    }
    for (const one of inner.flat()) if (one !== null && one !== undefined && one !== false) node.append(one);
    return node;
  };
  const svg = (name, props) => {
    const node = document.createElementNS('http://www.w3.org/2000/svg', name);
    for (const [key, value] of Object.entries(props)) if (value !== undefined && value !== '') node.setAttribute(key, value);
    return node;
  };
  const key = (says, press, more) => el('button', { type: 'button', press, ...more, class: 'key ' + (more && more.class || '') }, says);
  const parts = (says) => (says || []).map((p) => (p.bold ? el('b', {}, p.text) : p.text));
  const plain = (says) => (says || []).map((p) => p.text).join('');

  // ---- what is kept

  const shelf = () => 'threepost:kiln:' + (saved ? 'file:' + all.title + ':' + all.steps.length : id);
  function keep() {
    const text = JSON.stringify({ revision, done: [...done], changes });
    try { localStorage.setItem(shelf(), text); } catch { /* a browser that keeps nothing: the address does */ }
    if (saved) try { history.replaceState(null, '', '#' + (at() + 1)); } catch { /* some viewers allow no address */ }
  }
  function kept() {
    let was = null;
    try { was = JSON.parse(localStorage.getItem(shelf())); } catch { was = null; }
    if (was && Array.isArray(was.done)) {
      done = new Set(was.done);
      changes = Array.isArray(was.changes) ? was.changes : [];
      // Ticks of a load that was planned anew are those of another firing.
      const built = all.steps.some((s) => ['posts', 'shelf', 'pots', 'cones'].includes(s.kind) && isDone(s));
      if (was.revision !== revision && !built) done = new Set();
      return;
    }
    const n = Number((location.hash || '').slice(1));
    if (saved && n > 1) for (const s of all.steps.slice(0, n - 1)) for (const t of s.ticks) done.add(t);
  }
  const isDone = (s) => s.ticks.every((t) => done.has(t));
  // at is the first step that is not done; after the last one it is their number.
  const at = () => { const i = all.steps.findIndex((s) => !isDone(s)); return i < 0 ? all.steps.length : i; };

  // ---- the program

  async function talk(method, path, body) {
    try {
      const stop = new AbortController();
      const timer = setTimeout(() => stop.abort(), 20000);
      const answer = await fetch(path, {
        method, cache: 'no-store', signal: stop.signal, body: body === undefined ? undefined : JSON.stringify(body),
        headers: body === undefined ? {} : { 'Content-Type': 'application/json' },
      });
      clearTimeout(timer);
      let data = {};
      try { data = await answer.json(); } catch { data = {}; }
      offline = false;
      return { status: answer.status, body: data };
    } catch {
      offline = true;
      return { status: 0, body: { refusal: 'Threepost does not answer. The steps go on without it.' } };
    }
  }
  const api = (tail) => '/api/loads/' + encodeURIComponent(id) + tail;

  async function load() {
    const { status, body } = await talk('GET', api('/steps') + query);
    if (status !== 200) return body.refusal || 'These steps cannot be shown.';
    all = body.steps;
    revision = body.revision;
    return '';
  }

  // ---- pictures

  function draw(marks, into, state) {
    for (const m of marks) {
      let node;
      if (m.kind === 'text') {
        node = svg('text', { x: m.x || 0, y: m.y || 0, dy: '0.36em', class: m.class, 'data-size': m.size });
        node.textContent = m.text;
      } else if (m.kind === 'group') {
        node = svg('g', { class: m.class, 'data-id': m.id });
        draw(m.marks || [], node, null);
      } else node = svg('path', { d: m.d, class: m.class, 'data-id': m.id });
      if (m.id && state) node.classList.add(state(m.id));
      into.append(node);
    }
  }
  function picture(marks, box, state, label) {
    const node = svg('svg', { viewBox: box.join(' '), role: 'img', 'aria-label': label, preserveAspectRatio: 'xMidYMid meet' });
    draw(marks, node, state);
    return node;
  }
  // Figures grow with their pot but are never too small to read.
  function sized(node) {
    const view = node.viewBox.baseVal;
    const space = node.getBoundingClientRect();
    const per = Math.min(space.width / view.width, space.height / view.height);
    if (!(per > 0)) return;
    for (const t of node.querySelectorAll('text')) t.setAttribute('font-size', Math.max(Number(t.dataset.size), (t.classList.contains('piece') ? 10 : 13) / per).toFixed(1));
  }
  function stateAt(n) {
    const now = new Set(n < all.steps.length ? all.steps[n].now : []);
    const set = new Set();
    all.steps.forEach((s, i) => { if (i !== n && isDone(s)) for (const m of s.now || []) set.add(m); });
    for (const m of now) if (m.startsWith('pot:')) now.add('sight:' + m.slice(4));
    return (m) => (now.has(m) ? 'now' : set.has(m) ? 'set' : 'later');
  }
  function small(n) {
    const here = n < all.steps.length ? all.steps[n].level : -1;
    const whole = all.levels.map((_, l) => all.steps.every((s) => s.level !== l || isDone(s)));
    const state = (m) => {
      const l = all.levels.findIndex((one) => 'level:' + one.id === m);
      return l === here ? 'now' : l >= 0 && whole[l] ? 'done' : 'later';
    };
    return picture(all.elevation.marks, all.elevation.box, state, 'The kiln cut through: ' + (here >= 0 ? all.levels[here].title + ' is worked on' : 'all levels'));
  }

  // ---- the head of every screen

  function head(n, line, room, was) {
    const s = all.steps[Math.min(n, all.steps.length - 1)];
    return el('header', {},
      el('div', { class: 'small' }, small(n)),
      el('div', {}, el('div', { class: 'place' }, s.level >= 0 && n < all.steps.length ? all.levels[s.level].title : all.kiln || all.title || 'Kiln'),
        el('div', { class: 'step' }, line || (s.level >= 0 && n < all.steps.length ? `step ${s.k} of ${s.m}` : n < all.steps.length ? `step ${s.n} of ${all.steps.length}` : 'all steps done'))),
      el('div', { class: 'room' }, was && was.said !== room.said ? el('s', { 'aria-label': 'was ' + was.said }, was.said) : null, el('b', {}, room.said), el('span', {}, 'left to', el('br', {}), 'the ' + all.lid)));
  }
  // roomAt is the room to the lid as answers of a saved file have left it.
  function roomAt(n) {
    const s = all.steps[Math.min(n, all.steps.length - 1)];
    const change = [...changes].reverse().find((c) => s.level >= 0 && all.levels[s.level].id === c.level || s.level < 0);
    return change && change.room.mm < s.room.mm ? change.room : s.room;
  }

  function show(className, ...inner) {
    const had = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.key : '';
    main.className = className;
    main.removeAttribute('data-tight');
    main.replaceChildren(...inner.filter(Boolean));
    fit();
    const next = had && main.querySelector(`[data-key="${had}"]`) || main.querySelector('[data-first]');
    if (next && (had || screen.keyed)) next.focus({ preventScroll: true });
  }
  // Words step down in size until all is seen: nothing scrolls here.
  function fit() {
    const over = () => {
      const left = main.querySelector('.left, .ask');
      const says = main.querySelector('.words');
      const high = main.clientHeight;
      if (says && says.scrollHeight > says.clientHeight + 1) return true;
      if (left && left.classList.contains('ask')) return left.scrollHeight > left.clientHeight + 1;
      const stage = main.querySelector('button.done');
      if (stage && says && innerHeight > innerWidth && !main.classList.contains('answer')) return stage.offsetHeight < high * 0.55;
      if (stage && main.classList.contains('answer') && innerHeight > innerWidth) return stage.offsetHeight < high * 0.3;
      return false;
    };
    for (let tight = 1; tight <= 4 && over(); tight++) main.dataset.tight = tight;
    for (const node of main.querySelectorAll('svg')) sized(node);
  }
  addEventListener('resize', () => { if (all) { main.removeAttribute('data-tight'); fit(); } });

  // once keeps a bouncing knuckle from ticking two steps.
  function once(act) {
    return () => {
      const now = performance.now();
      if (now - pressed < 350) return;
      pressed = now;
      act();
    };
  }

  // ---- the step

  function step() {
    screen = { name: 'step' };
    const n = at();
    if (n >= all.steps.length) return end();
    const s = all.steps[n];
    let stage;
    if (s.rows) stage = el('dl', { class: s.rows.some((r) => r.what.length > 14) ? 'rows long' : 'rows' }, s.rows.map((r) => el('div', {}, el('dt', {}, r.count), el('dd', {}, r.what))));
    else if (s.picture >= 0) {
      const pic = picture(all.pictures[s.picture].marks, s.view, stateAt(n), s.title + ', from above');
      pic.addEventListener('click', (event) => point(event, s));
      stage = el('div', { class: 'picture' }, pic);
    } else {
      const pic = picture(all.elevation.marks, all.elevation.box, (m) => 'later', 'The kiln cut through');
      stage = el('div', { class: 'picture' }, pic);
    }
    const asks = s.ask && s.ask.length || s.posts && s.posts.length;
    show('at-step',
      head(n, '', roomAt(n)),
      el('div', { class: 'words' }, el('h1', {}, s.title), el('p', { class: 'says' }, parts(s.says)),
        s.each ? el('div', { class: 'unseen' }, el('ol', {}, s.each.map((e) => el('li', {}, `${e.n}: ${e.says}. `)))) : null),
      el('div', { class: 'left' }, stage, el('div', { class: 'keysrow' },
        asks ? key('It doesn’t fit', once(() => ask(n)), { class: 'fit', 'data-key': 'fit' }) : null,
        n > 0 ? key('Back', once(back), { class: 'quiet', 'data-key': 'back' }) : null)),
      el('button', { type: 'button', class: 'done', 'data-key': 'done', 'data-first': true, press: once(tickOff) }, el('strong', {}, 'Done'), el('span', {}, s.next || '')));
    say(`${s.level >= 0 ? all.levels[s.level].title + ', step ' + s.k + ' of ' + s.m + '. ' : ''}${s.title}. ${plain(s.says)}`);
  }
  // point shows where the touched pot goes.
  function point(event, s) {
    const g = event.target.closest('g.pot');
    const one = g && (s.each || []).find((e) => e.id === g.dataset.id);
    const says = main.querySelector('.says');
    for (const p of main.querySelectorAll('.shown')) p.classList.remove('shown');
    if (!one) return says.replaceChildren(...parts(s.says));
    g.classList.add('shown');
    says.replaceChildren(el('b', {}, one.n + ':'), ' ' + one.says + '.');
    say(one.n + ': ' + one.says);
  }
  function say(text) { told.textContent = text.replace(/\u00a0/g, ' '); }
  function tickOff() {
    for (const t of all.steps[at()].ticks) done.add(t);
    keep();
    awake();
    step();
  }
  function back() {
    const n = at();
    for (let i = n - 1; i >= 0; i--) {
      if (!isDone(all.steps[i])) continue;
      for (const t of all.steps[i].ticks) done.delete(t);
      break;
    }
    keep();
    step();
  }
  function end() {
    screen = { name: 'end' };
    const n = all.steps.length;
    show('at-step', head(n, '', roomAt(n)),
      el('div', { class: 'words' }, el('h1', {}, all.set === 1 ? '1 pot stands' : all.set + ' pots stand'), el('p', { class: 'says' }, 'Every step is done. ', el('b', {}, roomAt(n).said), ' left to the ' + all.lid + '.')),
      el('div', { class: 'left' }, el('div', { class: 'picture' }, picture(all.elevation.marks, all.elevation.box, () => 'done', 'The kiln, loaded')),
        el('div', { class: 'keysrow' }, key('Back', once(back), { class: 'quiet', 'data-key': 'back', 'data-first': true }),
          key('Begin again', once(again), { class: 'quiet' }))));
    say('Every step is done.');
  }
  function again() { done = new Set(); changes = []; keep(); step(); }

  // ---- it doesn't fit

  const figures = () => (all.units === 'in' ? ['1/8', '1/4', '1/2'] : ['3', '6', '12']);
  function ask(n, about, pot) {
    const s = all.steps[n];
    const pots = s.ask || [];
    about = about || (pots.length ? 'tall' : 'post');
    screen = { name: 'ask', n, about, pot: pot || pots[0] && pots[0].pot, keyed: screen.keyed };
    const one = pots.find((p) => p.pot === screen.pot);
    const name = one ? (pots.length > 1 ? one.name : one.which) : '';
    const which = pots.length > 1 && about !== 'post' ? el('div', { class: 'which', role: 'group', 'aria-label': 'Which pot' },
      pots.map((p) => el('button', { type: 'button', 'aria-pressed': String(p.pot === screen.pot), 'aria-label': p.name, 'data-key': 'pot ' + p.pot, press: () => ask(n, about, p.pot) }, p.n || p.name))) : null;
    const by = (kind) => [
      el('div', { class: 'keys' }, figures().map((f, i) => key(f, once(() => answer({ kind, pot: screen.pot, by: f }, `too ${about} by ${f}`)), { 'data-first': i === 0, 'aria-label': `${f} ${all.units}` }))),
      saved ? null : typing(kind, about),
      el('p', { class: 'hint' }, (all.units === 'in' ? 'inches' : 'mm') + (about === 'tall' ? ', read on the stick. Round up.' : ' at its widest. Round up.')),
    ];
    const tall = [];
    if (about === 'tall' || about === 'wide') tall.push(el('h2', {}, `${name} is too ${about} by`), which, ...by(about === 'tall' ? 'taller' : 'wider'));
    if (about === 'post') {
      const pieces = s.posts && s.posts.length ? s.posts : later(n);
      tall.push(el('h2', {}, `Which ${all.words.post} is missing?`), el('div', { class: 'keys pieces' },
        pieces.map((p, i) => key(p.said, once(() => answer({ kind: 'post missing', height: p.height, name: p.name || '', count: 1 }, `one ${p.said} missing`)), { 'data-first': i === 0 }))));
    }
    if (about === 'out') tall.push(el('h2', {}, 'Which one?'), which, key(`Leave ${name.charAt(0).toLowerCase() + name.slice(1)} out`, once(() => answer({ kind: 'leave out', pot: screen.pot }, 'left out')), { class: 'act', 'data-first': true }));
    const way = (says, to) => (about === to ? null : el('button', { type: 'button', class: 'way', press: once(() => ask(n, to, screen.pot)) }, says));
    const others = [pots.length ? way('Too tall', 'tall') : null, pots.length && !saved ? way('Too wide', 'wide') : null,
      !saved && (s.posts && s.posts.length || later(n).length) ? way(`A ${all.words.post} is missing`, 'post') : null, pots.length ? way('Leave one out', 'out') : null];
    show('asking', head(n, '', roomAt(n)), el('div', { class: 'ask' },
      el('div', { class: 'head2' }, el('h1', {}, 'It doesn’t fit'), el('p', { class: 'says' }, 'What stands, stays.')),
      el('div', { class: 'tall' }, ...tall),
      el('div', { class: 'ways' }, ...others),
      key('Back', once(step), { class: 'quiet back', 'data-key': 'back' })));
    say('It doesn’t fit. What stands, stays.');
  }
  // later are the pieces of posts that are still to be set.
  function later(n) {
    const seen = new Map();
    for (const s of all.steps.slice(n)) for (const p of s.kind === 'posts' && s.posts || []) seen.set(p.height + ' ' + (p.name || ''), p);
    return [...seen.values()].sort((a, b) => b.height - a.height);
  }
  function typing(kind, about) {
    const open = key('type', () => {
      const input = el('input', { type: 'text', inputmode: all.units === 'in' ? 'text' : 'decimal', autocomplete: 'off', 'aria-label': `too ${about} by, in ${all.units}`, enterkeyhint: 'go' });
      const go = () => { const by = input.value.trim(); if (by) answer({ kind, pot: screen.pot, by }, `too ${about} by ${by}`); else input.focus(); };
      input.addEventListener('keydown', (event) => { event.stopPropagation(); if (event.key === 'Enter') go(); });
      open.replaceWith(el('div', { class: 'typed' }, input, key('Find a way', once(go))));
      input.focus();
    }, { class: 'quiet' });
    return open;
  }

  async function answer(change, line, way) {
    const n = screen.n;
    const about = screen.about;
    const from = { n, about, pot: screen.pot };
    if (saved) return ahead(change, line, from);
    screen = { name: 'wait', n };
    main.classList.add('still');
    say('Working it out.');
    const title = main.querySelector('h1');
    if (title) title.textContent = 'Working it out';
    const { status, body } = await asked(n, change, way || 0);
    if (screen.name !== 'wait') return;
    if (status === 409) return changed();
    if (status !== 200) return noAnswer(body, change, line, from, way || 0);
    const a = body.answer;
    result({
      n, line, from, title: a.says, says: a.detail, posts: a.posts, button: a.still ? 'Go on' : 'Do that', was: a.was, now: a.now, next: onWith(body.steps, new Set([...done, ...a.ticks])),
      take: () => take(body, line, change), more: () => { screen = from; answer(change, line, (way || 0) + 1); },
    });
    asked(n, change, (way || 0) + 1);
  }
  // asked is the answer to a question; the next way is worked out while the one
  // before it is read.
  let worked = null;
  function asked(n, change, way) {
    const question = JSON.stringify([revision, all.steps[n].n, way, change]);
    if (worked && worked.question === question) return worked.answer;
    const answer = talk('POST', api('/fit') + query, { base: revision, step: all.steps[n].n, way, change });
    worked = { question, answer };
    answer.then(({ status }) => { if (status === 0 && worked && worked.question === question) worked = null; });
    return answer;
  }
  // onWith says what comes after an answer.
  function onWith(steps, ticks) {
    const s = steps.steps.find((one) => !one.ticks.every((t) => ticks.has(t)));
    return s ? 'on with ' + s.name : 'then all is done';
  }
  function result(r) {
    screen = { name: 'answer', ...r.from, keyed: screen.keyed };
    const s = all.steps[r.n];
    let stage = null;
    if (!r.posts && s.picture >= 0) stage = el('div', { class: 'picture' }, picture(all.pictures[s.picture].marks, s.view, stateAt(r.n), s.title));
    show(r.posts ? 'answer piled' : 'answer', head(r.n, r.line, r.now, r.was),
      el('div', { class: 'words' }, el('h1', {}, r.title), r.posts ? el('div', { class: 'piles' }, picture(r.posts.marks, r.posts.box, null, r.title)) : null, el('p', { class: 'says' }, r.says || '')),
      el('div', { class: 'left' }, stage, el('div', { class: 'keysrow' }, r.more ? key('Another way', once(r.more), { class: 'fit' }) : null,
        r.button === 'Back' ? null : key('Back', once(() => ask(r.n, r.from.about, r.from.pot)), { class: 'quiet', 'data-key': 'back' }))),
      el('button', { type: 'button', class: 'done', 'data-first': true, press: once(r.take) }, el('strong', {}, r.button || 'Do that'), el('span', {}, r.next || '')));
    say(`${r.title}. ${r.says || ''} ${r.now.said} left to the ${all.lid}.`);
  }
  function noAnswer(body, change, line, from, way) {
    const s = all.steps[from.n];
    const room = roomAt(from.n);
    const none = body.none;
    const pot = change.pot && (s.ask || []).find((p) => p.pot === change.pot);
    result({
      n: from.n, line, from, was: room, now: room, title: offline ? 'No answer now' : none ? 'No other way' : 'Not read',
      says: (body.refusal || '') + (offline && pot ? ` Leave ${low(pot.name)} out for now, and go on.` : ''),
      button: none && way > 0 ? 'Start over' : 'Back', next: '', take: () => (none && way > 0 ? fromFirst(change, line, from) : ask(from.n, from.about, from.pot)), more: null,
    });
  }
  const low = (name) => name.charAt(0).toLowerCase() + name.slice(1);
  function fromFirst(change, line, from) { screen = from; answer(change, line, 0); }

  // take writes the change to the load, then goes on from there.
  async function take(body, line, change) {
    main.classList.add('still');
    const what = `At the kiln: ${line}. ${body.answer.says}`;
    const put = await talk('PUT', api(''), { base: revision, text: body.text, what });
    if (put.status === 409) return changed();
    if (put.status !== 200) {
      main.classList.remove('still');
      const says = main.querySelector('.says');
      says.replaceChildren((put.body.refusal || 'It could not be written.') + ' Nothing is changed yet; press again to try again.');
      return say(says.textContent);
    }
    revision = put.body.revision;
    all = body.steps;
    for (const t of body.answer.ticks) done.add(t);
    keep();
    step();
  }
  // changed tells calmly that another hand has changed the load.
  async function changed() {
    const from = at();
    const why = await load();
    if (why) return refused(why);
    const n = Math.min(at(), all.steps.length - 1);
    screen = { name: 'changed', n: from };
    show('answer', head(n, 'changed elsewhere', roomAt(n)),
      el('div', { class: 'words' }, el('h1', {}, 'The load has changed'), el('p', { class: 'says' }, 'Another hand has changed it. What is ticked and still as it was stays ticked. Nothing from here was written.')),
      el('div', { class: 'left' }),
      el('button', { type: 'button', class: 'done', 'data-first': true, press: once(() => { keep(); step(); }) }, el('strong', {}, 'Go on'), el('span', {}, 'with the steps as they are now')));
    say('The load has changed.');
  }

  // ---- a saved file answers what was worked out ahead

  function ahead(change, line, from) {
    const s = all.steps[from.n];
    const room = roomAt(from.n);
    const pot = (s.ask || []).find((p) => p.pot === change.pot);
    const name = pot ? (s.ask.length > 1 ? pot.name : pot.which) : 'the pot';
    const found = change.kind === 'taller' && !changes.length && (s.ahead || []).find((a) => a.pot === change.pot && a.by === change.by);
    if (found) {
      return result({
        n: from.n, line, from, title: found.says, says: found.more, posts: found.posts, was: room, now: found.room, next: 'on with ' + s.name, button: found.posts ? 'Do that' : 'Go on', more: () => out(change, line, from, room, name),
        take: () => { if (found.posts) changes.push({ level: all.levels[s.level].id, room: found.room, says: found.says }); keep(); step(); },
      });
    }
    out(change, line, from, room, name);
  }
  function out(change, line, from, room, name) {
    const s = all.steps[from.n];
    result({
      n: from.n, line, from, was: room, now: room, title: `Leave ${low(name)} out`, more: null, button: 'Go on', next: 'on with ' + s.name,
      says: change.kind === 'leave out' ? 'All other pots stay where they are planned. Note it, so that the load can be changed in Threepost later.'
        : (changes.length ? 'One change was made already, and this copy cannot work out another. ' : 'This copy cannot work out another way. ') + 'Leave it out and go on, or ask at the computer that has the load.',
      take: step,
    });
  }

  // ---- beginning

  function refused(why) {
    screen = { name: 'refused' };
    show('answer', el('header', {}, el('div', {}, el('div', { class: 'place' }, 'At the kiln'))),
      el('div', { class: 'words' }, el('h1', {}, 'No steps here'), el('p', { class: 'says' }, why)),
      el('div', { class: 'left' }, el('div', { class: 'keysrow' })),
      el('button', { type: 'button', class: 'done', 'data-first': true, press: once(begin) }, el('strong', {}, 'Try again'), el('span', {}, '')));
  }
  async function begin() {
    if (saved) all = JSON.parse(inside.textContent);
    else {
      const why = await load();
      if (why) return refused(why);
    }
    document.title = (all.title ? all.title + ', at' : 'At') + ' the kiln';
    kept();
    step();
    awake();
    listen();
  }
  // listen hears when another hand changes the load; without it the steps go on.
  let heard = null;
  function listen() {
    if (saved || heard || !window.EventSource) return;
    heard = new EventSource(api('/changes'));
    heard.onmessage = (event) => {
      let now = '';
      try { now = JSON.parse(event.data).revision; } catch { return; }
      if (now && now !== revision && screen.name === 'step') setTimeout(() => { if (now !== revision && screen.name === 'step') changed(); }, 400);
    };
  }
  // awake keeps the screen on where the browser lets it.
  let lock = null;
  async function awake() {
    if (lock || !navigator.wakeLock || document.visibilityState !== 'visible') return;
    try {
      lock = await navigator.wakeLock.request('screen');
      lock.addEventListener('release', () => { lock = null; });
    } catch { lock = null; }
  }
  document.addEventListener('visibilitychange', awake);
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    screen.keyed = true;
    if (event.key === 'ArrowRight' && screen.name === 'step') main.querySelector('button.done').click();
    else if ((event.key === 'ArrowLeft' && screen.name === 'step' || event.key === 'Escape') && main.querySelector('[data-key="back"]')) main.querySelector('[data-key="back"]').click();
    else if (event.key === 'Enter' && document.activeElement === document.body && main.querySelector('button.done')) main.querySelector('button.done').click();
    else return;
    event.preventDefault();
  });
  begin();
})();
