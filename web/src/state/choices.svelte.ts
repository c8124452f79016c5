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

class Choices {
  theme = $state<Theme>('system');
  units = $state<Units>('shop');

  start(): void {
    this.theme = kept('theme', themes, 'system');
    this.units = kept('units', ['shop', 'metric'] as const, 'shop');
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

  #wear(): void {
    if (this.theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = this.theme;
  }
}

export const choices = new Choices();
