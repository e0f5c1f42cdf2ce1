// The page's JPEGs are those of the native build, whose libjpeg-turbo is as its makers test it.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import path from 'node:path';
import test from 'node:test';
import {ROOT} from './lib/site.mjs';

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
