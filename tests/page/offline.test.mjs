// After the first visit what was read stays readable, and nothing is made up.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, answered, launch, open } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const isKept = (page, path) => page.waitForFunction(
  async (path) => (await caches.match(new URL(path, location.href).href, { ignoreVary: true })) !== undefined, path, { polling: 200 });

for (const size of [PHONE, DESK]) {
  test(`${size.name}: the last answer and the list are read without a connection`, async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=1/2%20in');
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller);
    await isKept(page, page.url());
    // One answer as one types, which no navigation brought.
    await page.fill('#field-diameter', '12.7 mm');
    await page.locator('#answer').getByText('3.815 mm').first().waitFor();
    await isKept(page, page.url());
    await page.context().setOffline(true);

    await page.reload();
    await page.locator('#state').getByText(/worked out on/).waitFor();
    await answered(page);
    assert.match(await page.locator('#answer').innerText(), /3\.815 mm/);

    await page.fill('#field-diameter', '13 mm');
    await page.locator('#state').getByText('The answer is of the values before').waitFor();
    assert.match(await page.locator('#answer').innerText(), /3\.815 mm/);

    await page.goto('/');
    assert.ok(await page.getByRole('link', { name: 'Tap drill', exact: true }).isVisible());
    await page.goto('/holes/tap-drill');
    assert.match(await page.locator('main').innerText(), /nothing can be worked out now/);
    assert.ok(await page.locator('#kept-pages a').first().isVisible());

    await page.context().setOffline(false);
    await page.goto('/holes/tap-drill?thread=M8');
    await answered(page);
    await page.context().close();
  });
}
