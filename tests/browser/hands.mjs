// Two ways to work a page: by the keys alone, and by a finger or mouse. A walk is written once and done by either.

import assert from 'node:assert/strict';

const patient = { timeout: 20_000 };

/** Keys alone: what is wanted is reached by Tab and Shift+Tab, must show that it is, and is pressed by Enter. */
export function byKeys(page) {
  /** Where the keyboard is: here, before, after what is wanted, or nowhere. */
  const side = (wanted) =>
    wanted.evaluate((element) => {
      const { document, Node } = globalThis;
      const now = document.activeElement;
      if (now === element) return 'here';
      if (now === null || now === document.body) return 'nowhere';
      return element.compareDocumentPosition(now) & Node.DOCUMENT_POSITION_FOLLOWING ? 'after' : 'before';
    });

  async function reach(locator) {
    await locator.waitFor(patient);
    for (let presses = 0; presses < 300; ++presses) {
      const where = await side(locator);
      if (where === 'here') return;
      await page.keyboard.press(where === 'after' ? 'Shift+Tab' : 'Tab');
    }
    assert.fail(`the keyboard does not reach ${locator}`);
  }

  async function isShown(locator) {
    const { outline, shadow } = await locator.evaluate((element) => {
      const style = globalThis.getComputedStyle(element);
      return { outline: style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 1, shadow: style.boxShadow !== 'none' };
    });
    assert.ok(outline || shadow, `it shows where the keyboard is: ${locator}`);
  }

  return {
    name: 'the keys',
    async press(locator) {
      await reach(locator);
      await isShown(locator);
      await page.keyboard.press('Enter');
    },
    /** Moves something that can be drawn about, to the right. */
    async draw(locator) {
      await reach(locator);
      await isShown(locator);
      for (let k = 0; k < 3; ++k) await page.keyboard.press('Shift+ArrowRight');
    },
    /** Types into a field and leaves it by Enter. */
    async type(locator, text) {
      await reach(locator);
      await isShown(locator);
      await page.keyboard.press('Control+A');
      await page.keyboard.insertText(text);
      await page.keyboard.press('Enter');
    },
  };
}

/** A mouse, or a finger where the page is touched: the page's own keypad where it offers one. */
export function byPointer(page, touch) {
  const press = async (locator) => {
    await locator.waitFor(patient);
    await (touch ? locator.tap(patient) : locator.click(patient));
  };
  const words = { '.': 'comma', ',': 'comma', '/': 'fraction' };

  async function byKeypad(pad, text) {
    for (let k = 0; k < 12 && (await page.locator('article input').first().inputValue()) !== ''; ++k) await press(pad.getByRole('button', { name: 'rub out' }));
    const [number, unit] = text.split(' ');
    for (const sign of number) await press(pad.getByRole('button', { name: words[sign] ?? sign, exact: true }));
    if (unit !== undefined) await press(pad.getByRole('button', { name: unit, exact: true }));
  }

  /** The finger as the browser itself tells it. */
  async function byTouch(from, to) {
    const touches = await page.context().newCDPSession(page);
    const tell = (type, point) => touches.send('Input.dispatchTouchEvent', { type, touchPoints: point === undefined ? [] : [point] });
    await tell('touchStart', from);
    for (const share of [0.3, 0.6, 1]) await tell('touchMove', { x: from.x + share * (to.x - from.x), y: from.y });
    await tell('touchEnd');
    await touches.detach();
  }

  return {
    name: touch ? 'a finger' : 'a mouse',
    press,
    async draw(locator) {
      await locator.scrollIntoViewIfNeeded(patient);
      const box = await locator.boundingBox();
      const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      const to = { x: from.x + 12, y: from.y };
      if (touch) return byTouch(from, to);
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(to.x, to.y, { steps: 4 });
      await page.mouse.up();
    },
    async type(locator, text) {
      const pad = page.getByRole('group', { name: 'Keypad' });
      if ((await pad.count()) > 0 && (await locator.evaluate((element) => element.inputMode === 'none'))) await byKeypad(pad, text);
      else {
        await press(locator);
        await locator.fill(text, patient);
      }
      const on = page.locator('.onward .on, form:has(input:focus) [type=submit]').last();
      if ((await on.count()) > 0) await press(on);
      else await locator.blur(patient); // kept as it is left
    },
  };
}
