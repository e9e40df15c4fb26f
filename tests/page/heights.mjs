// How long the pages of ten common jobs are, empty and filled, and where the answer stands: a table for the reader.
import { DESK, PHONE, launch, open } from './browser.mjs';

const jobs = {
  'tap drill M8': '/holes/tap-drill?thread=M8',
  'bolt circle, 6 holes on 4 in': '/patterns/bolt-circle?diameter=4%20in&holes=6',
  'drill point, 1/2 in': '/holes/drill-point?diameter=1/2%20in',
  'milling in 4140': '/speeds/milling?diameter=1/2%20in&teeth=4&material=4140%20annealed&tool_material=hss&feed_per_tooth=0.002%20in/tooth',
  'arc, chord and height': '/geometry/arc?chord=21%20mm&height=6%20mm',
  'touch-off': '/datum/touch-off?reading_was=growing&tip_diameter=0.200%20in&face_position=0%20in',
  'thread 1/4-20': '/threads/thread?designation=1/4-20%20UNC',
  'thread over wires': '/threads/wires?thread=1/4-20%20UNC&class=2A&wire_diameter=0.032%20in',
  'drill size': '/holes/drill-size?name=No.7',
  turning: '/speeds/turning?diameter=2%20in&depth_of_cut=0.1%20in&material=1045-normalised&tool_material=hss',
};

const browser = await launch();
const measured = (page) => page.evaluate(() => {
  const answer = document.querySelector('#answer .lead b, #answer td, #answer dd');
  const top = answer && answer.getBoundingClientRect().top + scrollY;
  return { height: document.documentElement.scrollHeight, answer: answer && Math.round(top) };
});
const rows = [];
for (const [job, path] of Object.entries(jobs)) {
  const row = { job };
  for (const size of [PHONE, DESK]) {
    const page = await open(browser, size, path.split('?')[0]);
    row[`${size.name}, empty`] = (await measured(page)).height;
    await page.goto(path);
    const { height, answer } = await measured(page);
    row[`${size.name}, filled`] = height;
    row[`${size.name}, answer at`] = answer;
    await page.context().close();
  }
  rows.push(row);
}
await browser.close();
const columns = Object.keys(rows[0]);
console.log(`| ${columns.join(' | ')} |\n|${columns.map((_, at) => (at ? '---:' : '---')).join('|')}|`);
for (const row of rows) console.log(`| ${columns.map((column) => row[column] ?? '–').join(' | ')} |`);
