// Shows what the extension sends, and tells it how the band is to be looked at.

const host = acquireVsCodeApi();
const [view, band, trouble] = ["view", "band", "trouble"].map((id) => document.getElementById(id));

/** As an image a picture runs no script and fetches nothing, whatever its text says. */
const dataUri = (svg) => `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;

const wished = () => {
  const fields = new FormData(view);
  return { chart: fields.get("chart") === "yes", vision: fields.get("vision") || undefined };
};

view.addEventListener("change", () => host.postMessage({ view: wished() }));

addEventListener("message", ({ data }) => {
  host.setState(data.state);
  trouble.hidden = !data.trouble;
  trouble.textContent = data.trouble ?? "";
  // While the text does not tie, the last band that did stays in view, paler.
  band.classList.toggle("old", Boolean(data.trouble));
  if (!data.svg) return;
  band.src = dataUri(data.svg);
  band.alt = data.title;
  band.hidden = false;
});

const { chart, vision } = host.getState()?.view ?? {};
view.elements.chart.value = chart ? "yes" : "";
view.elements.vision.value = vision ?? "";
host.postMessage({ ready: true });
