// The line to whoever holds the text.

const AGAIN_MS = 1000;

/** Opens the line. `hear` is called with every message; `lost` once, when nobody is there any more. When somebody is there
 * again, at the same address, the page loads again: the program may be another version. */
export const openLine = (hear, lost) => {
  const address = new URL("line", location.href);
  address.protocol = "ws:";
  const socket = new WebSocket(address);
  const find = () => {
    const other = new WebSocket(address);
    other.addEventListener("open", () => location.reload());
    other.addEventListener("error", () => setTimeout(find, AGAIN_MS));
  };
  socket.addEventListener("message", (event) => hear(JSON.parse(event.data)));
  socket.addEventListener("close", () => {
    lost();
    setTimeout(find, AGAIN_MS);
  });
  return (message) => {
    if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
  };
};
