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

/** Takes a reading in hand and types it as a person does. */
async function read(page, path, text) {
  const at = new URL(page.url());
  at.searchParams.set('field', path);
  await page.evaluate((href) => {
    history.pushState({}, '', href);
    dispatchEvent(new PopStateEvent('popstate'));
  }, at.href);
  const input = page.locator('article input').first();
  await page.locator(`article`).first().waitFor(patient);
  await input.fill(text, patient);
  await input.press('Enter');
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
    await read(page, 'crank.stroke', '34 mm');
    await page.locator('[data-kept="true"]').waitFor({ state: 'attached', ...patient });
    await read(page, 'crank.bore', 'about 46');
    await page.waitForTimeout(1500);
    await page.reload();
    await page.locator('article').first().waitFor(patient);
    await page.getByText('34 mm').first().waitFor(patient);
    await page.getByText('about 46').first().waitFor(patient);
  }));

test('two browsers see each other within a second, and undo takes back one deed at a time', { timeout: 120_000 }, () =>
  begun(laptop, async (page, _server, { context }) => {
    await newSaw(page, 'Rowan 55');
    const other = await context.newPage();
    await other.goto(new URL(page.url()).origin);
    await other.getByText('Rowan 55').first().waitFor(patient);
    await read(page, 'crank.stroke', '34 mm');
    await page.waitForTimeout(500);
    await page.getByRole('button', { name: 'undo', exact: true }).click();
    await page.waitForTimeout(1000);
    await page.getByRole('button', { name: 'undo', exact: true }).click();
    await other.getByText('Rowan 55').first().waitFor({ state: 'detached', timeout: 5_000 });
    await other.close();
  }));
