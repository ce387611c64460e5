// What a look over the takes found: as a list, and beside the bus that is open.

import { byId, element } from './words.js';

const numbered = print => `${String(print.number).padStart(2, '0')} ${print.name}`;

export function createFindings(talk, act) {
  let found = null;
  let isOld = false;
  // Each change is followed by the same findings once more; only a look brings new ones.
  let isEcho = false;
  let isChangedMeanwhile = false;
  let isStopping = false;

  function item(finding) {
    const made = element('li', undefined, { class: finding.weight.replace(' ', '-') });
    made.append(element('strong', `${finding.weight}${finding.about ? `, ${finding.about}` : ''}: `), element('span', `${finding.text} `));
    if (finding.at_s !== undefined) {
      const go = element('button', `Go to ${finding.where}`, { type: 'button' });
      go.addEventListener('click', () => act.move(finding.at_s));
      made.append(go);
    }
    if (finding.fix) made.append(element('span', ` ${finding.fix}`, { class: 'hint' }));
    made.append(element('span', ` (${finding.rule})`, { class: 'hint' }));
    return made;
  }

  function move(each) {
    const made = element('li', `${each.text} `);
    const write = element('button', 'Write into the chain', { type: 'button', 'aria-label': `Write into the chain: ${each.text}` });
    write.addEventListener('click', () => act.lineUp(each.track));
    made.append(write);
    return made;
  }

  function sum() {
    const open = found.findings.filter(finding => finding.weight !== 'signed off').length;
    const lines = found.moves.length === 0 ? 'Microphones of one drum are lined up.' : `${found.moves.length} of the close microphones would move.`;
    return `${open === 0 ? 'Nothing is open.' : open === 1 ? 'One thing is open.' : `${open} things are open.`} ${lines} ${found.notes.join(' ')}`;
  }

  function tellAge() {
    for (const list of ['found', 'open-found']) byId(list).classList.toggle('old', isOld);
    byId('found-old').hidden = byId('open-found-old').hidden = !isOld;
  }

  talk.on('changed', message => {
    if (message.by === 'try') return;
    isChangedMeanwhile = true;
    if (!found) return;
    isOld = isEcho = true;
    tellAge();
  });
  talk.on('findings', message => {
    found = message;
    if (!isEcho) {
      isStopping = false;
      isOld = isChangedMeanwhile;
      tellAge();
    }
    isEcho = false;
    byId('found').replaceChildren(...found.findings.map(item));
    byId('moves').replaceChildren(...found.moves.map(move));
    byId('look-words').textContent = sum();
    act.again();
  });
  talk.on('progress', message => {
    if (message.job !== 'look') return;
    const isRunning = message.activity !== '';
    byId('found-old').hidden = !isOld || isRunning;
    byId('look-progress').hidden = byId('stop-look').hidden = !isRunning;
    byId('look').disabled = isRunning;
    byId('look-progress').value = message.part;
    if (isRunning) byId('look-words').textContent = `${message.activity} …`;
    else byId('look-words').textContent = found ? sum() : '';
    if (isRunning || !isStopping) return;
    isStopping = false;
    act.say('Stopped looking.');
  });
  byId('look').addEventListener('click', () => {
    isChangedMeanwhile = isStopping = false;
    talk.say({ kind: 'look' });
  });
  byId('stop-look').addEventListener('click', () => {
    isStopping = true;
    talk.say({ kind: 'stop_look' });
  });

  return {
    /** Shows what was found of a bus, of what feeds it and of its prints, and what would line them up. */
    show(state, name) {
      const bus = state.buses.find(each => each.name === name);
      const names = new Set(bus ? [name, ...bus.feeds.map(feed => feed.source), ...state.prints.filter(print => print.bus === name).flatMap(print => [print.name, numbered(print)])] : []);
      const near = (found?.findings ?? []).filter(finding => finding.weight !== 'signed off' && names.has(finding.about));
      const moves = (found?.moves ?? []).filter(each => names.has(each.track));
      byId('open-found-box').hidden = near.length + moves.length === 0;
      byId('open-found-words').textContent = `Found of this bus and what feeds it: ${near.length + moves.length}`;
      byId('open-found').replaceChildren(...moves.map(move), ...near.map(item));
    },
  };
}
