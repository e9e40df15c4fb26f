// Pictures of some pages, to be looked at: by day and by night, on a phone, at a desk and on paper.
import { DESK, PHONE, launch, open } from './browser.mjs';

const folder = process.argv[2];
const pages = {
  list: '/',
  found: '/?find=three+wires',
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
