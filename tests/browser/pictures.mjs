// What tools/pictures runs: the main screens of the demo workshop in the sizes that README and handbook show.

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

import { byPointer } from './hands.mjs';
import { launch, open, serve } from './harness.mjs';
import { begins, cutsIt, finishes, keepsIt, plansIt, readsAgain, readsAsTornDown } from './job.mjs';
import { rubbingPhoto } from './rubbing_photo.mjs';
import { addPhotos, photosThere } from './walk.mjs';

const to = process.argv[2];
const cuts = 'base -0.25 mm; roof exhaust +0.6 mm; roof primary +0.2 mm';
const laptop = { width: 1200, height: 720 };
const phone = { width: 390, height: 844, touch: true };

/** The part of the settings that lets a phone in, with a code standing. */
async function invited(page) {
  const network = page.getByRole('region', { name: 'Network' });
  await network.getByRole('button', { name: 'let paired devices in' }).click();
  await network.getByRole('button', { name: 'pair a device' }).click();
  await network.locator('.qr svg path').first().waitFor();
  return network;
}

/** Photos of the saw, two of them, one measured. */
async function photographed(page) {
  const files = [];
  for (const turn of [4, 12]) files.push({ name: `rubbing ${turn}.jpg`, mimeType: 'image/jpeg', buffer: await rubbingPhoto(browser, { turn }) });
  await addPhotos(page, byPointer(page, false), files);
  await photosThere(page, 2);
}

/** The window on the first photo, with the square as the caliper reads it. */
async function measured(page) {
  await page.getByRole('region', { name: 'Photos' }).locator('a img').first().click();
  await page.getByRole('link', { name: 'measure a rubbing' }).click();
  await page.getByLabel('across').fill('119.8 mm');
  await page.getByLabel('down, roof to floor').fill('119.9 mm');
  await page.getByRole('button', { name: 'taped by all its edges' }).click();
  await page.getByRole('group', { name: 'Port' }).getByRole('button', { name: 'exhaust', exact: true }).click();
  await page.waitForTimeout(1_500);
  await page.evaluate(() => scrollTo(0, 0));
}

/** A search for a wish about the engine, come to its answers. */
async function searched(page) {
  await page.getByRole('button', { name: 'start', exact: true }).click();
  await page.getByRole('list', { name: 'Lists to choose from' }).waitFor({ timeout: 240_000 });
  await page.getByRole('heading', { name: 'The search' }).evaluate((one) => globalThis.scrollTo(0, one.getBoundingClientRect().top + globalThis.scrollY - 60));
}

const screens = [
  { name: 'page_bench', at: 'bench', ...laptop },
  { name: 'page_readings', saw: 'Alder 60', at: 'readings', ...laptop },
  { name: 'page_what_it_is', saw: 'Alder 60', at: 'what-it-is', ...laptop },
  { name: 'page_what_if', saw: 'Alder 60', at: 'what-if', cuts, ...laptop, settle: 25_000 },
  { name: 'page_what_if_dark', saw: 'Alder 60', at: 'what-if', cuts, ...laptop, theme: 'dark', settle: 25_000 },
  { name: 'page_plan', saw: 'Alder 60', at: 'plan', wish: 'exhaust at 99 deg; transfers at 119 deg; squish 0.7 mm; exhaust width 60 %', width: 1200, height: 720, settle: 2_000 },
  { name: 'page_plan_phone', saw: 'Alder 60', at: 'plan', wish: 'exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %', done: 'base -0.33 mm', planned: 'base -0.35 mm', ...phone, settle: 2_000 },
  { name: 'page_seek', saw: 'Alder 60', at: 'plan', wish: 'most power; squish at least 0.6 mm', width: 1200, height: 820, first: searched },
  { name: 'page_breathing', saw: 'Alder 60', at: 'breathing', ...laptop, settle: 12_000 },
  { name: 'page_stands', saw: 'Larch 70', at: 'stands', cuts: 'gasket out; roof exhaust +0.8 mm; widen exhaust +2 mm', width: 1200, height: 760, settle: 20_000 },
  { name: 'page_book', saw: 'Alder 60', at: 'book', ...laptop },
  { name: 'page_what_if_phone', saw: 'Alder 60', at: 'what-if', cuts, ...phone, settle: 20_000 },
  { name: 'page_network', at: 'settings', ...laptop, part: invited },
  { name: 'page_readings_phone', saw: 'Alder 60', at: 'readings', ...phone },
  { name: 'page_photos', saw: 'Alder 60', at: 'book', ...laptop, first: photographed },
  { name: 'page_measure', saw: 'Alder 60', at: 'book', width: 1200, height: 1020, first: measured },
];

/** One saw from tear-down to the finished sheet, as docs/handbook/the_job.md tells it. */
const job = ['job_apart', 'job_way', 'job_bench', 'job_again', 'job_sheet'];

async function pictureTheJob() {
  const server = await serve({ book: 'own.book' });
  const { page, context } = await open(browser, server.address, laptop);
  const hand = byPointer(page, false);
  const shoot = async (name, part = page) => {
    await page.evaluate(() => scrollTo(0, 0));
    await page.waitForTimeout(1_000);
    await part.screenshot({ path: join(to, `${name}.png`) });
    console.log(name);
  };
  try {
    await begins(page, hand);
    await readsAsTornDown(page, hand, () => shoot('job_apart'));
    await plansIt(page, hand);
    await page.getByRole('button', { name: 'put away' }).click({ timeout: 500 }).catch(() => undefined);
    await shoot('job_way');
    await page.setViewportSize({ width: 390, height: 720 });
    await cutsIt(page, hand, () => shoot('job_bench'));
    await keepsIt(page, hand);
    await page.setViewportSize(laptop);
    await readsAgain(page, hand);
    await page.setViewportSize({ width: 390, height: 844 });
    await finishes(page, hand, server.folder);
    await shoot('job_again', page.getByRole('region', { name: 'At the bench' }));
    const pdf = join(server.folder, 'sheet.pdf');
    execFileSync('pdftoppm', ['-png', '-r', '72', '-singlefile', pdf, join(to, 'job_sheet')], { stdio: 'ignore' });
    console.log('job_sheet');
  } finally {
    await context.close();
    await server.end();
  }
}

const only = process.argv.slice(3);

const server = await serve();
const browser = await launch();
try {
  const { page, context } = await open(browser, server.address, laptop);
  await page.getByText('Alder 60').first().waitFor();
  const ids = await page.evaluate(() => [...document.querySelectorAll('a[href*="saw="]')].map((a) => [a.textContent.trim(), new URL(a.href).searchParams.get('saw')]));
  const state = await context.storageState();
  await context.close();
  const origin = new URL(server.address).origin;
  for (const screen of screens) {
    if (only.length > 0 && !only.includes(screen.name)) continue;
    const next = await browser.newContext({ viewport: { width: screen.width, height: screen.height }, colorScheme: screen.theme ?? 'light', hasTouch: screen.touch ?? false, deviceScaleFactor: screen.touch ? 2 : 1, storageState: state });
    const shown = await next.newPage();
    const query = new URLSearchParams();
    const id = ids.find(([name]) => name.startsWith(screen.saw ?? ' '))?.[1];
    if (id) query.set('saw', id);
    query.set('at', screen.at);
    for (const part of ['cuts', 'wish', 'done', 'planned']) if (screen[part]) query.set(part, screen[part]);
    await shown.goto(`${origin}/?${query}`);
    await shown.waitForTimeout(screen.settle ?? 4_000);
    await screen.first?.(shown);
    const part = screen.part === undefined ? shown : await screen.part(shown);
    await part.screenshot({ path: join(to, `${screen.name}.png`) });
    console.log(screen.name);
    await next.close();
  }
  if (only.length === 0 || job.some((name) => only.includes(name))) await pictureTheJob();
} finally {
  await browser.close();
  await server.end();
}
