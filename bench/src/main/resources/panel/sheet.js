// The drawn sheet, as the simulated circuit is in this tick: what a net carries is told by width, pattern and a sign, contacts stand
// open or closed, parts say what they do. The bench sends only what changes.

import {$, el, setText, setClass, fixed} from './words.js';
import {LIVE_V, DANGEROUS_V} from './diagram.js';
import {fetchJson} from './link.js';
import {moment} from './moment.js';

const NS = 'http://www.w3.org/2000/svg';
const WORDS = {'P+': 'pack plus', Pm: 'the middle of the pack', 'P-': 'pack minus', L: 'mains line', N: 'mains neutral', 12: '12 V', 5: '5 V', 0: 'ground'};
const STEPS = [2.2, 3, 4, 5.5, 7.5];           // pixels for a millimetre of paper
const SIGN_MM = 9;                            // a shorter stretch of wire has no room for a sign

const state = {nets: {}, contacts: {}, parts: {}};
let names = {};
let sheets = null;
let asked = false;
let wanted = 0;                               // the step of the size; 0 shows the whole sheet
let wires = new Map();                        // of the sheet that is shown: groups by net
let contacts = [];
let boxes = new Map();
let chosen = null;

export function buildSheet(hello) {
  $('tab-sheet').hidden = !hello.wired;
  Object.assign(state, {nets: {}, contacts: {}, parts: {}});
}

/** Takes what has changed. */
export function showSheet(message, visible) {
  for (const kind of ['nets', 'contacts', 'parts']) {
    if (message.all) state[kind] = {};
    Object.assign(state[kind], message[kind]);
  }
  if (visible && sheets) paint();
}

/** What the sheet cannot show: the voltage that the bus holds. */
export function showBus(frame) {
  const volts = frame.truth('bus_voltage_v');
  setText($('sheet-bus'), `Bus ${fixed(volts, 1)} V${!(Math.abs(volts) < DANGEROUS_V) ? ': LIVE.' : Math.abs(volts) >= LIVE_V ? ': not yet discharged.' : '.'}`);
}

/** The tab is chosen: the sheets are fetched once. */
export async function openSheet() {
  if (sheets) { paint(); return; }
  if (asked) return;
  asked = true;
  setText($('sheet-read'), 'The sheets are being laid out ...');
  try {
    const answer = await fetchJson('/sheets.json');
    names = answer.nets;
    sheets = answer.sheets;
    $('sheet-which').replaceChildren(...sheets.map((sheet, i) => el('option', {value: i}, sheet.title)));
    setText($('sheet-read'), 'Choose a wire, or a net below, to read what it carries.');
    await letters(answer);
    wanted = 3;
    choose(0);
  } catch (error) {
    asked = false;
    setText($('sheet-read'), `The sheets did not come: ${error.message}`);
  }
}

/** The letters for which the words were measured. */
async function letters({family, letters: packed}) {
  const face = new FontFace(family, Uint8Array.from(atob(packed), c => c.charCodeAt(0)));
  document.fonts.add(await face.load());
}

function choose(which) {
  const parsed = new DOMParser().parseFromString(sheets[which].svg, 'image/svg+xml').documentElement;
  const root = document.importNode(parsed, true);
  root.removeAttribute('width');
  root.removeAttribute('height');
  wires = new Map();
  boxes = new Map();
  for (const group of root.querySelectorAll('g.wire')) {
    const net = group.dataset.net;
    if (!wires.has(net)) wires.set(net, []);
    wires.get(net).push({group, sign: signOf(group, root)});
    group.addEventListener('click', () => read(net));
  }
  contacts = [...root.querySelectorAll('g.contact')].map(contactOf);
  for (const group of root.querySelectorAll('g.part')) {
    const name = group.querySelector('title').textContent;
    if (!boxes.has(name)) boxes.set(name, []);
    boxes.get(name).push({group, words: null});
  }
  $('sheet-view').replaceChildren(root);
  size();
  paint();
}

/** The place of a wire's sign: the middle of its longest stretch. */
function signOf(group, root) {
  const points = [...group.querySelector('path').getAttribute('d').matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(m => [Number(m[1]), Number(m[2])]);
  let best = null, longest = SIGN_MM;
  for (let i = 1; i < points.length; i++) {
    const long = Math.abs(points[i][0] - points[i - 1][0]) + Math.abs(points[i][1] - points[i - 1][1]);
    if (long > longest) { longest = long; best = [(points[i][0] + points[i - 1][0]) / 2, (points[i][1] + points[i - 1][1]) / 2]; }
  }
  if (!best) return null;
  const text = document.createElementNS(NS, 'text');
  for (const [key, value] of Object.entries({x: best[0], y: best[1] + 0.8, class: 'carried', 'text-anchor': 'middle', 'font-size': 2.3})) text.setAttribute(key, value);
  root.append(text);
  return text;
}

/** A contact: its blade is the one slanted line, which is drawn anew; a fuse has none. */
function contactOf(group) {
  const ends = group.querySelector('title').textContent.split(' ');
  for (const path of group.querySelectorAll('path')) {
    const m = path.getAttribute('d').match(/^M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)$/);
    if (m && Math.abs(m[2] - m[4]) > 0.5 && Math.abs(m[1] - m[3]) > 2) return {group, ends, blade: path, x: Number(m[1]), y: Number(m[2]), mm: (m[3] - m[1]) / (Math.abs(m[2] - m[4]) > 0.29 * (m[3] - m[1]) ? 7.2 : 8.4)};
  }
  return {group, ends, blade: null};
}

function paint() {
  setText($('tab-sheet'), 'Sheet');
  for (const [net, all] of wires) {
    const sign = state.nets[net] ?? '-';
    const kind = kindOf(sign);
    for (const {group, sign: text} of all) {
      group.setAttribute('class', `wire ${kind}${net === chosen ? ' chosen' : ''}`);
      if (text) setText(text, kind === 'dead' ? '' : sign);
    }
  }
  for (const each of contacts) {
    const known = each.ends.find(end => end in state.contacts);
    if (known === undefined) continue;
    const closed = state.contacts[known];
    setClass(each.group, 'conducts', closed);
    setClass(each.group, 'open', !closed);
    if (each.blade) each.blade.setAttribute('d', closed ? `M${each.x} ${each.y}L${each.x + 8 * each.mm} ${each.y}` : `M${each.x} ${each.y}L${each.x + 6.4 * each.mm} ${each.y - 3.4 * each.mm}`);
  }
  for (const [name, all] of boxes) for (const box of all) partWords(box, name);
  table();
  if (chosen !== null) read(chosen);
}

function kindOf(sign) {
  if (sign.includes('!')) return 'short';
  if (sign === '-') return 'dead';
  if (sign.startsWith('(')) return 'weak';
  return /[PLN]/.test(sign) ? 'carries hv' : sign === '0' ? 'carries ground' : 'carries';
}

/** What a part does stands at the right above its frame. */
function partWords(box, name) {
  const words = state.parts[name];
  setClass(box.group, 'works', Boolean(words));
  if (words === undefined) return;
  if (!box.words) {
    const frame = box.group.getBBox();
    if (!frame.width) return;
    box.words = document.createElementNS(NS, 'text');
    for (const [key, value] of Object.entries({x: frame.x + frame.width, y: frame.y - 0.7, class: 'does', 'text-anchor': 'end', 'font-size': 2.6})) box.words.setAttribute(key, value);
    box.group.append(box.words);
  }
  setText(box.words, words || 'at rest');
}

/** A sign in words: what is in brackets is reached only through a load. */
export function words(sign) {
  if (sign === '-') return 'nothing';
  const [firm, through] = [sign.replace(/\(.*\)/, '').replace('!', ''), sign.match(/\((.*)\)/)?.[1]];
  const say = list => list.split(/[+/](?![+/)]|$)/).map(one => WORDS[one] ?? one).join(' and ');
  const parts = [firm ? say(firm) : '', through ? `${say(through)}, through a load only` : ''].filter(Boolean);
  return parts.join('; ') + (sign.includes('!') ? ': TWO SOURCES AGAINST EACH OTHER' : '');
}

function read(net) {
  chosen = net;
  for (const [each, all] of wires) for (const {group} of all) setClass(group, 'chosen', each === net);
  const numbers = (wires.get(net) ?? []).map(({group}) => group.querySelector('title').textContent.split(',')[0]);
  setText($('sheet-read'), `${names[net]}: ${words(state.nets[net] ?? '-')}${numbers.length ? `. Wires on this sheet: ${numbers.join(' ')}` : ''}${moment.at !== null ? '. The sheet shows now, not the moment that the rest of the page shows' : ''}.`);
}

function table() {
  if (!$('sheet-nets').closest('details').open) return;
  $('sheet-nets').replaceChildren(...Object.entries(names).map(([net, name]) => el('tr', {},
    el('th', {scope: 'row'}, el('button', {type: 'button', class: 'small', onclick: () => read(net)}, name)), el('td', {}, words(state.nets[net] ?? '-')))));
}

function size() {
  const root = $('sheet-view').firstElementChild;
  if (!root) return;
  const [, , width] = root.getAttribute('viewBox').split(' ').map(Number);
  root.style.width = wanted ? `${width * STEPS[wanted - 1]}px` : '100%';
}

$('sheet-which').addEventListener('change', () => choose(Number($('sheet-which').value)));
$('sheet-in').addEventListener('click', () => { wanted = Math.min(STEPS.length, wanted + 1); size(); });
$('sheet-out').addEventListener('click', () => { wanted = Math.max(0, wanted - 1); size(); });
$('sheet-all').addEventListener('click', () => { wanted = 0; size(); });
$('sheet-nets').closest('details').addEventListener('toggle', table);
