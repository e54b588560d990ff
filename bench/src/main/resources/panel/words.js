// Small helpers for text and elements. No state of their own.

export const $ = id => document.getElementById(id);

/** Makes an element: el('button', {type: 'button'}, 'text', child...). */
export function el(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else if (value === true) node.setAttribute(name, '');
    else if (value !== false && value != null) node.setAttribute(name, value);
  }
  node.append(...children);
  return node;
}

/** Sets a text only when it differs, so that the browser lays out nothing without need. */
export function setText(node, text) {
  if (node.shown !== text) {
    node.shown = text;
    node.textContent = text;
  }
}

export function setClass(node, name, on) {
  if (node.classList.contains(name) !== on) node.classList.toggle(name, on);
}

/** A number with about three digits. */
export function brief(value) {
  if (Number.isNaN(value)) return 'unknown';
  const size = Math.abs(value);
  const digits = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
  const text = value.toFixed(digits);
  return Number(text) === 0 ? '0' : text;
}

/** A number with a fixed number of digits, so that it keeps its width. */
export function fixed(value, digits) {
  if (Number.isNaN(value)) return '?';
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}

/** A value of a table's row with its unit. */
export function show(row, value) {
  if (Number.isNaN(value)) return 'unknown';
  if (row.isSwitch) return value ? 'on' : 'off';
  return row.unit ? `${brief(value)} ${row.unit}` : brief(value);
}

/** lower_snake to words: bus_voltage_v is "bus voltage". */
export function spoken(key) {
  return key.replace(/_(v|a|c|nm|rpm|kph|kohm|percent|w|j|m|mps2)$/, '').replaceAll('_', ' ');
}

export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
