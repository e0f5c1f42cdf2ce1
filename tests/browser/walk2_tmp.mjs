import {serve, launch, open, state, until} from './lib/site.mjs';
import {press, ready} from './lib/panel.mjs';
const {address, stop} = await serve();
const browser = await launch();
const views = {desk: {viewport:{width:1440,height:900}}};
for (const [name, o] of Object.entries(views)) {
  const v = await open(browser, address, o); const {page} = v;
  await until(page, (s)=>ready(s));
  await until(page, (s)=>s.choice.ranking.length>=4, 120000);
  await press(page,'4'); await page.waitForTimeout(800);
  await page.screenshot({path:`/tmp/shots/${name}-fit0.png`});
  const s0 = await state(page); console.log(Object.keys(s0.rects).join(' '));
  const r = s0.rects['fit']; const t0=Date.now();
  await page.mouse.click(r[0]+r[2]/2, r[1]+r[3]/2);
  await until(page, (s)=>s.recipe.fit.length>0, 60000); console.log('fit ms', Date.now()-t0);
  await until(page, (s)=>s.recipe.effect && ready(s), 60000);
  await page.waitForTimeout(500);
  await page.screenshot({path:`/tmp/shots/${name}-fit1.png`});
  console.log(JSON.stringify((await state(page)).recipe, null, 0));
  await press(page,'5'); await page.waitForTimeout(500);
  const r2 = (await state(page)).rects['sized']; await page.mouse.click(r2[0]+20, r2[1]+10);
  await page.waitForTimeout(800);
  await page.screenshot({path:`/tmp/shots/${name}-size1.png`});
  console.log(JSON.stringify((await state(page)).recipe.plan), (await state(page)).proof, (await state(page)).proof_ms);
  console.log(name, JSON.stringify(v.complaints));
  await v.context.close();
}
await browser.close(); stop();
