// What the page has seen: every number of every frame, ten minutes of it, and the events on the same time.

const KEPT = 12000;              // ten minutes at twenty frames a second
const EVENTS_KEPT = 1000;

let hello = null;
let times = new Float64Array(0);
let columns = [];
let start = 0;
let lastTime = -1;
let car = 0;

export const series = {
  count: 0,
  events: [],                    // {t, car, kind, what}
  /** Every number of a frame is kept, so that a channel chosen late has its past. */
  build(description) {
    hello = description;
    times = new Float64Array(KEPT);
    columns = Array.from({length: hello.layout.length}, () => new Float32Array(KEPT));
    series.clear();
    lastTime = -1;
  },
  clear() {
    series.count = start = 0;
    series.events = [];
  },
  /** Keeps a frame. Returns 'anew' when it belongs to a new car, 'still' when time has not passed, else 'on'. */
  add(frame) {
    const t = frame.head('time_s');
    if (t === lastTime) return 'still';
    const anew = t < lastTime;
    if (anew) series.count = start = 0;
    lastTime = t;
    const at = (start + series.count) % KEPT;
    times[at] = t;
    for (let i = 0; i < columns.length; i++) columns[i][at] = frame.n[i];
    if (series.count < KEPT) series.count++; else start = (start + 1) % KEPT;
    return anew ? 'anew' : 'on';
  },
  /** Keeps an event. What belongs to an earlier car goes: its moments are not moments of this one. */
  note(event) {
    if (event.car !== car) series.events = [];
    car = event.car;
    series.events.push(event);
    if (series.events.length > EVENTS_KEPT) series.events.shift();
  },
  time: i => times[(start + i) % KEPT],
  value: (column, i) => columns[column][(start + i) % KEPT],
  last: () => (series.count ? series.time(series.count - 1) : 0),
  /** All numbers of a kept frame. */
  numbers: i => Float64Array.from(columns, column => column[(start + i) % KEPT]),
  /** The first kept frame at or after a time. */
  find(t) {
    let low = 0, high = series.count;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (series.time(mid) < t) low = mid + 1; else high = mid;
    }
    return low;
  },
  /** The value at a time, on a straight line between two frames. */
  at(column, t) {
    if (!series.count) return NaN;
    const i = Math.min(series.count - 1, series.find(t));
    if (i === 0 || series.time(i) <= t) return series.value(column, i);
    const t0 = series.time(i - 1), v0 = series.value(column, i - 1);
    return v0 + (series.value(column, i) - v0) * (t - t0) / (series.time(i) - t0);
  },
  /** When a channel first passes a level within a span, null when it does not. */
  crossing(column, level, from, to) {
    const first = series.find(from);
    for (let i = Math.max(1, first); i < series.count && series.time(i) <= to; i++) {
      const a = series.value(column, i - 1) - level, b = series.value(column, i) - level;
      if (a * b <= 0 && a !== b) {
        const t = series.time(i - 1) + (series.time(i) - series.time(i - 1)) * a / (a - b);
        if (t > from) return t;
      }
    }
    return null;
  },
  /** The place of a channel in a frame. */
  column([kind, key]) {
    const at = hello.layout.sections;
    const find = rows => rows.findIndex(row => row.key === key);
    if (kind === 'truth') return at.quantities + find(hello.quantities);
    if (kind === 'signal') return at.signals + find(hello.signals);
    return at.outputs + find(hello.outputs);
  },
};
