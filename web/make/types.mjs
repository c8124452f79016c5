// TypeScript types of the program's answers, made from docs/schema/*.json into src/made/ at every build.

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const from = fileURLToPath(new URL('../../docs/schema/', import.meta.url));
const to = fileURLToPath(new URL('../src/made/', import.meta.url));

/** "book-list" -> "BookList". */
const pascal = (name) => name.replace(/(^|[-_])(\w)/g, (_, __, letter) => letter.toUpperCase());

/** Name of a definition; `Error` is the browser's own word. */
const called = (def) => (def === 'Error' ? 'Trouble' : def);

/** The type that a schema says. */
export function type(schema, indent = '') {
  if (schema.$ref !== undefined) return called(schema.$ref.replace(/^#\/\$defs\//, ''));
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.enum !== undefined) return schema.enum.map((value) => JSON.stringify(value)).join(' | ');
  const choice = schema.anyOf ?? schema.oneOf;
  if (choice !== undefined) return choice.map((one) => type(one, indent)).join(' | ');
  if (Array.isArray(schema.type)) return schema.type.map((one) => type({ ...schema, type: one }, indent)).join(' | ');
  switch (schema.type) {
    case 'string':
      return 'string';
    case 'integer':
    case 'number':
      return 'number';
    case 'boolean':
      return 'boolean';
    case 'null':
      return 'null';
    case 'array':
      return schema.prefixItems !== undefined
        ? `[${schema.prefixItems.map((one) => type(one, indent)).join(', ')}]`
        : `(${type(schema.items ?? {}, indent)})[]`;
    case 'object':
      return object(schema, indent);
    default:
      return 'unknown';
  }
}

function object(schema, indent) {
  if (schema.properties === undefined) {
    const values = schema.additionalProperties;
    return `Record<string, ${values && typeof values === 'object' ? type(values, indent) : 'unknown'}>`;
  }
  const must = new Set(schema.required ?? []);
  const inner = `${indent}  `;
  const lines = Object.entries(schema.properties).map(([name, property]) => {
    const key = /^[A-Za-z_]\w*$/.test(name) ? name : JSON.stringify(name);
    const says = property.description === undefined ? '' : `${inner}/** ${property.description.replace(/\*\//g, '')} */\n`;
    return `${says}${inner}${key}${must.has(name) ? '' : '?'}: ${type(property, inner)};\n`;
  });
  return `{\n${lines.join('')}${indent}}`;
}

/** The module of one schema; its root is NameAnswer. */
export function module(name, schema) {
  const parts = Object.entries(schema.$defs ?? {}).map(([def, inner]) => `export type ${called(def)} = ${type(inner)};\n`);
  return `// Made from docs/schema/${name}.json.\n\n${parts.join('\n')}\nexport type ${pascal(name)}Answer = ${type(schema)};\n`;
}

function write() {
  mkdirSync(to, { recursive: true });
  const names = readdirSync(from)
    .filter((file) => file.endsWith('.json') && file !== 'openapi.json')
    .map((file) => file.slice(0, -5))
    .sort();
  for (const name of names) {
    const schema = JSON.parse(readFileSync(`${from}${name}.json`, 'utf8'));
    writeFileSync(`${to}${name.replace(/-/g, '_')}.ts`, module(name, schema));
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) write();
