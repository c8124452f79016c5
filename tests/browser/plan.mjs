// From a wish to cuts, as a builder does it: told in a line and in a row, a way taken in hand, tried, cut, printed; and
// wishes that cannot be had.

import assert from 'node:assert/strict';

const patient = { timeout: 20_000 };

const line = (page) => page.getByLabel('the same, typed');
const ways = (page) => page.getByRole('region', { name: 'Ways to reach it' });

/** On a phone, one of the two parts of the work. */
async function part(page, hand, name) {
  const key = page.getByRole('group', { name: 'Part of the work' }).getByRole('button', { name });
  if ((await key.count()) > 0) await hand.press(key);
}

async function soon(holds, what) {
  const until = Date.now() + patient.timeout;
  while (!(await holds())) {
    assert.ok(Date.now() < until, what);
    await new Promise((done) => setTimeout(done, 60));
  }
}

/** Two wishes in a line, a third in a row beside its stock; both say the same. */
export async function wished(page, hand) {
  await hand.type(line(page), 'exhaust at 99 deg; squish 0.7 mm');
  await ways(page).getByRole('heading', { name: /ways to reach it/ }).waitFor(patient);
  const wish = page.getByRole('region', { name: 'What is wished' });
  assert.equal(await wish.getByLabel('exhaust opens: value with its unit').inputValue(), '99 deg');
  await wish.getByText('stock 104.8 deg').waitFor(patient);
  await hand.press(page.getByRole('button', { name: 'add a wish' }));
  await hand.press(page.getByRole('group', { name: 'What to wish of' }).getByRole('button', { name: 'exhaust', exact: true }));
  await hand.press(page.getByRole('list', { name: 'Figures that can be wished' }).getByRole('button', { name: /^exhaust width/ }));
  await hand.type(wish.getByLabel('exhaust width: value with its unit'), '60 %');
  await soon(async () => (await line(page).inputValue()) === 'exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %', 'the line says what the rows say');
  await ways(page).getByText(/Widen the exhaust/).first().waitFor(patient);
}

/** The way that leaves the gasket in: what it reaches, what rounding leaves, its limits; the bore is drawn with it. */
export async function takenInHand(page, hand) {
  const way = ways(page).getByRole('listitem').filter({ hasText: 'off the base face' }).getByRole('button', { name: /^\d Way \d/ });
  await hand.press(way);
  assert.equal(await way.getAttribute('aria-pressed'), 'true');
  const full = ways(page).getByRole('region', { name: /^Way \d in full/ });
  await soon(async () => {
    const text = await full.innerText();
    return /Exhaust opens[^]*asked 99\.0 deg[^]*(rounding leaves [+\u2212][\d.]+ deg|met)/.test(text) && /Working squish[^]*mm \(\d+ thou\) left/.test(text);
  }, 'wishes with what rounding leaves, limits with what is left');
  await page.getByRole('region', { name: 'The way in hand' }).getByText(/^Against stock the exhaust opens 5\.\d\u00b0 sooner/).waitFor(patient);
}

/** The way goes on to the what-if with its cuts, and the wish is still there on the way back. */
export async function tried(page, hand, atScreen) {
  await hand.press(page.getByRole('button', { name: 'Try it in What if' }));
  await page.getByText('Base face cut').first().waitFor(patient);
  assert.match(new URL(page.url()).searchParams.get('cuts'), /^base -0\.35 mm; /);
  await atScreen('Plan');
  assert.equal(await line(page).inputValue(), 'exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %');
}

/** A cut sheet comes as a PDF. */
export async function printed(page, hand) {
  const sheet = page.waitForResponse((response) => response.url().endsWith('/api/sheet/cuts'), patient);
  await hand.press(page.getByRole('region', { name: 'Cut sheet' }).getByRole('button', { name: /A5/ }));
  const answer = await sheet;
  assert.equal(answer.status(), 200);
  assert.match(answer.headers()['content-type'], /pdf/);
  assert.equal(answer.request().postDataJSON().paper, 'A5');
}

/** The base is cut a little deeper than planned: planned beside done, and the rest anew; then it is kept. */
export async function cutAtTheBench(page, hand) {
  await part(page, hand, 'at the bench');
  const bench = page.getByRole('region', { name: 'At the bench' });
  const before = await bench.getByRole('button', { name: /^done: Raise the exhaust roof/ }).getAttribute('aria-label');
  await hand.type(bench.getByLabel('as it was really cut, base'), '0.33 mm');
  await hand.press(bench.getByRole('button', { name: /^done: Turn 0\.35 mm/ }));
  await bench.getByText('planned \u22120.35 mm, 0.02 mm less was cut').waitFor(patient);
  await bench.getByText('Where each wish stands now').waitFor(patient);
  await soon(async () => {
    const roof = bench.getByRole('button', { name: /^done: Raise the exhaust roof/ });
    return (await roof.count()) === 1 && (await roof.isEnabled()) && (await roof.getAttribute('aria-label')) !== before;
  }, 'the rest is planned anew from what was cut');
  await page.reload();
  await bench.getByText('planned \u22120.35 mm, 0.02 mm less was cut').waitFor(patient);
  const kept = page.waitForResponse((response) => response.url().endsWith('/api/do/cut') && response.ok(), patient);
  await hand.press(bench.getByRole('button', { name: 'keep it in the book as done' }));
  assert.deepEqual(((one) => [one.cuts, one.done])((await kept).request().postDataJSON()), ['base -0.33 mm', true]);
  await bench.getByText('What is done is in the book.').waitFor(patient);
  await hand.press(bench.getByRole('button', { name: 'take back: base -0.33 mm' }));
  await hand.press(bench.getByRole('button', { name: 'take it up' }).first());
  await bench.getByRole('button', { name: 'take back: base -0.33 mm' }).waitFor(patient);
  await part(page, hand, 'wish and ways');
}

/** What could mean more than one thing is asked; what contradicts itself says by how much, and what would do. */
export async function contradicted(page, hand) {
  const trouble = page.getByRole('alert', { name: 'Why there is no plan' });
  await hand.type(line(page), 'exhaust 99 deg; primary at 119 deg; blowdown 22 deg');
  await hand.press(trouble.getByRole('button', { name: 'exhaust opens 99 deg' }));
  await trouble.getByText(/exhaust opens comes to 97\.0 deg at nearest, 99\.0 deg is asked, 2\.0 deg apart/).waitFor(patient);
  await hand.press(trouble.getByRole('button', { name: 'leave out blowdown 22 deg' }));
  await ways(page).getByText(/Raise the exhaust roof/).first().waitFor(patient);
  assert.equal(await trouble.count(), 0);
  assert.equal(await line(page).inputValue(), 'exhaust opens 99 deg; primary at 119 deg');
}
