// One saw from tear-down to the finished cut sheet, and the book after a restart of the program; a wish about the
// engine, searched and put on paper.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';

import { byKeys, byPointer } from './hands.mjs';
import { cutOff, enlarge, launch, open, overflows, seriousFindings, serve, wear } from './harness.mjs';
import { assertSoon } from './walk.mjs';
import { searchesAndStops, takesAnAnswer, wantsOfTheEngine } from './seek.mjs';
import { begins, cutsIt, finishes, isAllThere, isTheSample, keepsIt, looksAtIt, plansIt, readsAgain, readsAsTornDown, sheetOf, triesACut } from './job.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser?.close();
});

const laptop = { width: 1280, height: 860 };
const phone = { width: 360, height: 780 };

/** Steps of the job with how long each took, where somebody wants to know. */
async function step(page, what, run) {
  const from = Date.now();
  try {
    return await run();
  } catch (thrown) {
    if (process.env.PORTWRIGHT_PICTURES) await page.screenshot({ path: `${process.env.PORTWRIGHT_PICTURES}/job_failed.png`, fullPage: true });
    throw thrown;
  } finally {
    if (process.env.PORTWRIGHT_TIMES) console.log(`${what}: ${Date.now() - from} ms`);
  }
}

describe('the job', () => {
  test('one saw from tear-down to the finished cut sheet', { timeout: 120_000 }, async () => {
    isTheSample();
    let server = await serve({ book: 'own.book' });
    try {
      const { page, context, wrong } = await open(browser, server.address, laptop);
      const hand = byPointer(page, false);
      await step(page, 'begins', () => begins(page, hand));
      await step(page, 'readings', () => readsAsTornDown(page, hand));
      await step(page, 'what it is', () => looksAtIt(page, hand));
      await step(page, 'what if', () => triesACut(page, hand));
      await step(page, 'plan', () => plansIt(page, hand));
      const sheet = await step(page, 'sheet', () => sheetOf(page, hand, 'A4', server.folder));
      for (const said of [/Cut sheet/, /Alder 60/, /Turn the base face/, /Raise the exhaust roof/, /99\.0 deg/, /stop/, /never past/]) assert.match(sheet, said);
      await page.setViewportSize(phone);
      await step(page, 'bench', () => cutsIt(page, hand));
      assert.deepEqual([await overflows(page), await cutOff(page), await seriousFindings(page)], [0, [], []]);
      await step(page, 'kept', () => keepsIt(page, hand));
      await page.setViewportSize(laptop);
      await step(page, 'read again', () => readsAgain(page, hand));
      await step(page, 'finished', () => finishes(page, hand, server.folder));
      assert.deepEqual(wrong, [], 'nothing went wrong on the page, and nothing left the machine');
      await context.close();

      const { folder } = server;
      assert.equal(await server.end({ leave: true }), 0, 'the server ends cleanly');
      server = await serve({ book: 'own.book', folder });
      const anew = await open(browser, server.address, laptop);
      await step(anew.page, 'after a restart', () => isAllThere(anew.page, byPointer(anew.page, false)));
      assert.deepEqual(anew.wrong, []);
      await anew.context.close();
    } finally {
      assert.equal(await server.end(), 0, 'the server ends cleanly');
    }
  });

  test('a wish about the engine is searched, stopped, and an answer goes on paper', { timeout: 180_000 }, async () => {
    const server = await serve();
    try {
      const { page, context, wrong } = await open(browser, server.address, laptop);
      const link = page.locator('a[href*="saw="]', { hasText: 'Alder 60' }).first();
      await link.waitFor({ timeout: 20_000 });
      const saw = new URL(await link.getAttribute('href'), page.url()).searchParams.get('saw');
      await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'plan', saw, seconds: '20' })}`);
      const hand = byKeys(page);
      await step(page, 'wants', () => wantsOfTheEngine(page, hand));
      await step(page, 'searches', () => searchesAndStops(page, hand));
      for (const size of [laptop, phone]) {
        await page.setViewportSize(size);
        await assertSoon(async () => (await overflows(page)) === 0, `drawn anew at ${size.width} px`);
        for (const look of ['paper', 'slate', 'sunlight']) {
          await wear(page, look);
          assert.deepEqual([await overflows(page), await cutOff(page), await seriousFindings(page, { look: look !== 'paper' })], [0, [], []]);
        }
        await wear(page, 'paper');
        await enlarge(page, 2);
        assert.deepEqual([await overflows(page), await cutOff(page)], [0, []], `text twice as large at ${size.width} px`);
        await enlarge(page, 1);
      }
      await step(page, 'takes an answer', () => takesAnAnswer(page, byPointer(page, false)));
      assert.deepEqual(wrong, [], 'nothing went wrong on the page, and nothing left the machine');
      await context.close();
    } finally {
      assert.equal(await server.end(), 0, 'the server ends cleanly');
    }
  });
});
