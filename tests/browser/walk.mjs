// The whole job, once, as a builder does it: told to a hand, so that keys and pointer do the same.

import assert from 'node:assert/strict';

const patient = { timeout: 20_000 };

/** What is read, in the order it is read: group of the index, label in it, what is typed. */
const readings = [
  ['Crank and case', 'Bore', '46 mm'],
  ['Crank and case', 'Stroke', '34 mm'],
  ['Cylinder off', 'Crown edge above the base face, TDC', '58 mm'],
  ['Squish and chamber', 'Squish, exhaust', '0.3 mm'],
];

export const answered = (page, name) => page.waitForResponse((response) => response.url().endsWith(`/api/do/${name}`) && response.ok(), patient);

/** Takes a field in hand through the index; on a phone the index is behind "all". */
export async function take(page, hand, group, label) {
  const index = page.getByRole('navigation', { name: 'Readings in the order of the work' });
  if (!(await index.isVisible())) await hand.press(page.getByRole('button', { name: 'all', exact: true }));
  const head = index.getByRole('button', { name: new RegExp(`^${group}\\b`), expanded: false });
  if ((await head.count()) > 0) await hand.press(head.first());
  const own = index.locator('section').filter({ has: page.getByRole('heading', { name: new RegExp(`^${group}\\b`) }) });
  await hand.press(own.getByRole('listitem').getByRole('button', { name: new RegExp(`^${label}(?![\\w,])`) }).first());
}

export const field = (page) => page.locator('article input').first();

/** Types into the field in hand, and waits until the book has it. */
export async function read(page, hand, text) {
  const kept = answered(page, 'set');
  await hand.type(field(page), text);
  await kept;
}

export async function atScreen(page, hand, name) {
  await hand.press(page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }).filter({ visible: true }).first());
}

/** A saw from nothing, with the readings that give figures. */
export async function beginSaw(page, hand, name) {
  await hand.press(page.getByRole('button', { name: 'new saw' }));
  const made = answered(page, 'new');
  await hand.type(page.getByLabel('name of the saw'), name);
  await made;
  await page.locator('article h2').waitFor(patient);
  for (const [group, label, text] of readings) {
    await take(page, hand, group, label);
    await read(page, hand, text);
  }
}

/** An exhaust read in two ways that cannot both be true: both are shown with what parts them; then one is read again. */
export async function contradictAndMend(page, hand) {
  const added = answered(page, 'set');
  await hand.press(page.getByRole('button', { name: 'exhaust', exact: true }).filter({ visible: true }));
  await added;
  await page.getByRole('article', { name: 'Exhaust opens' }).waitFor(patient);
  await read(page, hand, '105 deg');
  await take(page, hand, 'Window: exhaust', 'Roof');
  await read(page, hand, '36.4 mm');
  await take(page, hand, 'Window: exhaust', 'Roof');
  const apart = page.getByRole('article').getByText('Two readings of one edge');
  await apart.waitFor(patient);
  const said = await page.getByRole('article').innerText();
  assert.match(said, /opens: 34\.\d+ mm/, 'the reading of the wheel');
  assert.match(said, /roof: 36\.\d+ mm/, 'the reading of the height');
  assert.match(said, /[12]\.\d+ mm .*apart/, 'what parts them');
  await read(page, hand, '34.35 mm');
  await take(page, hand, 'Window: exhaust', 'Roof');
  await page.getByRole('article').getByText(/^Agrees with opens/).waitFor(patient);
  await apart.waitFor({ state: 'detached', ...patient });
  for (const [label, text] of [['Floor', '24.1 mm'], ['Chord', '26 mm']]) {
    await take(page, hand, 'Window: exhaust', label);
    await read(page, hand, text);
  }
}

/** The squish is too tight: the finding says so, why it matters, and what its range comes from. */
export async function findAndWhy(page, hand) {
  await atScreen(page, hand, 'What it is');
  const finding = page.getByRole('listitem').filter({ hasText: 'Working squish' }).filter({ hasText: /Stop|Caution/ });
  await hand.press(finding.getByRole('button', { name: 'why' }).first());
  await page.getByText('What range comes from').or(page.getByText('What the range comes from')).first().waitFor(patient);
}

export async function addCut(page, hand, target, title) {
  await hand.press(page.getByRole('button', { name: 'add a cut' }));
  await hand.press(page.getByRole('group', { name: 'What to cut' }).getByRole('button', { name: target, exact: true }));
  await hand.press(page.getByRole('list', { name: 'Cuts that this saw allows' }).getByRole('button', { name: title, exact: true }));
}

/** Three cuts tried, held against stock, one kept as a plan. */
export async function cutAndKeep(page, hand) {
  await atScreen(page, hand, 'What if');
  for (const [target, title] of [['base, head and rest', 'Base face cut'], ['exhaust', 'Exhaust wider, each side'], ['exhaust', 'Exhaust roof higher']]) {
    await addCut(page, hand, target, title);
    const more = title === 'Base face cut' ? 'less' : 'more';
    for (let k = 0; k < 3; ++k) await hand.press(page.getByRole('button', { name: `${title}: ${more}` }));
  }
  const opens = page.getByRole('region', { name: 'What moves, as a table' }).getByRole('row', { name: /^Exhaust \u00b0/ });
  const cells = opens.getByRole('cell');
  await assertSoon(async () => {
    const [stock, now, change] = (await cells.allInnerTexts()).map((text) => Number.parseFloat(text.replace('\u2212', '-')));
    return Math.abs(now - stock - change) < 0.2 && change < -0.5;
  }, 'the roof opens sooner, and stock, what-if and change agree');

  await hand.press(page.getByRole('button', { name: 'second what-if' }));
  for (const title of ['Base face cut', 'Exhaust wider, each side']) {
    const phone = await page.getByRole('button', { name: 'The cut before' }).isVisible().catch(() => false);
    if (phone) while (await page.getByRole('button', { name: 'The cut before' }).filter({ visible: true }).isEnabled().catch(() => false)) await hand.press(page.getByRole('button', { name: 'The cut before' }));
    else await hand.press(page.getByRole('button', { name: new RegExp(`^Take cut \\d: ${title}`) }));
    await hand.press(page.getByRole('button', { name: 'take it out' }).first());
  }
  const both = page.getByRole('region', { name: 'Two what-ifs side by side' });
  await assertSoon(async () => /Blowdown|Squish clearance|Exhaust opens/.test(await both.innerText().catch(() => '')), 'two what-ifs stand side by side');
  await hand.press(page.getByRole('button', { name: 'drop the other' }));

  await hand.press(page.getByRole('button', { name: 'keep as plan' }));
  const kept = answered(page, 'cut');
  await hand.type(page.getByLabel('Name of the plan'), 'Roof alone');
  await kept;
}

export async function assertSoon(holds, what) {
  const until = Date.now() + patient.timeout;
  while (!(await holds())) {
    assert.ok(Date.now() < until, what);
    await new Promise((done) => setTimeout(done, 60));
  }
}

/** Presses undo or redo until there is nothing more; answers how often it did something. */
async function allOf(page, hand, name) {
  for (let done = 0; ; ++done) {
    const answer = page.waitForResponse((response) => response.url().endsWith(`/api/do/${name}`), patient);
    await hand.press(page.getByRole('button', { name, exact: true }));
    if ((await (await answer).text()).includes('"action": null') || (await answer).status() === 404) return done;
    assert.ok(done < 60, `${name} comes to an end`);
  }
}

/** Everything is taken back, deed by deed, and everything comes again; a reload finds all of it. */
export async function undoRedoReload(page, hand, name) {
  await hand.press(page.getByRole('banner').getByRole('link', { name, exact: true }));
  const row = page.getByRole('region', { name: 'Saws' }).getByRole('link', { name: new RegExp(name) });
  await row.waitFor(patient);
  const back = await allOf(page, hand, 'undo');
  assert.ok(back >= readings.length + 6, `every deed was taken back: ${back}`);
  await row.waitFor({ state: 'detached', ...patient });
  assert.equal(await allOf(page, hand, 'redo'), back, 'and as many were done again');
  await page.reload();
  await row.waitFor(patient);
  assert.match(await row.innerText(), /^8\b/m, 'all eight readings');
  await hand.press(row);
  await atScreen(page, hand, 'Readings');
  await page.locator('article h2').waitFor(patient);
  for (const [group, label, text] of [...readings, ['Window: exhaust', 'Roof', '34.35 mm']]) {
    await take(page, hand, group, label);
    await assertSoon(async () => (await field(page).inputValue()).replace(',', '.') === text, `${label} is ${text} again`);
  }
  await atScreen(page, hand, 'Book');
  await page.getByText('Roof alone').first().waitFor(patient);
}

const photos = (page) => page.getByRole('region', { name: 'Photos' });
const thumbs = (page) => photos(page).locator('a[href*="at=photo"]');

/** Adds photos to the saw in hand, through the browser's own way to choose files. */
export async function addPhotos(page, hand, files) {
  const chooser = page.waitForEvent('filechooser', patient);
  await hand.press(photos(page).getByRole('button', { name: 'add photos' }));
  await (await chooser).setFiles(files);
}

/** So many photos are in the book, and their thumbnails are pictures. */
export async function photosThere(page, count) {
  await thumbs(page).nth(count - 1).waitFor(patient);
  assert.equal(await thumbs(page).count(), count);
  await assertSoon(() => thumbs(page).locator('img').evaluateAll((all) => all.every((one) => one.complete && one.naturalWidth > 0)), 'every thumbnail is a picture');
}

/** Two photos in, seen by the other browser at once; what is none is said and never sent. */
export async function addAndSee(page, hand, other, files) {
  await atScreen(page, hand, 'Book');
  const from = Date.now();
  await addPhotos(page, hand, files);
  await photosThere(page, files.length);
  const kept = Date.now();
  await photosThere(other, files.length);
  assert.ok(Date.now() - kept < 1000 + 1000, `the other sees it within a second, and one more for a busy machine; it took ${kept - from} ms to add them`);
  const heic = Buffer.from('\0\0\0\x18ftypheic', 'latin1');
  await addPhotos(page, hand, [{ name: 'camera.heic', mimeType: 'image/heic', buffer: heic }]);
  await photos(page).getByText('HEIC picture').waitFor(patient);
  await hand.press(photos(page).getByRole('button', { name: 'put away camera.heic' }));
  await photos(page).getByText('HEIC picture').waitFor({ state: 'detached', ...patient });
}

/** Says what a photo shows, hides it, and brings it back by undo. */
export async function nameAndHide(page, hand) {
  await hand.press(thumbs(page).first());
  const named = answered(page, 'caption');
  await hand.type(page.getByLabel('what it shows'), 'rubbing of the exhaust');
  await named;
  await page.getByRole('img', { name: 'rubbing of the exhaust' }).waitFor(patient);
  const hidden = answered(page, 'hide-photo');
  await hand.press(page.getByRole('button', { name: 'hide it' }));
  await hidden;
  await page.getByRole('heading', { name: 'Photo 1 of 1' }).waitFor(patient);
  const undone = answered(page, 'undo');
  await hand.press(page.getByRole('banner').getByRole('button', { name: 'undo', exact: true }));
  await undone;
  await hand.press(page.getByRole('link', { name: 'all photos' }));
  await photosThere(page, 2);
  await photos(page).getByText('rubbing of the exhaust').waitFor(patient);
}

/** What the page asked last about the rubbing. */
const asked = (page, has) => page.waitForRequest((request) => request.url().endsWith('/api/ask/rubbing') && has(request.postDataJSON()), patient);

/** Measures the window on a photo and keeps it; then takes that back. */
export async function measureAndKeep(page, hand, area) {
  await hand.press(thumbs(page).first());
  await hand.press(page.getByRole('link', { name: 'measure a rubbing' }));
  const out = page.getByRole('region', { name: 'What comes out' });
  await out.getByText('Height along the bore').waitFor(patient);
  for (const [label, text] of [['across', '120.0 mm'], ['down, roof to floor', '120.0 mm']]) {
    const question = asked(page, (hints) => hints[label.split(',')[0]] === text);
    await hand.type(page.getByLabel(label), text);
    await question;
  }
  const flat = asked(page, (hints) => hints.taped);
  await hand.press(page.getByRole('button', { name: 'taped by all its edges' }));
  await flat;
  const corner = page.getByRole('button', { name: 'Corner: roof, right' });
  const moved = asked(page, (hints) => hints.corners.length === 4);
  await hand.draw(corner);
  await moved;
  const back = asked(page, (hints) => hints.corners.length === 0);
  await hand.press(page.getByRole('button', { name: 'as found' }));
  await back;
  await hand.press(page.getByRole('group', { name: 'Port' }).getByRole('button', { name: 'exhaust', exact: true }));
  const keep = out.getByRole('button', { name: 'keep as reading of exhaust' });
  await assertSoon(() => keep.isEnabled(), 'it can be kept once the square is measured and the port is said');
  const [value, low, high] = await out.locator('.area').evaluate((one) => ['.value', '.low', '.high'].map((part) => Number.parseFloat(one.querySelector(part).textContent)));
  assert.ok(low < area && area < high, `${area} cm2 is within ${low} and ${high}`);
  assert.ok(Math.abs(value - area) < 0.02 * area, `${value} is ${area} to 2 %`);
  const kept = answered(page, 'rubbing');
  await hand.press(keep);
  await kept;
  await atScreen(page, hand, 'Book');
  await page.getByRole('listitem').filter({ hasText: /^exhaust .*cm² from/ }).getByRole('link', { name: 'its photo' }).waitFor(patient);
  await atScreen(page, hand, 'Readings');
  await page.locator('article h2').waitFor(patient);
  await take(page, hand, 'Window: exhaust', 'Outline');
  assert.match(await field(page).inputValue(), /^-?[\d.]+ mm, [\d.]+ mm; -?[\d.]+ mm/, 'the outline is a reading');
  const undone = answered(page, 'undo');
  await hand.press(page.getByRole('button', { name: 'undo', exact: true }));
  await undone;
  await assertSoon(async () => (await field(page).inputValue()) === '', 'one undo takes all of it back');
}
