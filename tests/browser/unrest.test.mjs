// What happens around the page while it opens, proofs or delivers: files that change or go away, a full
// disk, a page put to sleep, a clock that runs backwards. Either the file is whole, or there is none
// and a sentence says why; the page works on, and the master is as it was.
import assert from 'node:assert/strict';
import {createHash} from 'node:crypto';
import {mkdtempSync, readFileSync, rmSync, truncateSync, unlinkSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {after, test} from 'node:test';
import {tiff, tiffOf} from './lib/master.mjs';
import {click, noticesPutAway, press, ready, typeInto} from './lib/panel.mjs';
import {drop, edited, endWorkers, served, spoil, state, until} from './lib/site.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';  // Debian's libgs-common
const MASTER = tiff(readFileSync(ICC + 'rommrgb.icc'), 20);
const GONE = /can no longer be read: it was moved or changed\. Please choose it again\.$/;
const digest = (bytes) => createHash('sha256').update(bytes).digest('hex');

// Bands that take their time: however fast the machine, a delivery is still going on when a test wants it to.
const SLOWLY = `{
  const {step} = SharedDelivery.prototype;
  SharedDelivery.prototype.step = function () {
    for (const until = performance.now() + 20; performance.now() < until;);
    return step.call(this);
  };
}`;

// The page of most tests, whose workers have this fault.
let folder, sound, visit, fault = '';
const host = served(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  visit = await opened({}, (context) => spoil(context, () => fault));
  await load(visit.page, onDisk('sound.tif'));
  sound = digest(await delivered(visit.page));
});
after(() => {
  if (folder) rmSync(folder, {recursive: true});
});

async function opened(options = {}, prepare = undefined) {
  const own = await host.open(options, prepare);
  await until(own.page, ready);
  return own;
}

function onDisk(name) {
  const file = path.join(folder, name);
  writeFileSync(file, MASTER);
  return file;
}

async function load(page, file) {
  await page.setInputFiles('#picker', file);
  return until(page, (s) => s.master.name === path.basename(file) && ready(s));
}

async function delivered(page) {
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const file = readFileSync(await (await download).path());
  await until(page, (s) => s.delivered && !s.busy.length);
  return file;
}

// Does `act`, which must end in a sentence that matches, with nothing saved and all as before.
async function refused(sentence, act) {
  const {page} = visit;
  await noticesPutAway(page);
  const earlier = await state(page), saved = visit.saved.length;
  await act();
  const now = await until(page, (s) => s.notices && !s.busy.length, 120000);
  console.log(now.last_notice);
  assert.match(now.last_notice, sentence);
  assert.equal(visit.saved.length, saved);
  assert.equal(now.delivered, null);
  assert.deepEqual([now.master.name, now.paper], [earlier.master.name, earlier.paper]);
}

// The page proofs on, and takes and delivers another master.
async function worksOn(name) {
  const {page} = visit;
  const {intent} = await state(page);
  await press(page, 'i');
  await until(page, (s) => s.intent !== intent && ready(s));
  const file = onDisk(name);
  await load(page, file);
  assert.ok((await delivered(page)).length > 10000);
  assert.equal(digest(readFileSync(file)), digest(MASTER));
}

// A page in a tab out of sight is frozen by the browser when it likes; its workers with it or not.
const asleep = async (visit, act) => {
  const session = await visit.context.newCDPSession(visit.page);
  await act();
  await session.send('Page.setWebLifecycleState', {state: 'frozen'});
  await new Promise((resolve) => setTimeout(resolve, 1500));
  await session.send('Page.setWebLifecycleState', {state: 'active'});
  await session.detach();
};

test('put to sleep while it opens, proofs and delivers, the page goes on where it was', async () => {
  const {page} = visit;
  const file = onDisk('asleep.tif');
  await asleep(visit, () => page.setInputFiles('#picker', file));
  await until(page, (s) => s.master.name === 'asleep.tif' && ready(s));
  await asleep(visit, () => press(page, 'i'));
  await until(page, (s) => s.intent !== 'relative' && ready(s));
  for (let turn = 0; turn < 3; ++turn) {  // through the other intents, back to the first
    const {intent} = await state(page);
    await press(page, 'i');
    await until(page, (s) => s.intent !== intent && ready(s));
  }
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await asleep(visit, () => click(page, 'make'));
  assert.equal(digest(readFileSync(await (await download).path())), sound);
  assert.equal(digest(readFileSync(file)), digest(MASTER));
  assert.deepEqual(visit.complaints, []);
});

test('a file that goes away between choosing and opening', async () => {
  await load(visit.page, onDisk('there.tif'));
  const file = onDisk('fleeting.tif');
  await visit.page.evaluate(() => {
    const picker = document.createElement('input');
    picker.type = 'file';
    picker.id = 'later';
    document.body.append(picker);
  });
  await visit.page.setInputFiles('#later', file);
  unlinkSync(file);
  // Browsers give a file that is gone no bytes, or an error.
  await refused(new RegExp(`fleeting\\.tif is empty\\.$|${GONE.source}`), () => visit.page.evaluate(() => {
    const carried = new DataTransfer();
    carried.items.add(document.querySelector('#later').files[0]);
    window.dispatchEvent(new DragEvent('drop', {dataTransfer: carried, bubbles: true, cancelable: true}));
  }));
});

test('a master that is spoilt once it is open: proofs go on, a close look and a delivery say so', async () => {
  const {page} = visit;
  for (const [what, tamper] of [
    ['removed', unlinkSync],
    ['cut short', (file) => truncateSync(file, 100000)],
    ['written anew', (file) => writeFileSync(file, Buffer.alloc(MASTER.length, 7))],
  ]) {
    const file = onDisk(`${what}.tif`);
    await load(page, file);
    await page.waitForTimeout(20);  // past the finest step of the file's own time
    tamper(file);
    const {intent} = await state(page);
    await press(page, 'i');
    await until(page, (s) => s.intent !== intent && ready(s));
    await refused(GONE, () => press(page, 'o'));
    await press(page, 'w');
    await press(page, '6');
    await refused(GONE, () => click(page, 'make'));
  }
  await worksOn('after-spoilt.tif');
});

test('a master that goes away or changes in the middle of its delivery: no file, a sentence, and the page works on', async () => {
  const {page} = visit;
  fault = SLOWLY;
  await endWorkers(page);
  // 13 MB in one tone, read a megabyte at a time.
  const width = 1600, height = 1400;
  const profile = readFileSync(ICC + 'rommrgb.icc');
  const plain = (tone) => tiffOf({width, height, data: Buffer.alloc(width * height * 6, tone), rowsPerStrip: 40, profile});
  await press(page, '5');
  await click(page, 'sized');
  await until(page, (s) => s.recipe.now.sized);
  await typeInto(page, 'width-cm', 40);  // so much larger that it is read little by little
  await press(page, '6');
  // From a third on it is read ahead, and the system goes on reading what has changed.
  for (const [name, share, tamper] of [
    ['going.tif', 0.02, unlinkSync],
    ['gone.tif', 0.35, unlinkSync],
    ['changed.tif', 0.35, (file) => writeFileSync(file, plain(120))],
  ]) {
    const file = path.join(folder, name);
    writeFileSync(file, plain(90));
    await load(page, file);
    await refused(GONE, async () => {
      await click(page, 'make');
      await until(page, (s) => s.busy.some((work) => work.share > share));
      tamper(file);
    });
  }
  fault = '';
  await endWorkers(page);
  await press(page, '5');
  await click(page, 'sized');
  await worksOn('after-going.tif');
});

test('no room in the browser\'s storage: papers are not kept, which is said, and all else works', async () => {
  const {page, context} = await opened();
  const session = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', {origin: new URL(host.address).origin, quotaSize: 1});
  await drop(page, {name: 'Press.icc', bytes: readFileSync(ICC + 'default_cmyk.icc')});
  const now = await until(page, (s) => /no room|full/i.test(s.last_notice) && ready(s));
  console.log(now.last_notice);
  assert.equal(now.shelf.kept, 0);
  await load(page, onDisk('full.tif'));
  assert.ok((await delivered(page)).length > 10000);
  await context.close();
});

// Each look at it finds the clock an hour earlier.
const BACKWARDS = `{
  const True = Date;
  let now = True.now();
  const earlier = () => now -= 3600000;
  self.Date = class extends True {
    constructor(...given) { given.length ? super(...given) : super(earlier()); }
    static now() { return earlier(); }
  };
}`;

test('with a clock that runs backwards, the proof is made and the print file is the same', async () => {
  const {page, complaints} = await opened({}, async (context) => {
    await context.addInitScript(BACKWARDS);
    await edited(context, 'worker.js', (text) => BACKWARDS + text);
  });
  const file = onDisk('sound.tif');
  await load(page, file);
  assert.equal(digest(await delivered(page)), sound);
  assert.equal(digest(readFileSync(file)), digest(MASTER));
  assert.deepEqual(complaints, []);
});
