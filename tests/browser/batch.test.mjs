// Several print files at once: named by a pattern, written into a folder or offered one by one, stopped
// and gone on with. The folder is one of the browser's own (File System Standard, WHATWG: the origin
// private file system), which has the same interface as one a person chooses.
import assert from 'node:assert/strict';
import {createHash} from 'node:crypto';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import * as jpeg from './lib/jpeg.mjs';
import {click, press, ready, typeInto} from './lib/panel.mjs';
import {holding, onePage, ROOT, state, until} from './lib/site.mjs';

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
  await page.evaluate(() => {
    window.showDirectoryPicker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle('prints', {create: true});
  });
}, {first: holding});

const shoot = (name) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `batch-${name}.png`)});
const sum = (bytes) => createHash('sha256').update(bytes).digest('hex');
const states = (s) => s.batch.entries.map((entry) => entry.state).join(' ');

// The folder's files: {name: bytes}.
const folder = async () => Object.fromEntries(Object.entries(await page.evaluate(async () => {
  const root = await (await navigator.storage.getDirectory()).getDirectoryHandle('prints', {create: true});
  const files = {};
  for await (const [name, handle] of root.entries()) {
    const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
    let letters = '';
    for (let at = 0; at < bytes.length; at += 32768) letters += String.fromCharCode(...bytes.subarray(at, at + 32768));
    files[name] = btoa(letters);
  }
  return files;
})).map(([name, base64]) => [name, Buffer.from(base64, 'base64')]));

const putInFolder = (name, text) => page.evaluate(async ([file, words]) => {
  const root = await (await navigator.storage.getDirectory()).getDirectoryHandle('prints', {create: true});
  const stream = await (await root.getFileHandle(file, {create: true})).createWritable();
  await stream.write(words);
  await stream.close();
}, [name, text]);

test('names follow the pattern, and a pattern that cannot be is told of', async () => {
  await press(page, '6');
  const before = await state(page);
  // The master's pixels at 300 to the inch.
  const cm = (pixels) => String(Math.round(pixels / 300 * 25.4) / 10);
  assert.equal(before.delivery_name, `saltings-Tarnsea-Baryta-${cm(before.master.width)}x${cm(before.master.height)}cm.jpg`);
  await typeInto(page, 'name-pattern', '{paper}_{glow}');
  const wrong = await state(page);
  assert.equal(wrong.delivery_name, '');
  assert.ok(!wrong.rects.make);
  await typeInto(page, 'name-pattern', '{paper} for {master}');
  await click(page, 'name-width');
  const other = await until(page, (s) => s.batch.pattern === '{paper} for {master}-{width}');
  assert.equal(other.delivery_name, `Tarnsea-Baryta-for-saltings-${cm(before.master.width)}.jpg`);
  await click(page, 'usual-pattern');
  await until(page, (s) => s.delivery_name === before.delivery_name);
});

test('two papers in two sizes are planned as four files', async () => {
  await click(page, 'batch');
  await until(page, (s) => s.batch.entries.length === 1);
  await click(page, 'batch-paper-1');
  await typeInto(page, 'batch-sizes', '4, x');
  await until(page, (s) => /centimetres/.test(s.batch.trouble));
  await typeInto(page, 'batch-sizes', '4 5.5');
  const {batch} = await until(page, (s) => s.batch.entries.length === 4);
  assert.equal(new Set(batch.entries.map(({name}) => name)).size, 4);
  // 4 cm and 5.5 cm at 300 pixels to the inch.
  assert.deepEqual(batch.entries.map(({width}) => width), [4, 5.5, 4, 5.5].map((cm) => Math.round(cm / 2.54 * 300)));
});

test('a file that is in the folder already is never written over', async () => {
  const {batch: before} = await state(page);
  await putInFolder(before.entries[0].name, 'mine');
  await click(page, 'choose-folder');
  const {batch} = await until(page, (s) => s.batch.folder === 'prints' && /-2\.jpg$/.test(s.batch.entries[0].name));
  assert.equal(batch.entries[0].name, before.entries[0].name.replace('.jpg', '-2.jpg'));
  // One that came while the folder was in use, unseen.
  await putInFolder(batch.entries[1].name, 'mine too');
  await click(page, 'make-batch');
  const done = await until(page, (s) => !s.batch.running && !s.batch.saving && ready(s) && s.sheet.deliveries === 3 && states(s) === 'made failed made made', 120000);
  assert.match(done.last_notice, /already/);
  const files = await folder();
  assert.equal(String(files[before.entries[0].name]), 'mine');
  assert.equal(String(files[batch.entries[1].name]), 'mine too');
  for (const index of [0, 2, 3]) {
    const {name, width, height} = batch.entries[index];
    const image = jpeg.samples(files[name]);
    assert.deepEqual([image.width, image.height], [width, height]);
  }
  await shoot('failed');
});

test('what is made is not made again: only the missing file is', async () => {
  const before = await state(page);
  await click(page, 'make-batch');
  const done = await until(page, (s) => !s.batch.running && !s.batch.saving && ready(s) && states(s) === 'made made made made', 120000);
  assert.equal(done.sheet.deliveries, before.sheet.deliveries + 1);
  assert.equal(done.batch.entries[1].name, before.batch.entries[1].name);
  assert.match(done.batch.entries[1].name, /-2\.jpg$/);
  await shoot('made');
});

test('every file is in the job with its paper, its check and its sum', async () => {
  await until(page, (s) => s.sheet.digest !== '');
  const download = page.waitForEvent('download', {timeout: 60000});
  await click(page, 'keep-job');
  const job = JSON.parse(readFileSync(await (await download).path()));
  const files = await folder(), {batch} = await state(page);
  assert.equal(job.deliveries.length, 4);
  for (const {name, paper, mean, max} of batch.entries) {
    const told = job.deliveries.find((delivery) => delivery.name === name);
    assert.equal(told.sha256, sum(files[name]));
    assert.equal(told.bytes, files[name].length);
    assert.deepEqual([told.paper, told.mean, told.max], [paper, mean, max]);
    assert.ok(mean < 1.5, `${name}: mean ${mean}`);
  }
});

test('a run is stopped, and goes on where it stood, to the downloads', async () => {
  await click(page, 'leave-folder');
  await until(page, (s) => s.batch.folder === null);
  await typeInto(page, 'batch-sizes', '60 6');
  await until(page, (s) => states(s) === 'waiting waiting waiting waiting');
  const downloads = [];
  page.on('download', (download) => downloads.push(download));
  await page.evaluate(() => {
    let turn = 0;
    window.held = ({op}) => op === 'deliver' && [1, 3].includes(++turn);
  });
  await click(page, 'make-batch');
  await until(page, (s) => s.batch.entries[0].state === 'making');
  await click(page, 'stop-batch');
  await until(page, (s) => !s.batch.running && states(s) === 'waiting waiting waiting waiting');
  assert.equal(downloads.length, 0);
  await typeInto(page, 'batch-sizes', '6 60');
  await click(page, 'make-batch');
  await until(page, (s) => s.batch.entries[0].state === 'made' && s.batch.entries[1].state === 'making', 60000);
  await click(page, 'stop-batch');
  await until(page, (s) => !s.batch.running && states(s).startsWith('made waiting'));
  await typeInto(page, 'batch-sizes', '6');
  const {batch} = await until(page, (s) => states(s) === 'made waiting');
  await click(page, 'make-batch');
  await until(page, (s) => !s.batch.running && states(s) === 'made made', 60000);
  assert.deepEqual(downloads.map((each) => each.suggestedFilename()), batch.entries.map(({name}) => name));
});

test('costs of a print and of the edition are added up in the job', async () => {
  await typeInto(page, 'edition-of-field', '12');
  await typeInto(page, 'cost', '180.5');
  await typeInto(page, 'edition-cost', '340');
  const download = page.waitForEvent('download', {timeout: 60000});
  await click(page, 'keep-job-sheet');
  const html = readFileSync(await (await download).path()).toString();
  assert.ok(html.includes('2506.00'), 'twelve at 180.50 and once 340');
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
