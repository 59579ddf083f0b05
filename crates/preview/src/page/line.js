// The line to whoever holds the text.

/** Opens the line. `hear` is called with every message; `lost` once, when nobody is there any more. */
export const openLine = (hear, lost) => {
  const address = new URL("line", location.href);
  address.protocol = "ws:";
  const socket = new WebSocket(address);
  socket.addEventListener("message", (event) => hear(JSON.parse(event.data)));
  socket.addEventListener("close", lost);
  return (message) => {
    if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
  };
};
