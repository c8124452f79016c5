// A wish about the engine, as a builder searches for it: what is wanted, what may be cut, begun, stopped, gone on with,
// and an answer on paper.

import assert from 'node:assert/strict';

import { assertSoon } from './walk.mjs';

const patient = { timeout: 20_000 };
const long = { timeout: 90_000 };
const search = (page) => page.getByRole('region', { name: 'The search' });

/** What is wanted by a key, what must hold typed, one cut ticked with its end. */
export async function wantsOfTheEngine(page, hand) {
  await hand.press(page.getByRole('button', { name: 'or wish something of the engine' }));
  await hand.press(page.getByRole('group', { name: 'What is wanted most' }).getByRole('button', { name: 'most power' }));
  await hand.type(page.getByLabel('the same, typed'), 'most power; squish at least 0.6 mm');
  await hand.press(page.getByRole('group', { name: 'What must hold' }).getByRole('button', { name: 'low speed free' }));
  assert.equal(await page.getByLabel('the same, typed').inputValue(), 'most power; squish at least 0.6 mm; low speed free');
  const free = page.getByRole('region', { name: 'Cuts that are free' });
  await hand.press(free.getByRole('button', { name: 'roof exhaust' }));
  await hand.type(free.getByLabel('roof exhaust: up to'), '1.5 mm');
  assert.equal(new URL(page.url()).searchParams.get('free'), 'roof exhaust up to 1.5 mm');
}

/** Begun; the picture grows; stopped early, it keeps what it has, and goes on from there. */
export async function searchesAndStops(page, hand) {
  await hand.press(search(page).getByRole('button', { name: 'start', exact: true }));
  const picture = search(page).getByRole('img', { name: /^Pull against most power/ });
  await picture.waitFor(long);
  assert.ok((await picture.locator('circle').count()) >= 1, 'a dot for what was tried');
  await hand.press(search(page).getByRole('button', { name: 'stop', exact: true }));
  await search(page).getByText('Stopped; what was tried is kept.').waitFor(patient);
  assert.ok((await picture.locator('circle').count()) >= 1, 'what was tried is still there');
}

/** Ends with answers: each with its changes and ranges, or that nothing can be told from stock; one goes on paper. */
export async function takesAnAnswer(page, hand) {
  await hand.press(search(page).getByRole('button', { name: 'take what there is' }));
  const answers = page.getByRole('list', { name: 'Lists to choose from' });
  await answers.waitFor(long);
  const first = answers.getByRole('listitem').first();
  assert.match(await first.innerText(), /Pull[^]*(not told apart|%)[^]*Heat into the wall[^]*exhaust roof/);
  assert.match(await search(page).innerText(), /The best found gives|[Nn]othing found can be told from stock/);
  const made = page.waitForResponse((response) => response.url().endsWith('/api/sheet/cuts'), patient);
  await hand.press(answers.getByRole('button', { name: 'cut sheet of list 1' }));
  const answer = await made;
  assert.equal(answer.status(), 200);
  assert.match(answer.headers()['content-type'], /pdf/);
  assert.match(answer.request().postDataJSON().cuts, /^roof exhaust \+[\d.]+ mm$/);
  await hand.press(answers.getByRole('button', { name: 'look at it in What if' }).first());
  await page.getByText('Exhaust roof higher').first().waitFor(patient);
  await assertSoon(async () => new URL(page.url()).searchParams.get('at') === 'what-if', 'it is a what-if now');
}
