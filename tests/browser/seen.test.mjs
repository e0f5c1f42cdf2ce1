// The print on a wall, at true size, and as an eye sees it from a distance. The eye's curve itself is
// tested in tests/native.
import assert from 'node:assert/strict';
import path from 'node:path';
import {test} from 'node:test';
import {click, press, proofPixels, ready, typeInto} from './lib/panel.mjs';
import {shot} from './lib/shot.mjs';
import {onePage, ROOT, SHARP, state, until} from './lib/site.mjs';

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
}, SHARP);

const shoot = (name) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `seen-${name}.png`)});

// What the piece of the print looks like, once it is what is asked for.
async function piece(distance = 0, trueSize = false) {
  const asked = ({recipe: {sample}}) => sample.distance_cm === distance && sample.true_size === trueSize;
  await until(page, (s) => asked(s) && !s.recipe.sample.wanted && s.recipe.sampled && ready(s), 60000);
  for (let turn = 0; turn < 20 && !((await state(page)).rects.sample?.[3] > 100); ++turn) {
    await page.mouse.move(200, 700);
    await page.mouse.wheel(0, 200);
    await page.waitForTimeout(150);
  }
  await page.waitForTimeout(300);
  const [x, y, width, height] = (await state(page)).rects.sample;
  return shot(page, {x: Math.ceil(x), y: Math.ceil(y), width: Math.floor(width), height: Math.floor(Math.min(height, 60))});
}

// The mean difference between neighbours of a row: how much fine detail there is.
function detail({width, height, rgba}) {
  let sum = 0, count = 0;
  for (let y = 0; y < height; ++y) {
    for (let x = Math.floor(width / 2) + 6; x + 1 < width; ++x) {
      sum += Math.abs(rgba[(y * width + x) * 4 + 1] - rgba[(y * width + x + 1) * 4 + 1]);
      ++count;
    }
  }
  return sum / count;
}

test('on the wall the print is to the scale of the person beside it', async () => {
  await press(page, '5');
  await click(page, 'sized');
  await until(page, (s) => s.recipe.now.sized);
  await typeInto(page, 'width-cm', 120);
  await until(page, (s) => Math.round(s.recipe.plan.width_mm) === 1200 && ready(s));
  await click(page, 'wall');
  const {rects, recipe} = await until(page, (s) => s.wall && s.rects['wall-picture']);
  const [, , width] = rects['wall-picture'], [, top, , high] = rects['wall-person'];
  assert.ok(Math.abs(width / high - recipe.plan.width_mm / 1700) < 0.01, `${width} to ${high}`);
  const [px, py, pw, ph] = rects['wall-picture'];
  const [[ox, oy], [sx, sy]] = [[rects.picture[0], rects.picture[1]], [rects.picture[2], rects.picture[3]]];
  assert.ok(px >= ox && py >= oy && px + pw <= ox + sx && py + ph <= oy + sy && top >= oy);
  await typeInto(page, 'border-mm', 80);
  const bordered = await until(page, (s) => s.wall && s.rects['wall-sheet'][2] > s.rects['wall-picture'][2] * 1.1);
  // The border is bare paper: lighter than the wall around it.
  const [bx, by] = bordered.rects['wall-sheet'], inside = await shot(page, {x: Math.round(bx + 4), y: Math.round(by + 4), width: 2, height: 2});
  const outside = await shot(page, {x: Math.round(bx - 12), y: Math.round(by + 4), width: 2, height: 2});
  console.log(`bare paper ${[...inside.rgba.subarray(0, 3)]}, wall ${[...outside.rgba.subarray(0, 3)]}`);
  assert.ok(inside.rgba[1] > outside.rgba[1] + 20);
  // The picture on it is the proof.
  const [at] = await proofPixels(page, [[0.5, 0.5]]);
  assert.equal(at.proof.length, 3);
  await shoot('wall');
  await press(page, 'w');
  await until(page, (s) => !s.wall);
});

test('a card held against the outline tells how large a millimetre is, and it is kept', async () => {
  await click(page, 'sharpen');
  await until(page, (s) => s.recipe.now.sharpening.on);
  await click(page, 'measure-screen');
  const {rects} = await until(page, (s) => s.rects['card-outline']);
  const [x, y, width, height] = rects['card-outline'];
  assert.ok(Math.abs(width / height - 85.6 / 53.98) < 0.02);
  await shoot('card');
  await page.mouse.move(x + width, y + height);
  await page.mouse.down();
  await page.mouse.move(x + width + 10, y + height, {steps: 5});
  await page.mouse.move(x + width + 20, y + height, {steps: 5});
  await page.mouse.up();
  const pulled = await until(page, (s) => s.rects['card-outline'] && s.rects['card-outline'][2] > width + 10);
  assert.ok(Math.abs(pulled.rects['card-outline'][2] - width - 40) < 8, 'it grows by both sides');
  // A card 428 pixels wide: 5 pixels to the millimetre.
  await typeInto(page, 'card-side-field', 428);
  await click(page, 'card-fits');
  await until(page, (s) => Math.abs(s.screen_pixels_per_mm - 5) < 0.001 && !s.rects['card-outline']);
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => Math.abs(s.screen_pixels_per_mm - 5) < 0.001 && ready(s), 120000);
});

test('at true size a piece of the print has the screen\'s own millimetres', async () => {
  await press(page, '5');
  await click(page, 'sharpen');
  await until(page, (s) => s.recipe.now.sharpening.on);
  await piece();
  const {recipe: before} = await state(page);
  await click(page, 'true-size');
  await piece(0, true);
  const {recipe} = await state(page);
  // As many of the screen's pixels, which now are more of the print's.
  assert.ok(Math.abs(recipe.sample.width - before.sample.width) <= 3, `${recipe.sample.width} and ${before.sample.width}`);
  await shoot('true-size');
  await click(page, 'true-size');
});

test('from afar, fine detail is gone that is seen from near', async () => {
  await click(page, 'grain');  // the finest there is
  await until(page, (s) => s.recipe.now.grain.on);
  const bare = detail(await piece());
  await click(page, 'from-distance');
  const near = detail(await piece(40));
  await typeInto(page, 'distance-cm', 200);
  const far = detail(await piece(200));
  console.log(`differences between neighbours: ${bare.toFixed(2)} pixel for pixel, ${near.toFixed(2)} from 40 cm, ${far.toFixed(2)} from 2 m`);
  assert.ok(near < bare && far < near);
  await shoot('distance');
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
