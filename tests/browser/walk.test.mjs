// The page in a browser, on a laptop and on a phone: the whole job by keys, by mouse and by finger; every screen in
// every look, narrow and with large text; curves; two browsers on one book.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';

import { byKeys, byPointer } from './hands.mjs';
import { cutOff, enlarge, launch, open, overflows, quiet, seriousFindings, serve, watchRequests, wear } from './harness.mjs';
import { contradicted, cutAtTheBench, printed, takenInHand, tried, wished } from './plan.mjs';
import { drawnArea, rubbingPhoto } from './rubbing_photo.mjs';
import { chainStopped, crankTurned, noDegrees, placeInHand, rungInHand, stood } from './stands.mjs';
import { addAndSee, addPhotos, beginSaw, contradictAndMend, cutAndKeep, findAndWhy, measureAndKeep, nameAndHide, photosThere, undoRedoReload } from './walk.mjs';

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

/** A server, a page on it, and at the end: nothing went wrong, and the server ended as it should. */
async function served(size, run, book) {
  const server = await serve({ book });
  try {
    const shown = await open(browser, server.address, size);
    await run(shown.page, shown, server).catch(async (thrown) => {
      // What it looked like when it went wrong, where somebody wants to see it.
      if (process.env.PORTWRIGHT_PICTURES) await shown.page.screenshot({ path: `${process.env.PORTWRIGHT_PICTURES}/failed_${size.width}.png`, fullPage: true });
      throw thrown;
    });
    assert.deepEqual(shown.wrong, [], 'nothing went wrong on the page, and nothing left the machine');
    await shown.context.close();
  } finally {
    assert.equal(await server.end(), 0, 'the server ends cleanly');
  }
}

/** The id of a saw of the demo workshop. */
async function sawOf(page, name) {
  const link = page.locator('a[href*="saw="]', { hasText: name }).first();
  await link.waitFor(patient);
  return new URL(await link.getAttribute('href'), page.url()).searchParams.get('saw');
}

const cuts = 'base -0.25 mm; roof exhaust +0.6 mm; roof primary +0.2 mm';
const screens = [
  { at: 'bench' },
  { at: 'readings', saw: true },
  { at: 'what-it-is', saw: true, ready: /^Findings/ },
  { at: 'what-if', saw: true, cuts, other: 'roof exhaust +0.3 mm', ready: /^Two what-ifs/ },
  { at: 'book', saw: true },
  { at: 'settings' },
  { at: 'breathing', saw: true, ready: /^This turn/ },
  { at: 'plan', saw: true, wish: 'exhaust at 99 deg; transfers at 119 deg; squish 0.7 mm; exhaust width 60 %', gaskets: '0.3 mm', ready: /^Limits it keeps/ },
  { at: 'plan', saw: true, wish: 'exhaust at 99 deg; squish 0.7 mm', done: 'base -0.33 mm', planned: 'base -0.35 mm', ready: /^Where each wish/ },
  { at: 'plan', saw: true, wish: 'most power; squish at least 0.6 mm', free: 'roof exhaust up to 1.2 mm', ready: /^The search/ },
  { at: 'stands', saw: true, cuts, ready: /^Over the turn/ },
  { at: 'photo', saw: true, photo: true },
  { at: 'measure', saw: true, photo: true, ready: /^What the range/ },
];
const jpeg = (name, buffer) => ({ name, mimeType: 'image/jpeg', buffer });
const looks = ['paper', 'slate', 'sunlight'];

// Two at a time: each has a server and a page of its own, and waits more than it works.
describe('the page', { concurrency: 2 }, () => {
  for (const [how, size, handOf] of [
    ['by the keys alone, at 1280 px', laptop, byKeys],
    ['by the mouse, at 1280 px', laptop, (page) => byPointer(page, false)],
    ['by the finger, at 360 px', phone, (page) => byPointer(page, true)],
  ])
    test(`the whole job ${how}`, { timeout: 120_000 }, () =>
      served(
        size,
        async (page) => {
          const hand = handOf(page);
          await beginSaw(page, hand, 'Rowan 55');
          await contradictAndMend(page, hand);
          await findAndWhy(page, hand);
          await cutAndKeep(page, hand);
          await undoRedoReload(page, hand, 'Rowan 55');
        },
        'own.book',
      ));

  for (const [how, size, handOf] of [
    ['by the keys alone, at 1280 px', laptop, byKeys],
    ['by the mouse, at 1280 px', laptop, (page) => byPointer(page, false)],
    ['by the finger, at 360 px', phone, (page) => byPointer(page, true)],
  ])
    test(`photos are added, seen by another browser, named, hidden, measured, kept and undone ${how}`, { timeout: 120_000 }, () =>
      served(size, async (page, { context }) => {
        const saw = await sawOf(page, 'Alder 60');
        const at = `${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'book', saw })}`;
        await page.goto(at);
        // A window of its own: a tab behind another is slow to a finger.
        const second = await browser.newContext({ storageState: await context.storageState() });
        const other = await second.newPage();
        watchRequests(other);
        await other.goto(at);
        await other.getByRole('region', { name: 'Photos' }).waitFor(patient);
        const hand = handOf(page);
        const photo = await rubbingPhoto(browser);
        await addAndSee(page, hand, other, [jpeg('rubbing.jpg', photo), jpeg('again.jpg', await rubbingPhoto(browser, { turn: 12 }))]);
        await nameAndHide(page, hand);
        await measureAndKeep(page, hand, drawnArea);
        await second.close();
      }));

  test('a photo whose answer is lost is tried again and kept once', { timeout: 60_000 }, () =>
    served(laptop, async (page, { context }) => {
      const saw = await sawOf(page, 'Alder 60');
      await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'book', saw })}`);
      const line = await context.newCDPSession(page);
      let turns = 0;
      line.on('Fetch.requestPaused', ({ requestId }) => {
        const lost = ++turns === 1; // the program has it, and its answer never comes
        void line.send(lost ? 'Fetch.failRequest' : 'Fetch.continueRequest', { requestId, ...(lost ? { errorReason: 'ConnectionReset' } : {}) });
      });
      await line.send('Fetch.enable', { patterns: [{ urlPattern: '*/api/do/photo?*', requestStage: 'Response' }] });
      await addPhotos(page, byPointer(page, false), [jpeg('rubbing.jpg', await rubbingPhoto(browser))]);
      await photosThere(page, 1);
      await page.getByRole('list', { name: 'Photos on their way' }).waitFor({ state: 'detached', ...patient });
      assert.equal(turns, 2, 'it was sent twice');
      await page.reload();
      await photosThere(page, 1);
    }));

  test('every screen in every look, at 1280 and 360 px, 320 px wide, and with text twice as large', { timeout: 240_000 }, () =>
    served(laptop, async (page) => {
      const saw = await sawOf(page, 'Alder 60');
      const faults = [];
      const note = (where, lines) => faults.push(...lines.map((line) => `${where}: ${line}`));
      const fits = async (where) => {
        const over = await overflows(page);
        note(where, [...(over > 0 ? [`wider than its window by ${over} px`] : []), ...(await cutOff(page))]);
      };
      await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'book', saw })}`);
      await addPhotos(page, byPointer(page, false), [jpeg('rubbing.jpg', await rubbingPhoto(browser))]);
      await photosThere(page, 1);
      const photo = new URL(await page.locator('a[href*="photo="]').first().getAttribute('href'), page.url()).searchParams.get('photo');
      for (const { at, saw: needs, photo: shows, ready, ...rest } of screens) {
        await page.setViewportSize(laptop);
        await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at, ...(needs ? { saw } : {}), ...(shows ? { photo } : {}), ...rest })}`);
        if (ready !== undefined) await page.getByRole('heading', { name: ready }).first().waitFor(patient);
        await quiet(page);
        for (const width of [1280, 360]) {
          await page.setViewportSize({ width, height: 800 });
          await quiet(page);
          for (const look of looks) {
            await wear(page, look);
            note(`${at}, ${look}, ${width} px`, await seriousFindings(page, { look: look !== looks[0] }));
            if (look === 'sunlight') await fits(`${at}, ${look}, ${width} px`);
          }
          await wear(page, 'paper');
          await enlarge(page, 2);
          await fits(`${at}, text twice as large at ${width} px`);
          await enlarge(page, 1);
        }
        await page.setViewportSize({ width: 320, height: 800 });
        await quiet(page);
        await fits(`${at}, 320 px`);
      }
      assert.deepEqual(faults, []);
    }));

  for (const [how, size, handOf] of [
    ['by the keys alone, at 1280 px', laptop, byKeys],
    ['by the finger, at 360 px', phone, (page) => byPointer(page, true)],
  ])
    test(`what the metal stands is looked at ${how}`, { timeout: 180_000 }, () =>
      served(size, async (page) => {
        const saw = await sawOf(page, 'Larch 70');
        const hand = handOf(page);
        await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'stands', saw, cuts: 'gasket out; roof exhaust +0.8 mm; widen exhaust +2 mm' })}`);
        await stood(page);
        await rungInHand(page, hand);
        await crankTurned(page);
        await placeInHand(page, hand);
        for (const look of looks) {
          await wear(page, look);
          assert.deepEqual(await seriousFindings(page, { look: look !== looks[0] }), []);
        }
        await wear(page, 'paper');
        for (const times of [2, 1]) {
          await enlarge(page, times);
          assert.deepEqual([await overflows(page), await cutOff(page)], [0, []]);
        }
        await chainStopped(page, hand);
        await noDegrees(page, saw);
      }));

  test('a curve is drawn while its speeds get ready, and what it stands comes after it', { timeout: 180_000 }, () =>
    served(laptop, async (page) => {
      const saw = await sawOf(page, 'Alder 60');
      await page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ saw, at: 'what-if', cuts: 'roof exhaust +0.6 mm' })}`);
      const curve = page.getByRole('region', { name: 'Torque and power' }).getByRole('img');
      await page.waitForFunction(() => /gains up to|loses up to|Most power|told apart/.test(globalThis.document.querySelector('section[aria-label="Torque and power"] b')?.textContent ?? ''), undefined, { timeout: 60_000 });
      assert.ok((await curve.locator('circle').count()) >= 10, 'a point at five speeds at least, for torque and for power');
      const stands = page.getByRole('region', { name: 'What it stands' });
      await stands.getByText(/^Heat: No fins were read/).waitFor({ timeout: 120_000 });
      const thrust = stands.getByRole('row', { name: /^Side thrust/ });
      const [stock, now, change] = (await thrust.getByRole('cell').allInnerTexts()).map((text) => text.trim());
      assert.ok(Number.parseFloat(stock) > 0 && Number.parseFloat(now) > 0 && /^[+\u2212][\d.]+$|^not told apart$/.test(change), `${stock}, ${now}, ${change}`);
      assert.deepEqual(await seriousFindings(page), []);
    }));

  test('a reading is kept as it is left, also one that cannot be read', { timeout: 60_000 }, () =>
    served(
      laptop,
      async (page) => {
        const hand = byPointer(page, false);
        await beginSaw(page, hand, 'Rowan 55');
        const kept = page.waitForResponse((response) => response.url().endsWith('/api/do/set') && response.ok(), patient);
        await page.getByRole('navigation', { name: 'Readings in the order of the work' }).getByRole('button', { name: /^Stroke/ }).or(page.getByRole('button', { name: /^Crank and case/ })).first().click();
        await page.getByRole('button', { name: /^Stroke/ }).click();
        await page.locator('article input').first().fill('about 34');
        await page.locator('article input').first().blur();
        await kept;
        await page.reload();
        await page.getByRole('article', { name: 'Stroke' }).waitFor(patient);
        assert.equal(await page.locator('article input').first().inputValue(), 'about 34');
        await page.getByText('Kept as typed, takes no part.').first().waitFor(patient);
      },
      'own.book',
    ));

  test('two browsers see each other within a second, and undo takes back one deed at a time', { timeout: 60_000 }, () =>
    served(
      laptop,
      async (page, { context }) => {
        await page.getByRole('button', { name: 'new saw' }).click(patient);
        await page.getByLabel('name of the saw').fill('Rowan 55');
        await page.getByRole('button', { name: 'begin' }).click();
        await page.locator('article h2').waitFor(patient);
        const other = await context.newPage();
        watchRequests(other);
        await other.goto(new URL(page.url()).origin);
        const there = other.getByRole('region', { name: 'Saws' }).getByText('Rowan 55').first();
        await there.waitFor(patient);
        const undone = page.waitForResponse((response) => response.url().endsWith('/api/do/undo'), patient);
        await page.getByRole('button', { name: 'undo', exact: true }).click();
        assert.ok((await undone).ok());
        const from = Date.now();
        await there.waitFor({ state: 'detached', ...patient });
        assert.ok(Date.now() - from < 1000 + 1000, 'the other sees it within a second, and one more for a busy machine');
        await other.close();
      },
      'own.book',
    ));

  for (const [how, size, handOf] of [
    ['by the keys alone, at 1280 px', laptop, byKeys],
    ['by the finger, at 360 px', phone, (page) => byPointer(page, true)],
  ])
    test(`a wish becomes cuts ${how}`, { timeout: 120_000 }, () =>
      served(size, async (page) => {
        const [saw, other] = [await sawOf(page, 'Alder 60'), await sawOf(page, 'Larch 70')];
        const hand = handOf(page);
        const atPlan = (of) => page.goto(`${new URL(page.url()).origin}/?${new URLSearchParams({ at: 'plan', saw: of })}`);
        const atScreen = (name) => hand.press(page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }).filter({ visible: true }).first());
        await atPlan(saw);
        await wished(page, hand);
        await takenInHand(page, hand);
        await tried(page, hand, atScreen);
        await printed(page, hand);
        await cutAtTheBench(page, hand);
        await atPlan(other);
        await contradicted(page, hand);
        assert.deepEqual(await seriousFindings(page), []);
      }));
});
