// The proof made on the graphics card is the kernel's, bit for bit; and without the card, or when the
// browser takes it away, the kernel goes on.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {tiff} from './lib/master.mjs';
import {press, proofPixels, ready} from './lib/panel.mjs';
import {apart, pictureShot} from './lib/shot.mjs';
import {drop, ROOT, served, SHARP, state, until} from './lib/site.mjs';

const WIDE = '/usr/share/color/icc/ghostscript/rommrgb.icc';  // Debian's libgs-common
const COPIES = 11;  // 1.9 megapixels, so that the preview is the picture itself
const INTENTS = 3;  // looked at one after the other

let card, kernel;
const host = served(async () => {
  card = await host.open({...SHARP, query: '?proof=gpu'});
  kernel = await host.open(SHARP);
});

const both = (act) => Promise.all([act(card.page), act(kernel.page)]);
const onCard = (s) => ready(s) && s.proof === 'gpu';
const places = Array.from({length: 400}, (_, i) => [(i % 20 + 0.5) / 20, (Math.floor(i / 20) + 0.5) / 20]);

async function nextIntent(page) {
  const {intent} = await state(page);
  await press(page, 'i');
  await until(page, (s) => s.intent !== intent);
  return until(page, ready);
}

async function same(name) {
  const [ours, theirs] = await both(state);
  assert.equal(ours.intent, theirs.intent);
  assert.deepEqual(ours.rects.picture, theirs.rects.picture);
  assert.equal(ours.off_gamut_share, theirs.off_gamut_share);
  const [seen, right] = await both((page) => proofPixels(page, places));
  assert.deepEqual(seen, right);
  const [one, other] = await both((page) => pictureShot(page, ours.rects));
  const most = apart(one, other);
  console.log(`${name}, ${ours.intent}: screens at most ${most} of 255 apart`);
  assert.ok(most <= 1, `${most} of 255 apart`);
}

test('the card is tried out and used; where the processor draws in its place, the kernel is', async () => {
  const now = await until(card.page, onCard);
  assert.equal(now.proof_why, '');
  const other = await until(kernel.page, ready);
  assert.equal(other.proof, 'cpu');
  assert.match(other.proof_why, /processor/);
});

test('the demo looks the same, with and without the marking', async () => {
  await card.page.screenshot({path: path.join(ROOT, 'build/screenshots/graphics-demo.png')});
  await same('demo');
  await both((page) => press(page, 'v'));
  await both((page) => until(page, (s) => s.marking && ready(s)));
  await same('marked');
  await both((page) => press(page, 'v'));
});

test('a master of two megapixels looks the same under each intent, for less of the page\'s time', async () => {
  await both((page) => drop(page, {name: 'tall.tif', bytes: tiff(readFileSync(WIDE), COPIES)}));
  await both((page) => until(page, (s) => s.master?.name === 'tall.tif' && ready(s)));
  const spent = [[], []];
  for (let turn = 0; turn < INTENTS; ++turn) {
    const states = [await nextIntent(card.page), await nextIntent(kernel.page)];
    states.forEach((s, which) => spent[which].push(s.proof_ms));
    assert.deepEqual(states.map((s) => s.proof), ['gpu', 'cpu']);
    await same('two megapixels');
  }
  const median = (list) => list.sort((a, b) => a - b)[list.length >> 1];
  const [ours, theirs] = spent.map(median);
  console.log(`a change of intent takes ${ours.toFixed(1)} ms with the card, ${theirs.toFixed(1)} ms without`);
  assert.ok(ours < theirs);
});

test('a lost context leaves the kernel\'s proof, and a new one the card\'s', async () => {
  const {page} = card;
  await page.evaluate(() => {
    window.taken = document.getElementById('canvas').getContext('webgl2').getExtension('WEBGL_lose_context');
    window.taken.loseContext();
  });
  const without = await until(page, (s) => s.proof === 'cpu' && ready(s));
  assert.match(without.proof_why, /took/);
  await nextIntent(page);  // the panel still listens
  await nextIntent(kernel.page);
  assert.deepEqual(...await both((each) => proofPixels(each, places)));
  await page.evaluate(() => window.taken.restoreContext());
  await until(page, onCard);
  assert.equal(await page.locator('#trouble').isVisible(), false);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots/graphics-restored.png')});
  await same('restored');
});

test('the pages had no complaints', () => {
  assert.deepEqual([...card.complaints, ...kernel.complaints], []);
});
