// Points and records as rows of boxes, one for each column, over the text that the form sends. Without it the text itself
// is filled.
'use strict';

(() => {
  const form = document.querySelector('#form');
  const make = (tag, attributes, ...inside) => {
    const element = Object.assign(document.createElement(tag), attributes);
    element.append(...inside);
    return element;
  };
  const coarse = matchMedia('(pointer: coarse)').matches;
  const article = (word) => (/^[aeio]/i.test(word) ? 'an' : 'a');

  const build = (text) => {
    const columns = JSON.parse(text.dataset.columns);
    const several = text instanceof HTMLTextAreaElement;
    const row = text.dataset.row || 'point';
    const entry = text.closest('.entry');
    const label = form.querySelector(`label[for="${text.id}"]`);
    const grid = make('div', { className: 'boxes', role: 'group' });
    grid.setAttribute('aria-label', label.textContent);
    grid.style.gridTemplateColumns = `repeat(${columns.length}, minmax(0, 1fr))${several ? ' 3rem' : ''}`;
    let rows = [];

    // A row that is half filled is left out while one is typing in it; it goes along with all that is sent.
    const put = (whole) => {
      const typing = document.activeElement;
      const cells = rows.map((boxes) => boxes.map((box) => box.value.trim()));
      const kept = cells.filter((values, at) =>
        values.some(Boolean) && (whole || values.every(Boolean) || !rows[at].includes(typing)));
      const last = (values) => values.slice(0, values.findLastIndex(Boolean) + 1);
      const filled = kept.map((values) => last(values).join(',')).join('\n');
      if (filled === text.value) return;
      text.value = filled;
      text.dispatchEvent(new Event('input', { bubbles: true }));
    };
    const box = (column, value, at) => {
      const made = column.choices.length
        ? make('select', {}, ...[['', '…'], ...column.choices].map(([word, says]) => new Option(says, word, false, word === value)))
        : make('input', { type: 'text', value, autocomplete: 'off', spellcheck: false, autocapitalize: 'off' });
      made.setAttribute('aria-label', `${label.firstChild.textContent.trim()}: ${several ? `${row} ${at + 1}, ` : ''}${column.label}`);
      made.setAttribute('aria-describedby', text.getAttribute('aria-describedby'));
      if (column.number) {
        made.dataset.keys = '- . / ␣';
        if (coarse) made.inputMode = 'decimal';
      }
      return made;
    };
    const show = (values) => {
      rows = values.map((cells, at) => columns.map((column, of) => box(column, cells[of] || '', at)));
      const away = (at) => make('button', { type: 'button', className: 'quiet', ariaLabel: `Remove ${row} ${at + 1}`, onclick: () => {
        const left = rows.map((boxes) => boxes.map((made) => made.value)).filter((_, of) => of !== at);
        show(left.length ? left : [[]]);
        put(true);
        rows[Math.min(at, rows.length - 1)][0].focus();
      } }, '×');
      const add = make('button', { type: 'button', className: 'quiet full', onclick: () => {
        show([...rows.map((boxes) => boxes.map((made) => made.value)), []]);
        rows.at(-1)[0].focus();
      } }, `Add ${article(row)} ${row}`);
      grid.replaceChildren(
        ...columns.map((column) => make('span', { className: 'head', ariaHidden: 'true' }, column.label)),
        ...(several ? [make('span', {})] : []),
        ...rows.flatMap((boxes, at) => [...boxes, ...(several ? [away(at)] : [])]),
        ...(several ? [add] : []));
      rows[0][0].id = `${text.id}-first`;
    };
    const read = () => {
      const stated = text.value.split(/[;\n]/).map((line) => line.split(',').map((cell) => cell.trim()));
      const filled = stated.filter((cells) => cells.some(Boolean));
      return several ? [...filled, ...Array(Math.max(0, 2 - filled.length)).fill([])] : [filled[0] || []];
    };
    show(read());
    grid.addEventListener('input', () => put(false));
    grid.addEventListener('focusout', () => setTimeout(() => put(!grid.contains(document.activeElement)), 0));
    text.addEventListener('filled', () => show(read()));
    form.addEventListener('submit', () => put(true), { capture: true });
    text.hidden = true;
    label.htmlFor = `${text.id}-first`;
    entry.classList.add('by-rows');
    const unit = entry.querySelector('select.unit, span.unit');
    if (unit) label.after(unit);
    entry.append(grid);
  };

  // Text that has another form, JSON or several points for one, stays text.
  const fits = (text) => !/^\s*[[{]|\||\.\./.test(text.value);
  if (form) for (const text of form.querySelectorAll('[data-columns]')) if (fits(text)) build(text);
})();
