// Tabs by mouse and by keyboard: arrows, Home and End.

export function tabs(list, shown) {
  const all = [...list.querySelectorAll('[role=tab]')];
  const choose = tab => {
    for (const each of all) {
      const on = each === tab;
      each.setAttribute('aria-selected', on);
      each.tabIndex = on ? 0 : -1;
      document.getElementById(each.getAttribute('aria-controls')).hidden = !on;
    }
    shown(tab.id.replace('tab-', ''));
  };
  for (const tab of all) tab.addEventListener('click', () => choose(tab));
  list.addEventListener('keydown', event => {
    const there = all.filter(each => !each.hidden);
    const at = there.indexOf(document.activeElement);
    const to = {ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: there.length - 1}[event.key];
    if (to === undefined || at < 0) return;
    event.preventDefault();
    const tab = there[(to + there.length) % there.length];
    tab.focus();
    choose(tab);
  });
  return name => choose(all.find(tab => tab.id === `tab-${name}`));
}
