// Memory that is not enough: the panel says so in a sentence and offers a smaller working size, and the
// same job goes on with it; other work ends with a sentence and without a file. The memory of workers
// is held where it is (WebAssembly.Memory cannot grow), or they are ended.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {tiffOf} from './lib/master.mjs';
import {allControls, click, press, ready, typeInto} from './lib/panel.mjs';
import {drop, endWorkers, handedOver, ROOT, served, SIZES, spoil, state, until} from './lib/site.mjs';

const WIDTH = 2000, HEIGHT = 1000, ROWS = 40;
const NOT_ENOUGH = /^The memory here does not seem to be enough for large\.tif at the working size of 2 megapixels; a smaller one needs less, and print files are made at full size all the same\.$/;
const AT_LAST = /^The memory here .* large\.tif even at the smallest working size of 0\.25 megapixels; nothing was changed/;
const STARVED = /^The browser could not finish this: it ran out of memory/;

// Exactly two megapixels in one tone a row, so that its preview has all of them.
const samples = new Uint16Array(WIDTH * ROWS * 3).map((_, i) => Math.floor(i / WIDTH / 3) * 1500 + 1000);
const LARGE = {name: 'large.tif', bytes: tiffOf({width: WIDTH, height: HEIGHT, data: Buffer.from(samples.buffer),
  rowsPerStrip: ROWS, profile: readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc')})};

// Put at the end of bands.js, before the rest of a worker is made: each request is told to the test, which
// says whether the worker ends ("dies"), or how far its memory may grow [MB].
const FAULT = `{
  let most = Infinity;
  const {grow} = WebAssembly.Memory.prototype;
  WebAssembly.Memory.prototype.grow = function (pages) {
    if (this.buffer.byteLength + pages * 65536 > most) throw new RangeError('no memory, says the test');
    return grow.call(this, pages);
  };
  const plain = begin;
  begin = (module, job) => {
    const {op, preview_pixels: pixels = 0, strip} = JSON.parse(job.request);
    const bytes = job.files.picture?.blob.size ?? 0, {name = ''} = job.files.master ?? {};
    const asked = new XMLHttpRequest();
    asked.open('GET', 'fault?' + new URLSearchParams({op: strip ? 'strip' : op, pixels, bytes, name}), false);
    asked.send();
    if (asked.responseText === 'dies') throw new Error('ended by the test');
    most = Number(asked.responseText) * 2 ** 20 || Infinity;
    return plain(module, job);
  };
}`;

const host = served();

// A page whose faults the test sets: visit.fault({op, pixels, bytes, name}) answers what FAULT knows.
async function starving(options = {}, prepare = async () => {}) {
  const faults = {fault: () => ''};
  const visit = await host.open(options, async (context) => {
    await spoil(context, () => FAULT);
    await context.route('**/fault?*', (route) => {
      const asked = Object.fromEntries(new URL(route.request().url()).searchParams);
      route.fulfill({body: faults.fault({...asked, pixels: Number(asked.pixels), bytes: Number(asked.bytes)})});
    });
    await prepare(context);
  });
  await until(visit.page, (s) => ready(s) && s.papers.length === 4, 120000);
  return Object.assign(visit, {setFault: (fault) => { faults.fault = fault; }});
}

const shoot = (page, name) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `memory-${name}.png`)});

// The page still does its work.
async function worksOn(page) {
  const {intent} = await state(page);
  await press(page, 'i');
  await until(page, (s) => s.intent !== intent && ready(s), 120000);
}

test('a worker whose memory cannot grow: the smaller size is offered, opened, and delivered in full', async () => {
  const {page, context, setFault} = await starving();
  await press(page, '2');
  await click(page, 'paper-2');
  await press(page, '4');
  await typeInto(page, 'fit-saturation-field', '12');
  const before = await until(page, (s) => ready(s) && s.recipe.now.correction.saturation === 12);
  await endWorkers(page);
  setFault(({op}) => (op === 'open' ? '32' : ''));
  await drop(page, LARGE);
  const offered = await until(page, (s) => s.working.offered && !s.busy.length);
  assert.match(offered.last_notice, NOT_ENOUGH);
  assert.equal(offered.working.offered, 1e6);
  assert.equal(offered.master.name, before.master.name);
  await page.waitForFunction(() => window.heard.some((news) => /^The memory here .* Leaf 1 has a button/.test(news)));
  await shoot(page, 'desktop');
  await click(page, 'reopen');
  const now = await until(page, (s) => s.master.name === LARGE.name && ready(s), 120000);
  assert.equal(now.working.offered, null);
  assert.equal(now.notices, 0);
  assert.ok(now.working.width * now.working.height <= 1e6);
  assert.deepEqual([now.paper, now.intent, now.recipe.now], [before.paper, before.intent, before.recipe.now]);
  await press(page, '6');
  await handedOver(page, () => click(page, 'make'));
  const {delivered} = await until(page, (s) => s.delivered && ready(s), 120000);
  assert.deepEqual([delivered.width, delivered.height], [WIDTH, HEIGHT]);
  await press(page, '1');
  await until(page, (s) => s.texts.some((text) => /working size of 1000 × 500 pixels/.test(text)));
  await shoot(page, 'desktop-smaller');
  setFault(() => '');
  await click(page, 'working-usual');
  await until(page, (s) => s.working.width === WIDTH && ready(s), 120000);
  await context.close();
});

for (const [name, options] of Object.entries(SIZES).slice(1)) {
  test(`${name}: smaller by smaller, down to a sentence that there is none; what was open stays`, async () => {
    const {page, context, setFault} = await starving(options);
    const before = await state(page);
    const asked = [];
    setFault(({op, name: file, pixels}) => {
      if (op !== 'open' || file !== LARGE.name) return '';
      asked.push(pixels);
      return 'dies';
    });
    await press(page, '1');
    await drop(page, LARGE);
    for (const pixels of [1e6, 5e5, 2.5e5]) {
      await until(page, (s) => s.working.offered === pixels && !s.busy.length && s.rects.reopen);
      if (pixels === 1e6) {
        await shoot(page, name);
        const [, , w, h] = (await state(page)).rects.reopen;
        assert.ok(w >= 44 && h >= 44, `${w} x ${h}`);  // WCAG 2.2, 2.5.5
        await allControls(page, options.viewport);
      }
      await click(page, 'reopen');
    }
    const now = await until(page, (s) => !s.busy.length && AT_LAST.test(s.last_notice));
    await shoot(page, `${name}-at-last`);
    assert.equal(now.working.offered, null);
    assert.equal(now.rects.reopen, undefined);
    assert.deepEqual(asked, [2e6, 1e6, 5e5, 2.5e5]);
    assert.deepEqual([now.master.name, now.paper, now.working.most], [before.master.name, before.paper, 2e6]);
    await worksOn(page);
    await context.close();
  });
}

test('a proof that dies offers the smaller size too, and every choice outlasts it', async () => {
  const {page, context, setFault} = await starving();
  await drop(page, LARGE);
  await until(page, (s) => s.master.name === LARGE.name && ready(s), 120000);
  await press(page, '4');
  await typeInto(page, 'fit-saturation-field', '7');
  await press(page, '5');
  await press(page, '2');
  const before = await until(page, (s) => ready(s) && s.recipe.now.correction.saturation === 7);
  setFault(({op, bytes}) => (op === 'cube' && bytes > 5e6 ? 'dies' : ''));
  await click(page, 'paper-3');
  const offered = await until(page, (s) => s.working.offered && !s.busy.length, 120000);
  assert.match(offered.last_notice, NOT_ENOUGH);
  const {paper} = offered;
  assert.notEqual(paper, before.paper);
  await press(page, '1');
  await click(page, 'reopen-smaller');
  const now = await until(page, (s) => s.working.most === 1e6 && ready(s), 120000);
  assert.deepEqual([now.working.width, now.working.height], [1000, 500]);
  assert.deepEqual([now.master.name, now.paper, now.intent], [LARGE.name, paper, before.intent]);
  assert.deepEqual(now.recipe.now, before.recipe.now);
  assert.deepEqual(now.view.divider, before.view.divider);
  await context.close();
});

test('little memory, as the platform tells: the working size begins lower, and can be the usual one', async () => {
  const {page, context} = await starving(SIZES.tablet, (its) => its.addInitScript(() => {
    Object.defineProperty(Navigator.prototype, 'deviceMemory', {get: () => 1});
  }));
  const {working, master} = await state(page);
  assert.equal(working.most, 5e5);
  assert.ok(working.width * working.height <= 5e5 && working.width < master.width);
  await press(page, '1');
  await until(page, (s) => s.texts.some((text) => /working size of \d+ × \d+ pixels/.test(text)));
  await click(page, 'working-usual');
  await until(page, (s) => s.working.most === 2e6 && s.working.width > working.width && ready(s), 120000);
  await context.close();
});

// The panel's own memory: held where it is.
const HELD = () => {
  const {grow} = WebAssembly.Memory.prototype;
  WebAssembly.Memory.prototype.grow = function (pages) {
    if (window.held) throw new RangeError('no memory, says the test');
    return grow.call(this, pages);
  };
};

test('the page itself has no room for the picture: the smaller size is offered, the page goes on', async () => {
  const {page, context} = await starving({}, (its) => its.addInitScript(HELD));
  const {master} = await state(page);
  await page.evaluate(() => { window.held = true; });
  await drop(page, LARGE);
  const offered = await until(page, (s) => s.working.offered && !s.busy.length);
  assert.match(offered.last_notice, NOT_ENOUGH);
  assert.equal(offered.master.name, master.name);
  await page.evaluate(() => { window.held = false; });
  await worksOn(page);
  await click(page, 'reopen');
  await until(page, (s) => s.master.name === LARGE.name && s.working.most === 1e6 && ready(s), 120000);
  await context.close();
});

test('a page that dies for want of memory says so, and goes on smaller when it is opened again', async () => {
  const {page, context} = await starving();
  await drop(page, LARGE);
  await press(page, '4');
  await until(page, (s) => s.master.name === LARGE.name && ready(s), 120000);
  await typeInto(page, 'fit-saturation-field', '9');
  await until(page, (s) => ready(s) && s.recipe.now.correction.saturation === 9);
  await page.waitForFunction(() => sessionStorage['proofleaf.work']?.includes('\\"saturation\\":9'));
  await page.waitForTimeout(500);  // the master is kept a moment later
  await page.evaluate(() => {
    document.getElementById('canvas').getContext('webgl2').drawElements = () => { throw new RangeError('Array buffer allocation failed'); };
  });
  await press(page, 'i');
  const card = page.locator('#trouble');
  await card.waitFor({state: 'visible'});
  assert.match(await card.innerText(), /ran out of memory.*goes on where it was, at a smaller working size/s);
  await shoot(page, 'page-died');
  await Promise.all([page.waitForEvent('load'), card.locator('button').click()]);
  await page.waitForFunction(() => window.proofleaf);
  const now = await until(page, (s) => s.master?.name === LARGE.name && ready(s) && s.recipe.now.correction.saturation === 9, 120000);
  assert.equal(now.working.most, 1e6);
  await context.close();
});

test('judging, report, card, sample, strip, returned print, delivery, batch: a sentence each, and no file', async () => {
  const visit = await starving();
  const {page, context, setFault} = visit;
  const dying = (...ops) => setFault(({op}) => (ops.includes(op) ? 'dies' : ''));
  const notice = async (act) => {
    await act();
    const now = await until(page, (s) => s.notices > 0 && !s.busy.length, 120000);
    await press(page, 'Escape');
    await until(page, (s) => s.notices === 0);
    return now.last_notice;
  };
  dying('judge', 'condition', 'card', 'sample');
  await drop(page, LARGE);
  const judged = await until(page, (s) => s.master.name === LARGE.name && ready(s) && s.choice.tried === 4 && s.condition.failed, 120000);
  assert.equal(judged.choice.troubles.length, 4);
  for (const sentence of [...judged.choice.troubles, judged.condition.failed]) assert.match(sentence, STARVED);
  await press(page, 'p');
  await click(page, 'page-card', [900, 500]);
  const {choice} = await until(page, (s) => s.choice.cards[s.choice.card]);
  assert.match(choice.cards[choice.card], STARVED);
  await press(page, 'Escape');
  await press(page, '5');
  await click(page, 'grain');
  const {recipe} = await until(page, (s) => s.recipe.sample.trouble, 60000);
  assert.match(recipe.sample.trouble, STARVED);

  dying('deliver', 'strip', 'returned');
  await press(page, '6');
  assert.match(await notice(() => click(page, 'make')), STARVED);
  assert.match(await notice(() => click(page, 'make-strip')), STARVED);
  assert.match(await notice(async () => {
    const chooser = page.waitForEvent('filechooser');
    await click(page, 'bring-print');
    await (await chooser).setFiles(path.join(ROOT, 'demo-images/stairwell.png'));
  }), STARVED);
  await click(page, 'batch');
  await until(page, (s) => s.batch.entries.length > 0);
  await click(page, 'make-batch');
  const {batch} = await until(page, (s) => !s.batch.running && s.batch.entries.some((entry) => entry.state === 'failed'), 120000);
  for (const entry of batch.entries) assert.match(entry.sentence, STARVED);
  const now = await state(page);
  assert.equal(now.delivered, null);
  assert.deepEqual(visit.saved, []);
  assert.deepEqual([now.master.name, now.working.most, now.working.offered], [LARGE.name, 2e6, null]);

  setFault(() => '');
  await worksOn(page);
  await press(page, '6');
  await handedOver(page, () => click(page, 'make'));
  await context.close();
});
