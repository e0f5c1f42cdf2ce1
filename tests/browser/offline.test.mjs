// Without a network: the second visit does the whole job from what the browser kept. A newer version is
// offered, never forced. Where nothing may be kept, the page works as before.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {appendFileSync, cpSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {after, before, test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {HEIGHT, WIDTH, patches, tiff} from './lib/master.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {drop, KEEPING, launch, open, ROOT, serve, state, until} from './lib/site.mjs';

const UNDER = '/some/folder/';
const PORT = 8790;
const WIDE = readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc');  // Debian's libgs-common
const DEMO_PAPERS = 4;
const PRINT_LEAF = '6';

let folder, site, server, browser, visit, page;
before(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  site = path.join(folder, 'site');
  cpSync(path.join(ROOT, 'build/site'), site, {recursive: true});
  server = await serve(UNDER, site, PORT);
  browser = await launch();
  await settled();
  visit = await open(browser, server.address, KEEPING);
  page = visit.page;
});
after(async () => {
  await browser?.close();
  server?.stop();
  if (folder) rmSync(folder, {recursive: true});
});

// Chromium puts its checks for newer versions off until a first page has come to rest, or for three
// minutes; the tool's own page works on.
async function settled() {
  const still = await browser.newPage();
  await still.goto('data:text/html,still');
  await still.waitForTimeout(2000);
  await still.close();
}

const appFolder = () => readdirSync(site).find((name) => name.startsWith('app-'));
const versionOf = (own) => own.evaluate(() => document.querySelector('script[type=module]').src.match(/app-[^/]+/)[0]);
const noticed = (own) => own.locator('#newer').isVisible();

// Another version on the host: the old one's files are gone from it.
function publish(name) {
  const old = appFolder();
  renameSync(path.join(site, old), path.join(site, name));
  appendFileSync(path.join(site, name, 'style.css'), `\n/* ${name} */\n`);
  const index = path.join(site, 'index.html');
  writeFileSync(index, readFileSync(index, 'utf8').replaceAll(old, name));
  execFileSync(path.join(ROOT, 'web/list-files'), [site]);
}

async function nextPage(query = '') {
  const began = performance.now();
  const next = await visit.context.newPage();
  next.on('pageerror', (error) => visit.complaints.push(String(error)));
  await next.goto(server.address + query);
  await next.waitForFunction(() => window.proofleaf);
  console.log(`open after ${Math.round(performance.now() - began)} ms`);
  return next;
}

async function delivered(own) {
  await press(own, PRINT_LEAF);
  const download = own.waitForEvent('download', {timeout: 60000});
  await click(own, 'make');
  return readFileSync(await (await download).path());
}

test('the first visit keeps every file, by the hashes of the build', async () => {
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  await page.evaluate(() => navigator.serviceWorker.ready);
  const kept = await page.evaluate(async () => {
    const list = [];
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) {
        const bytes = await (await cache.match(request)).arrayBuffer();
        const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
        list.push([request.url, [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('')]);
      }
    }
    return list.sort();
  });
  const wanted = execFileSync('bash', ['-c', 'sha256sum *.html $(find app-* -type f)'], {cwd: site, encoding: 'utf8'})
    .trim().split('\n').map((line) => line.split(/ +/)).map(([hash, name]) => [server.address + name.replace(/^index.html$/, ''), hash]);
  assert.deepEqual(kept, wanted.sort());
  assert.equal(await noticed(page), false);
});

test('with the network cut, the next visit opens and proofs the demo', async () => {
  await page.close();
  server.stop();
  await visit.context.setOffline(true);
  page = await nextPage();
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
});

test('with the network cut, a master is taken and a print file delivered', async () => {
  await drop(page, {name: 'patches.tif', bytes: tiff(WIDE)});
  await until(page, (s) => s.master?.name === 'patches.tif' && ready(s));
  const file = await delivered(page);
  const image = jpeg.samples(file);
  assert.deepEqual([image.width, image.height, image.channels], [WIDTH, HEIGHT, 3]);
  const paper = readFileSync(path.join(site, appFolder(), 'demo/tarnsea-baryta.icc'));
  assert.ok(jpeg.profile(file).equals(paper));
  assert.ok(patches().some((patch) => Math.abs(jpeg.mean(image, patch)[0] - jpeg.mean(image, patches()[1])[0]) > 50));
});

test('with the network cut, an address with a query and the page by its name open too', async () => {
  for (const query of ['?proof=cpu', 'index.html']) {
    const other = await nextPage(query);
    await until(other, (s) => ready(s));
    await other.close();
  }
  await page.bringToFront();
});

test('kept workers carry the page\'s policy', async () => {
  const policy = await page.evaluate(async () => {
    const script = document.querySelector('script[type=module]').src.replace('page.js', 'worker.js');
    return (await fetch(script)).headers.get('Content-Security-Policy');
  });
  assert.match(policy, /default-src 'none'/);
  assert.equal(policy, await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content'));
});

test('the browser finds nothing wrong with the manifest', async () => {
  const devtools = await visit.context.newCDPSession(page);
  const {errors, manifest} = await devtools.send('Page.getAppManifest');
  assert.deepEqual(errors, []);
  assert.equal(manifest.name, 'Proofleaf');
  assert.equal(manifest.startUrl, server.address);
  assert.equal(manifest.scope, server.address);
  const {installabilityErrors} = await devtools.send('Page.getInstallabilityErrors');
  const other = installabilityErrors.filter(({errorId}) => errorId !== 'in-incognito');  // as test browsers are
  assert.deepEqual(other, []);
});

test('a newer version is offered, and the page goes on with its own', async () => {
  const mine = await versionOf(page);
  publish('app-second');
  await visit.context.setOffline(false);
  server = await serve(UNDER, site, PORT);
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await page.locator('#newer').waitFor({state: 'visible', timeout: 20000});
  assert.equal(await versionOf(page), mine);
  // The host has its workers no more; they come from what was kept.
  const file = await delivered(page);
  assert.equal(jpeg.samples(file).width, WIDTH);
  assert.equal((await state(page)).master.name, 'patches.tif');
});

test('put off, the offer goes away and comes again in the next page', async () => {
  await page.locator('#newer button', {hasText: 'Later'}).click();
  assert.equal(await noticed(page), false);
  const other = await nextPage();
  await other.locator('#newer').waitFor({state: 'visible', timeout: 20000});
  assert.notEqual(await versionOf(other), 'app-second');
  await page.close();
  page = other;
});

test('where the browser does not let it be used now, the page says when it will', async () => {
  await page.evaluate(() => { ServiceWorker.prototype.postMessage = () => {}; });
  await page.locator('#newer button', {hasText: 'Use it now'}).click();
  await page.locator('#newer', {hasText: 'once all pages of Proofleaf are closed'}).locator('p:last-of-type').waitFor();
  assert.notEqual(await versionOf(page), 'app-second');
  await page.reload();
  await page.locator('#newer').waitFor({state: 'visible', timeout: 20000});
  assert.doesNotMatch(await page.locator('#newer').innerText(), /once all pages/);
});

test('taken, the newer version is there, and other open pages keep theirs', async () => {
  const other = await nextPage();
  await until(other, ready);
  // Taken while a page that DevTools look into has just been opened, Chromium may let the older worker go
  // on for minutes; without them it did not in 26 tries.
  await other.waitForTimeout(2000);
  await page.bringToFront();
  await page.locator('#newer button', {hasText: 'Use it now'}).click();
  await page.waitForFunction(() => document.querySelector('script[type=module]').src.includes('app-second') && window.proofleaf);
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  assert.equal(await noticed(page), false);
  await other.bringToFront();
  assert.notEqual(await versionOf(other), 'app-second');
  assert.ok((await delivered(other)).length > 1000);
  await other.close();
});

test('left alone, the newer version is used once all pages are closed', async () => {
  publish('app-third');
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await page.locator('#newer').waitFor({state: 'visible', timeout: 20000});
  await page.close();
  const elsewhere = await visit.context.newPage();  // else the browser would end
  await elsewhere.waitForTimeout(1000);
  page = await nextPage();
  assert.equal(await versionOf(page), 'app-third');
  await until(page, ready);
  const names = await page.evaluate(() => caches.keys());
  assert.equal(names.length, 1, 'versions no page uses are thrown away');
});

test('the pages had no complaints', () => assert.deepEqual(visit.complaints, []));

// The page where keeping is tampered with.
async function without(tamper) {
  const own = await open(browser, server.address, KEEPING, (context) => context.addInitScript(tamper));
  await until(own.page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  await drop(own.page, {name: 'patches.tif', bytes: tiff(WIDE)});
  await until(own.page, (s) => s.master?.name === 'patches.tif' && ready(s));
  assert.equal(await noticed(own.page), false);
  assert.deepEqual(own.complaints, []);
  const kept = await own.page.evaluate(() => navigator.serviceWorker?.getRegistration().then((found) => found?.active));
  assert.ok(!kept);
  await own.context.close();
}

test('a browser without service workers does the job', async () => {
  await without(() => { delete Navigator.prototype.serviceWorker; });
});

test('a browser that refuses to register does the job', async () => {
  await without(() => {
    ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException('refused', 'SecurityError'));
  });
});

test('a host whose files are not those of the build keeps nothing, and the page works', async () => {
  appendFileSync(path.join(site, appFolder(), 'icon.svg'), '<!-- changed on the way -->');
  const own = await open(browser, server.address, KEEPING);
  await until(own.page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  const outcome = await own.page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const worker = registration?.installing ?? registration?.waiting ?? registration?.active;
    if (worker) await new Promise((done) => {
      worker.onstatechange = () => { if (['redundant', 'activated'].includes(worker.state)) done(); };
      if (['redundant', 'activated'].includes(worker.state)) done();
    });
    return [worker?.state ?? 'redundant', await caches.keys()];
  });
  assert.deepEqual(outcome, ['redundant', []]);
  await own.context.close();
});
