// Interlocks, faults, signals, scenarios, events: lists made from the bench's tables.

import {send} from './link.js';
import {$, el, setText, setClass, show, spoken} from './words.js';
import {moment} from './moment.js';

const ACTIVE = 1, ACTING = 2, BLOCKS = 4, LATCHED = 8, ASKED = 16;
const EVENTS_KEPT = 300;

let hello = null;
let interlockRows = [];
let faultRows = [];
let signalRows = [];
let outputRows = [];
let scenarioRows = [];
let car = 0;

export function buildLists(description) {
  hello = description;
  buildMatrix();
  buildFaults();
  buildSignals();
  buildScenarios();
  $('events').replaceChildren();
}

// ---- interlocks

function buildMatrix() {
  const letters = hello.states.map(s => el('th', {scope: 'col', class: 'where', title: s.name}, s.name[0]));
  const head = el('thead', {}, el('tr', {}, el('th', {scope: 'col'}, 'Now'), el('th', {scope: 'col'}, 'Interlock'),
    el('th', {scope: 'col'}, 'Cause'), ...letters, el('th', {scope: 'col'}, 'Ends'), el('th', {scope: 'col'}, 'Hazard')));
  const body = el('tbody');
  interlockRows = [];
  let group = '';
  hello.interlocks.forEach((row, i) => {
    if (row.response !== group) {
      group = row.response;
      const words = hello.responses.find(r => r.name === group).words;
      body.append(el('tr', {class: 'group-row', 'data-group': group}, el('th', {colspan: 5 + letters.length, scope: 'rowgroup'}, `${group.replaceAll('_', ' ').toLowerCase()}: ${words}`)));
    }
    const mark = el('b', {class: 'mark'});
    const where = hello.states.map((s, k) => el('td', {class: row.where.includes(k) ? 'where asked' : 'where', 'data-state': k}, row.where.includes(k) ? '●' : ''));
    const tr = el('tr', {id: `row-${row.id}`, title: row.why}, el('td', {}, mark), el('th', {scope: 'row'}, row.id), el('td', {class: 'cause'}, row.cause, ...row.limits.map(limit => el('small', {}, limit))), ...where, el('td', {}, row.reset), el('td', {}, row.hazard));
    body.append(tr);
    interlockRows.push({tr, mark, where, bits: -1, i});
  });
  $('matrix').replaceChildren(head, body);
}

$('only-lit').addEventListener('change', () => setClass($('matrix'), 'only-lit', $('only-lit').checked));

let stateShown = -1;

export function showInterlocks(frame, visible) {
  let lit = 0;
  const state = frame.head('state');
  for (const row of interlockRows) {
    const bits = frame.interlock(row.i);
    const words = bits & ACTING ? 'acts' : bits & LATCHED ? 'latched' : bits & BLOCKS ? 'blocks' : bits & ACTIVE ? 'there' : '';
    if (bits & (ACTING | LATCHED | BLOCKS)) lit++;
    if (!visible || (bits === row.bits && state === stateShown)) continue;
    row.bits = bits;
    setText(row.mark, (bits & ACTING) && (bits & LATCHED) ? 'acts, latched' : words === 'blocks' ? 'keeps start' : words);
    row.mark.className = `mark ${words} ${gravity(hello.interlocks[row.i].response)}`;
    setClass(row.tr, 'lit', words !== '');
    row.where.forEach((cell, k) => setClass(cell, 'here', k === state));
  }
  if (visible) stateShown = state;
  setText($('lit'), lit ? String(lit) : '');
}

// ---- faults

function buildFaults() {
  faultRows = hello.faults.map(fault => {
    const size = fault.sized ? el('input', {type: 'number', step: 'any', value: Math.round(fault.size * 1000) / 1000, 'aria-label': `Size of ${fault.name}${fault.unit ? ` in ${fault.unit}` : ''}`}) : null;
    const button = el('button', {type: 'button', class: 'small', 'data-fault': fault.name, 'aria-label': `Break ${fault.name}`});
    button.textContent = 'Break';
    const li = el('li', {}, button, el('span', {class: 'what'}, el('b', {}, fault.name), ' ', el('span', {class: 'meaning'}, fault.meaning)));
    if (size) li.append(el('span', {class: 'size'}, size, ` ${fault.unit}`));
    const row = {fault, li, button, present: false, text: `${fault.name} ${fault.name.replaceAll('_', ' ').replaceAll('.', ' ')} ${fault.meaning}`.toLowerCase()};
    button.addEventListener('click', () => send(row.present
      ? {do: 'mend', name: fault.name}
      : {do: 'fault', name: size ? `${fault.name}=${size.value}` : fault.name}));
    return row;
  });
  $('fault-list').replaceChildren(...faultRows.map(row => row.li));
  filterFaults();
}

function filterFaults() {
  const words = $('fault-find').value.toLowerCase().split(/\s+/).filter(Boolean);
  let count = 0;
  for (const row of faultRows) {
    const fits = row.present || words.every(word => row.text.includes(word));
    row.li.hidden = !fits;
    if (fits) count++;
  }
  setText($('fault-count'), `${count} of ${faultRows.length}`);
}

export function showFaults(present) {
  const names = new Set(present.map(text => text.replace(/=.*/, '')));
  const list = $('fault-list');
  for (const row of faultRows) {
    const now = names.has(row.fault.name);
    if (now === row.present) continue;
    row.present = now;
    setText(row.button, now ? 'Mend' : 'Break');
    row.button.setAttribute('aria-label', `${now ? 'Mend' : 'Break'} ${row.fault.name}`);
    setClass(row.li, 'present', now);
  }
  const sorted = [...faultRows.filter(r => r.present), ...faultRows.filter(r => !r.present)];
  const focused = document.activeElement;
  if (sorted[0]?.li !== list.firstElementChild || present.length !== list.presentCount) {
    list.replaceChildren(...sorted.map(r => r.li));
    if (list.contains(focused)) focused.focus();
    list.presentCount = present.length;
  }
  filterFaults();
  setText($('broken'), names.size ? String(names.size) : '');
}

$('fault-find').addEventListener('input', filterFaults);
$('mend-all').addEventListener('click', () => send({do: 'mend-all'}));

// ---- signals and outputs

function buildSignals() {
  const head = el('thead', {}, el('tr', {}, ...['Signal', 'Reads', 'From', 'Force'].map(t => el('th', {scope: 'col'}, t))));
  const body = el('tbody');
  signalRows = hello.signals.map((signal, i) => {
    const reads = el('td', {class: 'num'});
    const from = el('td');
    const force = el('td', {class: 'force'});
    const row = {signal, i, reads, from, forced: null, button: null};
    if (signal.fitted && !['loop_overrun', 'link_lost'].includes(signal.key)) forceControls(row, force);
    body.append(el('tr', {class: signal.fitted ? '' : 'unfitted', title: signal.meaning}, el('th', {scope: 'row'}, signal.key), reads, from, force));
    return row;
  });
  $('signals').replaceChildren(head, body);
  const outHead = el('thead', {}, el('tr', {}, ...['Output', 'Asked', 'What it does'].map(t => el('th', {scope: 'col'}, t))));
  const outBody = el('tbody');
  outputRows = hello.outputs.map(output => {
    const asked = el('td', {class: 'num'});
    outBody.append(el('tr', {}, el('th', {scope: 'row'}, output.key), asked, el('td', {}, output.meaning)));
    return {output, asked};
  });
  $('outputs').replaceChildren(outHead, outBody);
}

function forceControls(row, cell) {
  const {signal} = row;
  const input = signal.isSwitch
    ? el('select', {'aria-label': `Force ${signal.key} to`}, el('option', {value: '1'}, 'on'), el('option', {value: '0'}, 'off'), el('option', {value: ''}, 'unknown'))
    : el('input', {type: 'number', step: 'any', min: signal.min, max: signal.max, placeholder: 'unknown', 'aria-label': `Force ${signal.key} to`});
  row.button = el('button', {type: 'button', class: 'small', 'data-force': signal.key, 'aria-label': `Force ${signal.key}`}, 'Force');
  row.button.addEventListener('click', () => {
    if (row.forced) send({do: 'unforce', signal: signal.key});
    else if (!input.reportValidity || input.reportValidity()) send({do: 'force', signal: signal.key, to: input.value === '' ? null : Number(input.value)});
  });
  cell.append(input, row.button);
}

export function showSignals(frame, visible) {
  let forced = 0;
  for (const row of signalRows) {
    const source = hello.sources[frame.source(row.i)];
    const isForced = source === 'forced';
    if (isForced) forced++;
    if (!visible) continue;
    setText(row.reads, row.signal.fitted ? show(row.signal, frame.signal(row.signal.key)) : '');
    setText(row.from, isForced ? `forced, ${Math.ceil(frame.forcedS(row.i))} s` : source);
    row.from.className = `from ${source.replace(' ', '-')}`;
    if (row.button && row.forced !== isForced) {
      row.forced = isForced;
      setText(row.button, isForced ? 'Let go' : 'Force');
      row.button.setAttribute('aria-label', `${isForced ? 'Let go of' : 'Force'} ${row.signal.key}`);
    }
  }
  if (visible) for (const row of outputRows) setText(row.asked, show(row.output, frame.output(row.output.key)));
  setText($('forced'), forced ? `${forced} forced` : '');
}

// ---- scenarios

function buildScenarios() {
  scenarioRows = hello.scenarios.map(scenario => {
    const button = el('button', {type: 'button', class: 'small', 'data-scenario': scenario.name, 'aria-label': `Play ${scenario.name}`, onclick: () => send({do: 'play', scenario: scenario.name})}, 'Play');
    return {scenario, button, li: el('li', {}, button, el('span', {class: 'what'}, el('b', {}, scenario.name), ' ', el('span', {class: 'meaning'}, `${scenario.title}. ${scenario.why}`)))};
  });
  $('scenario-list').replaceChildren(...scenarioRows.map(row => row.li));
}

export function showPlaying(name) {
  $('stop').hidden = !name;
  for (const row of scenarioRows) setClass(row.li, 'present', row.scenario.name === name);
}

// ---- events

const KINDS = {STATE: 'state', INTERLOCK: 'interlock', REFUSED: 'refused', LEVER: 'lever', FAULT: 'fault', FORCED: 'forced', SCENARIO: 'scenario', PANEL: 'panel'};

/** How grave the response of an interlock is: red ends torque or opens, yellow limits or warns, blue asks for an act. */
function gravity(response) {
  return {LIMIT: 'mild', WARN: 'mild', BLOCK_START: 'asks', BLOCK_CHARGE: 'asks'}[response] ?? 'grave';
}

function severity(note) {
  return note.kind === 'INTERLOCK' ? gravity(hello.interlocks.find(row => row.id === note.what)?.response) : '';
}

/** The events of an earlier car stay to be read; their moments are gone. */
function closeCar(next) {
  car = next;
  for (const li of $('events').children) {
    setClass(li, 'earlier', true);
    const when = li.querySelector('.when');
    when.disabled = true;
    when.title = 'Of an earlier car: its moments are not kept';
  }
}

export function addNotes(notes, announce) {
  const list = $('events');
  for (const note of notes) {
    if (note.car !== car) closeCar(note.car);
    const kind = KINDS[note.kind];
    const li = el('li', {class: `event ev-${kind} ${severity(note)}`, 'data-index': note.index},
      el('button', {type: 'button', class: 'num when', title: 'Show the page as it was at this moment'}, `${(note.timeMs / 1000).toFixed(2)} s`), el('span', {class: 'ev-kind'}, kind), el('b', {}, note.what));
    if (note.cause) li.append(el('span', {class: 'because'}, el('i', {}, kind === 'refused' ? 'reason' : 'because'), ` ${note.cause}`));
    if (note.consequence) li.append(el('span', {class: 'so'}, el('i', {}, 'so'), ` ${note.consequence}`));
    li.addEventListener('click', () => choose(li, note));
    list.prepend(li);
    if (kind === 'refused') announce(`${note.what}: ${note.cause}`);
    if (kind === 'state' || kind === 'interlock') announce(kind === 'state'
      ? `State ${note.what.replace('→', 'to')}, because ${note.cause}.` : `Interlock ${note.what}: ${note.cause}; it ${note.consequence}.`);
  }
  while (list.children.length > EVENTS_KEPT) list.lastElementChild.remove();
}

/** Goes to the moment of an event. */
function choose(li, note) {
  if (note.car !== car) return;
  moment.set(note.timeMs / 1000);
  li.querySelector('.when').focus({preventScroll: true});   // arrow keys step ticks from here, and move no lever
  li.setAttribute('aria-current', 'true');
}

moment.on(() => { for (const li of $('events').querySelectorAll('[aria-current]')) li.removeAttribute('aria-current'); });

export {spoken};
