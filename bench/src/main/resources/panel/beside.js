// A lesson beside the car: its text, its questions, and the answers that the program gives.

import { token } from "/link.js";

const aside = document.getElementById("beside");

async function ask(query) {
  const answer = await fetch("/beside.json" + query, { headers: { Authorization: "Bearer " + token } });
  if (!answer.ok) throw new Error(await answer.text());
  return answer.json();
}

function add(to, tag, text, kind) {
  const element = document.createElement(tag);
  if (text) element.textContent = text;
  if (kind) element.className = kind;
  to.append(element);
  return element;
}

/** Blocks of running text, points and fixed lines. */
function addBlocks(to, blocks) {
  let list = null;
  for (const block of blocks) {
    if (block.kind === "point") {
      list ??= add(to, "ul");
      add(list, "li", block.text);
    } else {
      list = null;
      add(to, block.kind === "lines" ? "pre" : "p", block.text);
    }
  }
}

/** A question with a place to answer; afterwards(answer) is called when the program has answered. */
function addQuestion(to, place, question, afterwards) {
  addBlocks(to, question.question);
  const choices = question.answers.length ? add(to, "ol", "", "choices") : null;
  for (const each of question.answers) add(choices, "li", each);
  const form = add(to, "form", "", "beside-form");
  const label = add(form, "label", question.asks + (question.unit ? " in " + question.unit : ""));
  const typed = add(label, question.kind === "scenario" ? "textarea" : "input");
  typed.autocomplete = "off";
  const check = add(form, "button", place === 0 ? "That is my guess" : "Check");
  const reply = add(to, "div", "", "reply");
  reply.setAttribute("aria-live", "polite");
  const send = async words => {
    check.disabled = true;
    reply.textContent = "The program is trying it.";
    try {
      const answer = await ask("?place=" + place + "&typed=" + encodeURIComponent(words));
      reply.textContent = "";
      addBlocks(reply, answer.reply);
      reply.classList.toggle("right", answer.right);
      afterwards?.(answer);
    } catch (error) {
      reply.textContent = "No answer came: " + error.message;
    }
    check.disabled = false;
  };
  form.addEventListener("submit", event => {
    event.preventDefault();
    send(typed.value);
  });
  if (place === 0) return;
  let hints = 0;
  const hint = add(form, "button", "Hint");
  hint.type = "button";
  hint.addEventListener("click", () => send("hint " + ++hints));
  const skip = add(form, "button", "Show the answer");
  skip.type = "button";
  skip.addEventListener("click", () => send("skip"));
}

function show(lesson) {
  document.body.classList.add("with-beside");
  aside.hidden = false;
  add(aside, "h2", lesson.number + ". " + lesson.title);
  addBlocks(aside, lesson.aim);
  const caution = add(aside, "div", "", "caution");
  add(caution, "strong", "Caution");
  addBlocks(caution, lesson.caution);
  add(aside, "h3", "What will happen?");
  const predict = add(aside, "section");
  const rest = add(aside, "section");
  addQuestion(predict, 0, lesson.predict, answer => {
    if (rest.childElementCount) return;
    add(rest, "h3", "What happened, and why");
    addBlocks(rest, answer.explain);
    lesson.exercises.forEach((exercise, i) => {
      add(rest, "h3", "Exercise " + (i + 1));
      addQuestion(add(rest, "section"), i + 1, exercise);
    });
  });
}

ask("").then(lesson => lesson.title && show(lesson)).catch(error => {
  aside.hidden = false;
  add(aside, "p", "The lesson did not come: " + error.message);
});
