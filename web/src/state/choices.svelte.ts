// What a person chose for this browser: look and units. Never anything of the book.

export type Theme = 'system' | 'paper' | 'slate' | 'sunlight';
export type Units = 'shop' | 'metric';

export const themes: readonly Theme[] = ['system', 'paper', 'slate', 'sunlight'];

function kept<T extends string>(name: string, allowed: readonly T[], usual: T): T {
  try {
    const value = localStorage.getItem(`portwright.${name}`);
    return allowed.includes(value as T) ? (value as T) : usual;
  } catch {
    return usual;
  }
}

function keep(name: string, value: string): void {
  try {
    localStorage.setItem(`portwright.${name}`, value);
  } catch {
    // A browser that keeps nothing still shows everything.
  }
}

function keptUnits(): Record<string, string> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem('portwright.typed-in') ?? '{}');
    const pairs = Object.entries(typeof value === 'object' && value !== null ? value : {});
    return Object.fromEntries(pairs.filter((pair): pair is [string, string] => typeof pair[1] === 'string'));
  } catch {
    return {};
  }
}

class Choices {
  theme = $state<Theme>('system');
  units = $state<Units>('shop');
  #units: Record<string, string> = {};

  start(): void {
    this.theme = kept('theme', themes, 'system');
    this.units = kept('units', ['shop', 'metric'] as const, 'shop');
    this.#units = keptUnits();
    this.#wear();
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    keep('theme', theme);
    this.#wear();
  }

  setUnits(units: Units): void {
    this.units = units;
    keep('units', units);
  }

  /** The unit that a kind of quantity was typed in last. */
  unitOf(dimension: string): string {
    return this.#units[dimension] ?? '';
  }

  useUnit(dimension: string, unit: string): void {
    if (unit === '' || this.#units[dimension] === unit) return;
    this.#units[dimension] = unit;
    keep('typed-in', JSON.stringify(this.#units));
  }

  #wear(): void {
    if (this.theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = this.theme;
  }
}

export const choices = new Choices();
