// Pictures of some pages, to be looked at: by day and by night, on a phone, at a desk and on paper.
import { DESK, PHONE, launch, open } from './browser.mjs';

const folder = process.argv[2];
const pages = {
  list: '/',
  found: '/?find=three+wires',
  empty: '/speeds/milling',
  milling: '/speeds/milling?diameter=1/2%20in&teeth=4&material=4140%20annealed&tool_material=hss&machine=mill',
  arc: '/geometry/arc?chord=21%20mm&height=6%20mm',
  thread: '/threads/thread?designation=1/4-20%20UNC',
  wires: '/threads/wires?thread=1/4-20%20UNC&class=2A&wire_diameter=0.032%20in',
  corner: '/datum/corner?first_edge=1%20in,-0.098%20in;5%20in,-0.082%20in&second_edge=-0.104%20in,1.5%20in&tip_diameter=0.2%20in',
  stops: '/datum/wall-stops?walls=x_axis,10%20mm,minus;x_axis,70%20mm,plus&cutter_diameter=12%20mm',
  answered: '/?find=M8',
  'answered-each': '/?find=1/2+hss+4140',
  asked: '/?find=6',
  docs: '/docs/',
  'docs-holes': '/docs/holes',
  'tap-drill': '/holes/tap-drill?thread=M8&machine=mill',
  'drill-point': '/holes/drill-point?diameter=1/2%20in&full_depth=3/4%20in',
  refused: '/holes/drill-point?diameter=0.5&point_angle=x',
  'bolt-circle': '/patterns/bolt-circle?diameter=4in&holes=6',
  chart: '/holes/drill-point?diameter=1/4..1%20step%201/8%20in',
};

const browser = await launch();
for (const [name, path] of Object.entries(pages)) {
  for (const size of [PHONE, DESK]) {
    for (const colorScheme of ['light', 'dark']) {
      const page = await open(browser, size, path, { colorScheme });
      await page.screenshot({ path: `${folder}/${name}-${size.name}-${colorScheme}.png`, fullPage: size === DESK });
      if (size === DESK && colorScheme === 'light') await page.pdf({ path: `${folder}/${name}.pdf`, format: 'A4' });
      await page.context().close();
    }
  }
}
await browser.close();
