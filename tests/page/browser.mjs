// A browser, two sizes of it, and what the tests ask of a page.
import { chromium } from 'playwright-core';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

export const base = process.env.BASE;
if (!base) throw new Error('BASE is the address of the running service; tests/page/run sets it');

export const PHONE = {
  name: 'phone',
  viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true,
};
export const DESK = { name: 'desk', viewport: { width: 1280, height: 800 } };

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

export const answered = (page) => page.locator('#answer .answer-part').waitFor();
