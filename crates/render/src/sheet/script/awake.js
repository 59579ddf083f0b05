// Keeps the screen on while the page is followed, if asked and if the browser can (W3C Screen Wake Lock API).

const stayAwake = () => {
  const box = id("awake");
  if (!("wakeLock" in navigator)) return;
  id("awake-line").hidden = false;
  let lock = null;
  const settle = async () => {
    if (!box.checked) {
      await lock?.release();
      lock = null;
    } else if (document.visibilityState === "visible" && (!lock || lock.released)) {
      // A browser that saves power may refuse; then the box is empty again, which says so.
      lock = await navigator.wakeLock.request("screen").catch(() => null);
      box.checked = lock !== null;
    }
  };
  box.addEventListener("change", settle);
  document.addEventListener("visibilitychange", settle);
};
