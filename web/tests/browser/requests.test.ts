// Nothing leaves the page. Three watchers: what the browser says its pages ask
// for, what the server is asked for, and a proxy that stands for everywhere else.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { built, newPage, openChromium, singleFile, type Chromium } from '../support/browser.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, workALittle } from '../support/steps.js';

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

const outsideAddress = 'http://elsewhere.invalid/counted';

test('a served page asks only its own server, and after opening nobody', async (t) => {
  const { page, requests, faults } = await newPage(t, chromium.browser,
    { serviceWorkers: 'block' });
  await page.goto(server.address);
  await hasPages(page);
  await page.waitForLoadState('networkidle');
  assert.ok(requests.some((request) => request.endsWith('sheaf-module.bin')));
  for (const request of requests) assert.ok(request.startsWith(server.address), request);
  const opening = requests.length;
  server.forget();
  await workALittle(page);
  assert.deepEqual(requests.slice(opening), []);
  assert.deepEqual(server.asked, []);
  assert.deepEqual(faults, []);
  assert.deepEqual(chromium.outside.asked, []);
});

test('the one file asks for nothing at all', async (t) => {
  const { page, requests, faults } = await newPage(t, chromium.browser);
  await page.goto(singleFile);
  await hasPages(page);
  await workALittle(page);
  assert.deepEqual(requests, [singleFile]);
  assert.deepEqual(faults, []);
  assert.deepEqual(chromium.outside.asked, []);
});

for (const [name, where] of [['served', 'served'], ['the one file', 'single']] as const) {
  test(`what a page would send is stopped by its own rules: ${name}`, async (t) => {
    const { page, faults } = await newPage(t, chromium.browser,
      { serviceWorkers: 'block' });
    await page.goto(where === 'single' ? singleFile : server.address);
    await hasPages(page);
    const outcomes = await page.evaluate(async (address) => {
      const tried: Record<string, string> = {};
      tried['fetch'] = await fetch(address).then(() => 'sent', () => 'stopped');
      tried['picture'] = await new Promise((settle) => {
        const picture = new Image();
        picture.onload = () => { settle('sent'); };
        picture.onerror = () => { settle('stopped'); };
        picture.src = address;
      });
      tried['beacon'] = navigator.sendBeacon(address, 'x') ? 'queued' : 'stopped';
      // A worker from a blob obeys the page's rules; that is why ours is one.
      const code = `fetch(${JSON.stringify(address)})
        .then(() => postMessage('sent'), () => postMessage('stopped'))`;
      tried['worker'] = await new Promise((settle) => {
        const worker = new Worker(URL.createObjectURL(new Blob([code])));
        worker.onmessage = (event: MessageEvent<string>) => { settle(event.data); };
      });
      tried['script'] = await new Promise((settle) => {
        const script = document.createElement('script');
        script.onload = () => { settle('sent'); };
        script.onerror = () => { settle('stopped'); };
        script.src = address;
        document.head.append(script);
      });
      const frame = document.createElement('iframe');
      frame.src = address;
      document.body.append(frame);
      const form = document.createElement('form');
      form.action = address;
      document.body.append(form);
      form.submit();
      await new Promise((settle) => { setTimeout(settle, 300); });
      return tried;
    }, outsideAddress);
    for (const [kind, outcome] of Object.entries(outcomes)) {
      assert.notEqual(outcome, 'sent', kind);
    }
    assert.deepEqual(chromium.outside.asked, [], 'something reached the proxy');
    // And such an attempt does not pass unseen: these are the faults that the
    // tests above ask to be none.
    assert.ok(faults.length >= 5, faults.join('\n'));
  });
}

test('the watchers see a request where nothing forbids it', async (t) => {
  const { page, requests } = await newPage(t, chromium.browser);
  // A page without rules.
  await page.goto(`${server.address}licences.txt`);
  const before = requests.length;
  server.forget();
  await page.evaluate(async (address) => {
    await fetch('/app.js');
    await fetch(address, { mode: 'no-cors' }).catch(() => undefined);
  }, outsideAddress);
  assert.deepEqual(requests.slice(before), [`${server.address}app.js`, outsideAddress]);
  assert.ok(server.asked.includes('/app.js'));
  assert.deepEqual(chromium.outside.asked, [outsideAddress]);
  chromium.outside.asked.length = 0;
});
