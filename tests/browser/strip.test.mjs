// The test strip: made at the print's own scale, read back by instrument and by eye, and laid over the
// proof. The numbers themselves are tested in tests/native.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {click, press, proofPixels, ready, typeInto} from './lib/panel.mjs';
import {drop, onePage, ROOT, state, until} from './lib/site.mjs';

let visit, page, patches;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
});

const PLACES = [[0.3, 0.7], [0.6, 0.9], [0.8, 0.8], [0.45, 0.55]];

// What an instrument would write of a strip that printed every step `darker` L* darker than aimed.
const measured = (darker) => ['CGATS.17', 'NUMBER_OF_FIELDS 4', 'BEGIN_DATA_FORMAT', 'SAMPLE_ID LAB_L LAB_A LAB_B',
  'END_DATA_FORMAT', `NUMBER_OF_SETS ${patches.length}`, 'BEGIN_DATA',
  ...patches.map(({aim: [l, a, b]}, index) => `${index + 1} ${(l - darker).toFixed(2)} ${a.toFixed(2)} ${b.toFixed(2)}`),
  'END_DATA', ''].join('\n');

test('a strip is made, of the size of its sheet', async () => {
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make-strip');
  const arrived = await download;
  assert.match(arrived.suggestedFilename(), /test-strip\.jpg$/);
  const image = jpeg.samples(readFileSync(await arrived.path()));
  assert.deepEqual([image.width, image.height], [210, 148].map((mm) => Math.round(mm / 25.4 * 300)));
  ({strip: {patches}} = await state(page));
  console.log(`${patches.length} steps: ${patches.map(({name}) => name).join(', ')}`);
  assert.ok(patches.length >= 10);
  // A step prints what it is to print: its middle is of one tone, and the named L* rise with the aims.
  const greys = patches.map(({lightness, aim}) => [lightness, aim[0]]).sort(([a], [b]) => a - b);
  for (let i = 1; i < greys.length; ++i) assert.ok(greys[i][1] >= greys[i - 1][1] - 0.01, JSON.stringify(greys));
});

test('its parts are shown in the picture, and moved by hand and by number', async () => {
  // Large enough a print for several parts.
  await press(page, '5');
  await click(page, 'sized');
  await typeInto(page, 'width-cm', 60);
  await until(page, (s) => Math.round(s.recipe.plan.width_mm) === 600 && ready(s));
  await press(page, '6');
  await click(page, 'strip-parts');
  const {strip: picked, rects} = await until(page, (s) => s.rects['strip-frame-1'] && ready(s));
  assert.equal(picked.moved, false);
  const [x, y, w, h] = rects['strip-frame-0'];
  const [, , pw, ph] = rects.picture;
  assert.ok(w < pw && h < ph);
  // Dragged towards the middle of the picture.
  const [px, py] = [rects.picture[0] + pw / 2, rects.picture[1] + ph / 2];
  const [dx, dy] = [Math.sign(px - x - w / 2) * 30, Math.sign(py - y - h / 2) * 24];
  await page.mouse.move(x + w / 2, y + h / 2);
  await page.mouse.down();
  await page.mouse.move(x + w / 2 + dx / 2, y + h / 2 + dy / 2, {steps: 4});
  await page.mouse.move(x + w / 2 + dx, y + h / 2 + dy, {steps: 4});
  await page.mouse.up();
  const {strip: dragged, rects: after} = await until(page, (s) => s.strip.moved);
  assert.ok(Math.abs(after['strip-frame-0'][0] - x - dx) < 2 && Math.abs(after['strip-frame-0'][1] - y - dy) < 2);
  assert.equal(dragged.places[0].reason, 'chosen');
  assert.deepEqual(dragged.places.slice(1), picked.places.slice(1));
  assert.equal((await state(page)).view.whole, true);  // the picture itself stayed
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'strip-parts.png')});
  // The second one by number; on top of another it may not lie.
  await click(page, 'part-1');
  await typeInto(page, 'part-x-field', (dragged.places[0].x * 100).toFixed(2));
  if ((await state(page)).strip.part_trouble === '') await typeInto(page, 'part-y-field', (dragged.places[0].y * 100).toFixed(2));
  const {strip: refused} = await until(page, (s) => s.strip.part_trouble !== '');
  assert.match(refused.part_trouble, /another/);
  await click(page, 'parts-back');
  const {strip: back} = await until(page, (s) => !s.strip.moved);
  assert.deepEqual(back.places, picked.places);
});

test('a strip of parts that were moved holds those', async () => {
  const {strip: {places: [first]}} = await state(page);
  await click(page, 'part-0');
  const x = first.x < 0.3 ? first.x + 0.02 : first.x - 0.02;
  await typeInto(page, 'part-x-field', (x * 100).toFixed(2));
  const {strip: {places}} = await until(page, (s) => s.strip.moved);
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make-strip');
  await download;
  const {strip} = await until(page, (s) => ready(s) && s.strip.order && s.strip.order.tiles);
  const tile = strip.order.tiles.find((each) => each.place === 0);
  const middle = places[0].x + places[0].width / 2;
  const {recipe: {plan}} = await state(page);
  const [from, , width] = tile.from;
  assert.ok(Math.abs((from + width / 2) / plan.width - middle) < 0.002, `${(from + width / 2) / plan.width} for ${middle}`);
  ({strip: {patches}} = await state(page));
  await click(page, 'strip-parts');
});

test('measurements that agree are good, and others say by how much they are out', async () => {
  await drop(page, {name: 'strip.txt', bytes: Buffer.from(measured(0))});
  const {strip: same} = await until(page, (s) => s.strip.sentence !== '' && ready(s));
  console.log(same.sentence);
  await drop(page, {name: 'darker.txt', bytes: Buffer.from(measured(4))});
  const {strip: other} = await until(page, (s) => s.strip.sentence !== same.sentence && ready(s));
  console.log(other.sentence, other.sentences.join(' '));
  assert.ok(other.correction.offsets.length >= 2);
  for (const [, dl] of other.correction.offsets) assert.ok(Math.abs(dl + 4) < 0.5, JSON.stringify(other.correction.offsets));
});

test('the reading is laid over the proof only when asked for, and makes it darker', async () => {
  const before = await proofPixels(page, PLACES);
  await click(page, 'lay-over');
  await until(page, (s) => s.strip.lay_over && ready(s));
  const after = await proofPixels(page, PLACES);
  const sum = (list) => list.flatMap(({proof}) => proof).reduce((a, b) => a + b, 0);
  assert.ok(sum(after) < sum(before) - 20, `${sum(before)} to ${sum(after)}`);
  assert.deepEqual(after.map(({master}) => master), before.map(({master}) => master));
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'strip-read.png')});
  await click(page, 'lay-over');
  await until(page, (s) => !s.strip.lay_over && ready(s));
  assert.deepEqual(await proofPixels(page, PLACES), before);
});

test('it is read by eye, too', async () => {
  await click(page, 'eye-read');
  const {strip} = await until(page, (s) => s.strip.sentence === '' && s.strip.sentences.length > 0);
  console.log(strip.sentences.join(' '));
  assert.match(strip.sentences.join(' '), /L\*/);
});

test('a file that holds no measurements is refused in words', async () => {
  for (const text of ['Just words.\n'.repeat(30), measured(0).slice(0, 200)]) {
    const before = await state(page);
    await drop(page, {name: 'notes.txt', bytes: Buffer.from(text)});
    const now = await until(page, (s) => s.last_notice !== before.last_notice && ready(s));
    console.log(now.last_notice);
    assert.match(now.last_notice, /^\S.{10,}\.$/s);
    assert.deepEqual(now.strip, before.strip);
  }
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
