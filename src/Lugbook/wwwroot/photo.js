// A tap on a photograph, or Enter at the cross that the arrow keys move, as pixels of the upright original.
const known = new WeakSet();

export function attach(host, page) {
  if (known.has(host)) return;
  known.add(host);
  let cross = null, at = { x: 0.5, y: 0.5 };
  const stage = () => host.querySelector('.photo-stage');
  const tell = share => page.invokeMethodAsync('Tapped', share.x * +stage().dataset.width, share.y * +stage().dataset.height);
  host.addEventListener('click', event => {
    const frame = stage().getBoundingClientRect();
    const share = { x: (event.clientX - frame.left) / frame.width, y: (event.clientY - frame.top) / frame.height };
    if (share.x < 0 || share.x > 1 || share.y < 0 || share.y > 1) return;
    at = share;
    cross?.remove();
    cross = null;
    tell(share);
  });
  host.addEventListener('keydown', event => {
    const frame = stage().getBoundingClientRect(), step = event.shiftKey ? 1 : 16;
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Enter' && cross) { event.preventDefault(); return tell(at); }
    const way = ways[event.key];
    if (!way) return;
    event.preventDefault();
    at = { x: Math.min(1, Math.max(0, at.x + way[0] * step / frame.width)), y: Math.min(1, Math.max(0, at.y + way[1] * step / frame.height)) };
    if (!cross?.isConnected) {
      cross = document.createElement('span');
      cross.className = 'photo-cross';
      stage().append(cross);
    }
    cross.style.left = `${at.x * 100}%`;
    cross.style.top = `${at.y * 100}%`;
    cross.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  });
}
