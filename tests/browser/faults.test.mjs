// What is wrong with a file is said in a sentence, and what was there before stays.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {tiff} from './lib/master.mjs';
import {press, ready} from './lib/panel.mjs';
import {drop, onePage, state, until} from './lib/site.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';
let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, ready);
});

async function refused(name, bytes) {
  const earlier = await state(page);
  await drop(page, {name, bytes});
  const now = await until(page, (s) => s.last_notice !== earlier.last_notice && !s.busy.length);
  const sentence = now.last_notice;
  console.log(`${name}: ${sentence}`);
  assert.match(sentence, /^\S.{10,}\.$/s);
  assert.doesNotMatch(sentence, /undefined|null|NaN|abort|exception/i);
  assert.equal(now.master.name, earlier.master.name);
  assert.equal(now.paper, earlier.paper);
  await until(page, ready);
  assert.match(await page.locator('#news').textContent(), /\S/);  // read out too
}

test('text under the name of a JPEG', () => refused('holiday.jpg', Buffer.from('Just words.\n'.repeat(400))));

test('a TIFF that ends too early', () => {
  const whole = tiff(readFileSync(ICC + 'rommrgb.icc'));
  // The directory lies at the end; a file cut there has none.
  return refused('cut.tif', whole.subarray(0, whole.length / 2));
});

test('a TIFF whose strips lie beyond its end', () => {
  const whole = Buffer.from(tiff(null));
  const directory = whole.readUInt32LE(4);
  const moved = Buffer.concat([whole.subarray(0, 8), whole.subarray(directory)]);
  moved.writeUInt32LE(8, 4);
  return refused('no-pixels.tif', moved);
});

test('the profile of a scanner', () => {
  const scanner = Buffer.from(readFileSync(ICC + 'default_rgb.icc'));
  scanner.write('scnr', 12, 'latin1');  // profile class, ICC.1:2022 7.2.5
  return refused('scanner.icc', scanner);
});

test('an empty file', () => refused('empty.png', Buffer.alloc(0)));

test('when the browser ends the workers, the next work gets fresh ones', async () => {
  let ended = 0;
  for (const worker of page.workers()) {
    // One whose work was done may have gone by itself.
    await worker.evaluate(() => { setTimeout(() => { throw new Error('ended by the test'); }); })
        .then(() => ++ended, () => {});
  }
  assert.ok(ended > 0);
  await page.waitForTimeout(200);
  visit.complaints.length = 0;  // the error above
  const {intent} = await state(page);
  await press(page, 'i');
  await until(page, (s) => s.intent !== intent && ready(s));
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
