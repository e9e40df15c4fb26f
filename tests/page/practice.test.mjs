// Practice as a trainee meets it: a question answered wrong and right, with a script and without, the course, and sheets.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, launch, open, violations, pressing } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const question = '/practice?calculator=holes/drill-size&level=2&seed=7';
const asked = async (page) => {
  const { questions } = await (await page.request.get(`/v1${question}`)).json();
  return questions[0];
};
// What is right, from the address for programs: the page must agree with it.
const marked = async (page, answer) => {
  const data = { calculator: 'holes/drill-size', level: 2, seed: 7, answer };
  return (await page.request.post('/v1/practice/check', { data })).json();
};

for (const size of [PHONE, DESK]) {
  for (const javaScriptEnabled of [true, false]) {
    const press = pressing(size);
    test(`${size.name}, ${javaScriptEnabled ? 'with' : 'without'} script: answered wrong, then right`, async () => {
      const page = await open(browser, size, question, { javaScriptEnabled });
      const { text, right_within: within } = await asked(page);
      assert.equal(await page.locator('.question').innerText(), text);
      assert.ok((await page.locator('#answer-about').innerText()).includes(`Right ${within}.`), within);
      const right = (await marked(page, '1 in')).expected;
      const wrong = right.text.replace(/ in$/, ' mm');
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
      const { accepted } = await marked(page, right.text);
      assert.ok((await main.innerText()).includes(`Right is ${accepted}.`), accepted);
      assert.ok(new URL(page.url()).searchParams.get('answer') === right.text, 'the address is the state');
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }
}

test('a number without its unit is asked about, not marked', async () => {
  const page = await open(browser, PHONE, question);
  await page.fill('#answer', '9.5');
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
  assert.match(await page.locator('.question').innerText(), /^For a.* of 1\/2 in,.* of 118° and .* of 3\/4 in: what is/);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test('the course leads to a question and to a sheet of each topic', async () => {
  const page = await open(browser, PHONE, '/practice');
  const { topics } = await (await page.request.get('/v1/practice/course')).json();
  assert.equal(await page.locator('.course > li').count(), topics.length);
  assert.deepEqual(await page.locator('.course h3').allInnerTexts(), topics.map(({ title }) => title));
  assert.deepEqual(await violations(page), []);
  await page.locator('.course > li').nth(1).getByRole('link', { name: 'level 1' }).first().tap();
  await page.locator('.question').waitFor();
  const { searchParams } = new URL(page.url());
  const ids = topics[1].calculators.map(({ calculator }) => calculator);
  assert.ok(ids.includes(searchParams.get('calculator')), page.url());
  await page.goto('/practice');
  await page.locator('.course > li').nth(0).getByRole('link', { name: 'level 1' }).nth(1).tap();
  await page.locator('.sheet').waitFor();
  assert.match(await page.locator('h1').innerText(), /Measure and convert, level 1/);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

// Where a page of paper ends for what is laid out in print, in CSS pixels of a column as wide as the paper's.
const papers = { A4: { width: 210 - 36, height: 297 - 32 }, Letter: { width: 216 - 36, height: 279 - 32 } };

test('a sheet and its answers are the same for the same seed, and print', async () => {
  const page = await open(browser, DESK, '/practice/sheet?topic=drill&seed=41&count=12');
  const first = await page.locator('.sheet').innerText();
  assert.equal(await page.locator('.sheet > li').count(), 12);
  await page.reload();
  assert.equal(await page.locator('.sheet').innerText(), first);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.screen:visible').count(), 0);
  for (const line of ['Name', 'Date', 'Score']) assert.ok(await page.getByText(line, { exact: true }).isVisible(), line);
  for (const [format, paper] of Object.entries(papers)) {
    const pixels = (millimeters) => Math.floor((millimeters / 25.4) * 96);
    await page.setViewportSize({ width: pixels(paper.width), height: pixels(paper.height) });
    const laid = await page.locator('.sheet > li').evaluateAll((items) => items.map((item) => {
      // The widest number has room beside the questions, inside of the page.
      const numbers = document.createElement('span');
      numbers.textContent = '100. ';
      item.append(numbers);
      const needed = numbers.getBoundingClientRect().width;
      numbers.remove();
      const { left, height } = item.getBoundingClientRect();
      return { room: left - needed, height, breaks: getComputedStyle(item).breakInside };
    }));
    for (const { room, height, breaks } of laid) {
      assert.ok(room >= -1, `${format}: a number of three digits is cut off by ${-room} px`);
      assert.equal(breaks, 'avoid');
      assert.ok(height < pixels(paper.height) / 2, `${format}: a question is ${height} px high`);
    }
    const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString('latin1');
    const pages = pdf.match(/\/Type\s*\/Page\b/g).length;
    assert.ok(pages >= 2 && pages <= 5, `${format}: ${pages} pages`);
  }
  await page.goto('/practice/answers?topic=drill&seed=41&count=12');
  assert.equal(await page.locator('.answers > li').count(), 12);
  assert.equal(await page.locator('.answers > li details[open] li').first().isVisible(), true);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
