// Every calculator's page against the rules of WCAG 2.2 AA that a program can check, sizes to touch, and widths.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { brotliDecompressSync } from 'node:zlib';
import { DESK, LANES, PHONE, base, calculators, launch, onEach, open, pageOf, setInOurFont, violations } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const unfold = (page) => page.evaluate(() => document.querySelectorAll('details').forEach((folded) => (folded.open = true)));

// What is to be touched and is smaller than 48 px either way. Links in the guide's running text are as small as their words.
const small = (page) => page.evaluate(() => {
  const touched = document.querySelectorAll('a, button, input, select, textarea, summary');
  return [...touched]
    .map((element) => (element.type === 'radio' ? element.closest('label') : element))
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ element, box }) => box.width > 0 && !element.matches('.skip, .guide a') && (box.height < 47.5 || box.width < 47.5))
    .map(({ element, box }) => `${element.outerHTML.slice(0, 100)} is ${Math.round(box.width)} by ${Math.round(box.height)}`);
});

const widths = async (page, path) => {
  await setInOurFont(page);
  for (const [width, scale] of [[320, 1], [390, 2], [1280, 2], [1280, 1]]) {
    await page.setViewportSize({ width, height: 800 });
    await page.evaluate((scale) => (document.documentElement.style.fontSize = `${scale * 100}%`), scale);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width, `${path} is ${wide} px wide on ${width} px at ${scale * 100} %`);
  }
};

// By night only the colors are others.
const byNight = async (page) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  assert.deepEqual(await violations(page, { runOnly: ['color-contrast'] }), [], `${page.url()} by night`);
};

test('every calculator: nothing found by axe, large enough to touch, no sideways scrolling', LANES, async (t) => {
  const all = await calculators();
  assert.ok(all.length > 40);
  const tasks = new Set();
  await onEach(t, browser, PHONE, all, async (page, calculator) => {
    const path = pageOf(calculator);
    await page.setViewportSize(PHONE.viewport);
    await page.goto(path);
    assert.equal(await page.locator('#answer .answer-part').count(), 1, path);
    await unfold(page);
    assert.deepEqual(await violations(page), [], path);
    assert.deepEqual(await small(page), [], path);
    // The colours of the night are the same on all pages; one for each task will do.
    if (!tasks.has(calculator.task)) {
      tasks.add(calculator.task);
      await byNight(page);
      await page.emulateMedia({ colorScheme: 'light' });
    }
    await widths(page, path);
  });
});

const others = ['/', '/?find=three+wires', '/?find=M8', '/?find=1/2+hss+4140', '/?find=6', '/?find=25.4+mm+in+inch', '/?find=sine+bar',
  '/?find=xyzzy', '/offline', '/holes/nothing', '/holes/drill-point', '/holes/drill-point?diameter=0.5&point_angle=x',
  '/holes/drill-point?diameter=1/4..1+step+1/8+in', '/datum/visit-order', '/practice',
  '/practice?calculator=holes/drill-point&seed=7', '/practice?calculator=holes/drill-point&seed=7&answer=9+in',
  '/practice/sheet?calculator=holes/drill-point&seed=7&count=3', '/practice/answers?calculator=holes/drill-point&seed=7&count=3'];

test('the other pages: the same by day and by night', LANES, (t) => Promise.all(others.map((path) => t.test(path, async () => {
  for (const size of [PHONE, DESK]) {
    const page = await open(browser, size, path);
    await unfold(page);
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await small(page), []);
    await byNight(page);
    if (size === DESK) await widths(page, path);
    await page.context().close();
  }
}))));

test('the guide: nothing found by axe by day and by night, no sideways scrolling', async () => {
  const page = await open(browser, PHONE, '/guide');
  assert.deepEqual(await small(page), []);
  const pages = await page.evaluate(() => [...document.querySelectorAll('.titles a')].map((link) => link.getAttribute('href')));
  assert.ok(pages.length > 10);
  for (const path of ['/guide', ...pages]) {
    await page.setViewportSize(PHONE.viewport);
    await page.goto(path);
    assert.deepEqual(await violations(page), [], path);
    await byNight(page);
    await page.emulateMedia({ colorScheme: 'light' });
    assert.deepEqual(await small(page), [], path);
    const top = await page.evaluate(() => [...document.querySelectorAll('header a')].map((link) => Math.round(link.getBoundingClientRect().top)));
    assert.equal(new Set(top).size, 1, `${path}: the header is one line`);
    await widths(page, path);
    await page.evaluate(() => (document.documentElement.style.fontSize = ''));
  }
  await page.context().close();
});

test('the first page with all that it loads is below 60 kB as sent', async () => {
  const page = await open(browser, PHONE);
  const addresses = await page.evaluate(() => [location.href, ...performance.getEntriesByType('resource').map((entry) => entry.name)]);
  let sent = 0;
  for (const address of [...new Set([...addresses, `${base}/service-worker.js`])].filter((address) => !address.endsWith('/offline'))) {
    const response = await page.context().request.get(address, { headers: { 'accept-encoding': 'br' } });
    const length = Number(response.headers()['content-length'] ?? NaN);
    const body = await response.body();
    sent += Number.isNaN(length) ? (await size(address)) : length;
    assert.ok(body.length > 0);
  }
  assert.ok(sent > 5_000 && sent < 60_000, `${sent} bytes`);
  await page.context().close();
});

// The bytes of a response as they come over the wire.
const size = async (address) => {
  const { get } = await import('node:http');
  return new Promise((resolve, reject) => {
    get(address, { headers: { 'accept-encoding': 'br' } }, (response) => {
      const parts = [];
      response.on('data', (part) => parts.push(part));
      response.on('end', () => {
        const bytes = Buffer.concat(parts);
        if (response.headers['content-encoding'] === 'br') brotliDecompressSync(bytes);
        resolve(bytes.length);
      });
    }).on('error', reject);
  });
};
