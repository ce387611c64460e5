// Speaks with the bench: one message out, one in. While a hand moves, only the last value waits.

export function createTalk() {
  const listeners = {};
  let socket;
  let id = 0;
  let isTrying = false;
  let waiting = null;
  let sent = 0;

  function open() {
    socket = new WebSocket(`ws://${location.host}/talk`);
    socket.onmessage = ({ data }) => {
      const message = JSON.parse(data);
      if (isTrying && message.id === sent) {
        isTrying = false;
        if (waiting) {
          const values = waiting;
          waiting = null;
          talk.tryOut(values);
        }
      }
      tell(message.kind, message);
    };
    socket.onopen = () => tell('open');
    socket.onclose = () => tell('closed');
  }

  function tell(kind, message) {
    for (const listener of listeners[kind] ?? []) listener(message);
  }

  const talk = {
    open,
    lastTried: [],
    on(kind, listener) { (listeners[kind] ??= []).push(listener); },

    say(message) {
      if (socket.readyState !== WebSocket.OPEN) return 0;
      socket.send(JSON.stringify({ ...message, id: ++id }));
      return id;
    },

    /** Lets values be heard that are not written. */
    tryOut(values) {
      if (isTrying) {
        waiting = values;
        return;
      }
      isTrying = true;
      talk.lastTried = values;
      sent = talk.say({ kind: 'try', values });
    },

    /** Writes values; what waited to be tried is passed over. */
    set(values) {
      waiting = null;
      return talk.say({ kind: 'set', values });
    },
  };
  return talk;
}
