// Workers that die or run out of room in the middle of a delivery: the file is whole all the same, or
// there is none and the page says why and works on. Faults are put into the scripts the workers load.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {HEIGHT, WIDTH, tiff} from './lib/master.mjs';
import {click, noticesPutAway, press, ready} from './lib/panel.mjs';
import {drop, endWorkers, onePage, spoil, state, until} from './lib/site.mjs';

const COPIES = 20;
const MASTER = tiff(readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc'), COPIES);
let page, saved, sound, fault = '', turn = 0;

onePage(async (visit) => {
  ({page, saved} = visit);
  await until(page, ready);
  await openAnew();
  sound = await delivered();
  assert.deepEqual([sound.said.width, sound.said.height], [WIDTH, HEIGHT * COPIES]);
}, {first: (context) => spoil(context, () => fault)});

async function openAnew() {
  const name = `tall-${++turn}.tif`;
  await drop(page, {name, bytes: MASTER});
  await until(page, (s) => s.master.name === name && ready(s));
}

async function delivered() {
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const file = readFileSync(await (await download).path());
  return {file, said: (await until(page, (s) => s.delivered)).delivered};
}

// The delivery ends with a sentence and without a file; the page is as before and can still proof.
async function refused(sentence) {
  await noticesPutAway(page);
  await press(page, '6');
  const earlier = await state(page), before = saved.length;
  await click(page, 'make');
  const now = await until(page, (s) => s.notices && !s.busy.length, 120000);
  assert.match(now.last_notice, sentence);
  assert.equal(now.delivered, null);
  assert.equal(saved.length, before);
  assert.deepEqual([now.master.name, now.paper], [earlier.master.name, earlier.paper]);
  await press(page, 'i');
  await until(page, (s) => s.intent !== earlier.intent && ready(s));
}

// A case whose workers have that fault.
const withFault = (name, script, look) => test(name, async () => {
  fault = script;
  await endWorkers(page);
  await openAnew();
  await look();
});

withFault('a helper that dies on the way is replaced, the file is the same, and it is said',
    `{ const make = BandMaker.prototype.make; let turns = 0;
       BandMaker.prototype.make = function (...all) {
         if (++turns > 3) throw new Error('ended by the test');
         return make.apply(this, all);
       }; }`,
    async () => {
      const {file, said} = await delivered();
      assert.ok(file.equals(sound.file));
      assert.match(said.sentence, /stopped on the way/);
    });

withFault('helpers that cannot begin at all: the file is the same',
    `BandMaker.prototype.begin = function () { throw new RangeError('no memory, says the test'); };`,
    async () => assert.ok((await delivered()).file.equals(sound.file)));

withFault('without workers of its own, a worker makes the same file', 'delete self.Worker;',
    async () => {
      const {file, said} = await delivered();
      assert.ok(file.equals(sound.file));
      assert.doesNotMatch(said.sentence, /stopped on the way/);
    });

for (const [where, fault] of [
  ['opening', 'SharedDelivery.prototype.run = async function () { throw new RangeError("no memory"); };'],
  ['reading', 'SharedDelivery.prototype.handOut = function (band) { if (band > 20) throw new RangeError("no memory"); this.makeHere(band); };'],
  ['writing', '{ const step = SharedDelivery.prototype.step; SharedDelivery.prototype.step = function () { if (this.joined === 30) throw new RangeError("no memory"); return step.call(this); }; }'],
]) {
  withFault(`out of memory while ${where}: no file, and the page goes on`, fault,
      () => refused(/ran out of memory/));
}

withFault('no room left while writing: no file, and the page goes on',
    `{ const run = SharedDelivery.prototype.run;
       SharedDelivery.prototype.run = function (job, progress) {
         const {files} = this.calls;
         files.write = (offset) => (offset > 20000 ? -1 : 0);
         return run.call(this, job, progress);
       }; }`,
    () => refused(/no room left/));
