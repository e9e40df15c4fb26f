// What makes the pages quicker: answers as one types, values to tap, the characters a number pad lacks,
// copying, what is kept on this device, and a word where there is no connection. All of it is also had without.
'use strict';

(() => {
  const one = (selector, within = document) => within.querySelector(selector);
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const form = one('#form');
  const state = one('#state');
  const isPhone = matchMedia('screen and (max-width: 62.49em)');
  document.documentElement.classList.add('scripted');

  const make = (tag, attributes = {}, ...inside) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
      else element.setAttribute(name, value);
    }
    element.append(...inside);
    return element;
  };
  const later = (act, wait) => {
    let timer;
    return () => {
      clearTimeout(timer);
      timer = setTimeout(act, wait);
    };
  };

  // ---- What the page has to say.
  let clearing;
  const say = (words, stays = false) => {
    clearTimeout(clearing);
    state.textContent = words;
    state.hidden = !words;
    if (words && !stays) clearing = setTimeout(() => say(offlineSays, true), 4000);
  };

  // ---- What is kept on this device, and nowhere else.
  const stored = (name) => {
    try {
      return JSON.parse(localStorage.getItem(name)) || [];
    } catch {
      return [];
    }
  };
  const store = (name, value) => {
    try {
      localStorage.setItem(name, JSON.stringify(value));
    } catch {
      // A device that keeps nothing still answers.
    }
  };
  const canonical = () => one('link[rel=canonical]');
  const here = () => (canonical() ? canonical().getAttribute('href') : location.pathname + location.search);
  const leads = () => all('#answer .lead').map((lead) => lead.textContent.replace(/\s+/g, ' ').trim()).join(', ');
  const entryOf = () => {
    const given = all('.given tr').map((row) => one('td', row).textContent).slice(0, 3).join(', ');
    return { href: here(), title: one('h1').textContent, given, says: leads() };
  };
  const remember = () => {
    const entry = entryOf();
    const path = (href) => href.split('?')[0];
    store('recent', [entry, ...stored('recent').filter((known) => path(known.href) !== path(entry.href))].slice(0, 12));
  };
  const isKept = () => stored('kept').some((known) => known.href === here());
  const toggleKept = (event) => {
    const rest = stored('kept').filter((known) => known.href !== here());
    store('kept', isKept() ? rest : [entryOf(), ...rest].slice(0, 60));
    event.target.textContent = isKept() ? 'Kept: let go' : 'Keep';
    say(isKept() ? 'Kept on this device; it stands on the first page.' : 'No longer kept.');
  };
  // ---- Copying, also where the browser offers no clipboard.
  const copy = async (text, words) => {
    try {
      await navigator.clipboard.writeText(text);
    } catch {
      const area = make('textarea', { class: 'away', 'aria-hidden': 'true' });
      area.value = text;
      document.body.append(area);
      area.select();
      document.execCommand('copy');
      area.remove();
    }
    say(words);
  };
  const asText = (table) =>
    all('tr', table).map((row) => all('th,td', row).map((cell) => cell.textContent.trim()).join('\t')).join('\n');

  const enhance = () => {
    for (const cell of all('.sheet [data-copy]')) {
      const value = cell.dataset.copy;
      const button = make('button', { type: 'button', class: 'copy', title: `Copy ${value}`,
        onclick: () => copy(value, `${value} is copied.`) }, ...cell.childNodes);
      cell.replaceChildren(button);
      cell.removeAttribute('data-copy');
    }
    for (const table of all('.sheet .scroll > table')) {
      const button = make('button', { type: 'button', class: 'quiet',
        onclick: () => copy(asText(table), 'The table is copied.') }, 'Copy the table');
      const main = table.closest('.main-table');
      // The table in the card is copied from below it, so that the card stays short.
      if (main) one('#rest .take[data-main]').prepend(button, ' ');
      else table.parentElement.after(make('p', { class: 'take' }, button));
    }
    const take = one('#rest .take[data-main]');
    if (take) {
      take.append(
        make('button', { type: 'button', class: 'quiet', onclick: toggleKept }, isKept() ? 'Kept: let go' : 'Keep'), ' ',
        make('button', { type: 'button', class: 'quiet', onclick: () => print() }, 'Print'));
    }
    // Heard by those who do not see the card change.
    if (told.textContent !== leads()) told.textContent = leads();
    fold();
  };

  // ---- What an answer rests on is folded on a phone, as long as one does not open it; on paper it is open.
  const opened = new Set();
  const groundName = (ground) => ground.classList[1];
  const fold = () => {
    for (const ground of all('details.ground')) ground.open = !isPhone.matches || opened.has(groundName(ground));
  };
  isPhone.addEventListener('change', () => fold());
  document.addEventListener('click', ({ target }) => {
    const ground = target.closest('details.ground > summary') && target.closest('details.ground');
    if (ground) opened[ground.open ? 'delete' : 'add'](groundName(ground));
  });
  window.addEventListener('beforeprint', () => all('details.ground').forEach((ground) => (ground.open = true)));
  window.addEventListener('afterprint', () => fold());

  // ---- The answer stays in sight: what is focused or scrolled to stands below the card.
  const told = make('p', { class: 'away', role: 'status' });
  const card = one('.calculator #answer');
  if (card) {
    const root = document.documentElement;
    const measured = () => root.style.setProperty('--card-height', isPhone.matches ? `${card.offsetHeight}px` : '0px');
    new ResizeObserver(measured).observe(card);
    isPhone.addEventListener('change', measured);
  }
  // What is typed in stays where it is, while the answer above it grows or goes.
  const held = () => {
    const at = document.activeElement;
    if (!form || !form.contains(at)) return () => {};
    const before = at.getBoundingClientRect().top;
    return () => {
      const covered = isPhone.matches ? card.getBoundingClientRect().bottom + 8 : 0;
      scrollBy(0, at.getBoundingClientRect().top - Math.max(before, covered));
    };
  };

  // ---- No connection.
  let offlineSays = '';
  const connected = (is, words = 'Not connected: nothing can be worked out now. What stands here was worked out before.') => {
    offlineSays = is ? '' : words;
    document.body.classList.toggle('offline', !is);
    if (!is || state.textContent) say(offlineSays, true);
  };
  const check = async () => {
    try {
      await fetch('/healthz', { cache: 'no-store' });
      connected(true);
    } catch {
      const copyOf = 'caches' in window && (await caches.match(location.href.split('#')[0], { ignoreVary: true }));
      const date = copyOf && copyOf.headers.get('date');
      const when = date ? ` What stands here was worked out on ${new Date(date).toLocaleString()}.` : '';
      connected(false, `Not connected: nothing can be worked out now.${when}`);
    }
  };

  // ---- Answers as one types.
  let turn = 0;
  let submitted = location.search.length > 1;
  const settle = later(() => {
    remember();
    const worker = navigator.serviceWorker && navigator.serviceWorker.controller;
    if (worker) worker.postMessage({ keep: here() });
  }, 1200);

  const take = (next) => {
    const settleScroll = held();
    for (const id of ['answer', 'rest', 'grounds']) one(`#${id}`).replaceChildren(...one(`#${id}`, next).childNodes);
    for (const field of all('.field[data-field]', form)) {
      const same = one(`.field[data-field="${field.dataset.field}"]`, next);
      const control = one('[name]', field);
      const wrongs = one('.wrongs', field);
      if (!same || !wrongs) continue;
      const found = all('.wrongs > *', same);
      // What one has not come to yet is not wrong.
      const shown = found.filter((wrong) => submitted || !wrong.matches('.missing, .missing + .try'));
      wrongs.replaceChildren(...shown);
      control.toggleAttribute('aria-invalid', shown.length > 0);
      if (shown.length) {
        control.setAttribute('aria-invalid', 'true');
        control.setAttribute('aria-describedby', `${control.id}-wrong ${control.id}-about`);
        uncover(field);
      }
      const typed = one('[name]', same);
      const unit = one('select.unit', field);
      if (unit && control.value.trim()) {
        unit.value = one('select.unit', same).value;
        control.dataset.number = typed.value;
      }
    }
    const address = one('link[rel=canonical]', next).getAttribute('href');
    canonical().setAttribute('href', address);
    history.replaceState(null, '', address);
    enhance();
    settleScroll();
  };

  const answer = async () => {
    const own = ++turn;
    const stated = new URLSearchParams([...new FormData(form)].filter(([, value]) => value !== ''));
    let response;
    try {
      response = await fetch(`${location.pathname}?${stated}`, { headers: { accept: 'text/html' } });
      if (![200, 422].includes(response.status)) throw new Error(String(response.status));
    } catch {
      connected(false, 'Not connected: nothing can be worked out now. The answer is of the values before.');
      return;
    }
    const text = await response.text();
    if (own !== turn) return;
    connected(true);
    take(new DOMParser().parseFromString(text, 'text/html'));
    if (response.ok && one('#answer .answer-part')) settle();
  };
  const soon = later(answer, 250);

  const control = (name) => {
    const found = form && form.elements[name];
    return found instanceof RadioNodeList ? null : found;
  };
  const uncover = (element) => {
    const folded = element && element.closest('details');
    if (folded) folded.open = true;
    if (folded && folded.matches('.ground')) opened.add(groundName(folded));
  };
  // Of a text that stands in boxes, the first of them.
  const visible = (element) => (element && element.hidden ? one('.boxes input, .boxes select', element.parentElement) : element);
  const set = (name, value) => {
    const at = form.elements[name];
    if (!at) return false;
    const choices = at instanceof HTMLSelectElement ? [...at.options].map((option) => option.value) : null;
    if (choices && !choices.includes(value)) return false;
    at.value = at instanceof HTMLTextAreaElement ? value.replace(/;\s*/g, '\n') : value;
    at.dispatchEvent(new Event('filled'));
    uncover(control(name));
    return true;
  };

  // Inch or metric presets the units that are not chosen yet.
  const preset = () => {
    const system = form.elements.units.value;
    if (!system) return;
    for (const unit of all('select.unit', form)) {
      const input = control(unit.name.replace(/\.unit$/, ''));
      if (input && !input.value.trim()) unit.value = unit.dataset[system] || unit.value;
    }
  };

  if (form) {
    form.before(told);
    form.addEventListener('focusin', ({ target }) => {
      const field = target.closest('.field');
      if (field) field.classList.add('told');
    });
    form.addEventListener('input', (event) => {
      const { name } = event.target;
      if (name === 'units') {
        store('units', event.target.value);
        preset();
      } else if (name === 'machine') {
        store('machine', event.target.value);
      } else if (name.endsWith('.unit')) {
        // The number stays, its unit changes.
        const input = control(name.slice(0, -5));
        if (input && input.dataset.number) {
          input.value = input.dataset.number;
          input.dispatchEvent(new Event('filled'));
        }
      } else if (event.target.dataset.number) {
        delete event.target.dataset.number;
      }
      if (name.startsWith('range.')) return;
      // An answer still on its way is of values before this one, and would set a unit back.
      turn += 1;
      soon();
    });
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      submitted = true;
      answer().then(() => {
        const wrong = one('[aria-invalid=true]', form);
        if (wrong) visible(wrong).focus();
        // The card is in sight wherever one is.
        else card.focus({ preventScroll: true });
      });
    });
    if (!location.search && stored('units').length) {
      const radio = all('[name=units]', form).find((choice) => choice.value === stored('units'));
      if (radio) radio.checked = true;
      preset();
    }
    const machine = control('machine');
    if (!location.search && machine && [...machine.options].some(({ value }) => value === stored('machine'))) {
      machine.value = stored('machine');
    }
    // However the form was sent, the address is the one to send on.
    history.replaceState(null, '', here() + location.hash);
    if (one('#answer .answer-part')) settle();
    enhance();
  }

  document.addEventListener('click', (event) => {
    const link = event.target.closest('a');
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (link.dataset.field && form && set(link.dataset.field, link.dataset.value)) {
      event.preventDefault();
      submitted = true;
      const at = visible(control(link.dataset.field));
      if (at) {
        at.focus();
        if (at.select) at.select();
      }
      answer();
    } else if (link.dataset.open) {
      const at = control(link.dataset.open) || document.getElementById(link.dataset.open);
      uncover(at);
      event.preventDefault();
      at.scrollIntoView();
      (one('summary', at) || at).focus();
    } else if ('share' in link.dataset) {
      event.preventDefault();
      if (navigator.share && matchMedia('(pointer: coarse)').matches) {
        navigator.share({ title: document.title, url: link.href }).catch(() => {});
      } else {
        copy(link.href, 'The link is copied.');
      }
    }
  });

  // ---- The characters that a number pad lacks.
  if (form && matchMedia('(pointer: coarse)').matches) {
    const put = (input, mark) => {
      const text = { '␣': ' ', '↵': '\n' }[mark] || mark;
      input.setRangeText(text, input.selectionStart, input.selectionEnd, 'end');
      input.dispatchEvent(new Event('input', { bubbles: true }));
    };
    const named = { '␣': 'space', '↵': 'next line', '-': 'minus', '/': 'stroke', '.': 'point', ',': 'comma' };
    for (const input of all('[data-inputmode]', form)) input.inputMode = input.dataset.inputmode;
    form.addEventListener('focusin', ({ target }) => {
      // A row that goes away while something below it is being pressed would move it from under the finger.
      if (!target.dataset.keys) return;
      const row = one('.keys', form);
      if (row) row.remove();
      const key = (mark) => make('button', { type: 'button', 'aria-label': named[mark] || mark,
        onclick: () => put(target, mark) }, mark);
      const letters = make('button', { type: 'button', 'aria-label': 'letters', onclick: () => {
        target.inputMode = 'text';
        target.blur();
        target.focus();
      } }, 'abc');
      const keys = make('div', { class: 'keys', role: 'group', 'aria-label': 'Characters' },
        ...target.dataset.keys.split(' ').map(key), ...(target.inputMode === 'decimal' ? [letters] : []));
      keys.addEventListener('pointerdown', (event) => event.preventDefault());
      target.closest('.entry').after(keys);
    });
  }

  // What the script of the first page uses too.
  window.reckoner = { one, all, make, later, stored, store, connected };

  const keptPages = one('#kept-pages');
  if (keptPages && 'caches' in window) {
    const links = [...stored('kept'), ...stored('recent')];
    keptPages.replaceChildren(...links.map(({ href, title, given, says }) =>
      make('li', {}, make('a', { href }, title), make('p', {}, [given, says].filter(Boolean).join(' → ')))));
  }

  // ---- Without a connection.
  window.addEventListener('offline', check);
  window.addEventListener('online', check);
  if (navigator.serviceWorker) {
    navigator.serviceWorker.register('/service-worker.js').then(() => navigator.serviceWorker.ready).then((ready) => {
      // The first page was fetched before there was a worker to keep it.
      ready.active.postMessage({ keep: location.href });
    }).catch(() => {});
    if (navigator.serviceWorker.controller) check();
  }
})();
