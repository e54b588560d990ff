// The moment that the page shows: now, or one that was chosen. A frame of the page's own memory is shown at once; the bench then
// gives what it kept of exactly that tick, with the guide and the chain of reasons.

import {series} from './series.js';
import {frameOf, fetchJson} from './link.js';

const listeners = [];
const shows = [];
let tickS = 0.01;
let at = null;
let wanted = null;
let busy = false;

export const moment = {
  frame: null,                   // the frame to show, null while it is now
  told: null,                    // what the bench kept of this tick, null when nothing
  trouble: '',
  get at() { return at; },
  /** Calls a function with each new moment, null for now. */
  on(listener) { listeners.push(listener); },
  /** Calls a function when what is known about the moment has changed. */
  onShow(listener) { shows.push(listener); },
  tickSeconds(seconds) { tickS = seconds; },
  /** Goes to a moment of the car's time in seconds, or with null back to now. */
  set(t) {
    at = t === null ? null : Math.round(Math.min(series.last(), Math.max(0, t)) / tickS) * tickS;
    moment.told = null;
    moment.trouble = '';
    const i = at === null ? 0 : Math.min(series.count - 1, series.find(at));
    moment.frame = at === null || !series.count ? null : frameOf(series.numbers(i));
    for (const listener of listeners) listener(t === null ? null : t);
    show();
    if (at !== null) ask();
  },
  /** Goes some ticks on or back. */
  step(ticks) {
    if (at !== null) moment.set(at + ticks * tickS);
  },
};

function show() {
  for (const listener of shows) listener();
}

/** One question at a time: while keys are held, only the newest moment counts. */
async function ask() {
  wanted = Math.round(at / tickS);
  if (busy) return;
  busy = true;
  while (wanted !== null) {
    const tick = wanted;
    wanted = null;
    let answer = null, trouble = '';
    try {
      answer = await fetchJson(`/moment?tick=${tick}`);
    } catch (error) {
      trouble = error.message;
    }
    if (at === null || Math.round(at / tickS) !== tick) continue;
    moment.trouble = answer || trouble ? trouble : 'This tick is not kept any more: you see the frame nearest to it.';
    if (answer) {
      moment.told = answer;
      moment.frame = frameOf(Float64Array.from(answer.frame, v => (v === null ? NaN : v)));
    }
    show();
  }
  busy = false;
}
