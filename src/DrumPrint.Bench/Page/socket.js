// Runs beside the page, so that nothing the page draws holds the sound up. Takes blocks from the bench and gives them to the speaker.

let speaker;
let socket;

onmessage = ({ data }) => {
  if (!data.port) {
    open(data.address);
    return;
  }
  speaker = data.port;
  speaker.onmessage = ({ data: room }) => give(room);
  open(data.address);
};

function open(address) {
  if (socket) {
    socket.onclose = null;
    socket.close();
  }
  socket = new WebSocket(address);
  socket.binaryType = 'arraybuffer';
  socket.onopen = () => speaker.postMessage('open');
  socket.onmessage = ({ data }) => speaker.postMessage(data, [data]);
  socket.onclose = () => postMessage('closed');
}

function give(room) {
  if (socket?.readyState === WebSocket.OPEN) socket.send(Uint8Array.of(room));
}
