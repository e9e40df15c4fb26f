// The answer in sight, forms that are short, and words instead of names: every calculator on a phone and at a desk.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { LANES, PHONE, answered, calculators, launch, onEach, open, pageOf, pressing } from './browser.mjs';

const DESK = { name: 'desk', viewport: { width: 1280, height: 900 } };
// What a phone's keyboard leaves of the page.
const WITH_KEYBOARD = { width: 390, height: 440 };

let browser;
let all;
before(async () => {
  browser = await launch();
  all = await calculators();
  assert.ok(all.length > 40);
});
after(() => browser.close());

const done = async (page) => {
  assert.deepEqual(page.faults, []);
  await page.context().close();
};

for (const size of [PHONE, DESK]) {
  const press = pressing(size);

  test(`${size.name}: every calculator's answer, its context and its trust stand in the first screen`, LANES, async (t) => {
    await onEach(t, browser, size, all, async (page, calculator) => {
      await page.goto(pageOf(calculator));
      const seen = await page.evaluate(() => {
        const bottom = (selector) => document.querySelector(selector)?.getBoundingClientRect().bottom;
        return {
          value: bottom('#answer .lead b, #answer td, #answer dd'), trust: bottom('#answer .trust'),
          card: bottom('#answer'), height: innerHeight, scrolled: scrollY,
        };
      });
      assert.equal(seen.scrolled, 0);
      assert.ok(seen.value > 0 && seen.value <= Math.min(844, seen.height), JSON.stringify(seen));
      assert.ok(seen.trust <= seen.height && seen.card <= seen.height, JSON.stringify(seen));
    });
  });

  test(`${size.name}: a person reads words, and no table runs out of the page`, LANES, async (t) => {
    await onEach(t, browser, size, all, async (page, calculator) => {
      await page.goto(pageOf(calculator));
      const found = await page.evaluate(() => {
        document.querySelectorAll('details').forEach((folded) => (folded.open = true));
        // Titles of sources and an address are not ours to say otherwise.
        document.querySelectorAll('.checked ul, .sources ul, .given p').forEach((own) => own.remove());
        const texts = [document.querySelector('main').innerText, ...[...document.querySelectorAll('option')].map((option) => option.text)];
        const names = texts.flatMap((text) => text.match(/\b[a-z0-9]+_[a-z0-9_]+\b(?!\.csv)/g) || []);
        const cut = [...document.querySelectorAll('main table:not(.given table)')].filter((table) => {
          const box = (table.closest('.scroll') || table).getBoundingClientRect();
          return box.left < 0 || box.right > innerWidth;
        });
        return { names, cut: cut.length };
      });
      assert.deepEqual(found, { names: [], cut: 0 });
    });
  });

  test(`${size.name}: a table that does not fit is scrolled to its last column`, async () => {
    const page = await open(browser, size, '/holes/tap-drill?thread=M8');
    const table = page.locator('.scroll', { has: page.getByRole('columnheader', { name: 'Room' }) });
    await table.evaluate((box) => (box.scrollLeft = box.scrollWidth));
    const { inside, edge } = await table.evaluate((box) => {
      const last = box.querySelector('th:last-child').getBoundingClientRect();
      return { inside: last.right <= box.getBoundingClientRect().right + 1, edge: getComputedStyle(box).backgroundImage };
    });
    assert.ok(inside && edge.includes('gradient'));
    await page.goto('/patterns/bolt-circle?diameter=4%20in&holes=6');
    const wide = await page.locator('#answer .scroll').evaluate((box) => box.scrollWidth - box.clientWidth);
    if (size === DESK) assert.equal(wide, 0, 'at a desk the whole of it is seen');
    await done(page);
  });

  test(`${size.name}: what it rests on is ${size === PHONE ? 'folded' : 'open'}, the cautions and notes are not`, async () => {
    const page = await open(browser, size, '/speeds/milling?diameter=1/2%20in&teeth=4&material=4140%20annealed&tool_material=hss');
    const grounds = page.locator('details.ground');
    assert.equal(await grounds.count(), 3);
    const open_ = () => grounds.evaluateAll((all) => all.map((ground) => ground.open));
    assert.deepEqual(await open_(), Array(3).fill(size === DESK));
    assert.ok(await page.locator('.care li').first().isVisible());
    assert.ok(await page.locator('.notes li').first().isVisible());
    if (size === PHONE) {
      await press(page.locator('details.working summary'));
      await page.fill('#field-teeth', '3');
      await page.waitForURL(/teeth=3/);
      assert.deepEqual(await open_(), [true, false, false], 'what one opened stays open');
      await press(page.locator('#answer .trust'));
      assert.deepEqual(await open_(), [true, false, true], 'trust leads to the sources');
    }
    await done(page);
  });

  test(`${size.name}: numbers stand as a shop writes them`, async () => {
    const page = await open(browser, size, '/speeds/spindle-speed?cutting_speed=70%20ft/min&diameter=1/2%20in&available=112%20rpm,450%20rpm,630%20rpm');
    assert.equal(await page.locator('#answer .lead b').first().innerText(), '450 rpm');
    assert.equal(await page.inputValue('#field-available'), '112,450,630');
    await page.goto('/holes/tap-drill?thread=M8');
    const card = (await page.locator('#answer').innerText()).replace(/\s+/g, ' ');
    assert.match(card, /6\.8 mm 73\.9 % thread · within 6H · 0\.112 mm room · common practice/);
    await done(page);
  });

  test(`${size.name}: what is read together stands together`, async () => {
    const page = await open(browser, size, '/datum/corner?first_edge=1%20in,-0.098%20in;5%20in,-0.082%20in&second_edge=-0.104%20in,1.5%20in&tip_diameter=0.2%20in&sides=outside');
    const boxes = await page.locator('#answer .lead b').evaluateAll((leads) => leads.map((lead) => lead.getBoundingClientRect().top));
    assert.equal(boxes.length, 2);
    assert.equal(boxes[0], boxes[1]);
    await done(page);
  });

  test(`${size.name}: points are rows of two boxes, and the address is as ever`, async () => {
    const page = await open(browser, size, '/datum/visit-order');
    const boxes = page.locator('[data-field=points] .boxes');
    assert.ok(await page.locator('#field-points').isHidden());
    const put = (row, axis, value) => boxes.getByRole('textbox', { name: `Places: point ${row}, ${axis}` }).fill(value);
    await page.selectOption('[name="points.unit"]', 'in');
    await put(1, 'X', '0.5');
    await put(1, 'Y', '1/2');
    await put(2, 'X', '4-1/2');
    await put(2, 'Y', '3');
    await page.waitForURL((url) => url.searchParams.get('points') === '0.5 in,1/2 in;4-1/2 in,3 in');
    await press(boxes.getByRole('button', { name: 'Add a point' }));
    // Half a point is not sent while one types it, and is refused once one leaves it.
    await page.keyboard.type('2');
    await page.waitForTimeout(500);
    assert.equal(new URL(page.url()).searchParams.get('points'), '0.5 in,1/2 in;4-1/2 in,3 in');
    await page.locator('.submit button').first().focus();
    await page.locator('[data-field=points] .wrong').first().waitFor();
    await put(3, 'Y', '1');
    await page.waitForURL((url) => url.searchParams.get('points') === '0.5 in,1/2 in;4-1/2 in,3 in;2 in,1 in');
    await answered(page);
    await press(boxes.getByRole('button', { name: 'Remove point 1' }));
    await page.waitForURL((url) => url.searchParams.get('points') === '4-1/2 in,3 in;2 in,1 in');
    await page.reload();
    assert.equal(await boxes.getByRole('textbox').first().inputValue(), '4-1/2');
    assert.equal(await page.inputValue('[name="points.unit"]'), 'in');
    await done(page);
  });

  test(`${size.name}: records are rows of boxes under their labels`, async () => {
    const page = await open(browser, size, '/datum/wall-stops?walls=x_axis,10%20mm,minus&cutter_diameter=12%20mm');
    const boxes = page.locator('[data-field=walls] .boxes');
    await boxes.getByRole('combobox', { name: /wall 2, Axis/ }).selectOption({ label: 'Y axis' });
    await boxes.getByRole('textbox', { name: /wall 2/ }).fill('55 mm');
    await boxes.getByRole('combobox', { name: /wall 2, Metal/ }).selectOption({ label: 'plus' });
    await page.waitForURL((url) => url.searchParams.get('walls') === 'x_axis,10 mm,minus;y_axis,55 mm,plus');
    await page.locator('#answer tbody tr').nth(1).waitFor();
    await done(page);
  });

  test(`${size.name}: without script points are a text box`, async () => {
    const page = await open(browser, size, '/datum/visit-order', { javaScriptEnabled: false });
    await page.fill('#field-points', '0.5,0.5\n4,3');
    await page.selectOption('[name="points.unit"]', 'in');
    await press(page.locator('.submit button').first());
    await answered(page);
    assert.equal(await page.inputValue('#field-points'), '0.5,0.5\n4,3');
    assert.ok(await page.locator('.working ol').isVisible(), 'nothing is folded that could not be opened');
    await done(page);
  });

  test(`${size.name}: the machine stands first and is remembered on this device`, async () => {
    const page = await open(browser, size, '/holes/drill-point');
    const order = await page.locator('#form .field').evaluateAll((fields) => fields.map((field) => field.dataset.field));
    assert.deepEqual(order.slice(0, 2), ['machine', 'diameter']);
    await page.selectOption('#field-machine', 'mill');
    await page.goto('/speeds/spindle-speed');
    assert.equal(await page.inputValue('#field-machine'), 'mill');
    await page.goto('/speeds/spindle-speed?diameter=1/2%20in');
    assert.equal(await page.inputValue('#field-machine'), '', 'the address goes before what is remembered');
    await done(page);
  });

  test(`${size.name}: what is rarely stated is folded, and opened by what is wrong in it`, async () => {
    const page = await open(browser, size, '/speeds/milling');
    assert.ok(await page.locator('#field-diameter').isVisible());
    for (const name of ['available', 'efficiency', 'resolution']) assert.ok(await page.locator(`#field-${name}`).isHidden(), name);
    await page.goto('/holes/drill-point?diameter=0.5%20in&resolution=x');
    assert.ok(await page.locator('#field-resolution').isVisible());
    await done(page);
  });
}

test('phone: what is typed and the answer are both in view, in every field of every calculator', LANES, async (t) => {
  await onEach(t, browser, PHONE, all, async (page, calculator) => {
    await page.setViewportSize(PHONE.viewport);
    await page.goto(pageOf(calculator));
    await page.setViewportSize(WITH_KEYBOARD);
    const covered = await page.evaluate(async () => {
      const card = document.querySelector('#answer');
      const out = [];
      for (const control of document.querySelectorAll('#form input:not([type=radio]), #form select')) {
        if (control.hidden || !control.checkVisibility()) continue;
        control.focus();
        await new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)));
        const at = control.getBoundingClientRect();
        const above = card.getBoundingClientRect();
        const fine = above.top >= -1 && above.bottom <= at.top + 1 && at.bottom <= innerHeight + 1;
        if (!fine) out.push(`${control.name || control.ariaLabel}: card ${above.top} to ${above.bottom}, field ${at.top} to ${at.bottom}`);
      }
      return out;
    });
    assert.deepEqual(covered, []);
  });
});

test('phone: what one types in stays where it is when the answer comes', async () => {
  for (const [path, field, value] of [['/patterns/bolt-circle?diameter=4%20in', 'holes', '6'], ['/geometry/arc?chord=21%20mm', 'height', '6 mm']]) {
    const page = await open(browser, PHONE, path);
    await page.setViewportSize(WITH_KEYBOARD);
    const control = page.locator(`#field-${field}`);
    await control.focus();
    const top = () => control.evaluate((element) => element.getBoundingClientRect().top);
    const first = await top();
    await control.fill(value);
    await answered(page);
    const card = await page.locator('#answer').evaluate((element) => element.getBoundingClientRect().bottom);
    assert.ok(Math.abs((await top()) - Math.max(first, card + 8)) < 2, path);
    await done(page);
  }
});

test('on paper four common answers keep to one sheet, also in a larger font', async () => {
  const page = await open(browser, DESK);
  const sheets = async () => (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page\b/g).length;
  for (const path of ['/holes/drill-point?diameter=1/2%20in&full_depth=3/4%20in', '/geometry/arc?chord=21%20mm&height=6%20mm',
    '/datum/touch-off?reading_was=growing&tip_diameter=0.200%20in&face_position=0%20in', '/holes/drill-size?name=No.7']) {
    await page.goto(path);
    assert.equal(await sheets(), 1, path);
    await page.evaluate(() => (document.documentElement.style.fontSize = '9pt'));
    assert.equal(await sheets(), 1, `${path} in a larger font`);
  }
  await done(page);
});
