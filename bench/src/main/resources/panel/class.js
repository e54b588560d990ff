// A class before one bench: who sits where, who is in control, and the links for others.

import {on, send} from './link.js';
import {$, el, setText} from './words.js';

let role = {rank: '', seat: '', holder: '', held: false};
let seats = [];

export function showClass(now) {
  role = now;
  draw();
}

on('seats', message => { seats = message.seats; draw(); });
on('invitations', message => {
  const links = message.invitations;
  $('class-links').replaceChildren(...(links.length
    ? links.map(link => el('figure', {}, el('figcaption', {}, `This link ${link.words}:`, el('br'), el('code', {}, link.url)), picture(link)))
    : [el('p', {}, 'Only this computer can see the panel. To let others in, start it with --bind 0.0.0.0 and read the caution that it prints.')]));
});

/** The link for the camera of a phone: always dark on white. */
function picture({qr, words}) {
  const ns = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(ns, 'svg');
  svg.setAttribute('viewBox', `0 0 ${qr[0].length} ${qr.length}`);
  svg.setAttribute('class', 'qr');
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', `QR code of the link that ${words}`);
  const path = document.createElementNS(ns, 'path');
  path.setAttribute('d', qr.map((row, y) => [...row].map((dark, x) => (dark === '1' ? `M${x} ${y}h1v1h-1z` : '')).join('')).join(''));
  svg.append(path);
  return svg;
}

function draw() {
  setText($('class-me'), role.seat);
  setText($('class-holder'), role.held ? (role.control ? 'It is in control.' : `${role.holder} is in control.`) : 'Nobody is in control.');
  if (!$('class-dialog').open) return;
  $('class-seats').replaceChildren(...(role.rank === 'TEACHER' ? seats : []).map(seat => {
    const state = seat.control ? 'in control' : seat.asking ? 'asks for control' : seat.mayDrive ? '' : 'looks on only';
    const give = seat.mayDrive && !seat.control ? [el('button', {type: 'button', 'aria-label': `Give control to ${seat.name}`, onclick: () => send({do: 'hand', page: seat.page})}, 'Give control')] : [];
    return el('li', {class: seat.asking ? 'present' : ''}, el('b', {class: 'what'}, seat.name), el('span', {class: 'meaning'}, state), ...give);
  }));
}

export function wireClass() {
  $('class').addEventListener('click', () => { $('class-dialog').showModal(); draw(); });
  $('class-close').addEventListener('click', () => $('class-dialog').close());
  $('take').addEventListener('click', () => send({do: 'take'}));
  $('class-name-form').addEventListener('submit', event => {
    event.preventDefault();
    const name = $('class-name').value.trim();
    if (name) send({do: 'name', name});
  });
}
