// The page: shows the frames and texts that the bench sends, and turns what a person does into orders.

import {on, send, connect, download} from './link.js';
import {$, el, setText, setClass} from './words.js';
import {tabs} from './tabs.js';
import {buildLevers, showLevers, enableLevers, pointAt, goTo, leads} from './levers.js';
import {buildStrip, showStrip, guideStrip, enableStrip, needs} from './strip.js';
import {buildDiagram, showDiagram} from './diagram.js';
import {buildCharts, addFrame, showCharts, wireCharts} from './charts.js';
import {series} from './series.js';
import {moment} from './moment.js';
import {showThen, wireThen} from './then.js';
import {wireClass, showClass} from './class.js';
import {wireProject} from './project.js';
import {buildSheet, openSheet, showSheet, showBus} from './sheet.js';
import {buildLists, showInterlocks, showFaults, showSignals, showPlaying, addNotes} from './lists.js';

const SPEEDS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20];
// IEC 60073: red danger, yellow abnormal, green normal, blue an act is required, white without special meaning.
const LAMPS = [
  ['ready', 'green', 'Ready', f => f.output('ready_lamp')],
  ['fault', 'red', 'Fault', f => f.output('fault_lamp')],
  ['charge', 'white', 'Charge', f => f.output('charge_lamp')],
  ['brake', 'red', 'Brake lamps', f => f.output('brake_lamp')],
  ['act', 'blue', 'Act needed', () => missing],
  ['buzzer', 'yellow', 'Buzzer', f => f.output('buzzer')],
];

let hello = null;
let frame = null;
let pane = 'charts';
let missing = false;
let control = false;
let asking = false;
let arrived = false;
let settled = false;
let drawing = false;
let faultState = -1;
let needsPackAbsent = false;

on('hello', message => {
  hello = message;
  document.title = `${hello.vehicle.name}: Sprag panel`;
  setText($('vehicle'), hello.vehicle.name);
  $('vehicle').title = hello.vehicle.description;
  faultState = hello.states.findIndex(s => s.name === 'FAULT');
  $('weak').hidden = !hello.without.length;
  setText($('weak'), `Weakened on purpose: without ${hello.without.join(', ')}`);
  buildLevers(hello);
  buildStrip(hello);
  buildDiagram(hello);
  buildLists(hello);
  buildCharts(hello);
  buildSheet(hello, () => pane === 'sheet');
  moment.tickSeconds(hello.vehicle.values['loop.tick_ms'] / 1000);
  $('speed').replaceChildren(...SPEEDS.map(x => el('option', {value: x}, `\u00d7${x}`)));
  $('speed').value = 1;
  $('lamps').replaceChildren(...LAMPS.map(([id, colour, words]) => el('span', {class: `lamp ${colour}`, id: `lamp-${id}`},
    el('i', {'aria-hidden': true}), el('span', {}, words), el('b', {}, 'off'))));
  $('cautions').replaceChildren(...hello.cautions.map(text => el('li', {}, text)));
  $('arm-cautions').replaceChildren(...hello.cautions.map(text => el('li', {}, text)));
  $('arm-invented').replaceChildren(...(hello.boardInvented ?? []).map(text => el('li', {}, text)));
  $('arm-invented-part').hidden = !(hello.boardInvented ?? []).length;
  needsPackAbsent = hello.boardNeedsPackAbsent ?? false;
  $('arm-needed').hidden = !needsPackAbsent;
  setText($('arm-drives'), (hello.boardDrives ?? []).join(', ') || 'nothing');
  enable();
  showWhole();
});

on('frame', next => {
  frame = next;
  addFrame(frame);
  if (!drawing && !document.hidden) {
    drawing = true;
    requestAnimationFrame(() => { drawing = false; show(); });
  }
});

function show() {
  const now = frame;
  const f = moment.frame ?? now;
  const state = hello.states[f.head('state')];
  setText($('state-name'), state.name.replaceAll('_', ' '));
  $('state').title = state.words;
  setClass($('state'), 'fault', f.head('state') === faultState);
  setText($('clock'), `${f.head('time_s').toFixed(2)} s`);
  const paused = now.head('paused') === 1;
  $('pause').setAttribute('aria-pressed', paused);
  setText($('pause'), paused ? 'Go on' : 'Pause');
  if (document.activeElement !== $('speed')) $('speed').value = now.head('speed');
  const played = now.head('played');
  setText($('playing'), played >= 0 ? `playing: ${Math.round(played * 100)} %` : '');
  showLevers(now);
  showStrip(f, state, f.head('state') === faultState);
  showDiagram(f);
  showInterlocks(f, pane === 'interlocks');
  showSignals(f, pane === 'signals');
  if (pane === 'sheet') showBus(now);
  for (const [id, , , lit] of LAMPS) lamp(id, Boolean(lit(f)));
  setClass($('lamp-fault'), 'yellow', f.head('state') !== faultState);
  showLate(now);
}

function lamp(id, lit) {
  const node = $(`lamp-${id}`);
  setClass(node, 'lit', lit);
  setText(node.lastChild, lit ? 'ON' : 'off');
}

/** Ticks that came late, and time that could not be kept up with: the reader must know when the bench was not on time. */
function showLate(now) {
  const late = now.head('overruns'), slipped = now.head('slipped_s');
  const words = [late > 0 ? `${late} late ticks` : '', slipped >= 0.1 ? `${slipped.toFixed(1)} s lost` : ''].filter(Boolean).join(', ');
  setText($('late'), words);
  $('late').title = 'Ticks that came late, and time of the car that this computer could not keep up with, since the car was new.';
}

let newest = null;

on('told', told => {
  newest = told;
  if (!moment.frame) guide(told.guidance);
  showFaults(told.faults);
  showPlaying(told.playing);
  showBoard(told.board, told.health);
});

/** Where the vehicle stands: now, or at the moment that was chosen. */
function guide(guidance) {
  const {now, seen, missing: list, next} = guidance;
  setText($('guide-now'), now);
  setText($('guide-seen'), seen);
  listMissing(list);
  pointAt(needs(list).length ? list : [...list, next]);
  setText($('guide-next'), next);
  missing = list.length > 0;
  guideStrip(guidance);
}

moment.onShow(() => {
  if (!hello || !frame) return;
  showThen(moment);
  if (moment.told) guide(moment.told.guidance);
  else if (moment.trouble) guide({now: 'What was missing at this moment is not kept.', seen: '', missing: [], next: ''});
  else if (!moment.frame && newest) guide(newest.guidance);
  show();
});

/** What is missing, one line each; a line that a lever would change leads to it. Built anew only when it differs, so that the focus stays. */
function listMissing(list) {
  const all = list.join('\n');
  if ($('guide-missing').shown === all) return;
  $('guide-missing').shown = all;
  $('guide-missing').replaceChildren(...list.map(text => el('li', {}, leads(text)
    ? el('button', {type: 'button', title: 'Go to its lever', onclick: () => goTo(text)}, text) : text)));
}

function showBoard(text, health) {
  const box = $('board');
  box.hidden = !text && !health;
  if (box.hidden) return;
  const armed = text.startsWith('ARMED');
  setClass(box, 'armed', armed);
  const button = text ? el('button', {type: 'button', disabled: !control, onclick: () => (armed ? send({do: 'disarm'}) : $('arm-dialog').showModal())}, armed ? 'Disarm' : 'Arm') : '';
  const [who, quick = ''] = text.replace(/^\w+/, stage => stage.toLowerCase()).split(' \u00b7 ');
  box.replaceChildren(
    el('b', {}, armed ? 'CAUTION: the board is armed. Real outputs follow.' : 'Board'), ` ${who}`,
    ...(health ? [el('p', {}, health)] : []),
    ...quick.split('; ').filter(Boolean).map(meter => el('small', {class: 'num'}, meter)), button);
}

on('notes', message => {
  for (const note of message.notes) series.note({t: note.timeMs / 1000, car: note.car, kind: note.kind, what: note.what});
  addNotes(message.notes, announce);
});

// ---- what a screen reader hears: only changes, and no faster than it can speak

const toSay = [];
function announce(text) {
  toSay.push(text);
  if (toSay.length > 4) toSay.shift();
}
setInterval(() => { if (toSay.length) setText($('say'), toSay.splice(0).join(' ')); }, 700);

// ---- control

on('role', role => {
  const had = control;
  const hadAsked = asking;
  asking = role.asking;
  control = role.control;
  const mayDrive = role.rank !== 'ONLOOKER';
  setClass(document.body, 'onlooker', !mayDrive);
  setText($('role'), control ? (role.asked ? `${role.asker} asks for control` : 'You are in control') : role.held ? 'You look on' : 'Nobody is in control');
  $('role').title = control ? `This page is ${role.seat}.` : role.held ? `${role.holder} is in control.` : '';
  setClass($('role'), 'mine', control && !role.asked);
  $('ask').hidden = control || !mayDrive;
  $('take').hidden = control || !role.held || role.rank !== 'TEACHER';
  setText($('ask'), role.asking ? 'Asked: waiting' : role.held ? 'Ask for control' : 'Take control');
  $('ask').disabled = role.asking;
  $('yield').hidden = !(control && role.asked);
  $('keep').hidden = !(control && role.asked);
  if (!arrived && !role.held && mayDrive) send({do: 'ask'});   // the first page takes control as soon as it is built and answers
  arrived = true;                                   // later a page takes control only when a person asks for it
  const words = control ? '' : !role.held && role.lost ? `Nobody is in control: ${role.lost}. Pedal and start were let go.`
    : had ? `${role.holder} is in control now, no longer this page: ${role.lost}. Pedal and start were let go.`
    : hadAsked && !asking ? `${role.holder} is in control. Your request has ended: it was declined, or not answered within 10 s.` : null;
  if (words !== null) banner(words);
  showClass(role);
  enable();
  settled = control || role.held || !mayDrive;
  showWhole();
});

/** The page appears once, when it is built and knows its part. */
function showWhole() {
  if (hello && settled) setClass(document.body, 'waiting', false);
}

on('refused', message => banner(`Not done: ${message.reason}.`, 5000));
on('down', text => { setClass(document.body, 'old', true); control = false; setText($('role'), 'not connected'); enable(); banner(text); });
on('up', () => { setClass(document.body, 'old', false); banner(''); });
on('silence', silent => {
  setClass(document.body, 'old', silent);
  banner(silent ? 'The bench has fallen silent: what is shown here is old.' : '');
});

let bannerTimer = null;
function banner(text, forMs) {
  clearTimeout(bannerTimer);
  $('banner').hidden = !text;
  setText($('banner'), text);
  if (text && forMs) bannerTimer = setTimeout(() => banner(''), forMs);
}

function enable() {
  if (!hello) return;
  enableLevers(control);
  enableStrip(control);
  for (const id of ['mend-all', 'afresh', 'stop']) $(id).disabled = !control;
  for (const node of document.querySelectorAll('#pane-faults button, #pane-faults input[type=number], #pane-signals button, #pane-signals input, #pane-signals select, #scenario-list button')) node.disabled = !control;
  for (const id of ['pause', 'tick', 'speed']) $(id).disabled = !control || hello.board;
  setClass(document.body, 'looking-on', !control);
}

// ---- what a person does

$('ask').addEventListener('click', () => send({do: 'ask'}));
$('yield').addEventListener('click', () => send({do: 'yield'}));
$('keep').addEventListener('click', () => send({do: 'keep'}));
$('pause').addEventListener('click', () => send({do: 'pause', on: frame?.head('paused') !== 1}));
$('tick').addEventListener('click', () => send({do: 'tick'}));
$('speed').addEventListener('change', () => send({do: 'speed', factor: Number($('speed').value)}));
$('afresh').addEventListener('click', () => send({do: 'afresh'}));
$('stop').addEventListener('click', () => send({do: 'stop'}));
$('save').addEventListener('click', () => fetchFile('/scenario.toml', `${hello.vehicle.name}-from-panel.toml`));
$('trace').addEventListener('click', () => fetchFile('/trace.csv', `${hello.vehicle.name}-trace.csv`));
const mayArm = () => { $('arm-yes').disabled = !$('arm-sure').checked || (needsPackAbsent && !$('arm-absent').checked); };
const clearArm = () => { for (const id of ['arm-sure', 'arm-absent']) $(id).checked = false; mayArm(); $('arm-dialog').close(); };
for (const id of ['arm-sure', 'arm-absent']) $(id).addEventListener('change', mayArm);
$('arm-no').addEventListener('click', clearArm);
$('arm-yes').addEventListener('click', () => { send({do: 'arm', pack_absent: $('arm-absent').checked, cautions_taken: $('arm-sure').checked}); clearArm(); });

function fetchFile(path, name) {
  download(path, name).then(() => announce(`${name} saved.`), error => banner(error.message, 8000));
}

// Escape lets the pedal and the start button go, wherever the focus is.
document.addEventListener('keydown', event => {
  if (event.key !== 'Escape' || !control) return;
  send({do: 'lever', lever: 'pedal', to: 0});
  send({do: 'lever', lever: 'start', to: 0});
});

wireCharts();
wireThen();
wireClass();
wireProject(() => { if (frame) show(); });
on('circuit', message => showSheet(message, pane === 'sheet'));
tabs(document.querySelector('.tabs'), name => { pane = name; setClass(document.body, 'sheet-shown', name === 'sheet'); showCharts(name === 'charts'); if (name === 'sheet') openSheet(); if (frame) show(); });
connect();
