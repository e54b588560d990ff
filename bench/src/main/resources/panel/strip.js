// The driving strip: what is missing, the state, and the levers of a drive together in reach of a thumb. Shown on phones and in
// the projected view.

import {$, el, setText, setClass, fixed} from './words.js';
import {chooser, holder, presser, follow, move, often} from './levers.js';

const SLACK_PX = 24;             // so far a thumb may slide beside the pad without letting the pedal go
const KEY_STEP = 0.02;

let hello = null;
let letGo = () => {};
let drivable = false;

export function buildStrip(description) {
  hello = description;
  const lever = key => hello.levers.find(l => l.key === key);
  $('strip-levers').replaceChildren(
    el('div', {class: 'strip-key'}, chooser(lever('key'), [[0, 'Key off'], [1, 'Key on']])),
    el('div', {class: 'strip-way'}, chooser(lever('direction'), [[-1, 'Rev'], [0, 'N'], [1, 'Fwd']])),
    holder(lever('start')),
    presser(lever('brake'), 'Brake'),
    pad(lever('pedal')));
}

/** The pedal under a thumb: higher is more. It is let go when the finger is lifted or leaves the pad. */
function pad(lever) {
  const fill = el('i', {'aria-hidden': true});
  const value = el('output', {class: 'num'}, '0 %');
  const node = el('div', {id: 'pad', class: 'pad', role: 'slider', tabindex: 0, 'aria-label': 'Pedal', 'aria-valuemin': 0, 'aria-valuemax': 100,
    'aria-valuenow': 0, 'aria-orientation': 'vertical', title: 'Press and slide up. Lift the finger to let the pedal go.'}, fill, el('b', {}, 'Pedal'), value);
  const put = often(to => move(lever, to));
  let finger = null;
  let travel = 0;
  const release = (tell = true) => {
    if (finger === null) return;
    finger = null;
    if (tell) put.atOnce(0);
  };
  const follows = event => {
    if (event.pointerId !== finger) return;
    const box = node.getBoundingClientRect();
    const gone = event.clientX < box.left - SLACK_PX || event.clientX > box.right + SLACK_PX
      || event.clientY < box.top - SLACK_PX || event.clientY > box.bottom + SLACK_PX;
    if (gone) { release(); return; }
    put(Math.round(Math.min(1, Math.max(0, (box.bottom - event.clientY) / box.height)) * 100) / 100);
  };
  node.addEventListener('pointerdown', event => {
    if (!drivable || finger !== null) return;
    finger = event.pointerId;
    node.setPointerCapture(finger);
    follows(event);
  });
  node.addEventListener('pointermove', follows);
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture']) {
    node.addEventListener(end, event => { if (event.pointerId === finger) release(); });
  }
  node.addEventListener('contextmenu', event => event.preventDefault());
  node.addEventListener('keydown', event => {
    const to = {ArrowUp: travel + KEY_STEP, ArrowRight: travel + KEY_STEP, ArrowDown: travel - KEY_STEP, ArrowLeft: travel - KEY_STEP, Home: 0, End: 1}[event.key];
    if (to === undefined || !drivable) return;
    event.preventDefault();
    travel = Math.min(1, Math.max(0, to));
    put(travel);
  });
  follow('pedal', now => {
    if (!put.isWaiting()) travel = now;
    const percent = Math.round(now * 100);
    if (node.getAttribute('aria-valuenow') !== String(percent)) {
      node.setAttribute('aria-valuenow', percent);
      node.setAttribute('aria-valuetext', `${percent} %`);
      fill.style.setProperty('height', `${percent}%`);
    }
    setText(value, `${percent} %`);
  });
  letGo = release;
  return node;
}

window.addEventListener('blur', () => letGo());
document.addEventListener('visibilitychange', () => { if (document.hidden) letGo(); });

/** Whether this page may drive. */
export function enableStrip(on) {
  drivable = on;
  if (!on) letGo(false);          // the bench lets the pedal go by itself when control is lost
  setClass($('strip'), 'off', !on);
}

export function showStrip(frame, state, isFault) {
  setText($('strip-state'), state.name.replaceAll('_', ' '));
  setClass($('strip-state'), 'fault', isFault);
  setText($('strip-speed'), `${fixed(frame.truth('speed_kph'), 1)} km/h`);
}

/** What keeps the car from going on. A limit does not: what to do next still counts. */
export const needs = missing => missing.filter(text => !text.startsWith('Limited: '));

/** One sentence: what is missing first, else what to do, else a limit, else what is so. */
export function guideStrip({now, missing, next}) {
  const first = needs(missing);
  const shown = first.length || next ? first : missing;
  const more = shown.length > 1 ? ` (and ${shown.length - 1} more)` : '';
  setText($('strip-guide'), shown.length ? `${shown[0]}${more}` : next || now);
  setClass($('strip-guide'), 'asks', missing.length > 0 || next !== '');
}
