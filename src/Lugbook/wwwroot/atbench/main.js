// At the bench: one position at a time. All that it needs is here once the sheet has come; ticks go out when there is a line.
import { attach, fit, bring, refresh } from '../chassis.js';
import { card, list, el } from './card.js';
import { Checks, panel } from './check.js';
import { Line } from './line.js';
import { Photos } from './photos.js';
import { TickQueue, withTicks } from './ticks.js';

const book = decodeURIComponent(location.pathname.split('/')[2]);
const at = name => document.getElementById(name);
const queue = new TickQueue(localStorage, book);
const kept = { get: name => localStorage.getItem(`lugbook-bench-${name}`), set: (name, value) => localStorage.setItem(`lugbook-bench-${name}`, value) };
let sheet = null, steps = [], here = -1, up = false, drawn = '';
const checks = new Checks(book, beside);
const photos = new Photos(book, at('photos'), at('large'), () => line.refresh());
const made = [];   // ticks of this visit, newest last, to take back

at('leave').href = `book/${encodeURIComponent(book)}/fit`;

const line = new Line(book, queue, {
  sheet(json) {
    const first = sheet === null;
    sheet = json;
    document.title = `${json.title} · at the bench`;
    show();
    if (first) open();
    if (up) gather();
    document.querySelector('header').dataset.ready = 'yes';
  },
  svg(text) {
    at('drawing').innerHTML = text;
    attach(at('drawing'), { invokeMethodAsync: (_, kind, name) => tapped(kind, name) });
    refresh(at('drawing'));
    point();
  },
  state(words, good, isUp) {
    if (up !== isUp) { up = isUp; photos.line(up); if (up) gather(); }
    at('line').textContent = words;
    at('line').className = `chip ${good ? 'good' : 'bad'}`;
  },
  notice,
});

/** Begins where the hand left off. */
function open() {
  at('waiting').hidden = true;
  if (steps.length === 0) {
    at('waiting').hidden = false;
    at('waiting').textContent = 'Nothing is on the sheet: nothing goes, or the lugs of what goes are not entered.';
    return;
  }
  at('work').hidden = false;
  at('bar').hidden = false;
  const wanted = decodeURIComponent(location.hash.slice(1)) || kept.get(`here-${book}`);
  const known = steps.findIndex(s => s.position === wanted);
  const next = steps.findIndex(s => !s.done && !s.problem);
  go(known >= 0 && !steps[known].done ? known : next >= 0 ? next : 0);
  where();
}

/** After more than an hour away: what was last done, and what waits. */
function where() {
  const left = sheet.leftOff;
  if (!left) return;
  const away = Date.now() - new Date(left.when).getTime();
  if (away < 3600e3) return;
  const open = steps.filter(s => !s.done).length, problems = steps.filter(s => s.problem).map(s => s.position);
  at('where').replaceChildren(el('p', {}, `Last done: ${left.position}, ${ago(away)}. ${open} of ${steps.length} still open.`
    + (problems.length ? ` Problems at ${problems.join(', ')}.` : '')), button('Good', () => { at('where').hidden = true; }));
  at('where').hidden = false;
}

const ago = ms => ms < 2 * 3600e3 ? 'an hour ago' : ms < 24 * 3600e3 ? `${Math.round(ms / 3600e3)} hours ago` : ms < 48 * 3600e3 ? 'yesterday' : `${Math.round(ms / 86400e3)} days ago`;

function button(text, act) {
  const b = el('button', { type: 'button' }, text);
  b.addEventListener('click', act);
  return b;
}

function show() {
  steps = withTicks(sheet.steps, queue.waiting());
  at('count').textContent = `${steps.filter(s => s.done).length} of ${steps.length} done`;
  if (here >= steps.length) here = steps.length - 1;
  if (here < 0) return;
  const step = steps[here];
  // Drawn anew only where it changed: what is replaced under a finger does not feel the tap.
  const now = JSON.stringify([step, steps.length]);
  if (now !== drawn) at('card').replaceChildren(...card(step, steps.length, () => done(step.offer.piece)));
  drawn = now;
  beside();
  at('done').textContent = step.done ? 'Not done after all' : 'Done';
  at('done').disabled = !step.done && step.open !== null && step.open !== undefined;
  at('back').disabled = here === 0;
  at('next').disabled = here === steps.length - 1;
  at('undo').disabled = made.length === 0;
  if (!at('list').hidden) at('list').replaceChildren(...list(steps, sheet.notOnSheet, here, i => { closeList(); go(i); }));
  line.say();
}

/** What stands beside the card: what to read after soldering, and the photographs. Drawn anew only where it changed, so that no half typed figure is lost. */
function beside() {
  const step = steps[here];
  if (!step) return;
  if (!step.open) checks.want(step.position, sheet.version, up);
  panel(at('check'), step, checks.of(step.position), (reading, text) => read(step, reading, text));
  photos.show(step, up);
}

/** Brings what the steps will need when the line is gone. */
async function gather() {
  await checks.gather(steps.filter(s => !s.open).map(s => s.position), sheet?.workedOut ? sheet.version : null, () => up);
  await photos.gather(steps, () => up);
}

function read(step, reading, text) {
  if (!/\d|^\s*(ol|over|open)/i.test(text)) { notice(`${step.position}: type what the meter shows, as 57.8k or 0.047u, or OL.`); return false; }
  return keep({ position: step.position, kind: 'reading', words: text.trim(), was: null, read: reading.at }) !== null;
}

function go(i) {
  here = Math.max(0, Math.min(steps.length - 1, i));
  kept.set(`here-${book}`, steps[here].position);
  show();
  point();
  scrollTo({ top: 0 });
}

/** The part in the middle of the drawing, itself plain and all else pale. */
function point() {
  const svg = at('drawing').querySelector('svg');
  if (!svg || here < 0) return;
  const step = steps[here];
  const lugs = new Set([...step.off, ...step.on].map(l => l.lug.toLowerCase()));
  svg.classList.add('pointing');
  for (const item of svg.querySelectorAll('[data-part], [data-lug]'))
    item.classList.toggle('here', item.dataset.part === step.position || (item.dataset.lug !== undefined && lugs.has(item.dataset.lug.toLowerCase())));
  fit(at('drawing'));
  bring(at('drawing'), 'data-part', step.position);
}

function tapped(kind, name) {
  const i = kind === 'part' ? steps.findIndex(s => s.position === name) : -1;
  if (i >= 0) go(i);
}

/** On this device first, then on its way; null when this device cannot keep it. */
function keep(said) {
  let kept;
  try { kept = queue.add(said); }
  catch (full) {
    notice(`This device cannot keep the tick (${full.message}). Write it down and free some space.`);
    return null;
  }
  show();
  line.refresh();
  return kept;
}

function tick(kind, words, was, piece) {
  const before = { ...steps[here] };
  const kept = keep({ position: before.position, kind, words: words ?? null, was, ...(piece ? { piece } : {}) });
  if (!kept) return;
  made.push({ ...kept, before });
  at('undo').disabled = false;
}

/** Done, with a piece of the drawer if one is named; or open again. */
function done(piece) {
  const step = steps[here];
  if (at('done').disabled) { notice(`${step.position} cannot be ticked yet: ${step.open}`); return; }
  tick(step.done ? 'not-done' : 'done', null, step.done ? 'done' : '', step.done ? null : piece);
  if (steps[here].done && at('leap').checked) {
    const next = steps.findIndex((s, i) => i > here && !s.done && !s.problem);
    const any = next >= 0 ? next : steps.findIndex(s => !s.done && !s.problem);
    if (any >= 0) go(any);
  }
}

function takeBack() {
  const last = made.pop();
  if (!last) return;
  const i = steps.findIndex(s => s.position === last.position);
  if (i < 0) return;
  go(i);
  const now = steps[i];
  if (last.kind === 'done' || last.kind === 'not-done') {
    tick(last.before.done ? 'done' : 'not-done', null, now.done ? 'done' : '', last.before.done ? last.before.fitted : null);
    made.pop();
    if (last.before.problem) { tick('problem', last.before.problem, ''); made.pop(); }
  } else {
    tick(last.kind, last.before[last.kind] ?? null, now[last.kind] ?? '');
    made.pop();
  }
  show();
}

const quick = {
  problem: ['Part does not fit', 'Lug broken', 'Old part looks different', 'Lead too short', 'Not sure which lug'],
  note: ['Routed as before', 'Lug cleaned', 'Old lead left as a tail', 'Check by eye later'],
};

function ask(kind) {
  const step = steps[here], before = step[kind] ?? '';
  at('words-title').textContent = `${kind === 'problem' ? 'Problem at' : 'Note for'} ${step.position}`;
  at('words-text').value = before;
  at('words-clear').hidden = before === '';
  at('words-clear').textContent = kind === 'problem' ? 'It is settled' : 'Take it out';
  at('words-quick').replaceChildren(...quick[kind].map(text => button(text, () => { at('words-text').value = [at('words-text').value.trim(), text].filter(Boolean).join('. '); })));
  const dialog = at('words');
  dialog.returnValue = '';
  dialog.onclose = () => {
    const words = at('words-text').value.trim();
    if (dialog.returnValue === 'keep' && words && words !== before) tick(kind, words, before);
    if (dialog.returnValue === 'clear') tick(kind, null, before);
    at('position')?.focus({ preventScroll: true });
  };
  dialog.showModal();
  at('words-text').focus();
}

function openList() {
  at('list').hidden = false;
  at('all').setAttribute('aria-expanded', 'true');
  show();
  at('list').querySelector('[aria-current]')?.focus();
  at('list').querySelector('[aria-current]')?.scrollIntoView({ block: 'center' });
}

function closeList() {
  at('list').hidden = true;
  at('all').setAttribute('aria-expanded', 'false');
}

function notice(text) {
  const box = el('div', { class: 'complaint' }, el('p', {}, text), button('Seen', () => box.remove()));
  at('notice').append(box);
}

at('done').addEventListener('click', () => done());
at('back').addEventListener('click', () => go(here - 1));
at('next').addEventListener('click', () => go(here + 1));
at('undo').addEventListener('click', takeBack);
at('problem').addEventListener('click', () => ask('problem'));
at('note').addEventListener('click', () => ask('note'));
at('all').addEventListener('click', () => (at('list').hidden ? openList() : closeList()));
at('more').addEventListener('click', () => {
  at('settings').hidden = !at('settings').hidden;
  at('more').setAttribute('aria-expanded', String(!at('settings').hidden));
});

// A pedal is a keyboard with one key: whichever it sends.
let pedal = kept.get('pedal') ?? 'PageDown';
at('pedal').value = pedal;
at('pedal').addEventListener('keydown', event => {
  if (event.key === 'Tab' || event.key === 'Shift') return;
  event.preventDefault();
  event.stopPropagation();
  pedal = event.key === ' ' ? 'Space' : event.key;
  at('pedal').value = pedal;
  kept.set('pedal', pedal);
});
at('leap').checked = kept.get('leap') !== 'no';
at('leap').addEventListener('change', () => kept.set('leap', at('leap').checked ? 'yes' : 'no'));

document.addEventListener('keydown', event => {
  if (event.repeat || event.ctrlKey || event.metaKey || event.altKey || here < 0 || at('words').open || at('large').open) return;
  const from = event.target;
  if (from.closest?.('input, textarea, select')) return;
  const key = event.key === ' ' ? 'Space' : event.key;
  const onDrawing = from.closest?.('#drawing');
  const acts = { ArrowLeft: () => go(here - 1), ArrowRight: () => go(here + 1), p: () => ask('problem'), n: () => ask('note'), u: takeBack, Backspace: takeBack, 0: point, Enter: () => done(), l: () => (at('list').hidden ? openList() : closeList()) };
  if (onDrawing && key !== pedal && !['p', 'n', 'u', 'Enter', '0'].includes(key)) return;
  if (from.closest?.('button, a, summary') && (key === 'Enter' || key === 'Space') && key !== pedal) return;   // the control itself is meant
  const act = key === pedal ? () => done() : acts[key.length === 1 ? key.toLowerCase() : key];
  if (!act) return;
  event.preventDefault();
  event.stopPropagation();
  act();
}, true);

// The screen stays awake while it is asked to; where the browser cannot, it says so.
let lock = null;
async function wake() {
  if (!at('awake').checked) { await lock?.release(); lock = null; return; }
  try { lock = await navigator.wakeLock.request('screen'); at('awake-help').textContent = ''; }
  catch { at('awake-help').textContent = 'This browser does not allow it here; set the device so that it does not sleep.'; }
}
at('awake').addEventListener('change', () => { kept.set('awake', at('awake').checked ? 'yes' : 'no'); wake(); });
document.addEventListener('visibilitychange', () => { if (!document.hidden && at('awake').checked) wake(); });
at('awake').checked = kept.get('awake') === 'yes';
if (at('awake').checked) wake();

// Where the browser allows it, page and sheet are kept on the device, so that it opens without a line too.
navigator.serviceWorker?.register('/bench-worker.js', { scope: '/book/' }).then(async () => {
  await navigator.serviceWorker.ready;
  // The first visit came before the worker: what it brought is fetched once more, for keeping.
  if (!navigator.serviceWorker.controller) await new Promise(then => navigator.serviceWorker.addEventListener('controllerchange', then, { once: true }));
  await Promise.all(['', '.json', '.svg'].map(part => fetch(`book/${encodeURIComponent(book)}/bench${part}`)));
  document.body.dataset.kept = 'yes';
}).catch(() => { /* over plain HTTP from another machine it is not allowed: the open page works on all the same */ });
line.start();
