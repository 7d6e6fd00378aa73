// Laying mounts and bodies under the hand: drag with a ghost that snaps, arrow keys and turn keys, a tap for a new mount.
// What lies where comes from the bench computer; only the ghost lives here. Each drop goes back as one edit.
import { snap, turned } from './placing-snap.js';

const benches = new WeakMap();
const idle = 700;   // ms without a key until what was moved by keys is stored

/** Called after each drawing: {matrix, edges, grid, mounts, bodies, fresh, chosen}; null leaves the mode. */
export function lay(host, page, scene) {
  let bench = benches.get(host);
  if (!bench) {
    if (!scene) return;
    bench = { host, page, scene: null, drag: null, keys: null, timer: 0 };
    benches.set(host, bench);
    for (const [name, act] of Object.entries({ pointerdown: down, pointermove: go, pointerup: up, pointercancel: cancel, pointerleave: leave, keydown: key }))
      host.addEventListener(name, event => bench.scene && act(bench, event), { capture: true });
  }
  bench.scene = scene;
  if (!bench.drag && !bench.keys) clear(bench);
}

const things = scene => [...scene.mounts.map(m => ({ ...m, kind: 'mount', lugs: m.lugs.map(([x, y]) => [x - m.x, y - m.y]) })), ...scene.bodies.map(b => ({ ...b, kind: 'part', lugs: [] }))];
const find = (scene, kind, name) => things(scene).find(t => t.kind === kind && t.name === name);

function toSheet({ scene }, x, y) { const [a, b, c, d] = scene.matrix; return [a * x + b * y, c * x + d * y]; }
function fromSheet({ scene }, x, y) { const [a, b, c, d] = scene.matrix; return { x: a * x + c * y, y: b * x + d * y }; }
function chassisAt(bench, event) {
  const svg = bench.host.querySelector('svg'), p = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return fromSheet(bench, p.x, p.y);
}
const perPixel = bench => 1 / bench.host.querySelector('svg').getScreenCTM().a;

/** The thing under the hand: the chosen one first, then what is hit, then the nearest mount that a fingertip may mean. */
function under(bench, event) {
  const at = chassisAt(bench, event), finger = (event.pointerType === 'mouse' ? 3 : 14) * perPixel(bench);
  const away = t => {
    const [x, y] = t.kind === 'part' ? turned([at.x - t.x, at.y - t.y], -t.turn).map(Math.abs) : [Math.abs(at.x - t.x), Math.abs(at.y - t.y)];
    return Math.hypot(Math.max(0, x - t.half[0]), Math.max(0, y - t.half[1]));
  };
  const all = things(bench.scene), { chosen } = bench.scene;
  const first = chosen && all.find(t => t.kind === chosen.kind && t.name === chosen.name);
  if (first && away(first) <= finger) return first;
  const hit = document.elementFromPoint(event.clientX, event.clientY)?.closest?.('[data-part],[data-mount]');
  if (hit && bench.host.contains(hit)) {
    const kind = hit.dataset.part !== undefined ? 'part' : 'mount', found = all.find(t => t.kind === kind && t.name === hit.dataset[kind]);
    if (found) return found;
  }
  return all.filter(t => t.kind === 'mount').map(t => [away(t), t]).filter(([d]) => d <= finger).sort((a, b) => a[0] - b[0])[0]?.[1];
}

function down(bench, event) {
  if (event.button > 0) return;
  if (bench.drag) { cancel(bench, event); return; }       // a second finger is no drag
  commitKeys(bench);
  const fresh = bench.scene.fresh, thing = fresh ? { kind: 'fresh', name: '', lugs: fresh.lugs, half: fresh.half, turn: 0 } : under(bench, event);
  if (!thing) return;
  event.stopImmediatePropagation();
  bench.host.setPointerCapture(event.pointerId);
  const at = chassisAt(bench, event);
  bench.drag = { id: event.pointerId, thing, from: { x: event.clientX, y: event.clientY }, hold: fresh ? { x: 0, y: 0 } : { x: thing.x - at.x, y: thing.y - at.y }, moved: !!fresh, rest: null };
  if (fresh) go(bench, event);
}

function go(bench, event) {
  const drag = bench.drag;
  if (!drag) {
    const fresh = bench.scene.fresh;
    if (fresh && event.pointerType === 'mouse') show(bench, { kind: 'fresh', name: '', lugs: fresh.lugs, half: fresh.half, turn: 0 }, resting(bench, chassisAt(bench, event), { name: '', lugs: fresh.lugs, half: fresh.half }, 0), 0);
    return;
  }
  if (event.pointerId !== drag.id) return;
  event.stopImmediatePropagation();
  if (!drag.moved && Math.hypot(event.clientX - drag.from.x, event.clientY - drag.from.y) < 6) return;
  drag.moved = true;
  const at = chassisAt(bench, event);
  drag.rest = resting(bench, { x: at.x + drag.hold.x, y: at.y + drag.hold.y }, drag.thing, 0);
  show(bench, drag.thing, drag.rest, 0);
}

const resting = (bench, at, thing, by) => snap(at, thing, by, bench.scene, Math.min(2.5, 9 * perPixel(bench)));

function up(bench, event) {
  const drag = bench.drag;
  if (!drag || event.pointerId !== drag.id) return;
  event.stopImmediatePropagation();
  bench.drag = null;
  if (drag.thing.kind === 'fresh') tell(bench, 'PutNew', drag.rest.x, drag.rest.y);
  else if (drag.moved && drag.rest) tell(bench, 'Dropped', drag.thing.kind, drag.thing.name, drag.rest.x, drag.rest.y, drag.thing.turn);
  else { bench.host.focus({ preventScroll: true }); tell(bench, 'ChooseThing', drag.thing.kind, drag.thing.name); }
}

function cancel(bench, event) {
  if (!bench.drag) return;
  event?.stopImmediatePropagation();
  bench.drag = null;
  clear(bench);
}

function leave(bench) { if (!bench.drag && !bench.keys && bench.scene.fresh) clear(bench); }

/** What is chosen on the page now: the list knows it before the bench computer has answered. */
function chosenNow(bench) {
  const [, kind, name] = /^(\w+) (.+)$/.exec(document.querySelector('[data-choose]')?.value ?? '') ?? [];
  return kind ? { kind, name } : bench.scene.chosen;
}

function key(bench, event) {
  const chosen = chosenNow(bench);
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === 'Escape') {
    if (!bench.keys && !bench.drag) return;
    bench.keys = null;
    clearTimeout(bench.timer);
    cancel(bench, event);
    clear(bench);
    return;
  }
  const thing = chosen && find(bench.scene, chosen.kind, chosen.name);
  if (!thing) return;
  const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }, arrow = arrows[event.key], turn = { r: 15, R: -15 }[event.key];
  if (event.key === 'Enter' && bench.keys) { event.preventDefault(); commitKeys(bench); return; }
  if (event.key === 'Delete') { event.preventDefault(); event.stopImmediatePropagation(); tell(bench, 'TakeOut'); return; }
  if (!arrow && !turn) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  bench.keys ??= { thing, x: thing.x, y: thing.y, by: 0 };
  const step = event.shiftKey ? 5 : 1;
  if (arrow) {
    const way = fromSheet(bench, arrow[0] * step, arrow[1] * step);
    bench.keys.x += way.x;
    bench.keys.y += way.y;
  } else bench.keys.by += turn;
  show(bench, thing, { x: bench.keys.x, y: bench.keys.y, guides: [] }, bench.keys.by);
  clearTimeout(bench.timer);
  bench.timer = setTimeout(() => commitKeys(bench), idle);
}

function commitKeys(bench) {
  const keys = bench.keys;
  clearTimeout(bench.timer);
  if (!keys) return;
  bench.keys = null;
  tell(bench, 'Dropped', keys.thing.kind, keys.thing.name, keys.x, keys.y, keys.thing.turn + keys.by);
}

function tell(bench, name, ...words) {
  bench.page.invokeMethodAsync(name, ...words).finally(() => { if (!bench.drag && !bench.keys) clear(bench); });
}

const make = (name, attributes) => {
  const e = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  return e;
};

function clear(bench) {
  bench.host.querySelectorAll('.ghost').forEach(e => e.remove());
  bench.host.querySelectorAll('.lifted').forEach(e => e.classList.remove('lifted'));
  const readout = document.querySelector('[data-readout]');
  if (readout) readout.textContent = '';
}

function show(bench, thing, rest, by) {
  clear(bench);
  const svg = bench.host.querySelector('svg'), ghost = make('g', { class: 'ghost' }), [px, py] = toSheet(bench, rest.x, rest.y);
  const box = svg.viewBox.baseVal;
  for (const guide of rest.guides) {
    const far = 4 * (box.width + box.height), [x0, y0] = guide.axis === 'x' ? toSheet(bench, guide.at, -far) : toSheet(bench, -far, guide.at), [x1, y1] = guide.axis === 'x' ? toSheet(bench, guide.at, far) : toSheet(bench, far, guide.at);
    ghost.append(make('line', { class: 'guide', x1: x0, y1: y0, x2: x1, y2: y1 }));
  }
  const clockwise = bench.scene.matrix[0] * bench.scene.matrix[3] - bench.scene.matrix[1] * bench.scene.matrix[2] < 0 ? 1 : -1;
  const copy = make('g', {});
  if (thing.kind === 'mount') {
    const [qx, qy] = toSheet(bench, thing.x, thing.y);
    copy.setAttribute('transform', `translate(${px} ${py}) rotate(${clockwise * by}) translate(${-qx} ${-qy})`);
    const names = new Set(thing.lugNames);
    for (const item of svg.querySelectorAll('[data-mount],[data-lug]')) {
      if (item.dataset.mount !== thing.name && !names.has(item.dataset.lug)) continue;
      const twin = item.cloneNode(true);
      for (const a of ['data-mount', 'data-lug', 'data-id', 'role', 'aria-label']) twin.removeAttribute(a);
      twin.querySelector('title')?.remove();
      copy.append(twin);
      item.classList.add('lifted');
    }
  } else if (thing.kind === 'part') {
    const [ax, ay] = toSheet(bench, ...turned([1, 0], thing.turn + by));
    copy.setAttribute('transform', `translate(${px} ${py}) rotate(${Math.atan2(ay, ax) * 180 / Math.PI})`);
    copy.append(make('rect', { class: 'body', x: -thing.half[0], y: -thing.half[1], width: 2 * thing.half[0], height: 2 * thing.half[1], rx: 1 }));
    svg.querySelectorAll('[data-part]').forEach(e => { if (e.dataset.part === thing.name) e.classList.add('lifted'); });
  } else for (const lug of thing.lugs) {
    const [lx, ly] = toSheet(bench, rest.x + lug[0], rest.y + lug[1]);
    copy.append(make('circle', { class: 'lug', cx: lx, cy: ly, r: 1.4 }));
  }
  ghost.append(copy, make('circle', { class: 'guide', cx: px, cy: py, r: 1 }));
  svg.append(ghost);
  const readout = document.querySelector('[data-readout]');
  const degrees = (((thing.turn + by) % 360) + 360) % 360;
  if (readout) readout.textContent = `${thing.name || 'new'}: ${rest.x.toFixed(1).replace(/\.0$/, '')}, ${rest.y.toFixed(1).replace(/\.0$/, '')} mm${degrees ? `, ${degrees}°` : ''}${rest.guides.length ? ', in line' : ''}`;
}
