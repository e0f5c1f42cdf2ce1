// The page in German: chosen by the browser's settings, spoken by panel, engine and the client's page,
// and left again by ?lang=, by the choice on the Look leaf, and where the catalogue does not arrive.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {click, drawn, press, ready, typeInto} from './lib/panel.mjs';
import {drop, handedOver, ROOT, served, state, until} from './lib/site.mjs';

const LEAVES = ['Master', 'Papier', 'Ansicht', 'Anpassen', 'Größe', 'Druckdatei'];
const groups = JSON.parse(readFileSync(path.join(ROOT, 'web/language/catalogue.json'), 'utf8'));
const catalogue = Object.assign({}, ...Object.values(groups));

// An English text as it would be drawn: %s and the like, and {}, stand for anything.
const quoted = (text) => text.replace(/[.*+?^$()|[\]\\]/g, '\\$&');
const pattern = (english) => new RegExp('^' + quoted(english.trim()).replace(/%%/g, '%')
  .replace(/%[-.0-9]*[a-z]+|{[^}]*}/g, '.+').replace(/[{}]/g, '\\$&') + '$');
// Words alone: names and numbers are the same in all languages.
const english = Object.entries(catalogue)
  .filter(([text, {de}]) => text !== de && /[a-z]{3}/.test(text.replace(/%[-.0-9]*[a-z]+|{[^}]*}/g, '')))
  .map(([text]) => pattern(text));

const inEnglish = (texts) => texts.filter((text) => english.some((one) => one.test(text.trim())));

let visit, page, link;
const host = served(async () => {
  visit = await host.open({locale: 'de-DE'});
  page = visit.page;
  await until(page, ready);
}, '/tool/');

test('a German browser gets the page in German, on every leaf', async () => {
  assert.equal(await page.getAttribute('html', 'lang'), 'de');
  assert.equal(await page.getAttribute('#canvas', 'aria-label'), 'Proofleaf: Bild, Papier und Proof');
  for (const [index, name] of LEAVES.entries()) {
    await press(page, String(index + 1));
    const {texts, language} = await until(page, (s) => s.leaf === index + 1 && s.texts.includes(name));
    assert.equal(language, 'de');
    assert.ok(texts.length > 20);
    assert.deepEqual(inEnglish(texts), []);
  }
  await page.waitForFunction(() => document.querySelector('#state').textContent.includes('Tiefenkompensierung'));
});

test('the engine\'s refusals are German', async () => {
  await drop(page, {name: 'leer.jpg', bytes: []});
  const {last_notice} = await until(page, (s) => s.last_notice.includes('leer.jpg'));
  assert.match(last_notice, /^leer\.jpg ist leer\.$/);
  await press(page, 'Escape');
});

test('the main job is done in German, its check and its sheet too', async () => {
  await press(page, '6');
  const {name, bytes} = await handedOver(page, () => click(page, 'make'));
  assert.match(name, /\.jpg$/);
  assert.ok(bytes.length > 10000);
  const {delivered, texts} = await until(page, (s) => s.delivered && ready(s));
  assert.match(delivered.sentence, /^Zurückgelesen und an \d+ Stellen geprüft: .* an der schlechtesten \d/);
  assert.deepEqual(inEnglish(texts), []);
  const sheet = await handedOver(page, () => click(page, 'keep-job-sheet'));
  const html = sheet.bytes.toString();
  assert.match(html, /<html lang="de">/);
  assert.match(html, /<h2>Übergeben<\/h2>/);
  assert.doesNotMatch(html, /Rendering intent|Handed over|Read back/);
  const job = JSON.parse((await handedOver(page, () => click(page, 'keep-job'))).bytes);
  assert.match(job.intent, /^(perceptual|relative)$/);  // files are not translated
});

// A point between two digits, other than in dates, names of files and what a person wrote.
const withPoint = (texts) => texts.filter((text) => /(^|[^\w.])[-−]?\d+\.\d+(?![\d.]*\w)/.test(text));

test('numbers have a comma, in panel, readout, sentences, sheet and the standing description', async () => {
  for (const leaf of [1, 2, 3, 4, 5, 6]) {
    await press(page, String(leaf));
    await until(page, (s) => s.leaf === leaf && ready(s));
    await drawn(page);
    if (leaf === 1) await until(page, ({texts}) => texts.includes('928\u00a0×\u00a0696 Pixel, 0,6 Megapixel'));
    assert.deepEqual(withPoint((await state(page)).texts), []);
  }
  const {x, y, width, height} = await page.locator('#canvas').boundingBox();
  await page.mouse.move(x + width * 0.7, y + height * 0.5);
  const {reading} = await until(page, (s) => s.reading);
  assert.match(reading.lines[0], /L\* \d+,\d {2}a\* −?\d+,\d/);
  assert.deepEqual(withPoint(reading.lines), []);
  assert.deepEqual(withPoint([await page.locator('#state').textContent()]), []);
});

test('typed with a comma or a point a number is the same; files keep the point', async () => {
  await press(page, '5');
  await click(page, 'sized');
  await until(page, (s) => s.recipe.now.sized);
  await typeInto(page, 'width-cm', '20,5');
  await until(page, (s) => s.recipe.now.size.width_mm === 205);
  await typeInto(page, 'width-cm', '19.25');
  await until(page, (s) => s.recipe.now.size.width_mm === 192.5);
  await typeInto(page, 'width-cm', '1,2,3');
  await until(page, (s) => s.recipe.now.size.width_mm === 192.5);
  await press(page, '6');
  await until(page, (s) => ready(s));
  await typeInto(page, 'edition-cost', '48,5');
  const html = (await handedOver(page, () => click(page, 'keep-job-sheet'))).bytes.toString();
  assert.match(html, /48,50/);
  assert.match(html, /<td>\d+,\d\u00a0×\u00a0\d+,\d mm<\/td>/);
  assert.deepEqual(withPoint(html.replace(/<style>.*?<\/style>/s, '').replace(/<[^>]*>/g, '\n').split('\n')), []);
  const job = JSON.parse((await handedOver(page, () => click(page, 'keep-job'))).bytes);
  assert.equal(job.recipe.size.width_mm, 192.5);
  assert.ok(job.costs.some(({amount}) => amount === 48.5));
  await press(page, '5');
  await click(page, 'sized');
  await until(page, (s) => !s.recipe.now.sized && ready(s));
});

test('the paper sheet and the client\'s offer are German', async () => {
  await until(page, (s) => s.choice.ranking.length === 4 && !s.choice.waiting, 60000);
  await press(page, 'p');
  const {texts, choice} = await until(page, (s) => s.choice.open && s.texts.includes('Alle Papiere'));
  assert.deepEqual(inEnglish(texts), []);
  assert.match(choice.ranking[0].sentence, /^Verglichen mit |etwa so gut wie/);
  await click(page, 'page-client', [900, 500]);
  await click(page, 'make-offer', [900, 500]);
  const made = await until(page, (s) => s.offering.link);
  link = made.offering.link;
  assert.deepEqual(inEnglish(made.texts), []);
  await press(page, 'Escape');
});

// Opens an offer as a client with those settings.
async function client(address, locale) {
  const context = await host.browser.newContext({locale});
  const opened = await context.newPage();
  await opened.goto(address);
  await opened.waitForSelector('#offer:not([hidden])');
  return {opened, context};
}

test('the client\'s page speaks the client\'s own language', async () => {
  const german = await client(link, 'de-AT');
  const texts = await german.opened.evaluate(() => document.body.innerText.split('\n'));
  assert.equal(await german.opened.getAttribute('html', 'lang'), 'de');
  assert.ok(texts.includes('Meine Antwort schreiben'));
  assert.deepEqual(inEnglish(texts.filter(Boolean)), []);
  await german.context.close();
  const french = await client(link, 'fr-FR');
  assert.equal(await french.opened.getAttribute('html', 'lang'), 'en-GB');
  assert.match(await french.opened.innerText('#choice button[type=submit]'), /^Write my answer$/);
  await french.context.close();
});

test('the choice on the Look leaf changes it at once and is kept; ?lang= wins for a visit', async () => {
  await press(page, '3');
  await click(page, 'language-0');
  await until(page, (s) => s.language === 'en-GB' && s.texts.includes('Master and print'));
  assert.equal(await page.getAttribute('html', 'lang'), 'en-GB');
  await drop(page, {name: 'empty.jpg', bytes: []});
  await until(page, (s) => s.last_notice === 'empty.jpg is empty.');
  await page.goto(host.address);
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => s.language === 'en-GB');
  await page.goto(host.address + '?lang=de');
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => s.language === 'de');
  assert.deepEqual(visit.complaints, []);
});

test('where the catalogue does not arrive, the page works in English', async () => {
  const {page: plain, context} = await host.open({locale: 'de-DE'},
      (its) => its.route('**/words-de.json', (route) => route.abort()));
  const {language} = await state(plain);
  assert.equal(language, 'en-GB');
  await context.close();
});
