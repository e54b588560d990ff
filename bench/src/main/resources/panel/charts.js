// Strip charts on uPlot, or one tall chart: zoom, a window that follows time, bands of the state, marks of the events, and two
// cursors that read values and measure time between them.

import uPlot from '/uplot.js';
import {$, el, setText, brief, fixed} from './words.js';
import {series} from './series.js';
import {moment} from './moment.js';

const MOST_POINTS = 900;         // more than a strip has pixels
const REDRAW_MS = 100;
const STRIPS = [
  {title: 'Voltage', unit: 'V', level: 'bus.discharged_v', channels: [['truth', 'bus_voltage_v', 'bus'], ['truth', 'pack_voltage_v', 'pack']]},
  {title: 'Pack current', unit: 'A', channels: [['truth', 'pack_current_a', 'pack, out of it positive']]},
  {title: 'Torque', unit: 'Nm', channels: [['output', 'torque_request_nm', 'asked'], ['truth', 'motor_torque_nm', 'motor']]},
  {title: 'Speed', unit: 'km/h', channels: [['truth', 'speed_kph', 'car']]},
];
// Told apart by dash as well as by colour.
const LINES = [{colour: '--line-1', dash: []}, {colour: '--line-2', dash: [6, 4]}];
const MARKED = new Set(['STATE', 'INTERLOCK', 'REFUSED']);

let dragged = null;              // the strip in which a drag has begun
let hello = null;
let plots = [];
let still = false;
let view = null;                 // [from, to] while it does not follow time
let drawnAt = 0;
let hoverS = null;
let visible = true;
let one = '';                    // the title of the one tall chart, '' for all strips
let share = null;                // the level at which cursor A was put, a share of the way
const cursors = {A: null, B: null};
let chosen = 'A';

export function buildCharts(description) {
  hello = description;
  series.build(description);
  const options = [
    ['', 'none'],
    ...hello.quantities.map(q => [`truth:${q.key}`, `${q.key} (true)`]),
    ...hello.signals.filter(s => s.fitted).map(s => [`signal:${s.key}`, s.key]),
    ...hello.outputs.map(o => [`output:${o.key}`, `${o.key} (asked)`]),
  ];
  const own = $('chart-own'), before = own.value;
  own.replaceChildren(...options.map(([value, words]) => el('option', {value}, words)));
  own.value = before;
  build();
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
  const whole = strips();
  if (!whole.some(strip => strip.title === one)) one = '';
  $('chart-show').replaceChildren(el('option', {value: ''}, 'all'), ...whole.map(strip => el('option', {value: strip.title}, strip.title)));
  $('chart-show').value = one;
  const all = one ? whole.filter(strip => strip.title === one) : whole;
  plots = all.map((strip, n) => plot(strip, n === all.length - 1, all.length === 1, box));
  showCursors();
  draw(true);
}

const css = name => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const large = () => document.body.classList.contains('projected');
const font = px => `${large() ? Math.max(18, Math.round(innerHeight / 45)) : px}px system-ui, sans-serif`;

function plot(strip, last, tall, box) {
  const holder = el('div', {class: 'strip'});
  const heading = el('p', {class: 'strip-title'}, `${strip.title}${strip.unit ? `, ${strip.unit}` : ''}`);
  const keys = strip.channels.map(([, , words], i) => el('span', {class: `key key-${i + 1}`}, words, ' ', el('output', {class: 'num'})));
  heading.append(...keys);
  box.append(el('div', {class: 'strip-box'}, heading, holder));
  const axis = {stroke: css('--muted'), grid: {stroke: css('--grid'), width: 1}, ticks: {show: false}, font: font(tall ? 13 : 11)};
  const big = large();
  const made = {strip, tall, index: strip.channels.map(c => series.column(c)), outs: keys.map(key => key.lastChild)};
  const u = new uPlot({
    width: Math.max(200, box.clientWidth - 4), height: stripHeight() + (last ? 20 : 0),
    cursor: {sync: {key: 'strips'}, drag: {x: true, y: false, setScale: false}},   // zoomTo sets the scale of all strips, once
    legend: {show: false},
    scales: {x: {time: false}, y: {range: (_, low, high) => spread(low, high, tall ? 0.2 : 0.08)}},
    axes: [{...axis, size: last ? (big ? 40 : 24) : 4, space: big ? 130 : 70, values: (_, v) => v.map(s => (last ? `${s} s` : ''))},
      {...axis, size: big ? 84 : 46, space: big ? 50 : tall ? 30 : 18}],
    series: [{}, ...strip.channels.map((_, i) => ({stroke: css(LINES[i].colour), width: big ? 5 : 2, dash: LINES[i].dash.map(d => d * (big ? 2.5 : 1)), points: {show: false}}))],
    hooks: {
      drawClear: [chart => bands(chart, tall)],
      draw: [chart => marks(chart, made)],
      setSelect: [chart => { if (chart === dragged) zoomTo(chart.posToVal(chart.select.left, 'x'), chart.posToVal(chart.select.left + chart.select.width, 'x'), chart.select.width); }],
      setCursor: [chart => { if (chart.cursor.left >= 0) readAt(chart.posToVal(chart.cursor.left, 'x')); }],
    },
  }, [[], ...strip.channels.map(() => [])], holder);
  let downX = 0;
  u.over.addEventListener('mousedown', event => { dragged = u; downX = event.clientX; });   // the others only follow it: one drag is one zoom
  u.over.addEventListener('click', event => {
    if (Math.abs(event.clientX - downX) < 4) put(chosen, u.posToVal(event.clientX - u.over.getBoundingClientRect().left, 'x'));
  });
  made.u = u;
  return made;
}

/** A little room around the curves; above them the tall chart names the states. */
function spread(low, high, above) {
  if (low == null) return [0, 1];
  const room = Math.max((high - low) * 0.08, 0.5);
  return [low - room, high + Math.max((high - low) * above, room)];
}

// ---- what lies behind and on the curves

/** Behind the curves: which state it was. Neighbours differ in shade, a fault is tinted. */
function bands(u, tall) {
  if (!hello || !series.count) return;
  const {ctx} = u, {left, top, width, height} = u.bbox;
  const column = hello.layout.head.indexOf('state');
  const [from, to] = [u.scales.x.min, u.scales.x.max];
  const x = t => Math.min(left + width, Math.max(left, u.valToPos(t, 'x', true)));
  const end = Math.min(series.count - 1, series.find(to));
  ctx.save();
  ctx.textBaseline = 'top';
  ctx.textAlign = 'left';
  ctx.font = font(11);
  let free = left;
  for (let i = Math.max(0, series.find(from) - 1); i <= end;) {
    const state = series.value(column, i);
    let j = i + 1;
    while (j <= end && series.value(column, j) === state) j++;
    const x0 = x(series.time(i)), x1 = x(series.time(Math.min(j, end)));
    const name = hello.states[state]?.name ?? '';
    ctx.fillStyle = name === 'FAULT' ? css('--band-fault') : css(state % 2 ? '--band-1' : '--band-2');
    ctx.fillRect(x0, top, Math.max(1, x1 - x0), height);
    if (tall) {
      const words = name.replaceAll('_', ' ');
      const at = Math.max(free, x0 + 4);
      if (at + ctx.measureText(words).width < x1) {
        ctx.fillStyle = css('--muted');
        ctx.fillText(words, at, top + 3);
        free = at + ctx.measureText(words).width + 8;
      }
    }
    i = j;
  }
  ctx.restore();
}

/** On the curves: events, the limit of the bus, the share that was asked for, and the two cursors. */
function marks(u, {strip, tall, index}) {
  const {ctx} = u, {left, top, width, height} = u.bbox;
  const inside = t => t >= u.scales.x.min && t <= u.scales.x.max;
  const line = (x0, y0, x1, y1, colour, dash, thick = 1) => {
    ctx.strokeStyle = css(colour);
    ctx.lineWidth = thick * devicePixelRatio;
    ctx.setLineDash(dash);
    ctx.beginPath();
    ctx.moveTo(x0, y0);
    ctx.lineTo(x1, y1);
    ctx.stroke();
  };
  ctx.save();
  ctx.font = font(12);
  for (const event of series.events) {
    if (!MARKED.has(event.kind) || !inside(event.t)) continue;
    const x = u.valToPos(event.t, 'x', true);
    line(x, top, x, top + height, '--muted', [2, 4]);
    ctx.fillStyle = css(event.kind === 'INTERLOCK' ? '--red' : event.kind === 'REFUSED' ? '--blue' : '--ink');
    ctx.beginPath();
    const s = large() ? 12 : 5;
    ctx.moveTo(x - s, top + height); ctx.lineTo(x + s, top + height); ctx.lineTo(x, top + height - 1.6 * s);
    ctx.fill();
  }
  const level = (value, words, right) => {
    const y = u.valToPos(value, 'y', true);
    if (!(y > top && y < top + height)) return;
    line(left, y, left + width, y, '--ink', [8, 6]);
    ctx.fillStyle = css('--ink');
    ctx.textAlign = right ? 'right' : 'left';
    ctx.textBaseline = 'bottom';
    ctx.fillText(words, right ? left + width - 6 : left + 6, y - 2);
  };
  if (tall && strip.level) level(hello.vehicle.values[strip.level], `${hello.vehicle.values[strip.level]} V`, true);
  if (tall && share && share.title === strip.title) level(share.value, `${share.percent} %: ${brief(share.value)} ${strip.unit}`, false);
  for (const [name, t] of Object.entries(cursors)) {
    if (t === null || !inside(t)) continue;
    const x = u.valToPos(t, 'x', true);
    line(x, top, x, top + height, '--ink', name === 'A' ? [] : [6, 4], large() ? 3 : 1.5);
    ctx.fillStyle = css('--ink');
    ctx.textAlign = 'left';
    ctx.textBaseline = 'top';
    ctx.fillText(name, x + 5, top + (large() ? 32 : 16));
    index.forEach((column, i) => {
      const y = u.valToPos(under(name, column), 'y', true);
      ctx.fillStyle = css(LINES[i].colour);
      ctx.beginPath();
      ctx.arc(x, y, large() ? 9 : 4, 0, 7);
      ctx.fill();
    });
  }
  ctx.restore();
}

// ---- cursors

/** Puts a cursor, or takes it away with null. Cursor A is also the moment that the whole page shows. */
function put(name, t, asked = null) {
  cursors[name] = t === null ? null : Math.max(0, t);
  if (name === 'A') {
    share = asked;
    moment.set(cursors.A);
  }
  if (t !== null && !still) freeze();
  showCursors();
  draw(true);
}

/** The window stays where it is, so that what is measured does not run away. */
function freeze() {
  view = span();
  hold(true);
}

function target() {
  const {strip, index} = plots[0];
  return {strip, column: index[0], words: strip.channels[0][2]};
}

/** Puts cursor A where the curve has gone a share of its way from the left edge to the last value shown. */
function putAtShare() {
  const percent = Number($('chart-percent').value);
  if (!$('chart-percent').reportValidity() || !series.count) return;
  const {strip, column, words} = target();
  const [from, to] = span();
  const first = Math.max(from, series.time(0)), last = Math.min(to, series.last());
  const v0 = series.at(column, first), v1 = series.at(column, last);
  if (!(Math.abs(v1 - v0) > 0.02 * Math.max(Math.abs(v0), Math.abs(v1), 1))) {
    say(`The ${words} begins and ends at the same value here. Zoom to one rise or one fall.`);
    return;
  }
  const value = v0 + (v1 - v0) * percent / 100;
  put('A', series.crossing(column, value, first, last), {title: strip.title, value, percent});
}

/** Puts cursor B where the bus passes its limit: next after cursor A, else first in the window. */
function putAtLimit() {
  const limit = hello.vehicle.values['bus.discharged_v'];
  const [from, to] = span();
  const column = series.column(['truth', 'bus_voltage_v']);
  const t = series.crossing(column, limit, Math.max(from, cursors.A ?? from), to) ?? series.crossing(column, limit, from, to);
  if (t === null) say(`The bus does not pass ${limit} V in this window.`);
  else put('B', t);
}

function say(words) {
  setText($('chart-read'), words);
}

/** What a cursor reads: of exactly its tick, where the bench has kept it; else on the line between two frames. */
function under(name, column) {
  const exact = name === 'A' && !share && moment.told && cursors.A !== null;
  return exact ? moment.frame.n[column] : series.at(column, cursors[name]);
}

/** What the cursors read, and what lies between them. */
function showCursors() {
  for (const name of ['A', 'B']) $(`cursor-${name}`).setAttribute('aria-pressed', chosen === name);
  if (!plots.length) return;
  const parts = [];
  const {strip, index} = plots[0];
  const values = name => index.map((column, i) => `${strip.channels[i][2].split(',')[0]} ${fixed(under(name, column), 1)} ${strip.unit}`).join(', ');
  const {A, B} = cursors;
  if (A !== null) parts.push(`A ${A.toFixed(3)} s: ${values('A')}`);
  if (B !== null) parts.push(`B ${B.toFixed(3)} s: ${values('B')}`);
  if (A !== null && B !== null) {
    parts.push(`B \u2212 A: ${((B - A) * 1000).toFixed(0)} ms, ${fixed(under('B', index[0]) - under('A', index[0]), 1)} ${strip.unit}`);
  }
  setText($('chart-read'), parts.join(' \u00b7 '));
  $('cursor-none').hidden = A === null && B === null;
}

moment.on(at => {
  if (at === cursors.A) return;
  cursors.A = at;
  share = null;
  if (at !== null) {
    const [from, to] = span();
    view = at < from || at > to ? [Math.max(0, at - (to - from) / 2), Math.max(0, at - (to - from) / 2) + to - from] : [from, to];
    hold(true);
  } else if (cursors.B === null) {
    hold(false);
  }
  showCursors();
  draw(true);
});

moment.onShow(() => { showCursors(); draw(true); });

// ---- frames

export function addFrame(frame) {
  const how = series.add(frame);
  if (how === 'anew') {
    hoverS = cursors.A = cursors.B = share = null;
    moment.set(null);
    showCursors();
    hold(false);
  }
  if (how !== 'still') draw(false);
}

function span() {
  if (view) return view;
  const end = series.last();
  const width = Number($('chart-window').value);
  return [Math.max(0, end - width), Math.max(width, end)];
}

function draw(now) {
  const at = performance.now();
  if (!visible || document.hidden || (!now && (still || at - drawnAt < REDRAW_MS))) return;
  drawnAt = at;
  const [from, to] = span();
  Object.assign($('charts').dataset, {fromS: from, toS: to});
  const first = Math.max(0, series.find(from) - 1), last = Math.min(series.count - 1, series.find(to));
  const step = Math.max(1, Math.ceil((last - first + 1) / MOST_POINTS));
  const x = [];
  for (let i = first; i <= last; i += step) x.push(series.time(i));
  for (const plot of plots) {
    const rows = plot.index.map(c => {
      const y = [];
      for (let i = first; i <= last; i += step) {
        const v = series.value(c, i);
        y.push(Number.isNaN(v) ? null : v);
      }
      return y;
    });
    plot.u.batch(() => {
      plot.u.setData([x, ...rows], false);
      plot.u.setScale('x', {min: from, max: to});
    });
  }
  readAt(hoverS ?? cursors.A ?? to);
}

function readAt(t) {
  if (!series.count) return;
  const read = column => (t === cursors.A ? under('A', column) : series.at(column, t));
  for (const plot of plots) plot.outs.forEach((out, k) => setText(out, brief(read(plot.index[k]))));
}

/** The strips share the selection: it is taken away from all of them, so that none of the others zooms again. */
function zoomTo(from, to, pixels) {
  dragged = null;
  for (const plot of plots) plot.u.setSelect({left: 0, width: 0, top: 0, height: 0}, false);
  if (pixels < 4) return;
  view = [from, to];
  hold(true);
}

function zoom(factor) {
  const [from, to] = span();
  const middle = cursors.A ?? (from + to) / 2, half = (to - from) / 2 * factor;
  view = [Math.max(0, middle - half), middle + half];
  hold(true);
}

function pan(part) {
  const [from, to] = span();
  const by = (to - from) * part;
  view = [Math.max(0, from + by), Math.max(to - from, to + by)];
  hold(true);
}

function hold(on) {
  still = on;
  if (!on) view = null;
  $('chart-pause').setAttribute('aria-pressed', on);
  setText($('chart-pause'), on ? 'Follow' : 'Hold still');
  draw(true);
}

export function showCharts(on) {
  visible = on;
  if (on && hello) { resize(); draw(true); }
}

/** One tall chart, or all strips. */
export function showOne(title) {
  one = title;
  if (hello) build();
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
  const room = $('charts').clientHeight;
  if (one) return Math.max(220, room - (large() ? 62 : 44));
  return Math.min(110, Math.max(44, Math.floor((room - 24) / strips().length) - 19));
}

export function wireCharts() {
  $('chart-pause').addEventListener('click', () => hold(!still));
  $('chart-in').addEventListener('click', () => zoom(0.5));
  $('chart-out').addEventListener('click', () => zoom(2));
  $('chart-back').addEventListener('click', () => pan(-0.25));
  $('chart-on').addEventListener('click', () => pan(0.25));
  $('chart-window').addEventListener('change', () => hold(false));
  $('chart-own').addEventListener('change', build);
  $('chart-show').addEventListener('change', () => showOne($('chart-show').value));
  $('chart-share').addEventListener('click', putAtShare);
  $('chart-limit').addEventListener('click', putAtLimit);
  $('cursor-none').addEventListener('click', () => { put('B', null); put('A', null); hold(false); });
  for (const name of ['A', 'B']) $(`cursor-${name}`).addEventListener('click', () => { chosen = name; showCursors(); });
  const box = $('charts');
  box.addEventListener('keydown', event => {
    const step = {ArrowLeft: -1, ArrowRight: 1}[event.key];
    if (!step) return;
    event.preventDefault();
    event.stopPropagation();
    const ticks = step * (event.shiftKey ? 10 : 1);
    if (chosen === 'A' && cursors.A !== null) moment.step(ticks);
    else put(chosen, (cursors[chosen] ?? series.last()) + ticks * hello.vehicle.values['loop.tick_ms'] / 1000);
  });
  box.addEventListener('dblclick', () => { put('B', null); put('A', null); hold(false); });
  box.addEventListener('pointermove', event => {
    const over = plots[0]?.u.over.getBoundingClientRect();
    if (!over) return;
    const x = event.clientX - over.left;
    hoverS = x >= 0 && x <= over.width ? plots[0].u.posToVal(x, 'x') : null;
  });
  for (const end of ['pointerleave', 'blur']) box.addEventListener(end, () => { hoverS = null; });
  new ResizeObserver(resize).observe(box);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => hello && build());
}
