// The projected view: what matters in letters that can be read from the back row. The P key, or the button, enters and leaves it.

import {$, setText, setClass} from './words.js';
import {redraw} from './diagram.js';
import {showOne} from './charts.js';

let before = '';

/** Enters or leaves the projected view; changed is called when the page has its new shape. */
export function wireProject(changed) {
  const turn = () => {
    const on = !document.body.classList.contains('projected');
    setClass(document.body, 'projected', on);
    $('project').setAttribute('aria-pressed', on);
    setText($('project'), on ? 'Leave' : 'Project');
    const show = $('chart-show');
    if (on) before = show.value;
    redraw();
    changed(on);
    showOne(on ? before || 'Voltage' : before);
  };
  $('project').addEventListener('click', turn);
  document.addEventListener('keydown', event => {
    const typing = event.target.matches?.('input:not([type=range]):not([type=checkbox]), select, textarea');
    if (event.key.toLowerCase() !== 'p' || event.ctrlKey || event.metaKey || event.altKey || typing || document.querySelector('dialog[open]')) return;
    event.preventDefault();
    turn();
  });
}
