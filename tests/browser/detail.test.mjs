// The master pixel for pixel, in tiles: fetched where it is looked at, kept while there is room.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {convert} from './lib/littlecms.mjs';
import {WIDE_TALL, wideTall} from './lib/master.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {apart, pictureShot, shot} from './lib/shot.mjs';
import {drop, ROOT, served, SHARP, state, until} from './lib/site.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';  // Debian's libgs-common
const WIDE = ICC + 'rommrgb.icc';
const PAPER = ICC + 'default_cmyk.icc';
const RELATIVE = 1, ABSOLUTE = 3;
const TILE = 512;
const MOST_BYTES = 48e6;

let card, kernel;
const host = served(async () => {
  card = await host.open({...SHARP, query: '?proof=gpu'});
  kernel = await host.open(SHARP);
  for (const {page} of [card, kernel]) {
    await until(page, ready);
    await drop(page, {name: 'default_cmyk.icc', bytes: readFileSync(PAPER)});
    await drop(page, {name: 'wide.tif', bytes: wideTall(readFileSync(WIDE))});
    await until(page, (s) => s.master?.name === 'wide.tif' && ready(s));
  }
  await until(card.page, (s) => s.proof === 'gpu');
});

const both = (act) => Promise.all([act(card.page), act(kernel.page)]);
const settled = (s) => ready(s) && s.detail.missing === 0 && s.detail.in_view > 0;

// The part of the master in view at 1:1: the first master pixel at the picture's left and top, in one
// device pixel to each.
function viewed({rects, view, master}) {
  const [, , width, height] = rects.picture;
  const left = Math.round(width / 2 - view.x * master.width), top = Math.round(height / 2 - view.y * master.height);
  return {x: Math.max(0, -left), y: Math.max(0, -top), right: Math.min(master.width, width - left),
    bottom: Math.min(master.height, height - top), left, top};
}

function tilesIn({x, y, right, bottom}) {
  const list = new Set();
  for (let row = Math.floor(y / TILE); row < Math.ceil(bottom / TILE); ++row) {
    for (let column = Math.floor(x / TILE); column < Math.ceil(right / TILE); ++column) list.add(`${column},${row}`);
  }
  return list;
}

// Drags the picture, starting off the dividing line.
async function drag(page, dx, dy) {
  const [x, y, width, height] = (await state(page)).rects.picture;
  const from = [x + width * 0.75, y + height / 2];
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let step = 1; step <= 8; ++step) await page.mouse.move(from[0] + dx * step / 8, from[1] + dy * step / 8);
  await page.mouse.up();
}

test('nothing is fetched while the whole picture is shown', async () => {
  const {detail} = await state(card.page);
  assert.deepEqual(detail, {asked: 0, bytes: 0, in_view: 0, missing: 0, tiles: 0});
});

test('at 1:1 the tiles in view arrive, and only they', async () => {
  for (const {page} of [card, kernel]) {
    await click(page, 'exact');
    const now = await until(page, settled);
    const wanted = tilesIn(viewed(now));
    assert.equal(now.detail.in_view, wanted.size);
    assert.equal(now.detail.asked, wanted.size);
    assert.equal(now.detail.tiles, wanted.size);
  }
});

test('they show the master\'s own pixels as LittleCMS proofs them, and the same with and without the card', async () => {
  const now = await state(card.page);
  assert.equal(now.view.zoom, 1);
  await card.page.screenshot({path: path.join(ROOT, 'build/screenshots/detail.png')});
  const [one, other] = await both((page) => pictureShot(page, now.rects));
  assert.equal(apart(one, other), 0);

  const view = viewed(now);
  const [px, py, width, height] = now.rects.picture;
  const list = [];
  for (let y = 90; y < height - 90; y += 37) {
    for (let x = Math.ceil(width * 0.55); x < width - 90; x += 41) list.push({x, y, rgb: WIDE_TALL.colour(x - view.left, y - view.top)});
  }
  const bpc = now.black_point_compensation;
  assert.equal(now.intent, 'relative');
  const ink = convert(list.map(({rgb}) => rgb), WIDE, PAPER, RELATIVE, bpc);
  const truth = convert(ink, PAPER, '*sRGB', ABSOLUTE)  // paper white and black are shown
    .map((rgb) => rgb.map((value) => Math.min(255, Math.max(0, value))));
  const seen = await shot(card.page, {x: px, y: py, width: Math.floor(width), height: Math.floor(height)});
  const off = list.flatMap(({x, y}, index) =>
    truth[index].map((value, c) => Math.abs(value - seen.rgba[(y * seen.width + x) * 4 + c])));
  const worst = Math.max(...off), mean = off.reduce((sum, value) => sum + value, 0) / off.length;
  console.log(`${list.length} places at 1:1 against LittleCMS: mean ${mean.toFixed(2)}, worst ${worst.toFixed(2)} of 255`);
  assert.ok(worst <= 3, `worst ${worst}`);
  assert.ok(mean <= 0.6, `mean ${mean}`);
});

test('a change of intent is shown in the tiles too', async () => {
  const earlier = await pictureShot(card.page, (await state(card.page)).rects);
  await both((page) => press(page, 'i'));
  const states = await both((page) => until(page, (s) => s.intent !== 'relative' && settled(s)));
  assert.deepEqual(states[0].rects.picture, states[1].rects.picture);
  await card.page.waitForTimeout(500);  // the last tiles are run
  const shots = await both((page) => pictureShot(page, states[0].rects));
  assert.equal(apart(...shots), 0);
  assert.ok(apart(earlier, shots[0]) > 1);
  assert.equal(states[0].detail.asked, states[0].detail.tiles);
});

test('panning asks only for tiles that are not there', async () => {
  const {page} = card;
  const before = await state(page);
  const had = tilesIn(viewed(before));
  await drag(page, -420, -380);
  await until(page, (s) => s.view.x !== before.view.x);
  const now = await until(page, (s) => settled(s) && s.detail.asked > before.detail.asked);
  const fresh = [...tilesIn(viewed(now))].filter((tile) => !had.has(tile));
  assert.ok(fresh.length > 0);
  assert.equal(now.detail.asked - before.detail.asked, fresh.length);
  // Back again: all of it is still there.
  await drag(page, 420, 380);
  await page.waitForTimeout(500);
  const again = await until(page, settled);
  assert.equal(again.detail.asked, now.detail.asked);
});

test('the store of tiles is bounded: some go for others', async () => {
  const {page} = card;
  let most = 0;
  for (const [dx, dy] of [[-500, 0], [-500, 0], [-500, 0], [0, -500], [500, 0], [500, 0], [500, 0], [500, 0], [0, -450],
    [-500, 0], [-500, 0], [-500, 0]]) {
    await drag(page, dx, dy);
    await page.waitForTimeout(260);
    const now = await until(page, settled);
    most = Math.max(most, now.detail.bytes);
    assert.ok(now.detail.bytes <= MOST_BYTES, `${now.detail.bytes} bytes`);
  }
  const now = await state(page);
  console.log(`at most ${(most / 1e6).toFixed(1)} MB of tiles, ${now.detail.asked} asked for`);
  assert.ok(now.detail.asked > now.detail.tiles, 'some must have gone');
});

test('no tile is asked for once the view is far enough away', async () => {
  const {page} = card;
  const before = await state(page);
  await drag(page, 500, 400);
  await click(page, 'whole');
  const now = await until(page, (s) => s.view.whole && ready(s) && !s.detail.in_view && !s.detail.missing);
  await page.waitForTimeout(500);
  assert.equal((await state(page)).detail.asked, now.detail.asked);
  assert.ok(now.detail.asked - before.detail.asked <= 30);
  assert.deepEqual([...card.complaints, ...kernel.complaints], []);
});
