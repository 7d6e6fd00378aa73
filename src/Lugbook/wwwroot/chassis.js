// The chassis drawing under the hand: drag or arrow keys move it, wheel, pinch or +/- zoom it, a tap names what is there.
// The drawing itself is made on the bench computer; only the view (the viewBox) lives here, so that panning never waits.
const views = new WeakMap();

export function attach(host, page) {
  if (views.has(host)) return refresh(host);
  const view = { box: null, whole: null, page, pointers: new Map(), moved: 0, pinch: 0 };
  views.set(host, view);

  host.addEventListener('wheel', event => {
    event.preventDefault();
    zoomAt(host, event.clientX, event.clientY, Math.exp(event.deltaY * 0.0015));
  }, { passive: false });
  host.addEventListener('pointerdown', event => {
    view.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (view.pointers.size === 1) view.moved = 0;
    view.pinch = spread(view);
  });
  host.addEventListener('pointermove', event => {
    const before = view.pointers.get(event.pointerId);
    if (!before) return;
    const dx = event.clientX - before.x, dy = event.clientY - before.y;
    view.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    view.moved += Math.abs(dx) + Math.abs(dy);
    if (view.moved > 6 && !host.hasPointerCapture(event.pointerId)) host.setPointerCapture(event.pointerId);
    if (view.pointers.size === 1) {
      const scale = perPixel(host);
      move(host, -dx * scale, -dy * scale);
    } else {
      const now = spread(view);
      const [a, b] = [...view.pointers.values()];
      if (view.pinch > 0 && now > 0) zoomAt(host, (a.x + b.x) / 2, (a.y + b.y) / 2, view.pinch / now);
      view.pinch = now;
      view.moved += 10;
    }
  });
  const lift = event => {
    const known = view.pointers.delete(event.pointerId);
    view.pinch = spread(view);
    if (known && event.type === 'pointerup' && view.moved <= 6 && view.pointers.size === 0) tap(host, event);
  };
  host.addEventListener('pointerup', lift);
  host.addEventListener('pointercancel', lift);
  host.addEventListener('keydown', event => {
    const step = view.box ? view.box.w / 8 : 0;
    const keys = {
      ArrowLeft: () => move(host, -step, 0), ArrowRight: () => move(host, step, 0),
      ArrowUp: () => move(host, 0, -step), ArrowDown: () => move(host, 0, step),
      '+': () => zoom(host, 0.8), '=': () => zoom(host, 0.8), '-': () => zoom(host, 1.25), '0': () => fit(host),
    };
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  });
  refresh(host);
}

/** After the drawing was made anew: keep the view, unless the sheet itself has another size. */
export function refresh(host) {
  const view = views.get(host), svg = host.querySelector('svg');
  if (!view || !svg) return;
  const [x, y, w, h] = svg.getAttribute('viewBox').split(/[\s,]+/).map(Number);
  const whole = { x, y, w, h };
  if (view.drawn === svg) return;
  view.drawn = svg;
  // A mount moved a little changes the sheet a little: the view stays, unless it showed the whole sheet or the sheet is another one.
  const near = limit => view.whole && ['x', 'y', 'w', 'h'].every(k => Math.abs(view.whole[k] - whole[k]) < limit);
  const all = view.box && view.whole && ['x', 'y', 'w', 'h'].every(k => Math.abs(view.box[k] - view.whole[k]) < 0.01);
  const keep = view.box && (near(0.5) || !all && near(0.2 * whole.w));
  view.whole = whole;
  if (!keep) view.box = { ...whole };
  show(host);
}

export function zoom(host, factor) {
  const frame = host.getBoundingClientRect();
  zoomAt(host, frame.left + frame.width / 2, frame.top + frame.height / 2, factor);
}

export function fit(host) {
  const view = views.get(host);
  view.box = { ...view.whole };
  show(host);
}

/** Brings one lug or part to the middle, large enough to read. */
export function bring(host, attribute, name) {
  const view = views.get(host), svg = host.querySelector('svg');
  if (!view || !svg) return;
  const item = [...svg.querySelectorAll(`[${attribute}]`)].find(e => e.getAttribute(attribute).toLowerCase() === name.toLowerCase());
  if (!item) return;
  const place = item.getBoundingClientRect(), frame = svg.getBoundingClientRect();
  const scale = perPixel(host);
  const cx = view.box.x + (place.left + place.width / 2 - frame.left - (frame.width - view.box.w / scale) / 2) * scale;
  const cy = view.box.y + (place.top + place.height / 2 - frame.top - (frame.height - view.box.h / scale) / 2) * scale;
  const side = Math.min(view.box.w, Math.max(90, view.whole.w / 4));
  const h = side * view.box.h / view.box.w;
  view.box = { x: cx - side / 2, y: cy - h / 2, w: side, h };
  show(host);
}

function tap(host, event) {
  const view = views.get(host);
  const at = document.elementFromPoint(event.clientX, event.clientY);
  const lug = at?.closest?.('[data-lug]') ?? nearestLug(host, event.clientX, event.clientY);
  const item = at?.closest?.('[data-lug]') ?? at?.closest?.('[data-part]') ?? lug ?? at?.closest?.('[data-wire]') ?? at?.closest?.('[data-mount]');
  if (!item || !host.contains(item)) return;
  for (const kind of ['lug', 'part', 'wire', 'mount']) {
    const name = item.dataset[kind];
    if (name !== undefined) { view.page.invokeMethodAsync('Tapped', kind, name); return; }
  }
}

/** A fingertip is bigger than a lug: within 22 pixels the nearest one is meant. */
function nearestLug(host, x, y) {
  let best = null, nearest = 22;
  for (const lug of host.querySelectorAll('[data-lug]')) {
    const r = lug.getBoundingClientRect();
    const d = Math.hypot(r.left + r.width / 2 - x, r.top + r.height / 2 - y);
    if (d < nearest) { nearest = d; best = lug; }
  }
  return best;
}

function spread(view) {
  if (view.pointers.size !== 2) return 0;
  const [a, b] = [...view.pointers.values()];
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function perPixel(host) {
  const view = views.get(host), frame = host.querySelector('svg').getBoundingClientRect();
  return Math.max(view.box.w / frame.width, view.box.h / frame.height);
}

function move(host, dx, dy) {
  const view = views.get(host);
  view.box = { ...view.box, x: view.box.x + dx, y: view.box.y + dy };
  show(host);
}

function zoomAt(host, clientX, clientY, factor) {
  const view = views.get(host), svg = host.querySelector('svg');
  if (!view?.box || !svg) return;
  const w = Math.min(view.whole.w * 2, Math.max(view.whole.w / 40, view.box.w * factor));
  const f = w / view.box.w;
  const frame = svg.getBoundingClientRect(), scale = perPixel(host);
  const px = view.box.x + (clientX - frame.left - (frame.width - view.box.w / scale) / 2) * scale;
  const py = view.box.y + (clientY - frame.top - (frame.height - view.box.h / scale) / 2) * scale;
  view.box = { x: px - (px - view.box.x) * f, y: py - (py - view.box.y) * f, w, h: view.box.h * f };
  show(host);
}

function show(host) {
  const view = views.get(host), svg = host.querySelector('svg'), b = view.box;
  const cx = Math.min(Math.max(b.x + b.w / 2, view.whole.x), view.whole.x + view.whole.w);
  const cy = Math.min(Math.max(b.y + b.h / 2, view.whole.y), view.whole.y + view.whole.h);
  b.x = cx - b.w / 2;
  b.y = cy - b.h / 2;
  svg.setAttribute('viewBox', `${b.x} ${b.y} ${b.w} ${b.h}`);
}
