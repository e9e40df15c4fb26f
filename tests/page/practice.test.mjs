// Practice as a trainee meets it: a question answered wrong and right, with a script and without, and sheets.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, launch, open } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const question = '/practice?calculator=holes/drill-point&seed=7';
const asked = async (page) => {
  const { questions } = await (await page.request.get(`/v1${question}`)).json();
  return questions[0];
};
// What is right, from the address for programs: the page must agree with it.
const marked = async (page, answer) => {
  const data = { calculator: 'holes/drill-point', seed: 7, answer };
  return (await page.request.post('/v1/practice/check', { data })).json();
};

for (const size of [PHONE, DESK]) {
  for (const javaScriptEnabled of [true, false]) {
    const press = (locator) => (size.hasTouch ? locator.tap() : locator.click());
    test(`${size.name}, ${javaScriptEnabled ? 'with' : 'without'} script: answered wrong, then right`, async () => {
      const page = await open(browser, size, question, { javaScriptEnabled });
      const { text } = await asked(page);
      assert.equal(await page.locator('.question').innerText(), text);
      const right = (await marked(page, '1 in')).expected;
      const wrong = right.text.replace(/ mm$/, ' in');
      await page.fill('#answer', wrong);
      await press(page.getByRole('button', { name: 'Mark it' }));
      await page.locator('.verdict').waitFor();
      const { slip } = await marked(page, wrong);
      assert.equal(slip.code, 'wrong_unit');
      const main = page.locator('main');
      assert.ok((await main.innerText()).includes(slip.says), slip.says);
      assert.match(await main.innerText(), /Working|worked/i);

      await page.goto(question);
      await page.fill('#answer', right.text);
      await press(page.getByRole('button', { name: 'Mark it' }));
      const verdict = await page.locator('.verdict').innerText();
      assert.match(verdict, /right/i);
      assert.ok(new URL(page.url()).searchParams.get('answer') === right.text, 'the address is the state');
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }
}

test('a number without its unit is asked about, not marked', async () => {
  const page = await open(browser, PHONE, question);
  await page.fill('#answer', '9');
  await page.getByRole('button', { name: 'Mark it' }).tap();
  await page.locator('.wrong').waitFor();
  assert.match(await page.locator('.wrong').first().innerText(), /unit/);
  assert.equal(await page.locator('.verdict').count(), 0);
  await page.context().close();
});

test('an answer is made a question of', async () => {
  const page = await open(browser, PHONE, '/holes/drill-point?diameter=1/2%20in&point_angle=118%20deg&full_depth=3/4%20in');
  await page.getByRole('link', { name: 'Make a question of this answer' }).tap();
  await page.locator('.question').waitFor();
  assert.match(await page.locator('.question').innerText(), /diameter 1\/2 in/);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test('a sheet and its answers are the same for the same seed, and print', async () => {
  const page = await open(browser, DESK, '/practice/sheet?task=make_the_hole&seed=41&count=10');
  const first = await page.locator('.sheet').innerText();
  assert.equal(await page.locator('.sheet > li').count(), 10);
  await page.reload();
  assert.equal(await page.locator('.sheet').innerText(), first);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.screen:visible').count(), 0);
  assert.ok((await page.pdf({ format: 'A4' })).length > 1000);
  await page.goto('/practice/answers?task=make_the_hole&seed=41&count=10');
  assert.equal(await page.locator('.answers > li').count(), 10);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
