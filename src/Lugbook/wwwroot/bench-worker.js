// Keeps the bench page and the last sheet of each book on the device. The line comes first; the copy answers only when it is gone.
const store = 'lugbook-bench-1';
const shell = ['/bench.css', '/atbench/atbench.css', '/light.js', '/chassis.js', '/atbench/main.js', '/atbench/card.js', '/atbench/check.js', '/atbench/photos.js', '/atbench/line.js', '/atbench/ticks.js', '/lug.svg'];

const picture = /^\/book\/[^/]+\/photograph\/[0-9a-f]{64}\/(small|large)\.jpg$/;   // another picture has another name

addEventListener('install', event => {
  event.waitUntil(caches.open(store).then(kept => kept.addAll(shell)).then(() => skipWaiting()));
});
addEventListener('activate', event => {
  event.waitUntil(Promise.all([clients.claim(), caches.keys().then(names => Promise.all(names.filter(n => n.startsWith('lugbook-bench-') && n !== store).map(n => caches.delete(n))))]));
});
addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  const ours = url.origin === location.origin && event.request.method === 'GET'
    && (/^\/book\/[^/]+\/bench(\.json|\.svg|-check\/[^/]+)?$/.test(url.pathname) || shell.includes(url.pathname));
  if (ours) event.respondWith(lineFirst(event.request, url));
  else if (url.origin === location.origin && picture.test(url.pathname)) event.respondWith(deviceFirst(event.request, url));
});

async function lineFirst(request, url) {
  const kept = await caches.open(store);
  try {
    const answer = await fetch(request);
    if (answer.ok) await kept.put(url.pathname, answer.clone());
    return answer;
  } catch (gone) {
    const copy = await kept.match(url.pathname);
    if (!copy) throw gone;
    const headers = new Headers(copy.headers);
    headers.set('x-from-device', 'yes');
    return new Response(await copy.blob(), { status: copy.status, headers });
  }
}

async function deviceFirst(request, url) {
  const kept = await caches.open(store), copy = await kept.match(url.pathname);
  if (copy) return copy;
  const answer = await fetch(request);
  if (answer.ok) await kept.put(url.pathname, answer.clone());
  return answer;
}
