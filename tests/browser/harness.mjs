// Starts the program's own server on a book in a folder of its own, and a browser that may speak to nothing else.

import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const web = fileURLToPath(new URL('../../web/', import.meta.url));
const require = createRequire(join(web, 'package.json'));
const { chromium } = require('playwright-core');
export const axeSource = require('axe-core').source;

const program = process.env.PORTWRIGHT_PROGRAM;
const chromiumPath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const isRoot = process.getuid() === 0;

// What hangs is said by name, and ends: a browser or a server that never answers must not hold up the rest.
const started = [];
const minutes = 5;
setTimeout(() => {
  console.error(`the walk is not done after ${minutes} minutes; servers that still run: ${started.filter((child) => child.exitCode === null).length}`);
  for (const child of started) child.kill('SIGKILL');
  process.exit(1);
}, minutes * 60_000).unref();
process.on('exit', () => started.forEach((child) => child.kill('SIGKILL')));

/** Starts `portwright serve`, in a folder of its own or in one that another server left; answers its address with the
 * token, its folder, and how to end it. */
export async function serve({ book, folder = mkdtempSync(join(tmpdir(), 'portwright-browser-')) } = {}) {
  chmodSync(folder, 0o700);
  const child = spawn(program, ['serve', '--no-browser', ...(isRoot ? ['--as-root'] : []), ...(book ? ['--book', join(folder, book)] : [])], {
    env: { ...process.env, XDG_DATA_HOME: join(folder, 'data'), XDG_STATE_HOME: join(folder, 'state'), HOME: folder, PORTWRIGHT_BOOK: '', PORTWRIGHT_AUTHOR: 'builder' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  started.push(child);
  let said = '';
  const begun = Date.now();
  const address = await new Promise((resolve, reject) => {
    const look = (bytes) => {
      said += bytes;
      const found = /http:\/\/\S+#\S+/.exec(said);
      if (found) resolve(found[0]);
    };
    child.stdout.on('data', look);
    child.stderr.on('data', look);
    child.on('exit', (code) => reject(new Error(`serve ended with ${code}: ${said}`)));
    setTimeout(() => reject(new Error(`serve said no address: ${said}`)), 20_000).unref();
  });
  return {
    address,
    folder,
    child,
    milliseconds: Date.now() - begun,
    /** Asks it to end, and after five seconds makes it; answers how it ended. One that is gone already is no wait.
     * `leave`: the folder stays, for the next one. */
    async end({ leave = false } = {}) {
      const ended = new Promise((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) resolve(child.exitCode ?? child.signalCode);
        child.on('exit', (code, signal) => resolve(code ?? signal));
      });
      child.kill('SIGTERM');
      const patience = setTimeout(() => child.kill('SIGKILL'), 5_000);
      const how = await ended;
      clearTimeout(patience);
      if (!leave) rmSync(folder, { recursive: true, force: true });
      return how;
    },
  };
}

/** A browser without rights to anything but this machine. */
export function launch() {
  return chromium.launch({
    executablePath: chromiumPath,
    timeout: 60_000,
    args: ['--disable-background-networking', '--disable-component-update', '--no-first-run', ...(isRoot ? ['--no-sandbox'] : [])],
  });
}

/** A page of a size and look, with everything that goes wrong on it kept: errors, refused loads, foreign hosts. */
export async function open(browser, address, { width, height, theme = 'light', touch = false } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme === 'dark' ? 'dark' : 'light', hasTouch: touch, reducedMotion: 'reduce' });
  const page = await context.newPage();
  watchRequests(page);
  const wrong = [];
  page.on('pageerror', (error) => wrong.push(`error: ${error.message}`));
  // A question that is answered with a problem document is no fault of the page: the page shows what it says.
  const answered = /Failed to load resource/; // told with its address below
  page.on('console', (message) => message.type() === 'error' && !answered.test(message.text()) && wrong.push(`console: ${message.text()}`));
  page.on('response', (response) => {
    const problem = (response.headers()['content-type'] ?? '').startsWith('application/problem+json');
    if (response.status() >= 500 || (response.status() >= 400 && !problem)) wrong.push(`${response.status()}: ${response.url()}`);
  });
  page.on('request', (request) => {
    const host = new URL(request.url()).hostname;
    if (!['127.0.0.1', 'localhost', '[::1]', ''].includes(host)) wrong.push(`foreign: ${request.url()}`);
  });
  await page.goto(address);
  return { page, context, wrong };
}

/** Comes when no question is on its way and none has been for a moment. */
export async function quiet(page, patience = 20_000) {
  const until = Date.now() + patience;
  for (let still = 0; still < 4; ) {
    const busy = await page.evaluate(() => globalThis.document.readyState !== 'complete') || (underWay.get(page)?.size ?? 0) > 0;
    still = busy ? 0 : still + 1;
    if (Date.now() > until) throw new Error(`the page does not come to rest; it waits for ${[...(underWay.get(page) ?? [])].map((request) => request.url()).join(' ')}`);
    await page.waitForTimeout(30);
  }
}

// Requests that are not answered yet, by page; the event stream never is.
const underWay = new WeakMap();

export function watchRequests(page) {
  const open = new Set();
  underWay.set(page, open);
  page.on('request', (request) => {
    // What a page that is being left still waits for is not always told to have failed.
    if (request.isNavigationRequest() && request.frame() === page.mainFrame()) open.clear();
    if (!request.url().endsWith('/api/events')) open.add(request);
  });
  for (const end of ['requestfinished', 'requestfailed']) page.on(end, (request) => open.delete(request));
}

/** Puts a look on, as the settings do. */
export function wear(page, theme) {
  return page.evaluate((name) => (globalThis.document.documentElement.dataset.theme = name), theme);
}

/** Text at so many times its size. */
export async function enlarge(page, times) {
  await page.evaluate((size) => {
    globalThis.document.documentElement.style.fontSize = size;
    globalThis.dispatchEvent(new Event('resize'));
  }, times === 1 ? '' : `${100 * times}%`);
  await page.waitForTimeout(50);
}

// Rules of axe whose outcome a look can change: colours, weights, sizes.
const rulesOfLook = ['color-contrast', 'target-size', 'link-in-text-block', 'scrollable-region-focusable'];

/** What axe finds serious or critical on the page as it stands, in lines; `look` asks only what a look can change. */
export async function seriousFindings(page, { look = false } = {}) {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  const options = { resultTypes: ['violations'], iframes: false, preload: false, ...(look ? { runOnly: { type: 'rule', values: rulesOfLook } } : {}) };
  const { violations } = await page.evaluate((asked) => globalThis.axe.run(globalThis.document, asked), options);
  return violations
    .filter((one) => one.impact === 'serious' || one.impact === 'critical')
    .flatMap((one) => one.nodes.slice(0, 3).map((node) => `${one.id}: ${node.html.slice(0, 160)}`));
}

/** How much wider the page is than its window [px]. */
export function overflows(page) {
  return page.evaluate(() => document.scrollingElement.scrollWidth - document.documentElement.clientWidth);
}

/** Texts that a reader cannot read: past the window's sides, cut by something that hides what overflows, or squeezed to
 * lines of a few letters. */
export function cutOff(page) {
  return page.evaluate(() => {
    const { document, getComputedStyle, NodeFilter } = globalThis;
    const wide = document.documentElement.clientWidth;
    const out = [];
    const slack = 1.5;
    const isCut = (box, parent) => {
      for (let node = parent; node !== null && node !== document.body; node = node.parentElement) {
        const style = getComputedStyle(node);
        if (node.classList.contains('unseen')) return false; // for those who hear the page
        const edge = node.getBoundingClientRect();
        if (/auto|scroll/.test(style.overflowX)) return false; // it can be scrolled to
        const hides = (overflow) => /hidden|clip/.test(overflow) && !(node instanceof globalThis.SVGElement);
        if (hides(style.overflowX) && (box.right > edge.right + slack || box.left < edge.left - slack)) return true;
        if (hides(style.overflowY) && (box.bottom > edge.bottom + box.height / 3 || box.top < edge.top - box.height / 3)) return true;
      }
      return box.right > wide + slack || box.left < -slack;
    };
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      const parent = text.parentElement;
      if (text.data.trim() === '' || !parent.checkVisibility({ visibilityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      const rows = [...range.getClientRects()];
      if (text.data.trim().length > 20 && text.data.trim().length / rows.length < 5) out.push(`squeezed: ${text.data.trim().slice(0, 60)}`);
      for (const box of rows) if (box.width > 0 && isCut(box, parent)) out.push(`${text.data.trim().slice(0, 60)} (${Math.round(box.left)} to ${Math.round(box.right)} of ${wide})`);
    }
    for (const input of document.querySelectorAll('input:not(.unseen)'))
      if (input.checkVisibility() && input.value !== '' && input.scrollWidth > input.clientWidth + slack) out.push(`field: ${input.value}`);
    return [...new Set(out)];
  });
}
