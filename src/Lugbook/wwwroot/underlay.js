// Photographs beneath the chassis drawing: each is warped by its own perspective and follows the drawing's view in the same frame.
const followed = new WeakSet();

export function attach() {
  const host = document.querySelector('.drawing'), slider = document.getElementById('blend');
  if (!host) return;
  if (slider && !followed.has(slider)) {
    followed.add(slider);
    slider.addEventListener('input', () => blend(host, slider.value / 100));
  }
  if (!followed.has(host)) {
    followed.add(host);
    // The view lives in the drawing's viewBox; photographs and drawing are replaced by the page.
    new MutationObserver(() => place(host)).observe(host, { subtree: true, childList: true, attributes: true, attributeFilter: ['viewBox', 'data-h', 'data-photo'] });
    new ResizeObserver(() => place(host)).observe(host);
  }
  if (slider) blend(host, slider.value / 100);
  place(host);
}

function blend(host, share) {
  host.style.setProperty('--photo-share', Math.min(1, 2 * share));
  host.style.setProperty('--ink-share', Math.min(1, 2 - 2 * share));
}

function place(host) {
  const svg = host.querySelector('svg');
  const photos = host.querySelectorAll('img.underlay');
  host.classList.toggle('over-photo', photos.length > 0);
  if (!svg || photos.length === 0) return;
  const [x, y, w, h] = svg.getAttribute('viewBox').split(/[\s,]+/).map(Number);
  const sheet = svg.getBoundingClientRect(), frame = host.getBoundingClientRect();
  const k = Math.min(sheet.width / w, sheet.height / h);
  // The drawing lies in the middle of its frame (xMidYMid); photographs count from inside the host's border.
  const left = sheet.left - frame.left - host.clientLeft + (sheet.width - w * k) / 2 - x * k;
  const top = sheet.top - frame.top - host.clientTop + (sheet.height - h * k) / 2 - y * k;
  for (const photo of photos) {
    const [a, b, c, d, e, f, g, i, j] = photo.dataset.h.split(' ').map(Number);
    // Column by column: x and y of the picture, depth that is not used, and the point of origin.
    const m = [k * a + left * g, k * d + top * g, 0, g, k * b + left * i, k * e + top * i, 0, i, 0, 0, 1, 0, k * c + left * j, k * f + top * j, 0, j];
    // The browser wants a last element of 1 to be on the safe side with its own rounding.
    const one = m[15] || 1;
    photo.style.transform = `matrix3d(${m.map((n, at) => at === 10 ? 1 : n / one).join(',')})`;
  }
}
