import {serve, launch, open, state, until} from './lib/site.mjs';
import {press, ready} from './lib/panel.mjs';
const {address, stop} = await serve();
const browser = await launch();
const views = {desk: {viewport:{width:1440,height:900}}, tab: {viewport:{width:1024,height:768},hasTouch:true}, phone: {viewport:{width:390,height:844},hasTouch:true,isMobile:true,deviceScaleFactor:2}};
for (const [name, o] of Object.entries(views)) {
  const v = await open(browser, address, o); const {page} = v;
  await until(page, (s)=>ready(s));
  await until(page, (s)=>s.choice.ranking.length>=4, 120000);
  for (const key of ['1','2','3','4','5','6']) { await press(page, key); await page.waitForTimeout(900); await page.screenshot({path:`/tmp/shots/${name}-leaf${key}.png`}); }
  await press(page,'p'); await page.waitForTimeout(1200); await page.screenshot({path:`/tmp/shots/${name}-choice.png`});
  await press(page,'Escape'); await page.waitForTimeout(500);
  console.log(name, JSON.stringify(v.complaints));
  await v.context.close();
}
await browser.close(); stop();
