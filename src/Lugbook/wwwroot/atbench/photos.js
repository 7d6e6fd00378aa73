// The photographs of a position, and the way to take one while there is a line.
import { el } from './card.js';

export class Photos {
  constructor(book, host, dialog, taken) {
    this.book = book;
    this.host = host;
    this.dialog = dialog;
    this.taken = taken;
    this.said = new Map();      // by position: what became of the last one that was sent
    this.kept = new Set();
    this.gathering = false;
    dialog.addEventListener('click', event => { if (event.target === dialog || event.target.tagName === 'IMG') dialog.close(); });
  }

  line(up) {
    this.up = up;
    if (this.step) this.show(this.step, up);
  }

  show(step, up) {
    this.step = step;
    const said = this.said.get(step.position);
    const now = JSON.stringify([step.position, step.photos, step.done, up, said ?? null]);
    if (now === this.now) return;
    this.now = now;
    const takes = (step.done ? ['after'] : ['before', 'after']).map(moment => this.take(step, moment, up));
    this.host.replaceChildren(...[...step.photos.map(p => this.thumb(p)), el('div', { class: 'takes' }, ...takes,
      said && el('p', { class: said.good ? 'fine' : 'complaint', role: 'status' }, said.text), !up && el('p', { class: 'fine faint' }, 'Photographs are taken in when the line is back.'))]);
  }

  thumb(photo) {
    const words = `${photo.place}, ${photo.moment}${photo.caption ? `: ${photo.caption}` : ''}`;
    const button = el('button', { type: 'button', class: 'thumb', 'aria-label': `Photograph ${photo.name} of ${words}, large` }, el('img', { src: photo.small, alt: '' }), el('span', { class: 'fine' }, words));
    button.addEventListener('click', () => {
      this.dialog.querySelector('b').textContent = `${photo.name}, ${words}`;
      const large = this.dialog.querySelector('img');
      large.onerror = () => { large.onerror = null; large.src = photo.small; };
      Object.assign(large, { src: photo.large, alt: words });
      this.dialog.showModal();
    });
    return button;
  }

  take(step, moment, up) {
    const input = el('input', { class: 'unseen', type: 'file', accept: 'image/*', capture: 'environment', disabled: !up, 'aria-label': `Photograph ${step.position}, ${moment}` });
    input.addEventListener('change', () => { if (input.files[0]) this.send(step.position, moment, input.files[0]); });
    return el('label', { class: `button${up ? '' : ' off'}` }, `Photograph, ${moment}`, input);
  }

  async send(position, moment, file) {
    const say = (text, good) => { this.said.set(position, { text, good }); if (this.step?.position === position) this.show(this.step, this.up); };
    say('The photograph is on its way …', true);
    try {
      const answer = await fetch(`book/${encodeURIComponent(this.book)}/photographs?moment=${moment}&place=${encodeURIComponent(position)}`, {
        method: 'POST', headers: { 'Content-Type': 'application/octet-stream', 'X-Lugbook-Photograph': '1' }, body: file, signal: AbortSignal.timeout(180000),
      });
      const told = await answer.json().catch(() => ({}));
      say(answer.ok ? `✓ ${told.name} kept.` : `Not kept: ${told.problem ?? `the bench computer answered ${answer.status}.`} ${told.remedy ?? ''}`, answer.ok);
      if (answer.ok) this.taken();
    } catch {
      say('Not kept: the bench computer did not answer. It is still on this device; send it again when the line is back.', false);
    }
  }

  /** Both copies of each, one after the other: where the browser keeps them, they are here without a line too. */
  async gather(steps, up) {
    if (this.gathering) return;
    this.gathering = true;
    try {
      for (const address of new Set(steps.flatMap(s => s.photos.flatMap(p => [p.small, p.large])))) {
        if (!up()) return;
        if (this.kept.has(address)) continue;
        try { if ((await fetch(address)).ok) this.kept.add(address); } catch { return; }
      }
    } finally { this.gathering = false; }
  }
}
