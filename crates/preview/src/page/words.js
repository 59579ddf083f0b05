// Sentences of the program on the page.

/** A sentence as nodes: what stands in it between backticks is code. */
export const inNodes = (sentence) => sentence.split(/`([^`]+)`/).map((text, at) =>
  at % 2 === 0 ? text : Object.assign(document.createElement("code"), { textContent: text }));

/** Says a sentence in an element. */
export const say = (element, sentence) => {
  element.replaceChildren(...inNodes(sentence));
  return element;
};
