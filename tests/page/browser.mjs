// A browser, two sizes of it, and what the tests ask of a page.
import assert from 'node:assert/strict';
import { chromium } from 'playwright-core';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';

export const base = process.env.BASE;
if (!base) throw new Error('BASE is the address of the running service; tests/page/run sets it');

export const PHONE = {
  name: 'phone',
  viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true,
};
export const DESK = { name: 'desk', viewport: { width: 1280, height: 900 } };
// What all that is measured is set in; tests/page/run gives the browser no other.
export const FONT = 'Roboto Slab';

const quiet = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync'];

export const launch = () =>
  chromium.launch({ executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: quiet });

// Opens a page and notes whatever goes wrong in it.
export const open = async (browser, { name, ...size }, path = '/', more = {}) => {
  const context = await browser.newContext({ baseURL: base, ...size, ...more });
  const page = await context.newPage();
  page.faults = [];
  page.on('pageerror', (error) => page.faults.push(error.message));
  page.on('console', (message) => {
    // A refused form is answered 422, which the browser reports as a failed load.
    const refused = /Failed to load resource/.test(message.text());
    if (message.type() === 'error' && !refused) page.faults.push(message.text());
  });
  page.on('request', (request) => {
    if (new URL(request.url()).origin !== base) page.faults.push(`asked elsewhere: ${request.url()}`);
  });
  await page.goto(path);
  return page;
};

// Fails where a text of the page is not set in FONT: what is measured of it would be another machine's.
export const setInOurFont = async (page, selectors = ['h1', 'main p', 'header a']) => {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('DOM.enable');
  await devtools.send('CSS.enable');
  const { root } = await devtools.send('DOM.getDocument');
  let seen = 0;
  for (const selector of selectors) {
    const { nodeId } = await devtools.send('DOM.querySelector', { nodeId: root.nodeId, selector });
    if (!nodeId) continue;
    const { fonts } = await devtools.send('CSS.getPlatformFontsForNode', { nodeId });
    for (const { familyName } of fonts) {
      if (!familyName.startsWith(FONT)) throw new Error(`${selector} is set in ${familyName}, not in ${FONT}`);
      seen += 1;
    }
  }
  if (!seen) throw new Error('no text was found to look at its font');
  await devtools.detach();
};

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// What axe-core finds, in words.
export const violations = async (page, options = {}) => {
  await page.evaluate(axeSource);
  const found = await page.evaluate((options) => window.axe.run(document, options), options);
  if (found.passes.length === 0) throw new Error('axe looked at nothing');
  return found.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 140)} ${node.failureSummary}`));
};

export const calculators = async () => (await (await fetch(`${base}/v1/calculators`)).json()).calculators;

export const pageOf = (calculator, example = calculator.examples[0]) =>
  `${calculator.page}?${new URL(example.address, base).searchParams}`;

// How many pages a long list is gone through on at once; a test that does so has to allow for as many of its parts.
export const LANES = { concurrency: Math.min(4, availableParallelism()) };

// Does the same with each calculator, as a test of its own. Nothing may have gone wrong in a page.
export const onEach = async (t, browser, size, all, act) => {
  const waiting = [...all];
  await Promise.all(Array.from({ length: LANES.concurrency }, async () => {
    const page = await open(browser, size);
    for (let one = waiting.shift(); one; one = waiting.shift()) await t.test(one.id, () => act(page, one));
    assert.deepEqual(page.faults, []);
    await page.context().close();
  }));
};

export const answered = (page) => page.locator('#answer .answer-part').waitFor();

// What a finger or a mouse presses at a size.
export const pressing = (size) => (locator) => (size.hasTouch ? locator.tap() : locator.click());

// Names a test by its size; what it does gives its page, in which nothing may have gone wrong.
export const sized = (size, test, browser) => (name, act) => test(`${size.name}: ${name}`, async () => {
  try {
    const page = await act();
    assert.deepEqual(page.faults, []);
  } finally {
    for (const context of browser().contexts()) await context.close();
  }
});
