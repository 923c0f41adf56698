// The guide in the page: every chapter is there, with its pictures and its links,
// served and in one file.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { checkAccess, checkWidth } from '../support/axe.js';
import { built, newPage, openChromium, singleFile, sizes, type Chromium } from '../support/browser.js';
import { lookAt } from '../support/look.js';
import { servePages, type PageServer } from '../support/server.js';
import { show } from '../support/steps.js';

let chromium: Chromium;
let server: PageServer;
before(async () => {
  chromium = await openChromium();
  server = await servePages(built);
});
after(async () => {
  await chromium.close();
  await server.stop();
});

for (const [kind, viewport] of [['served', sizes.laptop], ['in one file', sizes.phone]] as const) {
  test(`every chapter, with its pictures: ${kind}`, async (t) => {
    const { page, requests, faults } = await newPage(t, chromium.browser, { viewport });
    await page.goto(kind === 'served' ? server.address : singleFile);
    await show(page, 'Guide');
    const links = page.locator('main a[href^="#guide/"]');
    await links.first().waitFor();
    const chapters = new Set<string>();
    for (const link of await links.all()) {
      chapters.add((await link.getAttribute('href') ?? '').replace(/^(#guide\/[^#]*).*/, '$1'));
    }
    assert.ok(chapters.size >= 5, 'the guide has chapters');
    let pictures = 0;
    const aims = new Set<string>();
    for (const chapter of chapters) {
      await page.evaluate((hash) => { location.hash = hash; }, chapter);
      await page.waitForTimeout(400);
      await page.locator('main h1').filter({ visible: true }).first().waitFor();
      await checkAccess(page, chapter);
      await checkWidth(page, chapter);
      const found = await page.evaluate(async () => {
        const shown = [...document.querySelectorAll<HTMLImageElement>('main img')]
          .filter((one) => one.checkVisibility());
        for (const one of shown) one.loading = 'eager';
        for (let tries = 0; tries < 100 && shown.some((one) => !one.complete); ++tries) {
          await new Promise((settle) => { setTimeout(settle, 50); });
        }
        return {
          pictures: shown.length,
          broken: shown.filter((one) => one.naturalWidth === 0 || one.alt === '').map((one) => one.src),
          links: [...document.querySelectorAll<HTMLAnchorElement>('main a[href]')]
            .filter((one) => one.checkVisibility()).map((one) => one.getAttribute('href') ?? ''),
        };
      });
      assert.deepEqual(found.broken, [], chapter);
      pictures += found.pictures;
      for (const link of found.links) aims.add(link);
      await lookAt(page, `${kind === 'served' ? 'laptop' : 'phone'}-guide-${chapter.replace(/.*\/|\.html/g, '')}`);
    }
    assert.ok(pictures > 20, `${pictures} pictures are too few`);
    // No link leads out of the page, and each leads somewhere.
    for (const aim of aims) {
      assert.match(aim, /^#(guide|lesson|folder|marking)/, aim);
      await page.evaluate((hash) => { location.hash = hash; }, aim);
      await page.waitForTimeout(30);
      assert.equal(await page.getByText('The guide has no such page.').count(), 0, aim);
    }
    t.diagnostic(`${chapters.size} chapters, ${pictures} pictures, ${aims.size} links`);
    // Pictures come from the page itself.
    assert.deepEqual(requests.filter((one) => one.includes('pictures/')), []);
    if (kind === 'in one file') assert.deepEqual(requests, [singleFile]);
    assert.deepEqual(faults, []);
  });
}
