// The job on file: the sheet to print and the job to reopen, with the sums of what was handed over.
import assert from 'node:assert/strict';
import {createHash} from 'node:crypto';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {click, press, ready} from './lib/panel.mjs';
import {drop, onePage, ROOT, state, until} from './lib/site.mjs';

let visit, page, print, job;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.choice.ranking.length === 4, 120000);
});
const sum = (bytes) => createHash('sha256').update(bytes).digest('hex');

async function kept(id) {
  const download = page.waitForEvent('download', {timeout: 60000});
  await click(page, id);
  return readFileSync(await (await download).path());
}

test('after a delivery the job knows the sums of master and print file', async () => {
  await press(page, '4');
  await click(page, 'monochrome');
  await until(page, (s) => s.recipe.now.monochrome.on && ready(s));
  await press(page, '6');
  print = await kept('make');
  await until(page, (s) => s.sheet.deliveries === 1 && s.sheet.digest !== '' && ready(s));
  job = JSON.parse(await kept('keep-job'));
  assert.equal(job.master.sha256, sum(readFileSync(path.join(ROOT, 'demo-images/saltings.png'))));
  assert.equal(job.deliveries[0].sha256, sum(print));
  assert.equal(job.deliveries[0].bytes, print.length);
  assert.equal(job.paper.sha256, sum(readFileSync(path.join(ROOT, 'demo-images/papers/tarnsea-baryta.icc'))));
  assert.equal(job.recipe.monochrome.on, true);
  assert.ok(JSON.stringify(job).length < 20000);  // no pixels
});

test('the job sheet says it all on one page without scripts', async () => {
  const html = (await kept('keep-job-sheet')).toString();
  for (const part of [job.master.sha256, job.deliveries[0].sha256, job.deliveries[0].name, 'Tarnsea Baryta']) {
    assert.ok(html.includes(part), part);
  }
  assert.doesNotMatch(html, /<script/i);
  const sheet = await visit.context.newPage();
  await sheet.setContent(html);
  await sheet.screenshot({path: path.join(ROOT, 'build/screenshots', 'job-sheet.png'), fullPage: true});
  await sheet.close();
});

test('dropped on a fresh page the job sets everything as it was', async () => {
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => ready(s) && s.papers.length === 4);
  await press(page, 'b');
  const mine = {...job, edition: {number: 3, of: 12}};
  await drop(page, {name: 'mine-job.json', bytes: Buffer.from(JSON.stringify(mine))});
  const now = await until(page, (s) => s.recipe.now.monochrome.on && ready(s));
  assert.deepEqual(now.recipe.now, job.recipe);
  assert.deepEqual([now.sheet.number, now.sheet.of, now.sheet.deliveries], [3, 12, 1]);
  await until(page, (s) => s.sheet.digest === job.master.sha256);
});

test('another master than the job had is told of', async () => {
  const other = {...job, master: {...job.master, sha256: sum('another')}};
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => ready(s) && s.papers.length === 4);
  await drop(page, {name: 'other-job.json', bytes: Buffer.from(JSON.stringify(other))});
  const {last_notice: said} = await until(page, (s) => /content is another/.test(s.last_notice ?? ''));
  assert.match(said, /saltings\.png/);
});

test('a damaged job is refused in words, and nothing changes', async () => {
  const before = await state(page);
  await drop(page, {name: 'bad-job.json', bytes: Buffer.from(JSON.stringify({...job, proofleaf_job: 9}))});
  const now = await until(page, (s) => s.last_notice !== before.last_notice && ready(s));
  console.log(now.last_notice);
  assert.deepEqual(now.recipe.now, before.recipe.now);
});

test('the page had no complaints of its own', () => assert.deepEqual(visit.complaints, []));
