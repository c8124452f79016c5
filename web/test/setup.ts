// Node 18 keeps the browser's `crypto` behind a switch, and its `File` under another roof.
import { File as NodeFile } from 'node:buffer';
import { webcrypto } from 'node:crypto';

if (globalThis.crypto === undefined) Object.defineProperty(globalThis, 'crypto', { value: webcrypto });
if (globalThis.File === undefined) Object.defineProperty(globalThis, 'File', { value: NodeFile });
