// Photographs on their way in: one after the other, each as the body of a request of its own, without its file's name.
const hosts = new WeakMap();

export function attach(host, page, address, header) {
  const known = hosts.get(host);
  if (known) { known.address = address; return; }
  const state = { address, page, header, busy: Promise.resolve() };
  hosts.set(host, state);
  host.addEventListener('change', event => {
    if (!event.target.matches('[data-send]')) return;
    const files = [...event.target.files];
    event.target.value = '';
    queue(state, files);
  });
  host.addEventListener('dragover', event => { event.preventDefault(); host.classList.add('over'); });
  host.addEventListener('dragleave', () => host.classList.remove('over'));
  host.addEventListener('drop', event => {
    event.preventDefault();
    host.classList.remove('over');
    queue(state, [...event.dataTransfer.files]);
  });
}

function queue(state, files) {
  const address = state.address;
  state.busy = state.busy.then(async () => {
    await state.page.invokeMethodAsync('Begun');
    for (let i = 0; i < files.length; i++) await send(state, address, files[i], i + 1, files.length);
  }).catch(() => { });
}

function send(state, address, file, number, count) {
  return new Promise(done => {
    const request = new XMLHttpRequest();
    let told = -1;
    const tell = percent => { if (percent !== told) state.page.invokeMethodAsync('Sent', number, count, told = percent).catch(() => { }); };
    const answer = (kept, why) => state.page.invokeMethodAsync('Answered', number, count, kept, why).catch(() => { }).then(done);
    request.upload.onprogress = event => { if (event.lengthComputable) tell(Math.round(event.loaded / event.total * 20) * 5); };
    request.onload = () => {
      if (request.status === 200) return answer(true, null);
      let why = `the bench answered ${request.status}.`;
      try { const said = JSON.parse(request.responseText); why = `${said.problem} ${said.remedy}`.trim(); } catch { }
      answer(false, why);
    };
    request.onerror = () => answer(false, 'the bench computer did not answer. The photograph is still on this device; send it again.');
    request.open('POST', address);
    request.setRequestHeader(state.header, '1');
    request.setRequestHeader('Content-Type', 'application/octet-stream');
    tell(0);
    request.send(file);
  });
}
