// A form filled, answered and refused, at a phone's size and at a desk's.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, answered, base, launch, open, setInOurFont, pressing, sized } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const words = (page, selector) => page.locator(selector).innerText();
const settled = (page, text) => page.locator('#answer').getByText(text).first().waitFor();

for (const size of [PHONE, DESK]) {
  const press = pressing(size);
  const at = sized(size, test, () => browser);

  at('it answers as one types, and the address is the state', async () => {
    const page = await open(browser, size, '/holes/drill-point');
    await page.fill('#field-diameter', '1/2 in');
    await page.fill('#field-full_depth', '3/4');
    await page.selectOption('[name="full_depth.unit"]', 'in');
    await answered(page);
    await settled(page, '0.9002 in');
    assert.equal(page.url(), `${base}/holes/drill-point?diameter=1%2F2%20in&full_depth=3%2F4%20in`);
    const again = await open(browser, size, page.url());
    assert.equal(await again.inputValue('#field-full_depth'), '3/4');
    assert.equal(await again.inputValue('[name="full_depth.unit"]'), 'in');
    assert.match(await words(again, '#answer'), /0\.9002 in/);
    assert.equal(await again.locator('#rest figure svg').count(), 1);
    return page;
  });

  at('a number without a unit is refused at its field with values to tap', async () => {
    const page = await open(browser, size, '/holes/drill-point');
    await page.fill('#field-diameter', '0.5');
    const field = page.locator('[data-field=diameter]').first();
    await field.getByText('has no unit').waitFor();
    assert.equal(await page.getAttribute('#field-diameter', 'aria-invalid'), 'true');
    assert.deepEqual(await field.locator('.wrongs a.tap').allInnerTexts(), ['0.5 in', '0.5 mm']);
    await press(field.locator('.wrongs a.tap').first());
    await settled(page, '0.1502 in');
    assert.equal(await page.locator('#field-diameter[aria-invalid=true]').count(), 0);
    return page;
  });

  at('a switched unit is another value, and a unit typed in the field wins', async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=0.5%20in');
    assert.equal(await page.inputValue('#field-diameter'), '0.5');
    await page.selectOption('[name="diameter.unit"]', 'mm');
    await settled(page, '0.150 mm');
    await page.fill('#field-diameter', '12.7 mm');
    await settled(page, '3.815 mm');
    await page.fill('#field-diameter', '1/2in');
    await settled(page, '0.1502 in');
    assert.equal(await page.inputValue('[name="diameter.unit"]'), 'in');
    await page.selectOption('[name="diameter.unit"]', 'mm');
    await settled(page, '0.150 mm');
    return page;
  });

  at('what is said in the shop is read', async () => {
    const page = await open(browser, size, '/holes/drill-point');
    for (const [diameter, angle, point] of [['#7', '118°', '0.0604 in'], ['27/64', '30°15\'', '0.7804 in']]) {
      await page.fill('#field-diameter', diameter);
      await page.fill('#field-point_angle', angle);
      await settled(page, point);
    }
    return page;
  });

  at('what was assumed is tapped and changed', async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=1/2%20in');
    await press(page.locator('.assumed a', { hasText: 'point angle' }));
    await page.waitForURL(/point_angle=118%20deg/);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'field-point_angle');
    await page.fill('#field-point_angle', '135');
    await page.waitForURL(/point_angle=135%20deg/);
    return page;
  });

  at('a machine shows what to set on its readout', async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=8.5%20mm&full_depth=20%20mm');
    await page.selectOption('#field-machine', 'mill');
    await page.getByRole('heading', { name: 'Set on the mill' }).waitFor();
    assert.match(await words(page, '#answer'), /-22\.555 mm/);
    return page;
  });

  at('a range is a chart for the wall', async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=1/2%20in');
    await press(page.locator('summary', { hasText: 'chart' }));
    await page.selectOption('[name="range.of"]', 'diameter');
    await page.fill('[name="range.from"]', '1/4');
    await page.fill('[name="range.to"]', '1');
    await page.fill('[name="range.step"]', '1/4');
    await press(page.getByRole('button', { name: 'Make the chart' }));
    await page.locator('.chart tbody tr').nth(3).waitFor();
    assert.equal(await page.locator('.chart tbody tr').count(), 4);
    assert.match(decodeURIComponent(page.url()), /diameter=1\/4\.\.1 step 1\/4 in/);
    return page;
  });

  at('it is found backwards from a wanted result', async () => {
    const page = await open(browser, size, '/holes/drill-point?point_angle=118%20deg');
    await press(page.locator('summary', { hasText: 'Backwards' }));
    await page.selectOption('[name=solve_for]', 'diameter');
    await page.selectOption('[name="wanted.of"]', 'point_length');
    await page.fill('[name=wanted]', '0.1502 in');
    await page.locator('#answer .lead b').getByText('0.4999 in').waitFor();
    return page;
  });

  at('a link, one value and the table are copied', async () => {
    const page = await open(browser, size, '/patterns/bolt-circle?diameter=4%20in&holes=6', { permissions: ['clipboard-read', 'clipboard-write'] });
    const clipboard = () => page.evaluate(() => navigator.clipboard.readText());
    await press(page.getByRole('button', { name: 'Copy the table' }).first());
    await page.locator('#state').getByText('copied').waitFor();
    assert.equal((await clipboard()).split('\n').length, 7);
    await press(page.locator('button.copy').first());
    await page.waitForFunction(async () => /^[\d.]+$/.test(await navigator.clipboard.readText()));
    const csv = await page.getByRole('link', { name: 'Table as CSV' }).getAttribute('href');
    assert.equal((await (await fetch(base + csv)).text()).trim().split('\n').length, 7);
    return page;
  });

  at('kept and recent calculators stand on the first page of this device alone', async () => {
    const page = await open(browser, size, '/holes/drill-point?diameter=1/2%20in');
    await press(page.getByRole('button', { name: 'Keep', exact: true }));
    await page.waitForFunction(() => localStorage.getItem('recent'));
    await page.goto('/');
    for (const title of ['Kept', 'Recent']) {
      const link = page.locator('#own section', { has: page.getByRole('heading', { name: title }) }).getByRole('link');
      assert.equal(await link.getAttribute('href'), '/holes/drill-point?diameter=1%2F2%20in');
    }
    const other = await open(browser, size);
    assert.ok(await other.locator('#own').isHidden());
    return page;
  });

  at('without script it is asked, refused, switched and shared all the same', async () => {
    const page = await open(browser, size, '/', { javaScriptEnabled: false });
    await page.fill('#words', 'drill tip');
    await press(page.locator('#find button'));
    await press(page.getByRole('link', { name: 'Drill point and depth' }));
    await page.fill('#field-diameter', '0.5');
    await press(page.locator('.submit button').first());
    await press(page.locator('.wrongs a.tap', { hasText: '0.5 in' }));
    await settled(page, '0.1502 in');
    await page.selectOption('[name="diameter.unit"]', 'mm');
    await press(page.locator('.submit button').first());
    await settled(page, '0.150 mm');
    await press(page.locator('.assumed a', { hasText: 'point angle' }));
    await page.waitForURL(/point_angle=118%20deg/);
    assert.equal(await page.inputValue('#field-point_angle'), '118');
    await press(page.locator('[data-share]'));
    await page.waitForURL(/\?diameter=0\.5%20mm&point_angle=118%20deg$/);
    return page;
  });
}

test('phone: the row of characters puts what the number pad lacks', async () => {
  const page = await open(browser, PHONE, '/holes/drill-point');
  await page.locator('#field-diameter').tap();
  await page.keyboard.type('27');
  await page.getByRole('button', { name: 'stroke' }).tap();
  await page.keyboard.type('64');
  assert.equal(await page.inputValue('#field-diameter'), '27/64');
  assert.equal(await page.locator('#field-diameter').getAttribute('inputmode'), 'decimal');
  await page.locator('#answer').getByText('0.1267 in').first().waitFor();
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test('on paper there is the answer, what is given and its grounds, and nothing to press', async () => {
  const page = await open(browser, DESK, '/holes/drill-point?diameter=1/2%20in&full_depth=3/4%20in');
  await page.emulateMedia({ media: 'print' });
  for (const selector of ['header', 'form', '.take', '.last']) assert.ok(await page.locator(selector).first().isHidden(), selector);
  for (const selector of ['.given', '#answer .lead', '.drawing svg', '.working', '.sources', '.care']) {
    assert.ok(await page.locator(selector).first().isVisible(), selector);
  }
  await setInOurFont(page, ['h1', '.given p', '.formula']);
  const pdf = await page.pdf({ format: 'A4' });
  const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g).length;
  assert.equal(sheets, 1, 'one sheet');
  await page.context().close();
});
