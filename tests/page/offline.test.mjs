// After the first visit what was read stays readable, and nothing is made up.
import assert from 'node:assert/strict';
import http from 'node:http';
import { after, before, test } from 'node:test';
import { DESK, PHONE, answered, base, launch, open } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

// The service by way of a door that can be shut: a browser told to be offline still lets its workers out.
const door = async () => {
  let isOpen = true;
  const server = http.createServer((request, response) => {
    if (!isOpen) return request.socket.destroy();
    const { hostname, port } = new URL(base);
    const { method, url: path, headers } = request;
    const onwards = http.request({ hostname, port, method, path, headers }, (answer) => {
      response.writeHead(answer.statusCode, answer.headers);
      answer.pipe(response);
    });
    onwards.on('error', () => response.destroy());
    request.pipe(onwards);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const close = () => {
    server.close();
    server.closeAllConnections();
  };
  return { baseURL: `http://127.0.0.1:${server.address().port}`, shut: (is) => (isOpen = !is), close };
};

// Until the page is kept, for ten seconds. The address is asked in the page: outside it is known a little later.
const isKept = async (page) => {
  for (let turn = 0; turn < 100; turn += 1) {
    const found = await page.evaluate(async () => Boolean(await caches.match(location.href.split('#')[0], { ignoreVary: true })));
    if (found) return;
    await page.waitForTimeout(100);
  }
  throw new Error(`${page.url()} is not kept`);
};

for (const size of [PHONE, DESK]) {
  test(`${size.name}: the last answer and the list are read without a connection`, async () => {
    const { baseURL, shut, close } = await door();
    try {
      const page = await open(browser, size, '/holes/drill-point?diameter=1/2%20in', { baseURL });
      await page.waitForFunction(() => navigator.serviceWorker.controller);
      await isKept(page);
      // One answer as one types, which no navigation brought.
      await page.fill('#field-diameter', '12.7 mm');
      await page.locator('#answer .lead b').getByText('3.815 mm').waitFor();
      await isKept(page);
      shut(true);

      await page.reload();
      await page.locator('#state').getByText(/worked out on/).waitFor();
      await answered(page);
      assert.match(await page.locator('#answer').innerText(), /3\.815 mm/);

      await page.fill('#field-diameter', '13 mm');
      await page.locator('#state').getByText('The answer is of the values before').waitFor();
      assert.match(await page.locator('#answer').innerText(), /3\.815 mm/);

      await page.goto('/');
      if (size === PHONE) await page.locator('summary', { hasText: 'Make the hole' }).tap();
      assert.ok(await page.getByRole('link', { name: 'Tap drill', exact: true }).isVisible());
      await page.goto('/holes/tap-drill');
      assert.match(await page.locator('main').innerText(), /nothing can be worked out now/);
      assert.ok(await page.locator('#kept-pages a').first().isVisible());

      shut(false);
      await page.goto('/holes/tap-drill?thread=M8');
      await answered(page);
      await page.context().close();
    } finally {
      close();
    }
  });
}
