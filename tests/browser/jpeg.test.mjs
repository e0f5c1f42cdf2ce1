// The page's JPEGs are those of the native build, whose libjpeg-turbo is as its makers test it.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {test} from 'node:test';
import {tiff} from './lib/master.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {drop, handedOver, ROOT, served, until} from './lib/site.mjs';

const NATIVE = path.join(ROOT, 'build/native/proofleaf');
const PAPER = path.join(ROOT, 'demo-images/papers/tarnsea-baryta.icc');  // the page's first one
const COPIES = 10;  // 1.7 megapixels: more than the delivery's cube has nodes, and bands enough to share out
const host = served();

const sums = (command, ...words) =>
  execFileSync(command, words, {encoding: 'utf8', cwd: ROOT}).trim().split('\n');

test('JPEGs written and read by the WASM build are those of the native build, to the bit', () => {
  const native = sums(path.join(ROOT, 'build/native/jpeg_sums'));
  // Node's own fetch would be mistaken for a browser's.
  const wasm = sums('node', '--no-experimental-fetch', path.join(ROOT, 'build/wasm/jpeg_sums.js'));
  assert.equal(native.length, 4 * (2 * 7 + 17));
  assert.equal(new Set(native).size, native.length);
  assert.deepEqual(wasm, native);
});

test('a JPEG master becomes the same print file as by the native build, byte for byte', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  const at = (name) => path.join(folder, name);
  const deliver = (from, paper, to) => execFileSync(NATIVE, ['deliver', at(from), '--paper', paper, '--out', at(to)]);
  writeFileSync(at('tall.tif'), tiff(readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc'), COPIES));
  deliver('tall.tif', 'romm', 'tall.jpg');
  deliver('tall.jpg', PAPER, 'expected.jpg');
  const {page} = await host.open();
  await until(page, ready);
  await drop(page, {name: 'tall.jpg', bytes: readFileSync(at('tall.jpg'))});
  await until(page, (s) => s.master.name === 'tall.jpg' && ready(s));
  await press(page, '6');
  const {bytes} = await handedOver(page, () => click(page, 'make'));
  assert.ok(bytes.equals(readFileSync(at('expected.jpg'))));
  rmSync(folder, {recursive: true});
});
