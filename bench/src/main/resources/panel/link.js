// The wire to the bench: one WebSocket, orders out, frames and words in.

const listeners = {};
let socket = null;
let delayMs = 500;
let layout = null;
let inControl = false;
let speakMs = 400;
let heardAt = 0;
let silent = false;

const SILENT_MS = 1500;   // the bench sends twenty frames a second, in a pause too
const DEAD_MS = 8000;
const TRY_LATER = 1013;         // the bench has as many pages as it can have
const FULL_AGAIN_MS = 10_000;

export const token = location.hash.slice(1);

export function on(kind, listener) {
  (listeners[kind] ??= []).push(listener);
}

function tell(kind, data) {
  for (const listener of listeners[kind] ?? []) listener(data);
}

/** Sends an order or a word; false when there is no connection. */
export function send(message) {
  if (socket?.readyState !== WebSocket.OPEN) return false;
  socket.send(JSON.stringify(message));
  return true;
}

export function connect() {
  if (!token) {
    tell('down', 'This address has no token behind the #. Use the whole link that was printed.');
    return;
  }
  socket = new WebSocket(`ws://${location.host}/live`, ['sprag.panel', `token.${token}`]);
  socket.binaryType = 'arraybuffer';
  let opened = false;
  socket.onopen = () => { opened = true; delayMs = 500; heardAt = performance.now(); tell('up'); };
  socket.onmessage = event => receive(event.data);
  socket.onclose = event => {
    inControl = false;
    silent = false;
    if (event.code === TRY_LATER) {
      tell('down', `This page cannot look on: ${event.reason}. It tries again by itself.`);
      setTimeout(connect, FULL_AGAIN_MS);
      return;
    }
    const why = event.reason ? ` (${event.reason})` : '';
    tell('down', opened
      ? `The connection to the bench is lost${why}. Whatever this page held has been let go. Trying again.`
      : 'The bench does not answer, or the token is wrong. Use the link that was printed last. Trying again.');
    setTimeout(connect, delayMs);
    delayMs = Math.min(5000, delayMs * 1.6);
  };
}

/** What is shown is only as true as the last frame is young: says so when none comes, and tries anew in the end. */
function listen() {
  if (document.hidden || socket?.readyState !== WebSocket.OPEN) return;
  const forMs = performance.now() - heardAt;
  if (forMs > SILENT_MS !== silent) {
    silent = !silent;
    tell('silence', silent);
  }
  if (forMs > DEAD_MS) socket.close();
}
setInterval(listen, 250);
document.addEventListener('visibilitychange', () => { heardAt = performance.now(); });

function receive(data) {
  heardAt = performance.now();
  if (data instanceof ArrayBuffer) {
    if (layout) tell('frame', new Frame(new Float64Array(data)));
    return;
  }
  const message = JSON.parse(data);
  if (message.t === 'hello') {
    layout = makeLayout(message);
    speakMs = message.limits.speakMs;
  }
  if (message.t === 'role') inControl = message.control;
  tell(message.t, message);
}

// While this page is in control it speaks regularly; when it is suspended it falls silent and loses control. That is meant.
(function speak() {
  if (inControl) send({do: 'alive'});
  setTimeout(speak, speakMs);
})();

function makeLayout(hello) {
  const index = rows => new Map(rows.map((row, i) => [row.key, i]));
  return {
    head: new Map(hello.layout.head.map((name, i) => [name, i])),
    at: hello.layout.sections,
    signals: index(hello.signals),
    outputs: index(hello.outputs),
    quantities: index(hello.quantities),
    levers: index(hello.levers),
  };
}

/** One frame: numbers by name. */
class Frame {
  constructor(numbers) { this.n = numbers; }
  head(name) { return this.n[layout.head.get(name)]; }
  signal(key) { return this.n[layout.at.signals + layout.signals.get(key)]; }
  source(i) { return this.n[layout.at.sources + i]; }
  forcedS(i) { return this.n[layout.at.forced_s + i]; }
  output(key) { return this.n[layout.at.outputs + layout.outputs.get(key)]; }
  truth(key) { return this.n[layout.at.quantities + layout.quantities.get(key)]; }
  lever(key) { return this.n[layout.at.levers + layout.levers.get(key)]; }
  interlock(i) { return this.n[layout.at.interlocks + i]; }
}

/** A frame made of numbers that were kept. */
export const frameOf = numbers => new Frame(numbers);

/** Fetches something about the bench. */
export async function fetchJson(path) {
  const answer = await fetch(path, {headers: {Authorization: `Bearer ${token}`}});
  if (!answer.ok) throw new Error(await answer.text());
  return answer.json();
}

/** Fetches an export and hands it to the browser as a file. */
export async function download(path, name) {
  const answer = await fetch(path, {headers: {Authorization: `Bearer ${token}`}});
  if (!answer.ok) throw new Error(await answer.text());
  const link = document.createElement('a');
  link.href = URL.createObjectURL(await answer.blob());
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
