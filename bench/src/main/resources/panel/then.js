// Time walked back: says which moment is shown, steps through the ticks, and lists the chain from reading to output.

import {$, el, setText, setClass} from './words.js';
import {moment} from './moment.js';

const STEPS = {ArrowLeft: -1, ArrowRight: 1};

export function wireThen() {
  $('then-now').addEventListener('click', () => moment.set(null));
  $('then-back').addEventListener('click', () => moment.step(-1));
  $('then-on').addEventListener('click', () => moment.step(1));
  document.addEventListener('keydown', event => {
    if (moment.at === null || !STEPS[event.key] || event.target.matches?.('input, select, [role=radio], [role=slider], [role=tab]')) return;
    event.preventDefault();
    moment.step(STEPS[event.key] * (event.shiftKey ? 10 : 1));
  });
}

export function showThen(m) {
  const then = m.at !== null;
  $('then').hidden = !then;
  setClass(document.body, 'then-shown', then);
  if (!then) {
    $('chain').replaceChildren();
    return;
  }
  setText($('then-when'), `You see ${m.at.toFixed(2)} s.`);
  setText($('then-words'), m.trouble || (m.told ? 'Levers and events are still of now.' : 'Asking the bench for this tick.'));
  $('chain').replaceChildren(...(m.told?.chain ?? []).map(link));
}

/** One chain: reading, fact, interlock or exit, permission, output. */
function link({readings, fact, rule, sentence, limits, effect}) {
  const step = (name, text) => (text ? [el('dt', {}, name), el('dd', {}, text)] : []);
  return el('dl', {class: 'chain'}, ...step('reads', readings.join(', ')), ...step('fact', fact), ...step('limit', limits.join(', ')), ...step('rule', rule),
    ...step('why', sentence), ...step('so', effect));
}
