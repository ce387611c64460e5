// The keyboard.

function listenToKeys(actions) {
  document.addEventListener('keydown', event => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.repeat && !event.key.startsWith('Arrow')) return;
    const target = event.target;
    const types = target instanceof HTMLInputElement && (target.type === 'number' || target.type === 'text');
    const slides = target instanceof HTMLInputElement && target.type === 'range';
    if (types) return;
    const isOwn = target instanceof HTMLButtonElement || target instanceof HTMLInputElement || target instanceof HTMLElement && target.tagName === 'SUMMARY';
    if (event.key === ' ' && isOwn && !slides) return;
    if (event.key.startsWith('Arrow') && (slides || target instanceof HTMLElement && target.classList.contains('scroll'))) return;
    if (!byId('keys').checked && event.key.length === 1 && event.key !== ' ') return;
    const action = actions[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (action && action() !== false) event.preventDefault();
  });
}
