// Takes a drawing of the program apart and builds it anew in the page: only shapes and letters, only what places and
// strokes them, and colours by their role, so that a drawing wears the page's theme.

const elements = new Set(['svg', 'g', 'path', 'line', 'rect', 'circle', 'ellipse', 'polyline', 'polygon', 'text', 'tspan', 'defs', 'clipPath']);
const attributes = new Set([
  'viewBox', 'd', 'x', 'y', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'rx', 'ry', 'width', 'height', 'points', 'transform',
  'fill', 'stroke', 'fill-rule', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin', 'font-size',
  'font-weight', 'text-anchor', 'paint-order', 'id', 'clip-path', 'fill-opacity', 'opacity',
]);

/** Colours of the paper theme by the token that stands for them. */
const tokens: Record<string, string> = {
  '#f7f4ea': '--ground',
  '#fbf9f2': '--key',
  '#1b1a17': '--ink',
  '#57534a': '--reason',
  '#6f6a5f': '--stock',
  '#1340b8': '--blue',
  '#8a5200': '--caution',
  '#a11414': '--stop',
  '#b5441a': '--exhaust',
  '#0b7263': '--transfer',
  '#5e2370': '--intake',
  '#8d8778': '--metal',
  '#bdb6a5': '--rule',
  '#ffffff': '--ground',
  '#000000': '--ink',
};

/** A colour as the page has it: none, a token, or the colour itself when it is a plain one. */
export function colour(value: string): string {
  const plain = value.trim().toLowerCase();
  const token = tokens[plain];
  if (token !== undefined) return `var(${token})`;
  return /^(none|currentcolor|#[0-9a-f]{3,8})$/.test(plain) ? plain : 'currentColor';
}

/** Whether an element may come in. */
export const mayStand = (name: string): boolean => elements.has(name);

/** An attribute as it may come in; undefined when it may not. */
export function mayHave(name: string, value: string): string | undefined {
  if (!attributes.has(name)) return undefined;
  if (name === 'clip-path') return /^url\(#[\w-]+\)$/.test(value) ? value : undefined;
  return value;
}

function copy(from: Element, page: Document): SVGElement | undefined {
  if (!mayStand(from.localName)) return undefined;
  const to = page.createElementNS(from.namespaceURI, from.localName) as SVGElement;
  for (const { name, value } of from.attributes) {
    const taken = mayHave(name, value);
    if (taken === undefined) continue;
    if (name === 'fill' || name === 'stroke') to.style.setProperty(name, colour(taken));
    else to.setAttribute(name, taken);
  }
  for (const child of from.childNodes) {
    if (child.nodeType === Node.TEXT_NODE) to.append(child.textContent ?? '');
    else if (child instanceof Element) {
      const made = copy(child, page);
      if (made !== undefined) to.append(made);
    }
  }
  return to;
}

/** The drawing as an element of the page; undefined when the text is none. */
export function drawingOf(text: string): SVGElement | undefined {
  // The page's policy allows no inline style, not even in a document that is only read.
  const parsed = new DOMParser().parseFromString(text.replace(/ style="[^"]*"/g, ''), 'image/svg+xml');
  if (parsed.documentElement.localName !== 'svg') return undefined;
  const drawing = copy(parsed.documentElement, document);
  drawing?.removeAttribute('width');
  drawing?.removeAttribute('height');
  return drawing;
}
