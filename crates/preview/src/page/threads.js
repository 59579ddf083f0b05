// The table of threads, where other colors are tried, with what to cut of each.

import { say } from "./words.js";

const rows = document.getElementById("thread-rows");
const element = (name, text = "") => Object.assign(document.createElement(name), { textContent: text });

const button = (text, work) => {
  const made = Object.assign(element("button", text), { type: "button" });
  made.addEventListener("click", work);
  return made;
};

/** Shows the table. Rows that are there stay, so that whoever is choosing a color can go on. */
export const showThreads = ({ band, colors, lengths, wish }, { tried, write }) => {
  const counts = new Map();
  for (const { thread: color } of band.knots) {
    const thread = colors[color]?.of ?? color;
    counts.set(thread, (counts.get(thread) ?? 0) + 1);
  }
  const own = colors.filter(({ of }) => of === undefined);
  while (rows.children.length > own.length) rows.lastElementChild.remove();
  own.forEach((thread, number) => {
    const row = rows.children[number] ?? rows.appendChild(made(number, tried));
    const [name, choice, cut, count] = row.children;
    const [letter, label] = name.children;
    const input = choice.querySelector("input");
    label.textContent = thread.name;
    Object.assign(letter, { textContent: thread.letter });
    Object.assign(letter.style, { background: thread.shown, color: thread.ink });
    input.setAttribute("aria-label", `Try another color for ${thread.name}`);
    const wanted = wish.tried[number] ?? thread.color;
    if (input.value !== wanted) input.value = wanted;
    const [, pieces, inAll] = lengths.threads.find(([of]) => of === number) ?? [];
    cut.replaceChildren(...(pieces ? [...pieces.split("; ").map((group, at, all) => element("div", at < all.length - 1 ? `${group};` : group)), element("small", `${inAll} in all`)] : []));
    count.textContent = (counts.get(number) ?? 0).toLocaleString("en");
    const asked = choice.querySelector(".tried");
    if (asked.dataset.tried !== String(thread.tried)) {
      asked.dataset.tried = thread.tried;
      asked.replaceChildren(...(thread.tried ? [button("Write into the file", () => write(number)), button("Undo", () => tried(number, null))] : []));
    }
  });
};

/** Says how long the band becomes, for which the threads are cut. */
export const showLengths = ({ about }) => {
  document.getElementById("lengths").replaceChildren(...about.map((sentence) => say(element("p"), sentence)));
};

const made = (number, tried) => {
  const row = element("tr");
  const name = Object.assign(element("th"), { scope: "row" });
  const label = Object.assign(element("label"), { htmlFor: `thread-${number}` });
  const input = Object.assign(element("input"), { type: "color", id: `thread-${number}` });
  input.addEventListener("input", () => tried(number, input.value));
  const choice = element("td");
  choice.append(input, Object.assign(element("div"), { className: "tried" }));
  name.append(Object.assign(element("span"), { className: "letter", ariaHidden: "true" }), label);
  const figure = (kind) => Object.assign(element("td"), { className: `number ${kind}` });
  row.append(name, choice, figure("cut"), figure("seen"));
  return row;
};
