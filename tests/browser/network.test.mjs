// A phone as second screen: the machine's page lets it in, it looks and adds, and it is shown out again.

import assert from 'node:assert/strict';
import { networkInterfaces } from 'node:os';
import { after, before, test } from 'node:test';

import { launch, open, overflows, seriousFindings, serve } from './harness.mjs';

const standsInNetwork = Object.values(networkInterfaces())
  .flat()
  .some((one) => one.family === 'IPv4' && !one.internal && !one.address.startsWith('169.254.'));
const laptop = { width: 1280, height: 860 };
const phone = { width: 360, height: 780, touch: true };
const patient = { timeout: 20_000 };

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser?.close();
});

/** A phone's page; only the machine's own address is not foreign to it. */
async function phoneAt(address) {
  const context = await browser.newContext({ viewport: phone, hasTouch: true, reducedMotion: 'reduce' });
  const page = await context.newPage();
  const wrong = [];
  page.on('pageerror', (error) => wrong.push(`error: ${error.message}`));
  page.on('request', (request) => new URL(request.url()).origin === new URL(address).origin || wrong.push(`foreign: ${request.url()}`));
  await page.goto(address);
  return { page, wrong, context };
}

async function sound(page, where) {
  assert.ok((await overflows(page)) <= 0, `${where} is wider than its window`);
  assert.deepEqual(await seriousFindings(page), [], where);
}

test('a phone is paired by its digits, adds a note, deletes nothing, and is revoked', { timeout: 180_000, skip: standsInNetwork ? false : 'this machine stands in no network' }, async () => {
  const server = await serve();
  try {
    const { page, wrong, context } = await open(browser, server.address, laptop);
    await page.getByText('Alder 60').first().waitFor(patient);
    const saw = new URL(await page.locator('a[href*="saw="]', { hasText: 'Alder 60' }).first().getAttribute('href'), page.url()).searchParams.get('saw');
    await page.goto(`${new URL(page.url()).origin}/?at=settings`);
    const network = page.getByRole('region', { name: 'Network' });
    await network.getByRole('button', { name: 'let paired devices in' }).click(patient);
    await network.getByRole('button', { name: 'pair a device' }).click(patient);
    await network.locator('.qr svg path').first().waitFor(patient);
    const digits = (await network.locator('.digits').innerText()).trim();
    assert.match(digits, /^\d{4} \d{4}$/);
    const address = (await network.locator('.url').first().innerText()).trim();
    await sound(page, 'settings of the machine');

    const hand = await phoneAt(address);
    await hand.page.getByLabel('the eight digits').fill(digits === '1111 1111' ? '2222' : '1111 1111', patient);
    await hand.page.getByLabel('what this device is called').fill('bench phone');
    await hand.page.getByRole('button', { name: 'pair this device' }).click();
    await hand.page.getByText('wrong, used already').waitFor(patient);
    await sound(hand.page, 'pairing');
    await hand.page.getByLabel('the eight digits').fill(digits);
    await hand.page.getByRole('button', { name: 'pair this device' }).click();
    await hand.page.getByText('Alder 60').first().waitFor(patient);
    await network.locator('.name', { hasText: 'bench phone' }).waitFor(patient);

    await hand.page.goto(`${address}?at=settings`);
    await hand.page.getByText('It reads everything and adds').waitFor(patient);
    assert.equal(await hand.page.getByRole('region', { name: 'Network' }).count(), 0);
    await sound(hand.page, 'settings of a device');
    const refused = await hand.page.evaluate(async (id) => {
      const ask = (path, body) => fetch(`/api/${path}`, { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Portwright': '1' }, body: JSON.stringify(body) }).then((answer) => answer.status);
      return [await ask('do/note', { saw: id, text: 'from the phone' }), await ask('do/hide', { saw: id }), await ask('ask/network', {})];
    }, saw);
    assert.deepEqual(refused, [200, 403, 403]);

    await network.getByRole('button', { name: 'revoke bench phone' }).click(patient);
    await network.getByRole('button', { name: /let it in no more/ }).click(patient);
    await network.locator('.name', { hasText: 'bench phone' }).waitFor({ state: 'detached', ...patient });
    await hand.page.reload();
    await hand.page.goto(address);
    await hand.page.getByText('not paired with the bench').waitFor(patient);
    assert.deepEqual(hand.wrong, []);
    await hand.context.close();

    await network.getByRole('button', { name: 'switch off' }).click(patient);
    await network.getByRole('button', { name: 'let paired devices in' }).waitFor(patient);
    await assert.rejects(fetch(address));
    assert.deepEqual(wrong, []);
    await context.close();
  } finally {
    assert.equal(await server.end(), 0);
  }
});

test('a second browser of the machine comes in by an address that the first one makes', { timeout: 120_000 }, async () => {
  const server = await serve();
  try {
    const { page, wrong, context } = await open(browser, server.address, laptop);
    await page.getByText('Alder 60').first().waitFor(patient);
    await page.goto(`${new URL(page.url()).origin}/?at=settings`);
    await page.getByRole('button', { name: 'make an address' }).click(patient);
    const address = (await page.locator('.address').innerText()).trim();
    const second = await open(browser, address, laptop);
    await second.page.getByText('Alder 60').first().waitFor(patient);
    const third = await open(browser, address, laptop);
    await third.page.getByText('used already').first().waitFor(patient);
    assert.deepEqual([...wrong, ...second.wrong], []);
    for (const one of [second, third]) await one.context.close();
    await context.close();
  } finally {
    assert.equal(await server.end(), 0);
  }
});
