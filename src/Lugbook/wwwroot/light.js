// The bench lamp: light or dim, kept on this device. Runs before the first paint.
window.lugbookLight = {
  set(light) {
    document.documentElement.dataset.light = light;
    try { localStorage.setItem('lugbook-light', light); } catch { /* private windows refuse */ }
  },
  turn() { this.set(document.documentElement.dataset.light === 'dim' ? 'lamp' : 'dim'); }
};
(() => {
  let kept = null;
  try { kept = localStorage.getItem('lugbook-light'); } catch { /* private windows refuse */ }
  const wanted = kept ?? (matchMedia('(prefers-color-scheme: dark)').matches ? 'dim' : 'lamp');
  document.documentElement.dataset.light = wanted;
})();
