// Nothing of a person's leaves the machine: all traffic of a whole job is recorded, on the wire and by
// DevTools on the page and on every worker, and held against the list of the tool's own files.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {click, press, ready} from './lib/panel.mjs';
import {wideTall, tiff} from './lib/master.mjs';
import {drop, KEEPING, launch, open, ROOT, serve, state, until} from './lib/site.mjs';
import {devtools, proxy} from './lib/wire.mjs';
import {zip} from './lib/zip.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';  // Debian's libgs-common
const PAPER_LEAF = '2', PRINT_LEAF = '6', MASTER_LEAF = '1';
const DEMO_PAPERS = 4;
const SECRET = 'Harbour at dusk, unsold';  // of a file's name

let server, browser, wire, visit, page, watching;
before(async () => {
  server = await serve('/tool/');
  wire = await proxy(new URL(server.address).host);
  browser = await launch({proxy: {server: wire.address, bypass: '<-loopback>'}});
  visit = await open(browser, server.address, KEEPING, (context) => { watching = watchFirst(context); });
  page = visit.page;
  watching = await watching;
});
after(async () => {
  await browser?.close();
  server?.stop();
  wire?.stop();
});

// Watches a page from before it goes anywhere.
const watchFirst = (context) => new Promise((watched) => {
  context.once('page', (opened) => watched(devtools(context, opened)));
});

async function saved(button, timeout = 120000) {
  const download = page.waitForEvent('download', {timeout});
  await click(page, button);
  return readFileSync(await (await download).path());
}

test('a whole job is done', async () => {
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  await drop(page, {name: `${SECRET}.tif`, bytes: tiff(readFileSync(ICC + 'rommrgb.icc'), 40)});
  await until(page, (s) => s.master?.name.startsWith(SECRET) && ready(s));
  await drop(page, {name: 'house.zip', bytes: zip([{name: 'Press.icc', bytes: readFileSync(ICC + 'default_cmyk.icc')}])});
  await until(page, (s) => s.papers.length === DEMO_PAPERS + 1 && ready(s) && s.shelf.kept === 1);
  await until(page, (s) => s.choice.ranking.length === DEMO_PAPERS + 1 && !s.choice.waiting, 120000);
  await until(page, (s) => s.condition.report && !s.condition.working, 120000);
  await press(page, MASTER_LEAF);
  assert.ok((await saved('save-page')).length > 1000);
  assert.ok((await saved('save-numbers')).length > 100);
  await press(page, PRINT_LEAF);
  assert.ok((await saved('make')).length > 10000);
  await drop(page, {name: `${SECRET} 2.tif`, bytes: wideTall(readFileSync(ICC + 'rommrgb.icc'))});
  await until(page, (s) => s.master?.name.startsWith(SECRET + ' 2') && ready(s));
  await press(page, PRINT_LEAF);
  assert.ok((await saved('make')).length > 10000);  // many bands: workers begin workers of their own
});

test('the next visit, and its look for a newer version, are recorded too', async () => {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS + 1);
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
});

// The only addresses there may be: the site's files, no query, nothing after them.
function allowed() {
  const site = path.join(ROOT, 'build/site');
  const files = execFileSync('find', ['.', '-type', 'f'], {cwd: site, encoding: 'utf8'}).trim().split('\n');
  return new Set([server.address, ...files.map((file) => server.address + file.slice(2))]);
}

// Chromium's own errands, which no page can send it on: it asks its maker for the time, updates and
// form hints. DevTools' record below has no such exception.
const ERRAND = /^(https?:\/\/)?[a-z0-9-]+\.(google|googleapis)\.com[:/]/;

test('on the wire: only the tool\'s own files were asked for, and nothing was sent', () => {
  const own = allowed();
  const sent = wire.seen.filter(({url}) => !ERRAND.test(url));
  assert.ok(sent.length > 15, 'the proxy saw the visit');
  const wrong = sent.filter(({method, url, bytes}) => method !== 'GET' || bytes > 0 || !own.has(url));
  assert.deepEqual(wrong, []);
});

test('in the page and in every worker: the same', () => {
  const own = allowed(), {origin} = new URL(server.address);
  const {seen, watched} = watching;
  console.log(`${wire.seen.length} requests on the wire; ${seen.length} seen in ${JSON.stringify(watched)}`);
  assert.ok(watched.worker >= 4, 'lanes and a delivery\'s helpers');
  const local = ({url}) => url.startsWith('data:') || url.startsWith(`blob:${origin}/`);  // never leave the browser
  const wrong = seen.filter((entry) => !local(entry) && (entry.method !== 'GET' || entry.body || !own.has(entry.url)));
  assert.deepEqual(wrong, []);
});

// The recording itself: what it must not miss.
test('what a page or a worker tries beyond its own files is recorded, and does not get out', async () => {
  const before = wire.seen.length;
  const tried = await page.evaluate(async (origin) => {
    const out = [];
    for (const url of ['http://elsewhere.invalid/page', `${origin}/page?secret`]) {
      out.push(await fetch(url, {method: 'POST', body: 'x'}).then(() => 'sent', () => 'refused'));
    }
    return out;
  }, new URL(server.address).origin);
  assert.deepEqual(tried, ['refused', 'refused']);
  assert.ok(!wire.seen.slice(before).some(({url}) => url.includes('elsewhere')));
  const plain = await browser.newContext();
  const other = await plain.newPage();
  const own = await devtools(plain, other);
  await other.goto(server.address + 'offline.js');
  await other.evaluate(() => {
    window.worker = new Worker(URL.createObjectURL(new Blob(
        ['onmessage = () => fetch("http://elsewhere.invalid/worker", {method: "POST", body: "x"}).catch(() => 0).then(() => postMessage(0))'])));
  });
  const sends = () => other.evaluate(() => new Promise((done) => {
    window.worker.onmessage = () => done();
    window.worker.postMessage(0);
  }));
  await sends();
  assert.ok(wire.seen.some(({method, url, bytes}) => url.includes('elsewhere.invalid/worker') && (method === 'POST' ? bytes > 0 : true)));
  // On a busy machine DevTools misses what a worker does in its first moments; the proxy above does not.
  const heard = () => own.seen.some(({from, url, body}) => from === 'worker' && url.includes('elsewhere.invalid/worker') && body);
  for (let turn = 0; turn < 20 && !heard(); ++turn) {
    await other.waitForTimeout(500);
    await sends();
  }
  assert.ok(heard());
  await plain.close();
});

test('the page had no complaints of its own', async () => {
  assert.ok((await state(page)).ready);
  // The last test's own two refused requests.
  assert.deepEqual(visit.complaints.filter((line) => !/elsewhere|page\?secret|Failed to load resource/.test(line)), []);
});
