// Shows a plain line while the bench computer does not answer, and comes back by itself.
(() => {
  const bar = document.getElementById('away');
  const modal = document.getElementById('components-reconnect-modal');
  new MutationObserver(() => {
    const away = ['components-reconnect-show', 'components-reconnect-failed', 'components-reconnect-rejected', 'components-reconnect-retrying']
      .some(name => modal.classList.contains(name));
    bar.classList.toggle('shown', away);
    if (modal.classList.contains('components-reconnect-rejected')) location.reload();
    if (modal.classList.contains('components-reconnect-failed')) setTimeout(() => location.reload(), 4000);
  }).observe(modal, { attributes: true, attributeFilter: ['class'] });
})();
