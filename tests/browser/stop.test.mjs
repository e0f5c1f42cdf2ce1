// A delivery can be stopped at once; what was there before stays, and the next one works.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {HEIGHT, WIDTH, tiff} from './lib/master.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {drop, holding, onePage, until} from './lib/site.mjs';

const COPIES = 20;
let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, ready);
  const wide = readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc');
  await drop(page, {name: 'tall.tif', bytes: tiff(wide, COPIES)});
  await until(page, (s) => s.master.name === 'tall.tif' && ready(s));
}, {first: holding});

test('a delivery is stopped within a moment', async () => {
  await page.evaluate(() => { window.held = ({op}) => op === 'deliver'; });
  await press(page, '6');
  await click(page, 'make');
  await until(page, (s) => s.busy.some(({share}) => share > 0));
  await click(page, 'stop-delivery');
  const began = performance.now();
  await until(page, (s) => !s.busy.length);
  console.log(`stopped after ${Math.round(performance.now() - began)} ms`);
  const now = await until(page, ready);
  assert.equal(now.delivered, null);
  assert.deepEqual(visit.saved, []);
});

test('the next delivery works', async () => {
  await page.evaluate(() => { window.held = () => false; });
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const file = readFileSync(await (await download).path());
  const image = jpeg.samples(file);
  assert.deepEqual([image.width, image.height], [WIDTH, HEIGHT * COPIES]);
  assert.deepEqual(visit.complaints, []);
});
