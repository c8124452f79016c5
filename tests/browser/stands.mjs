// What the metal stands, as a builder looks at it: a rung in hand, the crank turned, places of heat, the chain begun and
// stopped; and a saw whose spot was not read, of which no degree is told.

import assert from 'node:assert/strict';

const patient = { timeout: 30_000 };

const heat = (page) => page.getByRole('region', { name: 'Where it runs hot' });
const places = (page) => page.getByRole('region', { name: 'Places and figures of heat' });

/** Until the ladder, then heat, is there. */
export async function stood(page) {
  await page.getByRole('region', { name: 'The bottom end' }).getByRole('group', { name: /^Ladder of speeds/ }).waitFor(patient);
  await heat(page).getByRole('img', { name: /^The bore unrolled/ }).waitFor(patient);
}

/** A rung says what happens there, and what would move it. */
export async function rungInHand(page, hand) {
  const ladder = page.getByRole('region', { name: 'The bottom end' });
  const rung = ladder.getByRole('button', { name: /^Big end, static rating reached, hard limit: free/ });
  await hand.press(rung);
  await ladder.getByText('A hard limit: it sets the ceiling.').waitFor(patient);
  assert.equal(await rung.getAttribute('aria-expanded'), 'true');
  await hand.press(ladder.getByRole('button', { name: 'as a table' }).first());
  const table = ladder.getByRole('region', { name: 'Ladder of speeds, as a table' });
  assert.match(await table.getByRole('row', { name: /^Big end, static/ }).innerText(), /hard limit/);
}

/** The crank under the loads: the sentence follows it. */
export async function crankTurned(page) {
  const crank = page.getByRole('region', { name: 'The bottom end' }).getByRole('slider', { name: 'Crank angle' });
  await crank.focus();
  await page.keyboard.press('End');
  await page.getByText(/^At BDC the piston leans/).waitFor(patient);
}

/** A place of the list is marked on the map, and every difference has its range. */
export async function placeInHand(page, hand) {
  const map = heat(page).getByRole('img', { name: /^The bore unrolled/ });
  const before = await map.locator('circle').count();
  const place = places(page).getByRole('button', { name: /near TDC/ }).first();
  await hand.press(place);
  assert.equal(await place.getAttribute('aria-pressed'), 'true');
  assert.equal(await map.locator('circle').count(), before + 2, 'a ring on the map, with its halo');
  for (const text of await map.locator('text').allTextContents()) assert.doesNotMatch(text, /\bK\b|\u00b0/, 'no number without its range on the map');
}

/** The chain is asked for by a key, says how far it is, and can be stopped. */
export async function chainStopped(page, hand) {
  const wood = page.getByRole('region', { name: 'What reaches the wood' });
  const begun = page.waitForResponse((response) => response.url().endsWith('/api/run/chain') && response.ok(), patient);
  await hand.press(wood.getByRole('button', { name: 'Find the sprocket' }));
  await begun;
  await wood.getByRole('status').filter({ hasText: '%' }).waitFor(patient);
  await hand.press(wood.getByRole('button', { name: 'stop', exact: true }));
  await wood.getByRole('button', { name: 'Find the sprocket' }).waitFor(patient);
}

/** Takes the spot's reading out; the page then tells order and differences, and no degree. */
export async function noDegrees(page, saw) {
  assert.match(await places(page).innerText(), /\d \u00b0C/, 'degrees while the spot is read');
  for (const field of ['value', 'at', 'where']) {
    const status = await page.evaluate(async ([id, path]) => {
      const letters = Array.from(globalThis.crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, '0')).join('');
      const headers = { 'Content-Type': 'application/json', 'X-Portwright': '1' };
      const form = await (await fetch('/api/ask/form', { method: 'POST', headers, body: JSON.stringify({ saw: id }) })).json();
      const body = { saw: id, base: form.revision, field: path, clear: true, client: globalThis.sessionStorage.getItem('portwright.tab'), token: letters };
      return (await fetch('/api/do/set', { method: 'POST', headers, body: JSON.stringify(body) })).status;
    }, [saw, `readings.spot.${field}`]);
    assert.equal(status, 200);
  }
  await heat(page).getByText(/^No spot was read on this saw/).waitFor(patient);
  await heat(page).getByRole('img', { name: /^The bore unrolled/ }).waitFor(patient);
  for (const region of [heat(page), places(page)]) {
    assert.doesNotMatch(await region.innerText(), /\u00b0|\d\s?C\b/, 'no degree without a spot');
    const spoken = await region.evaluate((element) => [...element.querySelectorAll('[aria-label]')].map((one) => one.getAttribute('aria-label')).join('\n'));
    assert.doesNotMatch(spoken, /\u00b0|\d\s?C\b/, 'nor spoken');
  }
  assert.match(await places(page).innerText(), /waits for spot/, 'the figures wait for a spot');
}
