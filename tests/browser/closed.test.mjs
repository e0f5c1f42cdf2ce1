// A tab that the system closes: the page goes on where it was.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {click, press, ready, typeInto} from './lib/panel.mjs';
import {drop, onePage, ROOT, state, told, until} from './lib/site.mjs';

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.papers.length === 4);
});

const session = (page) => page.evaluate(() => Object.entries(sessionStorage));
const keptWork = async (page) => {
  const item = Object.fromEntries(await session(page))['proofleaf.work'];
  return item && JSON.parse(JSON.parse(item).text);
};

async function whenKept(page, test) {
  for (let turn = 0; turn < 200; ++turn) {
    const work = await keptWork(page);
    if (work && test(work)) return work;
    await page.waitForTimeout(50);
  }
  throw new Error('The work was not kept.');
}

// The renderer's process ends; the browser then opens the tab again, with its session's storage.
async function killed(old) {
  const items = await session(old);
  const gone = new Promise((resolve) => old.once('crash', resolve));
  const devtools = await old.context().newCDPSession(old);
  devtools.send('Page.crash').catch(() => {});
  await gone;
  const next = await old.context().newPage();
  next.on('pageerror', (error) => visit.complaints.push(String(error)));
  await next.addInitScript((list) => {
    if (sessionStorage.opened) return;  // opened again by other means, it has what it has
    for (const [key, value] of list) sessionStorage.setItem(key, value);
    sessionStorage.opened = true;
  }, items);
  await next.goto(visit.address);
  await next.waitForFunction(() => window.proofleaf);
  return next;
}

test('master, paper, corrections, leaf and view are as they were', async () => {
  await drop(page, {name: 'stairs.png', bytes: readFileSync(path.join(ROOT, 'demo-images/stairwell.png'))});
  await until(page, (s) => ready(s) && s.master.name === 'stairs.png');
  await press(page, '2');
  await click(page, 'paper-2');
  await press(page, '4');
  await typeInto(page, 'fit-saturation-field', '12');
  await press(page, '0');
  await press(page, '1');
  const before = await until(page, (s) => ready(s) && s.recipe.now.correction.saturation === 12);
  await whenKept(page, ({leaf, job}) => leaf + 1 === before.leaf && job.recipe.correction.saturation === 12);
  page = await killed(page);
  const after = await until(page, (s) => ready(s) && s.paper === before.paper && s.papers.length === 4);
  assert.equal(after.master.name, 'stairs.png');
  assert.deepEqual(after.recipe.now, before.recipe.now);
  assert.equal(after.leaf, before.leaf);
  assert.deepEqual([after.view.whole, after.view.zoom, after.view.x, after.view.y],
      [before.view.whole, before.view.zoom, before.view.x, before.view.y]);
  await told(page, 'goes on where it was');
});

test('a master the browser did not keep is asked for, and then the work goes on', async () => {
  await whenKept(page, ({job}) => job.master.name === 'stairs.png');
  await page.evaluate(() => new Promise((resolve, reject) => {
    const request = indexedDB.open('proofleaf-work', 1);
    request.onsuccess = () => {
      const clearing = request.result.transaction('masters', 'readwrite').objectStore('masters').clear();
      clearing.onsuccess = resolve;
      clearing.onerror = reject;
    };
  }));
  page = await killed(page);
  const asked = await until(page, (s) => ready(s) && /stairs\.png/.test(s.last_notice ?? ''));
  assert.equal(asked.recipe.now.correction.saturation, 0);
  await drop(page, {name: 'stairs.png', bytes: readFileSync(path.join(ROOT, 'demo-images/stairwell.png'))});
  await until(page, (s) => ready(s) && s.master.name === 'stairs.png' && s.recipe.now.correction.saturation === 12);
});

test('left in the usual way, nothing of it stays', async () => {
  await whenKept(page, ({job}) => job.master.name === 'stairs.png');
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  const {master} = await until(page, ready);
  assert.equal(master.name, 'saltings.png');
  const masters = await page.evaluate(() => new Promise((resolve) => {
    const request = indexedDB.open('proofleaf-work', 1);
    request.onsuccess = () => {
      const keys = request.result.transaction('masters').objectStore('masters').getAllKeys();
      keys.onsuccess = () => resolve(keys.result.length);
    };
  }));
  assert.equal(masters, 0);
  assert.deepEqual(visit.complaints, []);
});
