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

/** Starts `portwright serve`; answers its address with the token, its folder, and how to end it. */
export async function serve({ book } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'portwright-browser-'));
  chmodSync(folder, 0o700);
  const child = spawn(program, ['serve', '--no-browser', ...(isRoot ? ['--as-root'] : []), ...(book ? ['--book', join(folder, book)] : [])], {
    env: { ...process.env, XDG_DATA_HOME: join(folder, 'data'), XDG_STATE_HOME: join(folder, 'state'), HOME: folder, PORTWRIGHT_BOOK: '', PORTWRIGHT_AUTHOR: 'builder' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const started = Date.now();
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
    milliseconds: Date.now() - started,
    async end() {
      const ended = new Promise((resolve) => child.on('exit', (code, signal) => resolve(code ?? signal)));
      child.kill('SIGTERM');
      const how = await ended;
      rmSync(folder, { recursive: true, force: true });
      return how;
    },
  };
}

/** A browser without rights to anything but this machine. */
export function launch() {
  return chromium.launch({
    executablePath: chromiumPath,
    args: ['--disable-background-networking', '--disable-component-update', '--no-first-run', ...(isRoot ? ['--no-sandbox'] : [])],
  });
}

/** A page of a size and look, with everything that goes wrong on it kept: errors, refused loads, foreign hosts. */
export async function open(browser, address, { width, height, theme = 'light', touch = false, text = 1 } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme === 'dark' ? 'dark' : 'light', hasTouch: touch, reducedMotion: 'reduce' });
  const page = await context.newPage();
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
  if (text !== 1) await page.addStyleTag({ content: `html { font-size: ${100 * text}% }` }).catch(() => {});
  return { page, context, wrong };
}

/** What axe finds serious or critical on the page as it stands, in lines. */
export async function seriousFindings(page) {
  await page.evaluate(axeSource);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
  return violations
    .filter((one) => one.impact === 'serious' || one.impact === 'critical')
    .flatMap((one) => one.nodes.slice(0, 3).map((node) => `${one.id}: ${node.html.slice(0, 160)}`));
}

/** Whether the page is wider than its window. */
export function overflows(page) {
  return page.evaluate(() => document.scrollingElement.scrollWidth - document.documentElement.clientWidth);
}
