// Strip charts on uPlot: pause, zoom, a common cursor, a window that follows time. Memory is bounded.

import uPlot from '/uplot.js';
import {$, el, setText, brief, setClass} from './words.js';

const KEPT = 12000;              // ten minutes at twenty frames a second
const MOST_POINTS = 900;         // more than a strip has pixels
const REDRAW_MS = 100;
const STRIPS = [
  {title: 'Voltage', unit: 'V', channels: [['truth', 'pack_voltage_v', 'pack'], ['truth', 'bus_voltage_v', 'bus']]},
  {title: 'Pack current', unit: 'A', channels: [['truth', 'pack_current_a', 'pack, out of it positive']]},
  {title: 'Torque', unit: 'Nm', channels: [['output', 'torque_request_nm', 'asked'], ['truth', 'motor_torque_nm', 'motor']]},
  {title: 'Speed', unit: 'km/h', channels: [['truth', 'speed_kph', 'car']]},
];
// Told apart by dash as well as by colour.
const LINES = [{colour: '--line-1', dash: []}, {colour: '--line-2', dash: [6, 4]}];

let dragged = null;   // the strip in which a drag has begun
let hello = null;
let plots = [];
let times = new Float64Array(0);
let columns = [];
let count = 0;
let start = 0;
let still = false;
let view = null;                 // [from, to] while it does not follow time
let drawnAt = 0;
let cursorS = null;
let visible = true;
let lastTime = -1;

export function buildCharts(description) {
  hello = description;
  for (const plot of plots) plot.u?.destroy();
  const own = $('chart-own');
  const chosen = own.value;
  const options = [
    ['', 'none'],
    ...hello.quantities.map(q => [`truth:${q.key}`, `${q.key} (true)`]),
    ...hello.signals.filter(s => s.fitted).map(s => [`signal:${s.key}`, s.key]),
    ...hello.outputs.map(o => [`output:${o.key}`, `${o.key} (asked)`]),
  ];
  own.replaceChildren(...options.map(([value, words]) => el('option', {value}, words)));
  own.value = chosen;
  allocate();
  build();
}

/** Every number of a frame is kept, so that a channel chosen late has its past. */
function allocate() {
  const width = hello.layout.sections.interlocks;
  times = new Float64Array(KEPT);
  columns = Array.from({length: width}, () => new Float32Array(KEPT));
  count = start = 0;
}

function indexOf([kind, key]) {
  const at = hello.layout.sections;
  const find = rows => rows.findIndex(row => row.key === key);
  if (kind === 'truth') return at.quantities + find(hello.quantities);
  return kind === 'signal' ? at.signals + find(hello.signals) : at.outputs + find(hello.outputs);
}

function strips() {
  const own = $('chart-own').value;
  if (!own) return STRIPS;
  const [kind, key] = own.split(':');
  const row = {truth: hello.quantities, signal: hello.signals, output: hello.outputs}[kind].find(r => r.key === key);
  return [...STRIPS, {title: key, unit: row.unit, channels: [[kind, key, row.meaning]]}];
}

function build() {
  for (const plot of plots) plot.u.destroy();
  const box = $('charts');
  box.replaceChildren();
  const css = getComputedStyle(document.documentElement);
  const colour = name => css.getPropertyValue(name).trim();
  const all = strips();
  plots = all.map((strip, n) => {
    const last = n === all.length - 1;
    const holder = el('div', {class: 'strip'});
    const heading = el('p', {class: 'strip-title'}, `${strip.title}${strip.unit ? `, ${strip.unit}` : ''}`);
    const keys = strip.channels.map(([, , words], i) => el('span', {class: `key key-${i + 1}`}, words, ' ', el('output', {class: 'num'})));
    heading.append(...keys);
    box.append(el('div', {class: 'strip-box'}, heading, holder));
    const axis = {stroke: colour('--muted'), grid: {stroke: colour('--grid'), width: 1}, ticks: {show: false}, font: '11px system-ui'};
    const u = new uPlot({
      width: Math.max(200, box.clientWidth - 4), height: stripHeight() + (last ? 20 : 0),
      cursor: {sync: {key: 'strips'}, drag: {x: true, y: false, setScale: false}},   // zoomTo sets the scale of all strips, once
      legend: {show: false},
      scales: {x: {time: false}, y: {range: (_, low, high) => spread(low, high)}},
      axes: [{...axis, size: last ? 24 : 4, space: 70, values: (_, v) => v.map(s => (last ? `${s} s` : ''))}, {...axis, size: 46, space: 18}],
      series: [{}, ...strip.channels.map((_, i) => ({stroke: colour(LINES[i].colour), width: 2, dash: LINES[i].dash, points: {show: false}}))],
      hooks: {
        setSelect: [chart => { if (chart === dragged) zoomTo(chart.posToVal(chart.select.left, 'x'), chart.posToVal(chart.select.left + chart.select.width, 'x'), chart.select.width); }],
        setCursor: [chart => { if (chart.cursor.left >= 0) readAt(chart.posToVal(chart.cursor.left, 'x')); }],
      },
    }, [[], ...strip.channels.map(() => [])], holder);
    u.over.addEventListener('mousedown', () => { dragged = u; });   // the others only follow it: one drag is one zoom
    return {u, index: strip.channels.map(indexOf), outs: keys.map(key => key.lastChild)};
  });
  draw(true);
}

function spread(low, high) {
  if (low == null) return [0, 1];
  const room = Math.max((high - low) * 0.08, 0.5);
  return [low - room, high + room];
}

export function addFrame(frame) {
  const t = frame.head('time_s');
  if (t < lastTime) { count = start = 0; cursorS = null; hold(false); }   // a new car
  if (t === lastTime) return;                                     // time stands still
  lastTime = t;
  const at = (start + count) % KEPT;
  times[at] = t;
  for (let i = 0; i < columns.length; i++) columns[i][at] = frame.n[i];
  if (count < KEPT) count++; else start = (start + 1) % KEPT;
  draw(false);
}

function span() {
  if (view) return view;
  const end = count ? times[(start + count - 1) % KEPT] : 0;
  const width = Number($('chart-window').value);
  return [Math.max(0, end - width), Math.max(width, end)];
}

/** The first kept frame at or after a time. */
function find(t) {
  let low = 0, high = count;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (times[(start + mid) % KEPT] < t) low = mid + 1; else high = mid;
  }
  return low;
}

function draw(now) {
  const at = performance.now();
  if (!visible || document.hidden || (!now && (still || at - drawnAt < REDRAW_MS))) return;
  drawnAt = at;
  const [from, to] = span();
  Object.assign($('charts').dataset, {fromS: from, toS: to});
  const first = Math.max(0, find(from) - 1), last = Math.min(count - 1, find(to));
  const step = Math.max(1, Math.ceil((last - first + 1) / MOST_POINTS));
  const x = [];
  for (let i = first; i <= last; i += step) x.push(times[(start + i) % KEPT]);
  for (const plot of plots) {
    const rows = plot.index.map(c => {
      const y = [];
      for (let i = first; i <= last; i += step) {
        const v = columns[c][(start + i) % KEPT];
        y.push(Number.isNaN(v) ? null : v);
      }
      return y;
    });
    plot.u.batch(() => {
      plot.u.setData([x, ...rows], false);
      plot.u.setScale('x', {min: from, max: to});
    });
  }
  readAt(cursorS ?? to);
}

function readAt(t) {
  if (!count) return;
  const i = Math.min(count - 1, find(t));
  const at = (start + i) % KEPT;
  setText($('chart-read'), cursorS === null ? '' : `at ${times[at].toFixed(2)} s`);
  for (const plot of plots) plot.outs.forEach((out, k) => setText(out, brief(columns[plot.index[k]][at])));
}

/** The strips share the selection: it is taken away from all of them, so that none of the others zooms again. */
function zoomTo(from, to, pixels) {
  dragged = null;
  for (const plot of plots) plot.u.setSelect({left: 0, width: 0, top: 0, height: 0}, false);
  if (pixels < 4) return;
  view = [from, to];
  hold(true);
  draw(true);
}

function zoom(factor) {
  const [from, to] = span();
  const middle = (from + to) / 2, half = (to - from) / 2 * factor;
  view = [Math.max(0, middle - half), middle + half];
  hold(true);
  draw(true);
}

function pan(share) {
  const [from, to] = span();
  const by = (to - from) * share;
  view = [Math.max(0, from + by), Math.max(to - from, to + by)];
  hold(true);
  draw(true);
}

function hold(on) {
  still = on;
  if (!on) view = null;
  $('chart-pause').setAttribute('aria-pressed', on);
  setText($('chart-pause'), on ? 'Follow' : 'Hold still');
  draw(true);
}

function moveCursor(step) {
  const [from, to] = span();
  cursorS = Math.min(to, Math.max(from, (cursorS ?? to) + step * (to - from) / 100));
  const u = plots[0].u;
  for (const plot of plots) plot.u.setCursor({left: plot.u.valToPos(cursorS, 'x'), top: 10}, false);
  readAt(cursorS);
  return u;
}

export function showCharts(on) {
  visible = on;
  if (on && hello) { resize(); draw(true); }
}

function resize() {
  const width = Math.max(200, $('charts').clientWidth - 4);
  const height = stripHeight();
  plots.forEach((plot, n) => {
    const own = height + (n === plots.length - 1 ? 20 : 0);
    if (Math.abs(plot.u.width - width) > 1 || plot.u.height !== own) plot.u.setSize({width, height: own});
  });
}

/** The strips share the height there is, within what can be read. */
function stripHeight() {
  const each = Math.floor(($('charts').clientHeight - 24) / strips().length) - 19;
  return Math.min(110, Math.max(44, each));
}

export function wireCharts() {
  $('chart-pause').addEventListener('click', () => hold(!still));
  $('chart-in').addEventListener('click', () => zoom(0.5));
  $('chart-out').addEventListener('click', () => zoom(2));
  $('chart-back').addEventListener('click', () => pan(-0.25));
  $('chart-on').addEventListener('click', () => pan(0.25));
  $('chart-window').addEventListener('change', () => hold(false));
  $('chart-own').addEventListener('change', build);
  const box = $('charts');
  box.addEventListener('keydown', event => {
    const step = {ArrowLeft: -1, ArrowRight: 1}[event.key];
    if (step) { event.preventDefault(); moveCursor(event.shiftKey ? step * 10 : step); }
  });
  box.addEventListener('dblclick', () => hold(false));
  box.addEventListener('pointermove', event => {
    const over = plots[0]?.u.over.getBoundingClientRect();
    if (!over) return;
    const x = event.clientX - over.left;
    cursorS = x >= 0 && x <= over.width ? plots[0].u.posToVal(x, 'x') : null;
  });
  box.addEventListener('pointerleave', () => { cursorS = null; });
  box.addEventListener('blur', () => { cursorS = null; });
  new ResizeObserver(resize).observe(box);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => hello && build());
}

export {setClass};
