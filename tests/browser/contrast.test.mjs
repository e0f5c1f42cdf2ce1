// Local contrast in the proof: the preview and the tiles show what the print file gets. That both agree in
// numbers is tested in tests/native.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {click, press, proofPixels, ready, typeInto} from './lib/panel.mjs';
import {onePage, ROOT, state, until} from './lib/site.mjs';

let visit, page, plain, contrasted;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
});

// A grid of places all over the picture.
const PLACES = Array.from({length: 400}, (_, i) => [(i % 20 + 0.5) / 20, (Math.floor(i / 20) + 0.5) / 20]);
const proofs = async () => (await proofPixels(page, PLACES)).map(({proof}) => proof);
const masters = async () => (await proofPixels(page, PLACES)).map(({master}) => master);
const off = (one, other) => one.map((rgb, i) => Math.max(...rgb.map((v, c) => Math.abs(v - other[i][c]))));
const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length;

test('the proof shows it, the master stays as it is', async () => {
  await press(page, '4');
  plain = await proofs();
  const master = await masters();
  await typeInto(page, 'fit-local-field', 80);
  await until(page, (s) => s.local_contrast === 80 && ready(s));
  contrasted = await proofs();
  const changed = off(plain, contrasted);
  console.log(`local contrast 80 changes codes by ${mean(changed).toFixed(2)} in the mean, ${Math.max(...changed)} at most`);
  assert.ok(mean(changed) > 1);
  assert.deepEqual(await masters(), master);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'contrast.png')});
});

test('set aside it is gone, and a step back and forward takes it along', async () => {
  await click(page, 'set-aside');
  await until(page, (s) => s.local_contrast === 0 && ready(s));
  assert.deepEqual(await proofs(), plain);
  await click(page, 'set-aside');
  await until(page, (s) => s.local_contrast === 80 && ready(s));
  assert.deepEqual(await proofs(), contrasted);
  await press(page, 'Control+z');
  await until(page, (s) => s.local_contrast === 0 && ready(s));
  assert.deepEqual(await proofs(), plain);
  await press(page, 'Control+Shift+Z');
  await until(page, (s) => s.local_contrast === 80 && ready(s));
});

test('the print file has it: its codes are nearer to those of a plain file where the proof is', async () => {
  const codes = async () => {
    const download = page.waitForEvent('download', {timeout: 120000});
    await click(page, 'make');
    const image = jpeg.samples(readFileSync(await (await download).path()));
    await until(page, (s) => s.delivered && ready(s));
    return PLACES.map(([x, y]) => {
      const at = (Math.floor(y * image.height) * image.width + Math.floor(x * image.width)) * image.channels;
      return [...image.data.subarray(at, at + 3)];
    });
  };
  await press(page, '6');
  const printed = await codes();
  await press(page, '4');
  await click(page, 'fit-local-field-reset');
  await until(page, (s) => s.local_contrast === 0 && ready(s));
  assert.deepEqual(await proofs(), plain);
  await press(page, '6');
  const bare = await codes();
  // Where the proof got lighter, so did the file, and where it got darker: the sign of the change.
  const light = (rgb) => rgb[0] + rgb[1] + rgb[2];
  let same = 0, counted = 0;
  PLACES.forEach((_, i) => {
    const proof = light(contrasted[i]) - light(plain[i]), file = light(printed[i]) - light(bare[i]);
    if (Math.abs(proof) < 12) return;
    ++counted;
    if (Math.sign(proof) === Math.sign(file)) ++same;
  });
  console.log(`${same} of ${counted} places change the same way`);
  assert.ok(counted > 20 && same > 0.95 * counted);
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
