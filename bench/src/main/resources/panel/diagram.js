// The high-voltage path as a live diagram: own drawing, symbols in the manner of IEC 60617. Two arrangements of one net: lying
// for wide pages, standing for narrow ones. What is energised is thick, striped and labelled, whatever its colour.

import {$, setText, setClass, fixed} from './words.js';

const NS = 'http://www.w3.org/2000/svg';
export const LIVE_V = 5;                // below this nothing is called live
export const DANGEROUS_V = 60;          // the usual limit for direct current

function svg(tag, attributes = {}, ...children) {
  const node = document.createElementNS(NS, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children);
  return node;
}

let wires = {};
let texts = {};
let parts = {};
let hello = null;
let tall = false;
let wide = false;                // the projected view: the drawing is stretched over the whole width
let shift = 0;                   // how far the contactors move to the pack when little stands between
let busFrom = 436;
const narrow = matchMedia('(max-width: 640px)');

const TOP = 84, BOTTOM = 232, MID = 158, BRANCH = 30;

/** Places of the drawing: lying as they are, standing with the axes exchanged, projected with the long side stretched. */
const place = (x, y) => (tall ? [y * 0.94 + 44, x * 0.86 + 6] : wide ? [x * WIDER - 42, (y - MID) * HIGHER + 172] : [x, y]);
const WIDER = 1.8, HIGHER = 1.2;
/** In the projected view the letters are larger, so some stand elsewhere: distance from the place, and anchor. */
const WIDE = {
  packV: [0, 0, 'start'], packSoc: [0, 24, 'start'], fuse: [0, -16, 'middle'], current: [0, 36, 'middle'], packTag: [-26, 34, 'start'],
  precharge: [-66, 5, 'end'], precharge2: [-66, 24, 'end'], resistor: [0, 27, 'middle'], positive: [0, 28, 'middle'], positive2: [0, 48, 'middle'],
  negative: [0, -24, 'middle'], negative2: [0, 30, 'middle'], busV: [0, -40, 'middle'], busTag: [0, -16, 'middle'],
  inverter: [10, -60, 'start'], inverter2: [10, -41, 'start'], motor: [0, 74, 'middle'], motor2: [0, 101, 'middle'], speed: [0, 128, 'middle'],
  charger: [-42, 40, 'end'], plug: [8, 6, 'start'], mainsTag: [8, 28, 'start'], dcdc: [44, -4, 'start'], lv: [44, 16, 'start'], heater: [20, 6, 'start'],
};

export function buildDiagram(description) {
  hello = description;
  wide = document.body.classList.contains('projected');
  tall = narrow.matches && !wide;
  wires = {};
  texts = {};
  parts = {};
  const root = svg('svg', {viewBox: tall ? '0 0 350 672' : wide ? '0 -8 1376 376' : '0 0 780 322', role: 'img', 'aria-labelledby': 'path-words', class: tall ? 'tall' : 'lying'});
  const [linesBelow, linesAbove, symbols, labels] = [svg('g', {class: 'wires'}), svg('g', {class: 'stripes'}), svg('g'), svg('g')];
  root.append(linesBelow, linesAbove, symbols, labels);

  const wire = (name, ...paths) => {
    const d = paths.map(points => points.map(([x, y], i) => `${i ? 'L' : 'M'}${place(x, y).join(' ')}`).join('')).join('');
    const below = svg('path', {d, class: 'wire'});
    const above = svg('path', {d, class: 'stripe'});
    linesBelow.append(below);
    linesAbove.append(above);
    (wires[name] ??= []).push(below, above);
  };
  const node = (name, x, y) => {
    const [cx, cy] = place(x, y);
    const dot = svg('circle', {cx, cy, r: 3.5, class: 'node'});
    symbols.append(dot);
    (wires[name] ??= []).push(dot);
  };
  // along: the current runs along the drawing's long side; else across, from rail to rail
  const symbol = (name, x, y, along, ...shapes) => {
    const [cx, cy] = place(x, y);
    const turn = along !== tall ? 0 : 90;
    const g = svg('g', {transform: `translate(${cx} ${cy}) rotate(${turn})${scale(name, turn)}`, class: `part ${name}`}, ...shapes);
    symbols.append(g);
    parts[name] = g;
    return g;
  };
  const label = (name, x, y, [dx, dy, anchor], [tx, ty, tallAnchor], style = '') => {
    const [cx, cy] = place(x, y);
    const [ox, oy, a] = tall ? [tx, ty, tallAnchor] : wide ? WIDE[name] : [dx, dy, anchor];
    const text = svg('text', {x: cx + ox, y: cy + oy, 'text-anchor': a, class: `label ${style}`});
    labels.append(text);
    texts[name] = text;
    return text;
  };
  draw({wire, node, symbol, label, symbols});
  $('diagram').replaceChildren(root);
}

function draw(d) {
  const v = hello.vehicle.values;
  const packSide = key => v[key] === 'pack-side';
  const heated = v.heater;
  const packCount = ['charger.side', 'dcdc.side'].filter(packSide).length;
  shift = [-96, -58, 0][packCount];
  busFrom = 436 + shift;
  const packSlots = [168, 228];
  const busCount = 2 - packCount + (heated ? 1 : 0);
  const busSlots = Array.from({length: busCount}, (_, i) => busFrom + (640 - busFrom) * (i + 1) / (busCount + 1));
  const chargerX = (packSide('charger.side') ? packSlots : busSlots).shift();
  const dcdcX = (packSide('dcdc.side') ? packSlots : busSlots).shift();
  const heaterX = heated ? busSlots.shift() : null;
  pack(d);
  contactors(d);
  bus(d);
  drive(d);
  charger(d, chargerX, packSide('charger.side') ? 'pack' : 'bus');
  converter(d, dcdcX, packSide('dcdc.side') ? 'pack' : 'bus');
  if (heaterX) heater(d, heaterX);
}

function pack({wire, symbol, label}) {
  wire('pack+', [[50, MID - 24], [50, TOP], [92, TOP]], [[128, TOP], [shift + 290, TOP]]);
  wire('pack-', [[50, MID + 24], [50, BOTTOM], [shift + 315, BOTTOM]]);
  symbol('battery', 50, MID, false,
    svg('path', {d: 'M-24 0H-15M-15 -13V13M-8 -7V7M-1 -13V13M6 -7V7M13 -13V13M20 -7V7M20 0H24', class: 'stroke'}));
  symbol('fuse', 110, TOP, true, svg('rect', {x: -18, y: -8, width: 36, height: 16, class: 'box'}), svg('path', {d: 'M-18 0H18', class: 'stroke element'}), svg('path', {d: 'M-7 -7L7 7M7 -7L-7 7', class: 'stroke broken'}));
  label('packV', 72, MID, [0, -4, 'start'], [0, 14, 'middle'], 'value');
  label('packSoc', 72, MID, [0, 13, 'start'], [0, 30, 'middle'], '');
  label('fuse', 110, TOP, [0, -14, 'middle'], [-14, 4, 'end'], '');
  label('current', 110, TOP, [4, 23, 'middle'], [-10, 24, 'end'], 'value');
  label('packTag', 50, BOTTOM, [-20, 24, 'start'], [-14, -12, 'start'], 'tag');
}

/** A make contact with the contactor's half circle; the blade turns when it closes. */
function contact(half) {
  const shapes = [svg('path', {d: 'M-25 0H-14M14 0H25', class: 'stroke'}), svg('circle', {cx: -14, cy: 0, r: 2.6, class: 'dot'}), svg('path', {d: 'M-14 0L14 -15', class: 'stroke blade open'}), svg('path', {d: 'M-14 0H14', class: 'stroke blade closed'})];
  if (half) shapes.push(svg('path', {d: 'M14 -4.5A4.5 4.5 0 0 1 14 4.5', class: 'stroke'}));
  return shapes;
}

function contactors({wire, node, symbol, label}) {
  const c = shift;
  node('pack+', c + 290, TOP);
  wire('pack+', [[c + 290, TOP], [c + 315, TOP]], [[c + 290, TOP], [c + 290, BRANCH], [c + 298, BRANCH]]);
  wire('between', [[c + 348, BRANCH], [c + 360, BRANCH]]);
  wire('bus+', [[c + 396, BRANCH], [c + 410, BRANCH], [c + 410, TOP]], [[c + 365, TOP], [c + 410, TOP]]);
  wire('bus-', [[c + 365, BOTTOM], [c + 410, BOTTOM]]);
  node('bus+', c + 410, TOP);
  symbol('precharge', c + 323, BRANCH, true, ...contact(false));
  symbol('resistor', c + 378, BRANCH, true, svg('rect', {x: -18, y: -7, width: 36, height: 14, class: 'box'}));
  symbol('positive', c + 340, TOP, true, ...contact(true));
  symbol('negative', c + 340, BOTTOM, true, ...contact(true));
  label('precharge', c + 323, BRANCH, [28, 22, 'middle'], [-68, -38, 'start'], '');
  label('resistor', c + 378, BRANCH, [4, -12, 'middle'], [12, 4, 'start'], '');
  label('positive', c + 340, TOP, [0, 24, 'middle'], [16, -8, 'start'], '');
  label('negative', c + 340, BOTTOM, [0, 24, 'middle'], [-12, 26, 'end'], '');
  label('positive2', c + 340, TOP, [0, 38, 'middle'], [16, 7, 'start'], 'warn');
  label('negative2', c + 340, BOTTOM, [0, 38, 'middle'], [-12, 41, 'end'], 'warn');
  label('precharge2', c + 323, BRANCH, [28, 35, 'middle'], [-70, 4, 'start'], 'warn');
}

function bus({wire, node, symbol, label}) {
  wire('bus+', [[shift + 410, TOP], [640, TOP]]);
  wire('bus-', [[shift + 410, BOTTOM], [640, BOTTOM]]);
  wire('bus+', [[busFrom, TOP], [busFrom, MID - 5]]);
  wire('bus-', [[busFrom, MID + 5], [busFrom, BOTTOM]]);
  node('bus+', busFrom, TOP);
  node('bus-', busFrom, BOTTOM);
  symbol('capacitor', busFrom, MID, false, svg('path', {d: 'M-5 -14V14M5 -14V14', class: 'stroke'}));
  label('busV', 548, TOP, [0, -30, 'middle'], [-12, 4, 'end'], 'value');
  label('busTag', 548, TOP, [0, -12, 'middle'], [-12, 22, 'end'], 'tag');
}

function box(d, name, x, y, size, upper, lower) {
  const half = size / 2;
  const [kx, ky] = wide ? [WIDER, HIGHER] : [1, 1];
  d.symbol(name, x, y, true, svg('rect', {x: -half, y: -half, width: size, height: size, class: 'box'}), svg('path', {d: `M${-half} ${half}L${half} ${-half}`, class: 'stroke thin'}));
  const [cx, cy] = place(x, y);
  for (const [text, dx, dy] of [[upper, -half * 0.42, -half * 0.18], [lower, half * 0.42, half * 0.72]]) {
    const node = svg('text', {x: cx + dx * kx, y: cy + dy * ky, 'text-anchor': 'middle', class: 'label sign'});
    node.textContent = text;
    d.symbols.append(node);
  }
}

/** From both rails to a box between them. */
function legs(d, name, x, half) {
  d.wire(`${name}+`, [[x, TOP], [x, MID - half]]);
  d.wire(`${name}-`, [[x, MID + half], [x, BOTTOM]]);
  d.node(`${name}+`, x, TOP);
  d.node(`${name}-`, x, BOTTOM);
}

function drive(d) {
  d.wire('bus+', [[640, TOP], [640, MID - 26]]);
  d.wire('bus-', [[640, MID + 26], [640, BOTTOM]]);
  box(d, 'inverter', 640, MID, 52, '=', '\u223f');
  for (const dy of [-9, 0, 9]) d.wire('phases', [[666, MID + dy], [703 + (dy ? 2 : 0), MID + dy]]);
  d.symbol('motor', 728, MID, true, svg('circle', {r: 25, class: 'box'}));
  const [mx, my] = place(728, MID);
  const m = svg('text', {x: mx, y: my + 1, 'text-anchor': 'middle', class: 'label sign'});
  m.textContent = 'M';
  const phases = svg('text', {x: mx, y: my + 16, 'text-anchor': 'middle', class: 'label'});
  phases.textContent = '3\u223f';
  d.symbols.append(m, phases);
  d.label('inverter', 640, MID, [8, -52, 'start'], [32, 20, 'start'], '');
  d.label('inverter2', 640, MID, [8, -37, 'start'], [32, 36, 'start'], 'warn');
  d.label('motor', 728, MID, [0, 44, 'middle'], [34, -4, 'start'], 'value');
  d.label('motor2', 728, MID, [0, 60, 'middle'], [34, 12, 'start'], 'value');
  d.label('speed', 728, MID, [0, 76, 'middle'], [34, 28, 'start'], 'value');
}

function charger(d, x, side) {
  legs(d, side, x, 20);
  box(d, 'charger', x, MID, 40, '=', '\u223f');
  const out = x + 32;
  d.wire('mains', [[x + 20, MID], [out, MID], [out, 284], [out + 18, 284]]);
  d.symbol('inlet', out + 26, 284, true, svg('path', {d: 'M4 -10A10 10 0 0 0 4 10M-6 0H-8', class: 'stroke'}));
  d.symbol('plug', out + 36, 284, true, svg('path', {d: 'M-9 0H0', class: 'stroke thick'}), svg('path', {d: 'M0 -9H14V9H0Z', class: 'box'}), svg('path', {d: 'M14 0H34', class: 'stroke'}));
  d.label('charger', x, MID, [-24, 36, 'end'], [0, -26, 'middle'], '');
  d.label('plug', out + 76, 284, [5, 4, 'start'], [34, 2, 'end'], '');
  d.label('mainsTag', out + 76, 284, [5, 22, 'start'], [34, 18, 'end'], 'tag');
}

function converter(d, x, side) {
  legs(d, side, x, 20);
  box(d, 'dcdc', x, MID, 40, '=', '=');
  d.label('dcdc', x, MID, [22, -4, 'start'], [24, -8, 'start'], '');
  d.label('lv', x, MID, [22, 11, 'start'], [24, 18, 'start'], '');
}

function heater(d, x) {
  legs(d, 'bus', x, 22);
  d.symbol('heater', x, MID, false, svg('rect', {x: -22, y: -8, width: 44, height: 16, class: 'box'}), svg('path', {d: 'M-11 -8V8M0 -8V8M11 -8V8', class: 'stroke thin'}));
  d.label('heater', x, MID, [10, 4, 'start'], [26, -8, 'start'], '');
}

/** Symbols are stretched like the drawing, so that wires still meet them; a motor stays round. */
function scale(name, turn) {
  return !wide ? '' : name === 'motor' ? ` scale(${WIDER})` : turn ? ` scale(${HIGHER} ${WIDER * 0.75})` : ` scale(${WIDER} ${HIGHER})`;
}

/** Draws it anew, for another width or view. */
export function redraw() {
  if (hello) buildDiagram(hello);
}
narrow.addEventListener('change', redraw);

// ---- live

function live(name, on) {
  for (const path of wires[name] ?? []) setClass(path, 'live', on);
}

/** What is above a few volts, or unknown, is live, whatever feeds it. */
const isLive = volts => !(Math.abs(volts) < LIVE_V);

function tag(name, volts, what) {
  const node = texts[name];
  const on = isLive(volts);
  const words = Number.isNaN(volts) ? `${what} UNKNOWN` : on ? `${what} LIVE` : `${what} below ${LIVE_V} V`;
  setText(node, on && !(Math.abs(volts) < DANGEROUS_V) ? `\u26a1 ${words}` : words);
  setClass(node, 'on', on);
}

/** What a board reads is seen; everything else is true in the simulated car. */
function seen(f, signal, quantity) {
  const onBoard = hello.sources[f.source(hello.signals.findIndex(s => s.key === signal))] === 'board';
  return onBoard ? f.signal(signal) : f.truth(quantity);
}

function contactText(name, title, shows, asked) {
  const part = parts[name];
  const closed = shows !== 0;
  setClass(part, 'is-closed', closed);
  setText(texts[name], `${title} ${position(shows)}`);
  const differs = Number.isNaN(shows) || closed !== asked;
  setText(texts[`${name}2`], differs ? `asked ${asked ? 'closed' : 'open'}!` : '');
  setClass(part, 'differs', differs);
}

const position = shows => (Number.isNaN(shows) ? 'unknown' : shows ? 'closed' : 'open');

export function showDiagram(f) {
  const packV = seen(f, 'pack_voltage_v', 'pack_voltage_v'), busV = seen(f, 'bus_voltage_v', 'bus_voltage_v');
  const fused = !f.truth('fuse_blown');
  const contacts = ['negative', 'positive', 'precharge'].map(name => seen(f, `${name}_aux_closed`, `${name}_closed`));
  const [neg, pos, pre] = contacts.map(shows => shows !== 0);       // an unknown one is taken as closed
  const packLive = isLive(packV), busLive = isLive(busV);
  live('pack+', packLive && fused || busLive && (pos || pre));
  live('pack-', packLive);
  live('between', pre && packLive && fused || busLive);
  live('bus+', busLive || (pos || pre) && packLive && fused);
  live('bus-', busLive || neg && packLive);
  const switching = f.output('inverter_enable') === 1 && busLive, emf = Math.abs(f.truth('emf_v')) >= LIVE_V;
  live('phases', switching || emf);
  const mains = f.truth('station_closed') === 1;
  live('mains', mains);

  contactText('negative', 'negative', contacts[0], f.output('negative_contactor') === 1);
  contactText('positive', 'positive', contacts[1], f.output('positive_contactor') === 1);
  contactText('precharge', 'precharge', contacts[2], f.output('precharge_relay') === 1);
  setClass(parts.fuse, 'blown', !fused);
  setText(texts.fuse, fused ? 'fuse' : 'fuse BLOWN');
  setText(texts.packV, `${fixed(packV, 1)} V`);
  setText(texts.packSoc, `${fixed(f.truth('soc') * 100, 0)} %`);
  const amps = f.truth('pack_current_a');
  setText(texts.current, Math.abs(amps) < 0.05 ? '0 A' : amps > 0 ? `${fixed(amps, 1)} A ${tall ? '\u2193' : '\u2192'}` : `${tall ? '\u2191' : '\u2190'} ${fixed(-amps, 1)} A`);
  setText(texts.resistor, `${fixed(f.truth('resistor_temp_c'), 0)} \u00b0C`);
  setText(texts.busV, `bus ${fixed(busV, 1)} V`);
  tag('packTag', packV, 'pack');
  tag('busTag', busV, 'bus');
  setText(texts.inverter, f.output('inverter_enable') ? 'asked on' : 'asked off');
  setText(texts.inverter2, f.signal('inverter_ready') === 1 ? '' : 'not ready');
  setText(texts.motor, `${fixed(f.truth('motor_torque_nm'), 0)} Nm`);
  setText(texts.motor2, `${fixed(f.truth('motor_speed_rpm'), 0)} rpm`);
  setText(texts.speed, `${fixed(f.truth('speed_kph'), 1)} km/h`);
  const dc = ['charger_1_current_a', 'charger_2_current_a', 'charger_3_current_a'].reduce((sum, key) => sum + (f.truth(key) || 0), 0);
  setText(texts.charger, dc > 0.05 ? `${fixed(dc, 1)} A` : 'charger');
  const plugged = f.lever('plug') === 1;
  setClass(parts.plug, 'out', !plugged);
  setText(texts.plug, plugged ? `plugged, ${fixed(f.truth('ac_current_a'), 1)} A` : 'plug out');
  setText(texts.mainsTag, mains ? '\u26a1 mains LIVE' : 'station open');
  setClass(texts.mainsTag, 'on', mains);
  const lvAmps = f.truth('dcdc_current_a');
  setText(texts.dcdc, lvAmps > 0.05 ? `${fixed(lvAmps, 0)} A` : 'DC-DC');
  setText(texts.lv, `${fixed(f.truth('lv_voltage_v'), 1)} V`);
  if (texts.heater) setText(texts.heater, f.truth('heater_power_w') > 1 ? 'heating' : 'heater');
  words({packV, busV, contacts, mains, amps});
}

let saidAt = 0;

/** The same for who cannot see it; not more often than can be read. */
function words(s) {
  const now = performance.now();
  if (now - saidAt < 2000) return;
  saidAt = now;
  const [neg, pos, pre] = s.contacts.map(position);
  const bus = Number.isNaN(s.busV) ? 'unknown, take it as live' : isLive(s.busV) ? 'live' : `below ${LIVE_V} volt`;
  setText($('path-words'), `Pack ${fixed(s.packV, 0)} volt. Negative contactor ${neg}, precharge relay ${pre}, positive contactor ${pos}. `
    + `Bus ${fixed(s.busV, 0)} volt, ${bus}. Pack current ${fixed(s.amps, 0)} ampere. Station's contactor ${s.mains ? 'closed, mains live' : 'open'}.`);
}
