// Node 18 keeps the browser's `crypto` behind a switch.
import { webcrypto } from 'node:crypto';

if (globalThis.crypto === undefined) Object.defineProperty(globalThis, 'crypto', { value: webcrypto });
