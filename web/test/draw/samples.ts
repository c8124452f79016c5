// Answers of the program for its sample saws, as the page gets them.

import { readFileSync } from 'node:fs';

import type { BoreAnswer } from '../../src/made/bore';
import type { StudyAnswer } from '../../src/made/study';

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(`../fixtures/${name}.json`, import.meta.url), 'utf8'));

export const names = ['bore', 'bore.cut', 'bore.larch-70', 'bore.larch-70.cut', 'bore.spruce-92', 'bore.spruce-92.cut'];
export const bore = (name = 'bore') => read(name) as BoreAnswer;
export const study = (name = 'study') => read(name) as StudyAnswer;
export { read };
