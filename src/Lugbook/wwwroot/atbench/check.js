// What to read right after soldering: brought once for every position, so that it is here when the line is gone.
import { el } from './card.js';
import { place } from './ticks.js';

export class Checks {
  constructor(book, changed) {
    this.book = book;
    this.changed = changed;
    this.held = new Map();      // by position: { version, check } or { version, trouble }
    this.asking = new Set();
    this.gathering = false;
  }

  of(position) { return this.held.get(position) ?? null; }

  /** Asks again when the book has changed since; without a line what is here stands. */
  async want(position, version, up) {
    const held = this.held.get(position);
    if (held && (held.version === version || !up && held.check) || this.asking.has(position)) return;
    this.asking.add(position);
    try {
      const answer = await fetch(`book/${encodeURIComponent(this.book)}/bench-check/${encodeURIComponent(position)}`, { cache: 'no-store', signal: AbortSignal.timeout(120000) });
      if (answer.ok) this.held.set(position, { version, check: await answer.json() });
      else this.held.set(position, { ...held, version, trouble: (await answer.json().catch(() => ({}))).detail ?? `The bench computer answered ${answer.status}.` });
    } catch {
      // Asked again as soon as there is a line.
      if (!held?.check) this.held.set(position, { version: up ? null : version, trouble: 'What to read here is not on this device yet; it comes with the line.' });
    } finally {
      this.asking.delete(position);
      this.changed();
    }
  }

  /** One after the other, in the order of the work; version null: not worked out yet. */
  async gather(positions, version, up) {
    if (this.gathering || version === null) return;
    this.gathering = true;
    try {
      for (const position of positions) if (up() && !this.held.get(position)?.check) await this.want(position, version, true);
      if (positions.every(p => this.held.get(p)?.check)) document.body.dataset.checks = 'kept';
    } finally { this.gathering = false; }
  }
}

const shown = new WeakMap();

/** Draws the check of a step, unless it stands there already. */
export function panel(host, step, held, store) {
  host.hidden = Boolean(step.open);
  const now = JSON.stringify([step.position, step.waiting ?? null, held]);
  if (shown.get(host) === now) return;
  const typed = shown.has(host) && host.dataset.position === step.position ? [...host.querySelectorAll('input')].map(i => [i.id, i.value, i === document.activeElement]) : [];
  const open = host.dataset.position === step.position && host.querySelector('details')?.open;
  shown.set(host, now);
  host.dataset.position = step.position;
  host.replaceChildren(...parts(step, held, store));
  if (open) host.querySelector('details')?.setAttribute('open', '');
  for (const [id, value, focused] of typed) {
    const input = host.querySelector(`[id="${CSS.escape(id)}"]`);
    if (!input) continue;
    input.value = value;
    if (focused) input.focus({ preventScroll: true });
  }
}

function parts(step, held, store) {
  const title = el('h2', {}, `Right after soldering ${step.position}`);
  if (!held) return [title, el('p', { role: 'status' }, 'Working out what to read …')];
  const check = held.check;
  if (!check) return [title, el('p', { class: 'asked' }, held.trouble)];
  if (check.reason) return [title, el('p', { class: 'asked' }, `No check can be worked out: ${check.reason}`)];
  const gives = check.readings.filter(r => r.gives.length > 0);
  return [
    title,
    check.readings.length > 0 && el('div', { class: 'caution' }, check.cautions.join(' ')),
    check.readings.length > 0 && el('ol', { class: 'readings' }, ...check.readings.map(r => reading(step, r, store))),
    check.said && el('p', { class: check.well ? 'understood' : 'complaint', role: 'status' }, el('strong', {}, check.said)),
    check.lookAt.length > 0 && el('p', {}, el('strong', {}, 'Look at'), ', because no reading tells: ', check.lookAt.join('; '), '.'),
    gives.length > 0 && el('details', {}, el('summary', {}, 'What a slip would show'),
      ...gives.flatMap(r => [el('h3', {}, `${r.number}. ${r.at.from} to ${r.at.to}`), el('dl', { class: 'pairs' }, ...r.gives.flatMap(g => [el('dt', {}, g.shown), el('dd', {}, g.slips.join('; or '))]))])),
    el('p', { class: 'faint fine' }, check.why),
  ].filter(Boolean);
}

function reading(step, r, store) {
  const id = `read-${step.position}-${r.number}`, waiting = step.waiting?.[place(r.at)];
  const input = el('input', { id, enterkeyhint: 'done', spellcheck: 'false', autocomplete: 'off', placeholder: r.at.kind === 'ohms' ? '57.8k or OL' : '0.047u' });
  const form = el('form', { class: 'row' }, input, el('button', { type: 'submit' }, 'Keep', el('span', { class: 'unseen' }, ` reading ${r.number}`)),
    waiting ? el('span', { class: 'chip note' }, `${waiting}: kept here`)
      : r.entered && el('span', { class: `chip ${r.off ? 'bad' : 'good'}` }, r.off ? `✗ ${r.entered}: not as expected` : `✓ ${r.entered}`));
  form.addEventListener('submit', event => {
    event.preventDefault();
    const text = input.value;
    input.value = '';
    if (!store(r, text)) input.value = text;
  });
  return el('li', {}, el('label', { for: id }, r.sentence), r.hint && el('div', { class: 'fine faint' }, r.hint), form);
}
