// Ten common jobs played from the first page, on a phone: how many taps each takes, how much is typed, and how far
// down the answer stands. What the search does not answer is done the long way: the calculator it finds is opened and
// filled field by field.
import { PHONE, launch, open } from './browser.mjs';

const JOBS = [
  { name: "M8's drill", type: 'M8', answer: /6\.8 mm/, find: 'tap drill', title: 'Tap drill', fields: { thread: 'M8' } },
  { name: '6 holes on 4 in', type: '6 holes 4 in', answer: /1\.7321/, find: 'bolt circle', title: 'Bolt circle', fields: { diameter: '4 in', holes: '6' } },
  { name: '1/2 HSS in 4140', type: '1/2 hss 4140', answer: /458\.4/, find: 'end mill', title: 'Milling speed and feed', fields: { diameter: '1/2 in', material: '4140-annealed', tool_material: 'hss' } },
  { name: '25.4 mm in inch', type: '25.4 mm in inch', answer: /= 1 in/, find: 'convert' },
  { name: 'drill #7', type: '#7', answer: /0\.20\d* in|0\.2010/, find: 'number drill', title: 'Drill sizes', fields: { name: '#7' } },
  { name: 'drill point of 1/2, 118°', type: 'drill point of 1/2 118°', answer: /0\.1502 in/, find: 'drill point', title: 'Drill point and depth', fields: { diameter: '1/2 in', point_angle: '118 deg' } },
  { name: 'limits of 1/4-20', type: 'thread limits 1/4-20', answer: /0\.2164 in/, find: 'thread limits', title: 'Thread dimensions and limits', fields: { designation: '1/4-20' } },
  { name: '3 wires for M10', type: '3 wires M10', answer: /10\.\d\d\d mm/, find: 'three wires', title: 'Thread over wires', fields: { thread: 'M10' } },
  { name: 'arc, chord 2 in, height 0.25 in', type: 'arc chord 2 in height 0.25 in', answer: /2\.1250 in/, find: 'arc', title: 'Arc, chord and segment', fields: { chord: '2 in', height: '0.25 in' } },
  { name: 'touch off with a 0.2 in tip', type: 'touch off growing 0.2 in', answer: /-0\.1000 in/, find: 'touch off', title: 'Touch off a face', fields: { reading_was: 'growing', tip_diameter: '0.200 in' } },
];

// How far down the answer stands, of the innermost elements below `within` that say it.
const down = (page, within, answer) => page.evaluate(([within, source]) => {
  const answer = new RegExp(source);
  const inside = [...document.querySelectorAll(`${within} *`)].filter((element) =>
    answer.test(element.textContent) && ![...element.children].some((child) => answer.test(child.textContent)));
  const ys = inside.map((element) => element.getBoundingClientRect()).filter((box) => box.height > 0).map((box) => box.top + scrollY);
  return ys.length ? Math.round(Math.min(...ys)) : null;
}, [within, answer.source]);

const settle = (page) => page.waitForTimeout(900);

const bySearch = async (page, { type, answer }) => {
  await page.locator('#words').tap();
  await page.keyboard.type(type);
  await page.locator('#list h2', { hasText: `“${type}”` }).waitFor();
  return { taps: 1, typed: type.length, y: await down(page, '#list .found', answer) };
};

const theLongWay = async (page, { find, title, fields, answer }) => {
  let taps = 1;
  let typed = find.length;
  await page.goto('/');
  await page.locator('#words').tap();
  await page.keyboard.type(find);
  await settle(page);
  const link = title && page.locator('#list').getByRole('link', { name: title, exact: true }).first();
  if (!title || !(await link.count())) return { taps, typed, y: null };
  await link.tap();
  taps += 1;
  for (const [name, value] of Object.entries(fields)) {
    const field = page.locator(`#field-${name}`);
    await field.evaluate((element) => element.closest('details') && (element.closest('details').open = true));
    taps += 1;
    if (await field.evaluate((element) => element.tagName === 'SELECT')) {
      // The list, and the word in it.
      taps += 1;
      await field.selectOption(value);
    } else {
      typed += value.length;
      await field.fill(value);
    }
  }
  await settle(page);
  return { taps, typed, y: await down(page, '#answer', answer) };
};

const browser = await launch();
let failed = 0;
console.log('taps typed  answer at y  job');
for (const job of JOBS) {
  const page = await open(browser, PHONE);
  let played = await bySearch(page, job);
  let how = '';
  if (played.y === null) {
    played = await theLongWay(page, job);
    how = played.y === null ? ' (no way)' : ' (the long way)';
  }
  if (played.y === null) failed += 1;
  const cell = (value, width) => String(value).padStart(width);
  console.log(`${cell(played.taps, 4)} ${cell(played.typed, 5)} ${cell(played.y ?? '-', 12)}  ${job.name}${how}`);
  await page.context().close();
}
const page = await open(browser, PHONE);
console.log(`the first page is ${await page.evaluate(() => document.documentElement.scrollHeight)} px high`);
await browser.close();
process.exitCode = failed ? 1 : 0;
