// Finds the sections in which every word stands; a word in the heading counts most. Without this script the pages stay readable.
(() => {
  "use strict";
  const MOST = 15;
  const asked = document.getElementById("asked");
  const found = document.getElementById("found");
  const pages = document.querySelector("nav details");
  const wide = matchMedia("(min-width: 801px)"); // there the menu has no head to open it with
  const open = () => { pages.open = wide.matches || pages.open; };
  wide.addEventListener("change", open);
  open();

  function score(section, words) {
    const heading = (section.heading + " " + section.page).toLowerCase();
    const text = section.text.toLowerCase();
    let sum = 0;
    for (const word of words) {
      const inHeading = heading.includes(word);
      const inText = text.split(word).length - 1;
      if (!inHeading && inText === 0) {
        return 0;
      }
      sum += (inHeading ? 20 : 0) + Math.min(inText, 5);
    }
    return sum;
  }

  function excerpt(text, word) {
    const at = Math.max(0, text.toLowerCase().indexOf(word) - 60);
    return (at > 0 ? "\u2026" : "") + text.slice(at, at + 160) + (at + 160 < text.length ? "\u2026" : "");
  }

  function show() {
    const words = asked.value.toLowerCase().split(/\s+/).filter(word => word.length > 1);
    found.replaceChildren();
    found.hidden = words.length === 0;
    if (words.length === 0) {
      return;
    }
    const hits = SECTIONS.map(section => ({ section, points: score(section, words) }))
      .filter(hit => hit.points > 0)
      .sort((a, b) => b.points - a.points);
    for (const { section } of hits.slice(0, MOST)) {
      const link = document.createElement("a");
      link.href = section.url;
      link.textContent = section.heading === section.page ? section.page : section.page + ": " + section.heading;
      const about = document.createElement("small");
      about.textContent = excerpt(section.text, words[0]);
      link.append(about);
      const item = document.createElement("li");
      item.append(link);
      found.append(item);
    }
    if (hits.length === 0 || hits.length > MOST) {
      const item = document.createElement("li");
      item.textContent = hits.length === 0
        ? "Nothing has all these words." : hits.length - MOST + " more; another word makes it fewer.";
      found.append(item);
    }
  }

  asked.addEventListener("input", show);
  found.addEventListener("click", () => { found.hidden = true; });
  document.addEventListener("keydown", event => {
    if (event.key === "/" && document.activeElement !== asked) {
      event.preventDefault();
      asked.focus();
    } else if (event.key === "Escape") {
      found.hidden = true;
    }
  });
})();
