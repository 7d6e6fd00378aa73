// The line to the bench computer: fetches the sheet, sends what waits, hears of changes, and says plainly when it is gone.
export class Line {
  constructor(book, queue, heard) {
    this.book = book;
    this.queue = queue;
    this.heard = heard;     // { sheet(json), svg(text), state(word), notice(text) }
    this.up = false;
    this.sending = false;
    this.version = -1;
    this.asked = 0;
  }

  start() {
    this.listen();
    this.refresh();
    addEventListener('online', () => this.refresh());
    document.addEventListener('visibilitychange', () => { if (!document.hidden) this.refresh(); });
    setInterval(() => { if (!this.up || this.queue.waiting().length > 0) this.refresh(); }, 5000);
  }

  listen() {
    const news = new EventSource(`book/${encodeURIComponent(this.book)}/changes`);
    news.addEventListener('changed', e => { if (e.data === 'changed') this.refresh(); });
    news.onerror = () => this.gone();
  }

  gone() {
    this.up = false;
    this.say();
  }

  say() {
    const waiting = this.queue.waiting().length;
    const ticks = waiting === 1 ? '1 tick' : `${waiting} ticks`;
    this.heard.state(this.up ? (waiting ? `sending ${ticks}` : 'stored') : (waiting ? `no line: ${ticks} kept here` : 'no line: ticks are kept here'), this.up && !waiting, this.up);
  }

  /** Sends what waits, then fetches the sheet. One at a time. */
  async refresh() {
    if (this.sending) { this.again = true; return; }
    this.sending = true;
    try {
      try { await this.send(); } catch { /* no line: the sheet may still come from this device */ }
      const answer = await fetch(`book/${encodeURIComponent(this.book)}/bench.json`, { cache: 'no-store', signal: AbortSignal.timeout(20000) });
      if (answer.ok) {
        const sheet = await answer.json();
        this.up = answer.headers.get('x-from-device') === null;
        this.heard.sheet(sheet);
        if (sheet.version !== this.version) {
          this.version = sheet.version;
          const svg = await fetch(`book/${encodeURIComponent(this.book)}/bench.svg`, { cache: 'no-store', signal: AbortSignal.timeout(30000) });
          if (svg.ok) this.heard.svg(await svg.text());
        }
        if (!sheet.workedOut && this.up) setTimeout(() => this.refresh(), Math.min(8000, 1500 * 2 ** this.asked++));
      } else {
        this.heard.notice(await reason(answer));
      }
    } catch {
      this.up = false;
    } finally {
      this.sending = false;
      this.say();
      if (this.again) { this.again = false; this.refresh(); }
    }
  }

  async send() {
    const waiting = this.queue.waiting();
    if (waiting.length === 0) return;
    const answer = await fetch(`book/${encodeURIComponent(this.book)}/ticks`, {
      method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Lugbook': 'bench' }, body: JSON.stringify(waiting.slice(0, 500)), signal: AbortSignal.timeout(20000),
    });
    if (!answer.ok && answer.status !== 503) { this.heard.notice(await reason(answer)); return; }
    const said = await answer.json();
    this.queue.settle(said.taken);
    this.queue.putAside(said.refused.map(r => r.id));
    for (const text of [...said.meanwhile, ...said.refused.map(r => `Not stored: ${r.why}`), ...(said.trouble ? [said.trouble] : [])]) this.heard.notice(text);
  }
}

async function reason(answer) {
  try { return (await answer.json()).detail ?? `The bench computer answered ${answer.status}.`; }
  catch { return `The bench computer answered ${answer.status}.`; }
}
