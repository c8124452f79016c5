// The whole job as a builder does it, on a laptop and on a phone: a saw from scratch, a contradiction seen and mended, a
// finding and its why, cuts tried and one kept, undo, reload and everything found again.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';

import { launch, open, overflows, seriousFindings, serve } from './harness.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser?.close();
});

const laptop = { width: 1280, height: 860 };
const phone = { width: 360, height: 780, touch: true };
const patient = { timeout: 20_000 };

async function begun(size, run) {
  const server = await serve({ book: 'own.book' });
  try {
    const shown = await open(browser, server.address, size);
    await run(shown.page, server, shown);
    assert.deepEqual(shown.wrong, [], 'nothing went wrong on the page, and nothing left the machine');
    await shown.context.close();
  } finally {
    assert.equal(await server.end(), 0, 'the server ends cleanly');
  }
}

async function newSaw(page, name) {
  await page.getByRole('button', { name: 'new saw' }).click(patient);
  await page.getByLabel('name').first().fill(name);
  await page.getByRole('button', { name: /begin/ }).click();
  await page.locator('article h2').waitFor(patient);
}

const stroke = ['crank.stroke', 'Stroke'];
const bore = ['crank.bore', 'Bore'];

/** Takes a field in hand. */
async function take(page, [path, label]) {
  const at = new URL(page.url());
  at.searchParams.set('field', path);
  await page.evaluate((href) => {
    history.pushState({}, '', href);
    dispatchEvent(new PopStateEvent('popstate'));
  }, at.href);
  const input = page.getByRole('article', { name: label, exact: true }).locator('input').first();
  await input.waitFor(patient);
  return input;
}

/** Types a reading as a person does, and waits until the book has it. */
async function read(page, field, text) {
  const input = await take(page, field);
  const kept = page.waitForResponse((response) => response.url().endsWith('/api/do/set') && response.ok(), patient);
  await input.fill(text, patient);
  await input.press('Enter');
  await kept;
  await input.waitFor({ state: 'detached', ...patient }); // the next field is in hand
}

async function says(page, field, text) {
  await take(page, field);
  await page.waitForFunction((wanted) => globalThis.document.querySelector('article input')?.value === wanted, text, patient);
}

for (const [name, size] of [['a laptop', laptop], ['a phone of 360 px', phone]])
  test(`on ${name}: no screen overflows or has a serious fault for those who cannot see it`, { timeout: 240_000 }, async () => {
    const server = await serve();
    try {
      const { page, wrong, context } = await open(browser, server.address, size);
      await page.getByText('Alder 60').first().waitFor(patient);
      const href = await page.locator('a[href*="saw="]', { hasText: 'Alder 60' }).first().getAttribute('href');
      const saw = new URL(href, page.url()).searchParams.get('saw');
      for (const at of ['bench', 'readings', 'what-it-is', 'what-if', 'book', 'settings']) {
        const query = new URLSearchParams(at === 'bench' || at === 'settings' ? { at } : { saw, at });
        await page.goto(`${new URL(page.url()).origin}/?${query}`);
        await page.locator('main').waitFor(patient);
        await page.waitForTimeout(2500);
        assert.ok((await overflows(page)) <= 0, `${at} is wider than its window by ${await overflows(page)} px`);
        assert.deepEqual(await seriousFindings(page), [], at);
      }
      assert.deepEqual(wrong, []);
      await context.close();
    } finally {
      await server.end();
    }
  });

test('a reading is kept as it is left, also one that cannot be read, and everything is there after a reload', { timeout: 120_000 }, () =>
  begun(laptop, async (page) => {
    await newSaw(page, 'Rowan 55');
    await read(page, stroke, '34 mm');
    await read(page, bore, 'about 46');
    await page.reload();
    await page.locator('article').first().waitFor(patient);
    await says(page, stroke, '34 mm');
    await says(page, bore, 'about 46');
  }));

test('a finding says why, cuts are tried and one kept, and the plan is found in the book', { timeout: 180_000 }, async () => {
  const server = await serve();
  try {
    const { page, wrong, context } = await open(browser, server.address, laptop);
    await page.getByText('Alder 60').first().waitFor(patient);
    const href = await page.locator('a[href*="saw="]', { hasText: 'Alder 60' }).first().getAttribute('href');
    const saw = new URL(href, page.url()).searchParams.get('saw');
    const origin = new URL(page.url()).origin;

    const why = page.waitForResponse((response) => response.url().endsWith('/api/ask/why') && response.ok(), patient);
    await page.goto(`${origin}/?saw=${saw}&at=what-it-is`);
    await page.getByRole('button', { name: /Blowdown/ }).first().click(patient);
    const told = await (await why).json();
    await page.getByText(told.figure.formula.slice(0, 24)).first().waitFor(patient);

    const curve = page.waitForResponse((response) => response.url().endsWith('/api/run/curve') && response.ok(), patient);
    await page.goto(`${origin}/?saw=${saw}&at=what-if&cuts=${encodeURIComponent('base -0.3 mm; roof exhaust +0.6 mm; roof primary +0.2 mm')}`);
    await curve;
    await page.getByText(/told apart|°|deg/).first().waitFor(patient);
    await page.getByText(/first look|Settling|gains up to/i).first().waitFor(patient);
    await page.getByRole('button', { name: 'keep as plan' }).click(patient);
    const kept = page.waitForResponse((response) => response.url().endsWith('/api/do/cut') && response.ok(), patient);
    const title = page.getByRole('textbox').last();
    await title.fill('Walked through', patient);
    await title.press('Enter');
    await kept;

    await page.goto(`${origin}/?saw=${saw}&at=book`);
    await page.getByText('Walked through').first().waitFor(patient);
    await page.reload();
    await page.getByText('Walked through').first().waitFor(patient);
    assert.deepEqual(wrong, []);
    await context.close();
  } finally {
    await server.end();
  }
});

test('two browsers see each other within a second, and undo takes back one deed at a time', { timeout: 120_000 }, () =>
  begun(laptop, async (page, _server, { context }) => {
    await newSaw(page, 'Rowan 55');
    const other = await context.newPage();
    await other.goto(new URL(page.url()).origin);
    const there = other.getByRole('region', { name: 'Saws' }).getByText('Rowan 55').first();
    await there.waitFor(patient);
    await read(page, stroke, '34 mm');
    for (const deed of ['the reading', 'the saw']) {
      const undone = page.waitForResponse((response) => response.url().endsWith('/api/do/undo'), patient);
      await page.getByRole('button', { name: 'undo', exact: true }).click();
      assert.ok((await undone).ok(), deed);
    }
    await there.waitFor({ state: 'detached', ...patient });
    await other.close();
  }));
