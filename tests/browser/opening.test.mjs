// While a master is being opened its quick cubes are made, out of its profile alone.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {tiff} from './lib/master.mjs';
import {ready} from './lib/panel.mjs';
import {drop, holding, onePage, state, until} from './lib/site.mjs';

const WIDE = readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc');  // Debian's libgs-common
let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.papers.length === 4 && s.choice.tried === s.choice.to_try);
}, {first: holding});

// What workers were asked for: "profile", "cube 25 proof", ..
const asked = () => page.evaluate(() => window.asked.map(({op, grid, intent}) =>
  (op === 'cube' ? `cube ${grid} ${intent ? 'proof' : 'master'}` : op)));

test('its cubes are there before its picture is', async () => {
  const before = await state(page);
  await page.evaluate(() => {
    window.held = ({op}) => op === 'open';
    window.asked.length = 0;
  });
  await drop(page, {name: 'first.tif', bytes: tiff(WIDE, 150)});
  await page.waitForFunction(() => window.asked.length >= 4);
  assert.deepEqual((await asked()).sort(), ['cube 25 master', 'cube 25 proof', 'open', 'profile']);
  assert.equal((await state(page)).master.name, before.master.name);
});

test('another master ends them, and is shown through its own, made once', async () => {
  await page.evaluate(() => {
    window.held = () => false;
    window.asked.length = 0;
  });
  await drop(page, {name: 'second.tif', bytes: tiff(WIDE, 150)});
  await until(page, (s) => s.master.name === 'second.tif' && ready(s));
  const requests = await asked();
  for (const cube of ['cube 25 proof', 'cube 25 master', 'cube 65 proof', 'cube 65 master']) {
    assert.equal(requests.filter((each) => each === cube).length, 1, `${cube} in ${requests}`);
  }
  assert.deepEqual(visit.complaints, []);
});

test('a file that is no master: a sentence, and the master is as it was', async () => {
  await drop(page, {name: 'third.tif', bytes: Buffer.from('II*\0 and nothing more')});
  await until(page, (s) => /third\.tif/.test(s.last_notice) && ready(s));
  assert.equal((await state(page)).master.name, 'second.tif');
  assert.deepEqual(visit.complaints, []);
});
