// A client picks a paper: the photographer makes an offer in one browser, the client opens it in another,
// and the answer comes back.
import assert from 'node:assert/strict';
import {readFileSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {convert} from './lib/littlecms.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {launch, open, ROOT, serve, SIZES, state, until} from './lib/site.mjs';
import {proxy} from './lib/wire.mjs';

const RELATIVE = 1, ABSOLUTE = 3, PERCEPTUAL = 0;
const MOST_LETTERS = 24 * 1024;
const SHEET = [900, 500];  // a place on the wide sheet
const NOTE = 'With a wide margin, please.\nAnd "signed" & <b>numbered</b>.';
const MARKUP = '<img src=x onerror="hit=1"><script>hit=1</script>';

let server, studio, home, wire, tool, visit, link, answer, answerLink;
before(async () => {
  server = await serve('/tool/');
  wire = await proxy(new URL(server.address).host);
  studio = await launch();
  home = await launch({proxy: {server: wire.address, bypass: '<-loopback>'}});
  visit = await open(studio, server.address);
  tool = visit.page;
  await until(tool, (s) => ready(s) && s.choice.ranking.length === 4 && !s.choice.waiting, 120000);
  await press(tool, '2');
  await click(tool, 'offer');
});
after(async () => {
  await studio?.close();
  await home?.close();
  server?.stop();
  wire?.stop();
});

const pressed = (id) => click(tool, id, SHEET);

// Frames enough for the panel to have heard of what was pressed.
const heard = () => tool.evaluate(() => new Promise((done) => {
  let frames = 6;
  const next = () => (--frames ? requestAnimationFrame(next) : done());
  next();
}));

// Writes into a field in place of what stands there. seen(offering): as the state then tells it.
async function write(id, text, seen = null) {
  await pressed(id);
  await tool.waitForFunction(() => document.activeElement.id === 'typing');
  await heard();
  await tool.keyboard.press('Control+a');
  await heard();
  if (text) await tool.keyboard.type(text);
  else await tool.keyboard.press('Delete');
  await heard();
  if (seen) await until(tool, ({offering}) => seen(offering) === text);
}
const writeTitle = (text) => write('offer-title', text, ({title}) => title);
const writeEnd = (text) => write('offer-ends', text, ({expires}) => expires);
const writeSize = (row, text) => write(`offer-size-${row}`, text, ({sizes}) => sizes[row]?.[0]);
const writePrice = (row, text) => write(`offer-price-${row}`, text, ({sizes}) => sizes[row]?.[1]);

async function makeLink() {
  const {offering: {link: earlier}} = await state(tool);
  await pressed('make-offer');
  const {offering} = await until(tool, (s) => s.offering.link && s.offering.link !== earlier, 180000);
  assert.equal(offering.letters, offering.link.length);
  assert.ok(offering.letters <= MOST_LETTERS, `${offering.letters} letters`);
  return offering.link;
}

// Opens an address as the client does, in a context of its own.
async function client(address, options = {}) {
  const context = await home.newContext({viewport: {width: 1280, height: 800}, ...options});
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  const page = await context.newPage();
  const complaints = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (line) => { if (line.type() === 'error') complaints.push(line.text()); });
  await page.goto(address);
  await page.waitForFunction(() => !document.getElementById('trouble').textContent.startsWith('One moment') ||
      !document.getElementById('offer').hidden || !document.getElementById('lock').hidden, null, {timeout: 60000});
  return {page, context, complaints, shut: () => context.close()};
}

const shown = (page) => page.locator('#offer').isVisible();
const trouble = (page) => page.locator('#trouble').textContent();

// A canvas of the page: {width, height, data: R, G, B, A}.
async function canvas(page, index = 0) {
  const {letters, ...size} = await page.evaluate((place) => {
    const element = document.querySelectorAll('canvas')[place];
    const {width, height} = element;
    const {data} = element.getContext('2d').getImageData(0, 0, width, height);
    let text = '';
    for (let at = 0; at < data.length; at += 32768) text += String.fromCharCode(...data.subarray(at, at + 32768));
    return {width, height, letters: btoa(text)};
  }, index);
  return {...size, data: Buffer.from(letters, 'base64')};
}

// What the tool's own worker reads in the link: texts, and the picture in 8 bits.
const openedByEngine = (letters) => tool.evaluate(async (text) => {
  const app = new URL('.', document.querySelector('script[type=module]').src);
  const module = await WebAssembly.compileStreaming(fetch(new URL('proofleaf.wasm', app)));
  const worker = new Worker(new URL('worker.js', app));
  const told = new Promise((done) => { worker.onmessage = ({data}) => { if (data.answer || data.failed) done(data); }; });
  worker.postMessage({module});
  worker.postMessage({work: 1, request: JSON.stringify({op: 'open_offer', link: text, today: ''}), files: {}});
  const {answer: {json, buffers}} = await told;
  worker.terminate();
  const {bytes} = buffers.find(({name}) => name === 'picture');
  return {...JSON.parse(json), rgb: [...new Uint16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2)].map((code) => code / 257)};
}, letters);

test('the photographer makes a link within its limit and is told where links break', async () => {
  await writeTitle('Saltings');
  await write('offer-note', 'Two prints, as we said.', ({note}) => note);
  await writeSize(0, '60 x 40 cm');
  await writePrice(0, '240');
  await pressed('offer-add-size');
  await until(tool, ({offering}) => offering.sizes.length === 2);
  await writeSize(1, '30 x 20 in');
  await writePrice(1, '320');
  link = await makeLink();
  console.log(`${link.length} letters`);
  await tool.screenshot({path: path.join(ROOT, 'build/screenshots/offer-tool.png')});
  assert.ok(link.startsWith(`${server.address}client.html#`));
  assert.match(link.split('#')[1], /^[\w-]+$/);
});

test('the client sees it all without a profile, and nothing but the page\'s own files was asked for', async () => {
  const {page, complaints, shut} = await client(link);
  assert.equal(await page.textContent('h1'), 'Saltings');
  assert.equal(await page.textContent('#note'), 'Two prints, as we said.');
  assert.equal(await page.locator('input[name=paper]').count(), 4);
  assert.equal(await page.locator('input[name=size]').count(), 2);
  await page.locator('input[name=paper]').first().focus();
  await page.keyboard.press('ArrowDown');  // by keyboard alone
  await page.waitForFunction(() => /Owlbrook|Quillmoor|Plainside/.test(document.querySelector('figcaption').textContent));
  assert.match(await page.textContent('#news'), /^The picture on /);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots/offer-client.png'), fullPage: true});
  assert.deepEqual(complaints, []);
  await shut();
  const asked = wire.seen.filter(({url}) => url.startsWith(server.address));
  const own = /^client\.html$|^app-[0-9a-f]+\/(client\.(js|css)|wall\.js|seal\.js|words\.js|icon\.svg|proofleaf-client\.(js|wasm))$/;
  assert.ok(asked.length >= 7);
  assert.deepEqual(asked.filter(({method, url, bytes}) =>
    method !== 'GET' || bytes > 0 || !own.test(url.slice(server.address.length))), []);
  const letters = link.split('#')[1];
  assert.ok(!wire.seen.some(({url}) => url.includes(letters.slice(0, 24)) || url.includes('#')));
});

test('the client\'s proofs are LittleCMS\'s own, within what the tool says of the link', async () => {
  const engine = await openedByEngine(link.split('#')[1]);
  assert.equal(engine.space, 'srgb');
  const {choice: {ranking}} = await state(tool);
  const {page, shut} = await client(link);
  const pixels = [];
  for (let i = 211; i < engine.width * engine.height; i += 397) pixels.push(i);
  for (const [index, {name}] of engine.papers.entries()) {
    const {intent, black_point_compensation: bpc} = ranking.find(({paper}) => paper === name);
    const file = path.join(ROOT, 'demo-images/papers', `${name.toLowerCase().replaceAll(' ', '-')}.icc`);
    await page.locator('input[name=paper]').nth(index).check();
    const {width, height, data} = await canvas(page);
    assert.deepEqual([width, height], [engine.width, engine.height]);
    const colours = pixels.map((i) => engine.rgb.slice(i * 3, i * 3 + 3));
    const device = convert(colours, '*sRGB', file, intent === 'perceptual' ? PERCEPTUAL : RELATIVE, bpc);
    const truth = convert(device, file, '*sRGB', ABSOLUTE)  // paper white and black are shown
      .map((rgb) => rgb.map((value) => Math.min(255, Math.max(0, value))));
    const off = pixels.flatMap((i, place) => truth[place].map((value, c) => Math.abs(value - data[i * 4 + c])));
    const worst = Math.max(...off), mean = off.reduce((sum, value) => sum + value, 0) / off.length;
    console.log(`${name}: ${pixels.length} pixels, mean ${mean.toFixed(2)}, worst ${worst.toFixed(1)} of 255`);
    assert.ok(mean <= 1, `mean ${mean}`);
    assert.ok(worst <= 8, `worst ${worst}`);
  }
  await shut();
});

test('paper white comes off and two papers are compared', async () => {
  const {page, shut} = await client(link);
  await page.locator('input[name=paper]').nth(3).check();
  const mean = ({data}) => data.reduce((sum, value) => sum + value, 0) / data.length;
  const on = await canvas(page);
  await page.locator('#white').uncheck();
  const off = await canvas(page);
  assert.ok(mean(off) > mean(on) + 1, `${mean(off)} and ${mean(on)}`);
  assert.ok(on.data.every((value, at) => off.data[at] >= value - 2), 'nothing gets darker');
  await page.selectOption('#beside', '0');
  const [one, other] = [await canvas(page, 0), await canvas(page, 1)];
  assert.equal(await page.locator('figure:visible').count(), 2);
  assert.ok(!one.data.equals(other.data));
  await shut();
});

// Where the print lies on the wall: its light paper against the wall's grey.
function printOn({width, height, data}) {
  const at = (x, y) => [...data.subarray((y * width + x) * 4, (y * width + x) * 4 + 3)];
  const wall = String(at(width - 3, 3));
  let left = width, right = 0, top = height, bottom = 0;
  for (let y = 0; y < height * 0.85; ++y) {
    for (let x = Math.floor(width * 0.25); x < width; ++x) {
      const [r, g, b] = at(x, y);
      if (String([r, g, b]) === wall || (Math.max(r, g, b) - Math.min(r, g, b) < 4 && r < 210)) continue;
      left = Math.min(left, x); right = Math.max(right, x); top = Math.min(top, y); bottom = Math.max(bottom, y);
    }
  }
  return {width: right - left + 1, height: bottom - top + 1, middle: (top + bottom) / 2};
}

test('on a wall the print stands in proportion to a person\'s height', async () => {
  const {page, shut} = await client(link);
  await page.locator('#wall').check();
  const small = await canvas(page);
  await page.locator('input[name=size]').nth(1).check();
  const large = await canvas(page);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots/offer-wall.png'), fullPage: true});
  const [one, other] = [printOn(small), printOn(large)];
  const METRE = small.height / 2.68;  // the wall is 2.5 m high, the floor 0.18 m
  console.log(JSON.stringify({one, other, metre: METRE}));
  assert.ok(Math.abs(one.width / METRE - 0.6) < 0.02 && Math.abs(one.height / METRE - 0.4) < 0.02);
  assert.ok(Math.abs(other.width / METRE - 0.762) < 0.02 && Math.abs(other.height / METRE - 0.508) < 0.02);
  assert.match(await page.locator('canvas').first().getAttribute('aria-label'), /30 x 20 in beside a line of 1\.7 m/);
  await shut();
});

test('the answer comes back as text and as a link, and the photographer\'s browser knows its offer', async () => {
  const {page, shut} = await client(link);
  await page.locator('input[name=paper]').nth(1).check();
  await page.locator('input[name=size]').nth(1).check();
  await page.fill('#words', NOTE);
  await page.click('button[type=submit]:visible');
  answer = await page.inputValue('#text');
  assert.match(answer, /answer=[\w-]+\.$/);
  await page.click('#copy-link');
  await page.waitForFunction(() => document.getElementById('news').textContent === 'Copied.');
  answerLink = await page.evaluate(() => navigator.clipboard.readText());
  assert.ok(answerLink.startsWith(`${server.address}#answer=`));
  const paper = await page.locator('.pick b').nth(1).textContent();
  await shut();

  await pressed('offer-answer');
  await tool.waitForFunction(() => document.activeElement.id === 'typing');
  await heard();
  await tool.evaluate((text) => {
    const carried = new DataTransfer();
    carried.setData('text/plain', text);
    window.dispatchEvent(new ClipboardEvent('paste', {clipboardData: carried, bubbles: true, cancelable: true}));
  }, answer.replaceAll('\n', '\r\n'));
  await heard();
  await pressed('read-answer');
  const {offering: {answer: read}} = await until(tool, (s) => s.offering.answer);
  assert.equal(read.choice, `${paper}, 30 x 20 in for 320`);
  assert.equal(read.note, NOTE);
  assert.equal(read.trouble, '');
  assert.match(read.remarks.join(' '), /^It answers your offer of \d{4}-\d\d-\d\d\.$/);

  // Days later, in a page of its own, by the link.
  const later = await visit.context.newPage();
  await later.goto(answerLink);
  await later.waitForFunction(() => window.proofleaf);
  const again = await until(later, (s) => s.offering.answer && s.choice.page === 'client');
  assert.equal(again.offering.answer.choice, read.choice);
  assert.ok(!later.url().includes('answer'));
  await until(later, (s) => s.papers.length === 4, 60000);
  await later.screenshot({path: path.join(ROOT, 'build/screenshots/offer-answer.png')});
  await later.close();
});

test('an outdated answer and a withdrawn paper are recognised', async () => {
  const {choice: {ranking}} = await state(tool);
  const second = ranking[1].paper;
  const {papers} = await state(tool);
  await pressed(`offer-paper-${papers.indexOf(second)}`);
  await until(tool, ({offering}) => offering.papers === 3);
  await writePrice(1, '340');
  await makeLink();
  await tool.evaluate((hash) => { location.hash = hash; }, answerLink.split('#')[1]);
  const {offering} = await until(tool, (s) => /earlier state/.test(s.offering.answer?.remarks.join(' ')));
  console.log(offering.answer.remarks.join(' '));
  assert.ok(offering.answer.remarks.includes(`The newest state of the offer no longer has ${second}.`));
  assert.ok(offering.answer.remarks.includes('The newest state of the offer no longer has 30 x 20 in for 320.'));
});

test('an answer that is none, or a stranger\'s, is refused in words', async () => {
  const read = async (hash) => {
    const before = JSON.stringify((await state(tool)).offering.answer);
    await tool.evaluate((text) => { location.hash = text; }, hash);
    const now = await until(tool, (s) => JSON.stringify(s.offering.answer) !== before);
    return now.offering.answer.trouble;
  };
  assert.match(await read('answer=AAAA'), /damaged|cut off/);
  const bytes = Buffer.from(answerLink.split('answer=')[1].replace('.', ''), 'base64url');
  const {crc32} = await import('node:zlib');
  if (crc32) {  // another offer's checksum behind a fitting one of its own
    bytes.writeUInt32LE(0x12345678, 5);
    bytes.writeUInt32LE(crc32(bytes.subarray(5)), 1);
    assert.match(await read(`answer=${bytes.toString('base64url')}`), /does not know the offer/);
  }
});

test('damaged and hostile links show a sentence, and nothing of them runs', async () => {
  const letters = link.split('#')[1], page = link.split('#')[0];
  const turned = letters.slice(0, 900) + (letters[900] === 'A' ? 'B' : 'A') + letters.slice(901);
  const other = Buffer.from(letters, 'base64url');
  other[0] = 9;
  const cases = [
    ['', /no offer in this address/], [letters.slice(0, -40), /cut off/], [turned, /damaged/], ['%3Cscript%3E', /damaged/],
    ['A'.repeat(300000), /damaged/], [other.toString('base64url'), /another version/], ['Ag', /another version|damaged/],
  ];
  for (const [text, sentence] of cases) {
    const opened = await client(`${page}#${text}`);
    assert.match(await trouble(opened.page), sentence);
    assert.equal(await shown(opened.page), false);
    assert.deepEqual(opened.complaints, []);
    await opened.shut();
  }
});

test('markup in an offer is shown as the letters it is; an offer past its last day can only be looked at', async () => {
  await writeTitle(MARKUP);
  await writeEnd('2020-02-29');
  const old = await makeLink();
  const {page, complaints, shut} = await client(old);
  assert.equal(await page.textContent('h1'), MARKUP);
  assert.equal(await page.evaluate(() => globalThis.hit), undefined);
  assert.equal(await page.locator('main img').count(), 0);
  assert.match(await page.textContent('#ends'), /ended on 29 February 2020/);
  assert.equal(await page.locator('button[type=submit]:visible').count(), 0);
  assert.ok(await page.locator('canvas').first().isVisible());
  assert.deepEqual(complaints, []);
  await shut();
});

test('a last day that is none is refused, and the offer before stays', async () => {
  const {offering: earlier} = await state(tool);
  await writeEnd('soon');
  await pressed('make-offer');
  const now = await until(tool, (s) => /is not a day/.test(s.last_notice ?? ''));
  assert.equal(now.offering.link, earlier.link);
  await writeEnd('');
});

test('a locked offer opens with its passphrase only', async () => {
  await write('offer-lock', 'Grüße, two words');
  const locked = await makeLink();
  const {page, complaints, shut} = await client(locked);
  assert.equal(await shown(page), false);
  await page.fill('#passphrase', 'grüße, two words');
  await page.click('#lock button');
  await page.waitForFunction(() => /does not open/.test(document.getElementById('lock-said').textContent), null, {timeout: 30000});
  // The same letters composed another way (Unicode's form NFD).
  await page.fill('#passphrase', 'Grüße, two words'.normalize('NFD'));
  await page.keyboard.press('Enter');
  await page.waitForSelector('#offer:not([hidden])', {timeout: 30000});
  assert.equal(await page.textContent('h1'), MARKUP);
  assert.deepEqual(complaints, []);
  await shut();
  assert.equal(Buffer.from(locked.split('#')[1], 'base64url')[0], 2);

  const unsafe = await home.newContext();
  await unsafe.addInitScript(() => Object.defineProperty(Crypto.prototype, 'subtle', {value: undefined}));
  const bare = await unsafe.newPage();
  await bare.goto(locked);
  await bare.fill('#passphrase', 'Grüße, two words');
  await bare.click('#lock button');
  await bare.waitForFunction(() => /holds safe/.test(document.getElementById('lock-said').textContent));
  await unsafe.close();
  await write('offer-lock', '');
});

test('the same as one file opens from a disk, with a larger picture, and asks nobody for anything', async () => {
  await writeTitle('Saltings, as a file </script>');
  const download = tool.waitForEvent('download', {timeout: 180000});
  await pressed('make-offer-file');
  const file = path.join(tmpdir(), `offer-${process.pid}.html`);
  const html = readFileSync(await (await download).path());
  writeFileSync(file, html);
  console.log(`the file has ${html.length} bytes`);
  const before = wire.seen.length;
  const {page, complaints, shut} = await client(`file://${file}`);
  const requests = [];
  page.on('request', (request) => requests.push(request.url()));
  assert.equal(await page.textContent('h1'), 'Saltings, as a file </script>');
  const {width} = await canvas(page);
  assert.ok(width > 900, `${width} pixels wide`);
  await page.locator('input[name=paper]').nth(1).check();
  await page.click('button[type=submit]:visible');
  const back = await page.inputValue('#text');
  assert.equal(await page.locator('#copy-link:visible').count(), 0);
  await page.screenshot({path: path.join(ROOT, 'build/screenshots/offer-file.png'), fullPage: true});
  assert.deepEqual(requests, []);
  assert.ok(!wire.seen.slice(before).some(({url}) => url.startsWith('http://127.')));
  assert.deepEqual(complaints, []);
  await shut();
  await tool.evaluate((text) => { location.hash = text; }, 'answer=' + back.split('answer=')[1]);
  const {offering} = await until(tool, (s) => /your offer of/.test(s.offering.answer?.remarks.join(' ')));
  assert.equal(offering.answer.trouble, '');
});

for (const [name, options] of [['phone', {...SIZES.phone, deviceScaleFactor: 2}], ['tablet', SIZES.tablet]]) {
  test(`${name}: nothing lies outside the screen, and targets are large`, async () => {
    const {page, shut} = await client(link, options);
    await page.selectOption('#beside', '1');
    await page.fill('#words', 'Yes');
    await page.click('button[type=submit]:visible');
    await page.screenshot({path: path.join(ROOT, 'build/screenshots', `offer-${name}.png`), fullPage: true});
    const {sideways, small} = await page.evaluate(() => ({
      sideways: document.documentElement.scrollWidth > innerWidth,
      // WCAG 2.2, 2.5.5 target size (enhanced): 44 by 44 CSS pixels.
      small: [...document.querySelectorAll('label.pick, label.tick, select, button, textarea')]
        .filter((element) => element.checkVisibility() && Math.min(element.offsetWidth, element.offsetHeight) < 43.5)
        .map((element) => element.textContent.trim()),
    }));
    assert.equal(sideways, false);
    assert.deepEqual(small, []);
    await shut();
  });
}

test('the tool had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
