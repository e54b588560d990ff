// The levers: built from the bench's own table, grouped for people, moved by mouse, finger or keyboard.

import {send} from './link.js';
import {$, el, setText, setClass, spoken, capital, brief, fixed} from './words.js';

// The groups of levers. A lever of the bench that is not named here is put into the last group.
const GROUPS = [
  ['Driver', ['key', 'start', 'direction', 'brake', 'pedal', 'regen_level', 'heater']],
  ['Plug and station', ['plug', 'latch', 'station_on', 'station_limit_a', 'cable_a']],
  ['Loops and permits', ['cut_loop', 'cover_loop', 'crash_loop', 'discharge_permit', 'charge_permit', 'service_reset']],
  ['Road and weather', ['grade_percent', 'headwind_kph', 'wheel_slip_kph', 'ambient_c']],
  ['Set once', []],
];
const HOLD = new Set(['start', 'service_reset', 'latch']);
const ON_OFF = {
  key: ['Off', 'On'], plug: ['Out', 'In'], cut_loop: ['Open', 'Closed'], cover_loop: ['Open', 'Closed'],
  crash_loop: ['Open', 'Closed'], discharge_permit: ['Withdrawn', 'Given'], charge_permit: ['Withdrawn', 'Given'],
  station_on: ['Off', 'On'], heater: ['Off', 'On'],
};
// The signal of each lever. When a board gives this signal, the real lever counts and not the one on the page.
const SEEN_ON = {
  key: ['key_on'], start: ['start_request'], direction: ['forward_switch', 'reverse_switch'], brake: ['brake_pressed'],
  pedal: ['pedal_a_v', 'pedal_b_v'], heater: ['heater_request'], plug: ['plug_present'], cut_loop: ['cut_loop_closed'],
  cover_loop: ['cover_loop_closed'], crash_loop: ['crash_loop_closed'], discharge_permit: ['discharge_permit'],
  charge_permit: ['charge_permit'], service_reset: ['service_reset'], regen_level: ['regen_level'],
};
const CABLES = [13, 20, 32, 63];
const LEAST_PRESS_MS = 300;
const SEND_EVERY_MS = 60;
const ANSWERS_WITHIN_MS = 1000;

const shown = [];                // [key of a lever, what shows its value]; a lever may be shown twice
let seen = [];
let hello = null;
let apart = null;

export function buildLevers(description) {
  hello = description;
  shown.length = 0;
  const byKey = new Map(hello.levers.map(lever => [lever.key, lever]));
  const named = new Set(GROUPS.flatMap(([, keys]) => keys));
  const rest = hello.levers.filter(lever => !named.has(lever.key) && fits(lever)).map(lever => lever.key);
  const box = $('lever-groups');
  box.replaceChildren();
  for (const [title, keys] of GROUPS) {
    const all = (keys.length ? keys : rest).filter(key => byKey.has(key) && fits(byKey.get(key)));
    const controls = all.map(key => control(byKey.get(key)));
    const open = title === 'Set once' ? {} : {open: true};
    box.append(el('details', {class: 'group', ...open}, el('summary', {}, title), ...controls.flat()));
  }
  const index = new Map(hello.signals.map((signal, i) => [signal.key, i]));
  seen = Object.entries(SEEN_ON)
    .map(([key, signals]) => ({node: $(`lever-${key}`), lever: byKey.get(key), signals: signals.map(signal => index.get(signal))}))
    .filter(({node}) => node);
}

/** Whether this vehicle has what a lever moves. */
function fits(lever) {
  const v = hello.vehicle.values;
  const has = key => hello.signals.some(s => s.key === key && s.fitted);
  const needs = {
    cover_loop: () => has('cover_loop_closed'), crash_loop: () => has('crash_loop_closed'), heater: () => v.heater && has('heater_request'),
    coolant_temp_c: () => v.liquid, heater_temp_c: () => v.heater, latch: () => v['inlet.kind'] === 'type-1',
  };
  return needs[lever.key]?.() ?? true;
}

function control(lever) {
  if (lever.key === 'direction') return choice(lever, [[-1, 'Reverse'], [0, 'Neutral'], [1, 'Forward']]);
  if (lever.key === 'cable_a' && hello.vehicle.values['inlet.kind'] === 'type-1') {
    return row(lever, el('span', {class: 'unit'}, 'No effect here: the cable of a type-1 station is part of the station.'));
  }
  if (lever.key === 'cable_a') return choice(lever, CABLES.map(a => [a, `${a} A`]));
  if (lever.key === 'regen_level') {
    const levels = hello.vehicle.values['regen.levels'];
    return choice(lever, Array.from({length: levels + 1}, (_, i) => [i, i === 0 ? 'Coast' : String(i)]));
  }
  if (HOLD.has(lever.key)) return hold(lever);
  if (lever.isSwitch) return toggle(lever);
  if (lever.once) return once(lever);
  return lever.key === 'pedal' ? pedal(lever) : slider(lever);
}

export const move = (lever, to) => send({do: 'lever', lever: lever.key, to});

/** Two words, one of which is so. */
function toggle(lever) {
  const [off, on] = ON_OFF[lever.key] ?? ['Off', 'On'];
  return choice(lever, [[0, off], [1, on]]);
}

function choice(lever, options) {
  return row(lever, chooser(lever, options));
}

/** A row of buttons, one of which is chosen. */
export function chooser(lever, options) {
  const buttons = options.map(([value, words]) => el('button', {
    type: 'button', role: 'radio', 'aria-checked': false, 'data-lever': lever.key, 'data-to': value, tabindex: -1,
    onclick: () => move(lever, value),
  }, words));
  const group = el('div', {class: 'choice', role: 'radiogroup', 'aria-label': name(lever), title: lever.meaning}, ...buttons);
  group.addEventListener('keydown', event => {
    const step = {ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1}[event.key];
    if (!step) return;
    event.preventDefault();
    const at = buttons.indexOf(document.activeElement);
    const to = buttons[Math.max(0, Math.min(buttons.length - 1, at + step))];
    to.focus();
    to.click();
  });
  shown.push([lever.key, value => buttons.forEach((button, i) => {
    const is = options[i][0] === value;
    if (button.getAttribute('aria-checked') !== String(is)) {
      button.setAttribute('aria-checked', is);
      button.tabIndex = is ? 0 : -1;
    }
  })]);
  buttons[0].tabIndex = 0;
  return group;
}

function hold(lever) {
  return row(lever, holder(lever));
}

/** A button that acts while it is held: mouse, finger, space or enter. */
export function holder(lever) {
  const button = el('button', {type: 'button', class: 'hold', 'aria-pressed': false, 'data-lever': lever.key, title: lever.meaning},
    `${name(lever)}: hold`);
  let since = 0;
  const press = () => {
    if (since) return;
    since = performance.now();
    move(lever, 1);
  };
  const release = () => {
    if (!since) return;
    const wait = Math.max(0, LEAST_PRESS_MS - (performance.now() - since));
    since = 0;
    setTimeout(() => move(lever, 0), wait);
  };
  button.addEventListener('pointerdown', event => { button.setPointerCapture(event.pointerId); press(); });
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture', 'blur']) button.addEventListener(end, release);
  const keys = event => event.key === ' ' || event.key === 'Enter';
  button.addEventListener('keydown', event => { if (keys(event)) { event.preventDefault(); press(); } });
  button.addEventListener('keyup', event => { if (keys(event)) { event.preventDefault(); release(); } });
  button.addEventListener('contextmenu', event => event.preventDefault());
  shown.push([lever.key, value => button.setAttribute('aria-pressed', value === 1)]);
  return button;
}

/** Sends the newest value of something that moves continuously, and not more often than the bench needs. */
export function often(sendTo) {
  let timer = null;
  let lastSent = -Infinity;
  let newest = 0;
  const flush = () => { timer = null; lastSent = performance.now(); sendTo(newest); };
  const put = value => {
    newest = value;
    if (timer === null) timer = setTimeout(flush, Math.max(0, SEND_EVERY_MS - (performance.now() - lastSent)));
  };
  put.isWaiting = () => timer !== null;
  put.atOnce = value => { clearTimeout(timer); newest = value; flush(); };
  return put;
}

function range(lever, step, sendTo) {
  const input = el('input', {
    type: 'range', min: lever.min, max: lever.max, step, value: lever.initial ?? lever.min, 'aria-label': name(lever), title: lever.meaning, 'data-lever': lever.key,
  });
  let lastInput = -Infinity;
  const put = often(sendTo);
  input.addEventListener('input', () => {
    lastInput = performance.now();
    put(Number(input.value));
  });
  input.touched = () => put.isWaiting() || performance.now() - lastInput < 400;
  return input;
}

function slider(lever) {
  const share = lever.max <= 1;
  const input = range(lever, share ? 0.01 : 1, to => move(lever, to));
  const value = el('output', {class: 'num'});
  shown.push([lever.key, now => {
    if (!input.touched()) input.value = now;
    const text = share ? `${Math.round(now * 100)} %` : `${brief(now)} ${lever.key === 'grade_percent' ? '%' : lever.unit}`.trim();
    setText(value, text);
    input.setAttribute('aria-valuetext', text);
  }]);
  return lever.key === 'brake' ? row(lever, input, value, presser(lever, 'Press')) : row(lever, input, value);
}

/** A button that presses the brake half way, or lets it go: one finger is free for Start. */
export function presser(lever, words) {
  const held = el('button', {type: 'button', class: 'small', 'data-lever': 'brake', 'data-to': 'half', onclick: () => move(lever, held.getAttribute('aria-pressed') === 'true' ? 0 : 0.5), 'aria-pressed': false}, words);
  shown.push([lever.key, now => held.setAttribute('aria-pressed', now > 0.02)]);
  return held;
}

/** Has a further element follow a lever. */
export function follow(key, update) {
  shown.push([key, update]);
}

/** The pedal: one travel for both tracks, or each track by its volts. */
function pedal(lever) {
  const rows = [slider(lever)].flat();
  const tracks = ['pedal_a_v', 'pedal_b_v'].filter(key => hello.signals.some(s => s.key === key && s.fitted));
  const volts = el('p', {class: 'volts num'});
  const box = el('div', {class: 'tracks', hidden: true});
  const inputs = tracks.map(key => {
    const signal = hello.signals.find(s => s.key === key);
    const input = range({...signal, initial: signal.min}, 0.01, to => send({do: 'force', signal: key, to}));
    box.append(el('label', {class: 'track'}, key === 'pedal_a_v' ? 'Track A' : 'Track B', input, el('output', {class: 'num'})));
    return input;
  });
  const apartBox = el('input', {type: 'checkbox', id: 'apart'});
  let askedAt = -Infinity;
  apartBox.addEventListener('change', () => {
    askedAt = performance.now();
    box.hidden = !apartBox.checked;
    if (apartBox.checked) move(lever, 0);          // when the tracks fall back to the lever, it must not drive the car
    tracks.forEach((key, i) => send(apartBox.checked ? {do: 'force', signal: key, to: Number(inputs[i].value)} : {do: 'unforce', signal: key}));
  });
  apart = frame => {
    const forced = tracks.some(key => frame.forcedS(hello.signals.findIndex(s => s.key === key)) > 0);
    if (apartBox.checked !== forced && performance.now() - askedAt > ANSWERS_WITHIN_MS) {
      apartBox.checked = forced;
      box.hidden = !forced;
    }
    const each = tracks.map((key, i) => {
      const now = frame.signal(key);
      if (!inputs[i].touched() && !Number.isNaN(now)) inputs[i].value = now;
      const left = frame.forcedS(hello.signals.findIndex(s => s.key === key));
      setText(inputs[i].nextSibling, `${fixed(now, 2)} V${left > 0 ? `, ${Math.ceil(left)} s` : ''}`);
      return `${key === 'pedal_a_v' ? 'A' : 'B'} ${fixed(now, 2)} V`;
    });
    setText(volts, each.join('   '));
  };
  const letGo = el('button', {type: 'button', class: 'small', onclick: () => move(lever, 0), title: 'Escape does the same'}, 'Let go');
  rows[0].append(letGo);
  return [...rows, el('div', {class: 'sub'}, volts, el('label', {}, apartBox, ' tracks apart')), box];
}

/** Sets a start condition when asked to. */
function once(lever) {
  const share = lever.max <= 1;
  const input = el('input', {
    type: 'number', min: share ? 0 : lever.min, max: share ? 100 : lever.max, step: share ? 1 : 'any', value: share ? lever.initial * 100 : lever.initial, 'aria-label': name(lever), title: lever.meaning,
  });
  const unit = share ? '%' : lever.unit;
  const set = el('button', {type: 'button', class: 'small', 'aria-label': `Set ${name(lever)}`, onclick: () => {
    if (input.reportValidity()) move(lever, share ? Number(input.value) / 100 : Number(input.value));
  }}, 'Set');
  return row(lever, input, el('span', {class: 'unit'}, unit), set);
}

const name = lever => capital(spoken(lever.key)).replace('Cut loop', 'Cut-off loop').replace('Soc', 'State of charge').replace('Lv soc', '12 V battery').replace('Lv State', '12 V state');

function row(lever, ...controls) {
  return [el('div', {class: 'lever', id: `lever-${lever.key}`}, el('span', {class: 'name', title: lever.meaning}, name(lever)), ...controls)];
}

/** Marks the levers that are read from a board: here they move the simulated car only. */
function markPins(frame) {
  for (const {node, lever, signals} of seen) {
    const pins = signals.some(i => hello.sources[frame.source(i)] === 'board');
    if (node.classList.contains('pin') === pins) continue;
    setClass(node, 'pin', pins);
    const label = node.firstChild;
    label.replaceChildren(label.firstChild, ...(pins ? [el('small', {}, 'on the board')] : []));
    label.title = pins ? 'Read from the board. Moved here it moves the simulated car only.' : lever.meaning;
  }
}

/** The levers that a sentence of the guide is about: by name, or by what the supervisor reads. */
function leversOf(text) {
  const words = text.replace(/^Limited: /, '');
  const said = words.toLowerCase();
  const asked = hello.pointers.filter(each => each.lever && said.includes(each.words.toLowerCase().replace(/\.$/, '')));
  if (asked.length) return asked.map(each => each.lever);
  const pointer = hello.pointers.find(each => each.reads && words.startsWith(each.words));
  if (!pointer) return [];
  return Object.entries(SEEN_ON).filter(([, signals]) => signals.some(signal => pointer.reads.includes(signal))).map(([key]) => key);
}

/** Whether a lever would change what a sentence is about. */
export const leads = text => leversOf(text).length > 0;

/** Marks every lever that would change what is missing. */
export function pointAt(sentences) {
  const wanted = new Set(sentences.flatMap(leversOf));
  for (const node of document.querySelectorAll('#lever-groups .lever, #strip-levers > *')) {
    const key = node.id.replace('lever-', '');
    const lever = node.id === 'pad' ? 'pedal' : node.dataset.lever ?? node.querySelector('[data-lever]')?.dataset.lever ?? key;
    setClass(node, 'wanted', wanted.has(lever));
  }
}

/** Brings a lever into view and puts the focus on it. */
export function goTo(text) {
  const node = leversOf(text).map(key => $(`lever-${key}`)).find(each => each?.offsetParent);
  if (!node) return;
  node.closest('details').open = true;
  node.scrollIntoView({block: 'center', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'instant' : 'smooth'});
  node.querySelector('[tabindex="0"], input, button')?.focus({preventScroll: true});
}

export function showLevers(frame) {
  markPins(frame);
  for (const [key, update] of shown) update(frame.lever(key));
  apart?.(frame);
}

/** Whether this page may move anything. */
export function enableLevers(on) {
  setClass($('levers'), 'off', !on);
  for (const box of ['lever-groups', 'strip']) for (const node of $(box).querySelectorAll('button, input')) node.disabled = !on;
  $('pad')?.setAttribute('aria-disabled', !on);
}
