// Fitting the picture to its paper, and the print's own size: what the corrections do, steps back, the
// recipe as a file, and the print file that comes of it. The numbers themselves are tested in
// tests/native.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {click, press, proofPixels, ready, typeInto} from './lib/panel.mjs';
import {drop, onePage, ROOT, state, until} from './lib/site.mjs';

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
});

const PLACES = [[0.2, 0.2], [0.5, 0.1], [0.3, 0.7], [0.6, 0.9], [0.8, 0.8], [0.45, 0.55]];
const shoot = (name) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `fit-${name}.png`)});
let plain, fitted, kept;

test('the papers are listed in one order, however long each takes to be read', async () => {
  const {papers} = await state(page);
  assert.deepEqual(papers, ['Tarnsea Baryta', 'Owlbrook Pearl', 'Quillmoor Cotton Smooth', 'Plainside Office']);
});

test('the picture is fitted to a paper that needs it, and the score rises', async () => {
  await press(page, '2');
  await click(page, 'paper-3');
  await until(page, (s) => s.paper === 'Plainside Office' && ready(s));
  plain = await proofPixels(page, PLACES);
  await press(page, '4');
  await click(page, 'fit');
  const {recipe} = await until(page, (s) => s.recipe.fit !== '' && s.recipe.effect && ready(s), 120000);
  console.log(`${recipe.fit} ${recipe.effect.before} -> ${recipe.effect.after}; ${recipe.effect.worse.join(' ')}`);
  assert.ok(recipe.effect.after > recipe.effect.before + 1, JSON.stringify(recipe.effect));
  assert.match(recipe.fit, /score/);
  fitted = await proofPixels(page, PLACES);
  assert.notDeepEqual(fitted.map(({proof}) => proof), plain.map(({proof}) => proof));
  assert.deepEqual(fitted.map(({master}) => master), plain.map(({master}) => master));
  await shoot('done');
});

test('corrections are set aside and come back; a step goes back and forward', async () => {
  await click(page, 'set-aside');
  await until(page, (s) => s.recipe.set_aside && ready(s));
  assert.deepEqual(await proofPixels(page, PLACES), plain);
  await click(page, 'set-aside');
  await until(page, (s) => !s.recipe.set_aside && ready(s));
  assert.deepEqual(await proofPixels(page, PLACES), fitted);
  await press(page, 'Control+z');
  await until(page, (s) => s.recipe.steps_forward === 1 && ready(s));
  assert.deepEqual(await proofPixels(page, PLACES), plain);
  await press(page, 'Control+Shift+Z');
  await until(page, (s) => s.recipe.steps_forward === 0 && ready(s));
  assert.deepEqual(await proofPixels(page, PLACES), fitted);
});

test('monochrome stands on neutral: the master is grey in the print', async () => {
  await click(page, 'monochrome');
  await until(page, (s) => s.recipe.now.monochrome.on && ready(s));
  const [{proof}] = await proofPixels(page, [[0.45, 0.68]]);  // the red boat
  const [{proof: white}] = await proofPixels(page, [[0.675, 0.385]]);  // the sun
  console.log(`monochrome reads ${proof}, near white ${white}`);
  // The paper's own white is cool; a grey may carry no more of a tint than it.
  const tint = (rgb) => Math.max(...rgb) - Math.min(...rgb);
  assert.ok(tint(proof) <= tint(white) + 8, `${proof} beside ${white}`);
  await shoot('monochrome');
});

test('a size, a border, sharpening and grain are set, and a piece of the print is shown', async () => {
  await press(page, '5');
  await click(page, 'sized');
  await until(page, (s) => s.recipe.now.sized);
  await typeInto(page, 'width-cm', 10);
  await typeInto(page, 'border-mm', 12);
  await click(page, 'sharpen');
  await click(page, 'grain');
  const {recipe} = await until(page, (s) => s.recipe.now.grain.on && s.recipe.sampled && ready(s), 60000);
  // 100 mm and twice 12 mm at 300 pixels to the inch.
  assert.equal(recipe.plan.width, Math.round(100 / 25.4 * 300));
  assert.equal(recipe.plan.sheet_width, recipe.plan.width + 2 * Math.round(12 / 25.4 * 300));
  await shoot('size');
});

test('the print file has that size, and its border is bare paper', async () => {
  const {recipe} = await state(page);
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const image = jpeg.samples(readFileSync(await (await download).path()));
  assert.deepEqual([image.width, image.height], [recipe.plan.sheet_width, recipe.plan.sheet_height]);
  assert.equal(image.channels, 4);  // inks: 0 is bare paper
  const at = (x, y) => [0, 1, 2, 3].map((c) => image.data[(y * image.width + x) * image.channels + c]);
  for (const place of [[5, 5], [image.width - 5, 60], [60, image.height - 5]]) {
    assert.ok(at(...place).every((value) => value <= 1), `border reads ${at(...place)}`);
  }
  assert.ok(Math.max(...at(image.width >> 1, image.height >> 1)) > 20);
});

test('the recipe is kept as a file and taken up again', async () => {
  await press(page, '4');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'keep-recipe');
  kept = readFileSync(await (await download).path());
  const {recipe: before} = await state(page);
  await click(page, 'all-back');
  await until(page, (s) => !s.recipe.now.monochrome.on && ready(s));
  await drop(page, {name: 'mine-recipe.json', bytes: kept});
  const {recipe} = await until(page, (s) => s.recipe.now.monochrome.on && ready(s));
  assert.deepEqual(recipe.now, before.now);
});

test('a recipe that is none is refused in words, and the work is unharmed', async () => {
  const broken = JSON.parse(kept);
  broken.correction.shadows = 900;
  for (const [name, bytes] of [
    ['half.json', kept.subarray(0, kept.length / 2)],
    ['other.json', Buffer.from('{"a": 1}')],
    ['range.json', Buffer.from(JSON.stringify(broken))],
  ]) {
    const before = await state(page);
    await drop(page, {name, bytes});
    const now = await until(page, (s) => s.last_notice !== before.last_notice && ready(s));
    console.log(now.last_notice);
    assert.match(now.last_notice, /^\S.{10,}\.$/s);
    assert.deepEqual(now.recipe.now, before.recipe.now);
    assert.equal(now.master.name, before.master.name);
  }
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
