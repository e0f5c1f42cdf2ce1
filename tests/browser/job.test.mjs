// The main job, start to end: a wide-gamut 16-bit master, a printing profile, an honest proof, a
// delivered file. Truth comes from LittleCMS's own command; the delivered JPEG is read by jpeg-js.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {test} from 'node:test';
import Color from 'colorjs.io';
import * as jpeg from './lib/jpeg.mjs';
import {convert} from './lib/littlecms.mjs';
import {HEIGHT, WIDTH, patches, tiff} from './lib/master.mjs';
import {click, press, proofPixels, ready} from './lib/panel.mjs';
import {drop, handedOver, onePage, ROOT, state, until} from './lib/site.mjs';

const ICC = '/usr/share/color/icc/ghostscript/';  // Debian's libgs-common
const WIDE = ICC + 'rommrgb.icc';
const PAPER = ICC + 'default_cmyk.icc';
const NATIVE = path.join(ROOT, 'build/native/proofleaf');
const PERCEPTUAL = 0, ABSOLUTE = 3;

let visit, page, delivered;
onePage((opened) => {
  visit = opened;
  page = visit.page;
}, {under: '/some/sub/path/', query: '?proof=gpu'});  // any folder of any host will do

const worst = (values) => Math.max(...values);
const average = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

test('the page opens and proofs its demo', async () => {
  const began = performance.now();
  await until(page, ready);
  console.log(`open after ${visit.opened} ms, demo proofed after ${Math.round(visit.opened + performance.now() - began)} ms`);
  const now = await state(page);
  assert.ok(now.master.width > 0 && now.paper);
});

test('the page forbids itself everything but its own origin', async () => {
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.match(policy, /default-src 'none'/);
  assert.match(policy, /connect-src 'self'/);
  assert.doesNotMatch(policy, /https?:|\*|unsafe-inline|'unsafe-eval'/);
});

test('a 16-bit master with a wide-gamut profile is taken as it says', async () => {
  await drop(page, {name: 'patches.tif', bytes: tiff(readFileSync(WIDE))});
  const now = await until(page, (s) => s.master?.name === 'patches.tif');
  assert.equal(now.master.width, WIDTH);
  assert.equal(now.master.height, HEIGHT);
  assert.equal(now.master.bits, 16);
  assert.equal(now.master.assumed, false);
});

test('a printing profile becomes the paper', async () => {
  const before = (await state(page)).papers;
  await drop(page, {name: 'default_cmyk.icc', bytes: readFileSync(PAPER)});
  const now = await until(page, (s) => s.papers.length > before.length && ready(s));
  assert.ok(!before.includes(now.paper), `${now.paper} was there before`);
});

test('intent and black point compensation are chosen on the panel', async () => {
  for (let turn = 0; turn < 4 && (await state(page)).intent !== 'perceptual'; ++turn) {
    const {intent} = await state(page);
    await press(page, 'i');
    await until(page, (s) => s.intent !== intent);
  }
  if (!(await state(page)).black_point_compensation) await press(page, 'b');
  const now = await until(page, (s) => s.intent === 'perceptual' && ready(s));
  assert.equal(now.black_point_compensation, true);
});

test('the proof on the screen is what LittleCMS says of this paper', async () => {
  const list = patches();
  const ink = convert(list.map(({rgb}) => rgb), WIDE, PAPER, PERCEPTUAL, true);
  const truth = convert(ink, PAPER, '*sRGB', ABSOLUTE)  // paper white and black are shown
    .map((rgb) => rgb.map((value) => Math.min(255, Math.max(0, value))));
  const seen = await proofPixels(page, list.map(({place}) => place));
  const off = seen.flatMap(({proof}, index) => proof.map((value, c) => Math.abs(value - truth[index][c])));
  console.log(`proof against LittleCMS: mean ${average(off).toFixed(2)}, worst ${worst(off).toFixed(2)} of 255`);
  assert.ok(worst(off) <= 2, `worst ${worst(off)}`);
  assert.ok(average(off) <= 0.5, `mean ${average(off)}`);
});

test('the master on the screen is what colorjs.io says of ROMM RGB', async () => {
  // colorjs.io, a colour library of its own lineage; ROMM RGB is its "prophoto". Colours beyond sRGB are
  // cut off channel by channel, as a screen does.
  const list = patches();
  const seen = await proofPixels(page, list.map(({place}) => place));
  const off = list.flatMap(({rgb}, index) => {
    const truth = new Color('prophoto', rgb.map((value) => value / 255)).to('srgb').coords;
    return seen[index].master.map((value, c) => Math.abs(value - 255 * Math.min(1, Math.max(0, truth[c]))));
  });
  console.log(`master against colorjs.io: mean ${average(off).toFixed(2)}, worst ${worst(off).toFixed(2)} of 255`);
  assert.ok(worst(off) <= 3, `worst ${worst(off)}`);
  assert.ok(average(off) <= 0.5, `mean ${average(off)}`);
});

test('the proof on the screen is what the native build says', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  const master = path.join(folder, 'patches.tif');
  writeFileSync(master, tiff(readFileSync(WIDE)));
  const said = JSON.parse(execFileSync(NATIVE,
      ['proof', master, '--paper', PAPER, '--intent', 'perceptual', '--places', '24x18', '--json']));
  rmSync(folder, {recursive: true});
  const seen = await proofPixels(page, said.places.map(({x, y}) => [x, y]));
  const off = seen.flatMap(({proof}, index) =>
    proof.map((value, c) => Math.abs(value - said.places[index].screen[c])));
  console.log(`proof against the native build at ${seen.length} places: worst ${worst(off)} of 255`);
  assert.ok(worst(off) <= 1, `worst ${worst(off)}`);
});

test('a print file is delivered', async () => {
  await press(page, '6');
  const {name, bytes} = await handedOver(page, () => click(page, 'make'));
  assert.match(name, /\.jpe?g$/);
  assert.notEqual(name, 'patches.tif');
  delivered = bytes;
});

test('the delivered JPEG has the size, resolution and profile that were asked for', () => {
  const image = jpeg.samples(delivered);
  assert.deepEqual([image.width, image.height, image.channels], [WIDTH, HEIGHT, 4]);
  assert.ok(jpeg.profile(delivered).equals(readFileSync(PAPER)));
  const said = jpeg.density(delivered);
  if (said) assert.deepEqual(said, {unit: 1, x: 300, y: 300});
  else assert.ok(jpeg.exif(delivered), 'neither JFIF nor Exif says the resolution');
});

test('the delivered inks print the colours LittleCMS asks for', () => {
  const list = patches();
  const ink = convert(list.map(({rgb}) => rgb), WIDE, PAPER, PERCEPTUAL, true);
  const image = jpeg.samples(delivered);
  const got = list.map((patch) => jpeg.mean(image, patch).map((value) => value / 2.55));
  const [wanted, printed] = [ink, got].map((colours) => convert(colours, PAPER, '*Lab', 1));
  const off = wanted.map((lab, index) =>
    new Color('lab', lab).deltaE(new Color('lab', printed[index]), '2000'));  // CIEDE2000 by colorjs.io
  console.log(`delivery against LittleCMS: mean ${average(off).toFixed(2)}, worst ${worst(off).toFixed(2)} dE00`);
  assert.ok(worst(off) <= 1, `worst ${worst(off)}`);
  assert.ok(average(off) <= 0.3, `mean ${average(off)}`);
});

test('nothing left the machine, and the page had no complaints', () => {
  const {origin} = new URL(visit.address);
  const foreign = visit.requests.filter((url) => !url.startsWith(visit.address) && !url.startsWith(`blob:${origin}/`));
  assert.deepEqual(foreign, []);
  assert.ok(visit.requests.length > 5);
  assert.deepEqual(visit.complaints, []);
});
