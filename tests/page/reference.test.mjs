// The reference of the service by topic: quick to open, every calculator's prefilled request answered, on a phone too.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { after, before, test } from 'node:test';
import { DESK, LANES, PHONE, base, launch, open, setInOurFont, violations } from './browser.mjs';

let browser, parts;
before(async () => {
  browser = await launch();
  ({ parts } = await (await fetch(`${base}/openapi`)).json());
});
after(() => browser.close());

const opened = async (page, id) => {
  await page.evaluate((id) => (document.getElementById(id).open = true), id);
  await page.locator(`[id="${id}"] .curl`).waitFor();
};

const heap = async (page) => {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('HeapProfiler.collectGarbage');
  return (await devtools.send('Runtime.getHeapUsage')).usedSize / 1e6;
};

test('a topic shows its operations within 3 s and opens one within 1 s, in little memory', async (t) => {
  for (const part of parts) {
    await t.test(part.name, async (t) => {
      const page = await open(browser, DESK, '/docs/');
      let begun = Date.now();
      await page.getByRole('link', { name: new RegExp(`^${part.name}$`, 'i') }).click();
      await page.locator('.operation').first().waitFor();
      const shown = Date.now() - begun;
      assert.equal(await page.locator('.operation').count(), part.operations);
      begun = Date.now();
      await page.locator('.operation > summary').first().click();
      await page.locator('.operation .curl').first().waitFor();
      const opening = Date.now() - begun;
      t.diagnostic(`shown in ${shown} ms, opened in ${opening} ms, ${(await heap(page)).toFixed(1)} MB of heap`);
      assert.ok(shown < 3000, `shown in ${shown} ms`);
      assert.ok(opening < 1000, `opened in ${opening} ms`);
      assert.ok((await heap(page)) < 150);
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }
});

test('what is filled in is answered, and the line for a shell says the same', LANES, async (t) => {
  await Promise.all(parts.map((part) => t.test(part.name, async () => {
    const page = await open(browser, DESK, `/docs/${part.name}`);
    await page.locator('.operation').first().waitFor();
    for (const id of await page.locator('.operation').evaluateAll((all) => all.map((one) => one.id))) {
      await opened(page, id);
      const operation = page.locator(`[id="${id}"]`);
      await operation.locator('.submit button').click();
      await operation.locator('.answered .status').waitFor();
      const status = await operation.locator('.status').textContent();
      assert.ok(status.startsWith('200'), `${id}: ${status} ${await operation.locator('.answered .body').textContent()}`);
      await page.evaluate((id) => document.getElementById(id).remove(), id);
    }
    assert.deepEqual(page.faults, []);
    await page.context().close();
  })));
  const page = await open(browser, DESK, '/docs/holes#drill_point');
  await page.locator('#drill_point .curl').waitFor();
  const line = await page.locator('#drill_point .curl').textContent();
  const answer = JSON.parse(execFileSync('sh', ['-c', line], { stdio: ['ignore', 'pipe', 'ignore'] }));
  assert.equal(answer.calculator, 'holes/drill-point');
  await page.locator('[id="drill_point.diameter"]').fill("1/2 in's");
  assert.match(await page.locator('#drill_point .curl').textContent(), /^curl '[^']*'(\\''[^']*')?$/);
});

// What reaches out of the screen, or is cut off at the edge of its own box.
const cutOff = (page) => page.evaluate(() => [...document.querySelectorAll('main *')].flatMap((element) => {
  const { left, right, width } = element.getBoundingClientRect();
  const says = `${element.outerHTML.slice(0, 100)}`;
  if (width && (right > window.innerWidth + 0.5 || left < -0.5)) return [`out of the screen: ${says}`];
  return element.clientWidth && element.scrollWidth > element.clientWidth + 1 ? [`cut off: ${says}`] : [];
}));

test('on a phone: the first operation is on the first screen within 3 s, and its filled-in request is answered', async (t) => {
  for (const part of parts) {
    await t.test(part.name, async (t) => {
      const page = await open(browser, PHONE, '/docs/');
      assert.deepEqual(await cutOff(page), []);
      const begun = Date.now();
      await page.getByRole('link', { name: new RegExp(`^${part.name}$`, 'i') }).tap();
      const first = page.locator('.operation').first();
      await first.waitFor();
      const shown = Date.now() - begun;
      t.diagnostic(`shown in ${shown} ms`);
      assert.ok(shown < 3000, `shown in ${shown} ms`);
      await setInOurFont(page);
      const { y, height } = await first.boundingBox();
      assert.ok(y + height < PHONE.viewport.height, `it ends at ${y + height}`);
      await first.locator('summary').first().tap();
      await first.locator('.submit button').tap();
      await first.locator('.answered .status').waitFor();
      assert.match(await first.locator('.answered .status').textContent(), /^200/);
      assert.deepEqual(await cutOff(page), []);
      // Nothing is drawn but our own text: no picture and no frame, which could be somebody's mark.
      assert.equal(await page.locator('img, svg, iframe, object, embed').count(), 0);
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }
});

test('on a phone: nothing found by axe, and no sideways scrolling, folded or not', LANES, async (t) => {
  await Promise.all(parts.map((part) => t.test(part.name, async () => {
    const page = await open(browser, PHONE, `/docs/${part.name}`);
    await page.locator('.operation').first().waitFor();
    const ids = await page.locator('.operation').evaluateAll((all) => all.map((one) => one.id));
    for (const id of ids.slice(0, 3)) {
      await opened(page, id);
      await page.locator(`[id="${id}"] .submit button`).click();
      await page.locator(`[id="${id}"] .answered .status`).waitFor();
    }
    await page.evaluate(() => {
      for (let deep = 0; deep < 3; deep += 1) document.querySelectorAll('details[open] details').forEach((one) => (one.open = true));
    });
    assert.deepEqual(await violations(page), []);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 390, `${wide} px wide`);
    await page.context().close();
  })));
});
