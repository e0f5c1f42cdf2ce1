// The person's own papers: from a folder or a parcel, under their own names, still there at the next
// visit; and a browser that keeps nothing.
import assert from 'node:assert/strict';
import {mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {after, test} from 'node:test';
import {click, press, ready} from './lib/panel.mjs';
import {drop, served, state, told, until} from './lib/site.mjs';
import {zip} from './lib/zip.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';  // Debian's libgs-common
const CMYK = readFileSync(ICC + 'default_cmyk.icc');
const ROMM = readFileSync(ICC + 'rommrgb.icc');
const DEMO_PAPERS = 4;

let visit, page, folder;
const host = served(async () => {
  visit = await host.open();
  page = visit.page;
  folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  await until(page, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
});
after(() => {
  if (folder) rmSync(folder, {recursive: true});
});

const settled = (s) => ready(s) && !s.shelf.waiting && !s.shelf.unpacking;

async function nextVisit() {
  const again = await visit.context.newPage();
  await again.goto(host.address);
  await again.waitForFunction(() => window.proofleaf);
  return again;
}

test('nothing is kept, and the demo papers are not', async () => {
  assert.equal((await state(page)).shelf.kept, 0);
});

test('a parcel of papers is opened, what else is in it is passed over', async () => {
  await drop(page, {name: 'house.zip', bytes: zip([{name: 'House/readme.txt', bytes: Buffer.from('Our papers, '.repeat(20))},
    {name: 'House/Press.icc', bytes: CMYK}, {name: 'House/Wide.icc', bytes: ROMM}])});
  const now = await until(page, (s) => s.papers.length === DEMO_PAPERS + 2 && settled(s) && s.shelf.kept === 2);
  assert.equal(now.paper, 'Tarnsea Baryta');  // of several, the person chooses
  await told(page, '2 papers in house.zip');
});

test('a damaged parcel is refused with a sentence', async () => {
  const good = zip([{name: 'Press.icc', bytes: CMYK}]);
  await drop(page, {name: 'cut.zip', bytes: good.subarray(0, 5000)});
  const now = await until(page, (s) => s.last_notice.includes('cut.zip'));
  assert.equal(now.papers.length, DEMO_PAPERS + 2);
});

test('a folder is looked through, deep down, for profiles by their content', async () => {
  const house = path.join(folder, 'House papers');
  mkdirSync(path.join(house, 'old', 'older'), {recursive: true});
  writeFileSync(path.join(house, 'notes.icc'), 'not a profile, whatever its name says'.repeat(9));
  writeFileSync(path.join(house, 'old', 'older', 'grey without an ending'), readFileSync('/usr/share/color/icc/ghostscript/ps_cmyk.icc'));
  writeFileSync(path.join(house, 'old', 'Press again.icc'), CMYK);  // is there already
  const devtools = await page.context().newCDPSession(page);
  const data = {items: [], files: [house], dragOperationsMask: 1};
  for (const type of ['dragEnter', 'dragOver', 'drop']) {
    await devtools.send('Input.dispatchDragEvent', {type, x: 700, y: 400, data});
  }
  await until(page, (s) => s.papers.length === DEMO_PAPERS + 3 && settled(s) && s.shelf.kept === 3);
});

test('a folder can be chosen by keyboard too, and an empty one is told', async () => {
  const empty = path.join(folder, 'Nothing here');
  mkdirSync(empty);
  writeFileSync(path.join(empty, 'a.txt'), 'a');
  await press(page, '2');
  const chooser = page.waitForEvent('filechooser');
  await click(page, 'bring-folder');
  await (await chooser).setFiles(empty);
  const now = await until(page, (s) => /no paper's profile in Nothing here/.test(s.last_notice));
  assert.equal(now.papers.length, DEMO_PAPERS + 3);
});

test('a paper gets the name the person gives it', async () => {
  const at = (await state(page)).papers.length - 1;
  await press(page, '2');
  await click(page, `paper-${at}`);
  await until(page, (s) => s.paper === s.papers[at] && ready(s));
  await click(page, 'rename');
  await click(page, 'paper-name');
  await page.waitForFunction(() => document.activeElement.id === 'typing', null, {timeout: 10000});
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Aunt <b>Ada</b>', {delay: 20});
  await until(page, (s) => s.choice.new_name === 'Aunt <b>Ada</b>');
  await click(page, 'keep-name');
  await until(page, (s) => s.paper === 'Aunt <b>Ada</b>');
  await page.waitForTimeout(500);  // the browser writes it down
});

test('at the next visit the papers are there again, after the first proof', async () => {
  const again = await nextVisit();
  const first = await until(again, (s) => s.papers.length > 1);
  assert.ok(first.grid > 0, 'the papers came before the proof');
  const now = await until(again, (s) => s.papers.length === DEMO_PAPERS + 3 && settled(s));
  assert.ok(now.papers.includes('Aunt <b>Ada</b>'));
  assert.equal(now.paper, 'Tarnsea Baryta');
  assert.equal(now.shelf.kept, 3);
  await again.close();
  await page.bringToFront();
});

test('a paper brought a second time is kept once', async () => {
  await drop(page, {name: 'Press.icc', bytes: CMYK});
  await until(page, (s) => settled(s) && s.paper !== 'Aunt <b>Ada</b>');
  assert.equal((await state(page)).shelf.kept, 3);
});

test('all are forgotten in one place, once that is confirmed', async () => {
  await press(page, '2');
  await click(page, 'forget');
  await click(page, 'forget-no');
  assert.equal((await state(page)).shelf.kept, 3);
  await click(page, 'forget');
  await click(page, 'forget-yes');
  await until(page, (s) => s.shelf.kept === 0);
  const again = await nextVisit();
  const now = await until(again, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  assert.equal(now.shelf.kept, 0);
  await again.close();
  assert.deepEqual(visit.complaints, []);
});

// Brings a paper to a page whose storage was tampered with before it opened.
async function withStorage(tamper, check) {
  const context = await host.browser.newContext({viewport: {width: 1440, height: 900}});
  await context.addInitScript(tamper);
  const own = await context.newPage();
  const complaints = [];
  own.on('pageerror', (error) => complaints.push(String(error)));
  await own.goto(host.address);
  await own.waitForFunction(() => window.proofleaf);
  await until(own, (s) => ready(s) && s.papers.length === DEMO_PAPERS);
  await drop(own, {name: 'Press.icc', bytes: CMYK});
  check(await until(own, (s) => s.papers.length === DEMO_PAPERS + 1 && settled(s) && s.last_notice));
  assert.deepEqual(complaints, []);
  await context.close();
}

test('a browser that refuses storage is told of, and the paper is there for now', async () => {
  await withStorage(() => {
    IDBFactory.prototype.open = () => { throw new DOMException('refused', 'SecurityError'); };
  }, (s) => {
    assert.match(s.last_notice, /keeps nothing/);
    assert.equal(s.shelf.refused, true);
    assert.notEqual(s.paper, 'Tarnsea Baryta');
  });
});

test('a browser without room is told of', async () => {
  await withStorage(() => {
    IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };
  }, (s) => {
    assert.match(s.last_notice, /no room/);
    assert.equal(s.shelf.kept, 0);
  });
});
