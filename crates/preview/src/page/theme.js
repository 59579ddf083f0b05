// Light or dark: as whoever frames the page asks (`?theme=dark`), or else as the system is set.

const asked = new URLSearchParams(location.search).get("theme");
const system = matchMedia("(prefers-color-scheme: dark)");
const settle = () => document.documentElement.classList.toggle("dark", asked === null ? system.matches : asked === "dark");
system.addEventListener("change", settle);
settle();
