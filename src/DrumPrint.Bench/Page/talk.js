// Speaks with the bench: one message out, one in. While a hand moves, only the last value waits.

const waitMs = 500;
const tries = 20;

export function createTalk() {
  const page = crypto.randomUUID();
  const listeners = {};
  let socket;
  let id = 0;
  let isTrying = false;
  let waiting = null;
  let sent = 0;

  let failed = 0;
  let isOver = false;

  function open() {
    socket = new WebSocket(`ws://${location.host}/talk?page=${page}${id > 0 || failed > 0 ? '&again' : ''}`);
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
    socket.onopen = () => {
      failed = 0;
      tell('open');
    };
    socket.onclose = async () => {
      isTrying = false;
      waiting = null;
      if (isOver) return;
      failed++;
      if (failed === 1) tell('lost');
      if (failed > tries || failed > 2 && await isThere()) tell('closed');
      else setTimeout(open, waitMs);
    };
  }

  // A bench that is there, but lets this page in no more, has another window.
  const isThere = () => fetch('favicon.ico').then(() => true, () => false);

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

    /** Lets go of the way, as sleep does. */
    drop() { socket.close(); },

    /** Nothing more is to come. */
    end() { isOver = true; },

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
