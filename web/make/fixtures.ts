// Answers /api/* from web/test/fixtures, for looking at the page without the program: `npm run look`.
// A file is NAME.json, or NAME.SAW.json for one saw; with cuts in the question NAME.cut.json is taken first.

import { existsSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const folder = fileURLToPath(new URL('../test/fixtures/', import.meta.url));

interface Question {
  saw?: string;
  cuts?: string;
  steps?: unknown[];
}

/** Names of files that could answer, the most particular first. */
export function candidates(kind: string, name: string, question: Question): string[] {
  const saw = /^[\w-]+$/.test(question.saw ?? '') ? question.saw : undefined;
  const cut = question.cuts || question.steps?.length ? '.cut' : '';
  const stems = saw === undefined ? [name] : [`${name}.${saw}`, name];
  const all = stems.flatMap((stem) => (cut === '' ? [stem] : [stem + cut, stem]));
  return kind === 'do' ? [`${kind}-${name}`, `${kind}`] : all;
}

function body(request: IncomingMessage): Promise<string> {
  return new Promise((resolve) => {
    let text = '';
    request.on('data', (part: Buffer) => (text += part.toString('utf8')));
    request.on('end', () => resolve(text));
  });
}

function answer(response: ServerResponse, status: number, type: string, text: string): void {
  response.writeHead(status, { 'Content-Type': type, 'Cache-Control': 'no-store', 'X-Portwright-Epoch': '1' });
  response.end(text);
}

const streams = new Set<ServerResponse>();
let jobs = 0;

/** Long work is done at once: its answer comes as a part and as the end. */
function run(name: string, question: Question, response: ServerResponse): void {
  const job = `${name}-${++jobs}`;
  answer(response, 200, 'application/json', JSON.stringify({ job }));
  const file = candidates('ask', name, question).map((stem) => `${folder}${stem}.json`).find(existsSync);
  if (file === undefined) return;
  const text = readFileSync(file, 'utf8').trim();
  for (const kind of ['part', 'done']) for (const stream of streams) stream.write(`event: ${kind}\ndata: {"job": "${job}", "answer": ${text}}\n\n`);
}

async function reply(request: IncomingMessage, response: ServerResponse): Promise<void> {
  const [, kind = '', name = ''] = (request.url ?? '').split('?')[0]!.split('/').filter((part) => part !== '');
  if (kind === 'events') {
    response.writeHead(200, { 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-store' });
    response.write('event: hello\ndata: {"last": 7, "epoch": 1, "demo": true, "jobs": []}\n\n');
    streams.add(response);
    response.on('close', () => streams.delete(response));
    return;
  }
  if (kind === 'photo') {
    response.writeHead(200, { 'Content-Type': 'image/jpeg' });
    response.end(readFileSync(`${folder}rubbing.jpg`));
    return;
  }
  if (kind === 'stop') return answer(response, 200, 'application/json', '{}');
  if (kind === 'enter') return answer(response, 200, 'application/json', '{"epoch":1,"last":7,"demo":true,"author":"ines"}');
  const text = await body(request);
  const question = JSON.parse(text.startsWith('{') ? text : '{}') as Question;
  if (kind === 'run') return run(name, question, response);
  const extension = kind === 'sheet' ? 'svg' : 'json';
  for (const stem of candidates(kind, name, question)) {
    const file = `${folder}${stem}.${extension}`;
    if (!existsSync(file)) continue;
    const type = extension === 'svg' ? 'image/svg+xml' : 'application/json';
    return answer(response, 200, type, readFileSync(file, 'utf8'));
  }
  const problem = { type: 'not_found', title: 'No such example', status: 404, detail: `${kind}/${name}`, errors: [] };
  answer(response, 404, 'application/problem+json', JSON.stringify(problem));
}

/** The plugin of the development server. */
export function fixtures(): Plugin {
  return {
    name: 'portwright-fixtures',
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        if ((request.url ?? '').startsWith('/api/')) void reply(request, response);
        else next();
      });
    },
  };
}
