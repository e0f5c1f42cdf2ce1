// The print that came back: delivered, photographed (here: warped, tinted and scratched by the test from
// the delivered file, which jpeg-js decodes and transicc prints), brought, compared, kept with the job.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import path from 'node:path';
import {test} from 'node:test';
import * as jpegFile from './lib/jpeg.mjs';
import {convert} from './lib/littlecms.mjs';
import {click, press, ready, wheel} from './lib/panel.mjs';
import {drop, handedOver, onePage, ROOT, state, until} from './lib/site.mjs';

const jpeg = createRequire(import.meta.url)('jpeg-js');
const PAPER = path.join(ROOT, 'demo-images/papers/tarnsea-baryta.icc');
const WIDTH = 1200, HEIGHT = 900;
// On the print, shares of the picture: a spot that is not in the file.
const SPOT = {x: 0.3, y: 0.35, r: 0.012};

let visit, page, print, job, corners;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s), 120000);
});

// Of a sheet of that width to height: its own upper left, upper right, lower right, lower left [pixels],
// as a pinhole camera (focal length: the photo's width) sees it from a little to the side.
function cornersOf(ratio) {
  const turn = 0.03, slant = 0.18;
  return [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([a, b]) => {
    const [px, py] = [a * ratio / 2, b / 2];
    const [x, y] = [px * Math.cos(turn) - py * Math.sin(turn), px * Math.sin(turn) + py * Math.cos(turn)];
    const far = 1.75 + x * Math.sin(slant);
    return [WIDTH / 2 + WIDTH * x * Math.cos(slant) / far, HEIGHT / 2 + WIDTH * y / far];
  });
}

// Where each pixel of the photo lies on the sheet, 0..1: the inverse of the homography to its corners.
function sheetPlaces() {
  const rows = corners.flatMap(([x, y], i) => {
    const [u, v] = [[0, 0], [1, 0], [1, 1], [0, 1]][i];
    return [[u, v, 1, 0, 0, 0, -u * x, -v * x, x], [0, 0, 0, u, v, 1, -u * y, -v * y, y]];
  });
  for (let k = 0; k < 8; ++k) {
    const best = rows.slice(k).reduce((at, row, i) => Math.abs(row[k]) > Math.abs(rows[at][k]) ? i + k : at, k);
    [rows[k], rows[best]] = [rows[best], rows[k]];
    for (let r = 0; r < 8; ++r) {
      if (r === k) continue;
      const part = rows[r][k] / rows[k][k];
      rows[r] = rows[r].map((value, c) => value - part * rows[k][c]);
    }
  }
  const [a, b, c, d, e, f, g, h] = rows.map((row, k) => row[8] / row[k]);
  // The adjugate is the inverse up to a factor, which a homography does not have.
  const m = [e - f * h, c * h - b, b * f - c * e, f * g - d, a - c * g, c * d - a * f,
    d * h - e * g, b * g - a * h, a * e - b * d];
  return (x, y) => {
    const w = m[6] * x + m[7] * y + m[8];
    return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
  };
}

// What the paper shows of the file's codes, as 8-bit sRGB: transicc on a lattice, linear in between.
function printedColours() {
  const side = 9, step = 255 / (side - 1), codes = [];
  for (let i = 0; i < side ** 3; ++i) codes.push([Math.floor(i / side ** 2), Math.floor(i / side) % side, i % side].map((n) => n * step));
  const seen = convert(codes, PAPER, '*sRGB', 3);
  return (r, g, b) => {
    const place = [r, g, b].map((code) => Math.min(side - 1.001, code / step)), low = place.map(Math.floor);
    const out = [0, 0, 0];
    for (let corner = 0; corner < 8; ++corner) {
      const at = low.map((n, k) => n + (corner >> k & 1));
      const weight = low.reduce((all, n, k) => all * (corner >> k & 1 ? place[k] - n : 1 - place[k] + n), 1);
      for (let k = 0; k < 3; ++k) out[k] += weight * seen[(at[0] * side + at[1]) * side + at[2]][k];
    }
    return out;
  };
}

function photographed(file) {
  const {width, height, data} = jpegFile.samples(file);
  corners = cornersOf(width / height);
  const sheet = sheetPlaces(), colour = printedColours(), rgba = Buffer.alloc(WIDTH * HEIGHT * 4, 255);
  for (let y = 0; y < HEIGHT; ++y) {
    for (let x = 0; x < WIDTH; ++x) {
      const [u, v] = sheet(x + 0.5, y + 0.5);
      let seen = [92, 70 + 6 * Math.sin(x / 9), 52];  // a table
      if (u >= 0 && v >= 0 && u < 1 && v < 1) {
        const at = (Math.floor(v * height) * width + Math.floor(u * width)) * 3;
        const light = 0.86 - 0.1 * u;
        const spot = Math.hypot(u - SPOT.x, (v - SPOT.y) * height / width) < SPOT.r;
        seen = colour(data[at], data[at + 1], data[at + 2]).map((code) => code * light * (spot ? 0.4 : 1));
      }
      for (let c = 0; c < 3; ++c) rgba[(y * WIDTH + x) * 4 + c] = Math.max(0, Math.min(255, seen[c]));
    }
  }
  return jpeg.encode({data: rgba, width: WIDTH, height: HEIGHT}, 92).data;
}

test('a sized print with a white border is delivered', async () => {
  const recipe = {proofleaf_recipe: 1, sized: true, size: {width_mm: 300, ppi: 120, border_mm: 15}};
  await drop(page, {name: 'sized.json', bytes: Buffer.from(JSON.stringify(recipe))});
  await until(page, (s) => Math.round(s.recipe.plan.width_mm) === 300 && ready(s));
  await press(page, '6');
  ({bytes: print} = await handedOver(page, () => click(page, 'make')));
  await until(page, (s) => s.sheet.digest !== '' && ready(s));
});

test('a photo of the returned print is found, compared and laid beside the promise', async () => {
  const photo = photographed(print);
  const chooser = page.waitForEvent('filechooser');
  await click(page, 'bring-print');
  await (await chooser).setFiles({name: 'back.jpg', mimeType: 'image/jpeg', buffer: photo});
  const {returned, last_notice: said} = await until(page, (s) => s.returned.answered && ready(s));
  assert.ok(returned.found, said);
  returned.corners.forEach(([x, y], i) => {
    const off = Math.hypot(x * WIDTH - corners[i][0], y * HEIGHT - corners[i][1]);
    assert.ok(off < 4, `corner ${i} is off by ${off}`);
  });
  const {size, cast, marks} = returned.seen;
  console.log(`match ${returned.match.toFixed(3)}, shape ${size.wider.toFixed(2)} % within ${size.wider_within.toFixed(2)}, `
    + `cast ${cast.verdict} ${cast.largest.toFixed(2)} by ${cast.white}, marks ${marks.marks.length}`);
  assert.ok(Math.abs(size.wider) <= size.wider_within, JSON.stringify(size));
  assert.equal(size.verdict, 'fine');
  assert.equal(cast.white, 'border');
  assert.equal(cast.verdict, 'fine');
  assert.equal(returned.show, 2);
  const found = marks.marks.filter(({x, y, w, h}) => x < SPOT.x + SPOT.r && x + w > SPOT.x - SPOT.r && Math.abs(y + h / 2 - SPOT.y) < 0.05);
  assert.ok(found.length >= 1 && marks.marks.length <= found.length + 1, JSON.stringify(marks.marks));
  assert.ok(found[0].contrast < 0);
  assert.deepEqual(returned.checks.slice(1, 2), [1]);
  assert.equal(returned.checks[3], 2);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'returned.png')});
});

test('the marks are gone through in the picture', async () => {
  await click(page, 'walk-marks');
  const now = await until(page, (s) => s.rects.outline && ready(s));
  assert.equal(now.view.whole, false);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'returned-mark.png')});
  await click(page, 'walk-done', [10, 10]);
});

test('a corner is dragged, and stays where it is put when fitting is off', async () => {
  for (let turn = 0; turn < 3 && !(await state(page)).rects['returned-show-1']; ++turn) await wheel(page, -400);
  await click(page, 'returned-show-1');
  await until(page, (s) => s.returned.photo_shown && ready(s));
  await click(page, 'fit-corners');
  const {rects, returned: before} = await until(page, (s) => s.rects['print-corner-2'] && ready(s));
  const [x, y, w, h] = rects['print-corner-2'];
  await page.mouse.move(x + w / 2, y + h / 2);
  await page.mouse.down();
  await page.mouse.move(x + w / 2 - 10, y + h / 2 - 8, {steps: 3});
  await page.screenshot({path: path.join(ROOT, 'build/screenshots', 'returned-corner.png')});
  await page.mouse.up();
  const {returned} = await until(page, (s) => s.returned.corners[2][0] < before.corners[2][0] - 0.002 && ready(s));
  assert.ok(returned.answered);
  await click(page, 'fit-corners');
  const {returned: fitted} = await until(page, (s) => Math.abs(s.returned.corners[2][0] - before.corners[2][0]) < 0.002 && ready(s));
  assert.ok(fitted.match >= returned.match);
});

test('what the person ticks is kept, and the job brings it all back without pixels', async () => {
  await click(page, 'back-marks-1');
  job = JSON.parse((await handedOver(page, () => click(page, 'keep-job'))).bytes);
  assert.equal(job.returned.seen.name, 'back.jpg');
  assert.equal(job.returned.marks.found, 'ok');
  assert.ok(JSON.stringify(job).length < 30000);
  const sheet = (await handedOver(page, () => click(page, 'keep-job-sheet'))).bytes.toString();
  assert.match(sheet, /back\.jpg/);
  await drop(page, {name: 'mine-job.json', bytes: Buffer.from(JSON.stringify(job))});
  const {returned} = await until(page, (s) => s.returned.name === '' && ready(s));
  assert.deepEqual(returned.seen, job.returned.seen);
  assert.equal(returned.checks[3], 1);
});

test('a picture that is no print of this is not judged, and the page had no complaints', async () => {
  const other = Buffer.alloc(400 * 300 * 4, 255);
  for (let i = 0; i < other.length; ++i) if (i % 4 < 3) other[i] = (i * 7 % 251) ^ (i >> 9 & 255);
  const chooser = page.waitForEvent('filechooser');
  await click(page, 'bring-print');
  await (await chooser).setFiles({name: 'other.jpg', mimeType: 'image/jpeg', buffer: jpeg.encode({data: other, width: 400, height: 300}, 90).data});
  const {returned, last_notice: said} = await until(page, (s) => s.returned.answered && ready(s));
  assert.equal(returned.found, false);
  assert.equal(returned.seen, null);
  assert.match(said, /other\.jpg/);
  assert.equal(returned.checks[3], 1);
  assert.deepEqual(visit.complaints, []);
});
