// The first page: the search answers as one types and without a script, says what is open, and the tasks fit a phone.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, launch, open, setInOurFont, pressing, sized } from './browser.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const TWO_SCREENS = 2 * PHONE.viewport.height;
const height = (page) => page.evaluate(() => document.documentElement.scrollHeight);
const found = (page, text) => page.locator('#list .found').getByText(text).first().waitFor();
const type = async (page, text) => {
  await page.locator('#words').fill('');
  await page.locator('#words').pressSequentially(text);
  await page.locator('#list h2', { hasText: `“${text}”` }).waitFor();
};

// What is typed, the calculator that answers first, and what it says.
const ANSWERS = [
  ['M8', 'Tap drill', '6.8 mm'],
  ['1/4-20', 'Tap drill', '#7'],
  ['#7', 'Drill sizes', '0.2010'],
  ['letter F', 'Drill sizes', '0.2570'],
  ['27/64', 'Drill sizes', '10.715625 mm'],
  ['1/2 hss 4140', 'Spindle speed', '458.4'],
  ['6 holes 4 in', 'Bolt circle', '1.7321'],
  ['12 rpm 1/2', 'As the machine runs', '1.6 ft/min'],
  ['M8 drill', 'Tap drill', '6.8 mm'],
  ['118 deg 1/2', 'Drill point and depth', '0.1502 in'],
  ['4140-annealed hss 1/2 end mill', 'Milling speed and feed', '458.4 rpm'],
  ['bolt circle 6 x 100 mm', 'Bolt circle', '43.301'],
  ['90 ft/min 1/2', 'Spindle speed', '687.5 rpm'],
  ['thread limits 1/4-20', 'Thread dimensions and limits', '0.2164 in'],
  ['arc chord 2 in height 0.25 in', 'Arc, chord and segment', '2.1250 in'],
];

for (const size of [PHONE, DESK]) {
  const press = pressing(size);
  const at = sized(size, test, () => browser);

  at("M8's drill is on screen after one tap and two keys", async () => {
    const page = await open(browser, size);
    await press(page.locator('#words'));
    await page.keyboard.type('M8');
    await found(page, '6.8 mm');
    const lead = await page.locator('.found-answer .lead b').first().boundingBox();
    assert.ok(lead.y > 0 && lead.y + lead.height < size.viewport.height, `it stands at ${lead.y}`);
    await page.waitForURL(/\?find=M8$/);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'words', 'one can type on');
    return page;
  });

  at('what is typed is answered, and each answer opens the calculator filled', async () => {
    const page = await open(browser, size);
    for (const [text, title, value] of ANSWERS) {
      await type(page, text);
      await found(page, value);
      const link = page.locator('.found-answer h3 a').first();
      assert.equal(await link.innerText(), title, text);
      assert.match(await link.getAttribute('href'), /\?.+#answer$/);
    }
    await type(page, 'M8');
    await press(page.locator('.found-answer h3 a').first());
    await page.waitForURL(/\/holes\/tap-drill\?thread=M8#answer$/);
    assert.match(await page.locator('#answer').innerText(), /6\.8 mm/);
    return page;
  });

  at('sizes are converted', async () => {
    const page = await open(browser, size);
    for (const [text, other] of [['25.4 mm in inch', '= 1 in'], ['1.25 mm pitch in tpi', '= 20.32 tpi'], ['tpi 20', '= 1.27 mm'], ['5 m in inches', '≈ 196.850394 in']]) {
      await type(page, text);
      await page.locator('.converted').getByText(other).waitFor();
    }
    return page;
  });

  at('what is open is asked, and a tap on a way answers it', async () => {
    const page = await open(browser, size);
    await type(page, '6');
    await found(page, '6 has no unit');
    await press(page.locator('.found .try a', { hasText: '6 mm' }));
    await page.locator('.converted').getByText('0.23622').waitFor();
    assert.equal(await page.inputValue('#words'), '6 mm');
    await type(page, '1/2 hss 4140');
    await found(page, '4140-annealed or 4140-prehardened: which?');
    await press(page.locator('.found .try a', { hasText: '4140-annealed' }));
    await page.locator('.found-answer .lead b', { hasText: '458.4 rpm' }).first().waitFor();
    return page;
  });

  at('words find what there is, what comes nearest, and what to try', async () => {
    const page = await open(browser, size);
    for (const [text, first] of [['tap', 'Tap drill'], ['sine bar', 'Sine bar'], ['drill tip', 'Drill point and depth'], ['touch-off', 'Touch off a face'], ['dividing head', 'Dividing head'], ['spur gear', 'Spur gear']]) {
      await type(page, text);
      assert.equal(await page.locator('.found .titles a').first().innerText(), first);
    }
    await type(page, 'collet');
    await found(page, 'There is no calculator for “collet”');
    assert.deepEqual(await page.locator('.found .titles a').allInnerTexts(), ['Center by indicator']);
    await type(page, 'xyzzy');
    await found(page, 'Nothing found');
    await press(page.locator('.found .try a', { hasText: '6 holes 4 in' }));
    await found(page, '1.7321');
    return page;
  });

  at('who listens hears the answer, and the keyboard is enough', async () => {
    const page = await open(browser, size);
    const heard = page.locator('#heard');
    assert.equal(await heard.getAttribute('aria-live'), 'polite');
    await page.locator('#words').focus();
    await page.keyboard.type('M8');
    await page.waitForFunction(() => /Tap drill: .*6\.8 mm/.test(document.querySelector('#heard').textContent));
    await page.keyboard.press('Enter');
    await found(page, '6.8 mm');
    await page.locator('#find button').focus();
    await page.keyboard.press('Tab');
    assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Tap drill');
    await page.keyboard.press('Enter');
    await page.waitForURL(/tap-drill/);
    return page;
  });

  at('without a script it answers by Find', async () => {
    const page = await open(browser, size, '/', { javaScriptEnabled: false });
    await page.fill('#words', 'M8');
    await press(page.locator('#find button'));
    await found(page, '6.8 mm');
    await page.fill('#words', '6');
    await press(page.locator('#find button'));
    await press(page.locator('.found .try a', { hasText: '6 in' }));
    await page.locator('.converted').getByText('152.4 mm').waitFor();
    await press(page.getByRole('link', { name: 'All calculators' }));
    await press(page.locator('summary', { hasText: 'Make the hole' }));
    await press(page.getByRole('link', { name: 'Tap drill', exact: true }));
    await page.waitForURL(/tap-drill/);
    return page;
  });

  at('what one types last is what stands there, and nothing is asked twice', async () => {
    const page = await open(browser, size);
    const asked = [];
    page.on('request', (request) => /find=/.test(request.url()) && asked.push(request.url()));
    await page.locator('#words').pressSequentially('M8 drill', { delay: 20 });
    await page.locator('#list h2', { hasText: '“M8 drill”' }).waitFor();
    await page.waitForTimeout(500);
    assert.ok(asked.length <= 2, `${asked.length} requests`);
    await page.fill('#words', '');
    await page.locator('.by-task').waitFor();
    return page;
  });
}

test('phone: the first page fits in two screens, also with all that a device may have kept', async () => {
  const page = await open(browser, PHONE);
  await setInOurFont(page);
  assert.ok((await height(page)) <= TWO_SCREENS, `${await height(page)} px`);
  const summaries = page.locator('.by-task > .task');
  assert.equal(await summaries.count(), 7);
  assert.equal(await page.locator('.by-task > .task[open]').count(), 0);
  const title = 'Ball nose: diameter that cuts, and cusps';
  const entries = (count) => Array.from({ length: count }, (_, at) => ({ href: `/speeds/ball-nose?diameter=${at + 1}%20mm`, title,
    given: `${at + 1} mm, 0.250 in, 4140-prehardened`, says: 'effective diameter 6.2450 mm' }));
  await page.evaluate(([recent, kept]) => {
    localStorage.setItem('recent', JSON.stringify(recent));
    localStorage.setItem('kept', JSON.stringify(kept));
  }, [entries(12), entries(60)]);
  await page.reload();
  assert.equal(await page.locator('#own section').count(), 2);
  assert.ok((await height(page)) <= TWO_SCREENS, `${await height(page)} px with what is kept`);
  const [own, tasks] = [await page.locator('#own').boundingBox(), await page.locator('.by-task').boundingBox()];
  assert.ok(own.y < tasks.y, 'what is kept stands first');
  await page.locator('#own summary').first().tap();
  assert.equal(await page.locator('#own .titles').first().locator('li').count() + await page.locator('#own .titles').nth(1).locator('li').count(), 60);

  // A line about each, when it is asked for.
  await page.locator('summary', { hasText: 'Make the hole' }).tap();
  const about = page.locator('#make-the-hole .titles p').first();
  assert.ok(await about.isHidden());
  await page.getByLabel('Say what each does').check();
  assert.ok(await about.isVisible());
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test('desk: every calculator stands open in columns', async () => {
  const page = await open(browser, DESK);
  await setInOurFont(page);
  assert.equal(await page.locator('.by-task > .task[open]').count(), 7);
  const tops = await page.locator('.task').evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().left)));
  assert.equal(new Set(tops).size, 4, 'four columns');
  assert.ok((await height(page)) < 1800, `${await height(page)} px`);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test('a busy service and a lost connection are said, and what was found stays', async () => {
  const page = await open(browser, PHONE);
  await type(page, 'M8');
  await page.route('**/?find=*', (route) => route.abort());
  await page.locator('#words').pressSequentially('x1');
  await page.locator('#state').getByText('Not connected: the search needs the service').waitFor();
  assert.match(await page.locator('#list').innerText(), /6\.8 mm/);
  await page.unroute('**/?find=*');
  await page.route('**/?find=*', (route) => route.fulfill({ status: 503, contentType: 'application/problem+json', body: '{}' }));
  await page.locator('#words').pressSequentially(' d');
  await page.waitForFunction(() => /busy/.test(document.querySelector('#heard').textContent));
  await page.context().close();
});
