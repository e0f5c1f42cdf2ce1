// Has the browser keep the whole tool (offline.js), and offers a newer version once it is here.
// Where service workers are refused the page goes on without.

const ASK_AGAIN = 60 * 60 * 1000;  // for a newer version, of a page that stays open [ms]
const TAKES_OVER = 5000;  // in a moment, as a rule; browsers may let the older one go on [ms]

function offer(element, worker) {
  const [now, later] = element.querySelectorAll('button'), [, held] = element.querySelectorAll('p');
  element.hidden = false;
  later.onclick = () => { element.hidden = true; };
  now.onclick = () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), {once: true});
    worker.postMessage('take over');
    setTimeout(() => { held.hidden = false; }, TAKES_OVER);
  };
}

function watch(element, registration) {
  const look = () => {
    const {waiting, active} = registration;
    if (waiting && active) offer(element, waiting);
  };
  look();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', look));
}

function askNowAndThen(registration) {
  let asked = performance.now();
  document.addEventListener('visibilitychange', () => {
    if (document.hidden || performance.now() - asked < ASK_AGAIN) return;
    asked = performance.now();
    registration.update().catch(() => {});  // no network: another time
  });
}

// element: says that a newer version is here, with two buttons: now, later; its hidden words are for a
// browser that does not let it be used now.
export async function keepTool(element) {
  try {
    const registration = await navigator.serviceWorker.register(new URL('../offline.js', import.meta.url),
        {scope: new URL('..', import.meta.url).pathname, updateViaCache: 'none'});
    watch(element, registration);
    askNowAndThen(registration);
  } catch {
    // Not served safely, a private window, or storage refused.
  }
}
