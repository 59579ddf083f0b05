
"use strict";
const list = document.getElementById("bands");
const field = document.getElementById("words");
const count = document.getElementById("count");
// Without accents and in small letters, so that whoever has no such keys finds them, too.
const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
const bands = [...list.children].map((item, name) => ({
  item,
  name,
  size: Number(item.dataset.size),
  text: plain(`${item.textContent} ${item.dataset.find}`),
}));
let order = "name";

const arrange = () => {
  const wanted = document.querySelector('input[name="order"]:checked').value;
  if (wanted === order) return;
  order = wanted;
  const sorted = [...bands].sort((one, other) => one[order] - other[order]);
  list.append(...sorted.map((band) => band.item));
};

const seek = () => {
  const words = plain(field.value).split(/\s+/).filter(Boolean);
  let found = 0;
  for (const band of bands) {
    const fits = words.every((word) => band.text.includes(word));
    band.item.hidden = !fits;
    found += fits ? 1 : 0;
  }
  const all = `${bands.length} ${bands.length === 1 ? "band" : "bands"}`;
  count.textContent = words.length === 0 ? all : `${found} of ${all}`;
  document.getElementById("none").hidden = found > 0 || words.length === 0;
};

const form = document.getElementById("seek");
form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("input", () => { arrange(); seek(); });
form.hidden = false;
// Whoever comes back finds what was typed, and a browser may have kept it.
addEventListener("pageshow", () => { arrange(); seek(); });
