// Ticks wait here until the bench computer has stored them. Written to the device before anything is shown as done,
// so that neither a sleeping tablet nor a closed window loses one.
export class TickQueue {
  /** @param store something like localStorage; @param book the book's short name. */
  constructor(store, book) {
    this.store = store;
    this.key = `lugbook-ticks-${book}`;
  }

  /** Oldest first. What cannot be read is not thrown away: it is put aside under another name. */
  waiting() {
    const text = this.store.getItem(this.key);
    if (!text) return [];
    try {
      const ticks = JSON.parse(text);
      if (Array.isArray(ticks)) return ticks;
    } catch { /* put aside below */ }
    this.store.setItem(`${this.key}-unread-${Date.now()}`, text);
    this.store.removeItem(this.key);
    return [];
  }

  add(tick) {
    const made = { id: newId(), at: new Date().toISOString(), ...tick };
    this.store.setItem(this.key, JSON.stringify([...this.waiting(), made]));
    return made;
  }

  /** Refused for good: out of the way of the others, but not thrown away. */
  putAside(ids) {
    const gone = new Set(ids), key = `${this.key}-refused`;
    const aside = this.waiting().filter(t => gone.has(t.id));
    if (aside.length > 0) this.store.setItem(key, JSON.stringify([...JSON.parse(this.store.getItem(key) ?? '[]'), ...aside]));
    this.settle(ids);
  }

  /** These are stored. */
  settle(ids) {
    const gone = new Set(ids);
    const left = this.waiting().filter(t => !gone.has(t.id));
    if (left.length === 0) this.store.removeItem(this.key);
    else this.store.setItem(this.key, JSON.stringify(left));
  }
}

/** The steps as they are once what waits is stored too. */
export function withTicks(steps, ticks) {
  const by = new Map(steps.map(s => [s.position, { ...s }]));
  // What waits has taken its pieces already, whatever the sheet still counts.
  const taken = piece => ticks.filter(t => t.piece && same(t.piece, piece)).length;
  for (const step of by.values()) if (step.offer) step.offer = { ...step.offer, left: step.offer.left - taken(step.offer.piece) };
  for (const tick of ticks) {
    const step = by.get(tick.position);
    if (!step) continue;
    if (tick.kind === 'done') { step.done = true; step.problem = null; step.fitted = tick.piece ?? null; }
    if (tick.kind === 'not-done') step.done = false;
    if (tick.kind === 'reading') step.waiting = { ...step.waiting, [place(tick.read)]: tick.words };
    if (tick.kind === 'problem') step.problem = tick.words ?? null;
    if (tick.kind === 'note') step.note = tick.words ?? null;
    step.unsent = true;
  }
  return steps.map(s => by.get(s.position));
}

const same = (a, b) => a.item === b.item && (a.where ?? null) === (b.where ?? null);

/** Where a reading is taken, as a key. */
export const place = read => `${read.kind} ${read.from} ${read.to}`;

/** A version 4 UUID; crypto.randomUUID is missing where the page came over plain HTTP from another machine. */
export function newId() {
  if (globalThis.crypto?.randomUUID) return crypto.randomUUID();
  const b = crypto.getRandomValues(new Uint8Array(16));
  b[6] = (b[6] & 0x0f) | 0x40;
  b[8] = (b[8] & 0x3f) | 0x80;
  const hex = [...b].map(x => x.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
