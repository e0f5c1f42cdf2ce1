// The service worker: keeps every file of the tool in the browser, so that a later visit needs no
// network. The build writes these before it (web/list-files):
//   VERSION  of all files together
//   FILES    path below the tool's folder -> SHA-256 in hexadecimal; the page itself is ''
//   POLICY   the page's Content-Security-Policy; workers do not inherit it, so each answer carries it
// A newer version is fetched beside the one in use. It takes over when the person says so, or by
// itself once no page of the tool is open. Where anything is refused, the host is asked as ever.

const OWN = `proofleaf ${registration.scope} `;  // other folders of this host may keep things too
const NAME = OWN + VERSION;

const address = (path) => new URL(path, registration.scope).href;
const bytesOfHex = (hex) => hex.match(/../g).map((pair) => parseInt(pair, 16));
const integrity = (hash) => 'sha256-' + btoa(String.fromCharCode(...bytesOfHex(hash)));

// Caches of this tool, its own first.
async function ownCaches() {
  const names = (await caches.keys()).filter((name) => name.startsWith(OWN) && name !== NAME);
  return Promise.all([NAME, ...names].map((name) => caches.open(name)));
}

// What is here already by hash: an update fetches only what changed.
async function keptByHash() {
  const kept = new Map();
  for (const cache of await ownCaches()) {
    for (const request of await cache.keys()) {
      const response = await cache.match(request);
      kept.set(response.headers.get('ETag'), response);
    }
  }
  return kept;
}

// Asks the host; the browser refuses bytes of another hash.
async function fetched(path, hash) {
  const response = await fetch(address(path), {cache: 'no-cache', integrity: integrity(hash)});
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return response;
}

async function keep(cache, kept, [path, hash]) {
  const source = kept.get(hash)?.clone() ?? await fetched(path, hash);
  const headers = {'Content-Type': typeOf(path, source), 'Content-Security-Policy': POLICY, ETag: hash};
  await cache.put(address(path), new Response(await source.blob(), {headers}));
}

// Hosts may not know the type of compiled code, which browsers only stream under its own.
function typeOf(path, response) {
  return path.endsWith('.wasm') ? 'application/wasm' : response.headers.get('Content-Type') ?? '';
}

async function install() {
  const cache = await caches.open(NAME);
  const kept = await keptByHash();
  try {
    await Promise.all(Object.entries(FILES).map((entry) => keep(cache, kept, entry)));
  } catch (error) {
    await caches.delete(NAME);  // no half tool is kept; the browser tries again at a later visit
    throw error;
  }
}

// Pages still open with the version before go on with its files.
async function activate() {
  const older = (await caches.keys()).filter((name) => name.startsWith(OWN) && name !== NAME);
  const open = await clients.matchAll({type: 'window', includeUncontrolled: true});
  const spared = open.length ? older.slice(-1) : [];
  await Promise.all(older.filter((name) => !spared.includes(name)).map((name) => caches.delete(name)));
  await clients.claim();
}

// Path below the tool's folder; the page may carry a query.
function pathOf(request) {
  const url = new URL(request.url);
  const below = url.href.slice(registration.scope.length).replace(/[?#].*$/, '');
  return request.mode === 'navigate' && below === 'index.html' ? '' : below;
}

async function answer(request) {
  const path = pathOf(request);
  try {
    for (const cache of await ownCaches()) {
      const found = await cache.match(address(path));
      if (found) return found;
    }
  } catch {
    // The browser took its storage away.
  }
  return fetch(request);
}

addEventListener('install', (event) => event.waitUntil(install()));
addEventListener('activate', (event) => event.waitUntil(activate()));
addEventListener('message', ({data}) => { if (data === 'take over') skipWaiting(); });
addEventListener('fetch', (event) => {
  const {request} = event;
  const inside = request.url.startsWith(registration.scope) && request.method === 'GET';
  // The tool asks nothing of any other place and sends nothing anywhere.
  event.respondWith(inside ? answer(request) : Response.error());
});
