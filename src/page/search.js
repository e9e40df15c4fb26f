// The first page: it answers as one types, shows what is kept on this device, and opens the tasks where there is room.
'use strict';

(() => {
  const { one, all, make, later, stored, store, connected } = window.reckoner;
  const find = one('#find');
  if (!find) return;
  const words = find.elements.find;
  const said = () => words.value.trim();

  // ---- What is kept on this device: a few lines open, the rest folded.
  const FEW = 3;
  const line = ({ href, title, given, says }) =>
    make('li', {}, make('a', { href }, title), make('p', {}, [given, says].filter(Boolean).join(' → ')));
  const section = (name, title) => {
    const entries = stored(name);
    if (!entries.length) return [];
    const list = (some) => make('ul', { class: 'titles' }, ...some.map(line));
    const forget = make('button', { type: 'button', class: 'quiet', onclick: () => (store(name, []), showOwn()) }, 'Forget these');
    const rest = make('details', { class: 'more' },
      make('summary', {}, entries.length > FEW ? `${entries.length - FEW} more` : 'Forget'), list(entries.slice(FEW)), forget);
    return [make('section', {}, make('h2', {}, title), list(entries.slice(0, FEW)), rest)];
  };
  const showOwn = () => {
    const own = one('#own');
    if (!own) return;
    own.replaceChildren(...section('kept', 'Kept'), ...section('recent', 'Recent'));
    own.hidden = !own.children.length;
  };

  // ---- The tasks stand open where there is room for them side by side.
  const room = matchMedia('(min-width: 60em)');
  const unfold = () => all('.by-task > .task').forEach((task) => (task.open = room.matches));

  // ---- The answer as one types.
  const ready = () => {
    showOwn();
    unfold();
  };
  // What stands there, or is on its way. It is not asked for twice: a list replaced by the same one takes the focus away.
  let wanted = said();
  const look = async () => {
    const asked = said();
    if (asked === wanted) return;
    wanted = asked;
    const address = asked ? `/?find=${encodeURIComponent(asked)}` : '/';
    const list = one('#list');
    list.setAttribute('aria-busy', 'true');
    const response = await fetch(address, { headers: { accept: 'text/html' } }).catch(() => null);
    const text = response && response.ok ? await response.text().catch(() => null) : null;
    // Something else was typed meanwhile: that is looked for by itself.
    if (said() !== asked) {
      if (wanted === asked) wanted = null;
      return;
    }
    list.removeAttribute('aria-busy');
    if (text === null) {
      wanted = null;
      const busy = response && [429, 503].includes(response.status);
      connected(Boolean(response), busy ? '' : 'Not connected: the search needs the service.');
      one('#heard').textContent = busy ? 'The service is busy. Press Find to ask again.' : 'No answer.';
      return;
    }
    connected(true);
    const next = new DOMParser().parseFromString(text, 'text/html');
    list.replaceChildren(...one('#list', next).childNodes);
    history.replaceState(null, '', address);
    const found = one('.found', list);
    one('#heard').textContent = found ? found.dataset.said : '';
    ready();
  };
  words.addEventListener('input', later(look, 200));
  find.addEventListener('submit', (event) => {
    event.preventDefault();
    // The keys of a phone cover the answer: they go.
    words.blur();
    look();
  });
  // A way to say it stands in the box when it is tapped, and is answered like what is typed.
  one('#list').addEventListener('click', (event) => {
    const way = event.target.closest('a[href^="/?find="]');
    if (!way || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    words.value = new URLSearchParams(way.getAttribute('href').slice(2)).get('find');
    look();
    words.focus({ preventScroll: true });
  });
  room.addEventListener('change', unfold);
  ready();
})();
