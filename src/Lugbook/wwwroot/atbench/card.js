// One position, huge: what comes off, what goes on, where each lead goes.

export function el(tag, attributes, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes ?? {})) if (value !== null && value !== undefined && value !== false) made.setAttribute(name, value === true ? '' : value);
  made.append(...children.filter(c => c !== null && c !== undefined && c !== false));
  return made;
}

const bands = list => list.length === 0 ? null
  : el('p', { class: 'bands', role: 'img', 'aria-label': `bands ${list.map(b => b.name).join(' ')}` }, ...list.map(b => el('span', { class: 'band', style: b.style }, b.name)));

const leads = (word, list) => el('div', { class: 'leads' }, el('h3', {}, word),
  ...list.map(l => el('div', { class: 'lead' }, el('span', { class: 'lug' }, l.lug), el('span', { class: 'letter' }, l.letter), el('span', { class: 'how' }, l.how))));

function drawer(step, fromDrawer) {
  if (step.done || step.open || !step.offer || step.offer.left <= 0) return step.drawer && el('p', { class: 'faint' }, step.drawer);
  const button = el('button', { type: 'button', id: 'from-drawer' }, `Done, with ${step.offer.text} from the drawer (${step.offer.left} left)`);
  button.addEventListener('click', fromDrawer);
  return button;
}

/** The card of a step; fromDrawer is called when it is done with a piece of the drawer. */
export function card(step, of, fromDrawer) {
  const state = step.done ? el('span', { class: 'chip good' }, '✓ done') : step.problem ? el('span', { class: 'chip bad' }, '! problem') : el('span', { class: 'chip note' }, 'open');
  const parts = [
    el('p', { class: 'place' }, el('span', { class: 'num faint' }, `${step.number} of ${of}`), ' ', state, step.unsent && el('span', { class: 'chip' }, 'kept here')),
    el('h1', { id: 'position', tabindex: '-1' }, step.position),
  ];
  if (step.open) parts.push(el('p', { class: 'asked' }, step.open));
  if (step.problem) parts.push(el('p', { class: 'complaint' }, `Problem: ${step.problem}`));
  if (step.note) parts.push(el('p', { class: 'understood' }, `Note: ${step.note}`));
  if (step.cautions.length > 0) parts.push(el('div', { class: 'caution' }, step.cautions.join(' ')));
  parts.push(
    el('div', { class: 'exchange' },
      el('div', { class: 'side' }, el('h2', {}, 'Comes off'), el('p', { class: 'value' }, step.old), bands(step.oldBands), leads('Unsolder', step.off)),
      el('div', { class: 'side on' }, el('h2', {}, 'Goes on'), el('p', { class: 'value' }, step.new ?? 'none chosen yet'), bands(step.newBands),
        step.newMarks.length > 0 && el('p', { class: 'marks' }, 'May be marked ', ...step.newMarks.flatMap((m, i) => [i ? ' or ' : '', el('b', {}, m)])),
        drawer(step, fromDrawer),
        step.polarity && el('p', { class: 'polarity' }, step.polarity), leads('Solder', step.on))),
    el('p', { class: 'forming' }, step.forming));
  if (step.alike) parts.push(el('p', { class: 'alike' }, `Beware: ${step.alike}`));
  parts.push(el('p', { class: 'faint fine' }, step.turn));
  return parts;
}

/** All positions, to go to one by a tap. */
export function list(steps, notOnSheet, here, choose) {
  const rows = steps.map((s, i) => {
    const mark = s.done ? '✓' : s.problem ? '!' : s.note ? '✎' : '○';
    const words = s.done ? 'done' : s.problem ? `problem: ${s.problem}` : 'open';
    const button = el('button', { type: 'button', 'aria-current': i === here ? 'true' : null, class: s.done ? 'gone' : null },
      el('span', { 'aria-hidden': 'true', class: 'mark' }, mark), el('b', {}, s.position), ` ${s.new ?? ''}`, el('span', { class: 'faint fine' }, ` ${words}`));
    button.addEventListener('click', () => choose(i));
    return el('li', {}, button);
  });
  return [el('h2', {}, 'All positions'), el('ol', { class: 'all' }, ...rows),
    ...(notOnSheet.length > 0 ? [el('h2', {}, 'Not on the sheet'), el('ul', { class: 'quiet' }, ...notOnSheet.map(n => el('li', {}, el('b', {}, n.position), ` ${n.reason}`)))] : [])];
}
